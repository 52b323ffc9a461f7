// How sure: where a verdict turns, what measuring is worth, and how often which lever is longer, reckoned by hand for one or two
// things uncertain. Intervals against simulated truth are tested in acceptance.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "loftwright/stats/quasi.hpp"
#include "loftwright/stats/summary.hpp"
#include "truth.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// Everything but what a test asks for.
AdviseOptions little(const ErrorWidths& widths) {
  AdviseOptions options;
  options.widths = widths;
  options.draws = 1024;
  options.part_draws = options.expected_draws = 1;
  options.influence_draws = options.measuring_draws = 0;
  return options;
}

Pupil steady_pupil() {
  Pupil p = plain_pupil();
  p.spread = Spread{};
  return p;
}

// The largest value of what rises and then falls.
double best_of(const std::function<double(double)>& value, double low, double high) {
  const double ratio = 0.5 * (std::sqrt(5.0) - 1.0);
  for (int i = 0; i < 40; ++i) {
    const double a = high - ratio * (high - low), b = low + ratio * (high - low);
    (value(a) > value(b) ? high : low) = value(a) > value(b) ? b : a;
  }
  return value(0.5 * (low + high));
}

// The mean of what a standard normal deviate gives.
double mean_over_normal(const std::function<double(double)>& value) {
  constexpr int kPoints = 400;
  double mean = 0.0;
  for (int i = 0; i < kPoints; ++i) mean += value(normal_quantile((i + 0.5) / kPoints)) / kPoints;
  return mean;
}

}  // namespace

