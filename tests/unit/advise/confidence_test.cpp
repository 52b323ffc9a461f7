// How sure: gains of the average drive, what they lean on, what measuring first is worth, and the numbers of the
// choices, reckoned by hand for one or two things uncertain. Intervals against simulated truth are tested in
// acceptance.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "loftwright/stats/detail/summary.hpp"
#include "stats/quasi.hpp"
#include "truth.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// Uncertain only by what a test asks for.
AdviseOptions only(const ErrorWidths& widths, int draws = 4096) {
  AdviseOptions options;
  options.widths = widths;
  options.draws = draws;
  options.shots = 16;
  return options;
}

const Choice* choice(const Advice& a, Lever lever) {
  const auto at = std::ranges::find(a.choices, lever, &Choice::lever);
  return at == a.choices.end() ? nullptr : &*at;
}

// Net gains of every feasible choice of an answer, in its order, at one truth.
std::vector<double> net_gains(const Pupil& p, const Setting& setting, const Advice& a, const Truth& t) {
  std::vector<double> net;
  for (const Choice& c : a.choices) {
    if (c.feasible)
      net.push_back(c.lever == Lever::leave ? 0.0 : true_gain(p, setting, a.at(strategy_of(c.lever)), t) - c.price);
  }
  return net;
}

double most(const std::vector<double>& values) { return *std::ranges::max_element(values); }

// What choosing again at each of many truths gains over keeping to what is best on average.
double worth_of_knowing(const Pupil& p, const Setting& setting, const Advice& a,
                        const std::function<Truth(double)>& truth_at) {
  constexpr int kPoints = 400;
  double again = 0.0;
  std::vector<double> keeping(a.choices.size(), 0.0);
  for (int i = 0; i < kPoints; ++i) {
    const std::vector<double> net = net_gains(p, setting, a, truth_at(deviate(i, kPoints)));
    again += most(net) / kPoints;
    for (std::size_t k = 0; k < net.size(); ++k) keeping[k] += net[k] / kPoints;
  }
  keeping.resize(net_gains(p, setting, a, truth_at(0.0)).size());
  return again - most(keeping);
}

}  // namespace

TEST_CASE("what is not known makes advice uncertain, the player's scatter makes drives differ", "[advise]") {
  const Setting setting = default_setting();
  Pupil scatters = plain_pupil();
  scatters.measured_shots = 10000;  // a hundredth of the scatter is left open
  const Advice drives = advise(scatters, setting, only(kNothing, 16384));
  const Advice advice = advise(steady_pupil(), setting, only(ErrorWidths{}));
  for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only, StrategyKind::both}) {
    const StrategyConfidence& known = *drives.confidence->at(kind);
    CAPTURE(key_of(kind), known.gain.low, known.gain.high, known.drive_gain.low, known.drive_gain.high);
    // The average drive's gain is as good as known; it stands a tenth as wide as drives do, or less.
    CHECK(known.gain.high - known.gain.low < 0.1 * (known.drive_gain.high - known.drive_gain.low));
    CHECK(known.gain.low < drives.at(kind).gain);
    CHECK(known.gain.high > drives.at(kind).gain);
    // Without scatter a drive is the average drive: only the surface the average is read off lies between.
    const StrategyConfidence& steady = *advice.confidence->at(kind);
    const double off = 0.1 + 2.0 * advice.confidence->misfit;  // [m]
    CAPTURE(steady.gain.low, steady.gain.high, steady.drive_gain.low, steady.drive_gain.high,
            advice.confidence->misfit);
    CHECK(steady.gain.high - steady.gain.low > 3.0);
    CHECK(steady.gain.low == Approx(steady.drive_gain.low).margin(off));
    CHECK(steady.gain.high == Approx(steady.drive_gain.high).margin(off));
  }
}

