#include "loftwright/stats/detail/summary.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

using namespace loftwright;

namespace {

// Digits of agreement, as NIST counts them: -log10 of the relative error, 15 when none can be seen.
double digits(double got, double certified) {
  const double error = std::abs(got - certified) / std::abs(certified);
  return error == 0.0 ? 15.0 : std::min(15.0, -std::log10(error));
}

// first, then `low` and `high` in turn, 500 times each: how the NumAcc sets are defined.
std::vector<double> alternating(double first, double low, double high) {
  std::vector<double> sample{first};
  for (int i = 0; i < 500; ++i) sample.insert(sample.end(), {low, high});
  return sample;
}

// Michelson's 100 measurements of the speed of light of 1879, in thousands of km/s less 299 000 km/s times 1000.
std::vector<double> michelson() {
  std::vector<double> sample{850,  740, 900, 1070, 930, 850, 950, 980, 980, 880, 1000, 980, 930, 650, 760, 810, 1000,
                             1000, 960, 960, 960,  940, 960, 940, 880, 800, 850, 880,  900, 840, 830, 790, 810, 880,
                             880,  830, 800, 790,  760, 800, 880, 880, 880, 860, 720,  720, 620, 860, 970, 950, 880,
                             910,  850, 870, 840,  840, 850, 840, 840, 840, 890, 810,  810, 820, 800, 770, 760, 740,
                             750,  760, 910, 920,  890, 860, 880, 720, 840, 850, 850,  780, 890, 840, 780, 810, 760,
                             810,  790, 810, 820,  850, 870, 870, 810, 740, 810, 940,  950, 800, 810, 870};
  for (double& x : sample) x = (299000.0 + x) / 1000.0;
  return sample;
}

}  // namespace

// Certified values of the NIST Statistical Reference Datasets, univariate (from memory). The NumAcc sets are defined by
// a rule; Michelson's data are from memory too and prove themselves by hitting all certified digits.
TEST_CASE("means and standard deviations of the NIST StRD univariate sets", "[stats]") {
  struct Set {
    std::string name;
    std::vector<double> sample;
    double mean, sd;
    double sd_digits;  // fewer where a double cannot hold the decimal data: half an ulp of 1e7 is 1e-8 of the scatter
  };
  const std::vector<Set> sets{
      {"NumAcc1", {10000001, 10000003, 10000002}, 10000002, 1, 15},
      {"NumAcc2", alternating(1.2, 1.1, 1.3), 1.2, 0.1, 14},
      {"NumAcc3", alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 9},
      {"NumAcc4", alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 8},
      {"Michelso", michelson(), 299.852400000000, 0.0790105478190518, 13},
  };
  for (const Set& set : sets) {
    INFO(set.name);
    const Summary s = summarise(set.sample);
    CHECK(s.count == set.sample.size());
    CHECK(digits(s.mean, set.mean) >= 14.9);
    INFO("sd " << s.sd << ", digits " << digits(s.sd, set.sd));
    CHECK(digits(s.sd, set.sd) >= set.sd_digits - 0.1);
    CHECK(s.standard_error == s.sd / std::sqrt(static_cast<double>(s.count)));
  }
}

TEST_CASE("a sample of none, of one, and one that is not finite", "[stats]") {
  CHECK(summarise(std::span<const double>()).count == 0);
  CHECK(summarise(std::span<const double>()).mean == 0.0);
  const Summary one = summarise(std::vector{4.0});
  CHECK(one.mean == 4.0);
  CHECK_FALSE(one.has_spread());
  for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity()}) {
    CHECK_THROWS_AS(summarise(std::vector{1.0, bad}), InputError);
    CHECK_THROWS_AS(median(std::vector{1.0, bad}), InputError);
  }
}

TEST_CASE("covariance and correlation of a hand-worked sample", "[stats]") {
  const std::vector<double> x{1, 2, 3, 4}, y{2, 4, 6, 9};  // sum of products of deviations 11.5, of squares 5 and 26.75
  CHECK(std::abs(covariance(x, y) - 11.5 / 3.0) < 1e-14);  // rounding
  CHECK(std::abs(*correlation(x, y) - 11.5 / std::sqrt(5.0 * 26.75)) < 1e-14);
  CHECK(*correlation(x, x) == 1.0);
  CHECK(*correlation(x, std::vector{-1.0, -2.0, -3.0, -4.0}) == -1.0);
  CHECK_FALSE(correlation(x, std::vector{5.0, 5.0, 5.0, 5.0}).has_value());
  CHECK_THROWS_AS(covariance(x, std::vector{1.0}), InputError);
  CHECK_THROWS_AS(covariance(std::vector{1.0}, std::vector{1.0}), InputError);
}

