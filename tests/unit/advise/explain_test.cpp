// Which claims are made, on advice written out by hand: acceptance holds their numbers against drives.
#include "loftwright/advise/explain.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// Nothing to be gained anywhere, and nothing worth a sentence: the four strategies are one.
Advice plain_advice() {
  Advice a;
  for (const StrategyKind kind : kAllOf<StrategyKind>) {
    Strategy& s = a.strategies[kind];
    const auto n = static_cast<double>(kind);
    s.kind = kind;
    s.loft = (9.0 + n) * kDeg;
    s.attack = (-3.0 + n) * kDeg;
    s.drive.launch.launch = 10.0 * kDeg;
    s.drive.launch.spin = 2500.0 * kRpm;
    s.goal = 200.0;
  }
  return a;
}

const Claim* claim(const std::vector<Claim>& claims, ClaimKind kind) {
  const auto at = std::find_if(claims.begin(), claims.end(), [&](const Claim& c) { return c.kind == kind; });
  return at == claims.end() ? nullptr : &*at;
}
bool claims(const Advice& a, ClaimKind kind) { return claim(explain(a), kind) != nullptr; }

constexpr double kQuarterYard = 0.25 * kYard;

}  // namespace

TEST_CASE("where nothing is to be gained only that is said", "[advise]") {
  const std::vector<Claim> all = explain(plain_advice());
  REQUIRE(all.size() == 3);
  CHECK(all[0].kind == ClaimKind::now);
  CHECK(all[0].distance == 200.0);
  CHECK(all[0].launch == 10.0 * kDeg);
  CHECK(all[0].spin == 2500.0 * kRpm);
  CHECK(all[1].kind == ClaimKind::loft_no_gain);
  CHECK(all[2].kind == ClaimKind::technique_no_gain);
}

TEST_CASE("a lever is told from a quarter of a yard a degree, a hundred rpm or a degree of launch", "[advise]") {
  struct Lever {
    Rate ExchangeRates::*rate;
    double unit;  // [SI] that the sentence speaks of
    ClaimKind more_helps, more_hurts;
  };
  const Lever levers[] = {
      {&ExchangeRates::loft, kDeg, ClaimKind::loft_helps, ClaimKind::loft_hurts},
      {&ExchangeRates::attack, kDeg, ClaimKind::up_helps, ClaimKind::up_hurts},
      {&ExchangeRates::launch_spin, 100.0 * kRpm, ClaimKind::too_little_spin, ClaimKind::too_much_spin}};
  for (const Goal goal : {Goal::carry, Goal::total}) {
    double Rate::*const looked_at = goal == Goal::carry ? &Rate::carry : &Rate::total;
    double Rate::*const other = goal == Goal::carry ? &Rate::total : &Rate::carry;
    for (std::size_t i = 0; i < std::size(levers); ++i) {
      const auto& [rate, unit, helps, hurts] = levers[i];
      for (const double sign : {1.0, -1.0}) {
        CAPTURE(i, static_cast<int>(goal), sign);
        Advice a = plain_advice();
        a.goal = goal;
        a.rates.*rate = {.launch = 0.5, .spin = 30.0};
        (a.rates.*rate).*other = -sign * 50.0 / unit;  // the goal not asked for has no say
        (a.rates.*rate).*looked_at = sign * 0.99 * kQuarterYard / unit;
        CHECK(explain(a).size() == 3);
        (a.rates.*rate).*looked_at = sign * 1.01 * kQuarterYard / unit;
        const std::vector<Claim> told = explain(a);
        CHECK(told.size() == 4);
        const Claim* c = claim(told, sign > 0.0 ? helps : hurts);
        REQUIRE(c);
        CHECK(c->distance == Approx(1.01 * kQuarterYard));
        if (unit == kDeg) {  // what a degree does to the launch
          CHECK(c->launch == Approx(0.5 * kDeg));
          CHECK(c->spin == Approx(30.0 * kDeg));
        }
      }
    }
  }
}

TEST_CASE("nobody is told to spin more, or less, than a limit allows", "[advise]") {
  Advice a = plain_advice();
  a.rates.launch_spin.carry = kYard / (100.0 * kRpm);
  CHECK(claims(a, ClaimKind::too_little_spin));
  LimitState limit{};
  limit.quantity = Limited::spin;
  limit.allowed = {0.0, 2590.0 * kRpm};
  a.strategies[StrategyKind::as_is].limits = {limit};
  CHECK_FALSE(claims(a, ClaimKind::too_little_spin));
  a.rates.launch_spin.carry *= -1.0;
  CHECK(claims(a, ClaimKind::too_much_spin));
  a.strategies[StrategyKind::as_is].limits.front().allowed = {2410.0 * kRpm, 9000.0 * kRpm};
  CHECK_FALSE(claims(a, ClaimKind::too_much_spin));
}

