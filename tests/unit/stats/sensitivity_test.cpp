#include "loftwright/stats/sensitivity.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

#include "loftwright/core/constants.hpp"
#include "loftwright/stats/quasi.hpp"
#include "loftwright/stats/shapley.hpp"
#include "loftwright/stats/summary.hpp"

using namespace loftwright;

namespace {

// A function of one point as one of many.
Outputs pointwise(const std::function<double(std::span<const double>)>& f, std::size_t dimensions) {
  return [f, dimensions](std::span<const double> points, std::span<double> values) {
    for (std::size_t i = 0; i < values.size(); ++i) values[i] = f(points.subspan(i * dimensions, dimensions));
  };
}

}  // namespace

TEST_CASE("Sobol indices of the Ishigami function", "[stats]") {
  // Ishigami & Homma, ISUMA'90 (1990): f = sin x1 + a sin^2 x2 + b x3^4 sin x1 on (-pi, pi)^3, a = 7, b = 0.1. Its indices
  // are known in closed form:
  //   V1 = (1 + b pi^4/5)^2 / 2,  V2 = a^2/8,  V13 = b^2 pi^8 (1/18 - 1/50),  V = V1 + V2 + V13.
  const double a = 7.0, b = 0.1, pi4 = std::pow(kPi, 4);
  const double v1 = 0.5 * std::pow(1.0 + b * pi4 / 5.0, 2), v2 = a * a / 8.0, v13 = b * b * pi4 * pi4 * (1.0 / 18.0 - 1.0 / 50.0);
  const double v = v1 + v2 + v13;
  REQUIRE(v1 / v == Approx(0.3139).margin(5e-5));  // the values usually printed: 0.3139, 0.4424, 0; total 0.5576, 0.4424, 0.2437
  const auto ishigami = [&](std::span<const double> u) {
    const double x1 = kPi * (2 * u[0] - 1), x2 = kPi * (2 * u[1] - 1), x3 = kPi * (2 * u[2] - 1);
    return std::sin(x1) + a * std::pow(std::sin(x2), 2) + b * std::pow(x3, 4) * std::sin(x1);
  };
  const Sensitivity s = sobol_indices(pointwise(ishigami, 3), 3, {{0}, {1}, {2}}, 1 << 14, 1);
  const double tolerance = 0.005;  // of 16 384 quasi-random points, measured over seeds: at most 0.003
  CHECK(s.mean == Approx(a / 2).margin(0.01));
  CHECK(s.variance == Approx(v).epsilon(0.005));
  CHECK(s.factors[0].first == Approx(v1 / v).margin(tolerance));
  CHECK(s.factors[1].first == Approx(v2 / v).margin(tolerance));
  CHECK(s.factors[2].first == Approx(0.0).margin(tolerance));
  CHECK(s.factors[0].total == Approx((v1 + v13) / v).margin(tolerance));
  CHECK(s.factors[1].total == Approx(v2 / v).margin(tolerance));
  CHECK(s.factors[2].total == Approx(v13 / v).margin(tolerance));
}

TEST_CASE("a group of coordinates is one factor, and a constant has none", "[stats]") {
  const auto sum = [](std::span<const double> u) { return u[0] + u[1] + 2.0 * u[2]; };
  const Sensitivity s = sobol_indices(pointwise(sum, 3), 3, {{0, 1}, {2}}, 4096, 3);
  CHECK(s.factors[0].first == Approx(2.0 / 6.0).margin(0.01));
  CHECK(s.factors[1].total == Approx(4.0 / 6.0).margin(0.01));
  const Sensitivity none = sobol_indices(pointwise([](std::span<const double>) { return 4.0; }, 1), 1, {{0}}, 64, 3);
  CHECK(none.factors[0].total == 0.0);
}

