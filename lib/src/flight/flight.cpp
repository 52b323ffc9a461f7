#include "loftwright/flight/flight.hpp"

#include <algorithm>
#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

namespace loftwright {

namespace {

namespace odeint = boost::numeric::odeint;

constexpr double kLongestFlight = 60.0;  // [s]
constexpr int kMostSteps = 20000;        // far beyond any drive: a flight that needs more is given up as endless
constexpr double kKinkGrain = 1e-4;      // [-] of S: a kink this near the end of a step does no harm
constexpr double kWatch = 10.0;         // [-] a step's error may be this many tolerances: planned steps stay well below it

// The flight is integrated along its air path rather than in time: dp = sqrt(V^2 + U^2) dt. Along the path drag is a nearly
// constant rate and lift a nearly constant curvature, so steps can be a third longer for the same error; U keeps the path
// moving where a tail wind leaves the ball without air speed. State: the seven of FlightEquation, then time.
template <class T>
using State = std::array<T, 8>;
template <class T>
using Stepper = odeint::runge_kutta_dopri5<State<T>, double, State<T>, double, odeint::array_algebra>;

template <class T, class Form>
class PathEquation {
 public:
  PathEquation(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, const Form& form)
      : equation_(launch, setting, form),
        slowest_squared_(square(kSlowest * value_of(launch.ball_speed))),
        sheared_(!setting.wind.calm() && setting.wind.profile != WindProfile::uniform) {}

  void operator()(const State<T>& y, State<T>& dy, double /*path*/) const {
    using std::sqrt;
    const T speed = equation_.rates(y, dy);
    const T per_path = 1.0 / sqrt(speed * speed + slowest_squared_);
    for (std::size_t i = 0; i < 7; ++i) dy[i] = dy[i] * per_path;
    dy[7] = per_path;
  }

  // How long a step may be from here: a share of the distances over which gravity and drag bend and slow the flight. The
  // shares were fitted once so that errors spread evenly over drives of 60 to 120 mph; the embedded error watches over them.
  // Where the wind shears, the height over which it does counts too.
  double step_from(const State<T>& y, const State<T>& dy) const {
    const double per_pace_squared = square(value_of(dy[7]));
    double bends = kGravityShare * kGravity * per_pace_squared + kDragShare * equation_.drag_per_metre();
    if (sheared_) bends += kShearShare * std::abs(value_of(dy[1])) / (std::abs(value_of(y[1])) + kShearHeight);
    return kStep / bends;
  }

  const FlightEquation<T, Form>& equation() const { return equation_; }

 private:
  static double square(double x) { return x * x; }
  static constexpr double kSlowest = 0.2;                           // [-] U over the launch speed
  static constexpr double kStep = 0.72, kGravityShare = 1.24, kDragShare = 1.08, kShearShare = 0.25;  // [-]
  static constexpr double kShearHeight = 2.0;                       // [m] see air/wind.hpp

  FlightEquation<T, Form> equation_;
  double slowest_squared_;  // [m^2/s^2]
  bool sheared_;
};

// Where the cubic with these ends and end slopes (per step) passes zero between them, as a share of the step; f0 > 0 >= f1.
double cubic_root(double f0, double f1, double m0, double m1) {
  double low = 0.0, high = 1.0, t = f0 / (f0 - f1);
  for (int i = 0; i < 12; ++i) {
    const double f = f0 + t * (m0 + t * (3.0 * (f1 - f0) - 2.0 * m0 - m1 + t * (2.0 * (f0 - f1) + m0 + m1)));
    const double slope = m0 + t * (2.0 * (3.0 * (f1 - f0) - 2.0 * m0 - m1) + 3.0 * t * (2.0 * (f0 - f1) + m0 + m1));
    (f > 0.0 ? low : high) = t;
    const double next = t - f / slope;
    const double last = t;
    t = next > low && next < high ? next : 0.5 * (low + high);
    if (std::abs(t - last) < 1e-9) break;
  }
  return t;
}

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

  const PathEquation<T, Form> equation(launch, setting, form);
  auto counted = [&](const State<T>& y, State<T>& dy, double path) {
    ++out.calls;
    equation(y, dy, path);
  };
  auto note_range = [&](const State<T>& y) {
    const AeroModel& aero = *setting.aero;
    const double re = equation.equation().reynolds(y), s = equation.equation().spin_ratio(y);
    if (re < aero.reynolds_low || re > aero.reynolds_high || s < aero.spin_ratio_low || s > aero.spin_ratio_high) {
      out.outside_aero_range = true;
    }
  };
  // Largest local error of a step against what the tolerance allows it; only values steer, derivatives ride along.
  const double length_scale = v0 * v0 / kGravity, spin_scale = std::max(value_of(launch.spin), 1.0);
  auto excess_of = [&](const State<T>& error) {
    double worst = std::abs(value_of(error[6])) / spin_scale;
    for (std::size_t i = 0; i < 3; ++i) {
      worst = std::max({worst, std::abs(value_of(error[i])) / length_scale, std::abs(value_of(error[i + 3])) / v0});
    }
    return worst / (kWatch * tolerance);
  };

