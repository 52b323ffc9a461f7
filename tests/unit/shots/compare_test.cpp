#include "loftwright/shots/compare.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;
using Catch::Matchers::Contains;

namespace {

// Invented session: carry in yards and spin in rpm about these means.
ShotList session(unsigned seed, int shots, double carry, double spin, double carry_sd = 8.0, double spin_sd = 300.0) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> c(carry, carry_sd), s(spin, spin_sd);
  ShotList list;
  for (int i = 0; i < shots; ++i) {
    Shot shot;
    shot.line = static_cast<std::size_t>(i) + 2;
    shot.at(Reading::carry) = c(random) * kYard;
    shot.at(Reading::spin) = s(random) * kRpm;
    list.shots.push_back(shot);
  }
  return list;
}

ShotList exactly(std::initializer_list<double> carries_m) {
  ShotList list;
  for (const double carry : carries_m) {
    list.shots.emplace_back();
    list.shots.back().at(Reading::carry) = carry;
  }
  return list;
}

}  // namespace

TEST_CASE("a lesson that worked", "[shots]") {
  const Comparison c = compare_shots(session(1, 25, 170, 3600), session(2, 25, 190, 2900));
  CHECK(c.verdict == CompareVerdict::gain);
  CHECK_FALSE(c.more_shots);
  REQUIRE(c.readings.size() == 2);
  const ComparedReading& carry = *c.find(Reading::carry);
  CHECK(carry.test.low > 0.0);
  CHECK(std::abs(carry.test.difference - 20 * kYard) < 3 * carry.test.standard_error);
  CHECK(std::abs(carry.hedges_g - 20.0 / 8.0) < 1.0);  // 2.5 of a scatter; standard error of g 0.38
  REQUIRE(carry.bootstrap);
  CHECK(std::abs(carry.bootstrap->low - carry.test.low) < 0.4 * carry.test.standard_error);  // normal samples: the two
  CHECK(std::abs(carry.bootstrap->high - carry.test.high) < 0.4 * carry.test.standard_error);  // intervals nearly agree
  const ComparedReading& spin = *c.find(Reading::spin);
  CHECK(spin.test.difference < 0.0);
  CHECK_FALSE(spin.bootstrap);
  CHECK_FALSE(c.find(Reading::launch));
  // Of two, the smaller p is doubled, the larger stays unless the first's overtakes it.
  CHECK(std::min(carry.adjusted_p, spin.adjusted_p) == 2.0 * std::min(carry.test.p, spin.test.p));
  CHECK(std::max(carry.adjusted_p, spin.adjusted_p) >= std::max(carry.test.p, spin.test.p));

  const Comparison back = compare_shots(session(2, 25, 190, 2900), session(1, 25, 170, 3600));
  CHECK(back.verdict == CompareVerdict::loss);
  CHECK(back.find(Reading::carry)->test.difference == -carry.test.difference);
}

TEST_CASE("no real difference yet: how many more shots", "[shots]") {
  const ShotList before = exactly({150, 158, 166, 154, 162}), after = exactly({153, 161, 169, 157, 165});
  const Comparison c = compare_shots(before, after);
  CHECK(c.verdict == CompareVerdict::not_yet);
  REQUIRE(c.more_shots);
  REQUIRE(c.more_shots->each);
  CHECK(std::abs(c.assumed_difference - 3.0) < 1e-9);  // as seen, since it is more than 3 yd
  // Both have a standard deviation of sqrt(40): Cohen's rule of thumb 16 (sd / difference)^2 a side, less the 5 there
  // are.
  const double rough = 16.0 * 40.0 / 9.0 - 5.0;
  INFO(*c.more_shots->each);
  CHECK(std::abs(static_cast<double>(*c.more_shots->each) - rough) < 0.05 * rough);
  CHECK_FALSE(c.more_shots->after);  // five shots before will never do

  const Comparison small = compare_shots(before, exactly({150.5, 158, 166, 154, 162}));
  CHECK(std::abs(small.assumed_difference - 3.0 * 0.9144) < 1e-12);  // less than what matters was seen
}

TEST_CASE("settled: no change that matters", "[shots]") {
  const ShotList many = session(5, 400, 180, 3000, 5.0), more = session(6, 400, 180, 3000, 5.0);
  CHECK(compare_shots(many, more).verdict == CompareVerdict::no_change);
  CHECK(compare_shots(many, more, {.worthwhile = 0.1}).verdict == CompareVerdict::not_yet);
}

TEST_CASE("what cannot be compared is said", "[shots]") {
  ShotList before = exactly({150, 158}), after = exactly({153});
  Comparison c = compare_shots(before, after);
  CHECK(c.verdict == CompareVerdict::not_measured);
  CHECK(c.readings.empty());
  REQUIRE(c.not_compared.size() == 1);
  CHECK(c.not_compared[0].reading == Reading::carry);
  CHECK(c.not_compared[0].why == "2 readings before, 1 after; at least two of each are needed");

  c = compare_shots(exactly({150, 150}), exactly({151, 151}));
  REQUIRE(c.not_compared.size() == 1);
  CHECK_THAT(c.not_compared[0].why, Contains("does not vary"));
  CHECK(compare_shots({}, {}).not_compared.empty());
  CHECK(compare_shots(before, exactly({153, 170}), {.goal = Goal::total}).verdict == CompareVerdict::not_measured);
  CHECK_THROWS_AS(compare_shots(before, before, {.worthwhile = -1.0}), InputError);
  CHECK_THROWS_AS(compare_shots(before, exactly({153, 170}), {.confidence = 1.0}), InputError);
}

