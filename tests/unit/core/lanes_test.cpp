// The lanes of the plainest instruction set, which every processor has; wider ones run the same text and are held to the
// scalar engine in tests/property/drives_test.cpp.
#include "core/lanes.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "loftwright/core/power_law.hpp"
#include "loftwright/core/traps.hpp"

using namespace loftwright;

namespace {

using Four = Lanes<4>;

Four of(double a, double b, double c, double d) {
  return lanes_of(std::array{a, b, c, d});
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

TEST_CASE("elementary functions of lanes are within 4 units of the last place", "[lanes]") {
  // What the glibc manual states of its vector functions; 1 ulp is at most 2.3e-16 relative.
  const double tolerance = 4.0 * 2.3e-16;
  const std::pair<std::function<Four(const Four&)>, std::function<double(double)>> functions[] = {
      {[](const Four& x) { return sin(x); }, [](double x) { return std::sin(x); }},
      {[](const Four& x) { return cos(x); }, [](double x) { return std::cos(x); }},
      {[](const Four& x) { return log(x); }, [](double x) { return std::log(x); }},
      {[](const Four& x) { return pow(x, 1.0 / 7.0); }, [](double x) { return std::pow(x, 1.0 / 7.0); }},
      {[](const Four& x) { return atan2(x, Four(0.7)); }, [](double x) { return std::atan2(x, 0.7); }},
  };
  for (const auto& [lanes, plain] : functions) {
    for (double x = 0.001; x < 3.0; x += 0.0137) {
      const double expected = plain(x);
      for (std::size_t i = 0; i < 4; ++i) CHECK(std::abs(lane(lanes(Four(x)), i) - expected) <= tolerance * std::abs(expected));
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