TEST_CASE("a launch is too low or too high when the best drive agrees by more than a degree", "[advise]") {
  const auto told = [](double best_higher_deg, double per_degree, bool feasible = true) {
    Advice a = plain_advice();
    Strategy& both = a.strategies[StrategyKind::both];
    both.feasible = feasible;
    both.drive.launch.launch += best_higher_deg * kDeg;
    a.rates.launch_angle.carry = per_degree / kDeg;
    return explain(a);
  };
  const double enough = 1.01 * kQuarterYard, less = 0.99 * kQuarterYard;
  const auto low = told(1.01, enough), high = told(-1.01, -enough);
  REQUIRE(claim(low, ClaimKind::too_low));
  CHECK(claim(low, ClaimKind::too_low)->launch == Approx(1.01 * kDeg));
  REQUIRE(claim(high, ClaimKind::too_high));
  CHECK(claim(high, ClaimKind::too_high)->launch == Approx(1.01 * kDeg));
  for (const auto& silent : {told(0.99, enough), told(-0.99, -enough), told(1.01, less), told(1.01, -enough),
                             told(-1.01, enough), told(1.01, enough, false), told(-1.01, -enough, false)}) {
    CHECK_FALSE(claim(silent, ClaimKind::too_low));
    CHECK_FALSE(claim(silent, ClaimKind::too_high));
  }
}

TEST_CASE(
    "a gain is told from a yard on, and that of both when it is the verdict and a yard more than the better one's",
    "[advise]") {
  Advice a = plain_advice();
  a.verdict.lever = a.verdict.leader = Lever::both;
  Strategy &loft = a.strategies[StrategyKind::loft_only], &technique = a.strategies[StrategyKind::technique_only],
           &both = a.strategies[StrategyKind::both];
  loft.gain = 0.99 * kYard;
  technique.gain = 1.01 * kYard;
  both.gain = 2.0 * kYard;
  CHECK(claim(explain(a), ClaimKind::loft_no_gain)->distance == loft.gain);
  CHECK_FALSE(claims(a, ClaimKind::loft_gain));
  const std::vector<Claim> told = explain(a);
  REQUIRE(claim(told, ClaimKind::technique_gain));
  CHECK(claim(told, ClaimKind::technique_gain)->distance == technique.gain);
  CHECK(claim(told, ClaimKind::technique_gain)->attack == technique.attack);
  CHECK_FALSE(claims(a, ClaimKind::technique_no_gain));
  CHECK_FALSE(claims(a, ClaimKind::both_gain));  // 0.99 yd more
  both.gain = 2.02 * kYard;
  CHECK(claims(a, ClaimKind::both_gain));
  CHECK(claim(explain(a), ClaimKind::both_gain)->loft == both.loft);
  for (const Lever other :
       {Lever::leave, Lever::loft, Lever::technique, Lever::either}) {  // what is not advised is not promised
    a.verdict.lever = other;
    CHECK_FALSE(claims(a, ClaimKind::both_gain));
  }
  a.verdict.lever = Lever::both;
  std::swap(loft.gain, technique.gain);
  CHECK(claims(a, ClaimKind::both_gain));
  CHECK(claim(explain(a), ClaimKind::loft_gain)->loft == loft.loft);
  // What breaks a limit is not spoken of.
  loft.feasible = technique.feasible = both.feasible = false;
  CHECK(explain(a).size() == 1);
}

TEST_CASE("how many drives gain is told of what the verdict names first", "[advise]") {
  Advice a = plain_advice();
  a.confidence.emplace();
  for (const StrategyKind k : {StrategyKind::loft_only, StrategyKind::technique_only, StrategyKind::both}) {
    StrategyConfidence& c = a.confidence->strategies[k].emplace();
    const auto n = static_cast<double>(k);
    c = {{20.0 + n, 25.0, 30.0 + n}, {n, 5.0, 10.0 + n}, 0.1 * n};
  }
  struct Named {
    Lever lever, leader;
    StrategyKind kind;
  };
  const Named named[] = {{Lever::loft, Lever::loft, StrategyKind::loft_only},
                         {Lever::either, Lever::loft, StrategyKind::loft_only},
                         {Lever::either, Lever::technique, StrategyKind::technique_only},
                         {Lever::technique, Lever::technique, StrategyKind::technique_only},
                         {Lever::both, Lever::both, StrategyKind::both}};
  for (const auto& [lever, leader, kind] : named) {
    a.verdict.lever = lever;
    a.verdict.leader = leader;
    const std::vector<Claim> told = explain(a);
    const Claim* sure = claim(told, ClaimKind::sure);
    CAPTURE(key_of(lever), key_of(leader));
    REQUIRE(sure);
    CHECK(sure->low == static_cast<double>(kind));  // single drives: what the pupil will see
    CHECK(sure->high == 10.0 + static_cast<double>(kind));
    CHECK(sure->share == Approx(0.1 * static_cast<double>(kind)));
    CHECK(sure->loft == a.at(kind).loft);
    CHECK(sure->attack == a.at(kind).attack);
  }
  a.confidence->strategies[StrategyKind::both].reset();  // does what a single lever does, or breaks a limit
  CHECK_FALSE(claims(a, ClaimKind::sure));
  a.verdict.lever = a.verdict.leader = Lever::leave;
  CHECK_FALSE(claims(a, ClaimKind::sure));
  a.verdict.lever = a.verdict.leader = Lever::technique;
  CHECK(claims(a, ClaimKind::sure));
  a.confidence.reset();
  CHECK_FALSE(claims(a, ClaimKind::sure));
}
