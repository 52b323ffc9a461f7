// The main job, held against brute force and against what it promises of itself.
#include "loftwright/advise/advise.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "loftwright/core/traps.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

double limited(Limited quantity, const Delivery& d, const Drive& drive) {
  switch (quantity) {
    case Limited::spin_loft: return drive.spin_loft;
    case Limited::launch: return drive.launch.launch;
    case Limited::spin: return drive.launch.spin;
    case Limited::apex: return drive.flight.apex;
    case Limited::landing_angle: return drive.flight.landing_angle;
    case Limited::side: return drive.side_at_rest;
    case Limited::carry: return drive.flight.carry;
    case Limited::face_to_path: return d.face - d.path;
  }
  return 0.0;
}

// The same drive, reckoned without anything of advise's own machinery.
struct GridBest {
  double goal = -std::numeric_limits<double>::infinity();
  double loft = 0.0, attack = 0.0;
};
GridBest brute_force(const Pupil& pupil, const Setting& setting, int lofts, int attacks) {
  GridBest best;
  const double low = pupil.lofts[0].low, high = pupil.lofts[0].high;
  for (int i = 0; i < lofts; ++i) {
    for (int j = 0; j < attacks; ++j) {
      const double loft = low + (high - low) * i / (lofts - 1);
      const double attack = pupil.reach.attack.low + (pupil.reach.attack.high - pupil.reach.attack.low) * j / (attacks - 1);
      const double change = attack - pupil.delivery.attack;
      Delivery d = pupil.delivery;
      d.attack = attack;
      d.club_speed += pupil.reach.speed_per_attack * change;
      d.dynamic_loft += loft - pupil.club_loft + pupil.reach.follow * change;
      const Drive drive = drive_from(d, pupil.handed, setting);
      bool allowed = true;
      for (const Limit& limit : pupil.limits) {
        const double value = limited(limit.quantity, d, drive);
        allowed = allowed && value >= limit.allowed.low && value <= limit.allowed.high;
      }
      const double goal = pupil.goal == Goal::carry ? drive.flight.carry : drive.total;
      if (allowed && goal > best.goal) best = {goal, loft, attack};
    }
  }
  return best;
}

}  // namespace

TEST_CASE("no point of a fine grid beats the optimiser by 5 cm", "[advise]") {
  std::mt19937 random(20261125);
  const Setting setting = default_setting();
  int limited_pupils = 0, infeasible = 0, most_flights = 0;
  double worst = -1.0, worst_restart = 0.0;
  for (int i = 0; i < 50; ++i) {
    Pupil pupil = random_pupil(random);
    pupil.goal = i % 2 == 0 ? Goal::carry : Goal::total;
    if (i % 3 != 0) {
      pupil.limits = {{Limited::spin, {uniform(random, 1500, 2200) * kRpm, uniform(random, 2400, 3400) * kRpm}},
                      {Limited::landing_angle, {uniform(random, 15, 33) * kDeg}}};
      if (i % 3 == 2) pupil.limits.push_back({Limited::apex, {0.0, uniform(random, 18, 30)}});
      ++limited_pupils;
    }
    const Advice advice = advise(pupil, setting, without_confidence());
    const Strategy& both = advice.at(StrategyKind::both);
    const GridBest grid = brute_force(pupil, setting, 89, 81);
    most_flights = std::max(most_flights, advice.strategy_flights);
    CAPTURE(i, pupil.delivery.club_speed / kMph, pupil.delivery.attack / kDeg, pupil.delivery.dynamic_loft / kDeg,
            pupil.club_loft / kDeg, both.loft / kDeg, both.attack / kDeg, grid.loft / kDeg, grid.attack / kDeg, both.goal,
            grid.goal);
    if (!advice.feasible) {
      // Then the grid must not know better.
      CHECK(grid.goal == -std::numeric_limits<double>::infinity());
      CHECK(both.must_give.has_value());
      ++infeasible;
      continue;
    }
    worst = std::max(worst, grid.goal - both.goal);
    worst_restart = std::max(worst_restart, both.verification.restart_change);
    CHECK(grid.goal - both.goal < 0.05);
    CHECK(std::abs(both.verification.tight_change) < 1e-3);  // optimised to the millimetre that flights are exact to
    CHECK(both.verification.restart_change < 0.05);
    for (const LimitState& limit : both.limits) CHECK_FALSE(limit.broken);
    // More freedom never costs yards.
    for (const auto kind : {StrategyKind::loft_only, StrategyKind::technique_only}) {
      if (advice.at(kind).feasible) CHECK(both.goal > advice.at(kind).goal - 0.05);
    }
  }
  CHECK(limited_pupils > 25);
  CHECK(infeasible < 25);
  CHECK(most_flights <= 2000);
  WARN("grid beats optimiser by at most " << worst << " m, restart by " << worst_restart << " m; " << infeasible
                                          << " of 50 infeasible; at most " << most_flights << " flights");
}

