// The rule of the verdict, and where a verdict turns, against docs/verdict.md applied by hand.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <optional>
#include <random>

#include "loftwright/advise/advise.hpp"

using namespace loftwright;

namespace {

// A steady step between two words at each of some quantiles: below the first, between, ..., above the last.
struct Steps {
  std::vector<double> ends;
  std::vector<Lever> words;
  Lever operator()(double quantile) const {
    const auto at = std::upper_bound(ends.begin(), ends.end(), quantile) - ends.begin();
    return words[static_cast<std::size_t>(at)];
  }
};

double mean_of(const std::vector<float>& values) {
  double sum = 0.0;
  for (const float v : values) sum += v;
  return sum / static_cast<double>(values.size());
}

NetGains choice(Lever lever, std::vector<float> net) {
  const double mean = mean_of(net);
  return {lever, std::move(net), mean};
}

// Always the same.
NetGains steady(Lever lever, double net, std::size_t draws = 10) {
  return {lever, std::vector<float>(draws, static_cast<float>(net)), net};
}

bool single(Lever lever) { return lever == Lever::loft || lever == Lever::technique; }

// docs/verdict.md, "The rule", word by word.
Verdict by_the_page(const std::vector<NetGains>& choices) {
  Verdict v;
  const NetGains* leader = nullptr;
  const NetGains* next = nullptr;
  for (const NetGains& c : choices) {
    if (!leader || c.mean > leader->mean) leader = &c;
  }
  for (const NetGains& c : choices) {
    if (&c != leader && (!next || c.mean > next->mean)) next = &c;
  }
  v.lever = v.leader = leader->lever;
  if (next) v.runner_up = next->lever;
  for (const NetGains& c : choices) {
    if (single(leader->lever) && single(c.lever) && &c != leader && c.mean > 0.0 && c.mean >= leader->mean - 0.9144)
      v.lever = Lever::either;
  }
  const std::size_t draws = leader->net.size();
  std::size_t good = 0;
  for (std::size_t i = 0; i < draws; ++i) {
    double lost = 0.0;
    for (const NetGains& c : choices)
      lost = std::max(lost, static_cast<double>(c.net[i]) - static_cast<double>(leader->net[i]));
    good += lost <= 0.9144 ? 1 : 0;
    v.regret += lost / static_cast<double>(draws);
  }
  v.probability = static_cast<double>(good) / static_cast<double>(draws);
  v.certainty = v.probability >= 0.9 ? Certainty::sure : v.probability >= 0.7 ? Certainty::likely : Certainty::close;
  if (v.lever == Lever::both) {
    const NetGains* first = nullptr;
    for (const NetGains& c : choices) {
      if (single(c.lever) && (!first || c.mean > first->mean)) first = &c;
    }
    if (first) v.first_step = first->lever;
  }
  return v;
}

}  // namespace

TEST_CASE("the rule rules as docs/verdict.md has it, whatever the draws", "[advise]") {
  std::mt19937_64 random(8);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> uniform(0.0, 1.0);
  constexpr Lever kAll[] = {Lever::leave, Lever::loft, Lever::technique, Lever::both};
  int given[5] = {}, called[3] = {};
  for (int i = 0; i < 4000; ++i) {
    // Middles near each other and near nothing, so that every step is met from both sides.
    const double shared_sd = 2.0 * uniform(random), own_sd = 1.5 * uniform(random);
    std::vector<NetGains> choices;
    std::vector<double> shared;
    for (int k = 0; k < 50; ++k) shared.push_back(shared_sd * normal(random));
    for (std::size_t which = 0; which < 4; ++which) {
      if (i % 9 == static_cast<int>(which)) continue;  // not to be had
      const double middle = 3.0 * uniform(random) - 1.0;
      std::vector<float> net;
      for (const double s : shared)
        net.push_back(which == 0 ? 0.0f : static_cast<float>(middle + s + own_sd * normal(random)));
      choices.push_back(choice(kAll[which], std::move(net)));
    }
    const Verdict said = rule(choices), right = by_the_page(choices);
    CAPTURE(i, key_of(said.lever), key_of(right.lever), said.probability, right.probability);
    CHECK(said.lever == right.lever);
    CHECK(said.leader == right.leader);
    CHECK(said.runner_up == right.runner_up);
    CHECK(said.first_step == right.first_step);
    CHECK(said.certainty == right.certainty);
    CHECK(said.probability == Approx(right.probability).margin(1e-12));
    CHECK(said.regret == Approx(right.regret).margin(1e-6));  // sums of floats of a few metres
    ++given[static_cast<int>(right.lever)];
    ++called[static_cast<int>(right.certainty)];
  }
  for (int k = 0; k < 5; ++k) {
    CAPTURE(k);
    CHECK(given[k] > 50);
  }
  for (int k = 0; k < 3; ++k) {
    CAPTURE(k);
    CHECK(called[k] > 50);
  }
}

