// What is said of heads side by side: what a coach would be misled by, were it said otherwise.
#include "report/heads_words.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;
using Catch::Matchers::Contains;

namespace {

struct Driver {
  std::string name;
  int shots;
  double mean_yards, sd_yards;
};

// Drivers that take turns; of each the carries have that mean and that standard deviation.
std::vector<HeadShots> heads_of(const std::vector<Driver>& drivers) {
  std::vector<HeadShots> out;
  std::size_t place = 0;
  for (const Driver& d : drivers) {
    out.push_back({d.name, 0, {}});
    std::vector<double> z;
    for (int i = 0; i < d.shots; ++i) z.push_back(std::cos(2.3 * i + 0.7 * static_cast<double>(place)));
    const Summary s = summarise(z);
    for (std::size_t i = 0; i < z.size(); ++i) {
      Shot shot;
      shot.line = 2 + i * drivers.size() + place;
      shot.at(Reading::carry) = (d.mean_yards + d.sd_yards * (z[i] - s.mean) / s.sd) * kYard;
      out.back().list.shots.push_back(shot);
    }
    ++place;
  }
  return out;
}

HeadsAnswer compared(const std::vector<Driver>& drivers, const HeadsOptions& options = {}) {
  return compare_heads(heads_of(drivers), default_setting(), Handed::right, options);
}

std::string notes_of(const HeadsAnswer& a) {
  std::string out;
  for (const std::string& note : heads_notes(a, UnitSystem::yards)) out += note + "\n";
  return out;
}

}  // namespace

TEST_CASE("nobody is sent to hit no more shots", "[heads]") {
  // Twelve shots would show the ten yards that matter; three were seen.
  const HeadsAnswer a = compared({{"A", 12, 203.0, 5.0}, {"B", 12, 200.0, 5.0}}, {.worthwhile = 7.0 * kYard});
  const HeadPair& pair = a.pair(0, 1);
  REQUIRE(pair.apart == Apart::not_yet);
  REQUIRE(pair.shots_needed == std::size_t{0});
  CHECK(more_shots_words(a, pair, UnitSystem::yards) ==
        "These two cannot be told apart by 12 shots with each, which would show a difference of 7.0 yd 80 % of the "
        "time.");
  CHECK(apart_table(a, UnitSystem::yards).rows[1].back() == "0");
}

TEST_CASE("a leader by a handful of shots does not pass for the likeliest", "[heads]") {
  const HeadsAnswer a = compared({{"A", 3, 203.0, 9.0}, {"B", 14, 202.0, 5.0}, {"C", 14, 190.0, 5.0}});
  REQUIRE(a.heads[0].name == "A");
  REQUIRE(a.heads[1].best_probability > a.heads[0].best_probability);
  const std::string said = heads_sentence(a, UnitSystem::yards);
  CHECK_THAT(said, Contains("; B, whose average is better known, with one of "));
  CHECK_THAT(said, Contains("But three shots with A are a handful, and say little."));
  CHECK_THAT(notes_of(a), Contains("Few shots: 3 with A."));
  CHECK_THAT(said, Contains("; it is not yet told apart from B and C."));

  const std::string plain = heads_sentence(compared({{"A", 12, 215.0, 5.0}, {"B", 12, 200.0, 5.0}}), UnitSystem::yards);
  CHECK_THAT(plain, Contains("A goes furthest: further than B, the next, by 15.0 yd on average"));
  CHECK_THAT(plain, !Contains("handful") && !Contains("better known"));
}