TEST_CASE("the plain pupil gains from both levers, carry and total", "[advise]") {
  for (const Goal goal : {Goal::carry, Goal::total}) {
    Pupil pupil = plain_pupil();
    pupil.goal = goal;
    const Advice a = advise(pupil, default_setting(), without_confidence());
    CHECK(a.feasible);
    CHECK(a.at(StrategyKind::as_is).gain == 0.0);
    CHECK(a.at(StrategyKind::loft_only).attack == pupil.delivery.attack);
    CHECK(a.at(StrategyKind::technique_only).loft == pupil.club_loft);
    CHECK(a.at(StrategyKind::both).gain > a.at(StrategyKind::loft_only).gain);
    CHECK(a.at(StrategyKind::both).gain > a.at(StrategyKind::technique_only).gain);
    CHECK(a.verdict == Lever::both);
    CHECK_FALSE(a.confidence);
    REQUIRE(a.set_up);
    CHECK(a.set_up->ball_forward > 0.0);  // hitting up: the low point falls behind the ball
  }
}

TEST_CASE("exchange rates are the slopes of the drive", "[advise]") {
  std::mt19937 random(7);
  const Setting setting = default_setting();
  for (int i = 0; i < 20; ++i) {
    const Pupil pupil = random_pupil(random);
    const ExchangeRates rates = advise(pupil, setting, without_confidence()).rates;
    const auto carry = [&](double attack, double loft, double speed) {
      Delivery d = pupil.delivery;
      d.attack += attack;
      d.club_speed += speed + pupil.reach.speed_per_attack * attack;
      d.dynamic_loft += loft + pupil.reach.follow * attack;
      return drive_from(d, pupil.handed, setting, 1e-11).flight.carry;
    };
    const double h = 1e-4;
    CAPTURE(i);
    // Central differences over 1e-4 of carries good to 1e-7 m: 1e-3 at worst.
    CHECK(rates.attack.carry == Approx((carry(h, 0, 0) - carry(-h, 0, 0)) / (2 * h)).epsilon(1e-4).margin(2e-3));
    const auto held = [&](double attack) { return carry(attack, -pupil.reach.follow * attack, -pupil.reach.speed_per_attack * attack); };
    CHECK(rates.attack_loft_held.carry == Approx((held(h) - held(-h)) / (2 * h)).epsilon(1e-4).margin(2e-3));
    CHECK(rates.loft.carry == Approx((carry(0, h, 0) - carry(0, -h, 0)) / (2 * h)).epsilon(1e-4).margin(2e-3));
    CHECK(rates.club_speed.carry == Approx((carry(0, 0, h) - carry(0, 0, -h)) / (2 * h)).epsilon(1e-4).margin(2e-3));
  }
}

TEST_CASE("the trade table keeps its word", "[advise]") {
  Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  const Advice a = advise(pupil, setting, without_confidence());
  const double whole = a.at(StrategyKind::both).gain, as_is = a.at(StrategyKind::as_is).goal;
  REQUIRE(a.trade.size() == pupil.lofts.size());
  int reached = 0;
  for (const TradeRow& row : a.trade) {
    for (std::size_t k = 0; k < kTradeShares.size(); ++k) {
      if (!row.attack_change[k]) continue;
      ++reached;
      const auto gain = [&](double change) {
        Delivery d = pupil.delivery;
        d.attack += change;
        d.dynamic_loft += row.loft - pupil.club_loft + pupil.reach.follow * change;
        return drive_from(d, pupil.handed, setting).flight.carry - as_is;
      };
      CAPTURE(row.loft / kDeg, k, *row.attack_change[k] / kDeg);
      CHECK(gain(*row.attack_change[k]) >= kTradeShares[k] * whole - 1e-3);
      // A fiftieth of a degree is how finely the table is found.
      if (*row.attack_change[k] > 0.05 * kDeg) CHECK(gain(*row.attack_change[k] - 0.05 * kDeg) < kTradeShares[k] * whole);
    }
  }
  CHECK(reached >= 5);
}

