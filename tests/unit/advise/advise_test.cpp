// What advise says beside its optima: what holds a strategy, the trade, the effort, the set-up. Held against drives
// reckoned from the delivery alone.
#include "loftwright/advise/advise.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/traps.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// Carry with another loft or attack, and with whatever else is added to the delivery.
double carry_with(const Pupil& p, double loft, double attack, const Delivery& more = {}) {
  const double change = attack - p.delivery.attack;
  Delivery d = p.delivery + more;
  d.attack += change;
  d.club_speed += p.reach.speed_per_attack * change;
  d.dynamic_loft += loft - p.club_loft + p.reach.follow * change;
  return drive_from(d, p.handed, default_setting(), 1e-11).flight.carry;
}

// Central differences over a tenth of a degree, of carries exact to 1e-7 m. [m/deg]
double per_loft(const Pupil& p, double loft, double attack) {
  return (carry_with(p, loft + 0.1 * kDeg, attack) - carry_with(p, loft - 0.1 * kDeg, attack)) / 0.2;
}
double per_attack(const Pupil& p, double loft, double attack) {
  return (carry_with(p, loft, attack + 0.1 * kDeg) - carry_with(p, loft, attack - 0.1 * kDeg)) / 0.2;
}

// Where a falling slope takes a value.
template <class Slope>
double where(Slope&& slope, double value, double low, double high) {
  REQUIRE(slope(low) > value);
  REQUIRE(slope(high) < value);
  while (high - low > 1e-9) {
    const double middle = 0.5 * (low + high);
    (slope(middle) > value ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

// Every drive the mean delivery's: then the average drive is one drive, and a test can fly it.
// Rising attack costs speed: an attack is best within reach. No loft limits worth the name.
Pupil costly_pupil() {
  Pupil p = steady_pupil();
  p.reach.speed_per_attack = -0.8 * kMph / kDeg;
  p.reach.attack = {-8.0 * kDeg, 8.0 * kDeg};
  p.lofts = {loft_range(7, 22, 9.5)};
  return p;
}

}  // namespace

TEST_CASE("a strategy is held by an end where another degree would be worth some centimetre", "[advise]") {
  const Setting setting = default_setting();
  for (const double cm : {0.8, 1.25}) {
    const bool held = cm > 1.0;
    Pupil p = costly_pupil();
    const double attack = p.delivery.attack;
    const auto in_loft = [&](double loft) { return per_loft(p, loft, attack); };
    const double top = where(in_loft, 0.01 * cm, 8 * kDeg, 22 * kDeg),
                 bottom = where(in_loft, -0.01 * cm, 8 * kDeg, 22 * kDeg);
    const auto loft_only = [&](double low, double high) {
      Pupil q = p;  // the same swing with a club that is among them
      q.club_loft = 0.5 * (low + high);
      q.delivery.dynamic_loft += q.club_loft - p.club_loft;
      q.lofts = {{low, high, q.club_loft, 0.0, true}};
      return advise(q, setting, without_confidence()).at(StrategyKind::loft_only);
    };
    CAPTURE(cm, top / kDeg, bottom / kDeg);
    const Strategy under_top = loft_only(8 * kDeg, top), above_bottom = loft_only(bottom, 25 * kDeg);
    CHECK(under_top.loft == Approx(top).margin(0.002 * kDeg));
    CHECK(above_bottom.loft == Approx(bottom).margin(0.002 * kDeg));
    CHECK(under_top.at_loft_end == held);
    CHECK(above_bottom.at_loft_end == held);
    CHECK_FALSE(under_top.at_reach_end);

    const auto in_attack = [&](double at) { return per_attack(p, p.club_loft, at); };
    const double most = where(in_attack, 0.01 * cm, -8 * kDeg, 12 * kDeg),
                 least = where(in_attack, -0.01 * cm, -8 * kDeg, 12 * kDeg);
    const auto technique_only = [&](double now, double low, double high) {
      Pupil q = p;
      // The same swing, measured at another attack.
      q.delivery.club_speed += q.reach.speed_per_attack * (now - attack);
      q.delivery.dynamic_loft += q.reach.follow * (now - attack);
      q.delivery.attack = now;
      q.reach.attack = {low, high};
      return advise(q, setting, without_confidence()).at(StrategyKind::technique_only);
    };
    CAPTURE(most / kDeg, least / kDeg);
    const Strategy under_most = technique_only(most - 3 * kDeg, most - 4 * kDeg, most);
    const Strategy above_least = technique_only(least + 3 * kDeg, least, least + 3.8 * kDeg);
    CHECK(under_most.attack == Approx(most).margin(0.002 * kDeg));
    CHECK(above_least.attack == Approx(least).margin(0.002 * kDeg));
    CHECK(under_most.at_reach_end == held);
    CHECK(above_least.at_reach_end == held);
    CHECK_FALSE(under_most.at_loft_end);
  }
  // In the middle of both nothing holds.
  Pupil wide = costly_pupil();
  wide.reach.attack = {-14 * kDeg, 10 * kDeg};
  wide.lofts = {loft_range(7, 30, 9.5)};
  const Advice free = advise(wide, setting, without_confidence());
  CHECK(free.at(StrategyKind::as_is).verification.restart_change == 0.0);
  for (const Strategy& s : free.strategies) {
    CAPTURE(key_of(s.kind), s.loft / kDeg, s.attack / kDeg);
    CHECK_FALSE(s.at_reach_end);
    CHECK_FALSE(s.at_loft_end);
  }
}

// Loose flights are a centimetre off, ten times what a limit is kept to: what the search meets the closer flight may
// not.
TEST_CASE("an answer meets its limits, or says which must give, however exact the flights", "[advise]") {
  std::mt19937 random(62);
  int over = 0, held = 0;
  for (int i = 0; i < 80; ++i) {
    Pupil pupil = random_pupil(random);
    pupil.spread = Spread{};
    pupil.delivery.dynamic_loft += 20 * kDeg;  // high shots take the longest steps
    pupil.limits = {{Limited::apex, {0.0, uniform(random, 15, 40)}},
                    {Limited::landing_angle, {0.0, uniform(random, 45, 60) * kDeg}}};
    const Setting setting = default_setting();
    AdviseOptions options = without_confidence();
    options.tolerance = 1e-4;
    options.tight_tolerance = 1e-6;
    const Advice a = advise(pupil, setting, options);
    for (const Strategy& s : a.strategies) {
      if (s.kind != StrategyKind::as_is && s.attack != pupil.delivery.attack) CHECK(s.feasible == s.must_give.empty());
      for (const LimitState& l : s.limits) {
        if (s.feasible) CHECK_FALSE(l.broken);
        if (s.feasible && l.slack < -kLimitSlack * scale_of(l.quantity)) {
          ++over;
          CHECK(l.active);
          CHECK(l.slack > -0.02 * scale_of(l.quantity));
        }
        held += l.active;
      }
    }
  }
  CAPTURE(over, held);
  CHECK(over > 0);  // or the test says nothing
}

TEST_CASE("a choice that breaks a limit shows its own drives, with draws and without, and is no choice", "[advise]") {
  Pupil pupil = steady_pupil();
  pupil.lofts = {loft_range(8, 16, 9.5)};
  pupil.limits = {{Limited::spin, {0.0, 300.0 * kRpm}}};  // of no driver
  for (const int draws : {0, 1024}) {
    AdviseOptions options;
    options.draws = draws;
    const Advice a = advise(pupil, default_setting(), options);
    CHECK_FALSE(a.feasible);
    CHECK_FALSE(a.window);
    CHECK(a.trade.empty());
    const Strategy& now = a.at(StrategyKind::as_is);
    for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only, StrategyKind::both}) {
      const Strategy& s = a.at(kind);
      REQUIRE_FALSE(s.feasible);
      CHECK(s.gain == Approx(s.average.carry - now.average.carry));
      // Steady: the average drive is the well-struck one, but for what is not known.
      CHECK(s.average.carry == Approx(s.drive.flight.carry).epsilon(draws == 0 ? 1e-4 : 0.03));
      CHECK(std::abs(s.drive.flight.carry - now.drive.flight.carry) > 0.05 * now.drive.flight.carry);
    }
  }
}

