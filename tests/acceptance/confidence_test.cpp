// How sure advise says it is, against simulated truth and against toys with known answers.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <limits>

#include "loftwright/advise/advise.hpp"
#include "loftwright/stats/quasi.hpp"
#include "pupils.hpp"
#include "truth.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

Truth draw_truth(const Pupil& p, const ErrorWidths& w, std::mt19937& random) {
  std::normal_distribution<double> z;
  Truth t{};
  for (double& x : t.mean_off) x = z(random) / std::sqrt(p.measured_shots);
  for (double& x : t.shot) x = z(random);
  // Two half triangles of equal weight, back to back.
  const auto between = [&](double below, double above) {
    const double from_end = std::sqrt(uniform(random, 0, 1));
    return (uniform(random, 0, 1) < 0.5 ? -below : above) * (1 - from_end);
  };
  const auto times = [&](double share) { return std::exp(std::log(1.0 + share) * z(random)); };
  t.error = {1 + w.drag_scale * z(random), 1 + w.lift_scale * z(random), w.restitution * z(random), w.tangential_restitution * z(random), {}};
  t.error.turf.tilt = w.turf_tilt * z(random);
  t.error.turf.restitution = times(w.turf_restitution);
  t.error.turf.rolling = times(w.turf_rolling);
  t.error.turf.grass = times(w.turf_grass);
  t.error.turf.tilt_speed = times(w.turf_tilt_speed);
  t.error.turf.rise = between(w.turf_rise_below, w.turf_rise_above);
  t.error.turf.friction = between(w.turf_friction_below, 0.0);
  const double follow = p.reach.follow;
  t.follow = follow + between(std::min(w.follow_below, follow), std::min(w.follow_above, kMostFollow - follow));
  t.speed_per_attack = p.reach.speed_per_attack + w.speed_per_attack * z(random);
  return t;
}

bool same(const Interval80& a, const Interval80& b) { return a.low == b.low && a.mean == b.mean && a.high == b.high; }

}  // namespace

TEST_CASE("the 80 % interval holds the truth about 80 % of the time", "[confidence]") {
  std::mt19937 random(314);
  const Setting setting = default_setting();
  AdviseOptions options;
  options.draws = 512;
  options.part_draws = 2;
  options.expected_draws = 1;
  options.influence_draws = options.measuring_draws = 0;
  constexpr int kPupils = 500;
  int held[4] = {};
  for (int i = 0; i < kPupils; ++i) {
    Pupil pupil = random_pupil(random);
    pupil.goal = i % 2 ? Goal::total : Goal::carry;
    pupil.spread = usual_spread(static_cast<Skill>(i % 3), pupil.delivery.club_speed);
    pupil.measured_shots = 5 + i % 20;
    options.seed = static_cast<std::uint64_t>(i);
    const Advice a = advise(pupil, setting, options);
    const Truth truth = draw_truth(pupil, options.widths, random);
    const double base = true_goal(pupil, setting, pupil.club_loft, pupil.delivery.attack, truth);
    for (std::size_t k = 1; k < 4; ++k) {
      const Strategy& s = a.strategies[k];
      const double gain = true_goal(pupil, setting, s.loft, s.attack, truth) - base;
      const Interval80& said = a.confidence->strategies[k]->gain;
      held[k] += gain >= said.low && gain <= said.high;
    }
  }
  for (int k = 1; k < 4; ++k) {
    CAPTURE(k, held[k]);
    // 500 trials at 80 %: one standard deviation is 1.8 %.
    CHECK(held[k] >= 0.76 * kPupils);
    CHECK(held[k] <= 0.84 * kPupils);
  }
  WARN("truth held: loft " << held[1] << ", technique " << held[2] << ", both " << held[3] << " of 500");
}

TEST_CASE("twice the draws move no end of an interval by 0.3 yd", "[confidence]") {
  std::mt19937 random(11);
  const Setting setting = default_setting();
  double worst = 0.0;
  for (int i = 0; i < 8; ++i) {
    Pupil pupil = i == 0 ? plain_pupil() : random_pupil(random);
    pupil.goal = i % 2 ? Goal::total : Goal::carry;
    AdviseOptions once, twice;
    once.influence_draws = once.measuring_draws = twice.influence_draws = twice.measuring_draws = 0;
    twice.draws = 2 * once.draws;
    const Advice a = advise(pupil, setting, once), b = advise(pupil, setting, twice);
    for (std::size_t k = 1; k < 4; ++k) {
      const Interval80 &x = a.confidence->strategies[k]->gain, &y = b.confidence->strategies[k]->gain;
      CAPTURE(i, k, x.low, y.low, x.high, y.high);
      CHECK(std::abs(x.low - y.low) < 0.3 * kYard);
      CHECK(std::abs(x.high - y.high) < 0.3 * kYard);
      worst = std::max({worst, std::abs(x.low - y.low), std::abs(x.high - y.high)});
    }
  }
  WARN("doubling moves an end by at most " << worst / kYard << " yd");
}

