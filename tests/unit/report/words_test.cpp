#include "loftwright/report/words.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "answers.hpp"
#include "loftwright/report/advice_words.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {}  // namespace

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
  CHECK(limit_words(Limited::landing_angle, {25 * kDeg, open}, kYards) == "descent angle at least 25.0 deg");
  CHECK(limit_words(Limited::carry, {-open, 200 * kYard}, kYards) == "carry at most 200 yd");
}

TEST_CASE("every verdict has its own plain sentence") {
  CHECK(verdict_sentence(answer(Lever::technique, 5, 17, 18), kYards) ==
        "Change the technique, not the loft: an attack of +2.0 deg instead of -4.0 deg with the 9.5 deg driver in hand "
        "adds 17.0 yd "
        "of carry to the average drive; the best loft alone (12.0 deg) adds 5.0 yd.");
  CHECK(verdict_sentence(answer(Lever::loft, 17, 5, 18), kYards) ==
        "Change the loft, not the technique: 12.0 deg instead of 9.5 deg adds 17.0 yd of carry to the average drive; "
        "the best technique "
        "alone (attack +2.0 deg) adds 5.0 yd.");
  CHECK(verdict_sentence(answer(Lever::either, 17, 16, 18), kYards) ==
        "Either will do: 12.0 deg of loft instead of 9.5 deg adds 17.0 yd of carry to the average drive, or an attack "
        "of +2.0 deg "
        "instead of -4.0 deg adds 16.0 yd of carry to the average drive.");
  Advice both = answer(Lever::both, 17, 16, 30);
  both.verdict.first_step = Lever::loft;
  CHECK(verdict_sentence(both, kYards) ==
        "Change both: 12.0 deg of loft with an attack of +2.0 deg adds 30.0 yd of carry to the average drive. Start "
        "with the loft: "
        "the best loft alone (12.0 deg) adds 17.0 yd.");
  both.verdict.first_step = Lever::technique;
  CHECK(contains(verdict_sentence(both, kYards),
                 " Start with the technique: the best technique alone (attack +2.0 deg) adds 16.0 yd."));
  both.verdict.first_step.reset();
  CHECK_FALSE(contains(verdict_sentence(both, kYards), "Start"));
  CHECK(verdict_sentence(answer(Lever::leave, 1, 0.5, 1.2), kYards) ==
        "Change neither loft nor technique: the best change, loft alone, adds 1.0 yd of carry to the average drive and "
        "would have to add "
        "more than 3.0 yd to be worth it.");
  Advice total = answer(Lever::loft, 17, 5, 18);
  total.goal = Goal::total;
  CHECK(contains(verdict_sentence(total, kMetres), "adds 15.5 m of total distance to the average drive"));
}

TEST_CASE("of either, the leader is named first") {
  const std::string text = verdict_sentence(answer(Lever::either, 16, 17, 18), kYards);
  INFO(text);
  CHECK(contains(text, "Either will do: an attack of +2.0 deg"));
  CHECK(text.find("an attack of") < text.find(", or 12.0 deg of loft"));
}

TEST_CASE("leaving says which change comes nearest, or that there is none") {
  Advice a = answer(Lever::leave, 1, 2.5, 5);  // left over: -2, -0.5 and -2 yd
  CHECK(contains(verdict_sentence(a, kYards), "the best change, technique alone, adds 2.5 yd"));
  CHECK(contains(
      verdict_sentence(answer(Lever::leave, 1, 1, 6.5), kYards),
      "the best change, both, adds 6.5 yd of carry to the average drive and would have to add more than 7.0 yd"));
  // What breaks a limit is no change that could be made.
  for (Choice& c : a.choices) c.feasible = c.lever != Lever::technique;
  CHECK_FALSE(contains(verdict_sentence(a, kYards), "technique alone"));
  std::erase_if(a.choices, [](const Choice& c) { return c.lever != Lever::leave; });
  CHECK(verdict_sentence(a, kYards) ==
        "Change neither loft nor technique: nothing else that is within reach adds anything.");
}

