// Limits in which the flight has a closed form.
#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"
#include "march.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

AeroModel constant_drag(double drag) { return {"constant", "", "", AeroCurve{.drag = drag}, 0.0, 1e7, 0.0, 10.0}; }

// Terminal speed: drag equals weight.
double terminal(double drag, const Air& air) {
  return std::sqrt(2.0 * kBall.mass * kGravity / (air.density * kBall.area() * drag));
}

}  // namespace

TEST_CASE("without air the flight is the parabola", "[flight]") {
  const AeroModel aero = reference_aero();
  const FlightSetting vacuum{&kBall, &aero, Air{0.0, 1.8e-5}, Wind{}};
  Draws draws(41);
  for (int i = 0; i < 300; ++i) {
    const Launch l = draws.any_launch();
    INFO(text(l));
    const Flight flight = fly(l, vacuum);
    const double up = l.ball_speed * std::sin(l.launch), level = l.ball_speed * std::cos(l.launch);
    const double time = 2.0 * up / kGravity, range = level * time;
    const double eps =
        1e-9 * (1.0 + range + up * up / kGravity);  // polynomials of degree 2: the method is exact to rounding
    CHECK(std::abs(flight.time - time) < 1e-9 * (1.0 + time));
    CHECK(std::abs(flight.carry - range * std::cos(l.azimuth)) < eps);
    CHECK(std::abs(flight.side - range * std::sin(l.azimuth)) < eps);
    CHECK(std::abs(flight.apex - up * up / (2.0 * kGravity)) < eps);
    CHECK(std::abs(flight.landing_angle - l.launch) < 1e-8);
    CHECK(std::abs(flight.landing_speed - l.ball_speed) < 1e-8 * (1.0 + l.ball_speed));
  }
}

TEST_CASE("a ball shot straight up in constant drag comes down as the closed form says", "[flight]") {
  const double drag = 0.25;
  const AeroModel aero = constant_drag(drag);
  const Air air{1.225, 1.789e-5};
  const double vt = terminal(drag, air);
  for (const double v0 : {10.0, 35.0, 70.0}) {
    const FlightSetting in{&kBall, &aero, air, Wind{}};
    const Flight flight = fly({v0, 0.5 * kPi, 0.0, 0.0, 0.0}, in, 1e-11);
    // Up: v = vt tan(...); h = vt^2 / (2 g) ln(1 + (v0/vt)^2), t = vt/g atan(v0/vt).
    // Down: h = vt^2 / g ln cosh(g t / vt), v = vt tanh(g t / vt), so v = v0 vt / sqrt(v0^2 + vt^2).
    const double height = vt * vt / (2.0 * kGravity) * std::log(1.0 + v0 * v0 / (vt * vt));
    const double time = vt / kGravity * (std::atan(v0 / vt) + std::acosh(std::exp(kGravity * height / (vt * vt))));
    INFO("v0 " << v0 << " m/s, terminal speed " << vt << " m/s");
    // V |V| has a kink in its second derivative at the top: 1e-6 instead of the 1e-9 of smooth flights.
    CHECK(std::abs(flight.apex - height) < 1e-6);
    CHECK(std::abs(flight.time - time) < 1e-6);
    CHECK(std::abs(flight.landing_speed - v0 * vt / std::hypot(v0, vt)) < 1e-6);
  }
}

TEST_CASE("a ball dropped in constant drag falls as ln cosh and tends to its terminal speed", "[flight]") {
  const double drag = 0.25;
  const AeroModel aero = constant_drag(drag);
  const Air air{1.225, 1.789e-5};
  const FlightSetting in{&kBall, &aero, air, Wind{}};
  const FlightEquation<double, AeroCurve> equation({}, in, std::get<AeroCurve>(aero.form));
  const double vt = terminal(drag, air), v0 = 1e-3;  // not quite at rest: spin ratio is spin over speed
  const double start = vt / kGravity * std::atanh(v0 / vt);
  for (const double time : {1.0, 3.0, 8.0}) {
    const FlightState y = march(equation, {0.0, 1000.0, 0.0, 0.0, -v0, 0.0, 0.0}, time, 4000);
    const double fallen =
        vt * vt / kGravity *
        (std::log(std::cosh(kGravity * (start + time) / vt)) - std::log(std::cosh(kGravity * start / vt)));
    INFO("after " << time << " s");
    CHECK(std::abs(1000.0 - y[1] - fallen) < 1e-9);  // RK4 at 2 ms: (g dt / vt)^4
    CHECK(std::abs(-y[4] - vt * std::tanh(kGravity * (start + time) / vt)) < 1e-9);
  }
  // From above and from below the terminal speed is the same. What is left after 80 s: 2 vt exp(-2 g t / vt), 1e-13
  // m/s.
  CHECK(std::abs(-march(equation, {0.0, 9e3, 0.0, 0.0, -5.0, 0.0, 0.0}, 80.0, 8000)[4] - vt) < 1e-10);
  CHECK(std::abs(-march(equation, {0.0, 9e3, 0.0, 0.0, -90.0, 0.0, 0.0}, 80.0, 8000)[4] - vt) < 1e-10);
}

