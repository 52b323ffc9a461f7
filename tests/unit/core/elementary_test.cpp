#include "loftwright/core/detail/elementary.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/traps.hpp"
#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// The C library's functions of long double, with eleven bits more, are the reference.
double off(double computed, long double exact) {
  return static_cast<double>(std::abs(static_cast<long double>(computed) - exact) / std::abs(exact));
}

}  // namespace

TEST_CASE("sine and cosine of any angle are within 4e-16", "[trig]") {
  if (std::numeric_limits<long double>::digits < 64) return;  // no wider reference here
  Draws draws(7);
  double worst = 0.0;
  const auto look = [&worst](double x) {
    const auto [s, c] = sin_cos(x);
    if (x != 0.0) worst = std::max(worst, off(s, std::sin(static_cast<long double>(x))));
    worst = std::max(worst, off(c, std::cos(static_cast<long double>(x))));
  };
  for (const double widest : {1e-8, 0.25 * kPi, kPi, 30.0, 1e5}) {
    for (int i = 0; i < 200000; ++i) look(draws.between(-widest, widest));
  }
  for (int quarter = -4000; quarter <= 4000; ++quarter) look(quarter * 0.25 * kPi);  // close to the zeros of both
  for (const double x : {0.0, 1e-300, 1e5, 1.00001e5, 1e12}) look(x);
  INFO(worst);
  CHECK(worst < 4e-16);
  CHECK(worst > 1e-17);  // a reference no wider than the function would show nothing

  for (int i = 0; i < 200000; ++i) {
    const double x = draws.between(-0.25 * kPi, 0.25 * kPi);
    CHECK(sin_cos_of_small(x).sin == sin_cos(x).sin);
    CHECK(sin_cos_of_small(x).cos == sin_cos(x).cos);
  }
}

TEST_CASE("the arctangent of any point is within 4e-16, and std::atan2 at the edges", "[trig]") {
  if (std::numeric_limits<long double>::digits < 64) return;
  Draws draws(8);
  double worst = 0.0;
  for (const double wide : {1.0, 1e-4, 1e-9}) {
    for (int i = 0; i < 200000; ++i) {
      const double a = draws.between(-1.0, 1.0), b = wide * draws.between(-1.0, 1.0);
      worst =
          std::max({worst, off(arctangent(a, b), std::atan2(static_cast<long double>(a), static_cast<long double>(b))),
                    off(arctangent(b, a), std::atan2(static_cast<long double>(b), static_cast<long double>(a)))});
    }
  }
  INFO(worst);
  CHECK(worst < 4e-16);
  CHECK(worst > 1e-17);

  const WithoutTraps here;
  for (const double y : {0.0, -0.0, 1.0, -1.0, 1e-320, -1e300, HUGE_VAL, -HUGE_VAL}) {
    for (const double x : {0.0, -0.0, 1.0, -1.0, 1e-320, -1e300, HUGE_VAL, -HUGE_VAL}) {
      INFO(y << " " << x);
      CHECK(arctangent(y, x) == std::atan2(y, x));
      CHECK(std::signbit(arctangent(y, x)) == std::signbit(std::atan2(y, x)));
    }
  }
  const double none = std::nan("");
  CHECK(std::isnan(arctangent(none, 1.0)));
  CHECK(std::isnan(arctangent(1.0, none)));
  CHECK(std::isnan(sin_cos(none).sin));
  CHECK(std::isnan(sin_cos(HUGE_VAL).cos));
}
