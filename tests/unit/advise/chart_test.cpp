// The loft table: what it says of the ends of its lofts, and what it refuses. Its lofts are tested in acceptance.
#include "loftwright/advise/chart.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "best_loft.hpp"
#include "core/traps.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

ChartCell cell(double mph, double attack_deg, double low_deg, double high_deg, const Pupil& like = {}) {
  ChartAxes axes{
      .club_speeds = {mph * kMph}, .attacks = {attack_deg * kDeg}, .loft = {low_deg * kDeg, high_deg * kDeg}};
  return chart(like, default_setting(), axes).cells[0];
}

}  // namespace

TEST_CASE("a cell is held by an end just when the carry still grows beyond it", "[advise]") {
  for (const double mph : {70.0, 95.0}) {
    for (const double attack : {-3.0, 4.0}) {
      const double best = best_loft(mph, attack, default_setting(), carry_of);  // to 0.01 deg
      CAPTURE(mph, attack, best);
      // Whether a tenth of a degree more, or less, than an end would carry further: a carry falls either side of its
      // best.
      for (const double off : {-2.0, -0.1, -0.03, 0.03, 0.1, 2.0}) {
        CAPTURE(off);
        const ChartCell up_to = cell(mph, attack, 5.0, best + off), down_to = cell(mph, attack, best + off, 30.0);
        CHECK(up_to.at_loft_end == (off < 0.0));
        CHECK(down_to.at_loft_end == (off > 0.0));
        CHECK(up_to.loft / kDeg == Approx(std::min(best, best + off)).margin(0.02));
        CHECK(down_to.loft / kDeg == Approx(std::max(best, best + off)).margin(0.02));
      }
    }
  }
}

TEST_CASE("a limit inside the lofts holds a cell, its ends do not", "[advise]") {
  const ChartCell free = cell(80, 0, 5, 30);
  Pupil like;
  like.limits = {{Limited::spin, {0.0, 0.9 * free.drive.launch.spin}}};
  const ChartCell less = cell(80, 0, 5, 30, like);
  CHECK(less.feasible);
  CHECK(less.loft < free.loft - 0.5 * kDeg);
  CHECK_FALSE(less.at_loft_end);
  like.limits = {{Limited::spin, {1.1 * free.drive.launch.spin, 1e9}}};
  const ChartCell more = cell(80, 0, 5, 30, like);
  CHECK(more.loft > free.loft + 0.5 * kDeg);
  CHECK_FALSE(more.at_loft_end);
}

TEST_CASE("a cell is a square, centred strike", "[advise]") {
  const ChartCell c = cell(88, -2, 8, 20);
  const Drive same = centred(88, -2, c.loft / kDeg, default_setting());
  CHECK(c.drive.launch.azimuth == Approx(0.0).margin(1e-12));
  CHECK(c.drive.flight.side == Approx(0.0).margin(1e-9));
  CHECK(c.drive.flight.carry == Approx(same.flight.carry).margin(2e-3));
  CHECK(c.drive.launch.spin == Approx(same.launch.spin));
  CHECK(c.club_speed == 88 * kMph);
  CHECK(c.attack == -2 * kDeg);
}

TEST_CASE("a chart's axes are refused at either end of what is allowed", "[advise]") {
  const WithoutTraps here;
  const auto refused = [](const std::string& message, std::vector<double> speeds, std::vector<double> degrees,
                          double low = 4.0, double high = 30.0) {
    for (double& a : degrees) a *= kDeg;
    const ChartAxes axes{
        .club_speeds = std::move(speeds), .attacks = std::move(degrees), .loft = {low * kDeg, high * kDeg}};
    CHECK_THROWS_WITH(chart(Pupil{}, default_setting(), axes), message);
  };
  refused("chart: club speed is 8.5 m/s; allowed: 9 to 72 m/s", {8.5}, {0.0});
  refused("chart: club speed is 72.5 m/s; allowed: 9 to 72 m/s", {40.0, 72.5}, {0.0});
  refused("chart: attack is -20.5 deg; allowed: -20 to 20 deg", {40.0}, {-20.5});
  refused("chart: attack is 20.5 deg; allowed: -20 to 20 deg", {40.0}, {0.0, 20.5});
  refused("chart: least loft is 3.5 deg; allowed: 4 to 30 deg", {40.0}, {0.0}, 3.5);
  refused("chart: least loft is 30.5 deg; allowed: 4 to 30 deg", {40.0}, {0.0}, 30.5, 31.0);
  refused("chart: most loft is 30.5 deg; allowed: 5 to 30 deg", {40.0}, {0.0}, 5.0, 30.5);
  refused("chart: most loft is 9 deg; allowed: 10 to 30 deg", {40.0}, {0.0}, 10.0, 9.0);
  refused("chart: no attack given", {40.0}, {});
  refused("chart: each club speed must be above the one before", {40.0, 40.0}, {0.0});
  refused("chart: each attack must be above the one before", {40.0}, {-1.0, 1.0, 0.5});
}

TEST_CASE("the ends of what is allowed are charted, one loft too", "[advise]") {
  ChartAxes axes{
      .club_speeds = {9.0, 72.0}, .attacks = {-20.0 * kDeg, 20.0 * kDeg}, .loft = {10.0 * kDeg, 10.0 * kDeg}};
  const Chart c = chart(Pupil{}, default_setting(), axes);
  REQUIRE(c.cells.size() == 4);
  for (std::size_t i = 0; i < 2; ++i) {
    for (std::size_t j = 0; j < 2; ++j) {
      CHECK(c.at(i, j).loft == 10.0 * kDeg);
      CHECK(c.at(i, j).attack == axes.attacks[i]);
      CHECK(c.at(i, j).club_speed == axes.club_speeds[j]);
    }
  }
}

TEST_CASE("an axis counts its steps to a thousandth of one", "[advise]") {
  const std::vector<double> tenths = axis("x", 0.2, 0.9, 0.1);
  REQUIRE(tenths.size() == 8);
  for (std::size_t i = 0; i < tenths.size(); ++i) CHECK(tenths[i] == Approx(0.2 + 0.1 * static_cast<double>(i)));
  CHECK(tenths.front() == 0.2);
  CHECK(tenths.back() == 0.9);
  CHECK(axis("x", 0.0, 7.00095, 1.0).size() == 8);  // 0.00095 of a step too much
  CHECK_THROWS(axis("x", 0.0, 7.00105, 1.0));
  CHECK(axis("x", 0.0, 6.99905, 1.0).back() == 6.99905);
  CHECK_THROWS(axis("x", 0.0, 6.99895, 1.0));
  CHECK(axis("x", 0.0, 100.00095, 1.0).size() == 101);
  CHECK_THROWS_WITH(axis("x", 0.0, 100.00105, 1.0), Catch::Contains("at most 100 steps"));
  CHECK_THROWS_WITH(axis("x", 0.0, 101.0, 1.0), Catch::Contains("at most 100 steps"));
  CHECK(axis("x", 5.0, 5.0, 0.5) == std::vector{5.0});
  CHECK_THROWS_WITH(axis("x", 5.0, 6.0, -0.5), Catch::Contains("steps are possible"));
}
