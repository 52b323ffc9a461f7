/// @file
/// Why, for the pupil: claims about this pupil's ball, each true of the computed numbers, in the order they are told.
/// Words are put to them by report/advice_words; a claim that does not hold is never made.
#pragma once

#include <vector>

#include "loftwright/advise/advise.hpp"

namespace loftwright {

/// What is claimed, and which numbers of the Claim it fills.
enum class ClaimKind {
  now,              ///< the ball leaves at `launch` with `spin` and gets `distance`
  too_low,          ///< launching higher at the same spin would get further; the best drive launches `launch` higher
  too_high,         ///< launching lower would; the best drive launches `launch` lower
  too_little_spin,  ///< more spin at the same launch would get further: 100 rpm more are worth `distance`
  too_much_spin,    ///< less would: 100 rpm less are worth `distance`
  loft_helps,       ///< a degree more loft gets `distance` further: launch changes by `launch`, spin by `spin`
  loft_hurts,       ///< a degree more loft costs `distance`: a degree less would help
  up_helps,         ///< a degree more up gets `distance` further: launch changes by `launch`, spin by `spin`
  up_hurts,         ///< a degree more up costs `distance`
  loft_gain,        ///< another driver alone: `loft`, gains `distance`
  loft_no_gain,     ///< no other driver on offer gains a yard
  technique_gain,   ///< another attack alone: `attack`, gains `distance`
  technique_no_gain,
  both_gain,  ///< both: `loft`, `attack`, gain `distance`
  sure,  ///< with what the verdict names, `loft` and `attack`, a `share` of drives gains, eight of ten between `low`
         ///< and `high`
};

/// One claim with its numbers; those its kind does not name are zero.
struct Claim {
  ClaimKind kind;         ///< what is claimed
  double launch = 0.0;    ///< [rad]
  double spin = 0.0;      ///< [rad/s]
  double distance = 0.0;  ///< [m] carry or total, the pupil's goal
  double loft = 0.0;      ///< [rad]
  double attack = 0.0;    ///< [rad]
  double low = 0.0;       ///< [m]
  double high = 0.0;      ///< [m]
  double share = 0.0;     ///< [-]
};

/// In the order they are told.
std::vector<Claim> explain(const Advice& advice);

}  // namespace loftwright