TEST_CASE("the lofts that go nearly as far are those that meet every limit", "[advise]") {
  Pupil pupil = steady_pupil();
  pupil.lofts = {loft_range(8, 16, 9.5)};
  const AdviseOptions options = without_confidence();
  const Advice free = advise(pupil, default_setting(), options);
  REQUIRE(free.window);
  // A limit on spin between what the window's ends make, at the attack it holds for.
  const auto spin_at = [&](double loft) {
    Delivery d = pupil.delivery;
    d.attack = free.window->attack;
    d.dynamic_loft += loft - pupil.club_loft + pupil.reach.follow * (d.attack - pupil.delivery.attack);
    d.club_speed += pupil.reach.speed_per_attack * (d.attack - pupil.delivery.attack);
    return drive_from(d, pupil.handed, default_setting(), 1e-11).launch.spin;
  };
  const double between = 0.5 * (free.window->low + free.window->high);
  pupil.limits = {{Limited::spin, {0.0, spin_at(between)}}};
  const Advice held = advise(pupil, default_setting(), options);
  REQUIRE(held.window);
  CHECK(spin_at(held.window->high) <= spin_at(between) * (1.0 + 1e-3));
  CHECK(spin_at(held.window->best) <= spin_at(between) * (1.0 + 1e-3));
}

