// What must not change when the world is mirrored, moved or scaled.
#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"
#include "ground/bounce.hpp"
#include "march.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

Wind mirrored(Wind wind) {
  wind.from = -wind.from;
  return wind;
}

// A few roundings of quantities of size `size`.
bool same(double a, double b, double size = 1.0) { return std::abs(a - b) <= 1e-12 * std::max(size, std::abs(a)); }

}  // namespace

TEST_CASE("a mirrored launch in a mirrored wind flies the mirrored flight", "[flight]") {
  Draws draws(51);
  for (int i = 0; i < 300; ++i) {
    const AeroModel aero = i % 2 ? reference_aero() : smits_smith_aero();
    const Launch launch = draws.drive();
    const Wind wind = draws.wind(static_cast<WindProfile>(i % 3));
    const Air air = draws.air();
    INFO(text(launch) << "; " << text(wind));
    const Flight a = fly(launch, FlightSetting{&kBall, &aero, air, wind});
    const Flight b = fly(mirrored(launch), FlightSetting{&kBall, &aero, air, mirrored(wind)});
    CHECK(same(a.carry, b.carry));
    CHECK(same(a.side, -b.side, 100.0));
    CHECK(same(a.apex, b.apex));
    CHECK(same(a.time, b.time));
    CHECK(same(a.landing_angle, b.landing_angle));
    CHECK(same(a.landing_heading, -b.landing_heading));
    CHECK(same(a.landing_speed, b.landing_speed));
    CHECK(same(a.landing_spin, b.landing_spin));
    CHECK(a.calls == b.calls);
  }
}

TEST_CASE("a strike mirrored in path, face and side of the face gives the mirrored launch", "[impact]") {
  Draws draws(52);
  for (int i = 0; i < 300; ++i) {
    const Delivery d = draws.delivery();
    Delivery m = mirrored(d);
    m.toe = -d.toe;  // the heel of the mirrored head is where its toe was
    INFO(text(d));
    const Launch a = strike_ball(d, Head{}, kBall).launch, b = strike_ball(m, Head{}, kBall).launch;
    CHECK(same(a.ball_speed, b.ball_speed));
    CHECK(same(a.launch, b.launch));
    CHECK(same(a.azimuth, -b.azimuth));
    CHECK(same(a.spin, b.spin));
    CHECK(same(a.tilt, -b.tilt));
  }
}

TEST_CASE("a left-hander is a right-hander in the mirror", "[shot]") {
  Draws draws(53);
  for (int i = 0; i < 200; ++i) {
    const Delivery d = draws.delivery();
    Setting in = default_setting();
    in.wind = draws.wind(WindProfile::logarithmic);
    Setting in_mirror = in;
    in_mirror.wind = mirrored(in.wind);
    INFO(text(d) << "; " << text(in.wind));
    const Drive right = drive_from(d, Handed::right, in), left = drive_from(mirrored(d), Handed::left, in_mirror);
    CHECK(same(right.smash, left.smash));
    CHECK(same(right.spin_loft, left.spin_loft));
    CHECK(same(right.launch.azimuth, -left.launch.azimuth));
    CHECK(same(right.launch.tilt, -left.launch.tilt));
    CHECK(same(right.flight.carry, left.flight.carry));
    CHECK(same(right.flight.side, -left.flight.side, 100.0));
    CHECK(same(right.total, left.total));
    CHECK(same(right.side_at_rest, -left.side_at_rest, 100.0));
  }
  // The sign that matters to a left-hander: off the toe (away from the player, now on the left) a bulged face starts
  // left.
  const Drive toed = drive_from(Delivery{45.0, 0.0, 0.0, 0.0, 0.22, 0.015, 0.0}, Handed::left, default_setting());
  CHECK(toed.launch.azimuth < 0.0);
  CHECK(toed.launch.tilt > 0.0);
}

TEST_CASE("forces depend on the velocity through the air alone", "[flight]") {
  // Galilean shift, point by point: a state in a uniform wind has the accelerations of the state seen from the wind.
  Draws draws(54);
  const AeroModel aero = reference_aero();
  const auto& curve = std::get<AeroCurve>(aero.form);
  for (int i = 0; i < 300; ++i) {
    const Launch launch = draws.any_launch();
    const Air air = draws.air();
    const Wind wind = draws.wind(WindProfile::uniform, 30.0);
    const FlightSetting windy{&kBall, &aero, air, wind}, calm{&kBall, &aero, air, Wind{}};
    const FlightEquation<double, AeroCurve> in_wind(launch, windy, curve), in_calm(launch, calm, curve);
    const Vec3<double> w = WindField(wind).at(10.0);
    const FlightState y{1.0,
                        draws.between(0.0, 40.0),
                        2.0,
                        draws.between(-60.0, 60.0),
                        draws.between(-30.0, 30.0),
                        draws.between(-20.0, 20.0),
                        draws.between(0.0, 400.0)};
    const FlightState seen{y[0], y[1], y[2], y[3] - w.x, y[4] - w.y, y[5] - w.z, y[6]};
    FlightState a, b;
    in_wind(y, a, 0.0);
    in_calm(seen, b, 0.0);
    INFO(text(launch) << "; " << text(wind));
    for (int k = 3; k < 7; ++k) CHECK(same(a[k], b[k], 100.0));
  }
}