TEST_CASE("correlation does not feel a large common shift", "[stats]") {
  std::vector<double> x{1, 2, 3, 4}, y{2, 4, 6, 9};
  const double before = *correlation(x, y);
  for (double& v : x) v += 1e9;
  for (double& v : y) v -= 3e8;
  CHECK(std::abs(*correlation(x, y) - before) < 1e-14);  // integers of this size are exact
}

TEST_CASE("quantiles, median and robust standard deviation", "[stats]") {
  const std::vector<double> sample{7, 1, 3, 5};
  CHECK(median(sample) == 4.0);
  CHECK(quantile(sample, 0.0) == 1.0);
  CHECK(quantile(sample, 1.0) == 7.0);
  CHECK(quantile(sample, 0.25) == 2.5);
  CHECK(std::abs(robust_sd(sample) - 2.0 / 0.6744897501960817) < 1e-12);  // deviations 3 3 1 1
  CHECK_THROWS_AS(quantile({}, 0.5), InputError);
  CHECK_THROWS_AS(quantile(sample, 1.1), InputError);
}

TEST_CASE("outliers stand out and nothing else does", "[stats]") {
  std::vector<double> sample{10, 11, 9, 10.5, 9.5, 10.2, 9.8, 10.1, 30};
  auto marks = outliers(sample);
  CHECK(std::count(marks.begin(), marks.end(), true) == 1);
  CHECK(marks.back());
  // Two wild values do not hide each other, as they would behind a mean and standard deviation.
  sample.push_back(31);
  marks = outliers(sample);
  CHECK(std::count(marks.begin(), marks.end(), true) == 2);
  sample.resize(kLeastForOutliers - 1);
  sample.back() = 1e6;
  marks = outliers(sample);
  CHECK(std::count(marks.begin(), marks.end(), true) == 0);
}

TEST_CASE("outliers among values most of which are equal", "[stats]") {
  const auto marks = outliers(std::vector<double>{5, 5, 5, 5, 5, 5, 5, 5, 5, 9});
  CHECK(std::count(marks.begin(), marks.end(), true) == 1);
  CHECK(marks.back());
  const auto none = outliers(std::vector<double>(10, 5.0));
  CHECK(std::count(none.begin(), none.end(), true) == 0);
}

TEST_CASE("honest normal values are marked as rarely as the header says", "[stats]") {
  std::mt19937_64 random(7);
  std::normal_distribution<double> normal;
  int marked = 0, all = 0;
  for (int round = 0; round < 4000; ++round) {
    std::vector<double> sample(20);
    for (double& x : sample) x = normal(random);
    const auto marks = outliers(sample);
    marked += static_cast<int>(std::count(marks.begin(), marks.end(), true));
    all += 20;
  }
  const double share = static_cast<double>(marked) / all;
  INFO("share " << share);
  CHECK(std::abs(share - 0.0067) < 0.0015);  // 4 standard errors of 80 000 values, some of them dependent
}

TEST_CASE("among mostly equal values the mean deviation is the scale", "[stats]") {
  // k of n values d away: scale = (k / n) d / sqrt(2 / pi). With 3.5 scales they are marked while k / n < sqrt(2 / pi)
  // / 3.5 = 0.22797.
  const auto marked = [](std::size_t away, std::size_t all) {
    std::vector<double> sample(all, 5.0);
    for (std::size_t i = 0; i < away; ++i) sample[i] = i % 2 == 0 ? 9.0 : 1.0;
    const auto marks = outliers(sample);
    return static_cast<std::size_t>(std::count(marks.begin(), marks.end(), true));
  };
  CHECK(marked(5, 22) == 5);  // 0.2273
  CHECK(marked(3, 13) == 0);  // 0.2308
}

TEST_CASE("huge values have a mean, and a sample's rounding does not make it vary", "[stats]") {
  CHECK(summarise(std::vector<double>(4, 1.7e308)).mean == Approx(1.7e308));
  CHECK(summarise(std::vector<double>(10, 0.1)).sd == 0.0);
}

TEST_CASE("a share outside 0 to 1 is refused by name", "[stats]") {
  const std::vector<double> sample{1.0, 2.0};
  CHECK_THROWS_WITH(quantile(sample, -0.5), "share is -0.5; allowed: 0 to 1");
  CHECK_THROWS_WITH(quantile(sample, 1.05), "share is 1.05; allowed: 0 to 1");
}

TEST_CASE("a scatter is right where no double holds the mean", "[stats]") {
  // The mean, 1e15 + 2/3, is rounded to eighths; squares about it would be 0.8 % too large. Of 0, 1, 1: variance 1/3.
  const std::vector<double> sample{1e15, 1e15 + 1.0, 1e15 + 1.0};
  CHECK(summarise(sample).sd == Approx(std::sqrt(1.0 / 3.0)).epsilon(1e-12));
}