TEST_CASE("the trade table misses no smaller change, and none within reach", "[advise]") {
  Pupil down = steady_pupil(), costly = costly_pupil(), up = steady_pupil();
  down.limits = {{Limited::spin, {0.0, 2700 * kRpm}}};  // may forbid what would be long enough
  costly.lofts = {loft_range(8.5, 10.3, 9.5)};
  up.delivery.attack = 3.0 * kDeg;  // the way down is the longer one: a degree is 2 mph
  up.reach.speed_per_attack = -2.0 * kMph / kDeg;
  int reached = 0, out_of_reach = 0, at_once = 0, downward = 0;
  for (const Pupil& p : {down, costly, up}) {
    const Advice a = advise(p, default_setting(), without_confidence());
    REQUIRE(a.feasible);
    const double as_is = a.at(StrategyKind::as_is).goal, whole = a.at(StrategyKind::both).gain, now = p.delivery.attack;
    REQUIRE_FALSE(a.trade.empty());
    for (const TradeRow& row : a.trade) {
      CHECK(row.gain_at_present_attack == Approx(carry_with(p, row.loft, now) - as_is).margin(2e-3));
      if (!p.limits.empty()) {
        Delivery d = p.delivery;
        d.dynamic_loft += row.loft - p.club_loft;
        CHECK(row.breaks_limit == (drive_from(d, p.handed, default_setting()).launch.spin > p.limits[0].allowed.high));
      } else {
        CHECK_FALSE(row.breaks_limit);
      }
      for (std::size_t k = 0; k < kTradeShares.size(); ++k) {
        const auto enough = [&](double attack) {
          Delivery d = p.delivery;
          d.attack = attack;
          d.club_speed += p.reach.speed_per_attack * (attack - now);
          d.dynamic_loft += row.loft - p.club_loft + p.reach.follow * (attack - now);
          const Drive drive = drive_from(d, p.handed, default_setting());
          for (const Limit& l : p.limits) {
            if (drive.launch.spin > l.allowed.high) return false;
          }
          return drive.flight.carry - as_is >= kTradeShares[k] * whole;
        };
        const auto& told = row.attack_change[k];
        CAPTURE(row.loft / kDeg, k, now / kDeg, told.value_or(99.0) / kDeg);
        // Step by step outwards from the present attack.
        constexpr double kStep = 0.05 * kDeg;
        std::optional<double> least;
        for (int i = 0; i <= 400 && !least; ++i) {
          for (const double attack : {now + i * kStep, now - i * kStep}) {
            if (attack < p.reach.attack.low - 1e-9 || attack > p.reach.attack.high + 1e-9) continue;
            if (enough(attack)) least = attack - now;
          }
        }
        REQUIRE(told.has_value() == least.has_value());
        if (!told) {
          ++out_of_reach;
          continue;
        }
        ++reached;
        at_once += *told == 0.0 ? 1 : 0;
        downward += *told < 0.0 ? 1 : 0;
        CHECK(std::abs(*told) ==
              Approx(std::abs(*least)).margin(kStep + 0.02 * kDeg));  // how finely the table is found
        CHECK(enough(now + *told + (*told > 0.0 ? 1e-9 : *told < 0.0 ? -1e-9 : 0.0)));
      }
    }
  }
  CAPTURE(reached, out_of_reach, at_once, downward);
  CHECK(reached > 10);
  CHECK(out_of_reach > 3);
  CHECK(at_once > 0);
  CHECK(downward > 0);
}

TEST_CASE("a gain of less than a metre has its trade too", "[advise]") {
  Pupil p = steady_pupil();
  p.lofts = {loft_range(9.5, 9.6, 9.5)};
  p.reach.attack = {p.delivery.attack, p.delivery.attack};
  const Advice a = advise(p, default_setting(), without_confidence());
  CHECK(a.at(StrategyKind::both).gain > 0.1);
  CHECK(a.at(StrategyKind::both).gain < 1.0);
  CHECK_FALSE(a.trade.empty());
}

