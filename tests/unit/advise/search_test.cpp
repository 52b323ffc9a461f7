// The search, against a fine grid of drives: where it ends, which limit must give, and which clubs are tried again near by.
#include "advise/search.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <optional>

#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// Everything a model needs to outlive it.
struct Task {
  Pupil pupil;
  Setting setting = default_setting();
  AdviseOptions options;
  std::atomic<int> flights{0};
  DriveModel model() { return DriveModel(pupil, setting, options, flights); }
};

Point point(double goal, std::vector<double> excess) { return {0.0, 0.0, goal, {}, std::move(excess), {}}; }

}  // namespace

TEST_CASE("limits go before yards, and a hair over a limit is none", "[advise]") {
  CHECK(better(point(200, {}), point(199, {})));
  CHECK_FALSE(better(point(199, {}), point(199, {})));
  CHECK(better(point(100, {-1.0, 0.0009}), point(99, {-5.0, -5.0})));  // a thousandth of a scale is kept to
  CHECK_FALSE(better(point(100, {-1.0, 0.0011}), point(99, {-5.0, -5.0})));
  CHECK(better(point(99, {-5.0, -5.0}), point(100, {0.0011, -1.0})));
  CHECK(better(point(50, {0.5, 0.2}), point(100, {0.1, 0.6})));  // the least of the furthest passed
  CHECK_FALSE(better(point(100, {0.1, 0.6}), point(50, {0.5, 0.2})));
}

TEST_CASE("a limit is broken, or holds, from a thousandth of its scale on", "[advise]") {
  Task task;
  task.pupil = plain_pupil();
  task.pupil.limits = {{Limited::launch, {8 * kDeg, 12 * kDeg}}, {Limited::spin, {2000 * kRpm, 3000 * kRpm}}, {Limited::apex, {10.0, 30.0}}};
  const DriveModel model = task.model();
  const double scales[] = {kDeg, 100 * kRpm, 1.0};
  for (const double off : {-1.1e-3, -0.9e-3, 0.9e-3, 1.1e-3, 0.5}) {  // inside, in scales
    for (const bool upper : {false, true}) {
      Drive d;
      const auto inside = [&](std::size_t i) {
        const Interval& allowed = task.pupil.limits[i].allowed;
        return upper ? allowed.high - off * scales[i] : allowed.low + off * scales[i];
      };
      d.launch.launch = inside(0);
      d.launch.spin = inside(1);
      d.flight.apex = inside(2);
      const std::vector<LimitState> states = model.limit_states(task.pupil.delivery, d);
      REQUIRE(states.size() == 3);
      for (std::size_t i = 0; i < 3; ++i) {
        CAPTURE(i, off, upper);
        CHECK(states[i].value == inside(i));
        CHECK(states[i].slack == Approx(off * scales[i]).margin(1e-12));
        CHECK(states[i].broken == (off < -1e-3));
        CHECK(states[i].active == (std::abs(off) < 1e-3));
      }
    }
  }
}

TEST_CASE("an end counts how many of its scales it is passed by, whichever end it is", "[advise]") {
  Task task;
  task.pupil = plain_pupil();
  task.pupil.limits = {{Limited::launch, {8 * kDeg, 12 * kDeg}}, {Limited::spin, {2000 * kRpm, 3000 * kRpm}}, {Limited::carry, {150.0, 250.0}}};
  const DriveModel model = task.model();
  const LoftChoice club = task.pupil.lofts.front();
  for (const double attack : {-5 * kDeg, 4 * kDeg}) {
    const Point p = model.value(club, club.low, attack);
    const Drive drive = model.drive(model.delivery(club, club.low, attack), task.options.tolerance);
    REQUIRE(p.excess.size() == 6);
    const double values[] = {drive.launch.launch / kDeg, drive.launch.spin / (100 * kRpm), drive.flight.carry};
    const Interval bounds[] = {{8, 12}, {20, 30}, {150, 250}};
    for (std::size_t k = 0; k < 3; ++k) {
      CHECK(p.excess[2 * k] == Approx(bounds[k].low - values[k]).margin(1e-9));
      CHECK(p.excess[2 * k + 1] == Approx(values[k] - bounds[k].high).margin(1e-9));
    }
  }
}

