// The flight, integrated: Dormand and Prince's fifth order (Odeint) with an error of its own for each lane, steps that
// end on the ground and at the lift law's kink instead of beyond them, and the state corrected by a series over the
// last hair. Why so: docs/decisions/0011-flights.md. For flight.cpp and the lanes; everyone else calls `fly`.
#pragma once

#include <algorithm>
#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <limits>

#include "loftwright/flight/flight.hpp"

namespace loftwright::detail {

template <class T>
using FlightState = std::array<T, 7>;  // x y z vx vy vz w
template <class T>
using Stepper = boost::numeric::odeint::runge_kutta_dopri5<FlightState<T>, double, FlightState<T>, ValueOf<T>,
                                                           boost::numeric::odeint::array_algebra>;

// One step: states and their derivatives at both ends.
template <class T>
struct FlightStep {
  FlightState<T> from, to, from_rate, to_rate;
  ValueOf<T> start, length;  // [s]

  // Coordinate i within the step, at share s of its length: the quintic with place, speed and acceleration of both
  // ends, beyond the method's own order. x, y and z only.
  template <class S>
  T at(std::size_t i, const S& s) const {
    const ValueOf<T>& h = length;
    const T v0 = h * from[i + 3], v1 = h * to[i + 3], a0 = (0.5 * h * h) * from_rate[i + 3],
            a1 = (0.5 * h * h) * to_rate[i + 3];
    const T r = to[i] - from[i] - v0 - a0, q = v1 - v0 - 2.0 * a0,
            p = a1 - a0;  // what the start leaves over at the end
    const T c3 = 10.0 * r - 4.0 * q + p, c4 = 7.0 * q - 15.0 * r - 2.0 * p, c5 = 6.0 * r - 3.0 * q + p;
    return from[i] + s * (v0 + s * (a0 + s * (c3 + s * (c4 + s * c5))));
  }

  // Share at which the climb ends; it is positive at the start and not at the end. Where the cubic through speeds and
  // accelerations is zero, by Newton from the chord's: the height is flat there, so a rough place gives a sharp height.
  ValueOf<T> top() const {
    using V = ValueOf<T>;
    const V v0 = value_of(from[4]), v1 = value_of(to[4]);
    const V a0 = length * value_of(from_rate[4]), a1 = length * value_of(to_rate[4]);
    const V c2 = 3.0 * (v1 - v0) - 2.0 * a0 - a1, c3 = 2.0 * (v0 - v1) + a0 + a1;
    V s = v0 / (v0 - v1);
    for (int i = 0; i < 2; ++i) {
      const V climb = v0 + s * (a0 + s * (c2 + s * c3)), slope = a0 + s * (2.0 * c2 + 3.0 * s * c3);
      s = max_of(V(0.0), min_of(V(1.0), s - climb / min_of(slope, V(-1e-30))));
    }
    return s;
  }