TEST_CASE("a flight in a uniform wind is the still-air flight seen from a moving course", "[flight]") {
  // Through fly(): along the line of play the spin axis stays across it, so any spin will do; for a wind from anywhere
  // the axis would turn with the line, so the ball does not spin.
  Draws draws(55);
  const AeroModel aero = reference_aero();
  for (int i = 0; i < 200; ++i) {
    Launch launch = draws.drive();
    Wind wind = draws.wind(WindProfile::uniform);
    launch.azimuth = launch.tilt = 0.0;
    if (i % 2) {
      wind.from = i % 4 == 1 ? 0.0 : kPi;
    } else {
      launch.spin = 0.0;
    }
    const Vec3<double> w = WindField(wind).at(0.0);
    const Vec3<double> seen = launch.ball_speed * direction(launch.launch, 0.0) - w;
    Launch moving = launch;
    moving.ball_speed = length(seen);
    moving.launch = std::atan2(seen.y, std::hypot(seen.x, seen.z));
    moving.azimuth = std::atan2(seen.z, seen.x);
    const Air air = draws.air();
    INFO(text(launch) << "; " << text(wind));
    const Flight in_wind = fly(launch, FlightSetting{&kBall, &aero, air, wind}, 1e-11);
    const Flight in_calm = fly(moving, FlightSetting{&kBall, &aero, air, Wind{}}, 1e-11);
    CHECK(std::abs(in_wind.time - in_calm.time) < 1e-7);  // two integrations at 1e-11 with different steps
    CHECK(std::abs(in_wind.carry - (in_calm.carry + w.x * in_calm.time)) < 1e-6);
    CHECK(std::abs(in_wind.side - (in_calm.side + w.z * in_calm.time)) < 1e-6);
    CHECK(std::abs(in_wind.apex - in_calm.apex) < 1e-6);
    CHECK(std::abs(in_wind.landing_spin - in_calm.landing_spin) < 1e-5);
  }
}

// Lengths times k, times times sqrt(k), so that g stays what it is; masses times any m. What has no length or time
// hidden in it must give the same shot, rescaled. Left out on purpose: the run (Penner's law is written for m/s) and
// winds with a profile (roughness length).
TEST_CASE("impact and flight know no scale of their own", "[shot]") {
  Draws draws(56);
  for (int i = 0; i < 100; ++i) {
    const double k = draws.between(0.2, 5.0), m = draws.between(0.2, 5.0);
    const double speed = std::sqrt(k), time = std::sqrt(k), inertia = m * k * k;

    const Head head;
    Head big = head;
    big.mass *= m;
    big.inertia_normal *= inertia;
    big.inertia_up *= inertia;
    big.inertia_heel_toe *= inertia;
    big.depth *= k;
    big.bulge *= k;
    big.roll *= k;
    big.restitution_speed *= speed;
    big.restitution_slope /= speed;
    Ball big_ball = kBall;
    big_ball.mass *= m;
    big_ball.radius *= k;
    const Delivery d = draws.delivery();
    Delivery big_d = d;
    big_d.club_speed *= speed;
    big_d.toe *= k;
    big_d.high *= k;
    INFO("length " << k << ", mass " << m << ": " << text(d));

    const Launch a = strike_ball(d, head, kBall).launch, b = strike_ball(big_d, big, big_ball).launch;
    CHECK(same(a.ball_speed, b.ball_speed / speed));
    CHECK(same(a.launch, b.launch));
    CHECK(same(a.azimuth, b.azimuth));
    CHECK(same(a.spin, b.spin * time));
    CHECK(same(a.tilt, b.tilt));

    const Air air = draws.air();
    const Air big_air{air.density * m / (k * k * k), air.viscosity * m / (k * time)};
    const Wind wind = draws.wind(WindProfile::uniform);
    Wind big_wind = wind;
    big_wind.speed *= speed;
    big_wind.height *= k;
    for (const AeroModel& aero : {reference_aero(), smits_smith_aero()}) {
      const Flight f = fly(a, FlightSetting{&kBall, &aero, air, wind});
      const Flight g = fly(b, FlightSetting{&big_ball, &aero, big_air, big_wind});
      if (f.end != FlightEnd::landed) continue;
      // The same steps are taken, so the agreement is that of rounding, carried along.
      auto near = [](double x, double y, double size) { return std::abs(x - y) < 1e-9 * size; };
      INFO(aero.id << ": " << text(a));
      CHECK(g.calls == f.calls);
      CHECK(near(f.carry, g.carry / k, 200.0));
      CHECK(near(f.side, g.side / k, 200.0));
      CHECK(near(f.apex, g.apex / k, 200.0));
      CHECK(near(f.time, g.time / time, 10.0));
      CHECK(near(f.landing_speed, g.landing_speed / speed, 50.0));
      CHECK(near(f.landing_angle, g.landing_angle, 1.0));
      CHECK(near(f.landing_heading, g.landing_heading, 1.0));
      CHECK(near(f.landing_spin, g.landing_spin * time, 400.0));
    }
  }
}

TEST_CASE("the roll knows no scale of its own, and the bounce law does, and says so", "[ground]") {
  // One bounce at the same angle and spin ratio but four times the speed: were the law free of scale, everything would
  // be four times as much. Its restitution halves at a speed in m/s, as docs/model.md states.
  const double c = std::cos(40.0 * kDeg), s = std::sin(40.0 * kDeg);
  const auto slow = detail::bounce_once(7.0 * c, 7.0 * s, 50.0, firm(), kBall.radius);
  const auto fast = detail::bounce_once(28.0 * c, 28.0 * s, 200.0, firm(), kBall.radius);
  CHECK(std::abs(fast.upward - 4.0 * slow.upward) > 1.0);
}
