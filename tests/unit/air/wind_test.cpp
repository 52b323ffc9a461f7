#include "loftwright/air/wind.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

constexpr WindProfile kProfiles[] = {WindProfile::uniform, WindProfile::logarithmic, WindProfile::power};

double speed_at(const Wind& wind, double y) { return length(WindField(wind).at(y)); }

}  // namespace

TEST_CASE("a bearing is where the wind comes from", "[wind]") {
  for (const WindProfile profile : kProfiles) {
    auto from = [&](double degrees) { return WindField(Wind{4.0, degrees * kDeg, 10.0, profile}).at(10.0); };
    INFO("profile " << static_cast<int>(profile));
    CHECK(std::abs(from(0.0).x + 4.0) < 1e-14);   // headwind
    CHECK(std::abs(from(90.0).z + 4.0) < 1e-14);  // from the right: blows left
    CHECK(std::abs(from(-90.0).z - 4.0) < 1e-14);
    CHECK(std::abs(from(180.0).x - 4.0) < 1e-14);  // tailwind
    for (const double degrees : {0.0, 37.0, 90.0, -120.0}) CHECK(from(degrees).y == 0.0);
  }
}

TEST_CASE("a wind of which only the speed is told blows from the target", "[wind]") {
  CHECK(WindField(Wind{.speed = 4.0}).at(10.0).x == -4.0);  // the law is 1 where it was measured
  CHECK(WindField(Wind{.speed = 4.0}).at(10.0).z == 0.0);
}

TEST_CASE("at the height it was measured the wind is what was measured", "[wind]") {
  Draws draws(4);
  for (int i = 0; i < 100; ++i) {
    for (const WindProfile profile : kProfiles) {
      const Wind wind = draws.wind(profile);
      INFO(text(wind));
      CHECK(std::abs(speed_at(wind, wind.height) - wind.speed) < 1e-13 * 12.0);
    }
  }
}

TEST_CASE("a few metres up, profiles are the textbook laws", "[wind]") {
  // Between two heights well above the rounded-off layer (y0 = 2 m): Y exceeds y by y0^2 / y, 0.2 m at 20 m and 0.1 m
  // at 40 m.
  const double low = 20.0, high = 40.0;
  const Wind logarithmic{5.0, 0.0, 20.0, WindProfile::logarithmic}, power{5.0, 0.0, 20.0, WindProfile::power};
  CHECK(std::abs(speed_at(logarithmic, high) / speed_at(logarithmic, low) -
                 std::log(high / 0.03) / std::log(low / 0.03)) < 2e-3);
  CHECK(std::abs(speed_at(power, high) / speed_at(power, low) - std::pow(high / low, 1.0 / 7.0)) < 2e-3);
  CHECK(speed_at(Wind{5.0, 0.0, 10.0, WindProfile::uniform}, 0.0) == 5.0);
}

TEST_CASE("wind rises with height, is finite and smooth at and below the ground", "[wind]") {
  for (const WindProfile profile : {WindProfile::logarithmic, WindProfile::power}) {
    const Wind wind{8.0, 0.7, 10.0, profile};
    double before = 0.0;
    for (double y = -3.0; y < 60.0; y += 0.05) {
      const double speed = speed_at(wind, y);
      INFO("profile " << static_cast<int>(profile) << " at " << y << " m: " << speed << " m/s");
      REQUIRE(std::isfinite(speed));
      CHECK(speed > before);
      before = speed;
      // Second difference: no kink anywhere, the ground included. Bound: u_h / (ln(Y/z0) 4 y0^2) is 0.1 m/s per m^2.
      const double h = 1e-3;
      CHECK(std::abs(speed_at(wind, y + h) - 2.0 * speed + speed_at(wind, y - h)) < 0.15 * h * h + 1e-13);
    }
    CHECK(speed_at(wind, 0.0) < 0.8 * wind.speed);
  }
}

TEST_CASE("wind carries the derivative of its height", "[wind]") {
  for (const WindProfile profile : kProfiles) {
    const Wind wind{8.0, 0.7, 10.0, profile};
    for (const double y : {-0.5, 0.0, 0.3, 5.0, 30.0}) {
      const auto dual = WindField(wind).at(Dual<2>::variable(y, 0));
      const double h = 1e-4, slope = (WindField(wind).at(y + h).x - WindField(wind).at(y - h).x) / (2.0 * h);
      INFO("profile " << static_cast<int>(profile) << " at " << y << " m");
      CHECK(std::abs(dual.x.d[0] - slope) < 1e-7);  // h^2 u''' is about 1e-8
    }
  }
}

TEST_CASE("no wind is calm", "[wind]") {
  CHECK(Wind{}.calm());
  CHECK_FALSE(Wind{0.1}.calm());
  CHECK(speed_at(Wind{}, 20.0) == 0.0);
}