TEST_CASE("an average drive is the mean over the player's shots, and its fairways are counted about its mean side",
          "[advise]") {
  const Setting setting = default_setting();
  Pupil p = steady_pupil();
  p.spread->face = 3.0 * kDeg;
  p.measured_shots = 10000;
  p.fairway = 25.0;
  for (const int draws : {0, 4096}) {
    const Advice a = advise(p, setting, [&] {
      AdviseOptions options = only(kNothing, draws);
      options.shots = 4096;
      return options;
    }());
    for (const Strategy& s : a.strategies) {
      constexpr int kPoints = 1000;
      std::vector<Drive> drives;
      AverageDrive hand;
      for (int i = 0; i < kPoints; ++i) {
        Delivery d = p.delivery;
        const double change = s.attack - p.delivery.attack;
        d.attack = s.attack;
        d.dynamic_loft += s.loft - p.club_loft + p.reach.follow * change;
        d.face += 3.0 * kDeg * deviate(i, kPoints);
        drives.push_back(drive_from(d, p.handed, setting));
        hand.carry += drives.back().flight.carry / kPoints;
        hand.total += drives.back().total / kPoints;
        hand.side += drives.back().side_at_rest / kPoints;
      }
      for (const Drive& d : drives)
        hand.fairway_share += (std::abs(d.side_at_rest - hand.side) < 12.5) / static_cast<double>(kPoints);
      CAPTURE(draws, key_of(s.kind), hand.carry, s.average.carry, hand.fairway_share, s.average.fairway_share);
      // Four thousand even points of one deviate against a thousand; flights of draws are a centimetre off.
      CHECK(s.average.carry == Approx(hand.carry).margin(0.1));
      CHECK(s.average.total == Approx(hand.total).margin(0.15));
      CHECK(s.average.side == Approx(hand.side).margin(0.1));
      CHECK(s.average.fairway_share == Approx(hand.fairway_share).margin(0.01));
      CHECK(hand.fairway_share > 0.2);
      CHECK(hand.fairway_share < 0.9);
      CHECK(s.goal == s.average.carry);
      CHECK(s.gain == Approx(s.average.carry - a.at(StrategyKind::as_is).average.carry).margin(1e-9));
      CHECK(s.centred_gain == Approx(s.drive.flight.carry - a.at(StrategyKind::as_is).drive.flight.carry).margin(1e-9));
      CHECK(s.drive.flight.carry > s.average.carry);  // a face open or shut costs carry
    }
  }
}