TEST_CASE("a range's trade is laid out at its ends, at whole degrees and at the club in hand", "[advise]") {
  Pupil pupil = plain_pupil();
  pupil.lofts = {loft_range(8.5, 12.3, 9.5)};
  const double expected[] = {8.5, 9.0, 9.5, 10.0, 11.0, 12.0, 12.3};
  const Advice a = advise(pupil, default_setting(), without_confidence());
  REQUIRE(a.trade.size() == std::size(expected));
  for (std::size_t i = 0; i < a.trade.size(); ++i) CHECK(a.trade[i].loft / kDeg == Approx(expected[i]));
}

TEST_CASE("a strategy says what holds it: the lofts, the reach or a limit", "[advise]") {
  const Setting setting = default_setting();
  const auto loft_only_of = [&](const Pupil& p) { return advise(p, setting, without_confidence()).at(StrategyKind::loft_only); };
  Pupil pupil = plain_pupil();
  const Advice listed = advise(pupil, setting, without_confidence());
  CHECK(listed.at(StrategyKind::loft_only).at_loft_end);
  CHECK_FALSE(listed.at(StrategyKind::loft_only).at_reach_end);
  CHECK(listed.at(StrategyKind::technique_only).at_reach_end);
  CHECK_FALSE(listed.at(StrategyKind::technique_only).at_loft_end);

  pupil.lofts = {loft_range(9, 24, 9.5)};  // more than anyone needs
  const Strategy free = loft_only_of(pupil);
  CHECK_FALSE(free.at_loft_end);
  const double spin = 0.5 * (drive_from(pupil.delivery, pupil.handed, setting).launch.spin + free.drive.launch.spin);
  pupil.limits = {{Limited::spin, {0.0, spin}}, {Limited::apex, {0.0, 1000.0}}};
  const Strategy limited = loft_only_of(pupil);
  CHECK(limited.limits[0].active);
  CHECK_FALSE(limited.limits[1].active);
  CHECK_FALSE(limited.at_loft_end);

  pupil = plain_pupil();
  pupil.delivery = {110 * kMph, 3 * kDeg, 0, 0, 26 * kDeg, 0, 0};
  pupil.club_loft = 14 * kDeg;
  pupil.lofts = {loft_range(12, 18, 14)};
  const Strategy least = loft_only_of(pupil);
  CHECK(least.loft == Approx(12 * kDeg));
  CHECK(least.at_loft_end);
}

TEST_CASE("what cannot be is said, with the limit that must give", "[advise]") {
  Pupil pupil = plain_pupil();
  pupil.limits = {{Limited::spin, {300 * kRpm, 600 * kRpm}}, {Limited::landing_angle, {5 * kDeg}}};
  const Advice a = advise(pupil, default_setting(), without_confidence());
  CHECK_FALSE(a.feasible);
  const Strategy& both = a.at(StrategyKind::both);
  REQUIRE(both.must_give);
  CHECK(both.must_give->quantity == Limited::spin);
  CHECK(both.must_give->slack < 0.0);
  CHECK(a.verdict == Lever::leave);
  CHECK(a.trade.empty());
  // Giving exactly that much makes it possible.
  pupil.limits[0].allowed.high -= both.must_give->slack - 0.1 * kRpm;
  CHECK(advise(pupil, default_setting(), without_confidence()).feasible);
}

TEST_CASE("more freedom never needs more of the limit that must give", "[advise]") {
  std::mt19937 random(77);
  const Setting setting = default_setting();
  int compared = 0;
  for (int i = 0; i < 60; ++i) {
    Pupil pupil = random_pupil(random);
    // Limits that quarrel: a steep landing with little spin and a low apex.
    pupil.limits = {{Limited::landing_angle, {uniform(random, 35, 48) * kDeg}},
                    {Limited::spin, {0.0, uniform(random, 1200, 2600) * kRpm}},
                    {Limited::apex, {0.0, uniform(random, 12, 30)}}};
    const Advice a = advise(pupil, setting, without_confidence());
    const Strategy& both = a.at(StrategyKind::both);
    if (!both.must_give) continue;
    for (const auto kind : {StrategyKind::loft_only, StrategyKind::technique_only}) {
      const auto& one = a.at(kind).must_give;
      REQUIRE(one);  // with less freedom it cannot be feasible
      if (one->quantity != both.must_give->quantity) continue;
      const auto only_it_is_broken = [](const Strategy& s) {
        return std::count_if(s.limits.begin(), s.limits.end(), [](const LimitState& l) { return l.broken; }) == 1;
      };
      if (!only_it_is_broken(a.at(kind)) || !only_it_is_broken(both)) continue;
      CAPTURE(i, static_cast<int>(kind), one->slack, both.must_give->slack, both.loft / kDeg, both.attack / kDeg);
      CHECK(-both.must_give->slack <= -one->slack + 0.05 * scale_of(one->quantity));
      ++compared;
    }
  }
  CHECK(compared > 10);
}

