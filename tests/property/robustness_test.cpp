// Whatever is within the ranges the headers state ends, is finite and makes sense.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/traps.hpp"
#include "draws.hpp"
#include "loftwright/shot/drives.hpp"

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

// Anything the headers allow.
Setting any_setting(Draws& draws) {
  const AeroModel models[] = {reference_aero(), smits_smith_aero(), linear_aero(), ballistic_range_aero()};
  Setting in;
  in.head = {draws.between(0.1, 0.4),   draws.between(5e-5, 2e-3), draws.between(5e-5, 2e-3), draws.between(5e-5, 2e-3),
             draws.between(0.0, 0.08),  draws.between(0.1, 10.0),  draws.between(0.1, 10.0),  draws.between(0.5, 0.9),
             draws.between(10.0, 80.0), draws.between(0.0, 0.01),  draws.between(-1.0, 1.0),  draws.between(0.05, 2.0)};
  in.ball = {draws.between(0.02, 0.06), draws.between(0.018, 0.025), draws.between(0.3, 0.5), draws.between(0.0, 1e-3)};
  in.aero = models[static_cast<int>(draws.between(0.0, 4.0))];
  in.turf = draws.turf();
  in.air = air_from(Weather{draws.between(233.15, 328.15), draws.between(5e4, 1.1e5), draws.between(0.0, 1.0)});
  in.wind = draws.wind(static_cast<WindProfile>(draws.between(0.0, 3.0)), 30.0);
  in.drag_scale = draws.between(0.5, 2.0);
  in.lift_scale = draws.between(0.5, 2.0);
  validate(in.head);
  validate(in.ball);
  validate(in.turf);
  return in;
}

// Every range of Delivery, stretched about its middle.
Delivery any_delivery(Draws& draws, double stretch) {
  const auto about = [&](double middle, double half) { return middle + stretch * draws.between(-half, half); };
  return {about(40.5, 31.5),       about(0.0, 20.0 * kDeg),         about(0.0, 30.0 * kDeg),
          about(0.0, 30.0 * kDeg), about(27.5 * kDeg, 32.5 * kDeg), about(0.0, 0.05),
          about(0.0, 0.03)};
}

// What came of many drives.
struct Outcomes {
  int ends[4] = {};  // by FlightEnd
  int not_finite_numbers = 0;
  int most_calls = 0;

  void add(const Drive& d) {
    ++ends[static_cast<int>(d.flight.end)];
    most_calls = std::max(most_calls, d.flight.calls);
    const double sum = d.smash + d.spin_loft + d.flight.carry + d.flight.side + d.flight.apex + d.flight.landing_angle +
                       d.flight.landing_speed + d.flight.landing_heading + d.flight.time + d.flight.landing_spin +
                       d.run.bounce + d.run.roll + d.total + d.side_at_rest;
    if (d.flight.end != FlightEnd::not_finite && !std::isfinite(sum)) ++not_finite_numbers;
  }
  int count(FlightEnd end) const { return ends[static_cast<int>(end)]; }
};

// `batches` settings with 1000 drives each; one in twenty of these once more by itself.
Outcomes drive_at_random(std::uint64_t seed, int batches, double stretch) {
  Draws draws(seed);
  Outcomes out;
  std::vector<DriveInput> inputs(1000);
  std::vector<Drive> drives(inputs.size());
  for (int batch = 0; batch < batches; ++batch) {
    const Setting in = any_setting(draws);
    const Handed handed = batch % 2 ? Handed::left : Handed::right;
    for (DriveInput& input : inputs) {
      input.delivery = any_delivery(draws, stretch);
      input.error = {draws.between(0.8, 1.2),
                     draws.between(0.7, 1.3),
                     draws.between(-0.05, 0.05),
                     draws.between(-0.2, 0.2),
                     {draws.between(0.5, 1.5), draws.between(0.3, 1.7)}};
    }
    drive_many(inputs, handed, in, kFlightTolerance, drives);
    for (const Drive& drive : drives) out.add(drive);
    for (std::size_t i = 0; i < inputs.size(); i += 20) {
      const Drive one = drive_from(inputs[i].delivery, handed, in, kFlightTolerance, inputs[i].error);
      out.add(one);
      if (stretch == 1.0 &&
          one.flight.end != drives[i].flight.end) {  // beyond, single precision may come to another end
        INFO("batch " << batch << ", drive " << i << ": " << text(inputs[i].delivery) << "; " << text(in.air) << "; "
                      << text(in.wind));
        CHECK(one.flight.end == drives[i].flight.end);
      }
    }
  }
  return out;
}

}  // namespace

TEST_CASE("a million drives of anything that is allowed end on the ground, in bounded work, with numbers only",
          "[shot]") {
  const Outcomes out = drive_at_random(84, 1000, 1.0);
  INFO("landed " << out.count(FlightEnd::landed) << ", never rose " << out.count(FlightEnd::never_rose)
                 << ", most calls " << out.most_calls);
  CHECK(out.count(FlightEnd::landed) + out.count(FlightEnd::never_rose) == 1050000);
  CHECK(out.count(FlightEnd::landed) > 500000);
  CHECK(out.not_finite_numbers == 0);
  CHECK(out.most_calls <
        2000);  // 859 and 1165 were met, with two ways to choose steps; far from the 10 000 where a flight gives up
}

TEST_CASE("a hundred thousand drives far beyond what is allowed still end in a stated outcome", "[shot]") {
  const WithoutTraps here;  // numbers overflow on the way to "no answer"
  for (const double stretch : {3.0, 30.0, 1e4}) {
    const Outcomes out = drive_at_random(85, 34, stretch);
    INFO("stretched by " << stretch << ": landed " << out.count(FlightEnd::landed) << ", never rose "
                         << out.count(FlightEnd::never_rose) << ", 60 s " << out.count(FlightEnd::time_limit)
                         << ", no answer " << out.count(FlightEnd::not_finite) << ", most calls " << out.most_calls);
    CHECK(out.not_finite_numbers == 0);
    CHECK(out.most_calls < 10010);  // the flight gives up at 10 000, at the end of a step
  }
}

TEST_CASE("every launch within range ends in a finite drive, whatever the weather", "[shot]") {
  Draws draws(81);
  const AeroModel models[] = {reference_aero(), smits_smith_aero(), linear_aero(), ballistic_range_aero()};
  const Turf turfs[] = {firm(), medium(), soft()};
  for (int i = 0; i < 20000; ++i) {
    Launch launch = draws.any_launch();
    if (i % 20 == 0) launch.spin = 0.0;
    if (i % 20 == 1) launch.launch = draws.between(-20.0, 0.0) * kDeg;
    if (i % 20 == 2) launch.launch = std::pow(10.0, draws.between(-9.0, -3.0));
    Setting in = default_setting();
    in.aero = models[i % 4];
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
    const Delivery d{draws.between(9.0, 72.0),          draws.between(-20.0, 20.0) * kDeg,
                     draws.between(-30.0, 30.0) * kDeg, draws.between(-30.0, 30.0) * kDeg,
                     draws.between(-5.0, 60.0) * kDeg,  draws.between(-0.05, 0.05),
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
  // Differential: loose against tight over the whole range of launches, in still air. The promise of 1 mm is made for
  // drives (tests/property/flight_cost_test); shots of 110 m/s and 15 000 rpm take more steps, each of which may add as
  // much.
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