TEST_CASE("the verdict does not compare with a strategy that breaks a limit or changes nothing") {
  Advice a = answer(Lever::technique, 5, 17, 18);
  a.strategies[StrategyKind::loft_only].feasible = false;
  CHECK(contains(verdict_sentence(a, kYards), "no loft alone meets every limit."));
  a = answer(Lever::technique, 0, 17, 17);
  a.strategies[StrategyKind::loft_only].loft = a.strategies[StrategyKind::as_is].loft;
  CHECK(contains(verdict_sentence(a, kYards), "no other loft alone adds anything."));
  a = answer(Lever::loft, 17, 0, 17);
  a.strategies[StrategyKind::technique_only].attack = a.strategies[StrategyKind::as_is].attack;
  CHECK(contains(verdict_sentence(a, kYards), "no other attack alone adds anything."));
  a.strategies[StrategyKind::technique_only].feasible = false;
  CHECK(contains(verdict_sentence(a, kYards), "no change of technique alone meets every limit."));
  // One that loses a little is no change either, but where the swing as it is breaks a limit.
  a = answer(Lever::loft, 17, -0.1, 17);
  CHECK(contains(verdict_sentence(a, kYards), "no other attack alone adds anything."));
  a = answer(Lever::technique, -0.1, 17, 17);
  CHECK(contains(verdict_sentence(a, kYards), "no other loft alone adds anything."));
}

TEST_CASE("how sure stands in the sentence, and between which gains") {
  Advice a = answer(Lever::loft, 17, 5, 18);
  judge(a, Certainty::sure, 0.934);
  CHECK(contains(verdict_sentence(a, kYards),
                 "Change the loft, not the technique (sure, 93 %): 12.0 deg instead of 9.5 deg adds 17.0 yd of carry "
                 "to the average drive "
                 "(+13 to +21); the best"));
  judge(a, Certainty::likely, 0.78);
  CHECK(contains(verdict_sentence(a, kYards), "(likely, 78 %)"));
  CHECK_FALSE(contains(verdict_sentence(a, kYards), "Next best"));
  for (const Lever lever : {Lever::technique, Lever::either, Lever::both, Lever::leave}) {
    a = answer(lever, 17, 5, 18);
    judge(a, Certainty::sure, 1.0);
    CHECK(contains(verdict_sentence(a, kYards), " (sure, over 99 %): "));
  }
  // Never a per cent that the next word begins with.
  const std::pair<double, std::string> edges[] = {
      {0.899, "(likely, 89 %)"}, {0.9, "(sure, 90 %)"}, {0.699, "(a close call, 69 %)"}, {0.7, "(likely, 70 %)"}};
  for (const auto& [probability, words] : edges) {
    a = answer(Lever::loft, 17, 5, 18);
    judge(a,
          probability >= 0.9   ? Certainty::sure
          : probability >= 0.7 ? Certainty::likely
                               : Certainty::close,
          probability);
    CAPTURE(probability);
    CHECK(contains(verdict_sentence(a, kYards), words));
  }
  // A mean outside its own interval is said to be so.
  a = answer(Lever::loft, 17, 5, 18);
  judge(a, Certainty::sure, 0.934);
  a.confidence->strategies[StrategyKind::loft_only]->gain = {1 * kYard, 17 * kYard, 16 * kYard};
  CHECK(
      contains(verdict_sentence(a, kYards), "(+1 to +16), a mean that few large gains lift out of its own interval; "));
}

TEST_CASE("a close call names the next best, what choosing wrongly costs, and what to measure first") {
  Advice a = answer(Lever::loft, 17, 16, 18);
  judge(a, Certainty::close, 0.62);
  a.verdict.runner_up = Lever::technique;
  a.verdict.regret = 1.3 * kYard;
  CHECK(contains(verdict_sentence(a, kYards), "(a close call, 62 %)"));
  CHECK(contains(verdict_sentence(a, kYards),
                 " Next best is technique alone; choosing wrongly costs 1.3 yd on average."));
  CHECK_FALSE(contains(verdict_sentence(a, kYards), "Measure first"));
  const std::pair<Measure, std::string> measures[] = {
      {Measure::ten_more_shots, "ten more shots"},
      {Measure::tuned_ball, "a ball and head tuned to the player's shots"},
      {Measure::trial_lesson, "a trial lesson"},
      {Measure::measured_run, "the run on this turf"}};
  for (const auto& [measure, words] : measures) {
    a.verdict.measure_first = measure;
    a.confidence->measuring.worth = {};
    a.confidence->measuring.worth[measure] = 0.7 * kYard;
    CHECK(contains(verdict_sentence(a, kYards), " Measure first: " + words + ", worth 0.7 yd."));
  }
  const std::pair<Lever, std::string> next[] = {
      {Lever::leave, "leaving both alone"}, {Lever::both, "both"}, {Lever::loft, "loft alone"}};
  for (const auto& [lever, words] : next) {
    a.verdict.runner_up = lever;
    CHECK(contains(verdict_sentence(a, kYards), " Next best is " + words + ";"));
  }
  // Of either, the other is named already.
  a.verdict.lever = Lever::either;
  a.verdict.runner_up = Lever::technique;
  CHECK_FALSE(contains(verdict_sentence(a, kYards), "Next best"));
  CHECK(contains(verdict_sentence(a, kYards), ". Choosing wrongly costs 1.3 yd on average. Measure first:"));
  a.verdict.runner_up = Lever::both;
  CHECK(contains(verdict_sentence(a, kYards), "Next best is both; choosing wrongly costs"));
  a.verdict.runner_up = Lever::loft;
  a.verdict.lever = a.verdict.leader = Lever::leave;
  CHECK(contains(verdict_sentence(a, kYards), "Next best is loft alone"));
  a.verdict.certainty = Certainty::likely;
  CHECK_FALSE(contains(verdict_sentence(a, kYards), "Next best"));
  CHECK_FALSE(contains(verdict_sentence(a, kYards), "Measure first"));
}

