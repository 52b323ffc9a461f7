#include "loftwright/flight/flight.hpp"

#include <algorithm>
#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

namespace loftwright {

namespace {

namespace odeint = boost::numeric::odeint;

constexpr double kLongestFlight = 60.0;  // [s]

// Largest local error of a step in units of the tolerance. Lengths are measured against v0^2/g, speeds against v0, spin
// against its start, so the steps taken do not depend on the units. Only values steer: derivatives ride along.
class StepError {
 public:
  StepError() = default;
  StepError(double speed, double spin, double tolerance)
      : length_(tolerance * speed * speed / kGravity), speed_(tolerance * speed), spin_(tolerance * std::max(spin, 1.0)) {}

  template <class Algebra, class State, class Derivative, class Err, class Time>
  double error(Algebra&, const State&, const Derivative&, Err& err, Time) const {
    double worst = 0.0;
    for (int i = 0; i < 3; ++i) {
      worst = std::max(worst, std::abs(value_of(err[i])) / length_);
      worst = std::max(worst, std::abs(value_of(err[i + 3])) / speed_);
    }
    return std::max(worst, std::abs(value_of(err[6])) / spin_);
  }

 private:
  double length_ = 1.0, speed_ = 1.0, spin_ = 1.0;
};

// Height within one step as the cubic through its ends with their climb rates: close enough (millimetres) to say when the top
// and the ground are reached; the dense output then gives the state, in which the top is flat and a Newton step ends at the
// ground.
struct HeightCubic {
  double y0, y1;  // [m]
  double v0, v1;  // [m/s]
  double h;       // [s] length of the step

  double second() const { return 3.0 * (y1 - y0) / (h * h) - (2.0 * v0 + v1) / h; }
  double third() const { return 2.0 * (y0 - y1) / (h * h * h) + (v0 + v1) / (h * h); }
  double at(double t) const { return y0 + t * (v0 + t * (second() + t * third())); }
  double climb(double t) const { return v0 + t * (2.0 * second() + 3.0 * t * third()); }