TEST_CASE("the effort list is every set of changes, less what another betters for no more", "[advise]") {
  Pupil p = steady_pupil();
  p.delivery.toe = 0.015;
  p.reach.effort_per_attack = 0.7 / kDeg;
  p.reach.options = {{"strike nearer the middle", 3.0, Delivery{.toe = -0.012}},
                     {"strength", 5.0, Delivery{.club_speed = 1.0, .dynamic_loft = 0.5 * kDeg}},
                     {"a little", 1.0, Delivery{.club_speed = 0.25}}};
  const Advice a = advise(p, default_setting(), without_confidence());
  const double now = p.delivery.attack, target = a.at(StrategyKind::both).attack,
               base = carry_with(p, p.club_loft, now);
  struct Way {
    double effort, gain, loft, attack;
    unsigned set;
  };
  std::vector<Way> ways;
  for (unsigned set = 0; set < 8; ++set) {
    Delivery more{};
    double effort = 0.0;
    for (unsigned i = 0; i < 3; ++i) {
      if (!(set & (1u << i))) continue;
      more = more + p.reach.options[i].change;
      effort += p.reach.options[i].effort;
    }
    for (int quarter = 0; quarter <= 4; ++quarter) {
      const double attack = now + 0.25 * quarter * (target - now);
      Way way{effort + 0.7 * std::abs(attack - now) / kDeg, -1e9, 0.0, attack, set};
      double net = -1e9;
      for (const LoftChoice& club : p.lofts) {
        const double gain = carry_with(p, club.low, attack, more) - base, price = club.in_hand ? 0.0 : p.prices.driver;
        if (gain - price > net) net = gain - price, way.gain = gain, way.loft = club.low;  // a club must earn its price
      }
      ways.push_back(way);
    }
  }
  // Each told is one of the ways; each way is bettered, or nearly equalled, by one told that asks no more.
  REQUIRE(a.effort_front.size() > 5);
  for (const EffortPoint& e : a.effort_front) {
    unsigned set = 0;
    for (const std::size_t i : e.options) set |= 1u << i;
    const auto same = std::find_if(ways.begin(), ways.end(),
                                   [&](const Way& w) { return w.set == set && std::abs(w.attack - e.attack) < 1e-9; });
    CAPTURE(e.effort, e.gain, set, e.attack / kDeg);
    REQUIRE(same != ways.end());
    CHECK(e.effort == Approx(same->effort).margin(1e-9));
    CHECK(e.gain == Approx(same->gain).margin(2e-3));
    CHECK(e.loft == same->loft);
    for (const Way& w : ways) {
      if (w.effort < e.effort - 1e-9 || (w.effort < e.effort + 1e-9 && w.set != set)) CHECK(w.gain < e.gain + 2e-3);
    }
  }
  for (const Way& w : ways) {
    double best = -1e9;
    for (const EffortPoint& e : a.effort_front) best = e.effort < w.effort + 1e-9 ? std::max(best, e.gain) : best;
    CAPTURE(w.effort, w.gain, w.set, w.attack / kDeg);
    CHECK(best > w.gain - 0.1 - 2e-3);
  }
}

TEST_CASE("for more effort 10 cm are no difference", "[advise]") {
  const Pupil plain = steady_pupil();
  const double slope =
      carry_with(plain, 9.5 * kDeg, plain.delivery.attack, Delivery{.club_speed = 0.5}) -
      carry_with(plain, 9.5 * kDeg, plain.delivery.attack, Delivery{.club_speed = -0.5});  // [m per m/s]
  for (const double more : {0.096, 0.104}) {
    Pupil p = plain;
    p.lofts = {loft_range(9.5, 9.5, 9.5)};
    p.reach.attack = {p.delivery.attack, p.delivery.attack};
    p.reach.options = {{"a little speed", 1.0, Delivery{.club_speed = more / slope}}};
    CAPTURE(more);
    CHECK(advise(p, default_setting(), without_confidence()).effort_front.size() == (more > 0.1 ? 2 : 1));
  }
}