TEST_CASE("a lever that loses a third of the fairways says so") {
  for (const double after : {0.51, 0.49, 0.3}) {
    Advice a = answer(Lever::technique, 5, 17, 18);
    a.strategies[StrategyKind::technique_only].average.fairway_share = after;
    const std::string text = verdict_sentence(a, kYards);
    CAPTURE(after, text);
    CHECK(contains(text, "of fairways instead of 75 %.") == (after < 0.5));
    if (after == 0.3) CHECK(contains(text, " It holds 30 % of fairways instead of 75 %."));
  }
  Advice a = answer(Lever::leave, 1, 1, 1);
  a.strategies[StrategyKind::loft_only].average.fairway_share = 0.1;  // not what is advised
  CHECK_FALSE(contains(verdict_sentence(a, kYards), "fairways"));
}

TEST_CASE("what is lost for the limits' sake is called a cost") {
  Advice a = answer(Lever::loft, -22.4, -0.6, -25);
  a.strategies[StrategyKind::as_is].feasible = false;
  CHECK(verdict_sentence(a, kYards) ==
        "Change the loft, not the technique: 12.0 deg instead of 9.5 deg costs the average drive 22.4 yd of carry but "
        "meets every limit, as loft and "
        "technique now do not; the best technique alone (attack +2.0 deg) costs 0.6 yd.");
  judge(a, Certainty::sure, 1.0);
  CHECK(contains(verdict_sentence(a, kYards),
                 "costs the average drive 22.4 yd of carry (-26 to -18) but meets every limit, as loft and technique "
                 "now do not; "));
  a = answer(Lever::leave, -0.3, -1, -2);
  CHECK(contains(
      verdict_sentence(a, kYards),
      "the best change, loft alone, costs the average drive 0.3 yd of carry and would have to add more than 3.0 yd"));
  a = answer(Lever::leave, -0.04, -1, -2);  // reads as nothing
  CHECK(contains(verdict_sentence(a, kYards), "loft alone, adds 0.0 yd of carry to the average drive"));
}

TEST_CASE("what ten drives do is told of what the verdict names, apart from how sure it is") {
  Advice a = answer(Lever::either, 17, 16, 18);
  CHECK(drives_sentence(a, kYards).empty());
  judge(a, Certainty::sure, 0.95);
  CHECK(drives_sentence(a, kYards) ==
        "Of ten drives, 8 go further than the same swing would have sent them before; eight of ten gain between +5 and "
        "+29 yd.");
  a.verdict.leader = Lever::technique;
  CHECK(contains(drives_sentence(a, kYards), "between +4 and +28 yd."));
  a.verdict.lever = a.verdict.leader = Lever::leave;
  CHECK(drives_sentence(a, kYards).empty());
  a = answer(Lever::both, 17, 16, 30);
  judge(a, Certainty::sure, 0.95);
  CHECK(contains(drives_sentence(a, kMetres), "between +16 and +38 m."));
  // A few drives that gain or lose very much draw the mean out of what eight of ten gain.
  a = answer(Lever::both, 17, 16, 45);
  judge(a, Certainty::sure, 0.95);
  a.strategies[StrategyKind::both].gain = 60 * kYard;
  CHECK(contains(drives_sentence(a, kYards), "and a few so much more that the average lies above that."));
  a.strategies[StrategyKind::both].gain = -60 * kYard;
  CHECK(contains(drives_sentence(a, kYards), "and a few lose so much that the average lies below that."));
  // All and none as the table says it: over 99 %, under 1 %.
  const std::pair<double, std::string> counts[] = {{1.0, "all go"},  {0.996, "all go"}, {0.994, "9 go"},
                                                   {0.951, "9 go"},  {0.86, "9 go"},    {0.84, "8 go"},
                                                   {0.04, "1 goes"}, {0.02, "1 goes"},  {0.004, "none goes"}};
  for (const auto& [share, words] : counts) {
    a.confidence->strategies[StrategyKind::both]->drives_gaining = share;
    CAPTURE(share);
    CHECK(contains(drives_sentence(a, kYards), "Of ten drives, " + words));
  }
}

