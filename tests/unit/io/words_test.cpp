#include "loftwright/io/words.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <random>

#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

constexpr UnitSystem kYards = UnitSystem::yards, kMetres = UnitSystem::metres;

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// An answer with numbers of our choosing: as is 9.5 deg at -4, loft only 12 deg, technique only +2, both 12 deg and +2.
Advice answer(Lever verdict, double loft_gain_yd, double technique_gain_yd, double both_gain_yd) {
  Advice a;
  const auto set = [&](StrategyKind kind, double loft_deg, double attack_deg, double gain_yd) {
    Strategy& s = a.strategies[static_cast<std::size_t>(kind)];
    s.kind = kind;
    s.loft = loft_deg * kDeg;
    s.attack = attack_deg * kDeg;
    s.gain = gain_yd * kYard;
  };
  set(StrategyKind::as_is, 9.5, -4, 0);
  set(StrategyKind::loft_only, 12, -4, loft_gain_yd);
  set(StrategyKind::technique_only, 9.5, 2, technique_gain_yd);
  set(StrategyKind::both, 12, 2, both_gain_yd);
  a.verdict = verdict;
  return a;
}

}  // namespace

TEST_CASE("a quantity carries its unit and only the decimals that mean something") {
  CHECK(quantity(Shown::distance, 181.4 * kYard, kYards) == "181 yd");
  CHECK(quantity(Shown::distance, 165.6, kMetres) == "166 m");
  CHECK(quantity(Shown::gain, 5.55 * kYard, kYards, Sign::always) == "+5.5 yd");
  CHECK(quantity(Shown::height, 0.3048 * 92, kYards) == "92 ft");
  CHECK(quantity(Shown::speed, 82 * kMph, kYards) == "82.0 mph");
  CHECK(quantity(Shown::speed, 36.66, kMetres) == "36.7 m/s");
  CHECK(quantity(Shown::angle, -4 * kDeg, kYards) == "-4.0 deg");
  CHECK(quantity(Shown::spin, 2684 * kRpm, kYards) == "2680 rpm");
  CHECK(quantity(Shown::at_address, 4.7 * kInch, kYards) == "4.7 in");
  CHECK(quantity(Shown::at_address, 0.109, kMetres) == "10.9 cm");
  CHECK(quantity(Shown::on_face, -0.008, kYards) == "-8 mm");
  CHECK(quantity(Shown::radius, 1.6, kMetres) == "1.60 m");
  CHECK(quantity(Shown::factor, 1.4672, kYards) == "1.47");
  CHECK(quantity(Shown::time, 5.26, kYards) == "5.3 s");
  CHECK(quantity(Shown::temperature, 293.15, kYards) == "68 F");
  CHECK(quantity(Shown::temperature, 293.15, kMetres) == "20 C");
}

TEST_CASE("there is no minus before a zero, and no plus") {
  CHECK(number(Shown::angle, -0.0, kYards, Sign::always) == "0.0");
  CHECK(number(Shown::angle, -0.04 * kDeg, kYards) == "0.0");
  CHECK(number(Shown::angle, 0.04 * kDeg, kYards, Sign::always) == "0.0");
  CHECK(number(Shown::spin, -4 * kRpm, kYards) == "0");
  CHECK(number(Shown::angle, 0.06 * kDeg, kYards, Sign::always) == "+0.1");
}

TEST_CASE("a number that is not finite is never printed") {
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    CHECK_THROWS_AS(number(Shown::distance, bad, kYards), std::logic_error);
  }
}

TEST_CASE("sides and low points are said in words") {
  CHECK(side_words(3 * kYard, kYards) == "3 yd right");
  CHECK(side_words(-12, kMetres) == "12 m left");
  CHECK(side_words(0.2, kMetres) == "on the target line");
  CHECK(low_point_words(4.7 * kInch, kYards) == "4.7 in ahead of the ball");
  CHECK(low_point_words(-0.109, kMetres) == "10.9 cm behind the ball");
  CHECK(low_point_words(0.0001, kMetres) == "at the ball");
}

