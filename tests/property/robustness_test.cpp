// Whatever is within the ranges the headers state ends, is finite and makes sense.
#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

void check_sense(const Launch& launch, const Drive& drive) {
  const Flight& f = drive.flight;
  for (const double value : {f.carry, f.side, f.apex, f.landing_angle, f.landing_speed, f.landing_heading, f.time,
                             f.landing_spin, drive.run.bounce, drive.run.roll, drive.total, drive.side_at_rest}) {
    REQUIRE(std::isfinite(value));
  }
  CHECK(f.end == (launch.launch > 0.0 ? FlightEnd::landed : FlightEnd::never_rose));
  CHECK(f.time >= 0.0);
  CHECK(f.time < 60.0);
  CHECK(f.apex >= 0.0);
  CHECK(f.landing_speed > 0.0);
  CHECK(f.landing_angle >= 0.0);
  CHECK(f.landing_angle <= 0.5 * kPi);
  CHECK(drive.run.bounce >= 0.0);
  CHECK(drive.run.roll >= 0.0);
  CHECK(f.calls < 500);
}

}  // namespace

TEST_CASE("every launch within range ends in a finite drive, whatever the weather", "[shot]") {
  Draws draws(81);
  const AeroModel models[] = {reference_aero(), smits_smith_aero(), linear_aero()};
  const Turf turfs[] = {firm(), medium(), soft()};
  for (int i = 0; i < 20000; ++i) {
    Launch launch = draws.any_launch();
    if (i % 20 == 0) launch.spin = 0.0;
    if (i % 20 == 1) launch.launch = draws.between(-20.0, 0.0) * kDeg;
    if (i % 20 == 2) launch.launch = std::pow(10.0, draws.between(-9.0, -3.0));
    Setting in = default_setting();
    in.aero = models[i % 3];
    in.turf = turfs[i / 3 % 3];
    in.air = air_from(Weather{draws.between(233.15, 328.15), draws.between(5e4, 1.1e5), draws.between(0.0, 1.0)});
    in.wind = draws.wind(static_cast<WindProfile>(i % 3), 30.0);
    INFO(in.aero.id << ": " << text(launch) << "; " << text(in.air) << "; " << text(in.wind));
    check_sense(launch, drive_from(launch, in));
  }
}

TEST_CASE("every delivery within range gives a finite launch and drive", "[shot]") {
  Draws draws(82);
  for (int i = 0; i < 10000; ++i) {
    const Delivery d{draws.between(9.0, 72.0), draws.between(-20.0, 20.0) * kDeg, draws.between(-30.0, 30.0) * kDeg,
                     draws.between(-30.0, 30.0) * kDeg, draws.between(-5.0, 60.0) * kDeg, draws.between(-0.05, 0.05),
                     draws.between(-0.03, 0.03)};
    INFO(text(d));
    REQUIRE_NOTHROW(validate(d));
    const Drive drive = drive_from(d, i % 2 ? Handed::left : Handed::right, default_setting());
    INFO(text(drive.launch));
    CHECK(drive.launch.ball_speed > 0.0);
    CHECK(drive.launch.spin >= 0.0);
    check_sense(drive.launch, drive);
  }
}

TEST_CASE("a lower tolerance never changes the answer by more than the flight promises", "[flight]") {
  // Differential: loose against tight over the whole range of launches, in still air. The promise of 1 mm is made for drives
  // (tests/property/flight_cost_test); for shots of 110 m/s it grows with v^2 / g, the scale of the tolerance.
  Draws draws(83);
  const Ball ball;
  const AeroModel aero = reference_aero();
  for (int i = 0; i < 3000; ++i) {
    const Launch launch = draws.any_launch();
    const FlightSetting in{&ball, &aero, draws.air(), Wind{}};
    const Flight loose = fly(launch, in), tight = fly(launch, in, kTightFlightTolerance);
    INFO(text(launch));
    CHECK(std::hypot(loose.carry - tight.carry, loose.side - tight.side, loose.apex - tight.apex) < 1.5e-2);
  }
}
