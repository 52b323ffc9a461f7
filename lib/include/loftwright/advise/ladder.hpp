/// @file
/// A lesson ladder: from the swing now to the one that the verdict ends with, in steps that a body can make. Every step
/// is what impact, flight and arc give for it; how a step is seen to be reached comes of the pupil's own scatter.
#pragma once

#include <optional>
#include <vector>

#include "loftwright/advise/advise.hpp"

namespace loftwright {

/// How much one step changes the attack at most (common practice: what few lessons change).
inline constexpr double kLadderStep = 1.5 * kDegree;       ///< [rad] unless asked for otherwise
inline constexpr double kLeastLadderStep = 0.5 * kDegree;  ///< [rad] less is lost in what a device measures
inline constexpr double kMostLadderStep = 3.0 * kDegree;   ///< [rad] more is no step but the whole change

/// A step is reached when so many of so many drives lie beyond the attack of the sign.
inline constexpr int kSignDrives = 8;    ///< [-] at least so many ...
inline constexpr int kSignCounted = 10;  ///< [-] ... of so many
/// How sure the mean attack must be to tell a step from the one before, for a pupil on either of them.
inline constexpr double kStepSure = 0.95;  ///< [-]

/// What a step is at address.
struct StepSetUp {
  double low_point;        ///< [m] ahead of the ball
  double ball_forward;     ///< [m] towards the target, from where the ball lies now against the low point
  double swing_direction;  ///< [rad] the base line that keeps the path, right of target positive
};

/// One step: where the pupil is when it is reached.
struct LadderStep {
  double club_loft = 0.0;           ///< [rad]
  std::optional<ClubFit> fit;       ///< as a Strategy's
  bool new_club = false;            ///< the driver is changed, or turned, with this step, and nothing else
  Delivery delivery;                ///< the mean, as the player's hand has it
  Drive drive;                      ///< well struck: the mean delivery's
  AverageDrive average;             ///< the average of the player's drives, as a Strategy's
  double gain = 0.0;                ///< [m] goal of the average drive, over now
  std::optional<StepSetUp> set_up;  ///< none: beyond what the arc is reckoned for
  std::vector<Limited> broken;      ///< limits that the step passes; the last step passes none
  /// [rad] the sign: a pupil whose mean attack is this step's has eight of ten drives beyond it, in the direction of
  /// the ladder, if the attack scatters normally
  double sign_attack = 0.0;
  double sign_by_chance = 0.0;  ///< [-] chance that ten drives show the sign on the step before; a new club: zero
  /// How many drives tell this step from the one before: their mean attack is nearer to the right one of the two with
  /// the chance kStepSure. None: there is no change of attack to tell.
  std::optional<int> drives_to_tell;
};

/// The steps from now to the target.
struct Ladder {
  Lever lever = Lever::leave;     ///< what the verdict names; `leave` and `loft` have no steps
  bool feasible = true;           ///< else no steps: nothing meets every limit
  double most_step = 0.0;         ///< [rad] that was asked for
  double step = 0.0;              ///< [rad] by which the attack changes from step to step; a new club's does not
  double scatter = 0.0;           ///< [rad] of the attack from drive to drive, that the signs are reckoned with
  bool scatter_is_usual = false;  ///< it was not measured: that usual for the skill
  LadderStep now;                 ///< the swing and the club as they are; no sign
  std::vector<LadderStep> steps;  ///< the last one is the target. Empty: no swing is to be changed
};

/// The ladder to the target of `advice`: technique's, or both's. Steps of attack are equal and none is above `step`
/// [rad], kLeastLadderStep .. kMostLadderStep. With `both` the driver changes in a step of its own: first, or last
/// where the verdict begins with the technique. `advice` is what advise() answers for the same pupil, setting and
/// options. Throws InputError for a step out of range.
Ladder lesson_ladder(const Pupil& pupil, const Setting& setting, const Advice& advice, double step = kLadderStep,
                     const AdviseOptions& options = {});

}  // namespace loftwright
