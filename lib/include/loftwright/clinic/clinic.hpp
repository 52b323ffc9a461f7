/// @file
/// Many pupils at once: each is answered as advise() answers it alone, and of each only a row of a table is kept. Who
/// reads files hands the pupils over one by one, so that no more of them than there are threads are held at a time.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/core/findings.hpp"

namespace loftwright {

/// One pupil of a clinic, and everything outside that pupil.
struct Entrant {
  Pupil pupil;            ///< who
  Setting setting;        ///< ball, head, turf and weather as the pupil's file asks for them
  int warnings = 0;       ///< [-] how many doubts the file left
  std::string text = {};  ///< the file, for a page that shows it
  /// How far the model may be off for this pupil; none: as AdviseOptions says.
  std::optional<ErrorWidths> widths = {};
  std::optional<ReachedShare> reached = {};  ///< put beside the pupil's answer (Advice::reached)
  std::vector<std::string> taken = {};       ///< of Pupil::assumed what an academy gave (book/lessons.hpp)
};

/// Hands over the pupil of this number, from any thread. Throws InputError (FileError with every finding) when it
/// cannot be had: the others are answered all the same.
using EntrantSource = std::function<Entrant(std::size_t)>;

/// What a table of many pupils shows of one: the verdict, and the one choice it puts first (Verdict::leader).
struct ClinicRow {
  std::string name;                        ///< the pupil's
  Goal goal = Goal::carry;                 ///< what the gain is of
  int warnings = 0;                        ///< [-] how many doubts the file left
  bool feasible = true;                    ///< something meets every limit; else the rest says nothing
  std::vector<LimitState> must_give;       ///< infeasible: the limits that must give together (Strategy::must_give)
  Lever lever = Lever::leave;              ///< what to do
  Lever leader = Lever::leave;             ///< of `either` the one named first, else `lever`
  Certainty certainty = Certainty::close;  ///< how sure that is
  double probability = 0.0;                ///< [-] likewise
  double loft = 0.0;                       ///< [rad] of the club
  std::optional<ClubFit> fit;              ///< how it comes about; none: nothing is turned or bought
  double attack = 0.0;                     ///< [rad]
  double gain = 0.0;                       ///< [m] of the average drive
  std::optional<double> gain_low;          ///< [m] eight of ten lie between this ...
  std::optional<double> gain_high;         ///< [m] ... and this; none without draws
  double fairway_share = 0.0;              ///< [-] of drives held
  double fairway_share_now = 0.0;          ///< [-] with swing and club as they are
  std::optional<Measure> measure_first;    ///< what is worth measuring before choosing
  std::optional<double> reached_gain;      ///< [m] would `gain` be, were of its swing what Entrant::reached says
  std::vector<std::string> taken;          ///< Entrant::taken
};

/// The row of an answer.
ClinicRow clinic_row(const Advice& advice, const Pupil& pupil);

/// What became of one pupil.
struct ClinicResult {
  std::optional<ClinicRow> row;  ///< none: there is no answer
  Findings findings;             ///< why there is none
};

/// Who is told on the way, from any thread. Either may be empty.
struct ClinicWatch {
  std::function<void(std::size_t, const Entrant&, const Advice&)> answered;  ///< the number, and the whole answer
  std::function<void(std::size_t)> done;                                     ///< how many pupils are done
};

/// Answers `count` pupils on options.threads threads. The same for any number of them, and each row as advise() with
/// these options, and the entrant's widths, has it. Where nobody asks for whole answers, what a row does not show is
/// not computed.
std::vector<ClinicResult> clinic(std::size_t count, const EntrantSource& entrant, const AdviseOptions& options = {},
                                 const ClinicWatch& watch = {});

}  // namespace loftwright