TEST_CASE("a verdict turns where one assumption, known, leaves no net gain", "[advise]") {
  const Setting setting = default_setting();
  struct Case {
    Assumption assumption;
    double ErrorWidths::*width;
    double sd;
    std::function<double(Truth&, double)> move;  // by standard deviations; returns where the assumption then stands
    double near;                                 // [-] standard deviations: how far off a quadratic puts the turn
  };
  const Case cases[] = {{Assumption::drag, &ErrorWidths::drag_scale, 0.03,
                         [](Truth& t, double z) { return t.error.drag_scale += 0.03 * z; }, 0.03},
                        {Assumption::lift, &ErrorWidths::lift_scale, 0.06,
                         [](Truth& t, double z) { return t.error.lift_scale += 0.06 * z; }, 0.03},
                        {Assumption::restitution, &ErrorWidths::restitution, 0.03,
                         [](Truth& t, double z) { return t.error.restitution += 0.03 * z; }, 0.03},
                        {Assumption::tangential_restitution, &ErrorWidths::tangential_restitution, 0.1,
                         [](Truth& t, double z) { return t.error.tangential_restitution += 0.1 * z; }, 0.05},
                        {Assumption::speed_cost, &ErrorWidths::speed_per_attack, 0.15 * kMph / kDeg,
                         [](Truth& t, double z) { return t.speed_per_attack += 0.15 * kMph / kDeg * z; }, 0.03}};
  // Of a mean of four shots half a standard deviation is open.
  struct Mean {
    Assumption assumption;
    double Spread::*which;
    double sd;
    double Delivery::*where;
    std::size_t i;
  };
  const Mean means[] = {
      {Assumption::measured_club_speed, &Spread::club_speed, 1.0, &Delivery::club_speed, 0},
      {Assumption::measured_attack, &Spread::attack, 1.0 * kDeg, &Delivery::attack, 1},
      {Assumption::measured_dynamic_loft, &Spread::dynamic_loft, 1.0 * kDeg, &Delivery::dynamic_loft, 4}};
  const auto held = [&](Pupil p, const ErrorWidths& widths, Assumption assumption, double taken,
                        const std::function<double(Truth&, double)>& move,
                        const std::function<double(const Strategy&, Truth)>& average_gain, double near, int draws) {
    p.lofts = {loft_range(9.5, 9.5, 9.5)};  // technique or nothing
    const AdviseOptions options = only(widths, draws);
    const Advice before = advise(p, setting, options);
    const Strategy& s = before.at(StrategyKind::technique_only);
    const auto gain_at = [&](double z) {
      Truth t = nominal_truth(p);
      move(t, z);
      return average_gain(s, t);
    };
    // A price that is just not paid back at one standard deviation on the side that gains less.
    const double z = gain_at(1.0) < gain_at(-1.0) ? 1.0 : -1.0;
    p.prices.swing = gain_at(z);
    CAPTURE(key_of(assumption), z, p.prices.swing, gain_at(-1.0), gain_at(0.0), gain_at(1.0),
            before.confidence->misfit);
    REQUIRE(p.prices.swing > kLeastPrice);
    const Advice a = advise(p, setting, options);
    REQUIRE(a.verdict.lever == Lever::technique);
    REQUIRE(a.verdict.runner_up);
    CHECK(*a.verdict.runner_up == Lever::leave);
    REQUIRE(a.confidence->influences.size() == kCountOf<Assumption>);
    const Influence& i = a.confidence->influences.front();
    REQUIRE(i.assumption == assumption);
    CHECK(i.first > 0.99);
    CHECK(i.total > 0.99);
    CHECK(i.total <= 1.0 + 1e-12);
    CHECK(i.taken == Approx(taken).margin(1e-12));
    REQUIRE(i.flips_at);
    CHECK(i.becomes == Lever::leave);
    Truth less = nominal_truth(p), more = less;
    // 0.002 of the quantile are 0.009 of a standard deviation there; the rest is the quadratic's.
    const double one = move(less, z - near), other = move(more, z + near);
    CHECK(*i.flips_at > std::min(one, other));
    CHECK(*i.flips_at < std::max(one, other));
  };
  for (const Case& c : cases) {
    ErrorWidths widths = kNothing;
    widths.*c.width = c.sd;
    const Pupil p = steady_pupil();
    Truth t = nominal_truth(p);
    held(
        p, widths, c.assumption, c.move(t, 0.0), c.move,
        [&](const Strategy& s, const Truth& at) { return true_gain(p, setting, s, at); }, c.near, 4096);
  }
  for (const Mean& m : means) {
    Pupil p = steady_pupil();
    p.measured_shots = 4;
    (*p.spread).*m.which = m.sd;
    const double mean = p.delivery.*m.where;
    const auto average_gain = [&](const Strategy& s, Truth t) {
      return mean_over_normal(
          [&](double shot) {
            t.shot[m.i] = shot;
            return true_gain(p, setting, s, t);
          },
          100);
    };
    const auto move = [&](Truth& t, double z) {
      t.mean_off[m.i] += 0.5 * z;
      return mean + 0.5 * z * m.sd;
    };
    // Shots of that scatter: their noise is in what the turn is read off.
    held(p, kNothing, m.assumption, mean, move, average_gain, 0.15, 32768);
  }
}

