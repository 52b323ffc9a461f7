// The same 1,000 launches by ours, by CVODE and by plain Odeint loops, each at the coarsest of its tolerances that
// keeps every carry within 1 mm, and the same drives side by side: calls, errors and processor time as JSON for
// proof.py. With
// --launches: the launches and their carries, for SciPy. With --flights N or --drives N: computes that many and no
// more, for counting instructions.
#include <fmt/format.h>
#include <time.h>

#include <boost/numeric/odeint.hpp>
#include <cstring>
#include <functional>

#include "cvode_flight.hpp"
#include "draws.hpp"
#include "flight/integrate.hpp"
#include "ground/bounce.hpp"
#include "loftwright/shot/drives.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

namespace odeint = boost::numeric::odeint;
using State = std::array<double, 7>;

// docs/model.md, section 4, as one would first write it: std::pow in every call. Still air, the reference ball.
struct PlainEquation {
  explicit PlainEquation(const Launch& l) {
    const Vec3<double> along = direction(l.launch, l.azimuth), right{-std::sin(l.azimuth), 0.0, std::cos(l.azimuth)};
    axis = std::cos(l.tilt) * right - std::sin(l.tilt) * cross(right, along);
  }
  void operator()(const State& y, State& dy, double = 0.0) const {
    const Vec3<double> v{y[3], y[4], y[5]};
    const double speed = std::sqrt(dot(v, v)), s = std::min(y[6] * ball.radius / speed, 0.5);
    const double re = 2.0 * air.density * speed * ball.radius / air.viscosity;
    const double cd = 0.181 + 0.543 * s - 0.021 * (re / 1e5 - 1.5), cl = 0.7315 * std::pow(s, 0.628);
    const double q = 0.5 * air.density * ball.area() / ball.mass * speed;
    const Vec3<double> lift = cross(axis, v);
    dy = {y[3],
          y[4],
          y[5],
          q * (cl * lift.x - cd * v.x),
          q * (cl * lift.y - cd * v.y) - kGravity,
          q * (cl * lift.z - cd * v.z),
          -ball.spin_decay / ball.radius * y[6] * speed};
  }
  Ball ball;
  Air air = air_from(Weather{});
  Vec3<double> axis{};
};

State start_of(const Launch& l) {
  const Vec3<double> v = l.ball_speed * direction(l.launch, l.azimuth);
  return {0.0, 0.0, 0.0, v.x, v.y, v.z, l.spin};
}

auto counting(const PlainEquation& equation, int& calls) {
  return [&](const State& y, State& dy, double t) {
    ++calls;
    equation(y, dy, t);
  };
}

// A plain loop: Odeint's own error control; the landing by dense output and bisection where the method has it, else by
// taking the last step again, up to the ground, until it is met.
template <class Stepper>
Flight plain_dense(const Launch& launch, double tolerance) {
  const PlainEquation equation(launch);
  Flight flight;
  const auto counted = counting(equation, flight.calls);
  auto stepper = odeint::make_dense_output(tolerance, tolerance, Stepper());
  stepper.initialize(start_of(launch), 0.0, 0.1);
  while (true) {
    const auto [t0, t1] = stepper.do_step(counted);
    if (stepper.current_state()[1] > 0.0) continue;
    double low = t0, high = t1;
    State at;
    for (int i = 0; i < 50; ++i) {
      const double middle = 0.5 * (low + high);
      stepper.calc_state(middle, at);
      (at[1] > 0.0 ? low : high) = middle;
    }
    flight.carry = at[0];
    return flight;
  }
}

template <class Stepper>
Flight plain_controlled(const Launch& launch, double tolerance) {
  const PlainEquation equation(launch);
  Flight flight;
  const auto counted = counting(equation, flight.calls);
  auto stepper = odeint::make_controlled(tolerance, tolerance, Stepper());
  State y = start_of(launch);
  double t = 0.0, h = 0.3;
  while (true) {
    const State before = y;
    const double t_before = t;
    if (stepper.try_step(counted, y, t, h) == odeint::fail || y[1] > 0.0) continue;
    State at = y;
    double step = t - t_before;
    for (int round = 0; round < 6 && std::abs(at[1]) > 1e-6; ++round) {
      step -= at[1] / at[4];
      at = before;
      Stepper().do_step(counted, at, t_before, step);
    }
    flight.carry = at[0] - at[3] * at[1] / at[4];
    return flight;
  }
}

