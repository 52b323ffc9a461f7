#include "loftwright/ground/run.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "bad_values.hpp"
#include "draws.hpp"
#include "ground/bounce.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const double kRadius = 0.021335;

detail::Bounce<double> bounce_at(double speed, double below, double backspin, const Turf& turf) {
  return detail::bounce_once(speed * std::cos(below), speed * std::sin(below), backspin, turf, kRadius);
}

// On a turf, with the model's own air.
Run run_at(double speed, double below, double backspin, const Turf& turf) {
  Setting in = default_setting();
  in.turf = turf;
  return run_out(Landing{speed, below, backspin}, run_setting(in));
}

double length(const Run& run) { return run.bounce + run.roll; }

}  // namespace

TEST_CASE("worked runs on medium turf", "[ground]") {
  // Worked in the model description, in air of 1.19931 kg/m3 and 1.8134e-5 Pa s; half of the last printed digit.
  Setting in = default_setting();
  in.air = {1.19931, 1.8134e-5};
  CHECK(std::abs(length(run_out(Landing{28.5, 37.3 * kDeg, 2094.0 * kRpm}, run_setting(in))) - 18.14 * kYard) <
        0.005 * kYard);
  CHECK(std::abs(length(run_out(Landing{34.26, 10.95 * kDeg, 1052.0 * kRpm}, run_setting(in))) - 55.06 * kYard) <
        0.005 * kYard);
}

TEST_CASE("a bounce is rigid on a surface that leans by its greatest tilt, less for a ball that hardly falls",
          "[ground]") {
  // Told apart by hand: turned back into the leaning frame, the ball rolls and its normal speed is e times what it was;
  // what rises more than nine tenths of its fall is held below it.
  const Turf turf = medium();
  for (const double below : {5.0, 15.0, 35.0, 55.0}) {
    const double speed = 29.0, u = speed * std::sin(below * kDeg), tilt = turf.tilt * (1.0 - std::exp(-u / 2.5));
    const double into = speed * std::sin(below * kDeg + tilt), along = speed * std::cos(below * kDeg + tilt);
    const double e = 0.53 / (1.0 + into / 9.0), along_out = along - 2.0 / 7.0 * (along + kRadius * 200.0);
    const double up = along_out * std::sin(tilt) + e * into * std::cos(tilt);
    const auto out = bounce_at(speed, below * kDeg, 200.0, turf);
    INFO(below << " deg below horizontal");
    CHECK(out.forward == Approx(along_out * std::cos(tilt) - e * into * std::sin(tilt)).epsilon(1e-12));
    CHECK(out.upward == Approx(up / std::pow(1.0 + std::pow(up / (0.9 * u), 4), 0.25)).epsilon(1e-12));
    CHECK(out.backspin == Approx(-along_out / kRadius).epsilon(1e-12));
  }
}

TEST_CASE("on a slippery turf the ball slides: friction takes mu (1 + e) of the normal speed", "[ground]") {
  Turf ice = firm();
  ice.friction = 0.05;
  ice.tilt = 0.0;
  const double speed = 25.0, below = 30.0 * kDeg, spin = 3000.0 * kRpm;
  const double into = speed * std::sin(below), e = 0.60 / (1.0 + into / 9.0);
  const auto out = bounce_at(speed, below, spin, ice);
  CHECK(std::abs(out.forward - (speed * std::cos(below) - 0.05 * (1.0 + e) * into)) < 1e-12);
  CHECK(std::abs(out.backspin - (spin - 2.5 * 0.05 * (1.0 + e) * into / kRadius)) < 1e-9);
}

TEST_CASE("a ball that spins forward faster than it moves is driven on", "[ground]") {
  Turf ice = firm();
  ice.friction = 0.05;
  ice.tilt = 0.0;
  const double speed = 15.0, below = 40.0 * kDeg;
  const auto out = bounce_at(speed, below, -3.0 * speed / kRadius, ice);
  CHECK(out.forward > speed * std::cos(below));
}

TEST_CASE("a hop is a parabola without air, and topspin brings it down sooner", "[ground]") {
  Setting thin = default_setting(), in = thin;
  thin.drag_scale = 1e-4;
  thin.lift_scale = 0.0;
  const AeroCurve& curve = std::get<AeroCurve>(in.aero.form);
  const detail::Bounce<double> ball{14.0, 5.0, -600.0};
  const auto bare = detail::hop(ball, run_setting(thin), curve);
  CHECK(bare.way == Approx(14.0 * 2.0 * 5.0 / 9.80665).epsilon(1e-4));  // what the drag that is left takes: 4e-5
  CHECK(bare.forward == Approx(14.0).epsilon(1e-4));
  // By hand: growth of the forward speed's inverse, q C_d f 2 rise / g', over q C_d.
  const double v = std::hypot(14.0, 5.0), re = in.air.density * v * 2.0 * kRadius / in.air.viscosity,
               s = 600.0 * kRadius / v;
  const double cd = 0.181 + 0.543 * std::min(s, 0.5) - 0.021 * (re / 1e5 - 1.5),
               cl = 0.7315 * std::pow(std::min(s, 0.5), 0.628);
  const double q = 0.5 * in.air.density * kPi * kRadius * kRadius / 0.04593, g = 9.80665 + q * cl * v * 14.0;
  const double growth = 1.0 + q * cd * 14.0 * 10.0 / g;
  const auto full = detail::hop(ball, run_setting(in), curve);
  CHECK(full.way == Approx(std::log(growth) / (q * cd)).epsilon(1e-9));
  CHECK(full.forward == Approx(14.0 / growth).epsilon(1e-9));
  CHECK(detail::hop({14.0, 5.0, 300.0}, run_setting(in), curve).way > full.way);  // backspin holds it up
  // At most by three quarters of its weight.
  in.lift_scale = 100.0;
  CHECK(detail::hop({14.0, 5.0, 300.0}, run_setting(in), curve).way < 4.0 * bare.way);
}

