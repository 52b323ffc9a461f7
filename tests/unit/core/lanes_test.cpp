// The lanes of the plainest instruction set, which every processor has; wider ones run the same text and are held to
// the scalar engine in tests/property/drives_test.cpp.
#include "core/lanes_elementary.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/traps.hpp"
#include "loftwright/core/detail/power_law.hpp"

using namespace loftwright;

namespace {

using Eight = Lanes<8>;

// Four numbers, each in two lanes: in both of the vectors that lanes consist of.
Eight of(double a, double b, double c, double d) {
  return lanes_of<8>([all = std::array{a, b, c, d}](std::size_t i) { return all[i % 4]; });
}

constexpr double kUnit = 0x1p-24;  // of rounding, relative

}  // namespace

TEST_CASE("each lane does what a float does", "[lanes]") {
  const Eight a = of(1.5, -2.0, 0.0, 3.25), b = of(0.5, 4.0, -1.0, 3.1);
  for (std::size_t i = 0; i < 8; ++i) {
    const float x = static_cast<float>(lane(a, i)), y = static_cast<float>(lane(b, i));
    CHECK(lane(a + b, i) == x + y);
    CHECK(lane(a - b, i) == x - y);
    CHECK(lane(a * b, i) == x * y);
    CHECK(lane(a / b, i) == x / y);
    CHECK(lane(-a, i) == -x);
    CHECK(lane(2.0 * a + 1.0, i) == 2.0f * x + 1.0f);
    CHECK(lane(a < b, i) == (x < y));
    CHECK(lane(a <= b, i) == (x <= y));
    CHECK(lane(a > b, i) == (x > y));
    CHECK(lane(a >= b, i) == (x >= y));
    CHECK(lane(a == b, i) == (x == y));
    CHECK(lane(!(a < b), i) == !(x < y));
    CHECK(lane((a < b) & (a > Eight(-1.0)), i) == (x < y && x > -1.0f));
    CHECK(lane((a < b) | (a > Eight(-1.0)), i) == (x < y || x > -1.0f));
    CHECK(lane(select(a < b, a, b), i) == std::min(x, y));
    CHECK(lane(min_of(a, b), i) == std::min(x, y));
    CHECK(lane(max_of(a, b), i) == std::max(x, y));
    CHECK(lane(abs_of(a), i) == std::abs(x));
    CHECK(lane(sqrt(b * b + 0.3), i) == std::sqrt(y * y + 0.3f));
  }
  CHECK(any(a < b));
  CHECK_FALSE(any(a * a < Eight(0.0)));
  CHECK(whole_numbers(of(1.0, 7.0, 0.0, 42.0)) == std::array{1, 7, 0, 42, 1, 7, 0, 42});
  CHECK(lane(Eight(0.1), 5) == 0.1f);
  CHECK(lane(of(0.1, 0.2, 0.3, 0.4), 6) == 0.3f);
}

TEST_CASE("is_finite tells lane by lane", "[lanes]") {
  const WithoutTraps here;
  const auto finite = is_finite(of(1.0, std::nan(""), INFINITY, -INFINITY));
  CHECK(lane(finite, 0));
  for (std::size_t i = 1; i < 4; ++i) CHECK_FALSE(lane(finite, i));
}

TEST_CASE("lanes turn by any angle as doubles do", "[lanes]") {
  // The polynomials are good to 1.4e-8 of a sine; what counts near its zeros is the angle, which the check rounds
  // first.
  double worst = 0.0;
  const auto look = [&worst](double angle) {
    const double x = static_cast<float>(angle);
    const auto [s, c] = sin_cos(of(x, -x, 0.3, 0.5 * x));
    worst = std::max({worst, std::abs(lane(s, 0) - std::sin(x)), std::abs(lane(c, 0) - std::cos(x)),
                      std::abs(lane(s, 1) + std::sin(x)), std::abs(lane(c, 1) - std::cos(x)),
                      std::abs(lane(s, 7) - std::sin(0.5 * x))});
    CHECK(std::abs(lane(s, 2) - std::sin(0.3f)) < 2.0 * kUnit);
  };
  for (double x = 0.0; x < 20.0; x += 0.00737) look(x);
  for (int quarter = 0; quarter < 12; ++quarter) look(quarter * 0.25 * kPi);
  for (const double x : {1e3, 9999.0, 1e5, -1e12}) look(x);  // from 1e4 on by the plain functions
  INFO(worst);
  CHECK(worst < 2.0 * kUnit);
  CHECK(lane(sin_cos(of(1e7, 0.5, 0.0, 0.0)).sin, 1) == static_cast<float>(std::sin(0.5)));
  for (double angle = -0.25 * kPi; angle < 0.25 * kPi; angle += 0.00311) {
    const double x = static_cast<float>(angle);
    const auto [s, c] = sin_cos_of_small(Eight(x));
    CHECK(std::abs(lane(s, 0) - std::sin(x)) <= 2.0 * kUnit * std::abs(std::sin(x)));
    CHECK(std::abs(lane(c, 0) - std::cos(x)) <= 1.5 * kUnit);
  }
}

