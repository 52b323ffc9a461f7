// Whole shots against the numbers of the game's rules and test procedures.
#include <catch2/catch.hpp>
#include <cmath>

#include "best_loft.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// The governing bodies' overall-distance test: launched by a machine, 23 degC; humidity and pressure are not in the
// source read, so 50 % and sea level.
Drive overall_distance(double ball_mph, double launch_deg, double rpm, const AeroModel& aero = reference_aero()) {
  Setting in = default_setting();
  in.turf = firm();
  in.aero = aero;
  in.air = air_from(Weather{.temperature = 296.15});
  return drive_from(Launch{ball_mph * kMph, launch_deg * kDeg, 0.0, rpm * kRpm, 0.0}, in);
}

}  // namespace

TEST_CASE("overall-distance test until 2027: a ball at the limit comes to rest within 2 % of 317 yd", "[shot]") {
  const double total = overall_distance(176.0, 10.0, 2520.0).total / kYard;
  INFO("total " << total << " yd");  // measured: 315.3
  CHECK(std::abs(total / 317.0 - 1.0) < 0.02);
  // The second opinion on a modern ball (measured: 317.3) agrees; the ball of 1994 (288.9) is the shorter one it is
  // said to be.
  CHECK(std::abs(overall_distance(176.0, 10.0, 2520.0, linear_aero()).total / kYard / 317.0 - 1.0) < 0.02);
  const double shorter = 1.0 - overall_distance(176.0, 10.0, 2520.0, smits_smith_aero()).flight.carry /
                                   overall_distance(176.0, 10.0, 2520.0).flight.carry;
  INFO("the ball of 1994 carries " << 100.0 * shorter << " % less");  // model description: about 7 %; measured 8.8 %
  CHECK(shorter > 0.05);
  CHECK(shorter < 0.10);
}

TEST_CASE("overall-distance test from 2028: a ball at today's limit fails it, as it was made to", "[shot]") {
  const double total = overall_distance(183.0, 11.0, 2220.0).total / kYard;
  INFO("total " << total << " yd");  // measured: 332.0
  CHECK(total > 317.0 + 3.0);
  CHECK(total < 317.0 * 1.06);  // by a dozen yards or so, not by fifty
}

TEST_CASE("the launches of the overall-distance tests take the club speeds they are named for", "[impact]") {
  // 120 mph for 176 mph, 10 deg, 2520 rpm; 125 mph for 183 mph, 11 deg, 2220 rpm. Ball speeds are printed to 1 mph: 0.3
  // %; the head there is any head at the rules' limit, ours is an estimate: 1 % in all. Measured: 120.8 and 125.2 mph.
  struct Test {
    double club, ball, launch, spin;
  };
  for (const Test& t : {Test{120.0, 176.0, 10.0, 2520.0}, Test{125.0, 183.0, 11.0, 2220.0}}) {
    const Delivery d = delivery_behind({t.ball * kMph, t.launch * kDeg, 0.0, t.spin * kRpm, 0.0}, Head{}, Ball{});
    INFO("club speed " << d.club_speed / kMph << " mph, attack " << d.attack / kDeg << " deg, dynamic loft "
                       << d.dynamic_loft / kDeg << " deg");
    CHECK(std::abs(d.club_speed / kMph / t.club - 1.0) < 0.01);
    CHECK(d.dynamic_loft / kDeg > 11.0);
    CHECK(d.dynamic_loft / kDeg < 13.0);
    CHECK(std::abs(d.attack / kDeg) < 3.0);  // a machine swings about level
  }
}

TEST_CASE("smash factors of the overall-distance tests", "[impact]") {
  // 176 / 120 and 183 / 125, at 12 to 13 deg of dynamic loft, level. Ours are 0.7 to 1.1 % low: see docs/accuracy.md.
  for (const double loft : {12.0, 12.5, 13.0}) {
    const double today = centred(120.0, 0.0, loft, default_setting()).smash;
    const double future = centred(125.0, 0.0, loft, default_setting()).smash;
    INFO("dynamic loft " << loft << " deg: " << today << " and " << future);
    CHECK(std::abs(today / (176.0 / 120.0) - 1.0) < 0.015);
    CHECK(std::abs(future / (183.0 / 125.0) - 1.0) < 0.015);
  }
}

TEST_CASE("restitution is 0.83 when a head is met at 160 ft/s", "[impact]") {
  // The rules' number, seen from outside: smash of a blow with no loft is (1 + e) / (1 + m / M).
  const Head head;
  const Ball ball;
  const double smash = greatest_smash(head, ball, 160.0 * 0.3048);
  CHECK(std::abs(smash * (1.0 + ball.mass / head.mass) - 1.0 - 0.83) < 1e-4);  // 48.77 for 48.768 m/s
}

TEST_CASE("a head measured in a laboratory drives as ours does", "[impact]") {
  // MDPI Proceedings 49(1) 47, 2020, table 1: 204 g, centre of gravity 42 mm behind the face, inertia 2843, 5679 and
  // 4085 g cm2.
  Head measured;
  measured.mass = 0.204;
  measured.depth = 0.042;
  measured.inertia_normal = 2843e-7;
  measured.inertia_up = 5679e-7;
  measured.inertia_heel_toe = 4085e-7;
  for (const double mph : {70.0, 95.0, 120.0}) {
    const Delivery d{mph * kMph, 0.0, 0.0, 0.0, 13.0 * kDeg, 0.0, 0.0};
    const Launch ours = strike_ball(d, Head{}, Ball{}).launch, theirs = strike_ball(d, measured, Ball{}).launch;
    INFO(mph << " mph: spin " << ours.spin / kRpm << " and " << theirs.spin / kRpm << " rpm");
    CHECK(std::abs(theirs.ball_speed / ours.ball_speed - 1.0) < 0.01);
    CHECK(std::abs(theirs.launch - ours.launch) < 0.5 * kDeg);
    CHECK(std::abs(theirs.spin / ours.spin - 1.0) < 0.10);
  }
}
