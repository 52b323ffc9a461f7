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
}

TEST_CASE("a loft is told with its sleeve where there is one, and alone elsewhere", "[advise]") {
  CHECK(loft_words(13.5 * kDeg, std::nullopt) == "13.5 deg");
  CHECK(loft_words(13.5 * kDeg, ClubFit{13.5 * kDeg, "", 13.5 * kDeg, 0.0, false, false}) == "13.5 deg");
  CHECK(loft_words(13 * kDeg, ClubFit{12 * kDeg, "+1", 13 * kDeg, -0.7 * kDeg, false, true}) ==
        "13.0 deg (the 12.0 deg head, set to +1: face 0.7 deg more closed)");
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
