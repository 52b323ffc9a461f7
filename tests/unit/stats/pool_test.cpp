// Pooling many groups, and slopes of series measured with error.
#include "loftwright/stats/detail/pool.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "simulated_shots.hpp"

using namespace loftwright;
using loftwright::test::deviate;

namespace {

struct Known {  // a group whose effect was measured, with a known error
  double effect, sd;
};

Pooled pooled(const PoolPrior& prior, const std::vector<Known>& groups, int threads = 1) {
  return pool(
      prior, groups.size(),
      [&](std::size_t g, std::span<const double>, std::span<const double> effects, std::span<double> logs) {
        for (std::size_t i = 0; i < effects.size(); ++i) {
          const double z = (groups[g].effect - effects[i]) / groups[g].sd;
          logs[i] = -0.5 * z * z;
        }
      },
      threads);
}

double slope_log_likelihood(std::span<const SeriesPoint> series, double slope, double spread_x, double spread_y) {
  double log = 0.0;
  add_slope_log_likelihoods(series, spread_x, spread_y, {&slope, 1}, {&log, 1});
  return log;
}

// The slope of highest likelihood, to a thousandth.
double best_slope(const std::vector<SeriesPoint>& series, double spread_x, double spread_y) {
  double best = 0.0, most = -1e300;
  for (int i = 0; i <= 2000; ++i) {
    const double slope = 0.001 * i, log = slope_log_likelihood(series, slope, spread_x, spread_y);
    if (log > most) best = slope, most = log;
  }
  return best;
}

}  // namespace

TEST_CASE("without groups the prior comes back", "[pool]") {
  const Pooled p = pooled({0.85, 0.12, 0.1}, {});
  CHECK(p.mean == Approx(0.85));
  CHECK(p.sd == Approx(0.12).epsilon(2e-3));  // a grid of a fifth of a standard deviation, cut at 4.5
  CHECK(p.between_sd == Approx(0.1).epsilon(5e-3));
  CHECK(p.low == Approx(0.85 - 1.2816 * 0.12).margin(0.002));
  CHECK(p.new_group_sd() == Approx(std::hypot(0.12, 0.1)).epsilon(3e-3));
  CHECK(p.groups == 0);
}

TEST_CASE("with hardly any spread between groups their mean is that of one normal sample", "[pool]") {
  // Prior N(1, 0.5), four values of error 0.2 about 0.4: the closed form of a normal mean.
  const Pooled p = pooled({1.0, 0.5, 1e-3}, {{0.3, 0.2}, {0.5, 0.2}, {0.35, 0.2}, {0.45, 0.2}});
  const double precision = 1.0 / 0.25 + 4.0 / 0.04, mean = (1.0 / 0.25 + 0.4 * 4.0 / 0.04) / precision;
  CHECK(p.mean == Approx(mean).margin(1e-3));
  CHECK(p.sd == Approx(1.0 / std::sqrt(precision)).epsilon(0.01));  // cells of effects: a twelfth of 0.05 squared
  CHECK(p.between_sd < 2e-3);
}

TEST_CASE("one group that says all: a group's effect is uncertain by the spread between groups", "[pool]") {
  // With the spread between groups integrated, mean given y is a mixture; its second moment by hand on a fine grid.
  const double y = 1.6, mean = 1.0, mean_sd = 0.3, between = 0.25, sd = 0.1;
  double weight = 0.0, first = 0.0, second = 0.0;
  for (int i = 0; i < 20000; ++i) {
    const double b = (i + 0.5) * 1e-4, v = sd * sd + b * b, total = v + mean_sd * mean_sd;
    const double w =
        std::exp(-0.5 * b * b / (between * between) - 0.5 * (y - mean) * (y - mean) / total) / std::sqrt(total);
    const double m = mean + (y - mean) * mean_sd * mean_sd / total, s2 = v * mean_sd * mean_sd / total;
    weight += w;
    first += w * m;
    second += w * (m * m + s2);
  }
  first /= weight;
  const Pooled p = pooled({mean, mean_sd, between}, {{y, sd}});
  CHECK(p.mean == Approx(first).margin(0.005 * mean_sd));
  CHECK(p.sd == Approx(std::sqrt(second / weight - first * first)).epsilon(0.01));
}

TEST_CASE("the number of threads changes nothing", "[pool]") {
  const std::vector<Known> groups{{0.2, 0.1}, {0.9, 0.3}, {0.6, 0.05}};
  const Pooled one = pooled({0.85, 0.12, 0.1}, groups), four = pooled({0.85, 0.12, 0.1}, groups, 4);
  CHECK(one.mean == four.mean);
  CHECK(one.between_high == four.between_high);
}

TEST_CASE("what cannot be pooled is refused", "[pool]") {
  const auto none = [](std::size_t, std::span<const double>, std::span<const double>, std::span<double>) {};
  CHECK_THROWS_AS(pool({0.0, 0.0, 0.1}, 0, none), InputError);
  CHECK_THROWS_AS(pool({0.0, 0.1, 0.1, {1.0, -1.0}}, 0, none), InputError);
  CHECK_THROWS_AS(pool({0.0, 0.1, 0.1, {1.0, 1.0, 1.0}}, 0, none), InputError);
}