TEST_CASE("tuned: what is uncertain is the tuning's own, and goes together as it says", "[advise]") {
  const Setting setting = default_setting();
  Pupil p = steady_pupil();
  // Parts of what they multiply: 0.04 of 0.8 is 5 %, 0.09 of 0.9 is 10 %.
  p.tuned = Tuning{{0.83, 0.1, 0.8, 0.9}, {0.0, 0.0, 0.04, 0.09}, {}, 30};
  ErrorWidths widths = kNothing;  // the models' widths are not asked for
  widths.drag_scale = widths.lift_scale = widths.restitution = widths.tangential_restitution = 0.5;
  for (const double rho : {-0.9, 0.0, 0.9}) {
    p.tuned->correlations = {{2, 3, rho}};
    const Advice a = advise(p, setting, only(widths));
    for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only}) {
      std::vector<double> gains;
      constexpr int kPoints = 32;
      for (int i = 0; i < kPoints; ++i) {
        for (int j = 0; j < kPoints; ++j) {
          const double drag = deviate(i, kPoints), own = deviate(j, kPoints);
          Truth t = nominal_truth(p);
          t.error.drag_scale += 0.05 * drag;
          t.error.lift_scale += 0.10 * (rho * drag + std::sqrt(1.0 - rho * rho) * own);
          gains.push_back(true_gain(p, setting, a.at(kind), t));
        }
      }
      const Interval80& said = a.confidence->at(kind)->gain;
      const double low = quantile(gains, 0.1), high = quantile(gains, 0.9);
      CAPTURE(rho, key_of(kind), said.low, said.high, low, high, a.confidence->misfit);
      const double off = 0.05 * (high - low) + 0.02 +
                         a.confidence->misfit;  // two grids of a thousand; the draws' flights; the surface
      CHECK(said.low == Approx(low).margin(off));
      CHECK(said.high == Approx(high).margin(off));
    }
  }
}

TEST_CASE("chances, regret and certainty are counted over what is not known", "[advise]") {
  const Setting setting = default_setting();
  Pupil p = steady_pupil();
  const Advice plain = advise(p, setting, only(kNothing, 256));
  const auto lead_at = [&](double cost) {
    Truth t = nominal_truth(p);
    t.speed_per_attack += cost;
    return true_gain(p, setting, plain.at(StrategyKind::technique_only), t) -
           true_gain(p, setting, plain.at(StrategyKind::loft_only), t);
  };
  // As uncertain a cost of speed as makes technique's lead about as wide as it is long.
  ErrorWidths widths = kNothing;
  widths.speed_per_attack = std::abs(lead_at(0.0)) / std::abs(lead_at(1.0) - lead_at(0.0));
  const Advice a = advise(p, setting, only(widths, 16384));
  const Confidence& c = *a.confidence;
  const auto at = [&](double z) {
    Truth t = nominal_truth(p);
    t.speed_per_attack += widths.speed_per_attack * z;
    return t;
  };
  REQUIRE(choice(a, Lever::loft));
  REQUIRE(choice(a, Lever::technique));
  const std::size_t choices = a.choices.size();
  std::vector<double> best(choices, 0.0), mean(choices, 0.0);
  double longer = 0.0, gaining = 0.0, good = 0.0, regret = 0.0;
  constexpr int kPoints = 2000;
  const auto leader =
      static_cast<std::size_t>(std::ranges::find(a.choices, a.verdict.leader, &Choice::lever) - a.choices.begin());
  for (int i = 0; i < kPoints; ++i) {
    const Truth t = at(deviate(i, kPoints));
    const std::vector<double> net = net_gains(p, setting, a, t);
    REQUIRE(net.size() == choices);
    const double technique = true_gain(p, setting, a.at(StrategyKind::technique_only), t),
                 loft = true_gain(p, setting, a.at(StrategyKind::loft_only), t);
    longer += technique > loft ? 1.0 / kPoints : 0.0;
    gaining += technique > 0.0 ? 1.0 / kPoints : 0.0;
    best[static_cast<std::size_t>(std::ranges::max_element(net) - net.begin())] += 1.0 / kPoints;
    for (std::size_t k = 0; k < choices; ++k) mean[k] += net[k] / kPoints;
    good += most(net) - net[leader] <= kEqual ? 1.0 / kPoints : 0.0;
    regret += (most(net) - net[leader]) / kPoints;
  }
  CHECK(longer > 0.1);
  CHECK(longer < 0.9);
  CHECK(*c.technique_over_loft == Approx(longer).margin(0.01));
  CHECK(c.at(StrategyKind::technique_only)->drives_gaining == Approx(gaining).margin(0.01));
  double all = 0.0;
  for (std::size_t k = 0; k < choices; ++k) {
    CAPTURE(key_of(a.choices[k].lever));
    CHECK(a.choices[k].best_probability == Approx(best[k]).margin(0.01));
    CHECK(a.choices[k].net_gain == Approx(mean[k]).margin(0.02));
    CHECK(a.choices[k].net_gain == Approx(a.choices[k].gain - a.choices[k].price).margin(1e-9));
    if (k > 0) CHECK(a.choices[k].net_gain <= a.choices[k - 1].net_gain);
    all += a.choices[k].best_probability;
  }
  CHECK(all == Approx(1.0).margin(1e-12));
  CHECK(a.verdict.probability == Approx(good).margin(0.01));
  CHECK(a.verdict.regret == Approx(regret).margin(0.01));
  CHECK(regret > 0.05);
}

