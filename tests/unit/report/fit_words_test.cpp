#include <catch2/catch.hpp>

#include "report/parts.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("what to fit is said as it is done: which head, which setting, what that makes", "[advise]") {
  const auto said = [](const ClubFit& fit) { return fit_words(fit); };
  CHECK(said({12 * kDeg, "+1", 13 * kDeg, -0.7 * kDeg, false, true}) ==
        "the 12.0 deg head, set to +1: loft 13.0 deg, face 0.7 deg more closed");
  CHECK(said({9.5 * kDeg, "+1", 10.5 * kDeg, 0.7 * kDeg, true, true}) ==
        "the club in hand, turned to +1: loft 10.5 deg, face 0.7 deg more open");
  CHECK(said({9.5 * kDeg, "", 11 * kDeg, -1.5 * kDeg, true, true}) ==
        "the club in hand, turned by +1.5 deg: loft 11.0 deg, face 1.5 deg more closed");
  CHECK(said({12 * kDeg, "", 11 * kDeg, 0.0, false, true}) ==
        "the 12.0 deg head, turned by -1.0 deg: loft 11.0 deg, face as it is");
  CHECK(said({12 * kDeg, "", 12 * kDeg, 0.0, false, true}) ==
        "the 12.0 deg head as marked: loft 12.0 deg, face as it is");
  CHECK(said({13.5 * kDeg, "", 13.5 * kDeg, 0.0, false, false}) == "a 13.5 deg driver");
  CHECK(said({13.5 * kDeg, "", 13.5 * kDeg, 0.7 * kDeg, false, false}) ==
        "a 13.5 deg driver: face 0.7 deg more open");  // bought plain by one whose sleeve closes the face
  CHECK(said({9.5 * kDeg, "-1", 8.5 * kDeg, 1.4 * kDeg, true, true, "+1"}) ==
        "the club in hand, turned from +1 to -1: loft 8.5 deg, face 1.4 deg more open");
  CHECK(said({9.5 * kDeg, "", 9.5 * kDeg, 0.7 * kDeg, true, true, "+1"}) ==
        "the club in hand, turned from +1 to as marked: loft 9.5 deg, face 0.7 deg more open");
  CHECK(said({12 * kDeg, "", 12 * kDeg, 0.7 * kDeg, false, true}) ==
        "the 12.0 deg head as marked: loft 12.0 deg, face 0.7 deg more open");
}

TEST_CASE("what a setting makes is said against what is played now", "[advise]") {
  CHECK(setting_words({12 * kDeg, "+1", 13 * kDeg, -0.7 * kDeg, false, true}, 10.5 * kDeg) ==
        "the 12.0 deg head, set to +1, makes 13.0 deg of loft instead of 10.5 deg");
  CHECK(setting_words({12 * kDeg, "", 12 * kDeg, 0.0, false, true}, 10.5 * kDeg) ==
        "the 12.0 deg head as marked makes 12.0 deg of loft instead of 10.5 deg");
  CHECK(setting_words({10.5 * kDeg, "closed", 10.5 * kDeg, -1.5 * kDeg, true, true, "0"}, 10.5 * kDeg) ==
        "the club in hand, turned from 0 to closed, keeps 10.5 deg of loft with the face 1.5 deg more closed");
}

TEST_CASE("the club of an answer is named by how it is set", "[advise]") {
  Strategy s;
  s.loft = 10.5 * kDeg;
  s.club = {.low = s.loft, .high = s.loft, .nominal = s.loft, .in_hand = true};
  CHECK(club_words(s) == "10.5 deg driver");
  s.club.nominal = 9.5 * kDeg;
  s.club.setting = "+1";
  CHECK(club_words(s) == "the club in hand at +1");
  s.fit = ClubFit{12 * kDeg, "+1", 13 * kDeg, 0.0, false, true};
  CHECK(club_words(s) == "the 12.0 deg head, set to +1");
}

TEST_CASE("what the club in hand would give of a purchase is told as a share of it", "[advise]") {
  Strategy as_is, s;
  s.gain = 9.0 * kYard;
  const auto told = [&] { return own_turn_sentence(s, as_is, UnitSystem::yards); };
  CHECK(told().empty());
  const ClubFit turn{9.5 * kDeg, "+1", 10.5 * kDeg, -0.7 * kDeg, true, true, "0"};
  s.own_turn = OwnTurn{true, turn, 6.0 * kYard};
  CHECK(told() ==
        "the club in hand, turned from 0 to +1 (loft 10.5 deg, face 0.7 deg more closed), would give 6.0 of those 9.0 "
        "yd");
  s.own_turn->gain = 9.01 * kYard;
  CHECK(told().ends_with("would give as much"));
  s.own_turn->gain = -2.0 * kYard;  // done for the limits' sake
  CHECK(told().ends_with("would cost 2.0 yd where the other driver would add 9.0 yd"));
  s.gain = -1.0 * kYard;
  CHECK(told().ends_with("would cost 2.0 yd where the other driver would cost 1.0 yd"));
  s.gain = 9.0 * kYard;
  s.own_turn = OwnTurn{true, std::nullopt, 0.0};
  CHECK(told() == "no turn of the club in hand adds anything");
  s.attack = 2 * kDeg;
  s.own_turn->gain = 5.0 * kYard;
  CHECK(told() ==
        "the club in hand as it is set, with that attack, would give 5.0 of those 9.0 yd; no turn of it adds anything");
  s.own_turn->fit = turn;
  CHECK(told().ends_with("face 0.7 deg more closed), with that attack, would give 5.0 of those 9.0 yd"));
  s.own_turn = OwnTurn{false, std::nullopt, 0.0};
  CHECK(told() == "no turn of the club in hand meets every limit");
}

TEST_CASE("a loft is told with its sleeve where there is one, and alone elsewhere", "[advise]") {
  CHECK(loft_words(13.5 * kDeg, std::nullopt) == "13.5 deg");
  CHECK(loft_words(13.5 * kDeg, ClubFit{13.5 * kDeg, "", 13.5 * kDeg, 0.0, false, false}) == "13.5 deg");
  CHECK(loft_words(13 * kDeg, ClubFit{12 * kDeg, "+1", 13 * kDeg, -0.7 * kDeg, false, true}) ==
        "13.0 deg (the 12.0 deg head, set to +1)");
}

TEST_CASE("what a fit does to the direction is told beside it", "[advise]") {
  Strategy as_is, s;
  as_is.average.side = 5.0 * kYard;
  s.average.side = -3.0 * kYard;
  CHECK(fit_sentence(s, as_is, UnitSystem::yards).empty());
  s.fit = ClubFit{9.5 * kDeg, "+1", 10.5 * kDeg, -0.7 * kDeg, true, true};
  CHECK(fit_sentence(s, as_is, UnitSystem::yards) ==
        "the club in hand, turned to +1: loft 10.5 deg, face 0.7 deg more closed; the average drive comes to rest 3 yd "
        "left instead of 5 yd right");
  s.average.side = 5.1 * kYard;
  CHECK(fit_sentence(s, as_is, UnitSystem::yards).ends_with("comes to rest 5 yd right, as now"));
}