TEST_CASE("of two heads one sentence says that one went further than was delivered with it", "[heads]") {
  std::vector<HeadShots> heads = heads_of({{"A", 12, 170.0, 3.0}, {"C", 12, 170.0, 3.0}, {"B", 12, 150.0, 3.0}});
  for (HeadShots& head : heads) {
    for (Shot& shot : head.list.shots) {  // the same delivery with all
      shot.at(Reading::club_speed) = 80.0 * kMph;
      shot.at(Reading::attack) = -2.0 * kDeg;
      shot.at(Reading::dynamic_loft) = 12.0 * kDeg;
    }
  }
  const auto said = [](const HeadsAnswer& a) { return heads_sentence(a, UnitSystem::yards) + "\n" + notes_of(a); };
  const std::string of_three = said(compare_heads(heads, default_setting(), Handed::right, {}));
  CHECK_THAT(of_three, Contains("Set against the others B fell ") && Contains(" short of what was delivered with it"));
  heads.erase(heads.begin() + 1);
  const HeadsAnswer two = compare_heads(heads, default_setting(), Handed::right, {});
  CHECK_THAT(said(two), Contains("A went 20.0 yd further beside B than what was delivered with each gives") &&
                            !Contains("fell") && !Contains("B: ") && Contains("the longest of the two"));
  CHECK_THAT(heads_table(two, UnitSystem::yards).notes.front(), Contains("hold for both heads at once"));
  CHECK_THAT(apart_table(two, UnitSystem::yards).notes.front(), Contains("The interval is so wide (Games and Howell)"));
}

TEST_CASE("the other of carry and total is told where little of the lead is left there", "[heads]") {
  const auto said = [](double total_yards_of_a) {
    std::vector<HeadShots> heads = heads_of({{"A", 12, 170.0, 3.0}, {"B", 12, 150.0, 3.0}});
    for (Shot& shot : heads[0].list.shots) shot.at(Reading::total) = total_yards_of_a * kYard;
    for (Shot& shot : heads[1].list.shots) shot.at(Reading::total) = 190.0 * kYard;
    return heads_sentence(compare_heads(heads, default_setting(), Handed::right, {}), UnitSystem::yards);
  };
  CHECK_THAT(said(201), !Contains("total distance"));
  CHECK_THAT(said(199), Contains("In total distance it is 9.0 yd ahead."));
  CHECK_THAT(said(187), Contains("In total distance it is 3.0 yd behind."));
}

TEST_CASE("a head that is told apart and may yet be the longest is explained", "[heads]") {
  const HeadsAnswer a = compared({{"A", 6, 200.0, 11.5}, {"B", 16, 220.0, 8.0}, {"C", 18, 222.0, 8.7}});
  REQUIRE(a.pair(0, 2).apart == Apart::further);
  REQUIRE(a.heads[2].best_probability > 0.05);
  CHECK_THAT(notes_of(a), Contains("A is told apart from C and yet may be the longest, with a probability of"));
  CHECK_THAT(notes_of(a), Contains("so its 6 shots may have been bad ones. Hit it again."));
  CHECK_THAT(notes_of(compared({{"A", 16, 200.0, 8.0}, {"B", 16, 222.0, 8.0}})), !Contains("may be the longest"));
}

TEST_CASE("what could not be computed is not said to be, and what does not count is counted", "[heads]") {
  std::vector<HeadShots> heads = heads_of({{"A", 12, 205.0, 5.0}, {"B", 12, 200.0, 5.0}});
  heads[1].list.shots[3].odd = {Reading::carry};
  const HeadsAnswer a = compare_heads(heads, default_setting(), Handed::right, {.odd = Outliers::leave_out});
  CHECK_FALSE(a.total_computed);
  CHECK_THAT(notes_of(a), !Contains("computed by the model"));
  CHECK_THAT(notes_of(a), Contains("Left out, for they stand far out from the others of their head: 1 of B."));
  CHECK_THAT(notes_of(a), Contains("There is no answer of the model"));
}

TEST_CASE("usual names fit on a screen of eighty columns", "[heads]") {
  const HeadsAnswer a =
      compared({{"Driver 10.5", 12, 205.0, 15.0}, {"Driver 13.5", 12, 203.0, 15.0}}, {.in_hand = "Driver 13.5"});
  for (const auto& row : apart_table(a, UnitSystem::yards).rows) {
    std::size_t width = 2 * row.size();
    for (const std::string& cell : row) width += cell.size();
    CHECK(width <= 80);
  }
}
