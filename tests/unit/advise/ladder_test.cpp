// A lesson ladder: every step is what the arc, the impact and the flight give for it, and the signs are what the
// pupil's scatter makes of them.
#include "loftwright/advise/ladder.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "advise/scatter.hpp"
#include "answers.hpp"
#include "core/traps.hpp"
#include "loftwright/swing/technique.hpp"
#include "pupils.hpp"
#include "stats/quasi.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const Setting& course() {
  static const Setting setting = default_setting();
  return setting;
}

// The share of normal deviates above `z`.
double above(double z) { return 0.5 * std::erfc(z / std::sqrt(2.0)); }

// A verdict of our choosing, where the pupil's own is another: the ladder goes where it says.
void choose(Advice& advice, Lever lever, std::optional<Lever> first = {}) {
  advice.verdict.lever = lever;
  advice.verdict.leader = lever == Lever::either ? Lever::technique : lever;
  advice.verdict.first_step = first;
}

std::vector<const LadderStep*> all_of(const Ladder& ladder) {
  std::vector<const LadderStep*> out{&ladder.now};
  for (const LadderStep& s : ladder.steps) out.push_back(&s);
  return out;
}

void check_arc(const Pupil& pupil, const Ladder& ladder, const LadderStep& s) {
  REQUIRE(s.set_up);
  const double mirror = pupil.handed == Handed::left ? -1.0 : 1.0;
  const ArcAtBall at =
      at_ball({s.set_up->low_point, pupil.arc.plane, pupil.arc.radius, mirror * s.set_up->swing_direction});
  CHECK(std::abs(at.attack - s.delivery.attack) < 1e-12);
  CHECK(std::abs(mirror * at.path - pupil.delivery.path) < 1e-12);
  CHECK(std::abs(s.set_up->ball_forward - (ladder.now.set_up->low_point - s.set_up->low_point)) < 1e-12);
}

void check_strike(const Pupil& pupil, const LadderStep& s, double face) {
  const double change = s.delivery.attack - pupil.delivery.attack,
               added = pupil.delivery.dynamic_loft - pupil.club_loft;
  CHECK(std::abs(s.delivery.dynamic_loft - (s.club_loft + added + pupil.reach.follow * change)) < 1e-12);
  CHECK(std::abs(s.delivery.club_speed - (pupil.delivery.club_speed + pupil.reach.speed_per_attack * change)) < 1e-12);
  CHECK(s.delivery.path == pupil.delivery.path);
  CHECK(s.delivery.face == Approx(face).margin(1e-12));
  CHECK(s.delivery.toe == pupil.delivery.toe);
  CHECK(s.delivery.high == pupil.delivery.high);
  const Drive drive = drive_from(s.delivery, pupil.handed, course(), kTightFlightTolerance);
  CHECK(s.drive.launch.launch == drive.launch.launch);
  CHECK(s.drive.launch.spin == drive.launch.spin);
  CHECK(s.drive.flight.carry == drive.flight.carry);
  CHECK(s.drive.total == drive.total);
}

void check_average(const AverageDrive& a, const AverageDrive& b) {
  CHECK(a.carry == b.carry);
  CHECK(a.total == b.total);
  CHECK(a.side == b.side);
  CHECK(a.fairway_share == b.fairway_share);
}

void check_ends(const Ladder& ladder, const Strategy& now, const Strategy& target) {
  const LadderStep& last = ladder.steps.back();
  CHECK(last.delivery.attack == target.attack);
  CHECK(last.club_loft == target.loft);
  CHECK(last.drive.flight.carry == target.drive.flight.carry);
  CHECK(last.broken.empty());
  CHECK(last.gain == Approx(target.gain).margin(1e-12));
  check_average(ladder.now.average, now.average);
  check_average(last.average, target.average);
}

}  // namespace

TEST_CASE("each step of a ladder is what arc and strike say, and the last is the verdict's target") {
  std::mt19937 random(20261126);
  int ladders = 0, left = 0, own_verdict = 0;
  for (int i = 0; i < 100; ++i) {
    const Pupil pupil = random_pupil(random);
    Advice advice = advise(pupil, course(), without_confidence());
    const bool has_own = advice.verdict.lever != Lever::leave && advice.verdict.lever != Lever::loft;
    if (!has_own) choose(advice, Lever::technique);
    const bool both = advice.verdict.lever == Lever::both;
    const Strategy &now = advice.at(StrategyKind::as_is),
                   &target = advice.at(both ? StrategyKind::both : StrategyKind::technique_only);
    if (std::abs(target.attack - now.attack) < 0.05 * kDeg) continue;
    INFO("pupil " << i << ", attack " << now.attack / kDeg << " to " << target.attack / kDeg << " deg");
    const Ladder ladder = lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence());
    REQUIRE_FALSE(ladder.steps.empty());
    ++ladders;
    left += pupil.handed == Handed::left;
    own_verdict += has_own;
    CHECK(std::abs(ladder.step) <= 1.5 * kDeg + 1e-12);
    const auto steps = all_of(ladder);
    for (std::size_t n = 0; n < steps.size(); ++n) {
      const LadderStep& s = *steps[n];
      check_arc(pupil, ladder, s);
      check_strike(pupil, s, s.club_loft == now.loft ? now.delivery.face : target.delivery.face);
      if (n == 0) continue;
      const double change = s.delivery.attack - steps[n - 1]->delivery.attack;
      CHECK(std::abs(change - (s.new_club ? 0.0 : ladder.step)) < 1e-12);
      CHECK(s.new_club == (s.club_loft != steps[n - 1]->club_loft));
    }
    check_ends(ladder, now, target);
  }
  CHECK(ladders > 60);
  CHECK(left > 5);
  CHECK(own_verdict > 20);
}