TEST_CASE("lanes find the direction of any point as doubles do", "[lanes]") {
  // The polynomial is good to 7.3e-8; quotient, product and sum, and a half turn taken off, round once each.
  for (double angle = -kPi; angle <= kPi; angle += 0.00713) {
    for (const double far : {1e-12, 1.0, 3e7}) {
      const double y = static_cast<float>(far * std::sin(angle)), x = static_cast<float>(far * std::cos(angle)),
                   expected = std::atan2(y, x);
      INFO(angle << " " << far);
      CHECK(std::abs(lane(arctangent(of(0.0, 0.0, y, 0.0), of(1.0, 1.0, x, 1.0)), 2) - expected) <=
            (7.3e-8 + 3.0 * kUnit) * std::abs(expected));
    }
  }
  for (const double y : {0.0, -0.0, 2.0, -2.0}) {
    for (const double x : {0.0, 3.0, -3.0}) {
      INFO(y << " " << x);
      CHECK(lane(arctangent(Eight(y), Eight(x)), 0) == Approx(std::atan2(y, x)).epsilon(3.0 * kUnit));
      CHECK(std::signbit(lane(arctangent(Eight(y), Eight(x)), 0)) == std::signbit(std::atan2(y, x)));
    }
  }
}

TEST_CASE("the logarithm of lanes is std::log", "[lanes]") {
  // Of base 2: the polynomial is good to 1.2e-7 of what is at most a half, the sum rounds what is at most 20.
  for (double at = 1e-6; at < 1e6; at *= 1.0137) {
    const double x = static_cast<float>(at);
    INFO(x);
    CHECK(std::abs(lane(logarithm(of(x, 1.0, 2.0, x)), 7) - std::log(x)) < 1e-7 + 2.0 * kUnit * std::abs(std::log(x)));
  }
  CHECK(lane(logarithm(Eight(1.0)), 3) == 0.0);
}

TEST_CASE("the power of lanes is std::pow", "[lanes]") {
  // What the logarithm (of base 2) rounds off or its polynomial leaves out, times exponent and ln 2; 1e-7 of the power
  // of two.
  for (const double exponent : {0.05, 1.0 / 7.0, 0.4, 0.628, 1.0, 1.5, 4.0}) {
    for (double at = 1e-6; at < 40.0; at *= 1.0123) {
      const double x = static_cast<float>(at), off = 8e-8 + 2.0 * kUnit * std::abs(std::log2(x));
      INFO(x << "^" << exponent);
      CHECK(std::abs(lane(power(of(0.1, 1.0, x, 0.2), exponent), 2) / std::pow(x, exponent) - 1.0) <
            2.5e-7 + exponent * off);
      CHECK(lane(pow(Eight(x), exponent), 1) == lane(power(Eight(x), exponent), 1));
    }
  }
  CHECK(lane(power(Eight(1e-20), 4.0), 0) ==
        Approx(std::exp2(-126.0)).epsilon(1e-6));  // held, instead of wrapping round
  CHECK(lane(power(Eight(0.0), 0.5), 0) < 1e-18);
}

TEST_CASE("the exponential of lanes is std::exp", "[lanes]") {
  // x log2(e) is rounded twice, to half a unit of its last place; 1e-7 of the power of two.
  for (double at = -80.0; at < 80.0; at += 0.137) {
    const double x = static_cast<float>(at);
    INFO(x);
    CHECK(std::abs(lane(exponential(of(0.1, 1.0, x, 0.2)), 2) / std::exp(x) - 1.0) <
          2.5e-7 + 2.0 * kUnit * std::abs(x));
  }
  CHECK(lane(exponential(Eight(-1e4)), 0) == Approx(std::exp2(-126.0)).epsilon(1e-6));  // held at either end
  CHECK(lane(exponential(Eight(1e4)), 0) == Approx(std::exp2(127.0)).epsilon(1e-6));
}

TEST_CASE("lanes take a power law as doubles do", "[lanes]") {
  const PowerLaw law(0.628);
  for (double x = 0.002; x < 0.6; x *= 1.07) {
    const double one = law.times(0.7, Quotient<double>(static_cast<float>(x)));
    CHECK(lane(law.times(0.7, Quotient<Eight>(of(0.3, 0.1, x, 0.2))), 6) == Approx(one).epsilon(1e-6));
  }
}

TEST_CASE("what chooses a step's length is the same in lanes", "[lanes]") {
  // But for the bits that a float lacks, and what the division by five drops: two units of its last place.
  for (double at = 1e-12; at < 1e9; at *= 1.7) {
    const double x = static_cast<float>(at);
    CHECK(lane(inverse_fifth_root(Eight(x)), 1) == Approx(inverse_fifth_root(x)).epsilon(4.0 * kUnit));
    CHECK(lane(coarse(Eight(x)), 1) == coarse(x));
  }
}
