/// @file
/// How a player's delivery moves when the club or the attack angle changes: the loft chain.
///     dynamic_loft = club_loft + added_loft,     added_loft(attack) = measured + follow (attack - measured attack)
#pragma once

#include "loftwright/core/quantity.hpp"
#include "loftwright/swing/delivery.hpp"

namespace loftwright {

/// The same players on level tees, at fairways sloping 5 deg up and down, delivered 0.85 and 1.23 deg more loft for
/// each degree of attack (Suzuki et al., Open Sports Sci. J. 14 (2021) 137: 42 professionals and 25 amateurs; loft
/// second-hand).
inline constexpr double kUsualFollow = 0.85;                                 ///< [-]
inline constexpr double kMostFollow = about(Quantity::follow).allowed.high;  ///< [-]

/// A measured swing, and how it would move.
struct Technique {
  Delivery measured;       ///< with the club in hand, right-hander's frame
  double club_loft = 0.0;  ///< [rad] of the club in hand, 4 .. 30 deg
  double follow =
      kUsualFollow;  ///< [-] 0: dynamic loft held; 1: the whole arc tilts, spin loft unchanged. 0..kMostFollow
  double speed_per_attack = 0.0;  ///< [m/s per rad] club speed gained (cost: negative) as the attack rises, estimate

  /// [rad] the player's own, in the measured swing
  double added_loft() const { return measured.dynamic_loft - club_loft; }

  /// The delivery with another club loft and attack. Speed is not clipped: callers keep attack within reach.
  template <class T>
  DeliveryOf<T> delivery(const T& loft, const T& attack) const {
    const T change = attack - measured.attack;
    DeliveryOf<T> d;
    d.club_speed = measured.club_speed + speed_per_attack * change;
    d.attack = attack;
    d.path = T(measured.path);
    d.face = T(measured.face);
    d.dynamic_loft = loft + added_loft() + follow * change;
    d.toe = T(measured.toe);
    d.high = T(measured.high);
    return d;
  }
};

}  // namespace loftwright