TEST_CASE("terminal speed of every aerodynamic model balances drag and weight", "[flight]") {
  for (const AeroModel& aero : {reference_aero(), smits_smith_aero(), linear_aero(), ballistic_range_aero()}) {
    const Air air{1.2, 1.81e-5};
    const FlightSetting in{&kBall, &aero, air, Wind{}};
    const auto& curve = std::get<AeroCurve>(aero.form);
    const FlightEquation<double, AeroCurve> equation({}, in, curve);
    const FlightState y = march(equation, {0.0, 9e3, 0.0, 0.0, -20.0, 0.0, 0.0}, 120.0, 6000);
    const double v = -y[4], re = 2.0 * air.density * v * kBall.radius / air.viscosity;
    INFO(aero.id << ": " << v << " m/s");
    CHECK(std::abs(v / terminal(curve.at(re, 0.0).drag, air) - 1.0) < 1e-9);
  }
}

TEST_CASE("what bulge and gear effect make of a small miss without loft", "[impact]") {
  // Tangential impulse of a miss t: Jt = t [ d (1 - d/R) Jn / I - (1 + et) V / R ] / (7/(2 m) + 1/M + d^2/I), toeward,
  // with Jn = (1 + e) V / (1/m + 1/M). It turns the ball's start from t/R by Jt/Jn and spins it by r Jt / Ib: + to the
  // left. So both angles are t times a number in which speed stands only through e.
  for (const Head& head : {Head{}, Head{.inertia_up = 5.7e-4, .depth = 0.042}}) {
    const Ball& ball = kBall;
    for (const double speed : {27.0, 38.0, 49.0}) {
      const double toe = 1e-6, e = head.restitution - head.restitution_slope * (speed - head.restitution_speed);
      const double normal = (1.0 + e) * speed / (1.0 / ball.mass + 1.0 / head.mass);
      const double grip = (head.depth * (1.0 - head.depth / head.bulge) * normal / head.inertia_up -
                           (1.0 + head.tangential_restitution) * speed / head.bulge) /
                          (3.5 / ball.mass + 1.0 / head.mass + head.depth * head.depth / head.inertia_up) * toe;
      const Launch launch = strike_ball(Delivery{speed, 0.0, 0.0, 0.0, 0.0, toe, 0.0}, head, ball).launch;
      INFO(speed << " m/s: start " << launch.azimuth << " rad, spin " << launch.spin << " rad/s");
      CHECK(launch.azimuth ==
            Approx(toe / head.bulge + grip / normal).epsilon(1e-6));  // the square of toe over the head's size
      CHECK(launch.spin == Approx(ball.radius * grip / ball.inertia()).epsilon(1e-6));
      CHECK(launch.tilt < 0.0);  // a draw: gear effect outdoes bulge
    }
  }
}

TEST_CASE("lift alone turns the ball on a circle", "[flight]") {
  // No drag, no decay, and gravity taken out by looking at right angles to it: with the spin axis straight up the force
  // is level and across, of size q A Cl, so seen from above the ball runs on a circle of radius 2 m / (rho A Cl).
  Ball ball = kBall;
  ball.spin_decay = 0.0;
  const AeroModel aero{"lift", "", "", AeroCurve{.lift = 0.2}, 0.0, 1e7, 0.0, 10.0};
  const Air air{1.2, 1.81e-5};
  const FlightSetting in{&ball, &aero, air, Wind{}};
  // Tilt +90 deg: the axis points down, the ball curves right.
  const FlightEquation<double, AeroCurve> equation({40.0, 0.0, 0.0, 250.0, 0.5 * kPi}, in,
                                                   std::get<AeroCurve>(aero.form));
  FlightState dy;
  equation({0.0, 100.0, 0.0, 40.0, 0.0, 0.0, 250.0}, dy, 0.0);
  const double radius = 2.0 * ball.mass / (air.density * ball.area() * 0.2);
  CHECK(std::abs(dy[5] - 40.0 * 40.0 / radius) < 1e-12);  // to the right
  CHECK(std::abs(dy[3]) < 1e-13);
  CHECK(std::abs(dy[4] + kGravity) < 1e-13);
}