  Stepper<T> stepper;
  State<T> y{T(0.0), T(0.0), T(0.0), v.x, v.y, v.z, launch.spin, T(0.0)}, dy, after, d_after, error;
  note_range(y);
  counted(y, dy, 0.0);
  const double planned = std::pow(tolerance / kFlightTolerance, 0.2);  // the error of a step grows with its length to the sixth
  double path = 0.0, shorter = planned, to_kink = 0.0;
  while (true) {
    const double h = to_kink > 0.0 ? to_kink : shorter * equation.step_from(y, dy);
    stepper.do_step(counted, y, dy, path, after, d_after, h, error);
    const double excess = excess_of(error);
    if (!std::isfinite(excess) || (excess > 1.0 && out.steps < kMostSteps)) {
      if (!std::isfinite(excess) && shorter < 1e-3) {
        out.end = FlightEnd::not_finite;
        break;
      }
      shorter *= 0.5;
      to_kink = 0.0;
      continue;
    }
    // The coefficients bend where S comes to be held: a step that would cross the place ends there instead.
    const double below = kGreatestSpinRatio - equation.equation().spin_ratio(y), above = equation.equation().spin_ratio(after) - kGreatestSpinRatio;
    if (to_kink == 0.0 && below * above > 0.0 && std::min(std::abs(below), std::abs(above)) > kKinkGrain) {
      to_kink = h * below / (below + above);
      continue;
    }
    to_kink = 0.0;
    ++out.steps;
    shorter = std::min(planned, 1.5 * shorter);
    auto state_at = [&](double share) {
      State<T> at;
      stepper.calc_state(path + share * h, at, y, dy, path, after, d_after, path + h);
      return at;
    };
    // The moment t, between this step's ends, as a share of it.
    auto share_at = [&](double t) {
      return cubic_root(t - value_of(y[7]), t - value_of(after[7]), -h * value_of(dy[7]), -h * value_of(d_after[7]));
    };
    double peak = 0.0;
    if (value_of(y[4]) > 0.0 && value_of(after[4]) <= 0.0) {
      peak = cubic_root(value_of(y[4]), value_of(after[4]), h * value_of(dy[4]), h * value_of(d_after[4]));
      out.apex = state_at(peak)[1];
    }
    if (value_of(after[1]) <= 0.0) {
      // From the peak, or the step's start, down to the ground; a Newton step in the state itself ends it below.
      double share = peak;
      State<T> at = peak > 0.0 ? state_at(peak) : y;
      if (value_of(at[1]) > 0.0) {
        State<T> d_at;
        equation(at, d_at, path);
        const double rest = (1.0 - peak) * h;
        share = peak + (1.0 - peak) * cubic_root(value_of(at[1]), value_of(after[1]), rest * value_of(d_at[1]), rest * value_of(d_after[1]));
        at = state_at(share);
      }
      on_step(state_at, share_at, value_of(at[7]));
      y = at;
      break;
    }
    on_step(state_at, share_at, value_of(after[7]));
    y = after;
    dy = d_after;
    path += h;
    note_range(y);
    if (value_of(y[7]) > kLongestFlight || out.steps > kMostSteps) {
      out.end = FlightEnd::time_limit;
      break;
    }
  }

  if (out.end == FlightEnd::landed) {
    // One Newton step onto the ground. The value hardly moves; the derivative of the moment of landing comes in here.
    counted(y, dy, path);
    const T back = -y[1] / dy[1];
    for (std::size_t i = 0; i < y.size(); ++i) y[i] = y[i] + back * dy[i];
    note_range(y);
  }
  const T level = length_of(y[3] * y[3] + y[5] * y[5]);
  out.carry = y[0];
  out.side = y[2];
  out.landing_angle = atan2(-y[4], level);
  out.landing_speed = length_of(level * level + y[4] * y[4]);
  out.landing_heading = atan2(y[5], y[3]);
  out.landing_spin = y[6];
  out.time = y[7];
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
      [&](const auto& form) { return integrate(launch, setting, form, tolerance, [](auto&, auto&, double) {}); },
      setting.aero->form);
}

template FlightOf<double> fly(const LaunchOf<double>&, const FlightSettingOf<double>&, double);
template FlightOf<Dual<2>> fly(const LaunchOf<Dual<2>>&, const FlightSettingOf<Dual<2>>&, double);
template FlightOf<Dual<5>> fly(const LaunchOf<Dual<5>>&, const FlightSettingOf<Dual<5>>&, double);

std::vector<FlightPoint> trace(const Launch& launch, const FlightSetting& setting, int count) {
  const Flight flight = fly(launch, setting);
  std::vector<FlightPoint> points{{0.0, {}}};
  const double spacing = flight.time / (count - 1);
  std::visit(
      [&](const auto& form) {
        integrate(launch, setting, form, kFlightTolerance, [&](auto& state_at, auto& share_at, double end) {
          while (static_cast<int>(points.size()) < count - 1 && spacing * points.size() <= end) {
            const double t = spacing * points.size();
            const State<double> at = state_at(share_at(t));
            points.push_back({t, {at[0], at[1], at[2]}});
          }
        });
      },
      setting.aero->form);
  points.resize(static_cast<std::size_t>(count), {flight.time, {flight.carry, 0.0, flight.side}});
  return points;
}

}  // namespace loftwright
