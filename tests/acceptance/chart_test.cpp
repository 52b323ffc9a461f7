// The loft table, held against advise, against brute force and against common practice.
#include "loftwright/advise/chart.hpp"

#include <algorithm>
#include <atomic>
#include <catch2/catch.hpp>
#include <cmath>

#include "best_loft.hpp"
#include "core/traps.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

ChartAxes usual_axes() {
  ChartAxes axes;
  for (int mph = 60; mph <= 120; mph += 5) axes.club_speeds.push_back(mph * kMph);
  for (int deg = -6; deg <= 6; ++deg) axes.attacks.push_back(deg * kDeg);
  return axes;
}

// The player a cell stands for, as advise would be asked about him.
Pupil player_of(const ChartCell& cell, const Pupil& like, const Interval& loft) {
  Pupil p = like;
  p.club_loft = 12.0 * kDeg;
  p.delivery = {cell.club_speed, cell.attack, 0.0, 0.0, 12.0 * kDeg, 0.0, 0.0};
  p.lofts = {{loft.low, loft.high, 12.0 * kDeg, 0.0, true}};
  p.reach.attack = {cell.attack, cell.attack};
  p.spread = Spread{};
  return p;
}

}  // namespace

TEST_CASE("every cell of the chart is advise's loft only", "[chart]") {
  const Setting setting = default_setting();
  AdviseOptions options;
  options.draws = 0;
  for (const Goal goal : {Goal::carry, Goal::total}) {
    Pupil like;
    like.goal = goal;
    if (goal == Goal::total) like.limits = {{Limited::spin, {0.0, 2600.0 * kRpm}}, {Limited::apex, {15.0, 1e9}}};
    const Chart table = chart(like, setting, usual_axes(), options);
    REQUIRE(table.cells.size() == 169);
    int infeasible = 0;
    for (const ChartCell& cell : table.cells) {
      const Advice advice = advise(player_of(cell, like, table.axes.loft), setting, options);
      const Strategy& loft_only = advice.at(StrategyKind::loft_only);
      INFO(cell.club_speed / kMph << " mph, " << cell.attack / kDeg << " deg: chart " << cell.loft / kDeg
                                  << " deg, advise " << loft_only.loft / kDeg << " deg");
      CHECK(cell.feasible == loft_only.feasible);
      if (!cell.feasible) {
        ++infeasible;
        CHECK(cell.must_give == loft_only.must_give.front().quantity);
        continue;
      }
      // Each is found to a centimetre; the loft of a flat top, or of a kink in the run, only as well as that allows.
      const double goal_here = goal == Goal::carry ? cell.drive.flight.carry : cell.drive.total;
      CHECK(std::abs(goal_here - loft_only.goal) < 0.01);
      CHECK(std::abs(cell.loft - loft_only.loft) < 0.2 * kDeg);
      const double from_end = std::min(cell.loft - table.axes.loft.low, table.axes.loft.high - cell.loft);
      if (from_end > 0.01 * kDeg) CHECK_FALSE(cell.at_loft_end);  // a limit may hold it there, the end does not
    }
    CHECK((goal == Goal::carry ? infeasible == 0 : infeasible > 0));
    // A look, two climbs and a check; where no loft meets the limits, what must give is looked for from several places.
    CHECK(table.flights <=
          (goal == Goal::carry ? 2000 : 4000) * 169);  // nearly all in lanes, for the lofts within 2 yd on average
  }
}

TEST_CASE("the chart's lofts are those of a golden-section search", "[chart]") {
  const Setting setting = default_setting();
  const Chart table = chart(Pupil{}, setting, usual_axes());
  for (std::size_t i = 0; i < 13; i += 3) {
    for (std::size_t j = 0; j < 13; j += 4) {
      const ChartCell& cell = table.at(i, j);
      const double best =
          best_loft(60.0 + 5.0 * static_cast<double>(j), -6.0 + static_cast<double>(i), setting, carry_of);
      INFO(cell.club_speed / kMph << " mph, " << cell.attack / kDeg << " deg");
      CHECK(std::abs(cell.loft / kDeg - best) <
            0.05);  // the search stops at 0.01 deg; millimetres of flight round the top
    }
  }
}

TEST_CASE("slower swings and downward blows want more loft, and total wants less", "[chart]") {  // common practice
  const Setting setting = default_setting();
  Pupil for_total;
  for_total.goal = Goal::total;
  const Chart carry = chart(Pupil{}, setting, usual_axes()), total = chart(for_total, setting, usual_axes());
  for (std::size_t i = 0; i < 13; ++i) {
    for (std::size_t j = 0; j < 13; ++j) {
      INFO(-6 + static_cast<int>(i) << " deg, " << 60 + 5 * static_cast<int>(j) << " mph");
      if (j > 0) {
        CHECK(carry.at(i, j).loft < carry.at(i, j - 1).loft);
        CHECK(carry.at(i, j).drive.flight.carry > carry.at(i, j - 1).drive.flight.carry);
      }
      if (i > 0) CHECK(carry.at(i, j).drive.flight.carry > carry.at(i - 1, j).drive.flight.carry);
      CHECK(total.at(i, j).loft < carry.at(i, j).loft);
    }
  }
}