TEST_CASE("quasi-random points: reproducible, inside, evenly spread", "[stats]") {
  const auto a = sobol_points(4096, 22, 5), b = sobol_points(4096, 22, 5), c = sobol_points(4096, 22, 6);
  CHECK(a == b);
  CHECK(a != c);
  for (std::size_t k = 0; k < 22; ++k) {
    double mean = 0.0;
    for (std::size_t i = 0; i < 4096; ++i) {
      REQUIRE(a[i * 22 + k] > 0.0);
      REQUIRE(a[i * 22 + k] < 1.0);
      mean += a[i * 22 + k] / 4096;
    }
    // A stratified sample of n points errs by less than 1/n; a random one would err by 0.0045.
    CHECK(std::abs(mean - 0.5) < 1.0 / 4096);
  }
}

TEST_CASE("quantiles", "[stats]") {
  // Standard normal table: 90 % at 1.281552, 97.5 % at 1.959964.
  CHECK(normal_quantile(0.9) == Approx(1.2815515655).epsilon(1e-9));
  CHECK(normal_quantile(0.975) == Approx(1.9599639845).epsilon(1e-9));
  CHECK(normal_quantile(0.5) == Approx(0.0).margin(1e-12));
  std::vector<double> v{5, 1, 4, 2, 3};
  CHECK(quantile_in_place(v, 0.5) == 3.0);
  CHECK(quantile_in_place(v, 0.1) == Approx(1.4));
  CHECK(quantile_in_place(v, 1.0) == 5.0);
  std::vector<double> more{1.0, 2.0, std::numeric_limits<double>::infinity()};
  CHECK(quantile_in_place(std::span(more).first(2), 1.0) == 2.0);  // what lies beyond the sample is not looked at
}

TEST_CASE("Shapley shares of games solved in the literature", "[stats]") {
  SECTION("the airport game (Littlechild & Owen, Management Science 20 (1973) 370; costs 8, 11, 13, 18 from memory)") {
    const double cost[] = {8, 11, 13, 18};
    const auto shares = shapley_shares(4, [&](unsigned s) {
      double most = 0.0;
      for (int i = 0; i < 4; ++i) most = s >> i & 1 ? std::max(most, cost[i]) : most;
      return most;
    });
    // Each stretch of runway is paid in equal parts by those who use it: 8/4, + 3/3, + 2/2, + 5/1.
    CHECK(shares[0] == Approx(2.0));
    CHECK(shares[1] == Approx(3.0));
    CHECK(shares[2] == Approx(4.0));
    CHECK(shares[3] == Approx(9.0));
  }
  SECTION("the glove game (Shapley & Shubik): two left gloves, one right: 1/6, 1/6, 2/3") {
    const auto shares = shapley_shares(3, [](unsigned s) { return (s & 4) && (s & 3) ? 1.0 : 0.0; });
    CHECK(shares[0] == Approx(1.0 / 6));
    CHECK(shares[1] == Approx(1.0 / 6));
    CHECK(shares[2] == Approx(2.0 / 3));
  }
  SECTION("they add up, and a factor that changes nothing gets nothing") {
    const auto shares = shapley_shares(6, [](unsigned s) { return std::sqrt(double(s & 31)) + (s & 3) * 0.7; });
    CHECK(std::accumulate(shares.begin(), shares.end(), 0.0) == Approx(std::sqrt(31.0) + 2.1).epsilon(1e-14));
    CHECK(shares[5] == 0.0);
  }
}

