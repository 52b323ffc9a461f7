/// @file
/// Answers as JSON for other programs; keys, units and order are documented in docs/json.md and data/schema/. The text
/// ends with a newline. Numbers are written with 12 significant digits, the same in every locale. A number that is not
/// finite is a mistake of ours, never an output: std::logic_error.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/advise/chart.hpp"
#include "loftwright/advise/ladder.hpp"
#include "loftwright/book/book.hpp"
#include "loftwright/clinic/clinic.hpp"
#include "loftwright/clinic/rack.hpp"
#include "loftwright/core/findings.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/files/academy_file.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/files/pupil_folder.hpp"
#include "loftwright/files/session_pupil.hpp"
#include "loftwright/shot/shares.hpp"
#include "loftwright/shots/detail/change.hpp"
#include "loftwright/shots/heads.hpp"
#include "loftwright/swing/arc.hpp"
#include "loftwright/tune/tune.hpp"

namespace loftwright {

/// `units` is for the sentences only.
std::string fly_json(const Drive& drive, const Setting& setting, UnitSystem units);
/// A strike: what was delivered, in what, and the drive it made.
struct Strike {
  Delivery delivery;                  ///< the player's own hand
  Handed handed = Handed::right;      ///< whose delivery it is
  std::optional<double> club_loft{};  ///< [rad] none: nobody said
  Setting setting;                    ///< it was computed in
  Drive drive{};                      ///< that it made
};
/// A second strike beside the first, and who did what between them.
struct Versus {
  Strike strike;                                              ///< the second
  double follow;                                              ///< [-] that `shares` are reckoned with
  bool club_known;                                            ///< else the club's share is zero
  Shares shares;                                              ///< by who did what
  std::array<Shares, kOtherFollows.size()> shares_otherwise;  ///< in the order of kOtherFollows
  HeldShares shares_loft_held;                                ///< by what was measured
};
std::string strike_json(const Strike& strike, UnitSystem units,
                        const Versus* versus = nullptr);  ///< a strike, and a second beside it
/// What stands beside advice when it was asked for.
struct BesideAdvice {
  const Ladder* ladder = nullptr;       ///< the lesson ladder
  const SessionPupil* taken = nullptr;  ///< what of the pupil was taken from where, when from a book
};
/// Advice on a pupil.
std::string advise_json(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units,
                        const BesideAdvice& beside = {});

std::string chart_json(const Chart& chart, const Setting& setting, UnitSystem units);  ///< a loft table

/// Angles as the player's hand has them.
std::string arc_json(const Arc& arc, const ArcAtBall& at_ball, Handed handed);

std::string shots_json(const ShotsAnswer& answer, const Setting& setting);  ///< a list's means, scatter and notes

/// Two lists compared.
std::string compare_json(const CompareAnswer& answer, UnitSystem units);

/// Heads side by side; `files` as the user named them.
std::string heads_json(const HeadsAnswer& answer, const std::vector<std::string>& files, const Setting& setting,
                       UnitSystem units);

/// `file` is the shot list's as the user named it, `block` the pupil file's part (tuned_block).
std::string tune_json(const TuneResult& result, std::string_view file, const std::string& block, const Setting& setting,
                      UnitSystem units);

/// For other programs, "loftwright-book-history/1"; `units` is for the sentence only. The catalogue has the heads.
std::string history_json(const Book& book, const Catalogue& catalogue, UnitSystem units);

/// Many pupils: what their folder holds, and what became of each of its pupils' files.
struct ClinicAnswer {
  PupilFolder folder;                     ///< the pupils' files
  std::vector<ClinicResult> results;      ///< one for each of folder.files
  std::optional<NamedAcademy> academy{};  ///< that gave what the files leave open
};
std::string clinic_json(const ClinicAnswer& answer, UnitSystem units);  ///< rows, and files that could not be used
/// For spreadsheets: a row a pupil that could be answered, in `units`, under a row of heads (RFC 4180).
std::string clinic_csv(const ClinicAnswer& answer, UnitSystem units);

/// Which lofts to own for the pupils of a folder.
struct RackAnswer {
  PupilFolder folder;                     ///< the pupils' files
  std::vector<CurveResult> results;       ///< one for each of folder.files
  RackSwing swing = RackSwing::now;       ///< which swing the lofts fit
  Rack rack;                              ///< its `uses` are one for each result that has a curve, in their order
  std::optional<NamedAcademy> academy{};  ///< likewise
};
std::string rack_json(const RackAnswer& answer, UnitSystem units);  ///< chosen, what each more would save, every curve

/// What the books of an academy say, "loftwright-lessons/1"; `units` is for the sentences only.
std::string lessons_json(const Lessons& lessons, const AcademyFolder& folder, UnitSystem units);

/// `file` as the user named it.
std::string check_json(std::string_view file, const Findings& findings);

}  // namespace loftwright
