// What is said of the lessons of an academy, where few books, small promises or copies would mislead.
#include "report/lessons_words.hpp"

#include <catch2/catch.hpp>

#include "academies.hpp"

using namespace loftwright;
using namespace loftwright::test;
using Catch::Matchers::Contains;

namespace {

const Lessons& nothing() {
  static const Lessons none = lessons({}, {});
  return none;
}

Reckoning reckoning(double promised_yards, double reached_yards) {
  Reckoning r;
  r.predicted = promised_yards * kYard;
  r.predicted_low = 0.7 * r.predicted;
  r.predicted_high = 1.3 * r.predicted;
  r.reached = reached_yards * kYard;
  return r;
}

std::string sentence(const Lessons& l) { return lessons_sentence(l, UnitSystem::yards); }

}  // namespace

TEST_CASE("what is mostly the literature's is said to be", "[lessons]") {
  Lessons l = nothing();
  l.academy.follow.groups = 1;
  l.academy.speed_per_attack.groups = 1;
  CHECK_THAT(sentence(l), Contains("your pupil delivers 0.85 deg more loft") &&
                              Contains("Most of what is known of follow is still the literature's."));
  l.academy.follow.sd *= 0.5;
  CHECK_THAT(sentence(l), !Contains("the literature's"));
}

TEST_CASE("what was reached is told without a measured follow too", "[lessons]") {
  Lessons l = nothing();
  CHECK_THAT(sentence(l), !Contains("No promise"));
  l.academy.reached_share = Pooled{.mean = 0.6, .sd = 0.1, .low = 0.47, .high = 0.73, .groups = 4};
  CHECK_THAT(
      sentence(l),
      Contains("Of what a change of swing was promised to gain your pupils reached 60 % (8 in 10: 47 % to 73 %)."));
}

TEST_CASE("small promises are no missing ones, and those above are counted as well", "[lessons]") {
  Lessons l = nothing();
  l.academy.follow.groups = 2;
  CHECK_THAT(sentence(l), Contains("No promise that was kept in a book has an outcome yet."));
  l.academy.calibration = {reckoning(1.0, 7.0)};
  CHECK_THAT(sentence(l), !Contains("No promise"));
  CHECK_THAT(calibration_sentence(l.academy, UnitSystem::yards),
             Contains("0 below it and 1 above;") &&
                 Contains("none of them was of a swing, and of 2.0 yd or more, which alone count."));
  l.academy.calibration = {reckoning(10.0, 10.0), reckoning(10.0, 3.0)};
  CHECK_THAT(calibration_sentence(l.academy, UnitSystem::yards),
             Contains("1 below it; on average") && !Contains("above"));
}

TEST_CASE("a copy of a book is noticed", "[lessons]") {
  std::mt19937_64 random(4);
  AcademyFolder folder;
  folder.books = academy(Coach{}, 3, random);
  CHECK(left_out_sentences(folder).empty());
  folder.books.push_back({"copy.json", folder.books[1].book});
  REQUIRE(left_out_sentences(folder).size() == 1);
  CHECK_THAT(left_out_sentences(folder)[0],
             Contains(folder.books[1].file + " and copy.json hold the same session and count as two pupils"));
}