std::vector<Launch> launches() {
  Draws draws(20266);
  std::vector<Launch> all(1000);
  for (Launch& l : all) {
    l = draws.drive();
    l.spin =
        std::min(l.spin, 3200.0 * kRpm);  // S stays below 0.5, where the lift law has a kink no plain loop knows of
  }
  return all;
}

double processor_time() {
  timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

// Least of several runs of each, in turns, so that a slow minute is one for all. [s]
std::vector<double> least_times(int rounds, const std::vector<std::function<void()>>& works) {
  std::vector<double> least(works.size(), 1e9);
  for (int i = 0; i < rounds; ++i) {
    for (std::size_t k = 0; k < works.size(); ++k) {
      const double from = processor_time();
      works[k]();
      least[k] = std::min(least[k], processor_time() - from);
    }
  }
  return least;
}

struct Result {
  double tolerance, calls, worst;  // [-], [-] mean, [m]
};

using Method = std::function<Flight(const Launch&, double)>;

Result measure(const Method& method, double tolerance, const std::vector<Launch>& all,
               const std::vector<double>& exact) {
  Result r{tolerance, 0.0, 0.0};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Flight f = method(all[i], tolerance);
    r.calls += f.calls / static_cast<double>(all.size());
    r.worst = std::max(r.worst, std::abs(f.carry - exact[i]));
  }
  return r;
}

// The arithmetic of a drive, counted by a scalar that counts.
struct Counted {
  double v = 0.0;
  static inline long flops = 0, divisions = 0, roots = 0, functions = 0;
  Counted() = default;
  Counted(double x) : v(x) {}  // NOLINT
  static Counted flop(double x) {
    ++flops;
    return x;
  }
  friend Counted operator+(Counted a, Counted b) { return flop(a.v + b.v); }
  friend Counted operator-(Counted a, Counted b) { return flop(a.v - b.v); }
  friend Counted operator*(Counted a, Counted b) { return flop(a.v * b.v); }
  friend Counted operator/(Counted a, Counted b) {
    ++divisions;
    return a.v / b.v;
  }
  friend Counted operator-(Counted a) { return -a.v; }
  Counted& operator+=(Counted b) { return *this = *this + b; }
  friend bool operator<(Counted a, Counted b) { return a.v < b.v; }
  friend bool operator>(Counted a, Counted b) { return a.v > b.v; }
  friend bool operator<=(Counted a, Counted b) { return a.v <= b.v; }
  friend bool operator>=(Counted a, Counted b) { return a.v >= b.v; }
  friend bool operator==(Counted a, Counted b) { return a.v == b.v; }
  friend Counted value_of(Counted a) { return a; }
  friend std::uint64_t bits_of(Counted a) { return loftwright::bits_of(a.v); }
  friend int whole_numbers(Counted a) { return static_cast<int>(a.v); }
  friend Counted sqrt(Counted a) {
    ++roots;
    return std::sqrt(a.v);
  }
  friend SinCos<Counted> sin_cos(Counted a) {
    functions += 2;
    return {std::sin(a.v), std::cos(a.v)};
  }
  friend SinCos<Counted> sin_cos_of_small(Counted a) { return sin_cos(a); }
  friend Counted exponential(Counted a) {
    ++functions;
    return std::exp(a.v);
  }
  friend Counted logarithm(Counted a) {
    ++functions;
    return std::log(a.v);
  }
  friend Counted pow(Counted a, double n) {
    ++functions;
    return std::pow(a.v, n);
  }
  friend Counted arctangent(Counted y, Counted x) {
    ++functions;
    return std::atan2(y.v, x.v);
  }
  friend Counted power(Counted a, double n) {  // what lanes spend on it
    flops += 30;
    ++divisions;
    return std::pow(a.v, n);
  }
};

}  // namespace