TEST_CASE("a verdict turns where moving one assumption uses up what the low end has to spare", "[advise]") {
  const Setting setting = default_setting();
  struct Case {
    Assumption assumption;
    double ErrorWidths::*width;
    double sd;
    Goal goal;
    std::function<double(Truth&, double)> move;  // by standard deviations; returns where the assumption then stands
  };
  const auto follow_at = [](Truth& t, double z) {
    // Half triangles: beyond a part x of the way to an end lie (1 - x)^2 of that side's draws.
    const double beyond = std::erfc(std::abs(z) / std::sqrt(2.0));
    return t.follow += (z < 0.0 ? -0.3 : 0.25) * (1.0 - std::sqrt(beyond));
  };
  const Case cases[] = {
      {Assumption::drag, &ErrorWidths::drag_scale, 0.03, Goal::carry, [](Truth& t, double z) { return t.error.drag_scale += 0.03 * z; }},
      {Assumption::lift, &ErrorWidths::lift_scale, 0.06, Goal::carry, [](Truth& t, double z) { return t.error.lift_scale += 0.06 * z; }},
      {Assumption::restitution, &ErrorWidths::restitution, 0.03, Goal::carry, [](Truth& t, double z) { return t.error.restitution += 0.03 * z; }},
      {Assumption::tangential_restitution, &ErrorWidths::tangential_restitution, 0.2, Goal::carry,
       [](Truth& t, double z) { return t.error.tangential_restitution += 0.2 * z; }},
      {Assumption::follow, &ErrorWidths::follow_below, 0.3, Goal::carry, follow_at},
      {Assumption::speed_cost, &ErrorWidths::speed_per_attack, 8.0, Goal::carry, [](Truth& t, double z) { return t.speed_per_attack += 8.0 * z; }}};
  // Of a mean of four shots half a standard deviation is open.
  struct Mean {
    Assumption assumption;
    double Spread::*which;
    double sd;
    double Delivery::*where;
    std::size_t i;
  };
  const Mean means[] = {{Assumption::measured_club_speed, &Spread::club_speed, 2.0, &Delivery::club_speed, 0},
                        {Assumption::measured_attack, &Spread::attack, 2.0 * kDeg, &Delivery::attack, 1},
                        {Assumption::measured_dynamic_loft, &Spread::dynamic_loft, 2.0 * kDeg, &Delivery::dynamic_loft, 4}};
  const auto held = [&](Pupil p, const ErrorWidths& widths, Assumption assumption, double taken, const std::function<double(Truth&, double)>& move) {
    p.lofts = {loft_range(9.5, 9.5, 9.5)};  // technique or nothing
    AdviseOptions options = little(widths);
    const Advice before = advise(p, setting, options);
    const Strategy& s = before.at(StrategyKind::technique_only);
    const auto gain_at = [&](double z) {
      Truth t = nominal_truth(p);
      move(t, z);
      return true_gain(p, setting, s, t);
    };
    const double z = gain_at(0.5) < gain_at(-0.5) ? 0.5 : -0.5;
    p.worthwhile = before.confidence->at(StrategyKind::technique_only)->gain.low + gain_at(z) - gain_at(0.0);
    CAPTURE(key_of(assumption), z, p.worthwhile, gain_at(-0.5), gain_at(0.0), gain_at(0.5));
    REQUIRE(p.worthwhile > 0.0);
    options.influence_draws = 64;
    const Advice a = advise(p, setting, options);
    REQUIRE(a.verdict == Lever::technique);
    for (const Influence& i : a.confidence->influences) {
      if (i.assumption != assumption) {
        CHECK_FALSE(i.flips_at);
        continue;
      }
      CHECK(i.taken == Approx(taken).margin(1e-12));
      REQUIRE(i.flips_at);
      CHECK(i.becomes == Lever::leave);
      Truth less = nominal_truth(p), more = less;
      // 0.002 of the quantile are 0.006 of a standard deviation here; the tenth part of 1024 draws is known to about as much.
      const double near = move(less, z - 0.03), far = move(more, z + 0.03);
      CHECK(*i.flips_at > std::min(near, far));
      CHECK(*i.flips_at < std::max(near, far));
    }
  };
  for (const Case& c : cases) {
    ErrorWidths widths = kNothing;
    widths.*c.width = c.sd;
    if (c.assumption == Assumption::follow) widths.follow_above = 0.25;
    Pupil p = steady_pupil();
    p.goal = c.goal;
    Truth t = nominal_truth(p);
    held(p, widths, c.assumption, c.move(t, 0.0), c.move);
  }
  for (const Mean& m : means) {
    Pupil p = steady_pupil();
    p.measured_shots = 4;
    (*p.spread).*m.which = m.sd;
    const double mean = p.delivery.*m.where;
    held(p, kNothing, m.assumption, mean, [&](Truth& t, double z) {
      t.mean_off[m.i] += 0.5 * z;
      return mean + 0.5 * z * m.sd;
    });
  }
}

TEST_CASE("tuned: the doubt is the tuning's own, and goes together as it says", "[advise]") {
  const Setting setting = default_setting();
  Pupil p = steady_pupil();
  // Parts of what they multiply: 0.04 of 0.8 is 5 %, 0.09 of 0.9 is 10 %.
  p.tuned = Tuning{{0.83, 0.1, 0.8, 0.9}, {0.0, 0.0, 0.04, 0.09}, {}, 30};
  const AdviseOptions options = little(ErrorWidths{0.5, 0.5, 0.5, 0.5, 0, 0, 0, 0, 0});  // the models' doubt is not asked for
  for (const double rho : {-0.9, 0.0, 0.9}) {
    p.tuned->correlations = {{2, 3, rho}};
    const Advice a = advise(p, setting, options);
    for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only}) {
      std::vector<double> gains;
      constexpr int kPoints = 32;
      for (int i = 0; i < kPoints; ++i) {
        for (int j = 0; j < kPoints; ++j) {
          const double drag = normal_quantile((i + 0.5) / kPoints), own = normal_quantile((j + 0.5) / kPoints);
          Truth t = nominal_truth(p);
          t.error.drag_scale += 0.05 * drag;
          t.error.lift_scale += 0.10 * (rho * drag + std::sqrt(1.0 - rho * rho) * own);
          gains.push_back(true_gain(p, setting, a.at(kind), t));
        }
      }
      const Interval80& said = a.confidence->at(kind)->gain;
      const double low = quantile(gains, 0.1), high = quantile(gains, 0.9);
      CAPTURE(rho, key_of(kind), said.low, said.high, low, high);
      CHECK(said.low == Approx(low).margin(0.05 * (high - low) + 0.02));  // two grids of a thousand; the draws' flights
      CHECK(said.high == Approx(high).margin(0.05 * (high - low) + 0.02));
    }
  }
}

