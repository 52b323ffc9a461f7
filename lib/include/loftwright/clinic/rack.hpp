/// @file
/// The equipment side of a whole clinic: which lofts should stand in the rack, so that its pupils together lose least
/// against the loft that suits each of them best.
///
/// A pupil's loss with a rack is the average drive (with the pupil's own scatter, on the pupil's goal) of the best loft
/// between the least and the most of the list, less that of the best loft in the rack. It is never below zero, and one
/// more loft never adds to it. What is chosen is exact: a problem of k medians, solved by branch and bound.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/clinic/clinic.hpp"

namespace loftwright {

inline constexpr std::size_t kMostRackLofts = 20;        ///< [-] that may be chosen from
inline constexpr double kLeastRackStep = 0.1 * kDegree;  ///< [rad] lofts of a list lie at least so far apart

/// Throws InputError unless there are 1 .. kMostRackLofts lofts, rising, kLeastRackStep apart, each within the range of
/// a club's loft, and 1 .. as many places.
void check_rack(const std::vector<double>& lofts, int places);

/// Which swing the lofts are to fit.
enum class RackSwing {
  now,           ///< as it was measured
  after_advice,  ///< with the attack that each pupil's verdict ends with
};

/// How one pupil's average drive moves with the loft of the club, all else as it is. The same drives of the pupil's
/// scatter are flown with every loft, so that lofts differ by loft alone. The face sits as on the club in hand.
struct LoftCurve {
  std::string name;                ///< the pupil's
  Goal goal = Goal::carry;         ///< what the gains are of
  double attack = 0.0;             ///< [rad] the swing they hold for
  double loft_in_hand = 0.0;       ///< [rad]
  std::vector<double> gain;        ///< [m] for each loft of the list: over the club in hand, with the same swing
  std::vector<bool> usable;        ///< for each loft: it breaks none of the pupil's limits. All, when `limits_given_up`
  bool limits_given_up = false;    ///< every loft of the list breaks a limit: they are reckoned without limits
  double best_loft = 0.0;          ///< [rad] from the least to the most of the list, the one that goes furthest
  double best_gain = 0.0;          ///< [m] of it: at least that of every usable loft of the list
  std::vector<std::string> taken;  ///< Entrant::taken
};

/// `lofts` as check_rack wants them.
LoftCurve loft_curve(const Entrant& entrant, const std::vector<double>& lofts, RackSwing swing,
                     const AdviseOptions& options);

/// What became of one pupil.
struct CurveResult {
  std::optional<LoftCurve> curve;  ///< none: it cannot be had
  Findings findings;               ///< why
};

/// The curves of `count` pupils on options.threads threads; `done` is told from any thread how many there are. With
/// RackSwing::after_advice each pupil is advised on as `options` say. The same for any number of threads.
std::vector<CurveResult> loft_curves(std::size_t count, const EntrantSource& entrant, const std::vector<double>& lofts,
                                     RackSwing swing, const AdviseOptions& options = {},
                                     const std::function<void(std::size_t)>& done = {});

/// A loft that could be added, and what it saves.
struct RackNext {
  std::size_t loft;  ///< its number in the list
  double saves;      ///< [m] summed over the pupils, with all those before it in the rack too; at least 0
};

/// The best that so many places can do.
struct RackOfSize {
  std::vector<std::size_t> chosen;  ///< numbers in the list, rising; as many as places
  double lost = 0.0;                ///< [m] summed over the pupils
};

/// What one pupil takes from a rack.
struct RackUse {
  std::optional<std::size_t> loft;  ///< its number in the list; none: every loft of the rack breaks a limit of theirs
  double gain = 0.0;                ///< [m] over the club in hand; zero without a loft
  double lost = 0.0;                ///< [m] against the pupil's own best loft
};

/// The answer.
struct Rack {
  std::vector<double> lofts;   ///< [rad] that were chosen from
  RackOfSize best;             ///< of as many lofts as there are places
  std::vector<RackUse> uses;   ///< one a pupil
  std::vector<RackNext> next;  ///< bought one after the other, what saves most first; all the list's others
  std::vector<RackOfSize>
      by_size;         ///< exact for 1, 2, ... lofts up to the whole list: each loses no more than the last
  long looked_at = 0;  ///< [-] racks and parts of racks that were weighed for all of it
};

/// What a pupil loses with each loft of the list: [m], at least 0. A loft that breaks a limit loses as much as the
/// worst that breaks none, or as the club in hand when that is worse: such a pupil has nothing to play from a rack of
/// these.
std::vector<double> losses_of(const LoftCurve& curve);

/// Exact. `losses`: a row a pupil, a column a loft. Of racks that lose the same one is taken, always the same. Throws
/// InputError unless 1 <= places <= lofts; std::invalid_argument when rows are not of one length.
RackOfSize best_rack(const std::vector<std::vector<double>>& losses, std::size_t places, long* looked_at = nullptr);

/// Chooses from `lofts` for pupils of these curves. Throws InputError as check_rack does, or when there is no curve.
Rack choose_rack(const std::vector<double>& lofts, const std::vector<LoftCurve>& curves, int places);

}  // namespace loftwright
