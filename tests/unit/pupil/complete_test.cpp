// A pupil made in code, made whole, and refused where it cannot be.
#include "loftwright/pupil/complete.hpp"

#include <catch2/catch.hpp>

#include "core/traps.hpp"
#include "loftwright/advise/advise.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/pupil/validate.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// All that must be said: a delivery and the loft it was hit with.
Pupil least_pupil() {
  Pupil p;
  p.delivery = {.club_speed = 82 * kMph, .attack = -4 * kDeg, .dynamic_loft = 9.5 * kDeg};
  p.club_loft = 10.5 * kDeg;
  return p;
}

// The same as a file.
Pupil least_file() {
  Findings findings;
  const auto read = read_pupil(R"({"format": "loftwright-pupil/1", "club": {"loft_deg": 10.5},
    "delivery": {"club_speed_mph": 82, "attack_deg": -4, "dynamic_loft_deg": 9.5}})",
                               ".", Catalogue(), findings);
  REQUIRE(read);
  return *read;
}

}  // namespace

TEST_CASE("a pupil made in code is completed as its file is, and can be advised on") {
  Pupil made = least_pupil();
  CHECK_THROWS_WITH(advise(made, default_setting(), without_confidence()),
                    "lofts: the club in hand must be among them");
  complete(made);
  const Pupil read = least_file();
  CHECK(made.assumed == read.assumed);
  CHECK(made.assumed.size() > 10);
  REQUIRE(made.lofts.size() == 2);
  CHECK(made.lofts.front().low == read.lofts.front().low);
  CHECK(made.lofts.back().in_hand);
  CHECK(made.reach.attack.low == read.reach.attack.low);
  CHECK(made.reach.attack.high == read.reach.attack.high);
  CHECK_NOTHROW(advise(made, default_setting(), without_confidence()));
}

TEST_CASE("what is not as usual was given, and nothing is said of it") {
  Pupil p = least_pupil();
  p.handed = Handed::left;
  p.goal = Goal::total;
  p.fairway = 30.0;
  p.spread = Spread{};
  p.reach.attack = {-5 * kDeg, 2 * kDeg};
  p.conditions.wind.speed = 4.0;
  complete(p);
  for (const std::string& said : p.assumed) {
    CAPTURE(said);
    for (const char* word : {"hand was", "goal", "fairway", "pread", "within reach", "calm"})
      CHECK(said.find(word) == std::string::npos);
  }
  CHECK(p.reach.attack.high == 2 * kDeg);
}

TEST_CASE("what is told stands before the sentence of its datum") {
  Pupil p = least_pupil();
  complete(p, Given{}, {{Datum::goal, "told"}});
  const auto at = std::find(p.assumed.begin(), p.assumed.end(), "told");
  REQUIRE(at != p.assumed.end());
  CHECK(*(at - 1) == "The hand was not given: a right-hander taken.");
  CHECK(*(at + 1) == "The goal was not given: carry taken.");
}

TEST_CASE("a club that is on offer is the one in hand, another is added") {
  Pupil p = least_pupil();
  p.lofts = {{9 * kDeg, 9 * kDeg, 9 * kDeg}, {10.5 * kDeg, 10.5 * kDeg, 10.5 * kDeg}};
  complete_lofts(p);
  CHECK(p.lofts.size() == 2);
  CHECK(p.lofts[1].in_hand);
  p.lofts = {{9 * kDeg, 12 * kDeg, 9 * kDeg}};
  complete_lofts(p);
  CHECK(p.lofts.size() == 2);
  complete_lofts(p);
  CHECK(p.lofts.size() == 2);
}

TEST_CASE("a pupil is refused for what lies outside its range or goes against something else") {
  const WithoutTraps here;
  const auto refused = [](const std::string& message, auto&& spoil) {
    Pupil p = least_pupil();
    complete(p);
    REQUIRE_NOTHROW(validate(p));
    spoil(p);
    CHECK_THROWS_WITH(validate(p), message);
  };
  refused("attack is 21 deg; allowed: -20 to 20 deg", [](Pupil& p) { p.delivery.attack = 21 * kDeg; });
  refused("reach attack, high is 10.5 deg; allowed: -4 to 10 deg", [](Pupil& p) { p.reach.attack.high = 10.5 * kDeg; });
  refused("plane is 19 deg; allowed: 20 to 80 deg", [](Pupil& p) { p.arc.plane = 19 * kDeg; });
  refused("limit on side at rest: low lies above high", [](Pupil& p) { p.limits = {{Limited::side, {5.0, -5.0}}}; });
  refused("spread of face is 16 deg; allowed: 0 to 15 deg", [](Pupil& p) { p.spread.emplace().face = 16 * kDeg; });
  refused("spread: these correlations cannot all hold together (their matrix is not positive definite)", [](Pupil& p) {
    p.spread = Spread{};
    p.spread->correlations = {{0, 1, 0.9}, {1, 2, 0.9}, {0, 2, -0.9}};
  });
  refused("technique options: together they take face to between 0 and 36 deg; allowed: -30 to 30 deg", [](Pupil& p) {
    p.reach.options.assign(3, {"open", 1.0, {.face = 12 * kDeg}});
  });
  refused("change of attack: that is what the rest of the reach is about", [](Pupil& p) {
    p.reach.options = {{"up", 1.0, {.attack = 1 * kDeg}}};
  });
  refused("follow is nan; allowed: 0 to 1.3", [](Pupil& p) { p.reach.follow = std::nan(""); });
}
