// What the parts of a drive cost. Medians of a quiet machine; compare only runs of the same one.
#include <benchmark/benchmark.h>

#include "loftwright/shot/drives.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const Delivery kSwing{42.0, -1.0 * kDeg, 0.5 * kDeg, -0.5 * kDeg, 14.0 * kDeg, 0.004, 0.003};
const Launch kLaunch{62.0, 12.0 * kDeg, 1.0 * kDeg, 2700.0 * kRpm, 5.0 * kDeg};
const Wind kBreeze{4.0, 0.7, 10.0, WindProfile::logarithmic};

AeroModel tabulated() {
  AeroTable table{{5e4, 1e5, 1.5e5, 2e5, 2.5e5}, {0.02, 0.1, 0.2, 0.3, 0.5}, {}, {}};
  const AeroModel aero = reference_aero();
  const auto& curve = std::get<AeroCurve>(aero.form);
  for (const double re : table.reynolds) {
    for (const double s : table.spin_ratio) {
      const auto c = curve.at(re, s);
      table.drag.push_back(c.drag);
      table.lift.push_back(c.lift);
    }
  }
  return {"tabulated", "", "", table, 5e4, 2.5e5, 0.02, 0.5};
}

void right_hand_side(benchmark::State& state) {
  const Setting in = default_setting();
  const FlightSetting setting{&in.ball, &in.aero, in.air, state.range(0) ? kBreeze : Wind{}};
  const FlightEquation<double, AeroCurve> equation(kLaunch, setting, std::get<AeroCurve>(in.aero.form));
  const Vec3<double> v = kLaunch.ball_speed * direction(kLaunch.launch, kLaunch.azimuth);
  std::array<double, 7> y{0.0, 5.0, 0.0, v.x, v.y, v.z, kLaunch.spin}, dy;
  for (auto _ : state) {
    benchmark::DoNotOptimize(y);
    equation(y, dy);
    benchmark::DoNotOptimize(dy);
  }
}
BENCHMARK(right_hand_side)->ArgName("windy")->Arg(0)->Arg(1);

void flight(benchmark::State& state) {
  const Setting in = default_setting();
  const FlightSetting setting{&in.ball, &in.aero, in.air, state.range(0) ? kBreeze : Wind{}};
  int calls = 0;
  for (auto _ : state) {
    const Flight flown = fly(kLaunch, setting);
    benchmark::DoNotOptimize(flown.carry);
    calls = flown.calls;
  }
  state.counters["calls"] = calls;
}
BENCHMARK(flight)->ArgName("windy")->Arg(0)->Arg(1);

void flight_tight(benchmark::State& state) {
  const Setting in = default_setting();
  const FlightSetting setting{&in.ball, &in.aero, in.air, Wind{}};
  for (auto _ : state) benchmark::DoNotOptimize(fly(kLaunch, setting, kTightFlightTolerance).carry);
}
BENCHMARK(flight_tight);

void flight_from_table(benchmark::State& state) {
  const Setting in = default_setting();
  const AeroModel aero = tabulated();
  const FlightSetting setting{&in.ball, &aero, in.air, Wind{}};
  for (auto _ : state) benchmark::DoNotOptimize(fly(kLaunch, setting).carry);
}
BENCHMARK(flight_from_table);

void flight_with_two_derivatives(benchmark::State& state) {
  using Two = Dual<2>;
  const Setting in = default_setting();
  const FlightSettingOf<Two> setting{&in.ball, &in.aero, in.air, Wind{}};
  LaunchOf<Two> launch;
  launch.ball_speed = Two(kLaunch.ball_speed);
  launch.launch = Two::variable(kLaunch.launch, 0);
  launch.azimuth = Two(kLaunch.azimuth);
  launch.spin = Two::variable(kLaunch.spin, 1);
  launch.tilt = Two(kLaunch.tilt);
  for (auto _ : state) benchmark::DoNotOptimize(fly(launch, setting).carry.v);
}
BENCHMARK(flight_with_two_derivatives);

void impact(benchmark::State& state) {
  const Head head;
  const Ball ball;
  Delivery swing = kSwing;
  for (auto _ : state) {
    benchmark::DoNotOptimize(swing);
    benchmark::DoNotOptimize(strike_ball(swing, head, ball).launch.spin);
  }
}
BENCHMARK(impact);

void run(benchmark::State& state) {
  const Setting in = default_setting();
  double speed = 27.0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(speed);
    benchmark::DoNotOptimize(run_out(Landing{speed, 38.0 * kDeg, 230.0}, run_setting(in)).roll);
  }
}
BENCHMARK(run);

void drive(benchmark::State& state) {
  const Setting in = default_setting();
  for (auto _ : state) benchmark::DoNotOptimize(drive_from(kSwing, Handed::right, in).total);
}
BENCHMARK(drive);

void drives_side_by_side(benchmark::State& state) {
  const Setting in = default_setting();
  const std::vector<DriveInput> inputs(1024, DriveInput{kSwing, {}});
  std::vector<Drive> out(inputs.size());
  for (auto _ : state)
    drive_many(inputs, Handed::right, in, kFlightTolerance, out, static_cast<std::size_t>(state.range(0)));
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(inputs.size()));
}
BENCHMARK(drives_side_by_side)->ArgName("lanes")->Apply([](auto* b) {
  b->Arg(1);
  for (std::size_t lanes = 8; lanes <= lanes_here(); lanes *= 2) b->Arg(static_cast<std::int64_t>(lanes));
});

void delivery_behind_a_launch(benchmark::State& state) {
  const Setting in = default_setting();
  for (auto _ : state) benchmark::DoNotOptimize(delivery_behind(kLaunch, in.head, in.ball).attack);
}
BENCHMARK(delivery_behind_a_launch);

}  // namespace