TEST_CASE("a limit reads with whichever ends it has") {
  const double open = std::numeric_limits<double>::infinity();
  CHECK(limit_words(Limited::spin, {1800 * kRpm, 3500 * kRpm}, kYards) == "spin between 1800 rpm and 3500 rpm");
  CHECK(limit_words(Limited::landing_angle, {25 * kDeg, open}, kYards) == "landing angle at least 25.0 deg");
  CHECK(limit_words(Limited::carry, {-open, 200 * kYard}, kYards) == "carry at most 200 yd");
}

TEST_CASE("every verdict has its own plain sentence") {
  Pupil pupil = plain_pupil();
  CHECK(verdict_sentence(answer(Lever::technique, 5, 17, 18), pupil, kYards) ==
        "Change the swing, not the club: an attack of +2.0 deg instead of -4.0 deg with the 9.5 deg driver in hand adds 17.0 yd "
        "of carry; the best loft alone (12.0 deg) adds 5.0 yd.");
  CHECK(verdict_sentence(answer(Lever::loft, 17, 5, 18), pupil, kYards) ==
        "Change the loft, not the swing: 12.0 deg instead of 9.5 deg adds 17.0 yd of carry; the best swing alone (attack +2.0 "
        "deg) adds 5.0 yd.");
  CHECK(verdict_sentence(answer(Lever::either, 17, 16, 18), pupil, kYards) ==
        "Either will do: 12.0 deg of loft instead of 9.5 deg adds 17.0 yd of carry, an attack of +2.0 deg instead of -4.0 deg "
        "adds 16.0 yd, and both together add 18.0 yd.");
  CHECK(verdict_sentence(answer(Lever::both, 17, 16, 30), pupil, kYards) ==
        "Change both: 12.0 deg of loft with an attack of +2.0 deg adds 30.0 yd of carry; the best loft alone (12.0 deg) adds "
        "17.0 yd, and the best swing alone (attack +2.0 deg) adds 16.0 yd.");
  CHECK(verdict_sentence(answer(Lever::leave, 1, 0.5, 1.2), pupil, kYards) ==
        "Leave club and swing alone: the most that any loft and swing within reach add is 1.2 yd of carry, and less than 3.0 yd "
        "is not worth a change here.");
  Advice total = answer(Lever::loft, 17, 5, 18);
  total.goal = Goal::total;
  CHECK(contains(verdict_sentence(total, pupil, kMetres), "adds 15.5 m of total distance"));
}

TEST_CASE("the verdict does not compare with a strategy that breaks a limit or changes nothing") {
  Advice a = answer(Lever::technique, 5, 17, 18);
  a.strategies[1].feasible = false;
  CHECK(contains(verdict_sentence(a, plain_pupil(), kYards), "no loft alone meets every limit."));
  a = answer(Lever::loft, 17, 0, 17);
  a.strategies[2].attack = a.strategies[0].attack;
  CHECK(contains(verdict_sentence(a, plain_pupil(), kYards), "no other attack alone adds anything."));
}

TEST_CASE("how sure stands in the sentence, and doubt has a sentence of its own") {
  Advice a = answer(Lever::loft, 17, 5, 18);
  a.confidence.emplace();
  a.confidence->verdict_probability = 0.934;
  CHECK(contains(verdict_sentence(a, plain_pupil(), kYards), "Change the loft, not the swing (93 % sure): 12.0 deg"));
  // A gain worth having that comes too seldom: the sentence must not call it small.
  a = answer(Lever::leave, 4, 5, 6);
  a.confidence.emplace();
  a.confidence->verdict_probability = 0.21;
  a.confidence->strategies[3].emplace();
  a.confidence->strategies[3]->worthwhile_probability = 0.79;
  CHECK(verdict_sentence(a, plain_pupil(), kYards) ==
        "Leave club and swing alone for now: the likeliest change (both) adds 6.0 yd of carry, but 3.0 yd or more come in only 79 % "
        "of drives, where 90 % are asked for.");
  a.confidence->strategies[2].emplace();
  a.confidence->strategies[2]->worthwhile_probability = 0.8997;  // never "90 %, where 90 % are asked for"
  CHECK(verdict_sentence(a, plain_pupil(), kYards) ==
        "Leave club and swing alone for now: the likeliest change (technique only) adds 5.0 yd of carry, but 3.0 yd or more come in "
        "only 89.9 % of drives, where 90 % are asked for.");
}