TEST_CASE("a seed gives the same answer, another seed nearly the same", "[confidence]") {
  const Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  AdviseOptions options;
  const Advice a = advise(pupil, setting, options), again = advise(pupil, setting, options);
  options.seed = 2;
  const Advice other = advise(pupil, setting, options);
  for (std::size_t k = 1; k < 4; ++k) {
    CHECK(same(a.confidence->strategies[k]->gain, again.confidence->strategies[k]->gain));
    CHECK_FALSE(same(a.confidence->strategies[k]->gain, other.confidence->strategies[k]->gain));
    CHECK(a.confidence->strategies[k]->gain.low == Approx(other.confidence->strategies[k]->gain.low).margin(0.5));
  }
  CHECK(a.flights <= 60000);  // the budget of a whole advise with 4 000 draws
}

TEST_CASE("shares of influence are shares", "[confidence]") {
  const Advice a = advise(plain_pupil(), default_setting());
  const auto& influences = a.confidence->influences;
  REQUIRE(influences.size() == kAssumptions);
  double first = 0.0;
  for (std::size_t i = 0; i < influences.size(); ++i) {
    CHECK(influences[i].first < influences[i].total + 0.05);  // 512 points: indices are good to about 0.03
    CHECK(influences[i].total > -0.01);
    if (i > 0) CHECK(influences[i].total <= influences[i - 1].total);
    first += influences[i].first;
  }
  CHECK(first > 0.5);
  CHECK(first < 1.1);
}

TEST_CASE("what both levers share does not lead the assumptions", "[confidence]") {
  Pupil pupil = plain_pupil();
  pupil.spread = Spread{};
  AdviseOptions options;
  options.widths = kNothing;  // drag moves every drive, follow technique's alone
  options.widths.drag_scale = 0.03;
  options.widths.follow_below = options.widths.follow_above = 0.4;
  const Advice a = advise(pupil, default_setting(), options);
  const auto& influences = a.confidence->influences;
  CHECK(influences[0].assumption == Assumption::follow);
  CHECK(influences[1].assumption == Assumption::drag);
  CHECK(influences[0].total > 0.9);
}

TEST_CASE("a verdict on the edge turns with the three assumptions that matter most", "[confidence]") {
  Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  // Nine draws in ten just reach what is worthwhile: the least move the wrong way undoes the verdict.
  pupil.worthwhile = advise(pupil, setting).confidence->at(StrategyKind::technique_only)->gain.low - 0.01;
  const Advice a = advise(pupil, setting);
  int named = 0;
  for (const Influence& i : a.confidence->influences) {
    CAPTURE(key_of(i.assumption), key_of(a.verdict), named);
    const bool can_turn = i.assumption != Assumption::shots && i.assumption != Assumption::measured_strike &&
                          i.assumption != Assumption::turf_bounce && i.assumption != Assumption::turf_roll;
    if (can_turn && ++named <= 3) {
      REQUIRE(i.flips_at);
      CHECK(*i.flips_at != i.taken);
      CHECK(i.becomes != a.verdict);
    } else {
      CHECK_FALSE(i.flips_at);
    }
  }
}

TEST_CASE("nothing uncertain, nothing wide", "[confidence]") {
  Pupil pupil = plain_pupil();
  pupil.spread = Spread{};
  AdviseOptions options;
  options.widths = kNothing;
  options.draws = options.part_draws = 64;
  const Advice a = advise(pupil, default_setting(), options);
  for (std::size_t k = 1; k < 4; ++k) {
    const auto& c = *a.confidence->strategies[k];
    CHECK(c.gain.low == Approx(a.strategies[k].gain).margin(1e-3));
    CHECK(c.gain.high == Approx(a.strategies[k].gain).margin(1e-3));
    CHECK(c.expected_advantage == Approx(0.0).margin(1e-3));
  }
  CHECK(a.confidence->measuring.everything == Approx(0.0).margin(1e-3));
}

