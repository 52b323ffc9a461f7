// The model against tables written by an independent implementation (see drive/SOURCE.md).
#include <catch2/catch.hpp>
#include <cmath>

#include "csv_rows.hpp"
#include "folders.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

std::vector<std::vector<std::string>> table(const std::string& name) {
  return csv_rows(std::string(LOFTWRIGHT_SOURCE_DIR) + "/tests/reference/drive/" + name);
}

}  // namespace

TEST_CASE("flights agree with the independent table", "[flight]") {
  const AeroModel reference = reference_aero(), smits_smith = smits_smith_aero();
  const Ball ball;
  const auto rows = table("flights.csv");
  REQUIRE(rows.size() == 160);
  int most_calls = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto at = [&](int column) { return std::stod(rows[i][column]); };
    const Launch launch{at(1), at(2), at(3), at(4), at(5)};
    const Wind wind{std::hypot(at(8), at(10)), std::atan2(-at(10), -at(8)), 10.0, WindProfile::uniform};
    const FlightSetting setting{&ball, rows[i][0] == "reference" ? &reference : &smits_smith, {at(6), at(7)}, wind};
    INFO("row " << i + 2 << " of flights.csv, aero " << rows[i][0]);
    // The equations, free of the integrator's error; the table itself is good to 1e-8 of each number.
    const Flight tight = fly(launch, setting, kTightFlightTolerance);
    CHECK(std::abs(tight.carry - at(11)) < 1e-5);
    CHECK(std::abs(tight.side - at(12)) < 1e-5);
    CHECK(std::abs(tight.apex - at(13)) < 1e-5);
    CHECK(std::abs(tight.landing_angle - at(14)) < 1e-7);
    CHECK(std::abs(tight.landing_speed - at(15)) < 1e-5);
    CHECK(std::abs(tight.time - at(16)) < 1e-6);
    CHECK(std::abs(tight.landing_spin - at(17)) < 1e-4);
    // What the default tolerance promises: 1 mm, and an angle that moves the end of the run by no more than that.
    const Flight flight = fly(launch, setting);
    CHECK(std::abs(flight.carry - at(11)) < 1e-3);
    CHECK(std::abs(flight.side - at(12)) < 1e-3);
    CHECK(std::abs(flight.apex - at(13)) < 1e-3);
    CHECK(std::abs(flight.landing_angle - at(14)) < 5e-6);
    CHECK(std::abs(flight.landing_speed - at(15)) < 1e-4);
    CHECK(std::abs(flight.time - at(16)) < 1e-4);
    CHECK(std::abs(flight.landing_spin - at(17)) < 1e-2);
    most_calls = std::max(most_calls, flight.calls);
  }
  CHECK(most_calls <= 110);  // the budget of one flight
}

TEST_CASE("impacts agree with the independent table", "[impact]") {
  const auto rows = table("impacts.csv");
  REQUIRE(rows.size() == 160);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto at = [&](int column) { return std::stod(rows[i][column]); };
    const auto impact = strike_ball(Delivery{at(0), at(1), at(2), at(3), at(4), at(5), at(6)}, Head{}, Ball{});
    INFO("row " << i + 2 << " of impacts.csv");
    const double got[] = {impact.launch.ball_speed, impact.launch.launch, impact.launch.azimuth, impact.launch.spin,
                          impact.launch.tilt};
    for (int k = 0; k < 5; ++k) CHECK(std::abs(got[k] - at(7 + k)) <= 1e-9 * std::abs(at(7 + k)));
    CHECK(impact.sliding == (rows[i][12] == "1"));
  }
}

TEST_CASE("runs agree with the independent table", "[ground]") {
  const auto rows = table("runs.csv");
  REQUIRE(rows.size() == 150);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto at = [&](int column) { return std::stod(rows[i][column]); };
    Setting in = default_setting();
    in.turf = rows[i][0] == "firm" ? firm() : rows[i][0] == "medium" ? medium() : soft();
    in.air = {at(4), at(5)};
    const Run run = run_out(Landing{at(1), at(2), at(3)}, run_setting(in));
    INFO("row " << i + 2 << " of runs.csv, turf " << rows[i][0]);
    CHECK(std::abs(run.bounce - at(6)) < 1e-3);
    CHECK(std::abs(run.roll - at(7)) < 1e-3);
  }
}
