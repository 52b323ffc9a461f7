/// @file
/// Flight of a spinning ball, from launch to the ground it started from.
///     m dv/dt = -1/2 rho A V Cd v + 1/2 rho A V Cl (a x v) - m g y        v, V: velocity relative to the air; a: spin
///     axis dw/dt   = -decay w V / r          Re = 2 rho V r / mu          S = w r / V (held at 0.5 above)
/// The spin axis keeps its direction. Left out: spin about the line of flight, ground slope, change of density with
/// height.
#pragma once

#include <string_view>
#include <vector>

#include "loftwright/aero/aero.hpp"
#include "loftwright/air/air.hpp"
#include "loftwright/air/wind.hpp"
#include "loftwright/equip/ball.hpp"
#include "loftwright/impact/impact.hpp"

namespace loftwright {

/// How a flight ended.
enum class FlightEnd {
  landed = 0,
  never_rose,  ///< launched level or down: carry is zero and the run starts at once
  time_limit,  ///< still in the air after 60 s
  not_finite,  ///< an input was not a number, or so far outside every range that the model has no answer: no result is
               ///< meant
};
std::string_view sentence(FlightEnd end);  ///< for people
std::string_view key_of(FlightEnd end);    ///< "landed", ...

/// A flight from launch to landing.
template <class T>
struct FlightOf {
  T carry{};                        ///< [m] down the target line
  T side{};                         ///< [m] right of it
  T apex{};                         ///< [m]
  T landing_angle{};                ///< [rad] below horizontal
  T landing_speed{};                ///< [m/s]
  T landing_heading{};              ///< [rad] right of target
  T time{};                         ///< [s]
  T landing_spin{};                 ///< [rad/s]
  EachOf<T, FlightEnd> end{};       ///< how it ended
  LogicOf<T> outside_aero_range{};  ///< Re or S left the range of the aerodynamic model's data somewhere on the way
  EachOf<T, int> steps{};           ///< accepted steps
  EachOf<T, int> calls{};           ///< right-hand-side evaluations
};
using Flight = FlightOf<double>;  ///< in plain numbers

/// What the flight is computed in. T carries derivatives or lanes through what is uncertain.
template <class T>
struct FlightSettingOf {
  const Ball* ball = nullptr;       ///< must be given
  const AeroModel* aero = nullptr;  ///< must be given
  Air air{};                        ///< density and viscosity
  Wind wind{};                      ///< none unless given
  T drag_scale = T(1.0);            ///< [-] multiplies Cd: model error, or a ball tuned to a player's shots
  T lift_scale = T(1.0);            ///< [-] multiplies Cl
};
using FlightSetting = FlightSettingOf<double>;  ///< in plain numbers

/// What the error of one step may make of the landing, as a share of m / (rho A / 2), the air that slows a ball (53 m
/// at sea level; the same whatever the drive, so that a long one is no worse than a short one). The first keeps carry,
/// side and apex within 1 mm in some 45 calls (docs/performance.md); the tight one is what optima are verified with.
inline constexpr double kFlightTolerance = 7.5e-6;
inline constexpr double kTightFlightTolerance = 1e-9;  ///< [-] likewise

/// T: double, a width of Dual instantiated in lib/src/flight, or Lanes (flight/integrate.hpp). The derivative is that
/// of the computed landing, exact for the steps taken.
template <class T>
FlightOf<T> fly(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, double tolerance = kFlightTolerance);

/// A point of the path.
struct FlightPoint {
  double t;         ///< [s]
  Vec3<double> at;  ///< [m]
};

/// The path at `count` (>= 2) moments equally spaced in time from launch to landing, for pictures.
std::vector<FlightPoint> trace(const Launch& launch, const FlightSetting& setting, int count);

/// The right-hand side alone, for checking it against other integrators: state x y z vx vy vz w. Lives here so that the
/// tests integrate the very same text.
template <class T, class Form>
class FlightEquation {
 public:
  using State = std::array<T, 7>;  ///< [m], [m/s], [rad/s]

  /// `form` must outlive it.
  FlightEquation(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, const Form& form)
      : form_(form), calm_(setting.wind.calm()), wind_(setting.wind) {
    const Ball& ball = *setting.ball;
    radius_ = ball.radius;
    reynolds_per_speed_ = 2.0 * setting.air.density * ball.radius / setting.air.viscosity;
    slowing_ = 0.5 * setting.air.density * ball.area() / ball.mass;
    drag_area_ = slowing_ * setting.drag_scale;
    lift_area_ = slowing_ * setting.lift_scale;
    decay_ = -ball.spin_decay / ball.radius;
    const SinCos<T> azimuth = sin_cos(launch.azimuth), tilt = sin_cos(launch.tilt);
    along_ = direction(sin_cos(launch.launch), azimuth);
    const Vec3<T> right = right_of(azimuth);
    axis_ = tilt.cos * right - tilt.sin * cross(right, along_);
  }

  const Vec3<T>& along() const { return along_; }  ///< direction of launch
  double slowing() const { return slowing_; }      ///< [1/m] what Cd = 1 takes of the speed over each metre of air

  /// Re and S of a state, S not held.
  struct Regime {
    ValueOf<T> reynolds;    ///< [-]
    ValueOf<T> spin_ratio;  ///< [-]
  };

  /// dy/dt, which does not depend on the time; what it met on the way comes back for free.
  Regime operator()(const State& y, State& dy, const ValueOf<T>& /*t*/ = {}) const {
    const Vec3<T> v = through_air(y);
    const T squared = dot(v, v), rim = radius_ * y[6];
    const auto [speed, spin_ratio] = root_and_quotient(squared, rim);
    const T reynolds = reynolds_per_speed_ * speed;
    // S is held, and its parts so that they make the same.
    constexpr double kHeld = 1.0 / (kGreatestSpinRatio * kGreatestSpinRatio);
    const AeroCoefficients<T> c =
        form_.at(reynolds, {min_of(spin_ratio, T(kGreatestSpinRatio)), rim, max_of(squared, kHeld * rim * rim)});
    const T drag = drag_area_ * speed * c.drag, lift = lift_area_ * speed * c.lift;
    const Vec3<T> side = cross(axis_, v);
    dy[0] = y[3];
    dy[1] = y[4];
    dy[2] = y[5];
    dy[3] = lift * side.x - drag * v.x;
    dy[4] = lift * side.y - (drag * v.y + kGravity);
    dy[5] = lift * side.z - drag * v.z;
    dy[6] = decay_ * y[6] * speed;
    return {value_of(reynolds), value_of(spin_ratio)};
  }

  /// How fast S changes, in a wind that is the same at every height. [1/s]
  ValueOf<T> spin_ratio_rate(const State& y, const State& rate) const {
    const Vec3<T> v = through_air(y);
    const T squared = dot(v, v), slowing = dot(v, Vec3<T>{rate[3], rate[4], rate[5]}) / squared;
    return value_of(root_and_quotient(squared, radius_ * (rate[6] - y[6] * slowing)).quotient);
  }

 private:
  Vec3<T> through_air(const State& y) const {
    const Vec3<T> v{y[3], y[4], y[5]};
    return calm_ ? v : v - wind_.at(y[1]);
  }

  const Form& form_;
  bool calm_;
  WindField wind_;
  double radius_, reynolds_per_speed_, slowing_, decay_;
  T drag_area_, lift_area_;  ///< [1/m] with the scales
  Vec3<T> along_, axis_;
};

}  // namespace loftwright