TEST_CASE("a lever that breaks a limit takes no part in any probability", "[advise]") {
  Pupil p = steady_pupil();
  p.lofts = {loft_range(8.5, 13.5, 9.5)};
  const Setting setting = default_setting();
  const Advice free = advise(p, setting, only(kNothing, 256));
  // Higher than any club alone makes it, or lower than technique alone must.
  const double by_loft = free.at(StrategyKind::loft_only).drive.flight.apex,
               by_technique = free.at(StrategyKind::technique_only).drive.flight.apex;
  p.limits = {{Limited::apex, {0.5 * (by_loft + by_technique), 99.0}}};
  const StrategyKind other = by_loft < by_technique ? StrategyKind::technique_only : StrategyKind::loft_only;
  const StrategyKind barred = by_loft < by_technique ? StrategyKind::loft_only : StrategyKind::technique_only;
  const Lever barred_lever = by_loft < by_technique ? Lever::loft : Lever::technique;
  const Advice a = advise(p, setting, only(ErrorWidths{}));
  REQUIRE_FALSE(a.at(barred).feasible);
  REQUIRE(a.at(other).feasible);
  REQUIRE_FALSE(a.at(StrategyKind::as_is).feasible);
  const Confidence& c = *a.confidence;
  CHECK_FALSE(c.at(StrategyKind::as_is));
  CHECK_FALSE(c.at(barred));
  CHECK(c.at(other));
  CHECK_FALSE(c.technique_over_loft);
  CHECK(c.both_over_loft.has_value() == (other == StrategyKind::loft_only && c.at(StrategyKind::both)));
  CHECK(c.both_over_technique.has_value() == (other == StrategyKind::technique_only && c.at(StrategyKind::both)));
  double all = 0.0;
  for (const Choice& o : a.choices) {
    CAPTURE(key_of(o.lever));
    CHECK(o.feasible == (o.lever != barred_lever && o.lever != Lever::leave));
    if (!o.feasible) CHECK(o.best_probability == 0.0);
    all += o.best_probability;
  }
  CHECK(all == Approx(1.0).margin(1e-12));
  CHECK_FALSE(a.choices.back().feasible);  // last in the list
  CHECK(a.verdict.lever != Lever::leave);
  CHECK(a.verdict.lever != barred_lever);
  CHECK(a.verdict.runner_up != barred_lever);
  CHECK(a.verdict.runner_up != Lever::leave);
}