TEST_CASE("the chart is the same for any number of threads, and tells of its progress", "[chart]") {
  const Setting setting = default_setting();
  ChartAxes axes;
  axes.club_speeds = {30.0, 40.0, 50.0};
  axes.attacks = {-2.0 * kDeg, 3.0 * kDeg};
  AdviseOptions alone, shared;
  shared.threads = 4;
  std::atomic<std::size_t> told = 0, most = 0;
  const Chart a = chart(Pupil{}, setting, axes, alone);
  const Chart b = chart(Pupil{}, setting, axes, shared, [&](std::size_t done) {
    ++told;
    for (std::size_t seen = most; done > seen && !most.compare_exchange_weak(seen, done);) {
    }
  });
  for (std::size_t i = 0; i < a.cells.size(); ++i) {
    CHECK(a.cells[i].loft == b.cells[i].loft);
    CHECK(a.cells[i].drive.total == b.cells[i].drive.total);
  }
  CHECK(a.flights == b.flights);
  CHECK(told == 6);
  CHECK(most == 6);
}

TEST_CASE("a loft held by what is allowed says so", "[chart]") {
  ChartAxes axes;
  axes.club_speeds = {35.0};
  axes.attacks = {0.0};
  axes.loft = {8.0 * kDeg, 10.0 * kDeg};
  const ChartCell cell = chart(Pupil{}, default_setting(), axes).cells[0];
  CHECK(cell.at_loft_end);
  CHECK(std::abs(cell.loft - 10.0 * kDeg) < 1e-9);
  axes = {.club_speeds = {60.0}, .attacks = {5.0 * kDeg}, .loft = {20.0 * kDeg, 24.0 * kDeg}};
  const ChartCell lowest = chart(Pupil{}, default_setting(), axes).cells[0];
  CHECK(lowest.at_loft_end);
  CHECK(std::abs(lowest.loft - 20.0 * kDeg) < 1e-9);
}

TEST_CASE("axes out of range are refused by name", "[chart]") {
  const WithoutTraps here;
  const Setting setting = default_setting();
  ChartAxes good;
  good.club_speeds = {30.0, 40.0};
  good.attacks = {0.0};
  const auto refused = [&](auto&& spoil, const std::string& word) {
    ChartAxes axes = good;
    spoil(axes);
    CHECK_THROWS_WITH(chart(Pupil{}, setting, axes), Catch::Matchers::Contains(word));
  };
  refused([](ChartAxes& a) { a.club_speeds.clear(); }, "no club speed");
  refused([](ChartAxes& a) { a.club_speeds = {40.0, 30.0}; }, "club speed must be above");
  refused([](ChartAxes& a) { a.club_speeds = {5.0}; }, "club speed");
  refused([](ChartAxes& a) { a.attacks = {std::nan("")}; }, "attack");
  refused([](ChartAxes& a) { a.loft = {12.0 * kDeg, 40.0 * kDeg}; }, "most loft");
  refused(
      [](ChartAxes& a) {
        a.club_speeds = axis("speed", 10.0, 60.0, 0.5);
        a.attacks = axis("attack", -0.2, 0.2, 0.004);
      },
      "cells");
}

TEST_CASE("an axis has both its ends", "[chart]") {
  CHECK(axis("speed", 60.0, 120.0, 5.0).size() == 13);
  CHECK(axis("speed", 60.0, 120.0, 5.0).back() == 120.0);
  CHECK(axis("speed", 60.0 * kMph, 120.0 * kMph, 0.6 * kMph).size() ==
        101);  // a hundred steps, whatever rounding makes of them
  CHECK(axis("speed", 60.0, 60.0, 5.0) == std::vector<double>{60.0});
  CHECK_THROWS_WITH(axis("speed", 60.0, 121.0, 5.0), Catch::Matchers::Contains("do not end"));
  CHECK_THROWS_WITH(axis("speed", 60.0, 50.0, 5.0), Catch::Matchers::Contains("before"));
  CHECK_THROWS_WITH(axis("speed", 60.0, 120.0, 0.0), Catch::Matchers::Contains("steps"));
  CHECK_THROWS_WITH(axis("speed", 60.0, 120.0, 0.1), Catch::Matchers::Contains("at most 100"));
}
