#include "loftwright/core/detail/power_law.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace loftwright;

namespace {

// x as it comes in a flight: parts that are no powers of two.
Quotient<double> as_quotient(double x) {
  const double below = 37.0 + 0.3 * x;
  return {x, x * below, below * below};
}

}  // namespace

TEST_CASE("a power law is std::pow within 1e-12, and itself of what its tables do not hold", "[core]") {
  // Five exponents of published lift laws and the ends of the range. The interpolation's error is largest where the
  // fourth derivative is: 5 / 8 of the fourth power of 1/1024, for exponent 4. Lift itself is known to some per cent.
  for (const double exponent : {0.05, 0.4, 0.628, 1.0, 1.5, 4.0}) {
    const PowerLaw law(exponent);
    double worst = 0.0, at = 0.0;
    for (double x = 0x1p-16; x < 0x1p10; x *= 1.00037) {
      for (const Quotient<double>& q : {Quotient<double>(x), as_quotient(x)}) {
        const double error = std::abs(law.times(1.0, q) / std::pow(x, exponent) - 1.0);
        if (error > worst) worst = error, at = x;
      }
    }
    INFO("exponent " << exponent << ": " << worst << " at " << at);
    CHECK(worst < (exponent > 1.0 ? 1e-12 : 1e-13));
    CHECK(law.times(3.0, 0.2) == Approx(3.0 * std::pow(0.2, exponent)));
    CHECK(law.times(2.0, -0.1) == 0.0);
    for (const double x : {0.0, 1e-9, 1e6}) CHECK(law.times(2.0, x) == 2.0 * std::pow(x, exponent));
    CHECK(law.times(2.0, Quotient<double>(1e-4, 10.0, 1e10)) ==
          2.0 * std::pow(1e-4, exponent));  // one part held, one not
  }
}

TEST_CASE("a power law does not jump from piece to piece by more than its error", "[core]") {
  const PowerLaw law(0.628);
  for (double octave = 0x1p-12; octave < 1.0; octave *= 2.0) {
    for (int i = 0; i < 512; ++i) {
      const double x = octave * (1.0 + i / 512.0), below = std::nextafter(x, 0.0);
      CHECK(std::abs(law.times(1.0, x) / law.times(1.0, below) - 1.0) < 1e-13);
    }
  }
}

TEST_CASE("a power law carries derivatives", "[core]") {
  const PowerLaw law(0.628);
  for (const double x : {0.03, 0.2, 0.49}) {
    const Dual<2> y = law.times(2.0, Quotient(Dual<2>::variable(x, 1)));
    CHECK(y.d[0] == 0.0);
    CHECK(std::abs(y.d[1] / (2.0 * 0.628 * std::pow(x, 0.628 - 1.0)) - 1.0) < 1e-11);
  }
}

TEST_CASE("the inverse fifth root is good to 3.5 % over what a step's error can be", "[core]") {
  for (double x = 1e-13; x < 1e13; x *= 1.1) CHECK(std::abs(inverse_fifth_root(x) / std::pow(x, -0.2) - 1.0) < 0.035);
}
