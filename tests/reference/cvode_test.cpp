// The flight against SUNDIALS CVODE, which integrates the very same right-hand side its own way.
#include "cvode_flight.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

void check_against_cvode(WindProfile profile, double fastest, std::uint64_t seed) {
  const Ball ball;
  const AeroModel models[] = {reference_aero(), smits_smith_aero(), linear_aero(), ballistic_range_aero()};
  Draws draws(seed);
  for (int i = 0; i < 120; ++i) {
    const Launch launch = draws.drive();
    const FlightSetting setting{&ball, &models[i % 4], draws.air(), draws.wind(profile, fastest)};
    INFO(models[i % 4].id << ": " << text(launch) << "; " << text(setting.air) << "; " << text(setting.wind));
    const FlightEquation<double, AeroCurve> equation(launch, setting, std::get<AeroCurve>(setting.aero->form));
    const Flight reference = fly_by_cvode(equation, launch), tight = fly(launch, setting, kTightFlightTolerance);
    // What the tight tolerance is for: hundredths of a millimetre. A kink in the law at S = 0.5 costs both some of it.
    CHECK(std::abs(tight.carry - reference.carry) < 5e-5);
    CHECK(std::abs(tight.side - reference.side) < 5e-5);
    CHECK(std::abs(tight.apex - reference.apex) < 5e-5);
    CHECK(std::abs(tight.time - reference.time) < 5e-6);
    CHECK(std::abs(tight.landing_spin - reference.landing_spin) < 1e-4);
    CHECK(std::abs(tight.landing_speed - reference.landing_speed) < 5e-5);
    CHECK(std::abs(tight.landing_angle - reference.landing_angle) < 1e-6);
    CHECK(std::abs(tight.landing_heading - reference.landing_heading) < 1e-6);
    if (tight.outside_aero_range)
      continue;  // such flights are promised to 1 cm only, see tests/property/flight_cost_test
    const Flight flight = fly(launch, setting);
    const double promise =
        std::get<AeroCurve>(setting.aero->form).crisis ? 4e-3 : 1e-3;  // of the default tolerance: see there
    CHECK(std::abs(flight.carry - reference.carry) < promise);
    CHECK(std::abs(flight.side - reference.side) < promise);
    CHECK(std::abs(flight.apex - reference.apex) < promise);
  }
}

}  // namespace

TEST_CASE("CVODE lands within 1 mm in still air", "[flight]") { check_against_cvode(WindProfile::uniform, 0.0, 31); }
TEST_CASE("CVODE lands within 1 mm in a uniform wind", "[flight]") {
  check_against_cvode(WindProfile::uniform, 12.0, 32);
}
TEST_CASE("CVODE lands within 1 mm in a logarithmic wind", "[flight]") {
  check_against_cvode(WindProfile::logarithmic, 12.0, 33);
}
TEST_CASE("CVODE lands within 1 mm in a power-law wind", "[flight]") {
  check_against_cvode(WindProfile::power, 12.0, 34);
}
