// The search, against a fine grid of drives: where it ends, what it pays, and which limits must give.
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

Found found(double goal, std::vector<double> excess, double price = 0.0) {
  return {{0.0, 0.0, goal, {}, std::move(excess), {}}, {}, price, 0.0, {}};
}

std::vector<Way> ways_of(const std::vector<LoftChoice>& clubs, const Interval& attack, double price = 0.0) {
  std::vector<Way> ways;
  for (const LoftChoice& club : clubs) ways.push_back({club, attack, price});
  return ways;
}

// Even places, both ends among them.
std::vector<DriveModel::Place> places_over(const LoftChoice& club, const Interval& attack, int lofts, int attacks) {
  std::vector<DriveModel::Place> places;
  for (int m = 0; m <= lofts; ++m) {
    for (int n = 0; n <= attacks; ++n) {
      places.push_back(
          {club.low + (club.high - club.low) * m / lofts, attack.low + (attack.high - attack.low) * n / attacks});
    }
  }
  return places;
}

}  // namespace

TEST_CASE("limits go before yards, a hair over a limit is none, and yards are counted less their price", "[advise]") {
  CHECK(better(found(200, {}), found(199, {})));
  CHECK_FALSE(better(found(199, {}), found(199, {})));
  CHECK(better(found(100, {-1.0, 0.0009}), found(99, {-5.0, -5.0})));  // a thousandth of a scale is kept to
  CHECK_FALSE(better(found(100, {-1.0, 0.0011}), found(99, {-5.0, -5.0})));
  CHECK(better(found(99, {-5.0, -5.0}), found(100, {0.0011, -1.0})));
  CHECK(better(found(50, {0.5, 0.2}), found(100, {0.1, 0.6})));  // the least of the furthest passed
  CHECK_FALSE(better(found(100, {0.1, 0.6}), found(50, {0.5, 0.2})));
  CHECK(better(found(200, {}, 1.0), found(201, {}, 2.5)));
  CHECK_FALSE(better(found(200, {}, 1.0), found(201, {}, 2.0)));
  CHECK(better(found(201, {}, 1.9), found(200, {}, 1.0)));
  CHECK(better(found(50, {0.5}, 9.0), found(100, {0.6}, 0.0)));  // no price buys off a limit
}

