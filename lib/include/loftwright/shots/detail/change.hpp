/// @file
/// What made the change between two lists: the model's drives of the mean deliveries before and after, the share of
/// each factor in their difference, and what of the measured change that accounts for.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/shot/shares.hpp"
#include "loftwright/shots/compare.hpp"
#include "loftwright/shots/inference.hpp"

namespace loftwright {

/// One side of a comparison: the shots, where they were hit, and with what loft on the club, where that is known.
struct Hitting {
  ShotList list;                      ///< the shots
  Setting setting;                    ///< they were hit in
  std::optional<double> club_loft{};  ///< [rad]
};

/// Whether a goal is measured in both lists, at least twice each.
bool measured_in_both(const ShotList& before, const ShotList& after, Reading goal);

/// The goal computed by the model for every shot of both lists that allows it, whatever was measured of it: the two
/// must be of one kind to be compared. Nothing else is filled in.
void compute_goal(Hitting& before, Hitting& after, Handed handed, Reading goal);

/// How a change is taken apart.
struct ChangeOptions {
  Goal goal = Goal::carry;        ///< what is shared out
  double confidence = 0.95;       ///< [-] 0.5 .. 0.9999
  Outliers odd = Outliers::keep;  ///< whether outliers count
  double follow = kUsualFollow;   ///< [-] how much loft follows the attack, 0..kMostFollow
  std::size_t resamples = 2000;   ///< of the shots of both lists; at most 160 drives each
  std::uint64_t seed = 1;         ///< the same seed gives the same numbers, whatever the number of threads
  int threads = 1;                ///< [-] the answer is the same for any number
};

/// A number with the ends of its interval.
struct Estimate {
  double value;  ///< [m]
  double low;    ///< [m]
  double high;   ///< [m]
};

/// What made the change between two lists.
struct Change {
  EnumArray<Factor, Estimate> shares;                ///< of the goal; they add up to `modelled`
  EnumArray<HeldFactor, Estimate> shares_loft_held;  ///< likewise, by what was measured
  /// [m] the shares had loft followed otherwise, in the order of kOtherFollows
  std::array<EnumArray<Factor, double>, kOtherFollows.size()> shares_otherwise;
  double follow = kUsualFollow;  ///< [-] that the shares were reckoned with
  bool club_known = false;       ///< the loft on the club, before and after; else its share is zero, and the hands'
  Estimate modelled;             ///< goal of the mean delivery after minus that before
  /// Measured change minus modelled: scatter, devices, weather nobody named, the model's error. None unless measured in
  /// both lists.
  std::optional<Estimate> unexplained;
  bool inferred = false;      ///< both deliveries worked out from ball numbers
  std::vector<Reading> held;  ///< not in both lists: taken as zero in both, so no share can come of them
};

/// Intervals are percentiles over resampled shots, whole rows so that what goes together stays together, widened for
/// small lists (expanded_tail). The model's own error is not in them: much of it cancels in a difference. Empty when
/// the lists have neither club speed, attack and dynamic loft nor ball speed, launch and spin in common.
std::optional<Change> explain_change(const Hitting& before, const Hitting& after, Handed handed,
                                     const ChangeOptions& options = {});

/// How much of a predicted gain was reached.
struct ReachedGain {
  std::string by;   ///< "loft_only", "technique_only", "both", or "given": on the command line
  Reached reached;  ///< of the prediction
};
/// All that comparing two lists says.
struct CompareAnswer {
  /// One of the two lists.
  struct Side {
    std::string file;  ///< as the user named it
    Hitting hitting;   ///< the shots, and what they were hit with
  };
  Side before;                       ///< the earlier list
  Side after;                        ///< the later
  std::string name;                  ///< of the pupil; empty: nobody said
  Handed handed;                     ///< the player's
  bool goal_computed;                ///< by the model, for both
  CompareOptions options;            ///< it was asked with
  ChangeOptions change_options;      ///< likewise
  Comparison comparison;             ///< did it change?
  std::optional<Change> change;      ///< what made it; none: the lists do not tell
  std::vector<ReachedGain> reached;  ///< of gains predicted before
};

}  // namespace loftwright