TEST_CASE("how often technique is longer than loft is how often it is", "[advise]") {
  const Setting setting = default_setting();
  const Pupil p = steady_pupil();
  const Advice plain = advise(p, setting, little(kNothing));
  const auto lead_at = [&](double cost) {
    Truth t = nominal_truth(p);
    t.speed_per_attack += cost;
    return true_gain(p, setting, plain.at(StrategyKind::technique_only), t) - true_gain(p, setting, plain.at(StrategyKind::loft_only), t);
  };
  // As uncertain a cost of speed as makes technique's lead about as wide as it is long.
  ErrorWidths widths = kNothing;
  widths.speed_per_attack = std::abs(lead_at(0.0)) / std::abs(lead_at(1.0) - lead_at(0.0));
  double longer = 0.0, worth = 0.0;
  constexpr int kPoints = 2000;
  for (int i = 0; i < kPoints; ++i) {
    Truth t = nominal_truth(p);
    const double cost = widths.speed_per_attack * normal_quantile((i + 0.5) / kPoints);
    t.speed_per_attack += cost;
    longer += lead_at(cost) > 0.0 ? 1.0 / kPoints : 0.0;
    worth += true_gain(p, setting, plain.at(StrategyKind::technique_only), t) >= p.worthwhile ? 1.0 / kPoints : 0.0;
  }
  const Confidence c = *advise(p, setting, little(widths)).confidence;
  CHECK(longer > 0.1);
  CHECK(longer < 0.9);
  CHECK(*c.technique_over_loft == Approx(longer).margin(0.01));
  CHECK(c.at(StrategyKind::technique_only)->worthwhile_probability == Approx(worth).margin(0.01));
}

TEST_CASE("a lever that breaks a limit has no confidence, and is compared with none", "[advise]") {
  Pupil p = steady_pupil();
  p.lofts = {loft_range(8.5, 13.5, 9.5)};
  const Setting setting = default_setting();
  const Advice free = advise(p, setting, little(kNothing));
  // Higher than any club alone makes it, or lower than technique alone must.
  const double by_loft = free.at(StrategyKind::loft_only).drive.flight.apex, by_technique = free.at(StrategyKind::technique_only).drive.flight.apex;
  p.limits = {{Limited::apex, {0.5 * (by_loft + by_technique), 1e9}}};
  AdviseOptions options = little(ErrorWidths{});
  options.influence_draws = 8;
  const StrategyKind other = by_loft < by_technique ? StrategyKind::technique_only : StrategyKind::loft_only;
  const StrategyKind barred = by_loft < by_technique ? StrategyKind::loft_only : StrategyKind::technique_only;
  const Advice a = advise(p, setting, options);
  REQUIRE_FALSE(a.at(barred).feasible);
  REQUIRE(a.at(other).feasible);
  const Confidence& c = *a.confidence;
  CHECK_FALSE(c.at(StrategyKind::as_is));
  CHECK_FALSE(c.at(barred));
  CHECK(c.at(other));
  CHECK(c.at(StrategyKind::both));
  CHECK_FALSE(c.technique_over_loft);
  CHECK(c.both_over_loft.has_value() == (other == StrategyKind::loft_only));
  CHECK(c.both_over_technique.has_value() == (other == StrategyKind::technique_only));
  CHECK(c.influences.empty());
}

