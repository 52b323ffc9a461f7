/// @file
/// A delivery: how the clubhead meets the ball. Everything about the player that the impact needs.
#pragma once

#include <string_view>

#include "loftwright/core/detail/vec3.hpp"

namespace loftwright {

/// Right-hander's signs: attack + up; path and face + right of target; toe + towards the toe; high + up the face.
/// A left-handed player's delivery is mirrored into this frame by `mirrored` before the impact, the result after it.
template <class T>
struct DeliveryOf {
  T club_speed{};    ///< [m/s] of the head's centre of gravity, 9 .. 72
  T attack{};        ///< [rad] -20 .. +20 deg
  T path{};          ///< [rad] -30 .. +30 deg
  T face{};          ///< [rad] -30 .. +30 deg
  T dynamic_loft{};  ///< [rad] loft of the face centre as delivered, -5 .. 60 deg
  T toe{};           ///< [m] strike point on the face, -0.05 .. +0.05
  T high{};          ///< [m] -0.03 .. +0.03
};
using Delivery = DeliveryOf<double>;  ///< in plain numbers

/// A delivery and a change of it, quantity by quantity.
template <class T>
DeliveryOf<T> operator+(const DeliveryOf<T>& d, const Delivery& change) {
  return {d.club_speed + change.club_speed,     d.attack + change.attack, d.path + change.path, d.face + change.face,
          d.dynamic_loft + change.dynamic_loft, d.toe + change.toe,       d.high + change.high};
}

/// The hand a player plays with.
enum class Handed { right, left };
std::string_view key_of(Handed handed);  ///< "right", "left"

/// A right-hander's delivery as a left-hander's, and back.
template <class T>
DeliveryOf<T> mirrored(DeliveryOf<T> delivery) {
  delivery.path = -delivery.path;
  delivery.face = -delivery.face;
  return delivery;
}

/// Angle between club velocity and face-centre normal, in three dimensions. [rad]
template <class T>
T spin_loft(const DeliveryOf<T>& d) {
  return angle_between(direction(d.attack, d.path), direction(d.dynamic_loft, d.face));
}

/// Throws InputError naming the field that is not finite or outside the range beside it.
void validate(const Delivery& delivery);

}  // namespace loftwright