TEST_CASE("the set-up is where a circle in the pupil's plane gives both attacks", "[advise]") {
  Pupil p = costly_pupil();
  p.prices.swing = kLeastPrice;  // so that both is the verdict, whose attack is not technique's
  p.lofts = {loft_range(7, 12, 9.5)};
  p.arc = {47.0 * kDeg, 1.45};
  const Advice a = advise(p, default_setting(), without_confidence());
  REQUIRE(a.verdict.lever == Lever::both);
  const double attack = a.at(StrategyKind::both).attack;
  CHECK(std::abs(attack - a.at(StrategyKind::technique_only).attack) > 0.2 * kDeg);
  REQUIRE(a.set_up);
  // A point runs round the circle: past the low point by `turn`, it is R sin(turn) on and R (1 - cos(turn)) up the
  // plane, which leans away from the target line to the left.
  struct Place {
    double on, left;  // left: of the swing direction, where the point runs to
  };
  const auto place_at = [&](double wanted) {
    double low = -0.5, high = 0.5;
    while (high - low > 1e-13) {
      const double turn = 0.5 * (low + high);
      const double climb = std::sin(turn) * std::sin(p.arc.plane),
                   level = std::hypot(std::cos(turn), std::sin(turn) * std::cos(p.arc.plane));
      (std::atan2(climb, level) < wanted ? low : high) = turn;
    }
    return Place{p.arc.radius * std::sin(low), std::atan2(std::sin(low) * std::cos(p.arc.plane), std::cos(low))};
  };
  const Place now = place_at(p.delivery.attack), then = place_at(attack);
  CHECK(a.set_up->low_point_now == Approx(-now.on).margin(1e-9));
  CHECK(a.set_up->low_point_target == Approx(-then.on).margin(1e-9));
  CHECK(a.set_up->ball_forward == Approx(then.on - now.on).margin(1e-9));
  CHECK(a.set_up->path_change == Approx(now.left - then.left).margin(1e-9));
  // The further back the low point, the more to the left the path and to the right the swing.
  CHECK((a.set_up->path_change < 0.0) == (a.set_up->low_point_target < a.set_up->low_point_now));
  CHECK(a.set_up->swing_direction_change == -a.set_up->path_change);
}

TEST_CASE("the swing direction of the set-up keeps the path, for either hand", "[advise]") {
  Pupil p = costly_pupil();
  p.prices.swing = kLeastPrice;
  p.lofts = {loft_range(7, 12, 9.5)};  // so that the swing is part of the verdict
  const auto set_up = [&] { return advise(p, default_setting(), without_confidence()).set_up.value(); };
  const SetUp right = set_up();
  const auto path = [&](double low_point, double direction) {
    return at_ball({low_point, p.arc.plane, p.arc.radius, direction}).path;
  };
  CHECK(path(right.low_point_target, 0.02 + right.swing_direction_change) ==
        Approx(path(right.low_point_now, 0.02)).margin(1e-12));
  p.handed = Handed::left;
  p.delivery.path = -p.delivery.path;
  p.delivery.face = -p.delivery.face;
  const SetUp left = set_up();
  CHECK(left.low_point_target == Approx(right.low_point_target).margin(1e-6));
  CHECK(left.path_change == Approx(-right.path_change).margin(1e-6));
  CHECK((left.swing_direction_change < 0.0) == (left.low_point_target < left.low_point_now));
}

TEST_CASE("the tee is set by where the ball is struck, or not spoken of", "[advise]") {
  Pupil p = costly_pupil();
  p.prices.swing = kLeastPrice;
  p.lofts = {loft_range(7, 12, 9.5)};  // so that the swing is part of the verdict
  const auto tee = [&](double high) {
    p.delivery.high = high;
    return advise(p, default_setting(), without_confidence()).set_up.value().tee_higher;
  };
  CHECK(tee(-0.008) == 0.008);  // low on the face
  CHECK(tee(0.007) == -0.007);
  CHECK_FALSE(tee(-0.0059));
  CHECK_FALSE(tee(0.0));
}

TEST_CASE("a set-up is told when the verdict changes the attack, by a tenth of a degree at least", "[advise]") {
  const Setting setting = default_setting();
  const auto with_reach = [](double degrees, double mph_a_degree) {
    Pupil p = steady_pupil();
    p.lofts = {loft_range(9.5, 9.5, 9.5)};
    p.prices.swing = kLeastPrice;
    p.reach.attack = {p.delivery.attack, p.delivery.attack + degrees * kDeg};
    p.reach.speed_per_attack = mph_a_degree * kMph / kDeg;
    return p;
  };
  for (const double degrees : {0.095, 0.105}) {
    Pupil p = with_reach(degrees, 4.0);
    const double now = drive_from(p.delivery, p.handed, setting).launch.launch;
    p.limits = {{Limited::launch, {.low = now + 0.05 * kDeg}}};  // so that the swing must change
    const Advice a = advise(p, setting, without_confidence());
    CAPTURE(degrees);
    REQUIRE(a.at(StrategyKind::technique_only).attack == Approx(a.at(StrategyKind::as_is).attack + degrees * kDeg));
    CHECK(a.verdict.lever == Lever::technique);
    CHECK(a.set_up.has_value() == (degrees > 0.1));
  }
  // Not where nothing is worth it, nor where the club alone is.
  Pupil p = with_reach(2.0, 0.0);
  p.prices.swing = 40.0;
  Advice a = advise(p, setting, without_confidence());
  CHECK(a.verdict.lever == Lever::leave);
  CHECK_FALSE(a.set_up);
  p = with_reach(0.3, 0.0);
  p.lofts = plain_pupil().lofts;
  a = advise(p, setting, without_confidence());
  CHECK(a.verdict.lever == Lever::loft);
  CHECK_FALSE(a.set_up);
}