TEST_CASE("odd shots may be left out of a comparison", "[shots]") {
  ShotList before = session(7, 20, 180, 3000), after = session(8, 20, 180, 3000);
  after.shots[3].at(Reading::carry) = 30.0;
  after.shots[3].odd = {Reading::carry};
  const Comparison with = compare_shots(before, after),
                   without = compare_shots(before, after, {.odd = Outliers::leave_out});
  CHECK(with.find(Reading::carry)->after.count == 20);
  CHECK(without.find(Reading::carry)->after.count == 19);
  CHECK(without.find(Reading::carry)->after.sd < with.find(Reading::carry)->after.sd);
}

TEST_CASE("where nothing changed, a gain is found no more often than the confidence allows", "[shots]") {
  // 2000 pairs of sessions, two-sided 5 %: gain and loss together 100 expected, standard deviation 9.7.
  int gains = 0, losses = 0;
  for (unsigned i = 0; i < 2000; ++i) {
    const Comparison c = compare_shots(session(10000 + i, 8, 180, 3000, 8.0), session(20000 + i, 15, 180, 3000, 14.0),
                                       {.bootstrap = {.resamples = 100}});
    gains += c.verdict == CompareVerdict::gain;
    losses += c.verdict == CompareVerdict::loss;
  }
  INFO(gains << " gains, " << losses << " losses");
  CHECK(std::abs(gains + losses - 100) < 30);
  CHECK(std::abs(gains - losses) < 35);
}

TEST_CASE("every verdict has its key", "[shots]") {
  CHECK(key_of(CompareVerdict::gain) == "gain");
  CHECK(key_of(CompareVerdict::loss) == "loss");
  CHECK(key_of(CompareVerdict::no_change) == "no_change");
  CHECK(key_of(CompareVerdict::not_yet) == "not_yet");
  CHECK(key_of(CompareVerdict::not_measured) == "not_measured");
}

TEST_CASE("what was reached is the measured change over the predicted one", "[shots]") {
  const Comparison c = compare_shots(exactly({100, 102, 104}), exactly({108, 110, 112}));
  const WelchTest& test = c.find(Reading::carry)->test;
  const Reached r = reached(10.0, test);
  CHECK(r.predicted == 10.0);
  CHECK(std::abs(r.share - 0.8) < 1e-12);
  CHECK(std::abs(r.low - test.low / 10.0) < 1e-15);
  CHECK(std::abs(r.high - test.high / 10.0) < 1e-15);
  CHECK_THROWS_WITH(reached(0.0, test), Contains("predicted gain"));
  CHECK_THROWS_WITH(compare_shots(exactly({1, 2}), exactly({1, 2}), {.worthwhile = 50.1}), Contains("0 to 50 m"));
}

TEST_CASE("the same list twice, shared shots, swapped dates and another player are said", "[shots]") {
  const auto said = [](const Comparison& c, const std::string& what) {
    return std::any_of(c.notes.begin(), c.notes.end(),
                       [&](const Note& n) { return n.message.find(what) != std::string::npos; });
  };
  const auto with = [](ShotList list, Reading reading, double value) {
    for (std::size_t i = 0; i < list.shots.size(); ++i)
      list.shots[i].at(reading) = value + 0.1 * static_cast<double>(i % 3);
    return list;
  };
  const auto dated = [](ShotList list, const std::string& day) {
    for (Shot& shot : list.shots) shot.date = day;
    return list;
  };
  const ShotList one = with(session(1, 12, 170, 3000), Reading::club_speed, 36.0),
                 two = with(session(2, 12, 175, 2900), Reading::club_speed, 37.0);
  CHECK(compare_shots(one, two).notes.empty());
  CHECK(said(compare_shots(one, one), "both lists hold the very same shots"));
  ShotList both = two;
  both.shots.insert(both.shots.end(), one.shots.begin(), one.shots.begin() + 5);
  CHECK(said(compare_shots(one, both), "5 shots stand in both lists, number for number"));
  // Days however they are written, and only when no way to read them puts them right.
  const std::string swapped = "are the two swapped?";
  for (const auto& [early, late] : {std::pair{"2026-03-14", "2026-11-04"},
                                    {"14.03.2026 10:30", "04.11.2026 9:00"},
                                    {"3/14/26", "11/4/26"},
                                    {"14/3/2026", "4/11/2026"}}) {
    INFO(early << " and " << late);
    CHECK(said(compare_shots(dated(one, late), dated(two, early)), swapped));
    CHECK_FALSE(said(compare_shots(dated(one, early), dated(two, late)), swapped));
    CHECK_FALSE(said(compare_shots(dated(one, late), dated(two, late)), swapped));
  }
  CHECK_FALSE(said(compare_shots(dated(one, "04/05/2026"), dated(two, "05/04/2026")),
                   swapped));  // April and May, or May and April
  CHECK_FALSE(said(compare_shots(dated(one, "Tuesday"), dated(two, "Monday")), swapped));
  CHECK_FALSE(said(compare_shots(dated(one, "2026-13-45"), dated(two, "2026-01-01")), swapped));
  // 82 against 102 mph; a season's gain is another thing.
  const double mph = 0.44704;
  const ShotList slow = with(one, Reading::club_speed, 82 * mph);
  CHECK(said(compare_shots(slow, with(two, Reading::club_speed, 102 * mph)),
             "club speed is 24 % higher in the second list: no player changes so much"));
  CHECK(said(compare_shots(with(two, Reading::club_speed, 102 * mph), slow), "club speed is 20 % lower"));
  CHECK_FALSE(said(compare_shots(slow, with(two, Reading::club_speed, 90 * mph)), "no player"));
  const ShotList ball = with(session(1, 12, 170, 3000), Reading::ball_speed, 118 * mph);
  CHECK(said(compare_shots(ball, with(session(2, 12, 175, 2900), Reading::ball_speed, 148 * mph)),
             "ball speed is 25 % higher"));
}
