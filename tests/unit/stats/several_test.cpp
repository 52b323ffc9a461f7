#include "loftwright/stats/detail/several.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "loftwright/stats/detail/difference.hpp"

using namespace loftwright;

TEST_CASE("the studentised range of published tables", "[stats]") {
  // Upper 5 % and 1 % points; Pearson & Hartley, Biometrika Tables for Statisticians, table 29 (memory), two decimals.
  struct Point {
    double chance;
    std::size_t means;
    double freedom, q;
  };
  for (const Point& p : {Point{0.05, 3, 10.0, 3.88}, Point{0.05, 4, 20.0, 3.96}, Point{0.05, 5, 60.0, 3.98},
                         Point{0.01, 3, 10.0, 5.27}, Point{0.05, 10, 30.0, 4.82}}) {
    CAPTURE(p.chance, p.means, p.freedom);
    CHECK(std::abs(studentised_range_exceeded(p.chance, p.means, p.freedom) - p.q) < 0.0051);  // rounding of the table
    CHECK(
        std::abs(studentised_range_below(studentised_range_exceeded(p.chance, p.means, p.freedom), p.means, p.freedom) -
                 (1.0 - p.chance)) < 1e-7);
  }
  CHECK(studentised_range_below(0.0, 3, 10.0) == 0.0);
  CHECK(studentised_range_below(1000.0, 3, 10.0) > 1.0 - 1e-9);
  CHECK_THROWS_AS(studentised_range_below(1.0, 1, 10.0), InputError);
  CHECK_THROWS_AS(studentised_range_exceeded(0.6, 3, 10.0), InputError);
  CHECK_THROWS_AS(studentised_range_exceeded(0.05, 3, 0.5), InputError);
}

TEST_CASE("of two samples alone the intervals are Welch's", "[stats]") {
  const std::vector<double> x{3.0, 5.0, 4.0, 6.5, 5.5}, y{1.0, 2.0, 2.5, 0.5};
  const std::vector<Summary> both{summarise(x), summarise(y)};
  const PairTest pair = all_pairs(both, independent_errors(both)).front();
  const WelchTest test = welch(both[1], both[0]);
  CHECK(std::abs(pair.low - test.low) < 1e-9);
  CHECK(std::abs(pair.high - test.high) < 1e-9);
  CHECK(std::abs(pair.own_confidence - 0.95) < 1e-9);
  const MeanInterval alone = mean_interval(both[0], 1.0 / 5.0, 1);
  CHECK(alone.low < both[0].mean);
  CHECK(mean_interval(both[0], 1.0 / 5.0, 4).low < alone.low);
}

TEST_CASE("samples without a scatter, and too many, are refused", "[stats]") {
  const std::vector<double> flat{1.0, 1.0}, one{1.0}, good{1.0, 2.0};
  for (const auto* bad : {&flat, &one}) {
    const std::vector<Summary> two{summarise(good), summarise(*bad)};
    CHECK_THROWS_AS(all_pairs(two, independent_errors(two)), InputError);
    CHECK_THROWS_AS(best_probabilities(two, independent_errors(two), {1.0}), InputError);
  }
  const std::vector<Summary> single{summarise(good)};
  CHECK_THROWS_AS(all_pairs(single, independent_errors(single)), InputError);
  const std::vector<Summary> many(kMostSamples + 1, summarise(good));
  CHECK_THROWS_AS(all_pairs(many, independent_errors(many)), InputError);
}

TEST_CASE("alike samples are equally likely to be the best, a better one is likelier", "[stats]") {
  const Summary s{12, 100.0, 8.0, 8.0 / std::sqrt(12.0)};
  const std::vector<Summary> alike(4, s);
  for (const double p : best_probabilities(alike, independent_errors(alike), {4.0, 1, 100'000}))
    CHECK(std::abs(p - 0.25) < 0.01);
  double before = 0.25;
  for (const double ahead : {2.0, 5.0, 10.0, 30.0}) {
    std::vector<Summary> samples = alike;
    samples[2].mean += ahead;
    const double p = best_probabilities(samples, independent_errors(samples), {4.0, 1, 20'000})[2];
    CHECK(p > before);
    before = p;
  }
  CHECK(before > 0.99);
}

TEST_CASE("values that wander widen what is hit in one go, and hardly what takes turns", "[stats]") {
  // Four samples of twelve on a slow wave.
  const auto wider = [](bool turns) {
    std::vector<Ordered> order;
    std::vector<std::vector<double>> values(4);
    for (std::size_t t = 0; t < 48; ++t) {
      const std::size_t i = turns ? t % 4 : t / 12;
      const double value = 5.0 * std::sin(0.25 * static_cast<double>(t)) + std::cos(7.0 * static_cast<double>(t * t));
      order.push_back({i, 0, value});
      values[i].push_back(value);
    }
    std::vector<Summary> samples;
    for (const auto& one : values) samples.push_back(summarise(one));
    const auto with = all_pairs(samples, wandering(order, samples).errors),
               without = all_pairs(samples, independent_errors(samples));
    double sum = 0.0;
    for (std::size_t i = 0; i < with.size(); ++i) {
      CHECK(with[i].standard_error >= without[i].standard_error);
      sum += with[i].standard_error / without[i].standard_error / static_cast<double>(with.size());
    }
    return sum;
  };
  CHECK(wider(false) > 2.0);
  CHECK(wider(true) < 1.1);
}
