// The tables of an answer, on numbers of our choosing: which rows and columns there are, what they say, and what is
// marked.
#include "report/advice_tables.hpp"

#include <catch2/catch.hpp>

#include "answers.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

using Row = std::vector<std::string>;

std::string all(const std::vector<std::string>& notes) {
  std::string text;
  for (const std::string& note : notes) text += note + "\n";
  return text;
}

// Averages of 150, 155, 160, 165 yd and 20 more in all; well struck 10 yd further.
Advice flown(Lever verdict) {
  Advice a = answer(verdict, 5, 10, 15);
  for (const StrategyKind k : kAllOf<StrategyKind>) {
    Strategy& s = a.strategies[k];
    const double carry = (150.0 + 5.0 * static_cast<double>(k)) * kYard;
    s.average = {carry, carry + 20.0 * kYard, 0.0, 0.75 - 0.05 * static_cast<double>(k)};
    s.drive.flight.carry = carry + 10.0 * kYard;
    s.drive.total = carry + 30.0 * kYard;
    s.drive.launch.launch = 10.0 * kDeg;
    s.drive.launch.spin = 2500.0 * kRpm;
  }
  return a;
}

}  // namespace

TEST_CASE("averages over very different swings, of few drives measured, are said to be that") {
  Advice a = flown(Lever::both);
  judge(a, Certainty::sure, 0.95);
  const auto last = [&] { return strategies_table(a, kYards).notes.back(); };
  a.strategies[StrategyKind::as_is].goal = 150.0 * kYard;
  a.confidence->goal_as_measured = 152.9 * kYard;
  CHECK(last().starts_with("Carry, total and gain"));
  a.confidence->goal_as_measured = 154.0 * kYard;
  CHECK(
      last() ==
      "So few drives were measured that these averages are over very different swings. With the swing just as measured "
      "as is would carry 154 yd: measure more drives.");
}

TEST_CASE(
    "the strategies' carry, total, gain and fairways are the average drive's, the well-struck one's stand beside") {
  Advice a = flown(Lever::both);
  TextTable t = strategies_table(a, kYards);
  REQUIRE(t.rows.size() == 6);
  CHECK(t.heads == 2);
  CHECK(t.rows[0] == Row{"", "loft", "attack", "launch", "spin", "carry", "total", "held", "gain"});
  CHECK(t.rows[1] == Row{"", "deg", "deg", "deg", "rpm", "yd", "yd", "%", "yd"});
  CHECK(t.rows[2] == Row{"as is", "9.5", "-4.0", "10.0", "2500", "150", "170", "75", ""});
  CHECK(t.rows[5] == Row{"both", "12.0", "+2.0", "10.0", "2500", "165", "185", "60", "+15.0"});
  REQUIRE(t.notes.size() == 1);
  CHECK(t.notes[0] ==
        "Carry, total and gain are the average drive's, mishits and all. Held: so many of 100 drives, aimed at it, "
        "rest on "
        "the fairway. Well struck, carry and total: as is 160 and 180, loft "
        "only 165 and "
        "185, technique only 170 and 190, both 175 and 195 yd.");
  CHECK(contains(strategies_table(a, kMetres).notes[0], "both 160 and 178 m."));

  judge(a, Certainty::sure, 0.95);
  t = strategies_table(a, kYards);
  CHECK(t.rows[0].back() == "8 in 10");
  CHECK(t.rows[1].back() == "gain");
  CHECK(t.rows[2].back().empty());
  CHECK(t.rows[3].back() == "+1 to +9");
  CHECK(t.rows[5].back() == "+11 to +19");

  a.strategies[StrategyKind::loft_only].feasible = false;
  a.confidence->strategies[StrategyKind::loft_only].reset();
  t = strategies_table(a, kYards);
  CHECK(t.rows[3] == Row{"loft *", "12.0", "-4.0", "10.0", "2500", "155", "175", "70", "", ""});
  CHECK(t.notes[0] == "* breaks a limit; see below");
}