  // Where the climb rate passes zero; v0 > 0 >= v1. [s] after the step's start
  double top() const {
    const double a = 3.0 * third(), b = 2.0 * second();
    return std::clamp(-2.0 * v0 / (b - std::sqrt(std::max(0.0, b * b - 4.0 * a * v0))), 0.0, h);
  }
  // Where it comes down to zero after `from`: Newton within a bracket. [s]
  double ground(double from) const {
    double low = from, high = h, t = std::max(from, 0.5 * h);
    for (int i = 0; i < 60 && high - low > 1e-12 * h; ++i) {
      const double y = at(t);
      (y > 0.0 ? low : high) = t;
      const double next = t - y / climb(t);
      const double before = t;
      t = next > low && next < high ? next : 0.5 * (low + high);
      if (std::abs(t - before) < 1e-12 * h) break;
    }
    return t;
  }
};

template <class T>
using State = std::array<T, 7>;
template <class T>
using Stepper = odeint::runge_kutta_dopri5<State<T>, double, State<T>, double, odeint::array_algebra>;
template <class T>
using Controlled = odeint::controlled_runge_kutta<Stepper<T>, StepError, odeint::default_step_adjuster<double, double>>;
template <class T>
using Dense = odeint::dense_output_runge_kutta<Controlled<T>>;

template <class T, class Form, class OnStep>
FlightOf<T> integrate(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, const Form& form, double tolerance,
                      OnStep&& on_step) {
  using std::atan2;
  FlightOf<T> out;
  const double v0 = value_of(launch.ball_speed);
  const Vec3<T> v = launch.ball_speed * direction(launch.launch, launch.azimuth);
  const double whole = v0 + value_of(launch.launch) + value_of(launch.azimuth) + value_of(launch.spin) + value_of(launch.tilt) +
                       setting.air.density + setting.air.viscosity + setting.wind.speed + setting.wind.from +
                       setting.wind.height;
  if (!std::isfinite(whole) || v0 <= 0.0) {
    out.end = FlightEnd::not_finite;
    return out;
  }
  if (value_of(launch.launch) <= 0.0) {
    out.end = FlightEnd::never_rose;
    out.landing_angle = -launch.launch;
    out.landing_speed = launch.ball_speed;
    out.landing_heading = launch.azimuth;
    out.landing_spin = launch.spin;
    return out;
  }

  const FlightEquation<T, Form> equation(launch, setting, form);
  auto counted = [&](const State<T>& y, State<T>& dy, double t) {
    ++out.calls;
    equation(y, dy, t);
  };
  auto note_range = [&](const State<T>& y) {
    const AeroModel& aero = *setting.aero;
    const double re = equation.reynolds(y), s = equation.spin_ratio(y);
    if (re < aero.reynolds_low || re > aero.reynolds_high || s < aero.spin_ratio_low || s > aero.spin_ratio_high) {
      out.outside_aero_range = true;
    }
  };

  State<T> y{T(0.0), T(0.0), T(0.0), v.x, v.y, v.z, launch.spin};
  note_range(y);
  Dense<T> stepper{Controlled<T>(StepError(v0, value_of(launch.spin), tolerance))};
  stepper.initialize(y, 0.0, 0.02 * v0 / kGravity);  // short: a long first step across a wind's shear fools its error

  double apex_time = 0.0;
  State<T> at;

  while (true) {
    const auto [t0, t1] = stepper.do_step(counted);
    ++out.steps;
    const State<T>&before = stepper.previous_state(), &after = stepper.current_state();
    const HeightCubic height{value_of(before[1]), value_of(after[1]), value_of(before[4]), value_of(after[4]), t1 - t0};
    if (value_of(before[4]) > 0.0 && value_of(after[4]) <= 0.0) {
      apex_time = t0 + height.top();
      stepper.calc_state(apex_time, at);
      out.apex = at[1];
    }
    if (value_of(after[1]) <= 0.0) {
      const double t = t0 + height.ground(std::max(0.0, apex_time - t0));
      on_step(stepper, t0, t);
      stepper.calc_state(t, y);
      out.time = T(t);
      break;
    }
    on_step(stepper, t0, t1);
    note_range(after);
    if (t1 > kLongestFlight || !std::isfinite(value_of(after[1]))) {
      out.end = t1 > kLongestFlight ? FlightEnd::time_limit : FlightEnd::not_finite;
      y = after;
      out.time = T(t1);
      break;
    }
  }

  if (out.end == FlightEnd::landed) {
    // One Newton step onto the ground. The value hardly moves; the derivative of the moment of landing comes in here.
    State<T> dy;
    counted(y, dy, value_of(out.time));
    const T dt = -y[1] / y[4];
    for (std::size_t i = 0; i < y.size(); ++i) y[i] = y[i] + dt * dy[i];
    out.time = out.time + dt;
    note_range(y);
  }
  const T level = length_of(y[3] * y[3] + y[5] * y[5]);
  out.carry = y[0];
  out.side = y[2];
  out.landing_angle = atan2(-y[4], level);
  out.landing_speed = length_of(level * level + y[4] * y[4]);
  out.landing_heading = atan2(y[5], y[3]);
  out.landing_spin = y[6];
  return out;
}

}  // namespace

std::string_view sentence(FlightEnd end) {
  switch (end) {
    case FlightEnd::landed: return "the ball landed";
    case FlightEnd::never_rose: return "the ball left level or downwards and never rose: it has no carry, only a run";
    case FlightEnd::time_limit: return "the ball was still in the air after 60 s";
    case FlightEnd::not_finite: return "the flight could not be computed: an input is not a finite number";
  }
  return "";
}

template <class T>
FlightOf<T> fly(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, double tolerance) {
  return std::visit(
      [&](const auto& form) { return integrate(launch, setting, form, tolerance, [](auto&, double, double) {}); },
      setting.aero->form);
}

template FlightOf<double> fly(const LaunchOf<double>&, const FlightSettingOf<double>&, double);
template FlightOf<Dual<2>> fly(const LaunchOf<Dual<2>>&, const FlightSettingOf<Dual<2>>&, double);
template FlightOf<Dual<5>> fly(const LaunchOf<Dual<5>>&, const FlightSettingOf<Dual<5>>&, double);

std::vector<FlightPoint> trace(const Launch& launch, const FlightSetting& setting, int count) {
  const Flight flight = fly(launch, setting);
  std::vector<FlightPoint> points{{0.0, {}}};
  const double spacing = flight.time / (count - 1);
  State<double> at;
  std::visit(
      [&](const auto& form) {
        integrate(launch, setting, form, kFlightTolerance, [&](auto& stepper, double, double t1) {
          while (static_cast<int>(points.size()) < count - 1 && spacing * points.size() <= t1) {
            const double t = spacing * points.size();
            stepper.calc_state(t, at);
            points.push_back({t, {at[0], at[1], at[2]}});
          }
        });
      },
      setting.aero->form);
  points.resize(static_cast<std::size_t>(count), {flight.time, {flight.carry, 0.0, flight.side}});
  return points;
}

}  // namespace loftwright
