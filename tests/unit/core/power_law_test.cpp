#include "loftwright/core/power_law.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace loftwright;

TEST_CASE("a power law is std::pow within 1e-11, and itself outside its pieces", "[core]") {
  // Five exponents of published lift laws and the ends of the range. 1e-11: the interpolation's error, largest where the
  // sixth derivative is (exponent 4); lift itself is known to some per cent.
  for (const double exponent : {0.05, 0.4, 0.628, 1.0, 1.5, 4.0}) {
    const PowerLaw law(exponent);
    double worst = 0.0, at = 0.0;
    for (double x = 0x1p-12; x < 1.0; x *= 1.00037) {
      const double error = std::abs(law(x) / std::pow(x, exponent) - 1.0);
      if (error > worst) worst = error, at = x;
    }
    INFO("exponent " << exponent << ": " << worst << " at " << at);
    CHECK(worst < 1e-11);
    for (const double x : {0.0, 1e-9, 1e-4, 1.0, 2.5}) CHECK(law(x) == std::pow(x, exponent));
    CHECK(law(-0.004) == 0.0);
  }
}

TEST_CASE("a power law does not jump from piece to piece by more than its error", "[core]") {
  const PowerLaw law(0.628);
  for (double edge = 0x1p-12; edge < 1.0; edge *= 2.0) {
    for (int i = 0; i < 16; ++i) {
      const double x = edge * (1.0 + i / 16.0), below = std::nextafter(x, 0.0);
      CHECK(std::abs(law(x) / law(below) - 1.0) < 2e-12);
    }
  }
}

TEST_CASE("a power law carries derivatives", "[core]") {
  const PowerLaw law(0.628);
  for (const double x : {0.03, 0.2, 0.49}) {
    const Dual<2> y = law(Dual<2>::variable(x, 1));
    CHECK(y.d[0] == 0.0);
    CHECK(std::abs(y.d[1] / (0.628 * std::pow(x, 0.628 - 1.0)) - 1.0) < 1e-11);
  }
}

TEST_CASE("the inverse fifth root is good to a thousandth over what a step's error can be", "[core]") {
  for (double x = 1e-13; x < 1e13; x *= 1.1) CHECK(std::abs(inverse_fifth_root(x) / std::pow(x, -0.2) - 1.0) < 1e-3);
}