TEST_CASE("a count of draws proves neither never nor always") {
  CHECK(probability_words(0.0) == "under 1 %");
  CHECK(probability_words(1.0) == "over 99 %");
  CHECK(probability_words(0.99) == "99 %");
  CHECK(probability_words(0.012) == "1 %");
  CHECK(probability_words(0.5) == "50 %");
}

TEST_CASE("what the choice leans on is told in units people use") {
  Advice a = answer(Lever::loft, 17, 5, 18);
  CHECK(leaning_sentences(a, kYards).empty());
  CHECK(odds_sentences(a).empty());
  CHECK(measuring_sentences(a, kYards).empty());
  a.confidence.emplace();
  a.confidence->influences = {{Assumption::follow, 0.38, 0.41, 0.85, 0.6, Lever::either},
                              {Assumption::measured_strike, 0.3, 0.31, 0.0, std::nullopt, Lever::loft},
                              {Assumption::lift, 0.009, 0.28, 1.0, std::nullopt, Lever::loft},  // hardly any alone
                              {Assumption::speed_cost, 0.1, 0.1, 0.0, -0.3 * kMph / kDeg, Lever::leave},
                              {Assumption::drag, 0.05, 0.05, 1.0, std::nullopt, Lever::loft}};
  auto lines = leaning_sentences(a, kYards);
  REQUIRE(lines.size() == 3);
  CHECK(lines[0] ==
        "how far loft follows a change of attack: 38 % of what is uncertain; at 0.60 instead of 0.85 the verdict would "
        "be 'either'");
  CHECK(lines[1] == "the measured path, face and strike point: 30 % of what is uncertain");
  CHECK(lines[2] ==
        "the speed that a higher attack brings: 10 % of what is uncertain; at -0.30 mph instead of 0.00 mph a degree "
        "the verdict would be "
        "'leave'");
  a.confidence->influences.erase(a.confidence->influences.begin());
  CHECK(leaning_sentences(a, kYards).back() ==
        "the ball's drag: 5 % of what is uncertain; no likely value turns the verdict");
  a.confidence->technique_over_loft = 0.48;
  a.confidence->both_over_loft = 0.97;
  REQUIRE(odds_sentences(a).size() == 2);
  CHECK(odds_sentences(a)[0] == "the average drive goes further with technique only than with loft only: 48 % sure");
  CHECK(odds_sentences(a)[1] == "the average drive goes further with both than with loft only: 97 % sure");
}

TEST_CASE("every assumption has a name of its own and a value people use") {
  const std::pair<Assumption, std::string> names[] = {
      {Assumption::measured_club_speed,
       "the measured club speed: 40 % of what is uncertain; at 80.0 mph instead of 82.0 mph"},
      {Assumption::measured_attack, "the measured attack: 40 % of what is uncertain; at -2.5 deg instead of -4.0 deg"},
      {Assumption::measured_dynamic_loft,
       "the measured delivered loft: 40 % of what is uncertain; at 11.0 deg instead of 9.5 deg"},
      {Assumption::drag, "the ball's drag: 40 % of what is uncertain; at 0.95 times the model's"},
      {Assumption::lift, "the ball's lift: 40 % of what is uncertain; at 0.95 times the model's"},
      {Assumption::restitution, "the spring of the face: 40 % of what is uncertain; at -0.012 beside the model's"},
      {Assumption::tangential_restitution,
       "the grip of the face: 40 % of what is uncertain; at -0.012 beside the model's"},
      {Assumption::turf_bounce, "the bounce of the turf: 40 % of what is uncertain"},
      {Assumption::turf_roll, "the roll on the turf: 40 % of what is uncertain"}};
  const double values[][2] = {{82 * kMph, 80 * kMph},
                              {-4 * kDeg, -2.5 * kDeg},
                              {9.5 * kDeg, 11 * kDeg},
                              {1, 0.95},
                              {1, 0.95},
                              {0, -0.012},
                              {0, -0.012}};
  Advice a = answer(Lever::loft, 17, 5, 18);
  a.confidence.emplace();
  for (std::size_t i = 0; i < std::size(names); ++i) {
    Influence f{names[i].first, 0.4, 0.4, 0.0, std::nullopt, Lever::loft};
    if (i < std::size(values)) f = {names[i].first, 0.4, 0.4, values[i][0], values[i][1], Lever::both};
    a.confidence->influences = {f};
    CHECK(leaning_sentences(a, kYards) ==
          std::vector<std::string>{names[i].second + (i < std::size(values) ? " the verdict would be 'both'" : "")});
  }
}