TEST_CASE("the widths are those docs/verdict.md gives", "[confidence]") {
  const ErrorWidths w;
  CHECK(w.drag_scale == Approx(0.03));
  CHECK(w.lift_scale == Approx(0.06));
  CHECK(w.restitution == Approx(0.010));
  CHECK(w.tangential_restitution == Approx(0.05));
  CHECK(w.turf_tilt == Approx(2.5 * kDeg));
  CHECK(w.turf_restitution == Approx(0.20));
  CHECK(w.turf_rolling == Approx(0.35));
  CHECK(w.turf_grass == Approx(0.65));
  CHECK(w.turf_tilt_speed == Approx(0.5));
  CHECK(w.turf_rise_below == Approx(0.3));
  CHECK(w.turf_rise_above == Approx(0.2));
  CHECK(w.turf_friction_below == Approx(0.5));
  CHECK(w.follow_below == Approx(0.4));
  CHECK(w.follow_above == Approx(0.4));
  CHECK(w.speed_per_attack == Approx(0.15 * kMph / kDeg));
}

TEST_CASE("with one thing uncertain, intervals end at that thing's own quantiles", "[confidence]") {
  // Of draws of one thing alone that moves a gain one way, 10 % lie beyond its own 10 % point. kEnd: the normal's, 90 %.
  constexpr double kEnd = 1.2815515655;
  const Setting setting = default_setting();
  AdviseOptions certain;
  certain.widths = kNothing;
  certain.draws = certain.part_draws = 1024;
  certain.influence_draws = certain.measuring_draws = 0;
  Pupil plain = plain_pupil();
  plain.spread = Spread{};
  plain.measured_shots = 4;
  const Truth nominal = nominal_truth(plain);

  // `move` turns the truth by so many standard deviations; `of_all`, ...: by how many the intervals' ends lie off.
  const auto held = [&](const std::string& what, const Pupil& pupil, const ErrorWidths& widths, double of_all, double of_shots,
                        double of_knowledge, const std::function<void(Truth&, double)>& move) {
    AdviseOptions options = certain;
    options.widths = widths;
    const Advice a = advise(pupil, setting, options);
    for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only}) {
      const Strategy& s = a.at(kind);
      const auto gain_at = [&](double z) {
        Truth t = nominal;
        move(t, z);
        return true_goal(pupil, setting, s.loft, s.attack, t) - true_goal(pupil, setting, pupil.club_loft, pupil.delivery.attack, t);
      };
      const auto ends_at = [&](const Interval80& said, double sds) {
        const double one = gain_at(-sds * kEnd), other = gain_at(sds * kEnd);
        CAPTURE(what, key_of(kind), sds, said.low, said.high, one, other);
        const double near = 0.02 * std::abs(one - other) + 0.02;  // 1024 points; [m] what the draws' flights may be off
        CHECK(said.low == Approx(std::min(one, other)).margin(near));
        CHECK(said.high == Approx(std::max(one, other)).margin(near));
      };
      const auto& c = *a.confidence->at(kind);
      ends_at(c.gain, of_all);
      ends_at(c.gain_shots, of_shots);
      ends_at(c.gain_knowledge, of_knowledge);
    }
  };
  const auto unknown = [&](const std::string& what, double ErrorWidths::*width, double sd, Goal goal,
                           const std::function<void(Truth&, double)>& move) {
    ErrorWidths widths = certain.widths;
    widths.*width = sd;
    Pupil pupil = plain;
    pupil.goal = goal;
    held(what, pupil, widths, 1.0, 0.0, 1.0, move);
  };
  unknown("drag", &ErrorWidths::drag_scale, 0.03, Goal::carry, [](Truth& t, double z) { t.error.drag_scale += 0.03 * z; });
  unknown("lift", &ErrorWidths::lift_scale, 0.06, Goal::carry, [](Truth& t, double z) { t.error.lift_scale += 0.06 * z; });
  unknown("restitution", &ErrorWidths::restitution, 0.03, Goal::carry, [](Truth& t, double z) { t.error.restitution += 0.03 * z; });
  unknown("tangential", &ErrorWidths::tangential_restitution, 0.2, Goal::carry,
          [](Truth& t, double z) { t.error.tangential_restitution += 0.2 * z; });
  unknown("tilt", &ErrorWidths::turf_tilt, 0.02, Goal::total, [](Truth& t, double z) { t.error.turf.tilt += 0.02 * z; });
  unknown("bounce", &ErrorWidths::turf_restitution, 0.2, Goal::total, [](Truth& t, double z) { t.error.turf.restitution *= std::pow(1.2, z); });
  unknown("rolling", &ErrorWidths::turf_rolling, 0.35, Goal::total, [](Truth& t, double z) { t.error.turf.rolling *= std::pow(1.35, z); });
  unknown("grass", &ErrorWidths::turf_grass, 0.65, Goal::total, [](Truth& t, double z) { t.error.turf.grass *= std::pow(1.65, z); });
  unknown("fading", &ErrorWidths::turf_tilt_speed, 0.5, Goal::total, [](Truth& t, double z) { t.error.turf.tilt_speed *= std::pow(1.5, z); });
  unknown("speed", &ErrorWidths::speed_per_attack, 10.0, Goal::carry, [](Truth& t, double z) { t.speed_per_attack += 10.0 * z; });
  // Half a triangle: a tenth of all draws lies beyond where its height and width are sqrt(0.2) of the whole.
  const auto follow_off = [](double reach) {
    return [reach](Truth& t, double z) { t.follow += (z < 0.0 ? -0.3 : reach) * (z == 0.0 ? 0.0 : 1.0 - std::sqrt(0.2)); };
  };
  ErrorWidths follow = certain.widths;
  follow.follow_below = 0.3;
  follow.follow_above = 0.2;
  held("follow", plain, follow, 1.0, 0.0, 1.0, follow_off(0.2));
  follow.follow_above = 0.9;  // no further than kMostFollow
  held("follow to its end", plain, follow, 1.0, 0.0, 1.0, follow_off(kMostFollow - plain.reach.follow));

  // The means of four shots are known to half a standard deviation.
  const auto scattered = [&](const std::string& what, double Spread::*which, double sd, std::size_t i) {
    Pupil pupil = plain;
    (*pupil.spread).*which = sd;
    held(what, pupil, certain.widths, std::sqrt(1.25), 1.0, 0.5, [i](Truth& t, double z) { t.shot[i] = z; });
  };
  scattered("club speed", &Spread::club_speed, 1.0, 0);
  scattered("attack", &Spread::attack, 1.0 * kDeg, 1);
  scattered("dynamic loft", &Spread::dynamic_loft, 1.0 * kDeg, 4);
}

