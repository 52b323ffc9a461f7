#include <cmath>

#include "loftwright/core/constants.hpp"
#include "loftwright/swing/arc.hpp"
#include "loftwright/swing/delivery.hpp"

namespace loftwright {

namespace {

void check_degrees(const char* name, double radians, double low, double high) {
  check_range(name, radians / kDegree, low, high, "deg");
}

}  // namespace

void validate(const Delivery& d) {
  check_range("club speed", d.club_speed, 9.0, 72.0, "m/s");
  check_degrees("attack", d.attack, -20.0, 20.0);
  check_degrees("path", d.path, -30.0, 30.0);
  check_degrees("face", d.face, -30.0, 30.0);
  check_degrees("dynamic loft", d.dynamic_loft, -5.0, 60.0);
  check_range("toe", d.toe * 1e3, -50.0, 50.0, "mm");
  check_range("high", d.high * 1e3, -30.0, 30.0, "mm");
}

ArcAtBall at_ball(const Arc& arc) {
  check_degrees("plane", arc.plane, 20.0, 80.0);
  check_range("radius", arc.radius, 0.8, 2.5, "m");
  check_range("low point", arc.low_point, -0.6, 0.6, "m");
  check_degrees("swing direction", arc.swing_direction, -30.0, 30.0);
  const double phase = std::asin(arc.low_point / arc.radius);
  return {std::asin(-std::sin(phase) * std::sin(arc.plane)),
          arc.swing_direction + std::atan(std::tan(phase) * std::cos(arc.plane)),
          arc.radius * (1.0 - std::cos(phase)) * std::sin(arc.plane)};
}

double low_point_for(double attack, double plane, double radius) {
  check_degrees("plane", plane, 20.0, 80.0);
  check_range("radius", radius, 0.8, 2.5, "m");
  check_degrees("attack", attack, -20.0, 20.0);
  return -radius * std::sin(attack) / std::sin(plane);
}

Arc arc_from(double attack, double path, double low_point, double swing_direction) {
  check_degrees("attack", attack, -20.0, 20.0);
  check_degrees("path", path, -30.0, 30.0);
  check_range("low point", low_point, -0.6, 0.6, "m");
  check_degrees("swing direction", swing_direction, -30.0, 30.0);
  const double turn = path - swing_direction;
  constexpr double kLeast = 0.05 * kDegree;
  if (std::abs(attack) < kLeast || std::abs(turn) < kLeast || std::abs(low_point) < 1e-3) {
    throw InputError(
        "plane and radius cannot be told from a strike at the low point: attack, path - swing direction and low point "
        "must all differ from zero (by 0.05 deg and 1 mm)");
  }
  if (attack * low_point > 0.0 || turn * low_point < 0.0) {
    throw InputError(
        "attack, path, low point and swing direction contradict each other: with the low point ahead of the ball the club "
        "moves down and right of the swing direction, with it behind up and left (signs for a right-hander)");
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