TEST_CASE("what measuring first is worth is told, or that nothing is") {
  Advice a = answer(Lever::loft, 17, 5, 18);
  judge(a, Certainty::likely, 0.8);
  CHECK(measuring_sentences(a, kYards) == std::vector<std::string>{"nothing: no measurement would change the choice"});
  a.confidence->measuring = {{0.5 * kYard, 0.0, 1.2 * kYard, 0.04 * kYard}, 2.0 * kYard};
  CHECK(measuring_sentences(a, kYards) ==
        std::vector<std::string>{"ten more shots: 0.5 yd", "a trial lesson: 1.2 yd", "all there is to know: 2.0 yd"});
  a.feasible = false;
  CHECK(measuring_sentences(a, kYards).empty());
}

TEST_CASE("an infeasible problem names every limit that must give, and by how much") {
  Advice a = answer(Lever::leave, 0, 0, 0);
  a.feasible = false;
  const double open = std::numeric_limits<double>::infinity();
  const LimitState spin{Limited::spin, 2350 * kRpm, {-open, 2000 * kRpm}, -350 * kRpm, false, true},
      landing{Limited::landing_angle, 24 * kDeg, {30 * kDeg, open}, -6 * kDeg, false, true},
      apex{Limited::apex, 20, {-open, 18}, -2, false, true};
  Strategy& both = a.strategies[StrategyKind::both];
  both.feasible = false;
  both.limits = {spin, landing, apex};
  both.must_give = {spin};
  CHECK(verdict_sentence(a, kYards) ==
        "No loft and technique within reach meet every limit: spin at most 2000 rpm would have to give by 350 rpm.");
  // The others are broken there too: told as such, not as what must give.
  std::vector<std::string> held = holding_sentences(a, kYards);
  REQUIRE(held.size() == 3);
  CHECK(held[0] == "both: nothing meets every limit; spin at most 2000 rpm would have to give by 350 rpm");
  CHECK(held[1] == "both: breaks a limit, descent angle at least 30.0 deg (it is 24.0 deg)");
  both.must_give = {spin, landing, apex};
  CHECK(verdict_sentence(a, kMetres) ==
        "No loft and technique within reach meet every limit: spin at most 2000 rpm would have to give by 350 rpm, "
        "descent angle at least "
        "30.0 deg would have to give by 6.0 deg and apex at most 18 m would have to give by 2 m.");
  held = holding_sentences(a, kYards);
  CHECK(held.size() == 1);
  both.must_give.clear();
  CHECK(verdict_sentence(a, kYards) == "No loft and technique within reach meet every limit.");
}

TEST_CASE("the verdict's numbers are the strategies' numbers") {
  std::mt19937 random(7);
  int left = 0;
  for (int i = 0; i < 12; ++i) {
    Pupil pupil = random_pupil(random);
    if (i % 4 == 0) pupil.prices = {kMostPrice, kMostPrice, kMostPrice};
    AdviseOptions options;
    options.shots = 16;
    options.draws = i % 3 == 0 ? 512 : 0;
    const Advice a = advise(pupil, default_setting(), options);
    const std::string text = verdict_sentence(a, kYards), drives = drives_sentence(a, kYards);
    INFO(text);
    const auto named = std::ranges::find(a.choices, a.verdict.leader, &Choice::lever);
    REQUIRE(named != a.choices.end());
    const Choice& told = a.verdict.lever == Lever::leave ? a.choices.at(1) : *named;
    CHECK(contains(text, quantity(Shown::gain, std::abs(told.gain), kYards)));
    left += a.verdict.lever == Lever::leave;
    CHECK(drives.empty() == (a.verdict.lever == Lever::leave || !a.confidence));
    if (a.confidence)
      CHECK(contains(text, a.verdict.certainty == Certainty::close
                               ? "(a close call, "
                               : "(" + std::string(key_of(a.verdict.certainty)) + ", "));
    CHECK(!contains(text, "-0.0"));
    CHECK(text.back() == '.');
    CHECK(text.find('\n') == std::string::npos);
    CHECK(text.find("..") == std::string::npos);
  }
  CHECK(left > 0);
  CHECK(left < 12);
}

