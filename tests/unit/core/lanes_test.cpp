// The lanes of the plainest instruction set, which every processor has; wider ones run the same text and are held to the
// scalar engine in tests/property/drives_test.cpp.
#include "core/lanes.hpp"

#include <catch2/catch.hpp>
#include <algorithm>
#include <cmath>
#include <functional>

#include "loftwright/core/power_law.hpp"
#include "loftwright/core/traps.hpp"

using namespace loftwright;

namespace {

using Four = Lanes<4>;

Four of(double a, double b, double c, double d) {
  return lanes_of<4>([all = std::array{a, b, c, d}](std::size_t i) { return all[i]; });
}

}  // namespace

TEST_CASE("each lane does what a double does", "[lanes]") {
  const Four a = of(1.5, -2.0, 0.0, 3.25), b = of(0.5, 4.0, -1.0, 3.25);
  for (std::size_t i = 0; i < 4; ++i) {
    const double x = lane(a, i), y = lane(b, i);
    CHECK(lane(a + b, i) == x + y);
    CHECK(lane(a - b, i) == x - y);
    CHECK(lane(a * b, i) == x * y);
    CHECK(lane(a / b, i) == x / y);
    CHECK(lane(-a, i) == -x);
    CHECK(lane(2.0 * a + 1.0, i) == 2.0 * x + 1.0);
    CHECK(lane(a < b, i) == (x < y));
    CHECK(lane(a <= b, i) == (x <= y));
    CHECK(lane(a > b, i) == (x > y));
    CHECK(lane(a >= b, i) == (x >= y));
    CHECK(lane(a == b, i) == (x == y));
    CHECK(lane(!(a < b), i) == !(x < y));
    CHECK(lane((a < b) & (a > Four(-1.0)), i) == (x < y && x > -1.0));
    CHECK(lane((a < b) | (a > Four(-1.0)), i) == (x < y || x > -1.0));
    CHECK(lane(select(a < b, a, b), i) == std::min(x, y));
    CHECK(lane(min_of(a, b), i) == std::min(x, y));
    CHECK(lane(abs_of(a), i) == std::abs(x));
    CHECK(lane(sqrt(a * a), i) == std::abs(x));
  }
  CHECK(any(a < b));
  CHECK_FALSE(any(a * a < Four(0.0)));
  CHECK(whole_numbers(of(1.0, 7.0, 0.0, 42.0)) == std::array{1, 7, 0, 42});
}

TEST_CASE("is_finite tells lane by lane", "[lanes]") {
  const WithoutTraps here;
  const auto finite = is_finite(of(1.0, std::nan(""), INFINITY, -INFINITY));
  CHECK(lane(finite, 0));
  for (std::size_t i = 1; i < 4; ++i) CHECK_FALSE(lane(finite, i));
}

TEST_CASE("logarithm and power from glibc are within 4 units of the last place", "[lanes]") {
  // What the glibc manual states of its vector functions; 1 ulp is at most 2.3e-16 relative.
  const double tolerance = 4.0 * 2.3e-16;
  const std::pair<std::function<Four(const Four&)>, std::function<double(double)>> functions[] = {
      {[](const Four& x) { return log(x); }, [](double x) { return std::log(x); }},
      {[](const Four& x) { return pow(x, 1.0 / 7.0); }, [](double x) { return std::pow(x, 1.0 / 7.0); }},
  };
  for (const auto& [lanes, plain] : functions) {
    for (double x = 0.001; x < 3.0; x += 0.0137) {
      const double expected = plain(x);
      for (std::size_t i = 0; i < 4; ++i) CHECK(std::abs(lane(lanes(Four(x)), i) - expected) <= tolerance * std::abs(expected));
    }
  }
}

