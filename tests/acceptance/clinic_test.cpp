// Which lofts to own, against the same question asked in the plainest way.
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>

#include "loftwright/clinic/rack.hpp"
#include "loftwright/shot/shot.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const std::vector<double> kLofts{9 * kDeg, 10.5 * kDeg, 12 * kDeg, 13.5 * kDeg, 15 * kDeg};

// The average drive over so many deliveries drawn about the mean, each quantity on its own, one drive after the other.
// The same draws for every loft. [m]
double plain_average(const Pupil& pupil, const Setting& setting, double loft, int draws) {
  const Spread sd = *pupil.spread;
  std::mt19937 random(99);
  std::normal_distribution<double> normal;
  double sum = 0.0;
  for (int n = 0; n < draws; ++n) {
    Delivery d = pupil.delivery;
    d.dynamic_loft += loft - pupil.club_loft;
    d.club_speed += sd.club_speed * normal(random);
    d.attack += sd.attack * normal(random);
    d.path += sd.path * normal(random);
    d.face += sd.face * normal(random);
    d.dynamic_loft += sd.dynamic_loft * normal(random);
    d.toe += sd.toe * normal(random);
    d.high += sd.high * normal(random);
    const Drive drive = drive_from(d, pupil.handed, setting);
    sum += pupil.goal == Goal::carry ? drive.flight.carry : drive.total;
  }
  return sum / draws;
}

}  // namespace

TEST_CASE("a pupil's loft curve is the average drive at each loft, less that of the club in hand") {
  std::mt19937 random(31);
  const Setting setting = default_setting();
  for (int turn = 0; turn < 4; ++turn) {
    Pupil pupil = random_pupil(random);
    pupil.goal = turn % 2 == 0 ? Goal::carry : Goal::total;
    pupil.spread = usual_spread(Skill::mid_handicap, pupil.delivery.club_speed);
    pupil.lofts[0].face_per_loft = 0.0;
    const LoftCurve curve = loft_curve({pupil, setting, 0, ""}, kLofts, RackSwing::now, {});
    constexpr int kDraws = 20'000;
    const double base = plain_average(pupil, setting, pupil.club_loft, kDraws);
    std::map<double, double> gains;  // by loft in degrees, each drawn once
    for (double loft = 9; loft <= 15; loft += 0.5)
      gains[loft] = plain_average(pupil, setting, loft * kDeg, kDraws) - base;
    for (std::size_t j = 0; j < kLofts.size(); ++j) {
      CAPTURE(turn, j, pupil.club_loft / kDeg, pupil.delivery.club_speed / kMph);
      // 256 even points against 20,000 draws; what differs is a difference between two lofts, whose scatter is small
      CHECK(curve.gain[j] == Approx(gains.at(std::round(2.0 * kLofts[j] / kDeg) / 2.0)).margin(0.25));
      CHECK(curve.usable[j]);
    }
    CHECK(curve.attack == pupil.delivery.attack);
    // No loft between the ends of the list goes noticeably further than the best.
    for (const auto& [loft, gain] : gains) {
      CAPTURE(turn, loft);
      CHECK(gain < curve.best_gain + 0.25);
    }
    CHECK(curve.best_loft >= kLofts.front() - 1e-9);
    CHECK(curve.best_loft <= kLofts.back() + 1e-9);
  }
}

TEST_CASE("the club in hand gains nothing over itself") {
  const Pupil pupil = plain_pupil();
  const LoftCurve curve = loft_curve({pupil, default_setting(), 0, ""}, {9 * kDeg, 9.5 * kDeg}, RackSwing::now, {});
  CHECK(curve.gain[1] == Approx(0.0).margin(1e-9));
  CHECK(curve.best_gain >= std::max(curve.gain[0], curve.gain[1]));
}

TEST_CASE("a loft that breaks a limit is for nobody but where every loft does") {
  Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  const auto spin_at = [&](double loft) {
    Delivery d = pupil.delivery;
    d.dynamic_loft += loft - pupil.club_loft;
    return drive_from(d, pupil.handed, setting).launch.spin;
  };
  pupil.limits = {{Limited::spin, {0.0, 0.5 * (spin_at(12 * kDeg) + spin_at(13.5 * kDeg))}}};
  const LoftCurve some = loft_curve({pupil, setting, 0, ""}, kLofts, RackSwing::now, {});
  CHECK(some.usable == std::vector<bool>{true, true, true, false, false});
  CHECK_FALSE(some.limits_given_up);
  CHECK(some.best_loft < 13.5 * kDeg);
  pupil.limits = {{Limited::spin, {0.0, 0.5 * spin_at(9 * kDeg)}}};
  const LoftCurve none = loft_curve({pupil, setting, 0, ""}, kLofts, RackSwing::now, {});
  CHECK(none.usable == std::vector<bool>(5, true));
  CHECK(none.limits_given_up);
  pupil.limits.clear();
  CHECK(none.gain == loft_curve({pupil, setting, 0, ""}, kLofts, RackSwing::now, {}).gain);
}

TEST_CASE("after the advice the curve is that of the attack advised") {
  const Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  AdviseOptions options;
  options.draws = 1024;
  const Advice advice = advise(pupil, setting, options);
  const double attack = advice.at(strategy_of(advice.verdict.leader)).attack;
  REQUIRE(attack > pupil.delivery.attack + 1 * kDeg);
  const LoftCurve curve = loft_curve({pupil, setting, 0, ""}, kLofts, RackSwing::after_advice, options);
  CHECK(curve.attack == attack);
  Pupil taught = pupil;
  taught.delivery.dynamic_loft += pupil.reach.follow * (attack - pupil.delivery.attack);
  taught.delivery.club_speed += pupil.reach.speed_per_attack * (attack - pupil.delivery.attack);
  taught.delivery.attack = attack;
  const LoftCurve direct = loft_curve({taught, setting, 0, ""}, kLofts, RackSwing::now, options);
  for (std::size_t j = 0; j < kLofts.size(); ++j) CHECK(curve.gain[j] == Approx(direct.gain[j]).margin(1e-6));
}

TEST_CASE("the curves of many pupils are those of each, for any number of threads") {
  std::mt19937 random(5);
  std::vector<Pupil> pupils;
  for (int i = 0; i < 6; ++i) pupils.push_back(random_pupil(random));
  const EntrantSource source = [&](std::size_t i) -> Entrant {
    if (i == 2) throw InputError("gone");
    return {pupils[i], default_setting(), 0, ""};
  };
  AdviseOptions options;
  std::vector<std::vector<CurveResult>> all;
  for (const int threads : {1, 2, 7}) {
    options.threads = threads;
    all.push_back(loft_curves(pupils.size(), source, kLofts, RackSwing::now, options));
  }
  for (std::size_t i = 0; i < pupils.size(); ++i) {
    if (i == 2) {
      CHECK_FALSE(all[0][i].curve);
      CHECK(all[0][i].findings.size() == 1);
      continue;
    }
    const LoftCurve alone = loft_curve(source(i), kLofts, RackSwing::now, {});
    for (const auto& results : all) {
      CHECK(results[i].curve->gain == alone.gain);
      CHECK(results[i].curve->best_gain == alone.best_gain);
    }
  }
}