TEST_CASE("one lever in terms of another keeps its sign") {
  Advice a = answer(Lever::both, 1, 1, 2);
  a.rates.attack.carry = 4.0 / kDeg;
  a.rates.loft.carry = -1.0 / kDeg;
  a.rates.club_speed.carry = 2.0 / kMph;
  CHECK(worth_sentence(a, kYards) ==
        "For carry, one degree higher attack, loft following, does what 2.0 mph more club speed does; one degree more "
        "loft does what 0.5 mph less "
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
  CHECK(lines[0] == "low point: 5.0 in ahead of the ball now; aim: 4.0 in behind the ball");
  CHECK(lines[1] == "ball: 9.0 in further forward of the low point; move the ball, the low point, or some of each");
  CHECK(lines[2] ==
        "path: moving the low point alone would turn it 6.5 deg to the left; swing 6.5 deg further right to keep it");
  CHECK(lines[3] == "tee: 0.3 in higher, for the ball is struck that far below the middle of the face");
  a.set_up = SetUp{0, 0, 0, 0.04 * kDeg, -0.04 * kDeg, {}};
  CHECK(set_up_sentences(a, kYards).size() == 2);  // nothing of a path that stays, nor of a tee that nobody asked about
}

TEST_CASE("notes say what is doubtful about a drive") {
  const Setting setting = default_setting();
  const Drive slow = drive_from(Launch{5, 70 * kDeg, 0, 12000 * kRpm, 0}, setting);
  REQUIRE(slow.flight.outside_aero_range);
  CHECK(contains(drive_notes(slow, setting.aero, kYards)[0],
                 "outside the data behind the air resistance model 'reference'"));
  const Drive topped = drive_from(Launch{50, -2 * kDeg, 0, 2000 * kRpm, 0}, setting);
  CHECK(contains(drive_notes(topped, setting.aero, kYards)[0], "The ball left level or downwards"));
  const Drive plain = drive_from(Launch{60, 12 * kDeg, 0, 2500 * kRpm, 0}, setting);
  const auto notes = drive_notes(plain, setting.aero, kMetres);
  REQUIRE(notes.size() == 1);
  CHECK(notes[0] ==
        "Run (bounce and roll) is the least certain part: some 5 m either way for a steep landing, 12 m for a shallow "
        "one.");
}

TEST_CASE("below 10 C it is said that the ball's own temperature is not in the numbers") {
  Setting setting = default_setting();
  Conditions& conditions = setting.course.conditions;
  const std::string cold = "a ball as cold as the air leaves the face slower";
  for (const double celsius : {-5.0, 9.9}) {
    conditions.temperature = celsius + 273.15;
    CHECK(contains(conditions_words(setting, kYards), cold));
  }
  for (const double kelvin : {(50.0 + 459.67) * 5.0 / 9.0, 10.0 + 273.15, 293.15}) {  // 50 F is 10 C
    conditions.temperature = kelvin;
    CHECK_FALSE(contains(conditions_words(setting, kYards), cold));
    CHECK(condition_notes(conditions).empty());
  }
}

TEST_CASE("the wind is said from where it blows") {
  Setting setting = default_setting();
  Wind& wind = setting.course.conditions.wind;
  CHECK(contains(conditions_words(setting, kYards), "calm."));
  wind.speed = 10 * kMph;
  const auto said = [&](double from_deg) {
    wind.from = from_deg * kDeg;
    return conditions_words(setting, kYards);
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
  for (const char* word : {"Pain means stop", "doctor or physiotherapist", "Warm up", "clear space",
                           "conform to the rules", "model's", "yd either way"}) {
    INFO(word);
    CHECK(contains(all, word));
  }
}
