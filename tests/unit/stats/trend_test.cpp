#include "loftwright/stats/detail/trend.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <vector>

using namespace loftwright;

TEST_CASE("a trend has the certified values of the NIST StRD data set Norris", "[stats]") {
  // Linear regression, lower difficulty; data and certified values from memory. That 36 remembered points give
  // remembered values to twelve digits proves both.
  const std::vector<double> x{0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                              0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                              0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
  const std::vector<double> y{0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                              0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                              0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
  const Trend t = trend(x, y).value();
  const auto close = [](double got, double certified) {
    INFO(got << " and certified " << certified);
    CHECK(std::abs(got / certified - 1.0) < 1e-12);  // rounding through sums of 36 products
  };
  CHECK(t.count == 36);
  close(t.slope, 1.00211681802045);
  close(t.residual_sd, 0.884796396144373);
  close(t.standard_error, 0.429796848199937e-3);
  // A difference of numbers a thousand times larger: three digits less.
  CHECK(std::abs(t.intercepts.front() - -0.262323073774029) < 1e-12 * 500.0);
}

TEST_CASE("a trend through points on a line finds it, with no doubt", "[stats]") {
  const std::vector<double> x{1, 2, 3, 4}, y{5, 7, 9, 11};
  const Trend t = trend(x, y).value();
  CHECK(t.slope == 2.0);
  CHECK(t.intercepts.front() == 3.0);
  CHECK(t.standard_error == 0.0);
  CHECK(t.low == 2.0);
  CHECK(t.high == 2.0);
}

TEST_CASE("two points have a slope and nothing is known of its doubt", "[stats]") {
  const std::vector<double> x{1, 2}, y{5, 8};
  const Trend t = trend(x, y).value();
  CHECK(t.slope == 3.0);
  CHECK_FALSE(t.has_doubt());
  CHECK(t.standard_error == 0.0);
}

TEST_CASE("no trend where there is none to be had, and errors for what cannot be", "[stats]") {
  const std::vector<double> none, one{1}, same{2, 2, 2}, three{1, 2, 3};
  const std::vector<double> bad{1, std::numeric_limits<double>::quiet_NaN(), 3};
  CHECK_FALSE(trend(none, none));
  CHECK_FALSE(trend(one, one));
  CHECK_FALSE(trend(same, three));
  CHECK(trend(three, same).value().slope == 0.0);
  CHECK_THROWS_AS(trend(three, one), InputError);
  CHECK_THROWS_AS(trend(three, bad), InputError);
  CHECK_THROWS_AS(trend(bad, three), InputError);
  CHECK_THROWS_AS(trend(three, three, 0.3), InputError);
  CHECK_THROWS_AS(trend(three, three, 1.0), InputError);
}

TEST_CASE("a trend's interval is as wide as Student's t says", "[stats]") {
  // Four points about y = x, residuals 1 -1 -1 1: sum of squares 4, two degrees of freedom; x squares 5. t from a
  // table, 2 degrees of freedom: 4.302653 at 95 %, 1.885618 at 80 %.
  const std::vector<double> x{1, 2, 3, 4}, y{2, 1, 2, 5};
  const Trend t = trend(x, y).value(), narrow = trend(x, y, 0.8).value();
  CHECK(t.slope == Approx(1.0));
  CHECK(t.intercepts.front() == Approx(0.0).margin(1e-12));
  CHECK(t.residual_sd == Approx(std::sqrt(2.0)));
  CHECK(t.standard_error == Approx(std::sqrt(2.0 / 5.0)));
  CHECK(t.low == Approx(1.0 - 4.302653 * std::sqrt(2.0 / 5.0)).margin(1e-6));
  CHECK(t.high == Approx(1.0 + 4.302653 * std::sqrt(2.0 / 5.0)).margin(1e-6));
  CHECK(narrow.high == Approx(1.0 + 1.885618 * std::sqrt(2.0 / 5.0)).margin(1e-6));
  CHECK(trend(std::vector{1.0, 1.2, 1.4}, std::vector{1.0, 2.0, 2.0}));  // all within a unit of x
  CHECK_THROWS_WITH(trend(x, y, 0.45), "confidence is 0.45; allowed: 0.5 to 0.9999");
  CHECK_THROWS_WITH(trend(x, y, 0.99995), "confidence is 0.99995; allowed: 0.5 to 0.9999");
}

TEST_CASE("points in groups have one slope and a line for each group", "[stats]") {
  // Two groups on lines of slope 2, ten apart: all in one group the step between them would pass for a slope.
  const std::vector<double> x{1, 2, 3, 4, 5}, y{1, 3, 15, 17, 19};
  const std::vector<std::size_t> group{0, 0, 1, 1, 1};
  const Trend t = trend(x, y, group).value();
  CHECK(t.slope == Approx(2.0));
  CHECK(t.intercepts == std::vector<double>{-1.0, 9.0});
  CHECK(t.freedom == 2);
  CHECK(t.residual_sd == Approx(0.0).margin(1e-12));
  CHECK(trend(x, y).value().slope > 4.0);
  // By hand: deviations within the groups (-0.5 0.5; -1 0 1), of y (-1 1; -1 -1 2): sxx 2.5, sxy 4, slope 1.6;
  // residuals -0.2 0.2 0.6 -1 0.4, their squares sum to 1.6, two degrees of freedom; Student's t from a table 4.302653.
  const Trend u = trend(x, std::vector<double>{0, 2, 5, 5, 8}, group).value();
  CHECK(u.slope == Approx(1.6));
  CHECK(u.residual_sd == Approx(std::sqrt(0.8)));
  CHECK(u.standard_error == Approx(std::sqrt(0.8 / 2.5)));
  CHECK(u.high - u.slope == Approx(4.302653 * std::sqrt(0.32)).margin(1e-6));
  // A group of one tells nothing of the slope; nor do groups of one alone.
  const Trend v =
      trend(std::vector<double>{1, 2, 3}, std::vector<double>{1, 3, 50}, std::vector<std::size_t>{0, 0, 1}).value();
  CHECK(v.slope == Approx(2.0));
  CHECK_FALSE(v.has_doubt());
  CHECK_FALSE(trend(std::vector<double>{1, 2}, std::vector<double>{1, 3}, std::vector<std::size_t>{0, 1}));
}