TEST_CASE("the limit that must give is the one a fine grid says, and gives no more", "[advise]") {
  std::mt19937 random(61);
  int asked = 0, which[5] = {};  // ends: no spin and no height are two of them
  for (int i = 0; i < 40; ++i) {
    Task task;
    task.pupil = random_pupil(random);
    // They quarrel: a steep landing, little spin, a low apex.
    task.pupil.limits = {{Limited::landing_angle, {uniform(random, 36, 48) * kDeg}},
                         {Limited::spin, {0.0, uniform(random, 1200, 2600) * kRpm}},
                         {Limited::apex, {0.0, uniform(random, 10, 28)}}};
    const DriveModel model = task.model();
    const std::vector<LoftChoice> clubs = task.pupil.lofts;
    const Found found = search(model, {clubs, task.pupil.reach.attack}, task.options);
    // By a grid: for each limit, how little it gives where the others are kept.
    std::vector<std::optional<double>> least(model.ends().size());
    bool possible = false;
    for (int m = 0; m <= 60; ++m) {
      for (int n = 0; n <= 40; ++n) {
        const Point p = model.value(clubs[0], clubs[0].low + (clubs[0].high - clubs[0].low) * m / 60,
                                    task.pupil.reach.attack.low + (task.pupil.reach.attack.high - task.pupil.reach.attack.low) * n / 40);
        possible = possible || p.worst() <= kLimitSlack;
        for (std::size_t end = 0; end < least.size(); ++end) {
          bool others = true;
          for (std::size_t k = 0; k < least.size(); ++k) others = others && (k == end || p.excess[k] <= kLimitSlack);
          if (others && (!least[end] || p.excess[end] < *least[end])) least[end] = p.excess[end];
        }
      }
    }
    CAPTURE(i, found.point.loft / kDeg, found.point.attack / kDeg);
    if (possible) {
      CHECK(found.feasible());
      continue;
    }
    std::optional<std::size_t> gives;
    for (std::size_t end = 0; end < least.size(); ++end) {
      if (least[end] && (!gives || *least[end] < *least[*gives])) gives = end;
    }
    if (!gives) continue;  // more than one must give
    if (found.feasible()) continue;  // in between the grid's points
    ++asked;
    ++which[*gives];
    REQUIRE(found.must_give);
    CHECK(found.restart_change == 0.0);
    CAPTURE(*gives, *least[*gives], *found.must_give, found.point.excess[*found.must_give]);
    CHECK(found.point.excess[*found.must_give] <= *least[*gives] + 0.01);  // a hundredth of a degree, an rpm, a centimetre
    for (std::size_t k = 0; k < least.size(); ++k) {
      if (k != *found.must_give) CHECK(found.point.excess[k] <= 2.0 * kLimitSlack);
    }
  }
  CAPTURE(which[0], which[1], which[2], which[3], which[4]);
  CHECK(asked > 12);
}

TEST_CASE("of limits that cannot be kept even but for one, the furthest passed is named", "[advise]") {
  Task task;
  task.pupil = plain_pupil();
  task.pupil.limits = {{Limited::spin, {0.0, 500 * kRpm}}, {Limited::carry, {400.0}}, {Limited::apex, {0.0, 1.0}}};
  const DriveModel model = task.model();
  const Found found = search(model, {task.pupil.lofts, task.pupil.reach.attack}, task.options);
  REQUIRE(found.must_give);
  const auto& excess = found.point.excess;
  CHECK(*found.must_give == static_cast<std::size_t>(std::max_element(excess.begin(), excess.end()) - excess.begin()));
  const Found again = refine(model, {task.pupil.lofts, task.pupil.reach.attack}, found, task.options);
  REQUIRE(again.must_give);
  CHECK(*again.must_give == static_cast<std::size_t>(std::max_element(again.point.excess.begin(), again.point.excess.end()) - again.point.excess.begin()));
}