TEST_CASE("the averages of a ladder are those of the strategies, draws and all") {
  const Pupil pupil = plain_pupil();
  AdviseOptions options;
  options.draws = 1024;
  options.threads = 2;
  Advice advice = advise(pupil, course(), options);
  for (const Lever lever : {Lever::technique, Lever::both}) {
    choose(advice, lever, Lever::loft);
    const Ladder ladder = lesson_ladder(pupil, course(), advice, kLadderStep, options);
    check_ends(ladder, advice.at(StrategyKind::as_is),
               advice.at(lever == Lever::both ? StrategyKind::both : StrategyKind::technique_only));
  }
}

TEST_CASE("without draws the average of a step is that of drives of the pupil's scatter") {
  const Pupil pupil = plain_pupil();
  Advice advice = advise(pupil, course(), without_confidence());
  choose(advice, Lever::technique);
  const Ladder ladder = lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence());
  const Scatter scatter(pupil);
  const std::size_t count = 64;
  const std::vector<double> points = sobol_points(count, kSpreadQuantities, 1);
  for (const LadderStep& s : ladder.steps) {
    double carry = 0.0;
    for (std::size_t n = 0; n < count; ++n) {
      Scatter::Deviates z;
      for (std::size_t k = 0; k < z.size(); ++k) z[k] = normal_quantile(points[n * z.size() + k]);
      carry += drive_from(s.delivery + scatter.at(z), pupil.handed, course()).flight.carry / count;
    }
    CHECK(std::abs(s.average.carry - carry) < 0.02);  // a flight of an average is good to a centimetre
  }
}

TEST_CASE("the sign of a step: eight of ten drives, by the pupil's own scatter") {
  for (const double sd_deg : {0.4, 1.0, 1.5, 3.0}) {
    for (const double step_deg : {0.5, 1.5, 3.0}) {
      Pupil pupil = plain_pupil();
      pupil.spread = usual_spread(Skill::mid_handicap, pupil.delivery.club_speed);
      pupil.spread->attack = sd_deg * kDeg;
      Advice advice = advise(pupil, course(), without_confidence());
      choose(advice, Lever::technique);
      const Ladder ladder = lesson_ladder(pupil, course(), advice, step_deg * kDeg, without_confidence());
      INFO(sd_deg << " deg of scatter, steps of " << ladder.step / kDeg);
      CHECK(ladder.scatter == sd_deg * kDeg);
      CHECK_FALSE(ladder.scatter_is_usual);
      double before = ladder.now.delivery.attack;
      for (const LadderStep& s : ladder.steps) {
        CHECK(above((s.sign_attack - s.delivery.attack) / ladder.scatter) == Approx(0.8).epsilon(1e-9));
        // On the step before, by counting all ways that ten drives can lie.
        const double p = above((s.sign_attack - before) / ladder.scatter);
        double chance = 0.0;
        for (unsigned ways = 0; ways < 1024; ++ways) {
          const int shown = __builtin_popcount(ways);
          if (shown >= 8) chance += std::pow(p, shown) * std::pow(1.0 - p, 10 - shown);
        }
        CHECK(s.sign_by_chance == Approx(chance).margin(1e-12));
        // The fewest drives whose mean lies on the right side of the middle, 95 times in a hundred.
        int drives = 1;
        const double half = 0.5 * (s.delivery.attack - before);
        while (above(-half * std::sqrt(drives) / ladder.scatter) < 0.95) ++drives;
        REQUIRE(s.drives_to_tell);
        CHECK(*s.drives_to_tell == drives);
        before = s.delivery.attack;
      }
    }
  }
}

TEST_CASE("eight of ten of the drives that the program draws lie beyond the sign") {
  const Pupil pupil = plain_pupil();
  Advice advice = advise(pupil, course(), without_confidence());
  choose(advice, Lever::technique);
  const Ladder ladder = lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence());
  CHECK(ladder.scatter_is_usual);
  const Scatter scatter(pupil);
  const std::size_t count = 4096;
  const std::vector<double> points = sobol_points(count, kSpreadQuantities, 3);
  const LadderStep& s = ladder.steps.front();
  std::size_t beyond = 0;
  for (std::size_t n = 0; n < count; ++n) {
    Scatter::Deviates z;
    for (std::size_t k = 0; k < z.size(); ++k) z[k] = normal_quantile(points[n * z.size() + k]);
    beyond += (s.delivery + scatter.at(z)).attack > s.sign_attack;
  }
  CHECK(static_cast<double>(beyond) / count == Approx(0.8).margin(0.002));  // even points
}