TEST_CASE("a slope is found where regression attenuates it", "[pool]") {
  std::mt19937_64 random(3);
  std::vector<SeriesPoint> series;
  const double slope = 0.8, spread_x = 1.5, spread_y = 0.3, error_x = 1.0, error_y = 0.4, together = 0.2;
  double sxx = 0.0, sxy = 0.0;
  for (int i = 0; i < 4000; ++i) {
    const double x = spread_x * deviate(random), y = 5.0 + slope * x + spread_y * deviate(random);
    const double e = deviate(random), f = deviate(random);
    series.push_back(
        {-2.0 + x + error_x * e,
         y + together / error_x * e + std::sqrt(error_y * error_y - together * together / (error_x * error_x)) * f,
         error_x * error_x, error_y * error_y, together});
    sxx += (series.back().x + 2.0) * (series.back().x + 2.0);
    sxy += (series.back().x + 2.0) * (series.back().y - 5.0);
  }
  // (0.8 * 2.25 + 0.2) / 3.25 = 0.615: four standard errors of 4000 points are 0.04.
  CHECK(sxy / sxx == Approx(0.615).margin(0.04));
  CHECK(best_slope(series, spread_x, spread_y) == Approx(slope).margin(0.06));
}

TEST_CASE("a series tells by differences alone, and one point tells nothing", "[pool]") {
  const std::vector<SeriesPoint> series{
      {1.0, 2.0, 0.1, 0.2, 0.05}, {3.0, 3.5, 0.2, 0.1, 0.0}, {2.0, 3.0, 0.1, 0.1, -0.02}};
  CHECK(slope_log_likelihood(std::span(series).first(1), 0.7, 1.0, 1.0) == 0.0);
  std::vector<SeriesPoint> moved = series;
  for (SeriesPoint& p : moved) p.x += 100.0, p.y -= 40.0;
  for (const double slope : {-0.5, 0.0, 0.8, 1.5}) {
    CAPTURE(slope);
    CHECK(slope_log_likelihood(moved, slope, 1.2, 0.4) ==
          Approx(slope_log_likelihood(series, slope, 1.2, 0.4)).margin(1e-9));
  }
}

TEST_CASE("slopes are told many at a time as one by one, however many they are and however long the series is") {
  std::mt19937_64 random(17);
  for (const int points : {2, 3, 5, 40, 4000}) {
    std::vector<SeriesPoint> series;
    // Variances of 1e-9 too: the product of thousands of determinants is beyond every double.
    for (int i = 0; i < points; ++i)
      series.push_back({deviate(random), deviate(random), 1e-9 * (1 + i % 3), 2e-9, 1e-10 * (i % 5)});
    for (const std::size_t count : {1, 2, 3, 4, 5, 8, 161}) {
      CAPTURE(points, count);
      std::vector<double> slopes, together(count, 0.25);
      for (std::size_t i = 0; i < count; ++i) slopes.push_back(-1.0 + 0.013 * static_cast<double>(i));
      add_slope_log_likelihoods(series, 3e-4, 2e-4, slopes, together);
      double off = 0.0;
      for (std::size_t i = 0; i < count; ++i) {
        const double one = 0.25 + slope_log_likelihood(series, slopes[i], 3e-4, 2e-4);
        REQUIRE(std::isfinite(one));
        off = std::max(off, std::abs(together[i] - one));
      }
      CHECK(off == 0.0);
    }
  }
}

TEST_CASE("the likelihood of a slope is that of all its points as one normal", "[pool]") {
  // Of three points the differences from the first have no mean and no intercept in them: a normal of four dimensions,
  // by hand. What the flat mean and intercept add does not depend on the slope.
  const std::vector<SeriesPoint> series{
      {1.0, 2.0, 0.1, 0.2, 0.05}, {3.0, 3.5, 0.2, 0.1, 0.0}, {2.0, 3.0, 0.1, 0.1, -0.02}};
  const double spread_x = 1.2, spread_y = 0.4;
  const auto by_hand = [&](double slope) {
    double v[4][4], z[4], log = 0.0;  // covariance, then its Cholesky factor
    const auto part = [&](const SeriesPoint& p, int i, int k) {
      const double t = spread_x * spread_x;
      return i != k ? slope * t + p.cov_xy : i == 0 ? t + p.var_x : slope * slope * t + spread_y * spread_y + p.var_y;
    };
    for (int i = 0; i < 4; ++i) {
      const SeriesPoint& p = series[static_cast<std::size_t>(i / 2 + 1)];
      z[i] = i % 2 ? p.y - series[0].y : p.x - series[0].x;
      for (int k = 0; k < 4; ++k)
        v[i][k] = part(series[0], i % 2, k % 2) + (i / 2 == k / 2 ? part(p, i % 2, k % 2) : 0.0);
    }
    for (int i = 0; i < 4; ++i) {
      for (int k = 0; k <= i; ++k) {
        for (int m = 0; m < k; ++m) v[i][k] -= v[i][m] * v[k][m];
        v[i][k] = i == k ? std::sqrt(v[i][i]) : v[i][k] / v[k][k];
      }
      for (int m = 0; m < i; ++m) z[i] -= v[i][m] * z[m];
      z[i] /= v[i][i];
      log -= std::log(v[i][i]) + 0.5 * z[i] * z[i];
    }
    return log;
  };
  for (const double slope : {-0.5, 0.0, 0.8, 1.5}) {
    CAPTURE(slope);
    CHECK(slope_log_likelihood(series, slope, spread_x, spread_y) -
              slope_log_likelihood(series, 0.3, spread_x, spread_y) ==
          Approx(by_hand(slope) - by_hand(0.3)).margin(1e-10));
  }
}