TEST_CASE("a count of draws proves neither never nor always") {
  CHECK(probability_words(0.0) == "under 1 %");
  CHECK(probability_words(1.0) == "over 99 %");
  CHECK(probability_words(0.99) == "99 %");
  CHECK(probability_words(0.012) == "1 %");
  CHECK(probability_words(0.5) == "50 %");
}

TEST_CASE("what the verdict leans on is told in units people use") {
  Advice a = answer(Lever::loft, 17, 5, 18);
  CHECK(leaning_sentences(a, kYards).empty());
  CHECK(odds_sentences(a).empty());
  CHECK(measuring_sentences(a, kYards).empty());
  a.confidence.emplace();
  a.confidence->influences = {{Assumption::follow, 0.3, 0.41, 0.6, 0.35, Lever::either},
                              {Assumption::shots, 0.2, 0.3, 0.0, std::nullopt, Lever::loft},
                              {Assumption::speed_cost, 0.1, 0.1, 0.0, -0.3 * kMph / kDeg, Lever::leave},
                              {Assumption::drag, 0.1, 0.05, 1.0, std::nullopt, Lever::loft}};
  const auto lines = leaning_sentences(a, kYards);
  REQUIRE(lines.size() == 3);
  CHECK(lines[0] == "how far loft follows a change of attack: 41 % of the doubt; at 0.35 instead of 0.60 the verdict would be 'either'");
  CHECK(lines[1] == "the player's scatter: 30 % of the doubt");
  CHECK(lines[2] ==
        "the speed that a higher attack brings: 10 % of the doubt; at -0.30 mph instead of 0.00 mph a degree the verdict would be "
        "'leave'");
  a.confidence->technique_over_loft = 0.48;
  a.confidence->both_over_loft = 0.97;
  REQUIRE(odds_sentences(a).size() == 2);
  CHECK(odds_sentences(a)[0] == "technique only goes further than loft only in 48 % of drives");
  CHECK(measuring_sentences(a, kYards).front() == "nothing: no measurement would change the choice");
  a.confidence->measuring = {0.5 * kYard, 0.0, 1.2 * kYard, 2.0 * kYard};
  const auto worth = measuring_sentences(a, kYards);
  REQUIRE(worth.size() == 3);
  CHECK(worth[0] == "ten more shots: 0.5 yd");
  CHECK(worth[1] == "a trial lesson: 1.2 yd");
}

TEST_CASE("an infeasible problem names the limit that must give, and by how much") {
  Advice a = answer(Lever::leave, 0, 0, 0);
  a.feasible = false;
  const double open = std::numeric_limits<double>::infinity();
  a.strategies[3].feasible = false;
  a.strategies[3].must_give = LimitState{Limited::spin, 2350 * kRpm, {-open, 2000 * kRpm}, -350 * kRpm, false, true};
  CHECK(verdict_sentence(a, plain_pupil(), kYards) ==
        "No loft and swing within reach meet every limit: spin at most 2000 rpm would have to give by 350 rpm.");
  CHECK(contains(holding_sentences(a, kYards).back(), "both: nothing meets every limit"));
}

TEST_CASE("the verdict's numbers are the strategies' numbers") {
  std::mt19937 random(7);
  for (int i = 0; i < 12; ++i) {
    const Pupil pupil = random_pupil(random);
    AdviseOptions options;
    options.draws = i == 0 ? 256 : 0;
    const Advice a = advise(pupil, default_setting(), options);
    const std::string text = verdict_sentence(a, pupil, kYards);
    INFO(text);
    const Strategy& named = a.verdict == Lever::technique ? a.at(StrategyKind::technique_only)
                            : a.verdict == Lever::loft    ? a.at(StrategyKind::loft_only)
                                                          : a.at(StrategyKind::both);
    CHECK(contains(text, quantity(Shown::gain, named.gain, kYards)));
    CHECK(!contains(text, "-0.0"));
    CHECK(text.find('.') != std::string::npos);
    CHECK(text.find('\n') == std::string::npos);
  }
}