TEST_CASE("either: a single lever leads and the other is within a yard, worth something", "[advise]") {
  const auto lever = [](double loft, double technique) {
    return leaders({{Lever::leave, 0.0}, {Lever::loft, loft}, {Lever::technique, technique}})->lever;
  };
  const double yard = kEqual;
  CHECK(yard == 0.9144);
  CHECK(lever(2.0 * yard, yard) == Lever::either);  // a yard to the last bit: twice a number less itself is exact
  CHECK(lever(yard, 2.0 * yard) == Lever::either);
  CHECK(lever(2.0 * yard + 1e-9, yard) == Lever::loft);
  CHECK(lever(yard, 2.0 * yard + 1e-9) == Lever::technique);
  CHECK(lever(0.5, 1e-9) == Lever::either);
  CHECK(lever(0.5, 0.0) == Lever::loft);  // nothing to gain is no choice
  CHECK(lever(0.5, -0.1) == Lever::loft);
  CHECK(lever(-0.1, -0.2) == Lever::leave);
  // The leader is named first, whichever stands first in the list.
  CHECK(leaders({{Lever::loft, 2.0}, {Lever::technique, 2.5}})->leader == Lever::technique);
  CHECK(leaders({{Lever::technique, 2.0}, {Lever::loft, 2.5}})->leader == Lever::loft);
  // Only single levers are as good as each other.
  CHECK(leaders({{Lever::leave, 0.0}, {Lever::loft, 2.0}, {Lever::both, 2.1}})->lever == Lever::both);
  CHECK(leaders({{Lever::leave, 0.0}, {Lever::loft, 2.1}, {Lever::both, 2.0}})->lever == Lever::loft);
  CHECK(leaders({{Lever::leave, 0.0}, {Lever::loft, 2.0}, {Lever::technique, 1.9}, {Lever::both, 2.1}})->lever ==
        Lever::both);
}

TEST_CASE("what is not feasible is not chosen: without leaving, the least loss is", "[advise]") {
  CHECK_FALSE(leaders({}));
  CHECK(leaders({{Lever::loft, -3.0}, {Lever::technique, -2.5}})->lever == Lever::technique);  // a loss is not "either"
  CHECK(leaders({{Lever::leave, 0.0}, {Lever::loft, -3.0}})->lever == Lever::leave);
  CHECK(leaders({{Lever::both, -1.0}})->lever == Lever::both);
  const Verdict none = rule({});
  CHECK(none.lever == Lever::leave);
  CHECK(none.probability == 0.0);
  CHECK(none.certainty == Certainty::close);
  CHECK_FALSE(none.runner_up);
  const Verdict alone = rule({steady(Lever::both, -1.0)});
  CHECK(alone.lever == Lever::both);
  CHECK(alone.probability == 1.0);
  CHECK(alone.regret == 0.0);
  CHECK_FALSE(alone.runner_up);
  CHECK_FALSE(alone.first_step);
}

TEST_CASE("a tie goes to the one that stands first", "[advise]") {
  CHECK(leaders({{Lever::leave, 0.0}, {Lever::loft, 0.0}})->lever == Lever::leave);
  CHECK(leaders({{Lever::loft, 2.0}, {Lever::technique, 2.0}})->leader == Lever::loft);
  const Verdict v = rule(
      {steady(Lever::leave, 0.0), steady(Lever::loft, 2.0), steady(Lever::technique, 2.0), steady(Lever::both, 2.0)});
  CHECK(v.lever == Lever::either);
  CHECK(v.leader == Lever::loft);
  CHECK(*v.runner_up == Lever::technique);
}

TEST_CASE("sure from nine draws in ten, likely from seven: where nothing else has over a yard more", "[advise]") {
  // Loft gains 2 m; technique the same, and much more in so many of a thousand draws.
  const auto certainty = [](std::size_t more_in, double more) {
    std::vector<float> technique(1000, 2.0f);
    for (std::size_t i = 0; i < more_in; ++i) technique[i] = static_cast<float>(2.0 + more);
    NetGains other{Lever::technique, technique, 1.0};  // behind on average, whatever these draws say
    return rule({steady(Lever::leave, 0.0, 1000), steady(Lever::loft, 2.0, 1000), other});
  };
  CHECK(certainty(0, 5.0).certainty == Certainty::sure);
  CHECK(certainty(100, 5.0).certainty == Certainty::sure);
  CHECK(certainty(100, 5.0).probability == 0.9);
  CHECK(certainty(101, 5.0).certainty == Certainty::likely);
  CHECK(certainty(300, 5.0).certainty == Certainty::likely);
  CHECK(certainty(301, 5.0).certainty == Certainty::close);
  CHECK(certainty(301, 5.0).probability == Approx(0.699));
  // A yard more is no difference; a hair over it is.
  CHECK(certainty(1000, 0.914).probability == 1.0);
  CHECK(certainty(1000, 0.915).probability == 0.0);
  CHECK(key_of(Certainty::sure) == "sure");
  CHECK(key_of(Certainty::likely) == "likely");
  CHECK(key_of(Certainty::close) == "close");
}