TEST_CASE("no set-up where the plane is too flat or the low point out of any stance, and still an answer", "[advise]") {
  const auto set_up = [](double now_deg, double high_deg, double plane_deg, double radius = 1.6) {
    Pupil p = steady_pupil();
    p.lofts = {loft_range(9.5, 9.5, 9.5)};
    p.delivery.attack = now_deg * kDeg;
    p.reach.attack = {now_deg * kDeg, high_deg * kDeg};
    p.arc = {plane_deg * kDeg, radius};
    const Advice a = advise(p, default_setting(), without_confidence());
    CAPTURE(now_deg, high_deg);
    REQUIRE(a.at(StrategyKind::technique_only).attack > (high_deg - 1.0) * kDeg);
    return a.set_up;
  };
  CHECK(set_up(-4.0, 3.0, 50.0));
  CHECK(set_up(-4.0, 10.0, 60.0));  // an arc is reckoned for every attack there is
  CHECK(set_up(-16.0, 3.0, 60.0));
  CHECK_FALSE(set_up(-4.0, 10.0, 40.0, 2.5));  // 68 cm behind the ball
}

TEST_CASE("a pupil's numbers are refused at either end of what is allowed", "[advise]") {
  const WithoutTraps here;
  const auto refused_with = [&](const std::string& message, auto&& spoil) {
    Pupil pupil = steady_pupil();
    spoil(pupil);
    CHECK_THROWS_WITH(advise(pupil, default_setting(), without_confidence()), message);
  };
  refused_with("club loft is 3 deg; allowed: 4 to 30 deg", [](Pupil& p) { p.club_loft = 3 * kDeg; });
  refused_with("follow is -0.5; allowed: 0 to 1.3", [](Pupil& p) { p.reach.follow = -0.5; });
  refused_with("reach attack, low is 2 deg; allowed: -20 to -4 deg", [](Pupil& p) { p.reach.attack.low = 2 * kDeg; });
  refused_with("reach attack, low is -21 deg; allowed: -20 to -4 deg",
               [](Pupil& p) { p.reach.attack.low = -21 * kDeg; });
  refused_with("reach attack, high is -5 deg; allowed: -4 to 10 deg", [](Pupil& p) {
    p.reach.attack = {-6 * kDeg, -5 * kDeg};
  });
  refused_with("measured shots is 10001; allowed: 1 to 10000", [](Pupil& p) { p.measured_shots = 10001; });
  refused_with("price of a driver is 0.45 m; allowed: 0.4572 to 50 m", [](Pupil& p) { p.prices.driver = 0.45; });
  refused_with("price of a turn of the sleeve is 50.5 m; allowed: 0.4572 to 50 m",
               [](Pupil& p) { p.prices.sleeve = 50.5; });
  refused_with("price of a change of technique is -1 m; allowed: 0.4572 to 50 m",
               [](Pupil& p) { p.prices.swing = -1.0; });
  refused_with("fairway is 4.5 m; allowed: 5 to 150 m", [](Pupil& p) { p.fairway = 4.5; });
  refused_with("fairway is 151 m; allowed: 5 to 150 m", [](Pupil& p) { p.fairway = 151.0; });
  refused_with("loft on offer, high is 8 deg; allowed: 9 to 30 deg", [](Pupil& p) { p.lofts[0].high = 8 * kDeg; });
  refused_with("lofts: the club in hand must be among them", [](Pupil& p) {
    for (LoftChoice& c : p.lofts) c.in_hand = false;
  });
  for (const Tunable i : kAllOf<Tunable>) {
    const std::string name = std::string("tuned ") + std::string(title_of(i));
    const double most = is_of_turf(i) ? 4.0 : 1.0;  // the turf is known least
    for (const double sd : {-0.5, most + 0.05}) {
      const std::string number = sd < 0.0 ? "-0.5" : is_of_turf(i) ? "4.05" : "1.05";
      refused_with(
          name + ", standard deviation is " + number + (is_of_turf(i) ? "; allowed: 0 to 4" : "; allowed: 0 to 1"),
          [&](Pupil& p) {
            p.tuned = Tuning{{0.8, 0.1, 1.0, 1.0}, {}, {}, 0};
            p.tuned->sd[i] = sd;
          });
    }
  }
  refused_with("speed per attack is 2.1 m/s; allowed: -2 to 2 m/s",
               [](Pupil& p) { p.reach.speed_per_attack = 2.1 / kDeg; });
  // Fourteen degrees down cost 28 m/s of 82 mph, which are 36.65728.
  refused_with("club speed at -18.0 deg of attack is 8.65728 m/s; allowed: 9 to 72 m/s", [](Pupil& p) {
    p.reach.attack.low = -18 * kDeg;
    p.reach.speed_per_attack = 2.0 / kDeg;
  });
}