TEST_CASE("how sure: a row a choice, most left over first, none for what breaks a limit or does not move") {
  Advice a = flown(Lever::both);
  CHECK(confidence_table(a, kYards).rows.empty());
  judge(a, Certainty::sure, 0.95);
  a.confidence->draws = 32768;
  a.confidence->seed = 4;
  const double probability[] = {0.62, 0.3, 0.08, 0.0};  // both, technique, loft, leave: 8, 7, 2 and 0 yd left
  for (std::size_t i = 0; i < 4; ++i) a.choices[i].best_probability = probability[i];
  TextTable t = confidence_table(a, kYards);
  REQUIRE(t.rows.size() == 6);
  CHECK(t.rows[0] == Row{"", "gain", "8 in 10", "price", "left", "best", "drives", "8 of 10"});
  CHECK(t.rows[1] == Row{"", "yd", "yd", "yd", "yd", "choice", "gaining", "drives"});
  CHECK(t.rows[2] == Row{"both", "+15.0", "+11 to +19", "7.0", "+8.0", "62 %", "83 %", "+3 to +27"});
  CHECK(t.rows[3] == Row{"technique", "+10.0", "+6 to +14", "3.0", "+7.0", "30 %", "83 %", "-2 to +22"});
  CHECK(t.rows[4] == Row{"loft", "+5.0", "+1 to +9", "3.0", "+2.0", "8 %", "83 %", "-7 to +17"});
  CHECK(t.rows[5] == Row{"leave", "0.0", "", "0.0", "0.0", "under 1 %", "", ""});
  CHECK(contains(all(t.notes), "32768 draws, seed 4."));
  CHECK_FALSE(contains(all(t.notes), "misfits"));
  a.confidence->misfit = 0.4 * kYard;
  CHECK_FALSE(contains(all(confidence_table(a, kYards).notes), "misfits"));
  a.confidence->misfit = 1.3 * kYard;
  CHECK(contains(all(confidence_table(a, kYards).notes), "seed 4; read off a surface that misfits by up to 1.3 yd."));

  a.choices[1].feasible = false;  // technique
  a.choices.erase(a.choices.begin() + 2);
  t = confidence_table(a, kYards);
  REQUIRE(t.rows.size() == 4);
  CHECK(t.rows[2][0] == "both");
  CHECK(t.rows[3][0] == "leave");
  a.feasible = false;
  CHECK(confidence_table(a, kYards).rows.empty());
}

TEST_CASE("the trade marks a loft that breaks a limit with the attack as it is") {
  Advice a = flown(Lever::both);
  CHECK(trade_table(a, kYards).rows.empty());
  a.trade = {{9.5 * kDeg, 0.0, false, {2 * kDeg, 4 * kDeg, std::nullopt}},
             {12 * kDeg, 5 * kYard, false, {-1 * kDeg, 0.0, 3 * kDeg}}};
  TextTable t = trade_table(a, kYards);
  CHECK(t.title == "How little change of attack each loft needs for a share of the whole 15.0 yd");
  REQUIRE(t.rows.size() == 3);
  CHECK(t.rows[0] == Row{"loft", "gain, attack as is", "for 50 %", "for 80 %", "for 95 %"});
  CHECK(t.rows[1] == Row{"9.5 deg", "0.0 yd", "+2.0 deg", "+4.0 deg", "out of reach"});
  CHECK(t.rows[2] == Row{"12.0 deg", "+5.0 yd", "-1.0 deg", "0.0 deg", "+3.0 deg"});
  CHECK(t.notes.empty());
  a.trade[1].breaks_limit = true;
  t = trade_table(a, kYards);
  CHECK(t.rows[1][0] == "9.5 deg");
  CHECK(t.rows[2][0] == "12.0 deg *");
  CHECK(all(t.notes) == "* breaks a limit with the attack as it is\n");
}