TEST_CASE("expected and mean gain are means over the scatter", "[confidence]") {
  Pupil pupil = plain_pupil();
  pupil.lofts = {loft_range(7, 18, 9.5)};
  pupil.spread = Spread{};
  pupil.spread->dynamic_loft = 2.0 * kDeg;
  const Setting setting = default_setting();
  AdviseOptions options;
  options.influence_draws = options.measuring_draws = 0;
  options.part_draws = 4096;
  options.expected_draws = 1024;
  const Advice a = advise(pupil, setting, options);
  const Strategy& s = a.at(StrategyKind::loft_only);
  const auto& c = *a.confidence->at(StrategyKind::loft_only);
  double mean = 0.0, expected = 0.0;
  constexpr int kPoints = 400;
  for (int i = 0; i < kPoints; ++i) {
    Truth t = nominal_truth(pupil);
    t.shot[4] = normal_quantile((i + 0.5) / kPoints);
    const double now = true_goal(pupil, setting, pupil.club_loft, pupil.delivery.attack, t);
    mean += (true_goal(pupil, setting, s.loft, s.attack, t) - now) / kPoints;
    expected += (true_goal(pupil, setting, c.expected_loft, c.expected_attack, t) - now) / kPoints;
  }
  // Some 15 m of scatter, whose outermost of a thousand points may lie a standard deviation from where it should.
  CHECK(c.gain_shots.mean == Approx(mean).margin(0.05));
  CHECK(c.expected_gain == Approx(expected).margin(0.05));
}

TEST_CASE("deciding for scattered drives beats deciding for the perfect one, on drives not seen", "[confidence]") {
  Pupil pupil = plain_pupil();
  pupil.lofts = {loft_range(7, 18, 9.5)};
  pupil.spread = usual_spread(Skill::high_handicap, pupil.delivery.club_speed);
  const Setting setting = default_setting();
  AdviseOptions options;
  options.influence_draws = options.measuring_draws = 0;
  options.expected_draws = 256;
  const Advice a = advise(pupil, setting, options);
  const auto& c = *a.confidence->at(StrategyKind::loft_only);
  const Strategy& perfect = a.at(StrategyKind::loft_only);
  CHECK(c.expected_advantage >= -1e-3);
  std::mt19937 random(5);
  double difference = 0.0;
  constexpr int kDrives = 4000;
  for (int i = 0; i < kDrives; ++i) {
    Truth t = draw_truth(pupil, ErrorWidths{}, random);
    t.error = {};
    t.follow = pupil.reach.follow;
    t.speed_per_attack = pupil.reach.speed_per_attack;
    for (double& x : t.mean_off) x = 0.0;
    difference += true_goal(pupil, setting, c.expected_loft, c.expected_attack, t) - true_goal(pupil, setting, perfect.loft, perfect.attack, t);
  }
  CHECK(difference / kDrives == Approx(c.expected_advantage).margin(0.05));
  CHECK(difference / kDrives > -0.02);
}