TEST_CASE("a limit is broken, or holds, from a thousandth of its scale on", "[advise]") {
  Task task;
  task.pupil = plain_pupil();
  task.pupil.limits = {{Limited::launch, {8 * kDeg, 12 * kDeg}},
                       {Limited::spin, {2000 * kRpm, 3000 * kRpm}},
                       {Limited::apex, {10.0, 30.0}}};
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
  task.pupil.limits = {{Limited::launch, {8 * kDeg, 12 * kDeg}},
                       {Limited::spin, {2000 * kRpm, 3000 * kRpm}},
                       {Limited::carry, {150.0, 250.0}}};
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

TEST_CASE("no place of a fine grid is longer under the limits", "[advise]") {
  std::mt19937 random(63);
  int narrow = 0;
  for (int i = 0; i < 48; ++i) {
    Task task;
    task.pupil = random_pupil(random);
    const LoftChoice club = task.pupil.lofts[0];
    if (i % 3 > 0) {  // about one drive among the many
      const DriveModel free = task.model();
      const double loft =
          uniform(random, 8, 17) * kDeg;  // one after the other: compilers differ in the order of arguments
      const double attack =
          uniform(random, task.pupil.reach.attack.low / kDeg, task.pupil.reach.attack.high / kDeg) * kDeg;
      const Drive drive = free.drive(free.delivery(club, loft, attack), task.options.tolerance);
      task.pupil.limits = {
          {Limited::side, {drive.side_at_rest - uniform(random, 0.2, 2), drive.side_at_rest + uniform(random, 0.2, 2)}},
          {Limited::apex, {0.0, drive.flight.apex + uniform(random, 0.2, 3)}}};
    }
    if (i % 3 == 2) task.pupil.spread = Spread{};
    task.options.shots = 16;  // what is averaged over is the model's; the same for both
    const DriveModel model = task.model();
    const Found best = search(model, ways_of({club}, task.pupil.reach.attack), task.options);
    int met = 0;
    double longest = 0.0;
    for (const Point& p : model.values(club, places_over(club, task.pupil.reach.attack, 44, 40))) {
      if (p.worst() > 0.0) continue;
      ++met;
      longest = std::max(longest, p.goal);
    }
    CAPTURE(i, met, longest, best.point.goal, best.point.loft / kDeg, best.point.attack / kDeg);
    if (met == 0) continue;
    narrow += met < 45 * 41 / 5;
    REQUIRE(best.feasible());
    CHECK(best.point.worst() <= kLimitSlack);
    CHECK(best.point.goal > longest - 0.02);  // a centimetre either way: the flights of draws
  }
  CHECK(narrow > 5);
}

TEST_CASE("a place that a coarse look misses is found", "[advise]") {
  Task task;
  Pupil& p = task.pupil;
  // A right-curving slice held between two lines under a low roof: a strip a degree wide and far from the longest
  // drive.
  p.delivery = {101 * kMph, -4 * kDeg, -8 * kDeg, -4 * kDeg, 15.5 * kDeg, -0.004, -0.006};
  p.club_loft = 15 * kDeg;
  p.lofts = {loft_range(7, 12, 15)};
  p.reach.attack = {-10 * kDeg, 3 * kDeg};
  p.reach.follow = 1.0;
  p.reach.speed_per_attack = -0.4 * kMph / kDeg;
  p.limits = {{Limited::side, {-4.0, -1.0}}, {Limited::apex, {0.0, 13.0}}};
  task.setting.turf = soft();
  const Found f = search(task.model(), ways_of(p.lofts, p.reach.attack), task.options);
  CAPTURE(f.point.loft / kDeg, f.point.attack / kDeg, f.point.worst());
  CHECK(f.feasible());
}

TEST_CASE("of ways the one with most left after its price is taken", "[advise]") {
  Task task;
  task.pupil = plain_pupil();
  task.pupil.spread = Spread{};
  const DriveModel model = task.model();
  const Interval held{task.pupil.delivery.attack, task.pupil.delivery.attack};
  const LoftChoice nine = task.pupil.lofts[0], twelve = task.pupil.lofts[3];
  const double more = model.value(twelve, twelve.low, held.low).goal - model.value(nine, nine.low, held.low).goal;
  REQUIRE(more > 1.0);
  const auto taken = [&](double of_nine, double of_twelve) {
    const std::vector<Way> ways{{nine, held, of_nine}, {twelve, held, of_twelve}};
    return search(model, ways, task.options);
  };
  CHECK(taken(1.0, 1.0).point.loft == twelve.low);
  CHECK(taken(1.0, 1.0 + more - 0.01).point.loft == twelve.low);
  CHECK(taken(1.0, 1.0 + more - 0.01).price == 1.0 + more - 0.01);
  CHECK(taken(1.0, 1.0 + more + 0.01).point.loft == nine.low);
  CHECK(taken(1.0, 1.0 + more + 0.01).net() == Approx(model.value(nine, nine.low, held.low).goal - 1.0));
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
    const Found found = search(model, ways_of(clubs, task.pupil.reach.attack), task.options);
    // By a grid: for each limit, how little it gives where the others are kept.
    std::vector<std::optional<double>> least(model.ends().size());
    bool possible = false;
    for (const Point& p : model.centred(clubs[0], places_over(clubs[0], task.pupil.reach.attack, 60, 40))) {
      possible = possible || p.worst() <= kLimitSlack;
      for (std::size_t end = 0; end < least.size(); ++end) {
        bool others = true;
        for (std::size_t k = 0; k < least.size(); ++k) others = others && (k == end || p.excess[k] <= kLimitSlack);
        if (others && (!least[end] || p.excess[end] < *least[end])) least[end] = p.excess[end];
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
    if (!gives) continue;            // more than one must give
    if (found.feasible()) continue;  // in between the grid's points
    ++asked;
    ++which[*gives];
    REQUIRE(found.must_give.size() == 1);
    CHECK(found.restart_change == 0.0);
    const std::size_t told = found.must_give.front();
    CAPTURE(*gives, *least[*gives], told, found.point.excess[told]);
    CHECK(found.point.excess[told] <= *least[*gives] + 0.01);  // a hundredth of a degree, an rpm, a centimetre
    for (std::size_t k = 0; k < least.size(); ++k) {
      if (k != told) CHECK(found.point.excess[k] <= 2.0 * kLimitSlack);
    }
  }
  CAPTURE(which[0], which[1], which[2], which[3], which[4]);
  CHECK(asked > 12);
}

TEST_CASE("of limits that cannot be kept even but for one, all that must give are named", "[advise]") {
  Task task;
  task.pupil = plain_pupil();
  task.pupil.limits = {{Limited::spin, {0.0, 500 * kRpm}},
                       {Limited::carry, {400.0}},
                       {Limited::apex, {0.0, 1.0}},
                       {Limited::launch, {-50 * kDeg, 50 * kDeg}}};
  const DriveModel model = task.model();
  const Found f = search(model, ways_of(task.pupil.lofts, task.pupil.reach.attack), task.options);
  REQUIRE(f.must_give.size() >= 2);
  for (std::size_t end = 0; end < model.ends().size(); ++end) {
    const bool named = std::ranges::count(f.must_give, end) == 1;
    CAPTURE(end, f.point.excess[end]);
    CHECK(named == (f.point.excess[end] > kLimitSlack));
    if (model.pupil().limits[model.ends()[end].limit].quantity == Limited::launch) CHECK_FALSE(named);
  }
  // The worst of them gives least: no place of a grid has a smaller.
  for (const LoftChoice& club : task.pupil.lofts) {
    for (const Point& p : model.centred(club, places_over(club, task.pupil.reach.attack, 1, 200)))
      CHECK(p.worst() > f.point.worst() - 0.01);
  }
}

TEST_CASE("when all that must give give what is said, the rest can be met", "[advise]") {
  std::mt19937 random(64);
  int alone = 0, together = 0;
  for (int i = 0; i < 60; ++i) {
    Task task;
    task.pupil = random_pupil(random);
    task.options.shots = 8;
    task.pupil.limits = {{Limited::landing_angle, {uniform(random, 36, 55) * kDeg}},
                         {Limited::spin, {0.0, uniform(random, 900, 2600) * kRpm}},
                         {Limited::apex, {0.0, uniform(random, 8, 28)}},
                         {Limited::carry, {uniform(random, 120, 260)}}};
    const Found before = search(task.model(), ways_of(task.pupil.lofts, task.pupil.reach.attack), task.options);
    if (before.feasible()) continue;
    const DriveModel model = task.model();
    (before.must_give.size() == 1 ? alone : together) += 1;
    Pupil given = task.pupil;
    for (const std::size_t end : before.must_give) {
      const DriveModel::End& e = model.ends()[end];
      Limit& limit = given.limits[e.limit];
      const double by = before.point.excess[end] * scale_of(limit.quantity);
      CHECK(by > 0.0);
      (e.upper ? limit.allowed.high : limit.allowed.low) += e.upper ? by : -by;
    }
    task.pupil = given;
    const Found after = search(task.model(), ways_of(task.pupil.lofts, task.pupil.reach.attack), task.options);
    CAPTURE(i, before.must_give.size(), before.point.loft / kDeg, before.point.attack / kDeg, after.point.worst());
    CHECK(after.feasible());
  }
  CAPTURE(alone, together);
  CHECK(alone > 5);
  CHECK(together > 5);
}

TEST_CASE("one place is one drive for its limits and one for each shot that is averaged", "[advise]") {
  Task task;
  task.pupil = plain_pupil();
  const Interval held{task.pupil.delivery.attack, task.pupil.delivery.attack};
  const Way way{task.pupil.lofts[2], held, 0.0};
  const auto spent = [&] {
    task.flights = 0;
    const Found one = search(task.model(), std::span(&way, 1), task.options);
    CHECK(one.restart_change == 0.0);  // there is no elsewhere
    CHECK(one.point.loft == way.club.low);
    return task.flights.load();
  };
  CHECK(spent() == 16 + 64);  // a rough look, then all shots
  task.pupil.spread = Spread{};
  CHECK(spent() == 2);
}
