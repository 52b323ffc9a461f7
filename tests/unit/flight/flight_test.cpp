#include "loftwright/flight/flight.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/traps.hpp"
#include "draws.hpp"
#include "flight/integrate.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const AeroModel kAero = reference_aero();

FlightSetting usual() { return {&kBall, &kAero, Air{1.2, 1.81e-5}, Wind{}}; }

const Launch kDrive{62.0, 12.0 * kDeg, 0.0, 2700.0 * kRpm, 0.0};

}  // namespace

TEST_CASE("a ball that leaves level or downwards has no carry and starts its run at once", "[flight]") {
  for (const double degrees : {0.0, -3.0}) {
    const Flight flight = fly({60.0, degrees * kDeg, 0.1, 250.0, 0.0}, usual());
    INFO("launch " << degrees << " deg");
    CHECK(flight.end == FlightEnd::never_rose);
    CHECK(flight.carry == 0.0);
    CHECK(flight.side == 0.0);
    CHECK(flight.apex == 0.0);
    CHECK(flight.time == 0.0);
    CHECK(flight.landing_speed == 60.0);
    CHECK(std::abs(flight.landing_angle + degrees * kDeg) < 1e-16);
    CHECK(flight.landing_heading == 0.1);
    CHECK(flight.landing_spin == 250.0);
  }
}

TEST_CASE("a flight that would never end is cut off at 60 s and says so", "[flight]") {
  FlightSetting thin = usual();
  thin.air.density = 1e-2;
  const Flight flight = fly({2000.0, 80.0 * kDeg, 0.0, 0.0, 0.0}, thin);  // a cannon on a mountain top: minutes
  CHECK(flight.end == FlightEnd::time_limit);
  CHECK(flight.time >= 60.0);
  CHECK(std::isfinite(flight.carry));
}

TEST_CASE("what is not a number does not fly", "[flight]") {
  const WithoutTraps here;
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  for (const double bad : {std::nan(""), kInfinity, -kInfinity}) {
    INFO("value " << bad);
    for (double Launch::*field :
         {&Launch::ball_speed, &Launch::launch, &Launch::azimuth, &Launch::spin, &Launch::tilt}) {
      Launch launch = kDrive;
      launch.*field = bad;
      CHECK(fly(launch, usual()).end == FlightEnd::not_finite);
    }
    FlightSetting in = usual();
    in.air.density = bad;
    CHECK(fly(kDrive, in).end == FlightEnd::not_finite);
    in = usual();
    in.air.viscosity = bad;
    CHECK(fly(kDrive, in).end == FlightEnd::not_finite);
    in = usual();
    in.wind.speed = bad;
    CHECK(fly(kDrive, in).end == FlightEnd::not_finite);
    in = usual();
    in.wind = {5.0, 0.0, bad, WindProfile::logarithmic};
    CHECK(fly(kDrive, in).end == FlightEnd::not_finite);
    in = usual();
    in.drag_scale = bad;
    CHECK(fly(kDrive, in).end == FlightEnd::not_finite);
  }
  Launch still = kDrive;
  still.ball_speed = 0.0;
  CHECK(fly(still, usual()).end == FlightEnd::not_finite);
}

TEST_CASE("every ending has a sentence", "[flight]") {
  for (const FlightEnd end : {FlightEnd::landed, FlightEnd::never_rose, FlightEnd::time_limit, FlightEnd::not_finite}) {
    CHECK(sentence(end).size() > 10);
  }
}

TEST_CASE("a flight says when it leaves the range of its aerodynamic model", "[flight]") {
  CHECK_FALSE(fly(kDrive, usual()).outside_aero_range);
  Launch slow = kDrive, lob = kDrive, spinless = kDrive;
  slow.ball_speed = 10.0;  // Re 2.8e4
  lob.spin = 14000.0 * kRpm;
  spinless.spin = 0.0;
  CHECK(fly(slow, usual()).outside_aero_range);
  CHECK(fly(lob, usual()).outside_aero_range);
  CHECK(fly(spinless, usual()).outside_aero_range);
}

