// Energy never grows: not in the impact, not in still air, not on the turf.
#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"
#include "ground/bounce.hpp"
#include "march.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

double kinetic(double mass, const Vec3<double>& v) { return 0.5 * mass * dot(v, v); }

// Head and ball after an impact whose impulse on the ball is known, from the balance of momentum alone.
struct After {
  double energy;     // [J] of both bodies
  double head_spin;  // [rad/s]
};
After after(const Delivery& d, const Head& head, const Launch& launch) {
  const Vec3<double> impulse = kBall.mass * (launch.ball_speed * direction(launch.launch, launch.azimuth));
  const Vec3<double> axis = direction(d.dynamic_loft, d.face), toeward{-std::sin(d.face), 0.0, std::cos(d.face)};
  const Vec3<double> upface = cross(toeward, axis);
  const Vec3<double> normal = direction(d.dynamic_loft + d.high / head.roll, d.face + d.toe / head.bulge);
  const Vec3<double> arm = head.depth * axis + d.toe * toeward + d.high * upface;
  const Vec3<double> ball_spin = (1.0 / kBall.inertia()) * cross((-kBall.radius) * normal, impulse);
  const Vec3<double> head_velocity = d.club_speed * direction(d.attack, d.path) - (1.0 / head.mass) * impulse;
  const Vec3<double> moment = cross(arm, -impulse);
  const double about[] = {dot(moment, axis) / head.inertia_normal, dot(moment, upface) / head.inertia_up,
                          dot(moment, toeward) / head.inertia_heel_toe};
  const double turning = 0.5 * (head.inertia_normal * about[0] * about[0] + head.inertia_up * about[1] * about[1] +
                                head.inertia_heel_toe * about[2] * about[2]);
  return {kinetic(kBall.mass, (1.0 / kBall.mass) * impulse) + 0.5 * kBall.inertia() * dot(ball_spin, ball_spin) +
              kinetic(head.mass, head_velocity) + turning,
          std::hypot(about[0], about[1], about[2])};
}

}  // namespace

TEST_CASE("an impact makes no energy", "[impact]") {
  Draws draws(61);
  bool slid = false;
  for (int i = 0; i < 3000; ++i) {
    Delivery d = draws.delivery();
    if (i % 2) {  // and all that Delivery allows
      d.toe = draws.between(-0.05, 0.05);
      d.high = draws.between(-0.03, 0.03);
      d.dynamic_loft = draws.between(-5.0, 60.0) * kDeg;
      d.attack = draws.between(-20.0, 20.0) * kDeg;
    }
    Head head;
    head.friction = draws.between(0.05, 0.6);
    head.tangential_restitution = draws.between(-0.5, 0.2);
    const auto impact = strike_ball(d, head, kBall);
    slid = slid || impact.sliding;
    const double before = 0.5 * head.mass * d.club_speed * d.club_speed;
    INFO(text(d) << "; friction " << head.friction << ", e_t " << head.tangential_restitution << "; sliding "
                 << impact.sliding);
    CHECK(after(d, head, impact.launch).energy <= before * (1.0 + 1e-12));
  }
  CHECK(slid);  // both branches were tried
}

TEST_CASE("restitution is the share of the normal speed given back, off centre too", "[impact]") {
  // Rebuilt from momentum alone: relative velocity of the contact points after the impact, along the normal, is e times
  // before.
  Draws draws(62);
  for (int i = 0; i < 500; ++i) {
    const Delivery d = draws.delivery();
    const Head head;
    const Launch l = strike_ball(d, head, kBall).launch;
    const Vec3<double> impulse = kBall.mass * (l.ball_speed * direction(l.launch, l.azimuth));
    const Vec3<double> axis = direction(d.dynamic_loft, d.face), toeward{-std::sin(d.face), 0.0, std::cos(d.face)};
    const Vec3<double> upface = cross(toeward, axis);
    const Vec3<double> normal = direction(d.dynamic_loft + d.high / head.roll, d.face + d.toe / head.bulge);
    const Vec3<double> arm = head.depth * axis + d.toe * toeward + d.high * upface, ball_arm = (-kBall.radius) * normal;
    const Vec3<double> club = d.club_speed * direction(d.attack, d.path);
    const Vec3<double> moment = cross(arm, -impulse);
    const Vec3<double> head_spin = (dot(moment, axis) / head.inertia_normal) * axis +
                                   (dot(moment, upface) / head.inertia_up) * upface +
                                   (dot(moment, toeward) / head.inertia_heel_toe) * toeward;
    const Vec3<double> ball_spin = (1.0 / kBall.inertia()) * cross(ball_arm, impulse);
    const Vec3<double> after = (1.0 / kBall.mass) * impulse + cross(ball_spin, ball_arm) -
                               (club - (1.0 / head.mass) * impulse + cross(head_spin, arm));
    const double before = -dot(club, normal),
                 e = head.restitution - head.restitution_slope * (-before - head.restitution_speed);
    INFO(text(d));
    CHECK(std::abs(dot(after, normal) + e * before) < 1e-11 * 60.0);
    // And along the face what is left of the slip is -e_t of it: the ball grips.
    const Vec3<double> slip_before = -club - before * normal;
    const Vec3<double> slip_after = after - dot(after, normal) * normal;
    CHECK(length(slip_after + head.tangential_restitution * slip_before) < 1e-11 * 60.0);
  }
}