TEST_CASE("shares where one factor waits for another", "[stats]") {
  SECTION("by hand: 1 waits for 0, so the orders are 012, 021 and 201") {
    const auto needs = [](unsigned team) { return [team](unsigned s) { return (s & team) == team ? 1.0 : 0.0; }; };
    // Who comes last of the team brings it all.
    CHECK(shapley_shares(3, needs(0b011), {{0, 1}}) == std::vector{0.0, 1.0, 0.0});
    const auto shares = shapley_shares(3, needs(0b101), {{0, 1}});
    CHECK(shares[0] == Approx(1.0 / 3));
    CHECK(shares[1] == 0.0);
    CHECK(shares[2] == Approx(2.0 / 3));
    CHECK(shapley_shares(3, needs(0b110), {{0, 1}})[1] == Approx(2.0 / 3));
  }
  SECTION("against every order written out") {
    const auto worth = [](unsigned s) { return std::sqrt(double(s)) + ((s & 9) == 9 ? 3.0 : 0.0) - (s & 6) * 0.3; };
    constexpr int kCount = 6;
    std::vector<int> order(kCount);
    std::iota(order.begin(), order.end(), 0);
    std::vector<double> sum(kCount, 0.0);
    int orders = 0;
    do {
      const auto place = [&](int i) { return std::find(order.begin(), order.end(), i) - order.begin(); };
      if (place(4) < place(1) || place(3) < place(4) || place(5) < place(0)) continue;  // 1, 4, 3 in turn, and 5 after 0
      ++orders;
      unsigned s = 0;
      for (const int i : order) {
        sum[static_cast<std::size_t>(i)] += worth(s | 1u << i) - worth(s);
        s |= 1u << i;
      }
    } while (std::next_permutation(order.begin(), order.end()));
    CHECK(orders == 60);  // of 720: one in six for the three, one in two for the two
    std::vector<unsigned> asked;
    const auto shares = shapley_shares(kCount, [&](unsigned s) { asked.push_back(s); return worth(s); }, {{1, 4}, {4, 3}, {0, 5}});
    for (std::size_t i = 0; i < kCount; ++i) CHECK(shares[i] == Approx(sum[i] / orders).margin(1e-12));
    CHECK(asked.size() == 24);  // 4 of the chain, 3 of the pair, 2 of the free one
  }
  SECTION("what cannot be is refused") {
    const auto none = [](unsigned) { return 0.0; };
    CHECK_THROWS_AS(shapley_shares(3, none, {{0, 1}, {1, 0}}), std::invalid_argument);
    CHECK_THROWS_AS(shapley_shares(3, none, {{0, 0}}), std::invalid_argument);
    CHECK_THROWS_AS(shapley_shares(3, none, {{0, 3}}), std::invalid_argument);
  }
}

TEST_CASE("shares of as many factors as are possible, and no more", "[stats]") {
  CHECK(shapley_shares(0, [](unsigned) { return 1.0; }).empty());
  CHECK(shapley_shares(1, [](unsigned s) { return s ? 5.0 : 2.0; })[0] == 3.0);
  // Sixteen who each bring their number, whoever came before.
  const auto shares = shapley_shares(16, [](unsigned s) {
    double sum = 0.0;
    for (int i = 0; i < 16; ++i) sum += s >> i & 1 ? i : 0;
    return sum;
  });
  for (std::size_t i = 0; i < 16; ++i) CHECK(shares[i] == Approx(static_cast<double>(i)));
  CHECK_THROWS(shapley_shares(17, [](unsigned) { return 0.0; }));
  CHECK_THROWS(shapley_shares(-1, [](unsigned) { return 0.0; }));
}

TEST_CASE("the shift of quasi-random points is SplitMix64's, the first point the shift alone", "[stats]") {
  // The generator's first word from state 0 is 0xe220a8397b1dcdaf (published test value, from memory).
  CHECK(sobol_points(1, 1, 0)[0] == (static_cast<double>(0xe220a8397b1dcdafu >> 12) + 0.5) * 0x1p-52);
}

TEST_CASE("2^m quasi-random points lie one in each of 2^m parts of every axis", "[stats]") {
  for (const std::size_t dimensions : {1u, 3u, 22u}) {
    constexpr std::size_t kPoints = 64;
    const std::vector<double> points = sobol_points(kPoints, dimensions, 9);
    for (std::size_t k = 0; k < dimensions; ++k) {
      std::vector<int> in_part(kPoints, 0);
      for (std::size_t i = 0; i < kPoints; ++i) ++in_part[static_cast<std::size_t>(points[i * dimensions + k] * kPoints)];
      CAPTURE(dimensions, k);
      for (const int n : in_part) CHECK(n == 1);
    }
    if (dimensions > 1) CHECK(points[0] != points[1]);  // each axis has a shift of its own
  }
}
