#include "loftwright/shots/heads.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "settings.hpp"
#include "simulated_shots.hpp"

using namespace loftwright;
using namespace loftwright::test;
using Catch::Matchers::Contains;

namespace {

Shot carry_of(std::size_t line, const std::string& club, double yards, double side_yards = 0.0) {
  Shot shot;
  shot.line = line;
  shot.club = club;
  shot.at(Reading::carry) = yards * kYard;
  shot.at(Reading::side) = side_yards * kYard;
  return shot;
}

// Clubs take turns; the carries about each club's mean are the same for all.
ShotList in_turns(const std::vector<std::pair<std::string, double>>& clubs, int rounds = 8, double sd = 6.0) {
  ShotList list;
  std::size_t line = 2;
  for (int round = 0; round < rounds; ++round) {
    for (const auto& [club, mean] : clubs)
      list.shots.push_back(carry_of(line++, club, mean + sd * (round % 2 == 0 ? 1.0 : -1.0) * (1.0 + 0.1 * round),
                                    round % 4 == 0 ? 30.0 : -10.0));
  }
  return list;
}

HeadsAnswer compared(const ShotList& list, const HeadsOptions& options = {}) {
  std::vector<Note> notes;
  return compare_heads(by_head({{"list", list}}, {}, notes), default_setting(), Handed::right, options);
}

std::vector<std::string> names(const std::vector<HeadShots>& heads) {
  std::vector<std::string> out;
  for (const HeadShots& head : heads) out.push_back(head.name);
  return out;
}

}  // namespace

TEST_CASE("shots by head: club, list, or both", "[heads]") {
  std::vector<Note> notes;
  const ShotList two = in_turns({{"Own 9", 200.0}, {"own  9", 200.0}, {"Demo", 210.0}}), one = in_turns({{"X", 205.0}}),
                 none = in_turns({{"", 205.0}});
  CHECK(names(by_head({{"day", two}}, {}, notes)) == std::vector<std::string>{"Own 9", "Demo"});  // spaces and case
  CHECK(names(by_head({{"a", one}, {"b", none}}, {}, notes)) == std::vector<std::string>{"a", "b"});
  CHECK(names(by_head({{"a", one}, {"day", two}}, {}, notes)) ==
        std::vector<std::string>{"a", "day: Own 9", "day: Demo"});
  CHECK(names(by_head({{"a", one}, {"a", none}}, {}, notes)) == std::vector<std::string>{"a", "a (2)"});
  CHECK(names(by_head({{"day", in_turns({{"7 iron", 140.0}, {"B", 200.0}, {"C", 210.0}})}}, {"7 Iron"}, notes)) ==
        std::vector<std::string>{"B", "C"});
  CHECK(notes.empty());
  CHECK(names(by_head({{"day", in_turns({{"", 140.0}, {"B", 200.0}, {"C", 210.0}})}}, {}, notes)) ==
        std::vector<std::string>{"B", "C"});
  REQUIRE(notes.size() == 1);
  CHECK_THAT(notes[0].message, Contains("8 shots without a club are passed over"));

  CHECK_THROWS_WITH(by_head({{"day", one}}, {}, notes), Contains("one head, 'X', to compare: two or more are needed"));
  CHECK_THROWS_WITH(by_head({{"day", none}}, {}, notes), Contains("No column names the club"));
  CHECK_THROWS_WITH(by_head({{"day", two}}, {"Spoon"}, notes), Contains("no shots of 'Spoon'"));
}

TEST_CASE("outliers are those of a head, not of the list", "[heads]") {
  ShotList list = in_turns({{"A", 200.0}, {"B", 200.0}, {"C", 200.0}, {"D", 200.0}, {"E", 120.0}}, 12, 1.0);
  list.shots.push_back(carry_of(99, "A", 120.0));
  std::vector<Note> notes;
  const auto heads = by_head({{"day", list}}, {}, notes);
  CHECK(counted(heads[0].list, Outliers::leave_out).size() == 12);
  CHECK(counted(heads[4].list, Outliers::leave_out).size() == 12);
  HeadsOptions options;
  options.odd = Outliers::leave_out;
  const HeadsAnswer a = compare_heads(heads, default_setting(), Handed::right, options);
  for (const HeadResult& h : a.heads) CHECK(h.left_out == (h.name == "A" ? 1u : 0u));
}