TEST_CASE("flight turns the way the signs say", "[flight]") {
  auto curved = [](double tilt) { return fly({62.0, 12.0 * kDeg, 0.0, 2700.0 * kRpm, tilt * kDeg}, usual()); };
  CHECK(std::abs(curved(0.0).side) < 1e-9);
  CHECK(curved(10.0).side > 5.0);
  CHECK(curved(10.0).landing_heading > 0.0);
  CHECK(curved(-10.0).side < -5.0);
  CHECK(curved(10.0).carry < curved(0.0).carry);
  Launch right = kDrive;
  right.azimuth = 5.0 * kDeg;
  CHECK(std::abs(fly(right, usual()).side / fly(right, usual()).carry - std::tan(5.0 * kDeg)) < 1e-9);
}

TEST_CASE("spin lifts, headwind shortens and lifts, tailwind lengthens", "[flight]") {
  auto windy = [](double speed, double from) {
    FlightSetting in = usual();
    in.wind = {speed, from * kDeg, 10.0, WindProfile::logarithmic};
    return fly(kDrive, in);
  };
  const Flight calm = fly(kDrive, usual());
  CHECK(windy(6.0, 0.0).carry < calm.carry);
  CHECK(windy(6.0, 0.0).apex > calm.apex);
  CHECK(windy(6.0, 180.0).carry > calm.carry);
  CHECK(windy(6.0, 90.0).side < 0.0);
  Launch flat = kDrive;
  flat.spin = 1000.0 * kRpm;
  CHECK(fly(flat, usual()).apex < calm.apex);
}

TEST_CASE("scales of drag and lift do what they say", "[flight]") {
  FlightSetting in = usual();
  const Flight as_is = fly(kDrive, in);
  in.drag_scale = 1.05;
  CHECK(fly(kDrive, in).carry < as_is.carry);
  in.drag_scale = 1.0;
  in.lift_scale = 1.05;
  CHECK(fly(kDrive, in).apex > as_is.apex);
  // Scaling every coefficient is scaling the air's density, the Reynolds number held.
  in.drag_scale = in.lift_scale = 1.1;
  FlightSetting denser = usual();
  denser.air = {1.1 * denser.air.density, 1.1 * denser.air.viscosity};
  // Steps are measured against the air, so the two take other steps: within the tight tolerance.
  CHECK(std::abs(fly(kDrive, in, 1e-11).carry - fly(kDrive, denser, 1e-11).carry) < 1e-8);
}

TEST_CASE("spin decays exponentially along the way through the air", "[flight]") {
  // dw/dt = -k w V / r integrates to w = w0 exp(-k s / r), s the length of the path through still air.
  const auto path = trace(kDrive, usual(), 4000);
  double length_of_path = 0.0;
  for (std::size_t i = 1; i < path.size(); ++i) length_of_path += length(path[i].at - path[i - 1].at);
  const Flight flight = fly(kDrive, usual());
  // The chords fall short of the path by 1e-7, the dense output strays from it by 1e-4 m.
  CHECK(std::abs(flight.landing_spin / (kDrive.spin * std::exp(-2.0e-5 * length_of_path / kBall.radius)) - 1.0) < 1e-6);
}

TEST_CASE("a trace runs evenly in time from launch to landing", "[flight]") {
  Draws draws(14);
  for (int i = 0; i < 30; ++i) {
    const Launch launch = draws.drive();
    FlightSetting in = usual();
    in.wind = draws.wind(WindProfile::logarithmic);
    INFO(text(launch) << "; " << text(in.wind));
    const int count = 2 + 7 * i;
    const auto path = trace(launch, in, count);
    const Flight flight = fly(launch, in);
    REQUIRE(path.size() == static_cast<std::size_t>(count));
    CHECK(length(path.front().at) == 0.0);
    CHECK(path.back().t == flight.time);
    CHECK(path.back().at.x == flight.carry);
    CHECK(path.back().at.y == 0.0);
    CHECK(path.back().at.z == flight.side);
    for (std::size_t k = 0; k < path.size(); ++k) {
      CHECK(std::abs(path[k].t - flight.time * static_cast<double>(k) / (count - 1)) < 1e-12);
      CHECK(path[k].at.y <= flight.apex + 1e-3);  // what the flight is good to
      if (k > 0 && k + 1 < path.size()) CHECK(path[k].at.y > 0.0);
    }
  }
  // And it does follow the flight: the highest of many points is the apex.
  double highest = 0.0;
  for (const FlightPoint& p : trace(kDrive, usual(), 2000)) highest = std::max(highest, p.at.y);
  CHECK(std::abs(highest - fly(kDrive, usual()).apex) < 1e-3);
}