TEST_CASE("regret is what the best at each draw has over the leader, on average", "[advise]") {
  const Verdict v = rule({choice(Lever::leave, {0, 0, 0, 0}), choice(Lever::loft, {4, 2, -3, 1}),
                          choice(Lever::technique, {1, 3, -6, 1.5f})});
  CHECK(v.lever == Lever::loft);  // means 1 and -0.125
  CHECK(*v.runner_up == Lever::leave);
  CHECK(v.regret == Approx((0.0 + 1.0 + 3.0 + 0.5) / 4.0));
  CHECK(v.probability == 0.5);  // a metre and three are over a yard
  CHECK(v.certainty == Certainty::close);
}

TEST_CASE("with both, the step with more net gain alone comes first", "[advise]") {
  const auto first = [](std::vector<NetGains> choices) { return rule(choices).first_step; };
  const NetGains leave = steady(Lever::leave, 0.0), both = steady(Lever::both, 9.0);
  CHECK(*first({leave, steady(Lever::loft, 1.0), steady(Lever::technique, 2.0), both}) == Lever::technique);
  CHECK(*first({leave, steady(Lever::loft, 2.0), steady(Lever::technique, 1.0), both}) == Lever::loft);
  CHECK(*first({leave, steady(Lever::loft, 2.0), steady(Lever::technique, 2.0), both}) == Lever::loft);
  CHECK(*first({leave, steady(Lever::technique, -2.0), both}) == Lever::technique);
  CHECK(*first({leave, steady(Lever::loft, -2.0), both}) == Lever::loft);
  CHECK_FALSE(first({leave, both}));
  CHECK_FALSE(first({leave, steady(Lever::loft, 9.5), steady(Lever::technique, 1.0), both}));
}

TEST_CASE("a turn is found to 0.002 wherever it is within two standard deviations, and not beyond", "[advise]") {
  for (int i = 1; i < 1000; ++i) {
    const double at = 0.001 * i + 1e-5;
    const bool above = at > 0.5;
    const Steps one =
        above ? Steps{{at}, {Lever::loft, Lever::technique}} : Steps{{at}, {Lever::technique, Lever::loft}};
    const auto turn = nearest_turn(one, Lever::loft);
    CAPTURE(at);
    // 2.28 % of a normal lie beyond two standard deviations, on either side.
    if (at < 0.0227 || at > 0.9773) {
      CHECK_FALSE(turn);
      continue;
    }
    if (std::abs(at - 0.0228) < 1e-4 || std::abs(at - 0.9772) < 1e-4) continue;
    REQUIRE(turn);
    CHECK(std::abs(turn->quantile - at) <= 0.002);
    CHECK(one(turn->quantile) == Lever::technique);
    CHECK(turn->becomes == Lever::technique);
  }
}

TEST_CASE("of turns either side the nearer is told", "[advise]") {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> part(0.03, 0.97);
  for (int i = 0; i < 2000; ++i) {
    const double below = std::min(0.49, 0.5 * part(random)), above = std::max(0.51, 0.5 + 0.5 * part(random));
    const double to_below = 0.5 - below, to_above = above - 0.5;
    if (std::max(to_below, to_above) > 0.47 || std::abs(to_below - to_above) < 0.005) continue;
    const auto turn = nearest_turn(Steps{{below, above}, {Lever::leave, Lever::loft, Lever::both}}, Lever::loft);
    CAPTURE(below, above);
    REQUIRE(turn);
    CHECK(turn->becomes == (to_below < to_above ? Lever::leave : Lever::both));
    CHECK(std::abs(turn->quantile - (to_below < to_above ? below : above)) <= 0.002);
  }
}

TEST_CASE("what a verdict turns to is what stands at the turn, not further out", "[advise]") {
  for (int i = 0; i < 80; ++i) {
    const double first = 0.51 + 0.005 * i;
    CAPTURE(first);
    const auto up =
        nearest_turn(Steps{{first, first + 0.02}, {Lever::loft, Lever::either, Lever::technique}}, Lever::loft);
    REQUIRE(up);
    CHECK(std::abs(up->quantile - first) <= 0.002);
    CHECK(up->becomes == Lever::either);
    const auto down =
        nearest_turn(Steps{{0.98 - first, 1.0 - first}, {Lever::technique, Lever::either, Lever::loft}}, Lever::loft);
    REQUIRE(down);
    CHECK(std::abs(down->quantile - (1.0 - first)) <= 0.002);
    CHECK(down->becomes == Lever::either);
  }
}