TEST_CASE("deciding for scattered drives tries the next club, in whatever order they are listed", "[confidence]") {
  Pupil pupil = plain_pupil();
  pupil.delivery.club_speed = 100.0 * kMph;
  pupil.delivery.attack = 2.0 * kDeg;
  pupil.delivery.dynamic_loft = 12.0 * kDeg;
  pupil.spread = usual_spread(Skill::high_handicap, pupil.delivery.club_speed);
  pupil.lofts.clear();
  for (int i = 0; i <= 40; ++i) pupil.lofts.push_back({(8.0 + 0.25 * i) * kDeg, (8.0 + 0.25 * i) * kDeg, 9.5 * kDeg, 0.0, i == 6});
  AdviseOptions options;
  options.influence_draws = options.measuring_draws = 0;
  for (int order = 0; order < 2; ++order) {
    const Advice a = advise(pupil, default_setting(), options);
    const auto& c = *a.confidence->at(StrategyKind::loft_only);
    CAPTURE(order, c.expected_advantage);
    // Scatter costs less with more loft here: the next club is 0.27 m longer, as drives drawn by another hand are (above).
    CHECK(c.expected_loft == Approx(a.at(StrategyKind::loft_only).loft + 0.25 * kDeg));
    CHECK(c.expected_advantage > 0.1);
    std::reverse(pupil.lofts.begin(), pupil.lofts.end());
  }
}

TEST_CASE("the verdict's rules at their edges", "[confidence]") {
  constexpr double kWorth = 3.0;
  // 1000 draws, evenly spread over [middle - 5, middle + 5]: the 10 % point lies at middle - 4.
  const auto draws = [](double loft, double technique, double both) {
    std::vector<Gains> all;
    for (int i = 0; i < 1000; ++i) {
      const double noise = (i + 0.5) / 100.0 - 5.0;
      all.push_back({loft + noise, technique + noise, both + noise});
    }
    return all;
  };
  const double none = -std::numeric_limits<double>::infinity();
  CHECK(rule(draws(6.98, 0, 6.98), kWorth).lever == Lever::leave);      // low ends just under 3
  CHECK(rule(draws(7.02, 0, 7.02), kWorth).lever == Lever::loft);       // just over
  CHECK(rule(draws(0, 7.02, 7.02), kWorth).lever == Lever::technique);
  CHECK(rule(draws(7.02, none, 7.02), kWorth).lever == Lever::loft);    // the other lever cannot be had
  CHECK(rule(draws(none, none, none), kWorth).lever == Lever::leave);
  CHECK(rule(draws(8, 8.5, 9), kWorth).lever == Lever::technique);      // the same draws: always longer
  CHECK(rule(draws(8, 8, 10.9), kWorth).lever == Lever::loft);          // never longer: ties do not count for technique
  CHECK(rule(draws(8, 8, 11.01), kWorth).lever == Lever::both);         // the second lever is worth 3 more
  CHECK(rule(draws(5, 5, 7.5), kWorth).lever == Lever::both);           // only together are they sure
  // How likely what the verdict says is, counted by hand: of draws a hundredth apart, those with a gain of 3, or without.
  CHECK(rule(draws(7.02, 0, 7.02), kWorth).probability == Approx(0.902));
  CHECK(rule(draws(0, 7.02, 7.02), kWorth).probability == Approx(0.902));
  CHECK(rule(draws(6.98, 0, 6.98), kWorth).probability == Approx(0.102));
  CHECK(rule(draws(5, 5, 7.5), kWorth).probability == Approx(0.95));
  // Independent noise in the two levers: P(technique longer) is known for uniform noise.
  const auto independent = [](double lead, double level = 20.0) {
    std::vector<Gains> all;
    for (int i = 0; i < 100; ++i) {
      for (int j = 0; j < 100; ++j) {
        const double a = (i + 0.5) / 10 - 5, b = (j + 0.5) / 10 - 5;
        all.push_back({level + a, level + lead + b, level});
      }
    }
    return all;
  };
  // P(lead + b > a) = 1 - (10 - lead)^2 / 200; it passes 0.8 at lead = 10 - sqrt(40) = 3.675.
  CHECK(rule(independent(3.5), kWorth).lever == Lever::either);
  CHECK(rule(independent(3.8), kWorth).lever == Lever::technique);
  CHECK(rule(independent(-3.8), kWorth).lever == Lever::loft);
  CHECK(rule(independent(-3.8), kWorth).probability == Approx(1 - 6.2 * 6.2 / 200).margin(0.01));
  CHECK(rule(independent(0.0, 7.05), kWorth).lever == Lever::either);
  CHECK(rule(independent(0.0, 7.05), kWorth).probability == Approx(0.91 * 0.91));  // each worth it in 91 of 100
  CHECK(rule(independent(5.0), kWorth).probability == Approx(1 - 25.0 / 200).margin(0.01));
}

