#include "loftwright/ground/run.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "bad_values.hpp"
#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const double kRadius = 0.021335;

}  // namespace

TEST_CASE("one bounce gives the worked number", "[ground]") {
  // Worked in the model description: scale and e_scale 1, mu 0.40, in 29 m/s, 40 deg below horizontal, 2000 rpm backspin
  // -> out 4.604 and 5.947 m/s, 3045 rpm topspin.
  const auto out = bounce_at(29.0, 40.0 * kDeg, 2000.0 * kRpm, firm(), kRadius);
  CHECK(std::abs(out.forward - 4.604) <= 0.5e-3);  // half of the last printed digit
  CHECK(std::abs(out.upward - 5.947) <= 0.5e-3);
  CHECK(std::abs(out.backspin / kRpm + 3045.0) <= 0.5);
}

TEST_CASE("a bounce is rigid on a surface tilted by 27.04 deg", "[ground]") {
  // The same bounce told apart: turned back into the tilted frame, the normal speed is e times what it was and the ball rolls.
  const double tilt = 15.4 * (29.0 / 18.6) * (50.0 / 44.4) * kDeg;
  CHECK(std::abs(tilt / kDeg - 27.04) <= 0.5e-2);
  const auto out = bounce_at(29.0, 40.0 * kDeg, 2000.0 * kRpm, firm(), kRadius);
  const double into = 29.0 * std::sin(40.0 * kDeg + tilt);
  const double along_out = out.forward * std::cos(tilt) + out.upward * std::sin(tilt);
  const double normal_out = out.upward * std::cos(tilt) - out.forward * std::sin(tilt);
  CHECK(std::abs(normal_out - 0.120 * into) < 1e-12);  // into the surface faster than 20 m/s: e 0.120
  CHECK(std::abs(along_out + kRadius * out.backspin) < 1e-12);
}

TEST_CASE("on a slippery turf the ball slides: friction takes mu (1 + e) of the normal speed", "[ground]") {
  Turf ice = firm();
  ice.friction = 0.05;
  ice.tilt_scale = 0.0;
  const double speed = 25.0, below = 30.0 * kDeg, spin = 3000.0 * kRpm;
  const double into = speed * std::sin(below), e = 0.510 - 0.0375 * into + 0.000903 * into * into;
  const auto out = bounce_at(speed, below, spin, ice, kRadius);
  CHECK(std::abs(out.upward - e * into) < 1e-12);
  CHECK(std::abs(out.forward - (speed * std::cos(below) - 0.05 * (1.0 + e) * into)) < 1e-12);
  CHECK(std::abs(out.backspin - (spin - 2.5 * 0.05 * (1.0 + e) * into / kRadius)) < 1e-9);
}

TEST_CASE("a ball that spins forward faster than it moves is driven on", "[ground]") {
  Turf ice = firm();
  ice.friction = 0.05;
  ice.tilt_scale = 0.0;
  const double speed = 15.0, below = 40.0 * kDeg;
  const auto out = bounce_at(speed, below, -3.0 * speed / kRadius, ice, kRadius);
  CHECK(out.forward > speed * std::cos(below));
}

TEST_CASE("the run is the hops and a roll of vx^2 / (2 a), a = 5/7 rolling g", "[ground]") {
  // The eight bounces followed by hand.
  const Turf turf = medium();
  double speed = 27.0, below = 38.0 * kDeg, spin = 2400.0 * kRpm, bounce = 0.0, forward = 0.0;
  for (int i = 0; i < 8; ++i) {
    const auto out = bounce_at(speed, below, spin, turf, kRadius);
    forward = out.forward;
    if (i < 7) bounce += 2.0 * out.forward * out.upward / 9.80665;  // level ground, no drag
    speed = std::hypot(out.forward, out.upward);
    below = std::atan2(out.upward, out.forward);
    spin = out.backspin;
  }
  const Run run = run_out(27.0, 38.0 * kDeg, 2400.0 * kRpm, turf, kRadius);
  CHECK(std::abs(run.bounce - bounce) < 1e-12);
  CHECK(std::abs(run.roll - forward * forward / (2.0 * 5.0 / 7.0 * 0.18 * 9.80665)) < 1e-12);
  Turf slower = turf;
  slower.rolling = 0.36;
  CHECK(std::abs(run_out(27.0, 38.0 * kDeg, 2400.0 * kRpm, slower, kRadius).roll - 0.5 * run.roll) < 1e-12);
}

TEST_CASE("a ball checked back stops where it pitched", "[ground]") {
  const Run run = run_out(25.0, 70.0 * kDeg, 9000.0 * kRpm, soft(), kRadius);
  CHECK(run.bounce == 0.0);
  CHECK(run.roll == 0.0);
}

TEST_CASE("firm runs farther than medium, medium farther than soft; steep and spinning less", "[ground]") {
  auto total = [](double below, double rpm, const Turf& turf) {
    const Run run = run_out(27.0, below * kDeg, rpm * kRpm, turf, kRadius);
    return run.bounce + run.roll;
  };
  for (const double below : {20.0, 30.0, 38.0, 45.0}) {
    INFO(below << " deg below horizontal");
    CHECK(total(below, 2500.0, firm()) > total(below, 2500.0, medium()));
    CHECK(total(below, 2500.0, medium()) > total(below, 2500.0, soft()));
    CHECK(total(below, 2000.0, firm()) > total(below, 4000.0, firm()));
    CHECK(total(below, 2500.0, firm()) > total(below + 5.0, 2500.0, firm()));
  }
}

TEST_CASE("a turf out of range is refused by name", "[ground]") {
  const auto use = [](const Turf& t) { validate(t); };
  check_field(Turf{}, &Turf::tilt_scale, "tilt scale", 0.0, 2.0, use);
  check_field(Turf{}, &Turf::restitution_scale, "restitution scale", 0.0, 1.2, use);
  check_field(Turf{}, &Turf::friction, "friction", 0.05, 1.0, use);
  check_field(Turf{}, &Turf::rolling, "rolling", 0.02, 1.0, use);
}