TEST_CASE("in still air a flight only loses energy, at every point of it", "[flight]") {
  // d/dt (v^2/2 + g y) = v . a + g vy = -q A Cd V / m V^2: lift does no work.
  Draws draws(63);
  for (const AeroModel& aero : {reference_aero(), smits_smith_aero(), linear_aero(), ballistic_range_aero()}) {
    const auto& curve = std::get<AeroCurve>(aero.form);
    for (int i = 0; i < 500; ++i) {
      const Launch launch = draws.any_launch();
      const FlightSetting in{&kBall, &aero, draws.air(), Wind{}};
      const FlightEquation<double, AeroCurve> equation(launch, in, curve);
      const FlightState y{
          0.0,        5.0, 0.0, draws.between(-70.0, 70.0), draws.between(-40.0, 40.0), draws.between(-30.0, 30.0),
          launch.spin};
      FlightState dy;
      const auto [reynolds, spin_ratio] = equation(y, dy);
      const double power = y[3] * dy[3] + y[4] * dy[4] + y[5] * dy[5] + kGravity * y[4];
      const double V = std::sqrt(y[3] * y[3] + y[4] * y[4] + y[5] * y[5]);
      const double cd = curve.at(reynolds, std::min(spin_ratio, kGreatestSpinRatio)).drag;
      const double expected = -0.5 * in.air.density * kBall.area() * cd * V * V * V / kBall.mass;
      INFO(aero.id << ": " << text(launch) << ", speed " << V);
      CHECK(power <= 0.0);
      CHECK(std::abs(power - expected) < 1e-12 * V * V * V);
      CHECK(dy[6] <= 0.0);
    }
  }
}

TEST_CASE("a ball lands slower than it left, and spins less", "[flight]") {
  Draws draws(64);
  const AeroModel aero = reference_aero();
  for (int i = 0; i < 1000; ++i) {
    const Launch launch = draws.any_launch();
    const FlightSetting in{&kBall, &aero, draws.air(), Wind{}};
    const Flight flight = fly(launch, in);
    INFO(text(launch));
    CHECK(flight.landing_speed < launch.ball_speed);
    CHECK(flight.landing_spin < launch.spin);
    CHECK(0.5 * flight.landing_speed * flight.landing_speed < 0.5 * launch.ball_speed * launch.ball_speed);
  }
}

TEST_CASE("a bounce makes no energy", "[ground]") {
  Draws draws(65);
  for (int i = 0; i < 5000; ++i) {
    const Turf turf = draws.turf();
    const double speed = draws.between(0.1, 80.0), below = draws.between(0.0, 89.0) * kDeg,
                 spin = draws.between(-900.0, 900.0);
    const auto out = detail::bounce_once(speed * std::cos(below), speed * std::sin(below), spin, turf, kBall.radius);
    auto energy = [](double v2, double w) { return 0.5 * v2 + 0.2 * kBall.radius * kBall.radius * w * w; };  // per kg
    INFO("in " << speed << " m/s, " << below / kDeg << " deg, " << spin / kRpm << " rpm; tilt " << turf.tilt / kDeg
               << " deg, e " << turf.restitution << ", mu " << turf.friction);
    CHECK(energy(out.forward * out.forward + out.upward * out.upward, out.backspin) <=
          energy(speed * speed, spin) * (1.0 + 1e-12));
  }
}