TEST_CASE("what knowing more shots is worth is what choosing again gains", "[advise]") {
  const Setting setting = default_setting();
  Pupil p = steady_pupil();
  p.lofts = {plain_pupil().lofts[1], plain_pupil().lofts[4]};  // 9.5 in hand, 13.5 on offer
  p.reach.attack = {p.delivery.attack, p.delivery.attack};
  p.measured_shots = 10;
  p.spread->dynamic_loft = 5.0 * kDeg;
  const auto average_gain = [&](const Advice& a, double off) {
    return mean_over_normal(
        [&](double shot) {
          Truth t = nominal_truth(p);
          t.mean_off[4] = off;
          t.shot[4] = shot;
          return true_gain(p, setting, a.at(StrategyKind::loft_only), t);
        },
        60);
  };
  // A price that makes it a close call.
  const Advice before = advise(p, setting, only(kNothing, 16384));
  p.prices.driver = before.at(StrategyKind::loft_only).gain - 0.2;
  REQUIRE(p.prices.driver > kLeastPrice);
  const Advice a = advise(p, setting, only(kNothing, 16384));
  REQUIRE(a.choices.size() == 2);
  const auto worth = [&](double sd) {  // [standard deviations of a drive]
    double again = 0.0, mean = 0.0;
    constexpr int kPoints = 200;
    for (int i = 0; i < kPoints; ++i) {
      const double net = average_gain(a, sd * deviate(i, kPoints)) - p.prices.driver;
      again += std::max(0.0, net) / kPoints;
      mean += net / kPoints;
    }
    return again - std::max(0.0, mean);
  };
  const Measuring& m = a.confidence->measuring;
  // The mean of ten is off by a tenth of the variance, that of twenty by a twentieth: ten more take off what lies
  // between.
  const double all = worth(std::sqrt(1.0 / 10.0)), learnt = worth(std::sqrt(1.0 / 10.0 - 1.0 / 20.0));
  CAPTURE(all, learnt, m.everything, m.worth[Measure::ten_more_shots]);
  CHECK(all > 0.3);
  CHECK(learnt < 0.8 * all);
  CHECK(m.everything == Approx(all).epsilon(0.1));  // scatter of five degrees in sixteen thousand drives
  CHECK(m.worth[Measure::ten_more_shots] == Approx(learnt).epsilon(0.1));
  CHECK(m.worth[Measure::tuned_ball] == Approx(0.0).margin(0.03));
  CHECK(m.worth[Measure::trial_lesson] == Approx(0.0).margin(0.03));
  CHECK(m.worth[Measure::measured_run] == 0.0);  // of no consequence for carry
  REQUIRE(a.verdict.measure_first);
  CHECK(*a.verdict.measure_first == Measure::ten_more_shots);
  CHECK(m.everything == Approx(a.verdict.regret).margin(1e-9));
}