TEST_CASE("a ladder downwards has its signs below") {
  Pupil pupil = plain_pupil();
  pupil.delivery.attack = 3 * kDeg;
  pupil.reach.attack = {-1 * kDeg, 3 * kDeg};
  Advice advice = advise(pupil, course(), without_confidence());
  choose(advice, Lever::technique);
  Strategy& target = advice.strategies[StrategyKind::technique_only];
  target = advice.at(StrategyKind::as_is);
  target.attack = 0.5 * kDeg;
  const Ladder ladder = lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence());
  REQUIRE(ladder.steps.size() == 2);
  CHECK(ladder.step == Approx(-1.25 * kDeg));
  CHECK(ladder.steps[0].sign_attack > ladder.steps[0].delivery.attack);
  CHECK(ladder.steps[0].set_up->ball_forward < 0.0);
}

TEST_CASE("with both, the driver changes in a step of its own, first or last as the verdict says") {
  const Pupil pupil = plain_pupil();
  Advice advice = advise(pupil, course(), without_confidence());
  const double loft_now = pupil.club_loft, loft_then = advice.at(StrategyKind::both).loft;
  REQUIRE(loft_now != loft_then);
  choose(advice, Lever::both, Lever::loft);
  const Ladder first = lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence());
  CHECK(first.steps[0].new_club);
  CHECK(first.steps[0].delivery.attack == pupil.delivery.attack);
  CHECK_FALSE(first.steps[0].drives_to_tell);
  for (const LadderStep& s : first.steps) CHECK(s.club_loft == loft_then);
  choose(advice, Lever::both, Lever::technique);
  const Ladder last = lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence());
  REQUIRE(last.steps.size() == first.steps.size());
  for (std::size_t i = 0; i + 1 < last.steps.size(); ++i) CHECK(last.steps[i].club_loft == loft_now);
  CHECK(last.steps.back().new_club);
  CHECK(last.steps.back().club_loft == loft_then);
  check_average(last.steps.back().average, first.steps.back().average);
  choose(advice, Lever::both);  // nothing alone gains: the driver first, as it is there at once
  CHECK(lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence()).steps[0].new_club);
}

TEST_CASE("limits passed on the way are named, and the last step passes none") {
  Pupil pupil = plain_pupil();
  pupil.limits.push_back({Limited::launch, {12.0 * kDeg, 30.0 * kDeg}});
  Advice advice = advise(pupil, course(), without_confidence());
  REQUIRE(advice.feasible);
  choose(advice, Lever::both, Lever::loft);
  const Ladder ladder = lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence());
  CHECK(ladder.now.broken == std::vector<Limited>{Limited::launch});
  for (const LadderStep& s : ladder.steps)
    CHECK(s.broken.empty() == (s.drive.launch.launch > 12.0 * kDeg * (1 - 1e-3)));
  CHECK(ladder.steps.back().broken.empty());
}

TEST_CASE("there is no ladder where no swing is to be changed") {
  const Pupil pupil = plain_pupil();
  Advice advice = advise(pupil, course(), without_confidence());
  for (const Lever lever : {Lever::leave, Lever::loft}) {
    choose(advice, lever);
    CHECK(lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence()).steps.empty());
  }
  choose(advice, Lever::either);
  CHECK_FALSE(lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence()).steps.empty());
  advice.feasible = false;
  const Ladder none = lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence());
  CHECK(none.steps.empty());
  CHECK_FALSE(none.feasible);
}

TEST_CASE("what the arc is not reckoned for has no set-up, and the step of a ladder its range") {
  Pupil pupil = plain_pupil();
  pupil.arc.plane = 20 * kDeg;
  pupil.reach.attack.high = 10 * kDeg;
  Advice advice = advise(pupil, course(), without_confidence());
  choose(advice, Lever::technique);
  Strategy& target = advice.strategies[StrategyKind::technique_only];
  target.attack = 10 * kDeg;
  const Ladder ladder = lesson_ladder(pupil, course(), advice, kMostLadderStep, without_confidence());
  CHECK(ladder.now.set_up);
  CHECK_FALSE(ladder.steps.back().set_up);  // a low point of more than 0.6 m
  CHECK_THROWS_WITH(lesson_ladder(pupil, course(), advice, 0.4 * kDeg), Catch::Contains("step of the ladder"));
  CHECK_THROWS_AS(lesson_ladder(pupil, course(), advice, 3.1 * kDeg), InputError);
  const WithoutTraps no_number;
  CHECK_THROWS_AS(lesson_ladder(pupil, course(), advice, std::nan("")), InputError);
}

TEST_CASE("a pupil without scatter reaches a step with every drive") {
  const Pupil pupil = steady_pupil();
  Advice advice = advise(pupil, course(), without_confidence());
  choose(advice, Lever::technique);
  const Ladder ladder = lesson_ladder(pupil, course(), advice, kLadderStep, without_confidence());
  for (const LadderStep& s : ladder.steps) {
    CHECK(s.sign_attack == s.delivery.attack);
    CHECK(s.drives_to_tell == 1);
    CHECK(s.sign_by_chance == 0.0);
  }
}