TEST_CASE("what knowing more shots is worth is what deciding again gains", "[advise]") {
  const Setting setting = default_setting();
  Pupil p = steady_pupil();
  p.lofts = {loft_range(4, 30, 9.5)};
  p.reach.attack = {p.delivery.attack, p.delivery.attack};
  p.measured_shots = 10;
  p.spread->dynamic_loft = 5.0 * kDeg;
  AdviseOptions options = little(kNothing);
  options.measuring_draws = 512;
  const Advice a = advise(p, setting, options);
  const Strategy& both = a.at(StrategyKind::both);
  // A mean loft that is off, once known, is made good by a club: then the carry is the best there is.
  const auto worth = [&](double sd) {
    return mean_over_normal([&](double z) { return both.goal - true_goal(p, setting, both.loft + sd * z, both.attack, nominal_truth(p)); });
  };
  const Measuring& m = a.confidence->measuring;
  const double mean_off = 5.0 * kDeg / std::sqrt(10.0);
  // The mean of ten is off by a tenth of the variance, that of twenty by a twentieth: ten more take off what lies between.
  const double learnt = std::sqrt(std::pow(5.0 * kDeg, 2) * (1.0 / 10.0 - 1.0 / 20.0));
  CHECK(worth(mean_off) > 0.1);
  CHECK(m.everything == Approx(worth(mean_off)).epsilon(0.02));  // 512 points of one deviate
  CHECK(m.ten_more_shots == Approx(worth(learnt)).epsilon(0.02));
  CHECK(m.tuned_ball == Approx(0.0).margin(1e-3));
  CHECK(m.trial_lesson == Approx(0.0).margin(1e-3));
}

TEST_CASE("what a tuned ball or a trial lesson is worth is what deciding again gains", "[advise]") {
  const Setting setting = default_setting();
  AdviseOptions options = little(kNothing);
  options.measuring_draws = 256;
  Pupil p = steady_pupil();
  p.lofts = {loft_range(4, 30, 9.5)};
  p.reach.attack = {p.delivery.attack, p.delivery.attack};
  options.widths.lift_scale = 0.2;
  const Advice ball = advise(p, setting, options);
  const double for_ball = mean_over_normal([&](double z) {
    Truth t = nominal_truth(p);
    t.error.lift_scale += 0.2 * z;
    const auto carry = [&](double loft) { return true_goal(p, setting, loft, p.delivery.attack, t); };
    return best_of(carry, 4 * kDeg, 30 * kDeg) - carry(ball.at(StrategyKind::both).loft);
  });
  CHECK(for_ball > 0.1);
  CHECK(ball.confidence->measuring.tuned_ball == Approx(for_ball).epsilon(0.03));
  CHECK(ball.confidence->measuring.everything == Approx(for_ball).epsilon(0.03));
  CHECK(ball.confidence->measuring.ten_more_shots == Approx(0.0).margin(1e-3));
  CHECK(ball.confidence->measuring.trial_lesson == Approx(0.0).margin(1e-3));

  p.lofts = {loft_range(9.5, 9.5, 9.5)};
  p.reach.attack = {-8 * kDeg, 8 * kDeg};
  p.reach.speed_per_attack = -0.9 * kMph / kDeg;
  options.widths = kNothing;
  options.widths.speed_per_attack = 0.3 * kMph / kDeg;
  const Advice lesson = advise(p, setting, options);
  const double for_lesson = mean_over_normal([&](double z) {
    Truth t = nominal_truth(p);
    t.speed_per_attack += options.widths.speed_per_attack * z;
    const auto carry = [&](double attack) { return true_goal(p, setting, p.club_loft, attack, t); };
    return best_of(carry, -8 * kDeg, 8 * kDeg) - carry(lesson.at(StrategyKind::both).attack);
  });
  CHECK(for_lesson > 0.1);
  CHECK(lesson.confidence->measuring.trial_lesson == Approx(for_lesson).epsilon(0.03));
  CHECK(lesson.confidence->measuring.everything == Approx(for_lesson).epsilon(0.03));
  CHECK(lesson.confidence->measuring.tuned_ball == Approx(0.0).margin(1e-3));
}