TEST_CASE("ranked by the mean, against the one in hand", "[heads]") {
  const ShotList list = in_turns({{"Own 9", 200.0}, {"Demo 12", 220.0}, {"Demo 10.5", 203.0}});
  HeadsOptions options;
  options.in_hand = "own 9";
  const HeadsAnswer a = compared(list, options);
  REQUIRE(a.heads.size() == 3);
  CHECK(a.heads[0].name == "Demo 12");
  CHECK(a.heads[1].name == "Demo 10.5");
  REQUIRE(a.in_hand == 2u);
  CHECK(a.better() == 0u);
  CHECK(a.pairs.size() == 3);
  for (const HeadPair& p : a.pairs) {
    CHECK(p.first < p.second);
    CHECK(p.test.difference >= 0.0);
    CHECK((p.apart == Apart::further) == (p.test.low > 0.0));
    if (p.apart == Apart::not_yet) CHECK(p.shots_needed.value_or(1) > 0);
  }
  double sum = 0.0;
  for (const HeadResult& h : a.heads) {
    sum += h.best_probability;
    REQUIRE(h.fairways);
    CHECK(h.fairways->held == 6);  // two at 30 and six at 10 left of a mean of 0: the former are outside 17.5
    CHECK(h.fairways->count == 8);
    CHECK(h.fairways->low < 0.75);
    CHECK(h.fairways->high > 0.75);
    CHECK_FALSE(h.modelled);
    CHECK_FALSE(h.total);
  }
  CHECK(std::abs(sum - 1.0) < 1e-12);
  CHECK(a.heads[0].best_probability > 0.9);
  CHECK_FALSE(a.in_blocks);

  SECTION("the loft of the club says which is in hand, where one name alone holds it") {
    HeadsOptions by_loft;
    by_loft.club_loft = 9.0 * kDeg;
    CHECK(compared(list, by_loft).in_hand == 2u);
    by_loft.club_loft = 11.0 * kDeg;
    CHECK_FALSE(compared(list, by_loft).in_hand);
    by_loft.club_loft = 12.0 * kDeg;
    CHECK(compared(list, by_loft).in_hand == 0u);
    CHECK_FALSE(compared(in_turns({{"Own 9", 200.0}, {"Demo 9", 220.0}}), {.club_loft = 9.0 * kDeg}).in_hand);
  }
  SECTION("what is asked must be there") {
    CHECK_THROWS_WITH(compared(list, {.in_hand = "Mine"}), Contains("'Mine', is not among them; heads: 'Own 9'"));
    CHECK_THROWS_WITH(compared(list, {.goal = Goal::total}), Contains("fewer than two heads have a total"));
    CHECK_THROWS_AS(compared(list, {.confidence = 0.2}), InputError);
    CHECK_THROWS_AS(compared(list, {.fairway = 1.0}), InputError);
  }
}

TEST_CASE("heads of one shot, or that do not vary, are named and passed over", "[heads]") {
  ShotList list = in_turns({{"A", 200.0}, {"B", 210.0}});
  list.shots.push_back(carry_of(50, "C", 220.0));
  for (std::size_t i = 0; i < 3; ++i) list.shots.push_back(carry_of(60 + i, "D", 215.0));
  const HeadsAnswer a = compared(list);
  CHECK(a.heads.size() == 2);
  REQUIRE(a.left_out.size() == 2);
  CHECK(a.left_out[0].reason == "one shot with carry; at least two are needed");
  CHECK(a.left_out[1].reason == "carry does not vary over its 3 shots");
}

TEST_CASE("a bad day with one head is seen beside the model", "[heads]") {
  std::mt19937_64 random(5);
  std::vector<HeadShots> heads;
  for (const double off : {0.0, 0.0, 0.030}) {  // with the last the ball was met far towards the toe, which nobody saw
    test::Session a_session;
    a_session.setting = default_setting();
    a_session.pupil.delivery = {95.0 * kMph, -1.0 * kDeg, 0.0, 0.0, 13.0 * kDeg, off, 0.0};
    a_session.pupil.spread = usual_spread(Skill::low_handicap, a_session.pupil.delivery.club_speed);
    a_session.run_seen = true;
    a_session.shots = 14;
    heads.push_back({std::string(1, static_cast<char>('A' + heads.size())), 0, simulated(a_session, random)});
    for (Shot& shot : heads.back().list.shots) shot.line += 100 * heads.size();
  }
  const HeadsAnswer a = compare_heads(heads, default_setting(), Handed::right);
  CHECK(a.in_blocks);
  for (const HeadResult& h : a.heads) {
    REQUIRE(h.modelled);
    INFO(h.name << ": " << h.modelled->beyond_others << " +- " << h.modelled->standard_error);
    CHECK(h.modelled->explained() == (h.name != "C"));
    if (h.name == "C") CHECK(h.modelled->beyond_others < -3.0);
  }
  CHECK(a.heads.back().name == "C");
}

TEST_CASE("a goal that one head lacks is computed for all or that head is passed over", "[heads]") {
  std::mt19937_64 random(5);
  test::Session a_session;
  a_session.setting = default_setting();
  a_session.pupil.delivery = {95.0 * kMph, -1.0 * kDeg, 0.0, 0.0, 13.0 * kDeg, 0.0, 0.0};
  a_session.pupil.spread = usual_spread(Skill::low_handicap, a_session.pupil.delivery.club_speed);
  std::vector<HeadShots> heads;
  for (const char* name : {"A", "B", "C"}) heads.push_back({name, 0, simulated(a_session, random)});
  for (Shot& shot : heads[1].list.shots) shot.at(Reading::carry).reset();
  const HeadsAnswer a = compare_heads(heads, default_setting(), Handed::right);
  CHECK(a.heads.size() == 3);
  CHECK(a.carry_computed);

  for (Shot& shot : heads[1].list.shots) shot.values.fill({});
  const HeadsAnswer without = compare_heads(heads, default_setting(), Handed::right);
  CHECK(without.heads.size() == 2);
  CHECK_FALSE(without.carry_computed);
  REQUIRE(without.left_out.size() == 1);
  CHECK(without.left_out[0].name == "B");
}