TEST_CASE("lanes turn by any angle as doubles do", "[lanes]") {
  // The polynomials are good to 2e-14 of a sine and 1e-15 of a cosine; near its zeros, what counts is the angle itself, rounded.
  double worst = 0.0;
  const auto look = [&worst](double x) {
    const auto [s, c] = sin_cos(of(x, -x, 0.3, x + 1e-9));
    worst = std::max({worst, std::abs(lane(s, 0) - std::sin(x)), std::abs(lane(c, 0) - std::cos(x)), std::abs(lane(s, 1) + std::sin(x)),
                      std::abs(lane(c, 1) - std::cos(x)), std::abs(lane(s, 3) - std::sin(x + 1e-9))});
    CHECK(std::abs(lane(s, 2) / std::sin(0.3) - 1.0) < 2e-14);
  };
  for (double x = 0.0; x < 20.0; x += 0.00737) look(x);
  for (int quarter = 0; quarter < 12; ++quarter) look(quarter * 0.25 * kPi);
  INFO(worst);
  CHECK(worst < 2e-14);
  for (const double x : {1e3, 99999.0, 1e7, -1e12}) {  // from 1e5 on by the plain functions
    CHECK(std::abs(lane(sin_cos(Four(x)).sin, 0) - std::sin(x)) < 2e-14);
    CHECK(std::abs(lane(sin_cos(Four(x)).cos, 0) - std::cos(x)) < 2e-14);
    CHECK(lane(sin_cos(of(x, 0.5, 0.0, 0.0)).sin, 1) == Approx(std::sin(0.5)).epsilon(1e-13));
  }
  for (double x = -0.25 * kPi; x < 0.25 * kPi; x += 0.00311) {
    const auto [s, c] = sin_cos_of_small(Four(x));
    CHECK(std::abs(lane(s, 0) - std::sin(x)) <= 2e-14 * std::abs(std::sin(x)));
    CHECK(std::abs(lane(c, 0) - std::cos(x)) <= 1e-15);
  }
}

TEST_CASE("lanes find the direction of any point as doubles do", "[lanes]") {
  for (double angle = -kPi; angle <= kPi; angle += 0.00713) {
    for (const double far : {1e-12, 1.0, 3e7}) {
      const double y = far * std::sin(angle), x = far * std::cos(angle), expected = std::atan2(y, x);
      CHECK(std::abs(lane(atan2(of(0.0, 0.0, y, 0.0), of(1.0, 1.0, x, 1.0)), 2) - expected) <= 1e-14 * std::abs(expected) + 1e-300);
    }
  }
  for (const double y : {0.0, -0.0, 2.0, -2.0}) {
    for (const double x : {0.0, 3.0, -3.0}) {
      INFO(y << " " << x);
      CHECK(lane(atan2(Four(y), Four(x)), 0) == Approx(std::atan2(y, x)).epsilon(1e-15));
      CHECK(std::signbit(lane(atan2(Four(y), Four(x)), 0)) == std::signbit(std::atan2(y, x)));
    }
  }
}

TEST_CASE("lanes look up a power law within 1e-13, and compute what their rows do not hold", "[lanes]") {
  // A row is a 256th of an octave: 512^-4 / 8 of the fourth derivative, 24 for exponent 4 at the most.
  for (const double exponent : {0.05, 0.4, 0.628, 1.0, 1.5, 4.0}) {
    const PowerLaw law(exponent);
    double worst = 0.0;
    for (double x = 1.0 / 128.0; x < 1.0; x *= 1.00037) {
      worst = std::max(worst, std::abs(lane(law.times(3.0, Quotient<Four>(of(x, 0.3, 0.4, 0.5))), 0) / (3.0 * std::pow(x, exponent)) - 1.0));
    }
    INFO("exponent " << exponent << ": " << worst);
    CHECK(worst < (exponent > 1.0 ? 3e-12 : 1e-13));
    for (const double x : {1e-5, std::nextafter(1.0 / 128.0, 0.0), 1.0, 7.0}) {  // and its neighbours with it
      const Four found = law.times(1.0, Quotient<Four>(of(0.3, x, 0.3, 0.3)));
      CHECK(std::abs(lane(found, 1) / std::pow(x, exponent) - 1.0) < 1e-12);
      CHECK(std::abs(lane(found, 2) / std::pow(0.3, exponent) - 1.0) < 1e-12);
    }
  }
}

TEST_CASE("the power of lanes is std::pow within 1e-12", "[lanes]") {
  // The logarithm's polynomial is good to 3e-14, the exponential's to 1.4e-14; the exponent, at most 4, and the logarithm, here
  // at most 20, multiply what the first rounds off.
  for (const double exponent : {0.05, 0.4, 0.628, 1.0, 1.5, 4.0}) {
    for (double x = 1e-6; x < 2.0; x *= 1.0123) {
      INFO(x << "^" << exponent);
      CHECK(std::abs(lane(power(Four(x), exponent), 2) / std::pow(x, exponent) - 1.0) < 1e-12);
    }
  }
}

TEST_CASE("the inverse fifth root of lanes is that of doubles", "[lanes]") {
  for (double x = 1e-12; x < 1e9; x *= 1.7) CHECK(lane(inverse_fifth_root(Four(x)), 1) == inverse_fifth_root(x));
}
