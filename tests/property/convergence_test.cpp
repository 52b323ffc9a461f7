// Halving the step and tightening the tolerance do what the orders of the methods promise. A hidden kink or a noisy
// right-hand side would show here first.
#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"
#include "march.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

double distance(const FlightState& a, const FlightState& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

}  // namespace

TEST_CASE("the right-hand side is smooth: RK4 is of fourth order on it", "[flight]") {
  const Launch launch{65.0, 12.0 * kDeg, 1.0 * kDeg, 2600.0 * kRpm, 6.0 * kDeg};
  for (const AeroModel& aero : {reference_aero(), smits_smith_aero(), linear_aero(), ballistic_range_aero()}) {
    for (const WindProfile profile : {WindProfile::uniform, WindProfile::logarithmic, WindProfile::power}) {
      const FlightSetting in{&kBall, &aero, Air{1.2, 1.81e-5}, Wind{5.0, 0.8, 10.0, profile}};
      const FlightEquation<double, AeroCurve> equation(launch, in, std::get<AeroCurve>(aero.form));
      const Vec3<double> v = launch.ball_speed * direction(launch.launch, launch.azimuth);
      const FlightState start{0.0, 0.0, 0.0, v.x, v.y, v.z, launch.spin};
      const FlightState exact = march(equation, start, 4.0, 12800);
      const double coarse = distance(march(equation, start, 4.0, 100), exact);
      const double middle = distance(march(equation, start, 4.0, 200), exact);
      const double fine = distance(march(equation, start, 4.0, 400), exact);
      INFO(aero.id << ", profile " << static_cast<int>(profile) << ": errors " << coarse << ", " << middle << ", "
                   << fine << " m");
      // Order 4 is a factor 16; between these steps the leading term rules to within a tenth of the order.
      CHECK(std::abs(std::log2(coarse / middle) - 4.0) < 0.4);
      CHECK(std::abs(std::log2(middle / fine) - 4.0) < 0.4);
    }
  }
}

TEST_CASE("the flight's error follows its tolerance, and its cost a fifth-order method's", "[flight]") {
  Draws draws(71);
  const AeroModel aero = reference_aero();
  double error[6] = {};
  double calls[6] = {};
  for (int i = 0; i < 60; ++i) {
    Launch launch = draws.drive();
    launch.spin = std::min(launch.spin, 3500.0 * kRpm);  // S stays below 0.5
    const FlightSetting in{&kBall, &aero, Air{1.2, 1.81e-5}, Wind{}};
    const Flight exact = fly(launch, in, 1e-13);
    for (int k = 0; k < 6; ++k) {
      const Flight flight = fly(launch, in, std::pow(10.0, -5 - k));
      error[k] += std::hypot(flight.carry - exact.carry, flight.side - exact.side, flight.apex - exact.apex) / 60.0;
      calls[k] += flight.calls / 60.0;
    }
  }
  INFO("mean error at tolerances 1e-5 .. 1e-10: " << error[0] << ", " << error[1] << ", " << error[2] << ", "
                                                  << error[3] << ", " << error[4] << ", " << error[5] << " m; calls "
                                                  << calls[0] << " .. " << calls[5]);
  for (int k = 0; k + 1 < 6; ++k) {
    // One power of ten less tolerance is about one power of ten less error.
    CHECK(error[k] / error[k + 1] > 5.0);
    CHECK(error[k] / error[k + 1] < 20.0);
  }
  // Five powers of ten at order five: ten times the steps. The first step and the last are of no full size: less than
  // that.
  CHECK(calls[5] / calls[0] > 5.0);
  CHECK(calls[5] / calls[0] < 10.5);
}