TEST_CASE("one lever in terms of another keeps its sign") {
  Advice a = answer(Lever::both, 1, 1, 2);
  a.rates.attack.carry = 4.0 / kDeg;
  a.rates.loft.carry = -1.0 / kDeg;
  a.rates.club_speed.carry = 2.0 / kMph;
  CHECK(worth_sentence(a, kYards) ==
        "For carry, one degree higher attack, loft following, does what 2.0 mph more club speed does; one degree more loft does what 0.5 mph less "
        "club speed does.");
  a.rates.loft.carry = 0.0;
  CHECK(contains(worth_sentence(a, kYards), "one degree more loft does next to nothing."));
  a.rates.club_speed.carry = 0.0;
  CHECK(worth_sentence(a, kYards).empty());
  CHECK(!worth_in_club_speed(a.rates.attack, a.rates.club_speed, Goal::carry));
}

TEST_CASE("set-up says which way to move") {
  Advice a = answer(Lever::both, 1, 1, 2);
  CHECK(set_up_sentences(a, kYards).empty());
  a.set_up = SetUp{5 * kInch, -4 * kInch, 9 * kInch, -6.5 * kDeg, 6.5 * kDeg, 0.3 * kInch};
  const auto lines = set_up_sentences(a, kYards);
  REQUIRE(lines.size() == 4);
  CHECK(lines[0] == "low point: 5.0 in ahead of the ball now; aim for 4.0 in behind the ball");
  CHECK(lines[1] == "ball: 9.0 in further forward of the low point; move the ball, the low point, or some of each");
  CHECK(lines[2] == "path: moving the low point alone would turn it 6.5 deg to the left; swing 6.5 deg further right to keep it");
  CHECK(lines[3] == "tee: 0.3 in higher, for the ball is struck that far below the middle of the face");
  a.set_up = SetUp{0, 0, 0, 0.04 * kDeg, -0.04 * kDeg, {}};
  CHECK(set_up_sentences(a, kYards).size() == 2);  // nothing of a path that stays, nor of a tee that nobody asked about
}

TEST_CASE("notes say what is doubtful about a drive") {
  const Setting setting = default_setting();
  const Drive slow = drive_from(Launch{5, 70 * kDeg, 0, 12000 * kRpm, 0}, setting);
  REQUIRE(slow.flight.outside_aero_range);
  CHECK(contains(drive_notes(slow, setting.aero, kYards)[0], "outside the data behind the air resistance model 'reference'"));
  const Drive topped = drive_from(Launch{50, -2 * kDeg, 0, 2000 * kRpm, 0}, setting);
  CHECK(contains(drive_notes(topped, setting.aero, kYards)[0], "The ball left level or downwards"));
  const Drive plain = drive_from(Launch{60, 12 * kDeg, 0, 2500 * kRpm, 0}, setting);
  const auto notes = drive_notes(plain, setting.aero, kMetres);
  REQUIRE(notes.size() == 1);
  CHECK(notes[0] == "Run (bounce and roll) is the least certain part: at least 9 m either way.");
}

TEST_CASE("the wind is said from where it blows") {
  Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  CHECK(contains(conditions_words(pupil, setting, kYards), "calm."));
  pupil.conditions.wind.speed = 10 * kMph;
  const auto said = [&](double from_deg) {
    pupil.conditions.wind.from = from_deg * kDeg;
    return conditions_words(pupil, setting, kYards);
  };
  CHECK(contains(said(0), "wind 10.0 mph from ahead."));
  CHECK(contains(said(90), "from the right."));
  CHECK(contains(said(-270), "from the right."));
  CHECK(contains(said(180), "from behind."));
  CHECK(contains(said(270), "from the left."));
  CHECK(contains(said(45), "from +45.0 deg off the target line"));
}

TEST_CASE("the cautions speak of pain, medical advice, warming up, space, the rules and the model") {
  std::string all;
  for (const std::string& caution : cautions(kYards)) all += caution + "\n";
  for (const char* word : {"Pain means stop", "doctor or physiotherapist", "Warm up", "clear space", "conform to the rules",
                           "model's", "10 yd either way"}) {
    INFO(word);
    CHECK(contains(all, word));
  }
}