TEST_CASE("what a tuned ball, a trial lesson or a measured run is worth is what choosing again gains", "[advise]") {
  const Setting setting = default_setting();
  struct Case {
    Measure measure;
    double ErrorWidths::*width;
    double sd;
    Goal goal;
    std::function<void(Truth&, double)> move;
  };
  const Case cases[] = {{Measure::tuned_ball, &ErrorWidths::lift_scale, 0.2, Goal::carry,
                         [](Truth& t, double z) { t.error.lift_scale += 0.2 * z; }},
                        {Measure::trial_lesson, &ErrorWidths::speed_per_attack, 0.6 * kMph / kDeg, Goal::carry,
                         [](Truth& t, double z) { t.speed_per_attack += 0.6 * kMph / kDeg * z; }},
                        {Measure::measured_run, &ErrorWidths::turf_rolling, 0.5, Goal::total,
                         [](Truth& t, double z) { t.error.turf.rolling *= std::pow(1.5, z); }}};
  for (const Case& c : cases) {
    Pupil p = steady_pupil();
    p.goal = c.goal;
    ErrorWidths widths = kNothing;
    widths.*c.width = c.sd;
    const auto truth_at = [&](double z) {
      Truth t = nominal_truth(p);
      c.move(t, z);
      return t;
    };
    // A price that makes technique against leaving a close call; for the run, loft.
    const bool by_loft = c.measure != Measure::trial_lesson;
    if (by_loft) p.reach.attack = {p.delivery.attack, p.delivery.attack};
    if (!by_loft) p.lofts = {loft_range(9.5, 9.5, 9.5)};
    const Advice before = advise(p, setting, only(widths));
    (by_loft ? p.prices.driver : p.prices.swing) = before.at(StrategyKind::both).gain - 0.05;
    const Advice a = advise(p, setting, only(widths));
    const double worth = worth_of_knowing(p, setting, a, truth_at);
    const Measuring& m = a.confidence->measuring;
    CAPTURE(key_of(c.measure), worth, m.everything, m.worth[c.measure], a.confidence->misfit);
    CHECK(worth > 0.05);
    CHECK(m.everything == Approx(worth).margin(0.05 * worth + 0.02));
    CHECK(m.worth[c.measure] == Approx(worth).margin(0.05 * worth + 0.02));
    for (const Measure k : kAllOf<Measure>) {
      if (k != c.measure) CHECK(m.worth[k] == Approx(0.0).margin(1e-3));
      CHECK(m.worth[k] <= m.everything);
    }
    CHECK(a.verdict.measure_first.has_value() == (m.worth[c.measure] >= kLeastWorth));
    if (a.verdict.measure_first) CHECK(*a.verdict.measure_first == c.measure);
  }
}

TEST_CASE("draws come in whole 256s, and any number of threads gives the same", "[advise]") {
  const Setting setting = default_setting();
  const Pupil p = plain_pupil();
  AdviseOptions options = only(ErrorWidths{}, 1);
  CHECK(advise(p, setting, options).confidence->draws == 256);
  options.draws = 257;
  const Advice one = advise(p, setting, options);
  options.threads = 3;
  const Advice three = advise(p, setting, options);
  CHECK(one.confidence->draws == 512);
  CHECK(one.confidence->misfit == three.confidence->misfit);
  CHECK(one.verdict.probability == three.verdict.probability);
  CHECK(one.verdict.regret == three.verdict.regret);
  for (const StrategyKind k : {StrategyKind::loft_only, StrategyKind::technique_only, StrategyKind::both}) {
    CHECK(one.strategies[k].gain == three.strategies[k].gain);
    CHECK(one.confidence->strategies[k]->gain.low == three.confidence->strategies[k]->gain.low);
  }
  options.draws = 0;
  const Advice none = advise(p, setting, options);
  CHECK_FALSE(none.confidence);
  CHECK_FALSE(none.verdict.measure_first);
  CHECK(none.choices.front().net_gain ==
        Approx(none.at(strategy_of(none.verdict.leader)).gain - none.choices.front().price).margin(1e-9));
}

TEST_CASE("what carry cannot depend on is no part of its shares", "[advise]") {
  const Setting setting = default_setting();
  Pupil p = plain_pupil();
  for (const Goal goal : {Goal::carry, Goal::total}) {
    p.goal = goal;
    const Advice a = advise(p, setting, only(ErrorWidths{}, 8192));
    double first = 0.0, turf = 0.0;
    for (std::size_t i = 0; i < a.confidence->influences.size(); ++i) {
      const Influence& f = a.confidence->influences[i];
      CAPTURE(key_of(f.assumption), f.first, f.total);
      CHECK(f.first >= 0.0);
      CHECK(f.first <= f.total + 1e-12);
      CHECK(f.total <= 1.0 + 1e-12);
      if (i > 0) CHECK(f.total <= a.confidence->influences[i - 1].total);
      first += f.first;
      if (f.assumption == Assumption::turf_bounce || f.assumption == Assumption::turf_roll) turf += f.total;
    }
    CHECK(first <= 1.0 + 1e-12);
    CHECK(first > 0.5);
    CHECK((turf > 0.0) == (goal == Goal::total));
  }
}