TEST_CASE("numbers at the very ends are taken", "[advise]") {
  Pupil p = steady_pupil();
  p.prices = {kLeastPrice, kLeastPrice, kLeastPrice};
  p.fairway = 5.0;
  p.measured_shots = 1;
  p.reach.follow = 0.0;
  p.lofts = {loft_range(4.0, 30.0, 9.5)};
  CHECK_NOTHROW(advise(p, default_setting(), without_confidence()));
  p.prices = {kMostPrice, kMostPrice, kMostPrice};
  p.fairway = 150.0;
  p.measured_shots = 10000;
  p.reach.follow = kMostFollow;
  p.tuned = Tuning{{0.8, 0.1, 0.5, 2.0}, {0.0, 1.0, 0.0, 1.0}, {}, 0};
  CHECK_NOTHROW(advise(p, default_setting(), without_confidence()));
}

TEST_CASE("the club in hand is a choice once, whether listed or not", "[advise]") {
  // A range that does not hold the club in hand: the club itself is still there to keep.
  Pupil p = steady_pupil();
  p.lofts = {loft_range(15, 18, 9.5)};
  p.delivery = {110 * kMph, 3 * kDeg, 0, 0, 22 * kDeg, 0, 0};
  p.reach.attack = {3 * kDeg, 3 * kDeg};
  const Advice kept = advise(p, default_setting(), without_confidence());
  CHECK(kept.at(StrategyKind::loft_only).loft == p.club_loft);
  CHECK(kept.at(StrategyKind::loft_only).gain == Approx(0.0).margin(1e-6));
  // Listed already, it is not flown a second time.
  Pupil listed = steady_pupil();
  listed.reach.attack = {listed.delivery.attack, listed.delivery.attack};
  const Advice a = advise(listed, default_setting(), without_confidence());
  // As is; a look at each of four other clubs, and a drive with those that are nearly as long as the longest.
  double longest = 0.0;
  std::vector<double> carries;
  for (const LoftChoice& c : listed.lofts) {
    if (c.in_hand) continue;
    carries.push_back(carry_with(listed, c.low, listed.delivery.attack));
    longest = std::max(longest, carries.back());
  }
  CHECK(a.strategy_flights ==
        1 + 4 + std::ranges::count_if(carries, [&](double carry) { return carry > longest - 3.0; }));
}

TEST_CASE("one loft and no reach: there is nothing to do but leave", "[advise]") {
  for (const int draws : {0, 1024}) {
    Pupil p = plain_pupil();
    p.lofts = {loft_range(9.5, 9.5, 9.5)};
    p.reach.attack = {p.delivery.attack, p.delivery.attack};
    AdviseOptions options;
    options.draws = draws;
    Advice a = advise(p, default_setting(), options);
    CAPTURE(draws);
    REQUIRE(a.choices.size() == 1);
    CHECK(a.choices[0].lever == Lever::leave);
    CHECK(a.choices[0].best_probability == 1.0);
    CHECK(a.verdict.lever == Lever::leave);
    CHECK(a.verdict.probability == 1.0);
    CHECK_FALSE(a.verdict.runner_up);
    CHECK(a.feasible);
    for (const Strategy& s : a.strategies) {
      CHECK(s.loft == p.club_loft);
      CHECK(s.attack == p.delivery.attack);
      CHECK(s.gain == Approx(0.0).margin(1e-9));
      CHECK(s.price == 0.0);
    }
    CHECK(a.trade.empty());
    CHECK_FALSE(a.set_up);
    // Nor when it breaks a limit: then nothing meets them all.
    p.limits = {{Limited::spin, {0.0, 500 * kRpm}}};
    a = advise(p, default_setting(), options);
    REQUIRE(a.choices.size() == 1);
    CHECK_FALSE(a.choices[0].feasible);
    CHECK(a.choices[0].best_probability == 0.0);
    CHECK_FALSE(a.feasible);
    const std::vector<LimitState>& give =
        a.at(StrategyKind::both).must_give;  // and what must give is told all the same
    REQUIRE(give.size() == 1);
    CHECK(give[0].quantity == Limited::spin);
    CHECK(give[0].slack < 0.0);
    CHECK(a.at(StrategyKind::as_is).must_give.empty());
    CHECK(a.verdict.lever == Lever::leave);
    CHECK(a.verdict.probability == 0.0);
  }
}