TEST_CASE("a verdict turns where the toy says it turns", "[confidence]") {
  // Technique gains 10 + 4 z, loft 12, z the quantile's normal deviate: technique is longer from z = 0.5 on.
  const auto toy = [](double p) { return 10 + 4 * normal_quantile(p) > 12 ? Lever::technique : Lever::loft; };
  const auto turn = nearest_turn(toy, Lever::loft);
  REQUIRE(turn);
  CHECK(turn->becomes == Lever::technique);
  CHECK(normal_quantile(turn->quantile) == Approx(0.5).margin(0.01));
  // On the other side, and the nearer of two.
  const auto two = [](double p) { return p < 0.2 ? Lever::leave : p > 0.7 ? Lever::both : Lever::loft; };
  CHECK(nearest_turn(two, Lever::loft)->quantile == Approx(0.7).margin(0.003));
  CHECK(nearest_turn(two, Lever::loft)->becomes == Lever::both);
  CHECK_FALSE(nearest_turn([](double) { return Lever::both; }, Lever::both));
}

TEST_CASE("correlations: used when possible, refused when not", "[confidence]") {
  Pupil pupil = plain_pupil();
  pupil.spread = usual_spread(Skill::mid_handicap, pupil.delivery.club_speed);
  AdviseOptions options;
  options.influence_draws = options.measuring_draws = 0;
  const auto width = [&] {
    const Interval80 c = advise(pupil, default_setting(), options).confidence->at(StrategyKind::loft_only)->gain_shots;
    return c.high - c.low;
  };
  const double apart = width();
  // Attack and delivered loft that rise together keep the spin loft: the gain scatters differently than when apart.
  pupil.spread->correlations = {{1, 4, 0.9}};
  CHECK(std::abs(width() - apart) > 0.05);
  pupil.spread->correlations = {{0, 1, 0.9}, {1, 4, 0.9}, {0, 4, -0.9}};
  CHECK_THROWS_AS(width(), InputError);
}

TEST_CASE("more effort on the front always gains more", "[confidence]") {
  Pupil pupil = plain_pupil();
  pupil.delivery.toe = 0.015;
  pupil.reach.options = {{"strike nearer the middle", 3.0, Delivery{.toe = -0.012}},
                         {"eight weeks of strength and stretching", 6.0, Delivery{.club_speed = 1.0}},
                         {"something that costs yards", 1.0, Delivery{.club_speed = -1.0}},
                         {"a little less for the same effort", 3.0, Delivery{.club_speed = 0.3}},
                         {"some 5 cm, no difference", 0.5, Delivery{.club_speed = 0.01}}};
  AdviseOptions options;
  options.draws = 0;
  const Advice a = advise(pupil, default_setting(), options);
  REQUIRE(a.effort_front.size() > 4);
  for (std::size_t i = 0; i < a.effort_front.size(); ++i) {
    if (i > 0) CHECK(a.effort_front[i].effort > a.effort_front[i - 1].effort);
    if (i > 0) CHECK(a.effort_front[i].gain > a.effort_front[i - 1].gain + 0.1);
    for (const std::size_t option : a.effort_front[i].options) CHECK(option != 2);
  }
  CHECK(a.effort_front.front().effort == 0.0);
  CHECK(a.effort_front.front().gain == Approx(a.at(StrategyKind::loft_only).gain).margin(1e-3));
  CHECK(a.effort_front.back().options.size() >= 3);
}
