// Flight of a spinning ball, from launch to the ground it started from.
//     m dv/dt = -1/2 rho A V Cd v + 1/2 rho A V Cl (a x v) - m g y        v, V: velocity relative to the air; a: spin axis
//     dw/dt   = -decay w V / r          Re = 2 rho V r / mu          S = w r / V (held at 0.5 above)
// The spin axis keeps its direction. Left out: spin about the line of flight, ground slope, change of density with height.
#pragma once

#include <string_view>
#include <vector>

#include "loftwright/aero/aero.hpp"
#include "loftwright/air/air.hpp"
#include "loftwright/air/wind.hpp"
#include "loftwright/equip/ball.hpp"
#include "loftwright/impact/impact.hpp"

namespace loftwright {

enum class FlightEnd {
  landed,
  never_rose,   // launched level or down: carry is zero and the run starts at once
  time_limit,   // still in the air after 60 s
  not_finite,   // an input was not a number, or the model overflowed: no result is meant
};
std::string_view sentence(FlightEnd end);

template <class T>
struct FlightOf {
  T carry{};          // [m] down the target line
  T side{};           // [m] right of it
  T apex{};           // [m]
  T landing_angle{};  // [rad] below horizontal
  T landing_speed{};  // [m/s]
  T landing_heading{};  // [rad] right of target
  T time{};           // [s]
  T landing_spin{};   // [rad/s]
  FlightEnd end = FlightEnd::landed;
  bool outside_aero_range = false;  // Re or S left the range of the aerodynamic model's data somewhere on the way
  int steps = 0;                    // accepted steps
  int calls = 0;                    // right-hand-side evaluations
};
using Flight = FlightOf<double>;

// What the flight is computed in. T carries derivatives or lanes through what is uncertain.
template <class T>
struct FlightSettingOf {
  const Ball* ball = nullptr;
  const AeroModel* aero = nullptr;
  Air air{};
  Wind wind{};
  T drag_scale = T(1.0);  // [-] multiplies Cd: model error, or a ball tuned to a player's shots
  T lift_scale = T(1.0);  // [-] multiplies Cl
};
using FlightSetting = FlightSettingOf<double>;

// Keeps carry, side and apex within 0.3 mm of the reference flights in about 55 calls (measured in tests/reference); the tight
// value is what optima are verified with.
inline constexpr double kFlightTolerance = 3e-7;
inline constexpr double kTightFlightTolerance = 1e-10;

// T: double, or Dual of a width instantiated in flight.cpp. The derivative is that of the computed landing, exact for the
// steps taken.
template <class T>
FlightOf<T> fly(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, double tolerance = kFlightTolerance);

struct FlightPoint {
  double t;        // [s]
  Vec3<double> at; // [m]
};

// The path at `count` (>= 2) moments equally spaced in time from launch to landing, for pictures.
std::vector<FlightPoint> trace(const Launch& launch, const FlightSetting& setting, int count);

// The right-hand side alone, for checking it against other integrators: state x y z vx vy vz w. Lives here so that the
// tests integrate the very same text.
template <class T, class Form>
class FlightEquation {
 public:
  using State = std::array<T, 7>;

  FlightEquation(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, const Form& form)
      : setting_(setting), form_(form) {
    using std::cos, std::sin;
    const Ball& ball = *setting.ball;
    reynolds_per_speed_ = 2.0 * setting.air.density * ball.radius / setting.air.viscosity;
    drag_area_ = 0.5 * setting.air.density * ball.area() / ball.mass;
    const Vec3<T> along = direction(launch.launch, launch.azimuth);
    const Vec3<T> right{-sin(launch.azimuth), T(0.0), cos(launch.azimuth)};
    axis_ = cos(launch.tilt) * right - sin(launch.tilt) * cross(right, along);
  }

  void operator()(const State& y, State& dy, double /*t*/) const {
    using std::sqrt;
    const Ball& ball = *setting_.ball;
    Vec3<T> v{y[3], y[4], y[5]};
    if (!setting_.wind.calm()) v = v - wind_at(setting_.wind, y[1]);
    const T speed = sqrt(dot(v, v));
    const T spin_ratio = min_of(y[6] * (ball.radius / speed), T(kGreatestSpinRatio));
    const AeroCoefficients<T> c = form_.at(reynolds_per_speed_ * speed, spin_ratio);
    const T q = drag_area_ * speed;
    const T drag = q * c.drag * setting_.drag_scale, lift = q * c.lift * setting_.lift_scale;
    const Vec3<T> side = cross(axis_, v);
    dy[0] = y[3];
    dy[1] = y[4];
    dy[2] = y[5];
    dy[3] = lift * side.x - drag * v.x;
    dy[4] = lift * side.y - drag * v.y - kGravity;
    dy[5] = lift * side.z - drag * v.z;
    dy[6] = (-ball.spin_decay / ball.radius) * y[6] * speed;
  }

  // Re and S of a state, for the range note.
  double reynolds(const State& y) const { return reynolds_per_speed_ * value_of(air_speed(y)); }
  double spin_ratio(const State& y) const { return value_of(y[6]) * setting_.ball->radius / value_of(air_speed(y)); }

 private:
  T air_speed(const State& y) const { return length(Vec3<T>{y[3], y[4], y[5]} - wind_at(setting_.wind, y[1])); }

  const FlightSettingOf<T>& setting_;
  const Form& form_;
  double reynolds_per_speed_ = 0.0;
  double drag_area_ = 0.0;
  Vec3<T> axis_;
};

}  // namespace loftwright