TEST_CASE("a search spends no more flights than it says", "[advise]") {
  Task task;
  task.pupil = plain_pupil();
  task.pupil.lofts = {loft_range(8, 20, 9.5)};
  const DriveModel model = task.model();
  const Interval held{task.pupil.delivery.attack, task.pupil.delivery.attack};
  // Nine looks along one line; two climbs and one from elsewhere, of at most 40 places each. A climb along a line takes eight
  // or nine, so a missing one shows.
  search(model, {task.pupil.lofts, held}, task.options);
  CHECK(task.flights >= 9 + 3 * 7);
  CHECK(task.flights <= 60);
  // Thirty-six looks over two, and the same.
  task.flights = 0;
  search(model, {task.pupil.lofts, task.pupil.reach.attack}, task.options);
  CHECK(task.flights >= 36 + 3 * 2);
  CHECK(task.flights <= 36 + 3 * 40);
  // Limits are read off the same flights. Where the run has a say its kinks need a search without slopes besides, of 60 places at most.
  const auto flights_with = [&](Goal goal, std::vector<Limit> limits) {
    Task other;
    other.pupil = task.pupil;
    other.pupil.goal = goal;
    other.pupil.limits = std::move(limits);
    search(other.model(), {other.pupil.lofts, held}, other.options);
    return other.flights.load();
  };
  const Limit apex{Limited::apex, {0.0, 1000.0}}, side{Limited::side, {-1000.0, 1000.0}};  // of no consequence
  const int plain = flights_with(Goal::carry, {});
  CHECK(flights_with(Goal::carry, {apex}) <= plain + 3);
  CHECK(flights_with(Goal::carry, {apex, side}) >= plain + 10);
  CHECK(flights_with(Goal::total, {}) >= plain + 10);
  CHECK(flights_with(Goal::total, {}) <= 9 + 3 * 40 + 60);
  // One place: one flight.
  task.flights = 0;
  const Found one = search(model, {{plain_pupil().lofts[2]}, held}, task.options);
  CHECK(task.flights == 1);
  CHECK(one.restart_change == 0.0);  // there is no elsewhere
}

TEST_CASE("near by, the club at hand and the nearest on either side are tried, and no other", "[advise]") {
  std::mt19937 random(12);
  int changed = 0;
  for (int i = 0; i < 60; ++i) {
    Task task;
    task.pupil = random_pupil(random);
    const double attack = task.pupil.delivery.attack;
    const Interval held{attack, attack};
    std::vector<LoftChoice> clubs;
    for (double loft = 7.0; loft < 19.0; loft += uniform(random, 0.2, 2.0)) clubs.push_back(loft_range(loft, loft, loft));
    std::shuffle(clubs.begin(), clubs.end(), random);
    const std::size_t from = static_cast<std::size_t>(i) % clubs.size();
    const DriveModel model = task.model();
    const auto goal = [&](const LoftChoice& c) { return model.value(c, c.low, attack).goal; };
    const Found stood{model.value(clubs[from], clubs[from].low, attack), clubs[from], 0.0, {}};
    const Found now = refine(model, {clubs, held}, stood, task.options);
    double best = goal(clubs[from]), below = -1.0, above = 100.0;
    for (const LoftChoice& c : clubs) {
      if (c.low < stood.point.loft) below = std::max(below, c.low);
      if (c.low > stood.point.loft) above = std::min(above, c.low);
    }
    for (const LoftChoice& c : clubs) {
      if (c.low == below || c.low == above) best = std::max(best, goal(c));
    }
    CAPTURE(i, stood.point.loft / kDeg, below / kDeg, above / kDeg, now.point.loft / kDeg);
    CHECK(now.point.goal == best);
    CHECK(now.club.low == now.point.loft);
    CHECK(now.feasible());
    changed += now.point.loft != stood.point.loft ? 1 : 0;
  }
  CHECK(changed > 30);
}

TEST_CASE("near by, a range is climbed from where one stood, whichever others are offered", "[advise]") {
  Task task;
  task.pupil = plain_pupil();
  const double attack = task.pupil.delivery.attack;
  const Interval held{attack, attack};
  const std::vector<LoftChoice> clubs{loft_range(6, 7, 9.5), loft_range(8, 11, 9.5), loft_range(12, 13, 9.5), loft_range(14, 22, 9.5)};
  const DriveModel model = task.model();
  const auto best_in = [&](const LoftChoice& c) { return search(model, {{c}, held}, task.options).point; };
  // From the second, the first and third are next; the longest stands in the fourth.
  const Found stood{model.value(clubs[1], 10 * kDeg, attack), clubs[1], 0.0, {}};
  const Found now = refine(model, {clubs, held}, stood, task.options);
  CHECK(now.point.goal == Approx(best_in(clubs[2]).goal).margin(1e-3));
  CHECK(now.club.low == clubs[2].low);
  const Found then = refine(model, {clubs, held}, now, task.options);
  CHECK(then.point.goal == Approx(best_in(clubs[3]).goal).margin(1e-3));
  CHECK(then.club.low == clubs[3].low);
}
