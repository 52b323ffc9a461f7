#include "loftwright/air/air.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "bad_values.hpp"
#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

// ISO 2533 / US Standard Atmosphere 1976, geopotential altitude. Density as printed to four decimals in the tables
// handed to this project; temperature follows from the lapse rate 6.5 K/km; pressure at 1000 and 2000 m from memory of
// the tables.
TEST_CASE("the standard atmosphere gives the published levels", "[air]") {
  struct Level {
    double altitude, temperature, pressure, density;
  };
  for (const Level& level :
       {Level{0, 288.15, 101325, 1.2250}, Level{500, 284.90, 95461, 1.1673}, Level{1000, 281.65, 89875, 1.1116},
        Level{1500, 278.40, 84556, 1.0581}, Level{2000, 275.15, 79495, 1.0065}}) {
    const StandardLevel got = standard_atmosphere(level.altitude);
    INFO("altitude " << level.altitude << " m: " << got.temperature << " K, " << got.pressure << " Pa, " << got.density
                     << " kg/m3");
    CHECK(std::abs(got.temperature - level.temperature) < 1e-9);
    CHECK(std::abs(got.pressure - level.pressure) < 1.0);     // printed to 1 Pa
    CHECK(std::abs(got.density - level.density) <= 0.51e-4);  // half of the last printed digit
  }
}

TEST_CASE("standard pressure is hydrostatic: dp/dh = -rho g", "[air]") {
  for (double altitude = -400.0; altitude < 10500.0; altitude += 500.0) {
    const double step = 1.0;
    const double slope =
        (standard_atmosphere(altitude + step).pressure - standard_atmosphere(altitude - step).pressure) / (2.0 * step);
    INFO("altitude " << altitude << " m");
    // The difference quotient is good to (step / scale height)^2 = 1e-8.
    CHECK(std::abs(slope / (-standard_atmosphere(altitude).density * 9.80665) - 1.0) < 1e-7);
  }
}

TEST_CASE("moist air weighs what CIPM-2007 says", "[air]") {
  // Picard et al., Metrologia 45 (2008) 149, its equations and coefficients (memory) worked with 30 digits by a script
  // outside this project; far from the room it was made for too, so that each of the small terms shows.
  struct Worked {
    Weather weather;
    double density;
  };
  for (const Worked& worked :
       {Worked{{293.15, 101325.0, 0.5}, 1.199314436809}, Worked{{318.15, 110000.0, 1.0}, 1.165233119264},
        Worked{{313.15, 60000.0, 0.9}, 0.639743008735}, Worked{{253.15, 100000.0, 0.8}, 1.376834403931},
        Worked{{328.15, 105000.0, 0.2}, 1.102166370006}}) {
    INFO(worked.weather.temperature << " K, " << worked.weather.pressure << " Pa, " << worked.weather.humidity);
    CHECK(std::abs(moist_air_density(worked.weather) - worked.density) <
          1e-11);  // rounding, in 12 digits and in 20 operations
  }
}

TEST_CASE("moist air agrees with the ideal mixture of dry air and vapour", "[air]") {
  // rho = (p - e) / (287.05 T) + e / (461.5 T), e = h * 611.2 exp(17.62 t / (243.12 + t)): Magnus form, WMO-No. 8
  // (memory), good to 0.3 % of e; the ideal law leaves out compressibility and enhancement, 0.1 % together.
  Draws draws(3);
  for (int i = 0; i < 500; ++i) {
    const Weather w{draws.between(273.15, 313.15), draws.between(7e4, 1.05e5), draws.between(0.0, 1.0)};
    const double t = w.temperature - 273.15;
    const double e = w.humidity * 611.2 * std::exp(17.62 * t / (243.12 + t));
    const double ideal = (w.pressure - e) / (287.05 * w.temperature) + e / (461.5 * w.temperature);
    INFO(w.temperature << " K, " << w.pressure << " Pa, " << w.humidity);
    CHECK(std::abs(moist_air_density(w) / ideal - 1.0) < 1.5e-3);
  }
}

TEST_CASE("damp, warm and thin air is lighter", "[air]") {
  const Weather base;
  const double density = moist_air_density(base);
  CHECK(moist_air_density({base.temperature, base.pressure, 0.9}) < density);
  CHECK(moist_air_density({base.temperature + 10.0, base.pressure, base.humidity}) < density);
  CHECK(moist_air_density({base.temperature, base.pressure - 5000.0, base.humidity}) < density);
}

TEST_CASE("viscosity is Sutherland's with the constants of ISO 2533", "[air]") {
  CHECK(std::abs(air_viscosity(288.15) - 1.7894e-5) <= 0.51e-9);  // ISO 2533 sea level, as printed
  CHECK(std::abs(air_viscosity(293.15) - 1.8134e-5) <= 1e-8);     // 1.813e-5 in engineering tables (memory)
  CHECK(air_viscosity(303.15) > air_viscosity(293.15));
}

TEST_CASE("air_from passes both on", "[air]") {
  const Weather w{300.0, 95000.0, 0.3};
  CHECK(air_from(w).density == moist_air_density(w));
  CHECK(air_from(w).viscosity == air_viscosity(300.0));
}

TEST_CASE("weather out of range is refused by name", "[air]") {
  const auto use = [](const Weather& w) { air_from(w); };
  check_field(Weather{}, &Weather::temperature, "temperature", 233.15, 328.15, use);
  check_field(Weather{}, &Weather::pressure, "pressure", 5e4, 1.1e5, use);
  check_field(Weather{}, &Weather::humidity, "humidity", 0.0, 1.0, use);
  struct Place {
    double altitude;
  };
  check_field(Place{0.0}, &Place::altitude, "altitude", -500.0, 11000.0,
              [](const Place& p) { standard_atmosphere(p.altitude); });
}
