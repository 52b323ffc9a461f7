#include <cmath>

#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/quantity.hpp"
#include "loftwright/swing/arc.hpp"
#include "loftwright/swing/delivery.hpp"

namespace loftwright {

void validate(const Delivery& d) {
  check(Quantity::club_speed, d.club_speed);
  check(Quantity::attack, d.attack);
  check(Quantity::path, d.path);
  check(Quantity::face, d.face);
  check(Quantity::dynamic_loft, d.dynamic_loft);
  check(Quantity::toe, d.toe);
  check(Quantity::high, d.high);
}

ArcAtBall at_ball(const Arc& arc) {
  check(Quantity::plane, arc.plane);
  check(Quantity::radius, arc.radius);
  check(Quantity::low_point, arc.low_point);
  check(Quantity::swing_direction, arc.swing_direction);
  const double phase = std::asin(arc.low_point / arc.radius);
  const double attack = std::asin(-std::sin(phase) * std::sin(arc.plane));
  check(Quantity::attack, attack, "the attack of that arc");
  return {attack, arc.swing_direction + std::atan(std::tan(phase) * std::cos(arc.plane)),
          arc.radius * (1.0 - std::cos(phase)) * std::sin(arc.plane)};
}

double low_point_for(double attack, double plane, double radius) {
  check(Quantity::plane, plane);
  check(Quantity::radius, radius);
  check(Quantity::attack, attack);
  return -radius * std::sin(attack) / std::sin(plane);
}

Arc arc_from(double attack, double path, double low_point, double swing_direction) {
  check(Quantity::attack, attack);
  check(Quantity::path, path);
  check(Quantity::low_point, low_point);
  check(Quantity::swing_direction, swing_direction);
  const double turn = path - swing_direction;
  constexpr double kLeast = 0.05 * kDegree;
  if (std::abs(attack) < kLeast || std::abs(turn) < kLeast || std::abs(low_point) < 1e-3) {
    throw InputError(
        "plane and radius cannot be told from a strike at the low point: attack, path - base line and low point "
        "must all differ from zero (by 0.05 deg and 1 mm)");
  }
  if (attack * low_point > 0.0 || turn * low_point < 0.0) {
    throw InputError(
        "attack, path, low point and base line contradict each other: with the low point ahead of the ball the club "
        "moves down and right of the base line, with it behind up and left (signs for a right-hander)");
  }
  // With s = sin(phase), c = cos(psi):  sin^2(attack) = s^2 (1 - c^2),  tan^2(turn) = s^2 c^2 / (1 - s^2).
  // Eliminating c^2 leaves one line in s^2; with turn not zero sin(attack) is less than s.
  const double a2 = std::pow(std::sin(attack), 2), t2 = std::pow(std::tan(turn), 2);
  const double s2 = (a2 + t2) / (1.0 + t2);
  const double s = std::sqrt(s2);
  Arc arc{low_point, std::asin(std::abs(std::sin(attack)) / s), std::abs(low_point) / s, swing_direction};
  at_ball(arc);  // its range checks are ours
  return arc;
}

std::string_view key_of(Handed handed) { return handed == Handed::right ? "right" : "left"; }

}  // namespace loftwright