  // Share at which the height comes down to zero; it is not below at the start, and below at the end. By halving: rare.
  ValueOf<T> ground() const {
    using V = ValueOf<T>;
    V low = select((value_of(from[4]) > V(0.0)) & (value_of(to[4]) < V(0.0)), top(), V(0.0)), high(1.0),
      s = 0.5 * (low + high);
    for (int i = 0; i < 40; ++i) {
      const V y = value_of(at(1, s));
      low = select(y > V(0.0), s, low);
      high = select(y > V(0.0), high, s);
      s = 0.5 * (low + high);
    }
    return s;
  }
};

// Time from a state to the ground by place, speed, acceleration and how the acceleration changes; infinite when that
// does not come down. Where the parabola ends, then a step of Householder's, of fourth order. [s]
template <class V>
V time_to_ground(const V& y, const V& vy, const V& ay, const V& jerk) {
  using std::sqrt;
  const V inside = vy * vy - 2.0 * ay * y, fall = sqrt(max_of(inside, V(0.0))), t = (vy + fall) / (-ay);
  const V gained = jerk * t, slope = 0.5 * t * gained - fall, height = (1.0 / 6.0) * (t * t) * gained;
  const V bend = height * (ay + gained), squared = slope * slope;
  const V next = t + height * (squared - 0.5 * bend) /
                         max_of(slope * (bend - squared) - (1.0 / 6.0) * (height * height) * jerk, V(1e-30));
  return select((ay < V(0.0)) & (inside >= V(0.0)), select((next > 0.5 * t) & (next < 1.5 * t), next, t),
                V(std::numeric_limits<double>::infinity()));
}

// Share of a step at which S passes `at`, from its values at both ends and its slope at the start over the whole step.
template <class V>
V share_where(const V& from, const V& to, const V& slope, double at) {
  const V bend = to - from - slope;
  V s = (at - from) / (to - from);
  for (int i = 0; i < 3; ++i) {
    const V next = s - (from - at + s * (slope + s * bend)) / (slope + 2.0 * s * bend);
    s = select((next > V(0.0)) & (next < V(1.0)), next, s);
  }
  return s;
}

// Longer than a function should be: every part of a step reads and writes most of what the step before it left, two
// dozen values that would otherwise travel between the parts.
template <class T, class Form, class OnStep>
FlightOf<T> integrate(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, const Form& form, double tolerance,
                      OnStep&& on_step) {
  using std::sqrt;
  using V = ValueOf<T>;
  constexpr double kLongestFlight = 60.0;  // [s]
  constexpr double kFirstStep = 0.07,
                   kFirstSheared = 0.03;  // of v0/g: a long step out of a wind's shear fools its error
  constexpr double kSafety = 0.9, kLeastFactor = 0.2, kMostFactor = 4.0;
  // The error is what is left of sums a million times as large: rounded off (coarse), a step's length does not carry
  // their last digits on, and what is computed in another order takes the same steps.
  constexpr double kNearKink = 0.003;  // [-] of S: closer to the kink than this is as good as on it
  constexpr double kLeastStep = 1e-9;  // of v0/g: below, no step is accurate enough and the flight has no answer
  constexpr double kMostCalls =
      10000.0;  // nor has it beyond: many times what any launch and setting that is allowed needs

  FlightOf<T> out;
  const V v0 = value_of(launch.ball_speed), w0 = value_of(launch.spin);
  const V whole =
      v0 + value_of(launch.launch) + value_of(launch.azimuth) + w0 + value_of(launch.tilt) +
      value_of(setting.drag_scale) + value_of(setting.lift_scale) +
      (setting.air.density + setting.air.viscosity + setting.wind.speed + setting.wind.from + setting.wind.height);
  LogicOf<T> finite = is_finite(whole) & (v0 > V(0.0));
  const LogicOf<T> rises = finite & (value_of(launch.launch) > V(0.0));
  LogicOf<T> flying = rises, landed{}, outlasted{}, shortened{};

  const FlightEquation<T, Form> equation(launch, setting, form);
  const Vec3<T> v = launch.ball_speed * equation.along();
  FlightStep<T> step;
  step.from = {T(0.0), T(0.0), T(0.0), v.x, v.y, v.z, launch.spin};
  step.start = V(0.0);
  FlightState<T> land = step.from, error;
  std::array<T, 4> change{};  // of the last four derivatives over the last step, per second
  V steps(0.0), calls(0.0);
  T time(0.0);
  if (any(rises)) {
    const AeroModel& aero = *setting.aero;
    const auto outside = [&](const auto& regime) {
      return (regime.reynolds < V(aero.reynolds_low)) | (regime.reynolds > V(aero.reynolds_high)) |
             (regime.spin_ratio < V(aero.spin_ratio_low)) | (regime.spin_ratio > V(aero.spin_ratio_high));
    };
    // An error of speed works on for v0/g; one of spin is to that of speed as spin to speed; those of place follow.
    // Lengths come from the ball, the air and gravity, so the steps taken do not depend on the units. Only values
    // steer: derivatives ride along.
    const V unit = v0 * (1.0 / kGravity);  // [s]
    const V per_speed = unit * (equation.slowing() / tolerance), per_spin = per_speed * v0 / max_of(w0, V(1.0));
    const V hair =
        unit *
        (0.13 * std::sqrt(std::sqrt(tolerance)));  // [s] of flight the series bridges: its error is of fourth order

    auto regime = equation(step.from, step.from_rate), next_regime = regime;
    calls = select(rises, V(1.0), V(0.0));
    out.outside_aero_range = flying & outside(regime);
    const bool sheared = !setting.wind.calm() && setting.wind.profile != WindProfile::uniform;
    V next_length = (sheared ? kFirstSheared : kFirstStep) * unit, jerk(0.0);
    Stepper<T> stepper;

    while (any(flying)) {
      step.length = next_length;
      const V y = value_of(step.from[1]), vy = value_of(step.from[4]), ay = value_of(step.from_rate[4]);
      const V twice = 2.0 * next_length;
      if (any(flying & (y + twice * (vy + 0.5 * twice * min_of(ay, ay + jerk * twice)) <= V(0.0)))) {
        const V left = time_to_ground(y, vy, ay, jerk);
        step.length = select(left <= next_length, left, select(left < twice, 0.5 * left, next_length));
      }
      // The last of the method's calls is at the step's end.
      stepper.do_step(
          [&](const FlightState<T>& at, FlightState<T>& rate, const V&) { next_regime = equation(at, rate); },
          step.from, step.from_rate, V(0.0), step.to, step.to_rate, step.length, error);
      calls = calls + select(flying, V(6.0), V(0.0));

      const auto size = [&error](std::size_t i) { return abs_of(value_of(error[i])); };
      const V miss = max_of(max_of(per_speed * max_of(size(3), size(4)), per_speed * size(5)), per_spin * size(6));
      LogicOf<T> good = flying & (miss <= V(1.0));
      const V wanted =
          min_of(max_of(kSafety * inverse_fifth_root(max_of(miss, V(1e-12))), V(kLeastFactor)), V(kMostFactor));
      const V factor = coarse(wanted);
      next_length = select(is_finite(miss), step.length * factor, kLeastFactor * step.length);

      const V below = regime.spin_ratio - kGreatestSpinRatio, above = next_regime.spin_ratio - kGreatestSpinRatio;
      const LogicOf<T> kinked =
          good & !shortened & (below * above < V(0.0)) & (min_of(abs_of(below), abs_of(above)) > V(kNearKink));
      if (any(kinked)) {
        const V slope = equation.spin_ratio_rate(step.from, step.from_rate) * step.length;
        const V share = share_where(regime.spin_ratio, next_regime.spin_ratio, slope, kGreatestSpinRatio);
        next_length = select(kinked, step.length * share, next_length);
        good = good & !kinked;
      }
      // A step through the ground is taken again, up to it.
      const V end_y = value_of(step.to[1]), end_vy = value_of(step.to[4]);
      const LogicOf<T> lands = good & (end_vy < V(0.0)) & (abs_of(end_y) <= -(end_vy * hair));
      const LogicOf<T> through = good & !lands & (end_y < V(0.0));
      if (any(through)) {
        next_length = select(through, step.length * step.ground(), next_length);
        good = good & !through;
      }
      shortened = (shortened & !good) | kinked;  // at the kink, once for each step

      const LogicOf<T> lost = flying & (((next_length < kLeastStep * unit) & !good) | (calls > V(kMostCalls)));
      finite = finite & !lost;
      flying = flying & !lost;
      if (!any(good)) continue;

      steps = steps + select(good, V(1.0), V(0.0));
      const LogicOf<T> topped = good & (value_of(step.from[4]) > V(0.0)) & (value_of(step.to[4]) <= V(0.0));
      if (any(topped)) out.apex = select(topped, max_of(out.apex, step.at(1, step.top())), out.apex);
      on_step(step);
      jerk = select(good, (value_of(step.to_rate[4]) - ay) / step.length, jerk);
      step.start = step.start + select(good, step.length, V(0.0));
      if (any(lands)) {
        const V per_length = V(1.0) / step.length;
        for (std::size_t i = 0; i < 4; ++i)
          change[i] = select(lands, per_length * (step.to_rate[i + 3] - step.from_rate[i + 3]), change[i]);
        landed = landed | lands;
        flying = flying & !lands;
      }
      outlasted = outlasted | (flying & good & (step.start > V(kLongestFlight)));
      flying = flying & !outlasted;

      regime.reynolds = select(good, next_regime.reynolds, regime.reynolds);
      regime.spin_ratio = select(good, next_regime.spin_ratio, regime.spin_ratio);
      out.outside_aero_range = out.outside_aero_range | (good & outside(regime));
      for (std::size_t i = 0; i < 7; ++i) {
        step.from[i] = select(good, step.to[i], step.from[i]);
        step.from_rate[i] = select(good, step.to_rate[i], step.from_rate[i]);
      }
    }

    // y + vy t + ay t^2/2 + jy t^3/6 = 0: where the parabola crosses, in values; a Newton step in T adds what is left
    // over and how the moment of landing depends on what T varies.
    const FlightState<T>&end = step.from, &end_rate = step.from_rate;
    const auto series = [&](std::size_t i, const auto& t) {
      return end[i] + t * (end[i + 3] + t * (0.5 * end_rate[i + 3] + t * (change[i] * (1.0 / 6.0))));
    };
    const V y = value_of(end[1]), vy = value_of(end[4]), ay = value_of(end_rate[4]);
    const V fall = sqrt(max_of(vy * vy - 2.0 * ay * y, V(0.0)));
    const V moment = 2.0 * y / max_of(fall - vy, V(1e-30));
    const V climb = vy + moment * (ay + 0.5 * moment * value_of(change[1]));
    const T t = moment - (V(1.0) / climb) * series(1, moment);
    for (std::size_t i = 0; i < 3; ++i) land[i] = select(landed, i == 1 ? T(0.0) : series(i, t), end[i]);
    for (std::size_t i = 3; i < 7; ++i)
      land[i] = select(landed, end[i] + t * (end_rate[i] + 0.5 * t * change[i - 3]), end[i]);
    time = select(landed, step.start + t, T(step.start));
    finite = finite & ((value_of(land[4]) < V(0.0)) | !landed);  // far beyond its range the model may do anything
  }

  const auto meant = [&](const T& x) { return select(finite, x, T(0.0)); };
  const T along = land[3] * land[3] + land[5] * land[5], level = length_of(along);
  out.carry = meant(land[0]);
  out.side = meant(land[2]);
  out.apex = meant(out.apex);
  out.landing_angle = meant(select(rises, arctangent(-land[4], level), -launch.launch));
  out.landing_speed = meant(select(rises, length_of(along + land[4] * land[4]), launch.ball_speed));
  out.landing_heading = meant(select(rises, arctangent(land[5], land[3]), launch.azimuth));
  out.landing_spin = meant(land[6]);
  out.time = meant(time);
  out.end = select(outlasted, each<T>(FlightEnd::time_limit), each<T>(FlightEnd::landed));
  out.end = select(rises, out.end, each<T>(FlightEnd::never_rose));
  out.end = select(finite, out.end, each<T>(FlightEnd::not_finite));
  out.steps = whole_numbers(steps);
  out.calls = whole_numbers(calls);
  return out;
}

}  // namespace loftwright::detail