namespace loftwright {
template <>
FlightOf<Counted> fly(const LaunchOf<Counted>& launch, const FlightSettingOf<Counted>& setting, double tolerance) {
  return detail::integrate(launch, setting, std::get<AeroCurve>(setting.aero->form), tolerance, [](const auto&) {});
}
template <>
RunOf<Counted> run_out(const LandingOf<Counted>& landing, const RunSettingOf<Counted>& setting) {
  return detail::run_on(landing, setting, std::get<AeroCurve>(setting.aero->form));
}
}  // namespace loftwright

namespace {

std::vector<DriveInput> drives() {
  Draws draws(20267);
  std::vector<DriveInput> all(4096);
  for (DriveInput& in : all) {  // a player's scatter and the model's doubt, as draws of advise have them
    in.delivery = {draws.between(36.0, 42.0),       draws.between(-4.0, 4.0) * kDeg,  draws.between(-3.0, 3.0) * kDeg,
                   draws.between(-3.0, 3.0) * kDeg, draws.between(10.0, 16.0) * kDeg, draws.between(-0.015, 0.015),
                   draws.between(-0.01, 0.01)};
    in.error.drag_scale = draws.between(0.95, 1.05);
    in.error.lift_scale = draws.between(0.9, 1.1);
  }
  return all;
}

DeliveryOf<Counted> counted(const Delivery& d) {
  return {d.club_speed, d.attack, d.path, d.face, d.dynamic_loft, d.toe, d.high};
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<Launch> all = launches();
  const Setting in = default_setting();
  const FlightSetting setting{&in.ball, &in.aero, in.air, Wind{}};
  std::vector<double> exact;
  for (const Launch& l : all) exact.push_back(fly(l, setting, 1e-13).carry);

  if (argc == 2 && !std::strcmp(argv[1], "--launches")) {
    for (std::size_t i = 0; i < all.size(); ++i) {
      fmt::print("{:.17g} {:.17g} {:.17g} {:.17g} {:.17g} {:.17g}\n", all[i].ball_speed, all[i].launch, all[i].azimuth,
                 all[i].spin, all[i].tilt, exact[i]);
    }
    return 0;
  }
  const auto count = argc == 3 ? static_cast<std::size_t>(std::stoul(argv[2])) : 0;
  double sum = 0.0;
  if (argc == 3 && !std::strcmp(argv[1], "--flights")) {
    for (std::size_t i = 0; i < count; ++i) sum += fly(all[i % all.size()], setting).carry;
    fmt::print("{}\n", sum);
    return 0;
  }
  const std::vector<DriveInput> inputs = drives();
  std::vector<Drive> out(inputs.size());
  if (argc == 3 && !std::strcmp(argv[1], "--drives")) {
    for (std::size_t i = 0; i < count; ++i) drive_many(inputs, Handed::right, in, kFlightTolerance, out);
    fmt::print("{}\n", out[0].total);
    return 0;
  }

  const std::pair<const char*, Method> methods[] = {
      {"ours", [&](const Launch& l, double tolerance) { return fly(l, setting, tolerance); }},
      {"Odeint dopri5, dense", plain_dense<odeint::runge_kutta_dopri5<State>>},
      {"Odeint Cash-Karp 5(4)", plain_controlled<odeint::runge_kutta_cash_karp54<State>>},
      {"Odeint Fehlberg 8(7)", plain_controlled<odeint::runge_kutta_fehlberg78<State>>},
      {"CVODE Adams",
       [](const Launch& l, double tolerance) { return fly_by_cvode(PlainEquation(l), l, tolerance, tolerance); }},
  };
  std::vector<std::vector<Result>> ladders;
  std::vector<Result> chosen;
  std::vector<std::function<void()>> fly_by;
  for (const auto& [name, method] : methods) {
    std::vector<Result> ladder;
    for (double tolerance = 1e-4; tolerance > 1e-10; tolerance /= std::sqrt(10.0))
      ladder.push_back(measure(method, tolerance, all, exact));
    const auto good = std::find_if(ladder.begin(), ladder.end(), [](const Result& r) { return r.worst < 1e-3; });
    if (good == ladder.end()) throw std::runtime_error(std::string(name) + " never came within 1 mm");
    chosen.push_back(*good);
    fly_by.push_back([&, by = method, tolerance = good->tolerance] {
      for (const Launch& l : all) sum += by(l, tolerance).carry;
    });
    ladders.push_back(std::move(ladder));
  }
  const std::vector<double> times = least_times(20, fly_by);
  const double flown = static_cast<double>(all.size());
  fmt::print("{{\n  \"methods\": [");
  for (std::size_t m = 0; m < chosen.size(); ++m) {
    fmt::print(
        "{}\n    {{\"name\": \"{}\", \"tolerance\": {:.3g}, \"calls\": {:.2f}, \"worst_mm\": {:.3f}, \"ns\": {:.1f}, "
        "\"ladder\": [",
        m ? "," : "", methods[m].first, chosen[m].tolerance, chosen[m].calls, 1e3 * chosen[m].worst,
        1e9 * times[m] / flown);
    for (std::size_t i = 0; i < ladders[m].size(); ++i) {
      fmt::print("{}[{:.3g}, {:.2f}, {:.4g}]", i ? ", " : "", ladders[m][i].tolerance, ladders[m][i].calls,
                 1e3 * ladders[m][i].worst);
    }
    fmt::print("]}}");
  }
  const FlightEquation<double, AeroCurve> equation(all[0], setting, std::get<AeroCurve>(in.aero.form));
  State y = start_of(all[0]), dy{};
  y[1] = 5.0;
  const auto fly_all = [&] {
    for (const Launch& l : all) sum += fly(l, setting).carry;
  };
  const double at_default = measure(methods[0].second, kFlightTolerance, all, exact).calls;
  const std::vector<double> chain = least_times(
      100, {[&] {
              for (int i = 0; i < 40000; ++i) {  // each from the last: what a step's chain of calls waits for
                equation(y, dy);
                for (std::size_t k = 3; k < 7; ++k) y[k] += 1e-12 * dy[k];
                asm volatile(""
                             :
                             : "r"(y.data()), "r"(dy.data())
                             : "memory");  // states are in memory, as an integrator's are
              }
            },
            fly_by[0], fly_all});
  fmt::print(
      "\n  ],\n  \"call_ns\": {:.2f},\n  \"flights\": [{{\"calls\": {:.2f}, \"ns\": {:.1f}}}, {{\"calls\": {:.2f}, "
      "\"ns\": {:.1f}}}],\n  \"drives\": [",
      1e9 * chain[0] / 40000, chosen[0].calls, 1e9 * chain[1] / flown, at_default, 1e9 * chain[2] / flown);
  std::vector<std::size_t> widths{1, 8};
  while (widths.back() < lanes_here()) widths.push_back(2 * widths.back());
  std::vector<std::function<void()>> by_width;
  for (const std::size_t lanes : widths)
    by_width.push_back([&, lanes] { drive_many(inputs, Handed::right, in, kFlightTolerance, out, lanes); });
  const std::vector<double> drive_times = least_times(60, by_width);
  for (std::size_t i = 0; i < widths.size(); ++i) {
    fmt::print("{}\n    {{\"lanes\": {}, \"ns\": {:.1f}}}", i ? "," : "", widths[i],
               1e9 * drive_times[i] / static_cast<double>(inputs.size()));
  }
  for (const DriveInput& input : inputs) {
    ModelErrorOf<Counted> error;
    error.drag_scale = input.error.drag_scale;
    error.lift_scale = input.error.lift_scale;
    sum += drive_from(counted(input.delivery), Handed::right, in, kFlightTolerance, error).total.v;
  }
  const double n = static_cast<double>(inputs.size());
  fmt::print(
      "\n  ],\n  \"drive\": {{\"flops\": {:.0f}, \"divisions\": {:.1f}, \"roots\": {:.1f}, \"functions\": {:.1f}}},\n  "
      "\"sum\": {:.6g}\n}}\n",
      static_cast<double>(Counted::flops) / n, static_cast<double>(Counted::divisions) / n,
      static_cast<double>(Counted::roots) / n, static_cast<double>(Counted::functions) / n, sum);
  return 0;
}