TEST_CASE("a trace has as many points as asked even when there is no flight", "[flight]") {
  const auto path = trace({60.0, -1.0 * kDeg, 0.0, 250.0, 0.0}, usual(), 20);
  REQUIRE(path.size() == 20);
  for (const FlightPoint& p : path) CHECK(length(p.at) == 0.0);
}

TEST_CASE("within a step the top and the ground of a parabola are where they are", "[flight]") {
  // From 1 m up at 5 m/s under 9.8 m/s2, two seconds: the top after 5 / 9.8 s, the ground after (5 + sqrt(44.6)) / 9.8
  // s.
  detail::FlightStep<double> step{};
  step.length = 2.0;
  step.from = {0.0, 1.0, 0.0, 20.0, 5.0, 0.0, 0.0};
  step.to = {40.0, 1.0 + 10.0 - 19.6, 0.0, 20.0, 5.0 - 19.6, 0.0, 0.0};
  step.from_rate = {20.0, 5.0, 0.0, 0.0, -9.8, 0.0, 0.0};
  step.to_rate = {20.0, -14.6, 0.0, 0.0, -9.8, 0.0, 0.0};
  CHECK(std::abs(step.top() - 5.0 / 9.8 / 2.0) < 1e-14);  // the speed is a line: Newton's start is the answer
  CHECK(std::abs(step.ground() - (5.0 + std::sqrt(44.6)) / 9.8 / 2.0) < 1e-12);  // forty halvings of 1
  CHECK(std::abs(step.at(1, 0.25) - (1.0 + 5.0 * 0.5 - 4.9 * 0.25)) < 1e-14);
  CHECK(std::abs(step.at(0, 0.25) - 10.0) < 1e-14 * 40.0);
}

TEST_CASE("the spin ratio changes as fast as it is said to", "[flight]") {
  const AeroCurve& curve = std::get<AeroCurve>(kAero.form);
  const Wind breeze{4.0, 0.7, 10.0, WindProfile::uniform};
  FlightSetting in = usual();
  for (const Wind& wind : {Wind{}, breeze}) {
    in.wind = wind;
    const FlightEquation<double, AeroCurve> equation(kDrive, in, curve);
    const detail::FlightState<double> at{0.0, 20.0, 0.0, 40.0, -8.0, 1.5, kDrive.spin};
    detail::FlightState<double> rate, other;
    equation(at, rate);
    const auto ratio_after = [&](double time) {
      detail::FlightState<double> later = at;
      for (std::size_t i = 0; i < 7; ++i) later[i] += time * rate[i];
      return equation(later, other).spin_ratio;
    };
    constexpr double kTime = 1e-4;  // [s] central differences: within 1e-8 of the slope
    CHECK(equation.spin_ratio_rate(at, rate) ==
          Approx((ratio_after(kTime) - ratio_after(-kTime)) / (2.0 * kTime)).epsilon(1e-6));
  }
}

TEST_CASE("a step is aimed where the curves it follows go through", "[flight]") {
  // A step of Householder's from the parabola's end, which is 1.5 m up.
  const double t = detail::time_to_ground(20.0, -3.0, -9.0, 1.5);
  CHECK(std::abs(20.0 - 3.0 * t - 4.5 * t * t + 0.25 * t * t * t) < 1e-4);
  CHECK(detail::time_to_ground(20.0, 3.0, -9.0, 0.0) == Approx((3.0 + std::sqrt(369.0)) / 9.0).epsilon(1e-14));
  CHECK(std::isinf(detail::time_to_ground(20.0, -3.0, 9.0, 0.5)));  // it does not come down
  // 1 - 1.5 s + 0.5 s^2 = 0.3
  CHECK(std::abs(detail::share_where(1.0, 0.0, -1.5, 0.3) - (1.5 - std::sqrt(0.85))) < 1e-8);
}

TEST_CASE("steps and calls are counted as they are taken", "[flight]") {
  const AeroCurve& curve = std::get<AeroCurve>(kAero.form);
  for (const double tolerance : {kFlightTolerance, kTightFlightTolerance}) {
    int steps = 0;
    const Flight flight = detail::integrate(kDrive, usual(), curve, tolerance, [&](const auto&) { ++steps; });
    CHECK(flight.steps == steps);
    CHECK(steps > 4);
    CHECK(flight.calls % 6 == 1);  // six a step, taken or refused, after the first
    CHECK(flight.calls > 6 * steps);
  }
}
