// What a pupil is taken to be where nothing is said, and the scales limits are weighed on: as docs/pupil-file.md has
// it.
#include "loftwright/pupil/pupil.hpp"

#include <catch2/catch.hpp>

#include "advise/finish.hpp"
#include "loftwright/advise/chart.hpp"
#include "loftwright/advise/explain.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("what nobody says of a pupil is what docs/pupil-file.md takes", "[advise]") {
  const Pupil p;
  CHECK(p.handed == Handed::right);
  CHECK(p.goal == Goal::carry);
  CHECK(p.measured_shots == 10);
  CHECK(p.skill == Skill::mid_handicap);
  CHECK(p.prices.driver == Approx(3.0 * kYard));
  CHECK(p.prices.sleeve == Approx(0.5 * kYard));
  CHECK(p.prices.swing == Approx(3.0 * kYard));
  CHECK(p.fairway == Approx(35.0 * kYard));
  CHECK(p.for_pupil.empty());
  CHECK(p.reach.follow == 0.85);
  CHECK(p.reach.speed_per_attack == 0.0);
  CHECK(p.reach.effort_per_attack == Approx(1.0 / kDeg));  // 1 a degree
  CHECK(p.arc.plane == Approx(50.0 * kDeg));
  CHECK(p.arc.radius == 1.6);
  CHECK(p.conditions.altitude == 0.0);
  CHECK(p.conditions.temperature == 293.15);
  CHECK(p.conditions.humidity == 0.5);
  CHECK(p.conditions.wind.calm());
  CHECK(p.conditions.turf == "medium");
  CHECK(p.ball == "reference");
  CHECK(p.head == "modern-driver");
  const Spread s;
  for (const double sd : {s.club_speed, s.attack, s.path, s.face, s.dynamic_loft, s.toe, s.high}) CHECK(sd == 0.0);
  CHECK(kLeastPrice == Approx(0.5 * kYard));
  CHECK(kMostPrice == 50.0);
  CHECK(kTwoAtOnce == Approx(kYard));
  CHECK(TechniqueOption{}.effort == 1.0);
  CHECK(LoftChoice{0.2, 0.2, 0.2}.face_per_loft == 0.0);
}

TEST_CASE("a chart looks from 4 to 30 deg of loft unless told otherwise", "[advise]") {
  CHECK(ChartAxes{}.loft.low == Approx(4.0 * kDeg));
  CHECK(ChartAxes{}.loft.high == Approx(30.0 * kDeg));
}

TEST_CASE("limits are weighed by the degree, the hundred rpm and the metre", "[advise]") {
  for (const Limited q : {Limited::spin_loft, Limited::launch, Limited::landing_angle, Limited::face_to_path})
    CHECK(scale_of(q) == Approx(kDeg));
  CHECK(scale_of(Limited::spin) == Approx(100.0 * kRpm));
  for (const Limited q : {Limited::apex, Limited::side, Limited::carry}) CHECK(scale_of(q) == 1.0);
}

TEST_CASE("a pupil's air is that of the altitude, unless the station's pressure is given", "[advise]") {
  Conditions c;
  c.altitude = 1500.0;
  const auto density = [](double pressure) { return air_from(Weather{293.15, pressure, 0.5}).density; };
  CHECK(air_from(c).density ==
        Approx(density(84556.0)).epsilon(1e-5));  // ISO 2533: 845.56 hPa at 1500 m (geopotential)
  c.pressure = 100000.0;
  CHECK(air_from(c).density == Approx(density(100000.0)));
}

TEST_CASE("what was not worked out reads zero", "[advise]") {
  const Strategy s;
  for (const double x :
       {s.loft, s.attack, s.goal, s.gain, s.centred_gain, s.price, s.average.carry, s.average.total, s.average.side,
        s.average.fairway_share, s.verification.tight_change, s.verification.restart_change}) {
    CHECK(x == 0.0);
  }
  const ExchangeRates rates;
  for (const Rate& r :
       {rates.attack, rates.attack_loft_held, rates.loft, rates.club_speed, rates.launch_spin, rates.launch_angle}) {
    for (const double x : {r.carry, r.total, r.launch, r.spin}) CHECK(x == 0.0);
  }
  CHECK(Confidence{}.misfit == 0.0);
  CHECK(Measuring{}.everything == 0.0);
  for (const Measure k : kAllOf<Measure>) CHECK(Measuring{}.worth[k] == 0.0);
  const Verdict v;
  CHECK(v.lever == Lever::leave);
  CHECK(v.certainty == Certainty::close);
  CHECK(v.probability == 0.0);
  CHECK(v.regret == 0.0);
  CHECK_FALSE(v.runner_up);
  CHECK_FALSE(v.first_step);
  CHECK_FALSE(v.measure_first);
  const Claim c{ClaimKind::now};  // a claim leaves out what it does not speak of
  for (const double x : {c.launch, c.spin, c.distance, c.loft, c.attack, c.low, c.high, c.share}) CHECK(x == 0.0);
  const FinishEllipse e;
  for (const double x : {e.centre.along, e.centre.side, e.longer, e.shorter, e.turn}) CHECK(x == 0.0);
}
