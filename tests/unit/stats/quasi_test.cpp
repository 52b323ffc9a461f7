#include "stats/quasi.hpp"

#include <boost/math/special_functions/erf.hpp>
#include <catch2/catch.hpp>
#include <cmath>

using namespace loftwright;

TEST_CASE("a sequence begun later goes on as the whole one does", "[quasi]") {
  constexpr std::size_t kDimensions = 5;
  const std::vector<double> whole = sobol_points(64, kDimensions, 9);
  for (const std::size_t first : {0, 1, 2, 7, 32}) {
    const std::vector<double> rest = sobol_points(64 - first, kDimensions, 9, first);
    INFO("from point " << first);
    REQUIRE(rest.size() == whole.size() - first * kDimensions);
    CHECK(std::equal(rest.begin(), rest.end(), whole.begin() + static_cast<std::ptrdiff_t>(first * kDimensions)));
  }
}

TEST_CASE("2^m points lie one in each of as many equal parts of every axis", "[quasi]") {
  constexpr std::size_t kCount = 128, kDimensions = 7;
  const std::vector<double> points = sobol_points(kCount, kDimensions, 3);
  for (std::size_t k = 0; k < kDimensions; ++k) {
    std::vector<int> held(kCount, 0);
    for (std::size_t n = 0; n < kCount; ++n) ++held[static_cast<std::size_t>(points[n * kDimensions + k] * kCount)];
    for (const int h : held) CHECK(h == 1);
  }
}

TEST_CASE("the quantile of the normal", "[quasi]") {
  CHECK(normal_quantile(0.5) == 0.0);
  // Tables of the normal distribution: 90 % and 97.5 % points.
  CHECK(normal_quantile(0.9) == Approx(1.2815515655446004).epsilon(1e-14));
  CHECK(normal_quantile(0.975) == Approx(1.959963984540054).epsilon(1e-14));
  CHECK(normal_quantile(0.025) == Approx(-1.959963984540054).epsilon(1e-14));
}

TEST_CASE("the quantile of the normal is that of another library, from one tail to the other", "[quasi]") {
  double worst = 0.0, worst_at = 0.0;
  const auto compare = [&](double p) {
    const double exact = -std::sqrt(2.0) * boost::math::erfc_inv(2.0 * p);  // by way of long double
    const double off = std::abs(normal_quantile(p) / exact - 1.0);
    if (!(off <= worst)) worst = off, worst_at = p;
  };
  for (int i = 0; i < 20'000; ++i) compare((i + 0.5) / 20'000);
  for (double p = 1e-300; p < 0.1; p *= 1.1) compare(p);
  CAPTURE(worst_at);
  CHECK(worst < 2e-15);  // five roundings; 9e-16 measured
  for (const double p : {0.075, 0.3, 0.4999, std::exp(-25.0)})
    CHECK(normal_quantile(1.0 - p) == Approx(-normal_quantile(p)).epsilon(1e-5));
}