TEST_CASE("the roll is ln(1 + k v^2 / a) / 2k, a = 5/7 rolling g", "[ground]") {
  // Eight bounces followed by hand, then the roll; slower turf rolls less far.
  const Turf turf = medium();
  Setting in = default_setting();
  double forward = 27.0 * std::cos(38.0 * kDeg), down = 27.0 * std::sin(38.0 * kDeg), spin = 2400.0 * kRpm,
         bounce = 0.0;
  for (int i = 0; i < 8; ++i) {
    const auto out = detail::bounce_once(forward, down, spin, turf, kRadius);
    if (i < 7) {
      const auto h = detail::hop(out, run_setting(in), std::get<AeroCurve>(in.aero.form));
      bounce += h.way;
      forward = h.forward;
    } else {
      forward = out.forward;
    }
    down = out.upward;
    spin = out.backspin;
  }
  const Run run = run_at(27.0, 38.0 * kDeg, 2400.0 * kRpm, turf);
  CHECK(std::abs(run.bounce - bounce) < 1e-12);
  const double a = 5.0 / 7.0 * 0.23 * 9.80665;
  CHECK(run.roll == Approx(std::log(1.0 + 0.012 * forward * forward / a) / 0.024).epsilon(1e-12));
  Turf slower = turf;
  slower.rolling = 0.46;
  CHECK(run_at(27.0, 38.0 * kDeg, 2400.0 * kRpm, slower).roll < run.roll);
}

TEST_CASE("a ball checked back stops where it pitched, one that rolls level only rolls", "[ground]") {
  const Run checked = run_at(25.0, 70.0 * kDeg, 9000.0 * kRpm, soft());
  CHECK(checked.bounce == 0.0);
  CHECK(checked.roll == 0.0);
  const Run level = run_at(25.0, 0.0, 0.0, firm());
  CHECK(level.bounce == 0.0);
  CHECK(level.roll > 20.0);
}

TEST_CASE("a turf's error is added or multiplied, and what comes out stays within the ranges", "[ground]") {
  const Turf as_is = turf_under(medium(), TurfErrorOf<double>{});
  CHECK(as_is.tilt == medium().tilt);
  CHECK(as_is.grass == medium().grass);
  const Turf off = turf_under(medium(), TurfErrorOf<double>{2.0 * kDeg, 1.1, 1.2, 1.3, 1.4, -0.1, -0.4});
  CHECK(off.tilt == Approx(23.4 * kDeg));
  CHECK(off.restitution == Approx(0.583));
  CHECK(off.rolling == Approx(0.276));
  CHECK(off.grass == Approx(0.0156));
  CHECK(off.tilt_speed == Approx(3.5));
  CHECK(off.rise == Approx(0.8));
  CHECK(off.friction == Approx(0.6));
  CHECK_NOTHROW(validate(turf_under(soft(), TurfErrorOf<double>{-1.0, 9.0, 0.0, 0.0, 0.0, 3.0, -3.0})));
  CHECK_NOTHROW(validate(turf_under(firm(), TurfErrorOf<double>{1.0, 0.0, 99.0, 99.0, 99.0, -3.0, 3.0})));
}

TEST_CASE("a turf out of range is refused by name", "[ground]") {
  const auto use = [](const Turf& t) { validate(t); };
  check_field(Turf{}, &Turf::tilt, "tilt", 0.0, 40.0 * kDeg, use);
  check_field(Turf{}, &Turf::restitution, "restitution", 0.05, 0.95, use);
  check_field(Turf{}, &Turf::rolling, "rolling", 0.02, 1.0, use);
  check_field(Turf{}, &Turf::grass, "grass", 0.0005, 0.2, use);
  check_field(Turf{}, &Turf::tilt_speed, "tilt speed", 0.5, 10.0, use);
  check_field(Turf{}, &Turf::rise, "rise", 0.3, 1.2, use);
  check_field(Turf{}, &Turf::friction, "friction", 0.05, 1.0, use);
  check_field(Turf{}, &Turf::width, "width", 0.0, 3.0, use);
}