TEST_CASE("a driver, a turn of the sleeve, a swing and both at once have their prices", "[advise]") {
  Pupil p = steady_pupil();
  p.prices = {2.0, 0.6, 1.5};
  const Advice bought = advise(p, default_setting(), without_confidence());
  CHECK(bought.at(StrategyKind::as_is).price == 0.0);
  CHECK(bought.at(StrategyKind::loft_only).price == 2.0);
  CHECK(bought.at(StrategyKind::technique_only).price == 1.5);
  p.lofts = {loft_range(8, 12, 9.5)};
  const Advice turned = advise(p, default_setting(), without_confidence());
  CHECK(turned.at(StrategyKind::loft_only).price == 0.6);
  REQUIRE(turned.at(StrategyKind::both).loft != p.club_loft);
  REQUIRE(turned.at(StrategyKind::both).attack != p.delivery.attack);
  CHECK(turned.at(StrategyKind::both).price == Approx(0.6 + 1.5 + 0.9144));
  for (const Choice& c : turned.choices) {
    const Strategy& s = turned.at(strategy_of(c.lever));
    CHECK(c.price == s.price);
    CHECK(c.gain == Approx(s.gain).margin(1e-9));
    CHECK(c.net_gain == Approx(c.gain - c.price).margin(1e-9));
    CHECK(c.loft == s.loft);
    CHECK(c.attack == s.attack);
  }
  // A turn of the sleeve that gains nearly as much as another driver is taken instead of it.
  p.reach.attack = {p.delivery.attack, p.delivery.attack};
  p.prices = {};
  p.lofts = {loft_range(8, 11, 9.5), {11.3 * kDeg, 11.3 * kDeg, 11.3 * kDeg}};
  const double by_sleeve = carry_with(p, 11 * kDeg, p.delivery.attack),
               by_driver = carry_with(p, 11.3 * kDeg, p.delivery.attack);
  REQUIRE(by_driver > by_sleeve);
  REQUIRE(by_driver - by_sleeve < p.prices.driver - p.prices.sleeve);
  CHECK(advise(p, default_setting(), without_confidence()).at(StrategyKind::loft_only).loft == Approx(11 * kDeg));
  p.prices.driver = kLeastPrice;
  CHECK(advise(p, default_setting(), without_confidence()).at(StrategyKind::loft_only).loft == Approx(11.3 * kDeg));
}

TEST_CASE("both is never shorter than a single lever, and does one alone where that goes as far", "[advise]") {
  std::mt19937 random(65);
  int alone = 0, together = 0;
  for (int i = 0; i < 60; ++i) {
    Pupil p = random_pupil(random);
    p.prices = {uniform(random, 0.5, 6), uniform(random, 0.5, 6), uniform(random, 0.5, 8)};
    if (i % 3 == 0) p.limits = {{Limited::apex, {0.0, uniform(random, 15, 35)}}};
    if (i % 3 == 1) p.lofts = {loft_range(p.club_loft / kDeg, p.club_loft / kDeg, p.club_loft / kDeg)};
    AdviseOptions options = without_confidence();
    options.shots = 16;
    options.draws = i % 2 ? 256 : 0;
    const Advice a = advise(p, default_setting(), options);
    const Strategy& both = a.at(StrategyKind::both);
    bool as_one = false;
    for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only}) {
      const Strategy& s = a.at(kind);
      if (!s.feasible) continue;
      CAPTURE(i, key_of(kind), s.gain, both.gain, s.loft / kDeg, s.attack / kDeg, both.loft / kDeg, both.attack / kDeg);
      REQUIRE(both.feasible);
      CHECK(both.gain > s.gain - 0.02);  // the flights of draws
      if (s.loft != both.loft || s.attack != both.attack) continue;
      as_one = true;
      CHECK(both.price == s.price);
    }
    const bool listed = std::ranges::find(a.choices, Lever::both, &Choice::lever) != a.choices.end();
    CAPTURE(i, both.loft / kDeg, both.attack / kDeg);
    if (as_one) CHECK_FALSE(listed);  // doing one alone it is no choice of its own
    (listed ? together : alone) += 1;
  }
  CAPTURE(alone, together);
  CHECK(alone > 5);
  CHECK(together > 5);
}
