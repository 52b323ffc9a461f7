// Flights worked outside this project from the same equations by an independent script: 60 m/s, 12 deg, 2500 rpm,
// density 1.225 kg/m3, viscosity 1.789e-5 Pa s, spin decay 2.0e-5. They check arithmetic; they are not measurements.
#include <catch2/catch.hpp>
#include <cmath>

#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

Flight worked(const AeroModel& aero, double density) {
  const Ball ball;
  const FlightSetting setting{&ball, &aero, {density, 1.789e-5}, Wind{}};
  return fly(Launch{60.0, 12.0 * kDeg, 0.0, 2500.0 * kRpm, 0.0}, setting);
}

void check(const Flight& flight, double carry, double apex, double time) {
  // 1 mm for what the flight promises; time as printed, to half of the last digit.
  CHECK(std::abs(flight.carry - carry) <= 1e-3);
  CHECK(std::abs(flight.apex - apex) <= 1e-3);
  CHECK(std::abs(flight.time - time) <= 0.5e-4 + 1e-5);
}

}  // namespace

TEST_CASE("worked flights: linear, Smits & Smith, vacuum", "[flight]") {
  SECTION("linear") { check(worked(linear_aero(), 1.225), 186.142, 19.065, 5.3685); }
  SECTION("Smits & Smith") { check(worked(smits_smith_aero(), 1.225), 180.250, 21.124, 5.6330); }
  SECTION("vacuum") { check(worked(reference_aero(), 0.0), 149.312, 7.934, 2.5441); }
}