TEST_CASE("a sleeve turns the face with the loft, and mirrors for a left-hander", "[advise]") {
  Pupil right = plain_pupil();
  right.delivery.path = 1.0 * kDeg;
  right.lofts = {{8 * kDeg, 12 * kDeg, 9.5 * kDeg, -1.0, true}};
  Pupil left = right;
  left.handed = Handed::left;
  left.delivery.path = -right.delivery.path;
  const Advice r = advise(right, default_setting(), without_confidence()), l = advise(left, default_setting(), without_confidence());
  const Strategy &a = r.at(StrategyKind::loft_only), &b = l.at(StrategyKind::loft_only);
  CHECK(a.delivery.face == Approx(-(a.loft - right.club_loft)));
  CHECK(b.goal == Approx(a.goal).epsilon(1e-9));
  CHECK(b.delivery.face == Approx(-a.delivery.face));
  CHECK(b.drive.flight.side == Approx(-a.drive.flight.side));
}

TEST_CASE("a pupil out of range is refused", "[advise]") {
  const WithoutTraps here;
  const Setting setting = default_setting();
  const auto refused = [&](auto&& spoil) {
    Pupil pupil = plain_pupil();
    spoil(pupil);
    CHECK_THROWS_AS(advise(pupil, setting, without_confidence()), InputError);
  };
  refused([](Pupil& p) { p.delivery.club_speed = std::nan(""); });
  refused([](Pupil& p) { p.delivery.attack = 1.0; });
  refused([](Pupil& p) { p.lofts.clear(); });

  const auto refused_with = [&](const std::string& message, auto&& spoil) {
    Pupil pupil = plain_pupil();
    spoil(pupil);
    CHECK_THROWS_WITH(advise(pupil, setting, without_confidence()), message);
  };
  refused_with("club loft is 31 deg; allowed: 4 to 30 deg", [](Pupil& p) { p.club_loft = 31 * kDeg; });
  refused_with("follow is 1.5; allowed: 0 to 1.3", [](Pupil& p) { p.reach.follow = 1.5; });
  refused_with("reach attack, low is 0 deg; allowed: -20 to -4 deg", [](Pupil& p) { p.reach.attack = {0.0, 0.1}; });
  refused_with("reach attack, high is 21 deg; allowed: -4 to 20 deg", [](Pupil& p) { p.reach.attack.high = 21 * kDeg; });
  refused_with("measured shots is 0; allowed: 1 to 10000", [](Pupil& p) { p.measured_shots = 0; });
  refused_with("technique options, count is 6; allowed: 0 to 5", [](Pupil& p) { p.reach.options.resize(6); });
  refused_with("smallest worthwhile gain is 51 m; allowed: 0 to 50 m", [](Pupil& p) { p.worthwhile = 51.0; });
  refused_with("loft on offer, low is 3 deg; allowed: 4 to 30 deg", [](Pupil& p) { p.lofts[0].low = 3 * kDeg; });
  refused_with("loft on offer, high is 31 deg; allowed: 9 to 30 deg", [](Pupil& p) { p.lofts[0].high = 31 * kDeg; });
  const auto tuned_with = [](auto&& spoil) {
    return [spoil](Pupil& p) { spoil(p.tuned.emplace(Tuning{{0.8, 0.1, 1.0, 1.0}, {}, {}, 0})); };
  };
  refused_with("tuned restitution, standard deviation is 1.5; allowed: 0 to 1", tuned_with([](Tuning& t) { t.sd[0] = 1.5; }));
  refused_with("tuned drag is 2.5; allowed: 0.5 to 2", tuned_with([](Tuning& t) { t.value[2] = 2.5; }));
  refused_with("tuned lift is 2.5; allowed: 0.5 to 2", tuned_with([](Tuning& t) { t.value[3] = 2.5; }));
  // 82 mph are 36.66 m/s; 7 deg up, and 1 down, at 1000 m/s each rad
  refused_with("club speed at 3.0 deg of attack is 158.83 m/s; allowed: 9 to 72 m/s", [](Pupil& p) { p.reach.speed_per_attack = 1000.0; });
}
