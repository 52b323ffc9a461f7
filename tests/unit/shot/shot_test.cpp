#include "loftwright/shot/shot.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const Delivery kSwing{45.0, 1.0 * kDeg, -2.0 * kDeg, 1.0 * kDeg, 13.0 * kDeg, 0.006, 0.004};

}  // namespace

TEST_CASE("a drive is the impact, the flight and the run, one after the other", "[shot]") {
  const Setting in = default_setting();
  const Drive drive = drive_from(kSwing, Handed::right, in);
  const auto impact = strike_ball(kSwing, in.head, in.ball);
  CHECK(drive.launch.ball_speed == impact.launch.ball_speed);
  CHECK(drive.launch.tilt == impact.launch.tilt);
  CHECK(drive.smash == impact.launch.ball_speed / 45.0);
  CHECK(drive.spin_loft == spin_loft(kSwing));
  const FlightSetting flight_in{&in.ball, &in.aero, in.air, in.wind};
  const Flight flight = fly(impact.launch, flight_in);
  CHECK(drive.flight.carry == flight.carry);
  CHECK(drive.flight.side == flight.side);
  CHECK(drive.total == drive.flight.carry + (drive.run.bounce + drive.run.roll));
  CHECK(drive.side_at_rest ==
        drive.flight.side + (drive.run.bounce + drive.run.roll) * std::sin(drive.flight.landing_heading));
}

TEST_CASE("a drive that starts from a launch has no smash", "[shot]") {
  const Drive drive = drive_from(Launch{60.0, 0.2, 0.0, 260.0, 0.0}, default_setting());
  CHECK(drive.smash == 0.0);
  CHECK(drive.spin_loft == 0.0);
  CHECK_FALSE(drive.sliding);
}

TEST_CASE("each model error moves what it should", "[shot]") {
  const Setting in = default_setting();
  const Drive as_is = drive_from(kSwing, Handed::right, in);
  auto with = [&](auto&& change) {
    ModelErrorOf<double> error;
    change(error);
    return drive_from(kSwing, Handed::right, in, kFlightTolerance, error);
  };
  CHECK(with([](auto&) {}).total == as_is.total);
  CHECK(with([](auto& e) { e.drag_scale = 1.03; }).flight.carry < as_is.flight.carry);
  CHECK(with([](auto& e) { e.lift_scale = 1.06; }).flight.apex > as_is.flight.apex);
  CHECK(with([](auto& e) { e.restitution = 0.01; }).smash > as_is.smash);
  CHECK(with([](auto& e) { e.tangential_restitution = 0.05; }).launch.spin > as_is.launch.spin);
  const auto run = [](const Drive& d) { return d.run.bounce + d.run.roll; };
  CHECK(run(with([](auto& e) { e.turf.tilt = 2.0 * kDeg; })) < run(as_is));
  CHECK(run(with([](auto& e) { e.turf.tilt_speed = 1.5; })) > run(as_is));
  CHECK(with([](auto& e) { e.turf.restitution = 1.1; }).run.bounce != as_is.run.bounce);
  CHECK(with([](auto& e) { e.turf.restitution = 1.1; }).flight.carry == as_is.flight.carry);
  CHECK(with([](auto& e) { e.turf.rise = -0.3; }).run.bounce < as_is.run.bounce);
  CHECK(with([](auto& e) { e.turf.friction = -0.95; }).run.bounce != as_is.run.bounce);  // it slides
  CHECK(with([](auto& e) { e.turf.rolling = 1.3; }).run.roll < as_is.run.roll);
  CHECK(with([](auto& e) { e.turf.grass = 1.6; }).run.roll < as_is.run.roll);
  CHECK(with([](auto& e) { e.turf.grass = 1.6; }).run.bounce == as_is.run.bounce);
}

TEST_CASE("a tuned ball's errors of the model multiply its own scales, aloft and on the ground", "[shot]") {
  Setting tuned = default_setting(), whole = default_setting();
  tuned.drag_scale = 1.25;
  tuned.lift_scale = 0.75;
  ModelErrorOf<double> error;
  error.drag_scale = 0.5;  // products of these are exact
  error.lift_scale = 1.5;
  whole.drag_scale = 0.625;
  whole.lift_scale = 1.125;
  const Drive erring = drive_from(kSwing, Handed::right, tuned, kFlightTolerance, error),
              as_one = drive_from(kSwing, Handed::right, whole);
  CHECK(erring.flight.carry == as_one.flight.carry);
  CHECK(erring.total == as_one.total);
  const Landing landing = landing_of(as_one.launch, as_one.flight);
  const Run run = run_from(landing, tuned, error), run_as_one = run_from(landing, whole);
  CHECK(run.bounce == run_as_one.bounce);
  CHECK(run_from(landing, default_setting()).bounce != run.bounce);
}

TEST_CASE("only spin about the axis across the run is backspin on landing", "[shot]") {
  // A flight with its lift taken away lands the same whatever the spin axis; only the run may differ.
  Setting in = default_setting();
  ModelErrorOf<double> no_lift;
  no_lift.lift_scale = 0.0;
  auto run = [&](double tilt) {
    const Drive drive =
        drive_from(Launch{60.0, 12.0 * kDeg, 0.0, 3000.0 * kRpm, tilt * kDeg}, in, kFlightTolerance, no_lift);
    return drive.run.bounce + drive.run.roll;
  };
  const double back = run(0.0), tilted = run(60.0), top = run(180.0);
  INFO("run with backspin " << back << " m, tilted by 60 deg " << tilted << " m, with topspin " << top << " m");
  CHECK(tilted > back);
  CHECK(top > tilted);
  CHECK(std::abs(run(-60.0) - tilted) < 1e-12);
  // Half the spin stays in the plane of the run when the axis is tilted by 60 deg.
  const Drive plain = drive_from(Launch{60.0, 12.0 * kDeg, 0.0, 3000.0 * kRpm, 0.0}, in, kFlightTolerance, no_lift);
  in.lift_scale = 0.0;
  const Run half =
      run_out(Landing{plain.flight.landing_speed, plain.flight.landing_angle, 0.5 * plain.flight.landing_spin},
              run_setting(in));
  CHECK(std::abs(tilted - (half.bounce + half.roll)) < 1e-9);
}

TEST_CASE("backspin on landing is the spin axis seen across the way of landing", "[shot]") {
  Draws draws(15);
  for (int i = 0; i < 200; ++i) {
    const Launch l = draws.any_launch();
    Flight flight;
    flight.landing_spin = draws.between(50.0, 400.0);
    flight.landing_heading = draws.between(-1.0, 1.0);
    const Vec3<double> along = direction(l.launch, l.azimuth), right{-std::sin(l.azimuth), 0.0, std::cos(l.azimuth)};
    const Vec3<double> axis = std::cos(l.tilt) * right - std::sin(l.tilt) * cross(right, along);
    const Vec3<double> across{-std::sin(flight.landing_heading), 0.0, std::cos(flight.landing_heading)};
    INFO(text(l) << ", landing " << flight.landing_heading / kDeg << " deg right");
    CHECK(std::abs(landing_backspin(l, flight) - flight.landing_spin * dot(axis, across)) < 1e-12 * 400.0);
  }
}
