// Tuning: what the fit is, where it must not move, and what it refuses.
#include <catch2/catch.hpp>
#include <cmath>

#include "simulated_shots.hpp"
#include "tune/fit.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

TuneResult tuned(const Session& s, const ShotList& list, const TuneOptions& options = {}) {
  return tune(list, s.pupil, s.setting, options);
}

const TunedValue& of(const TuneResult& r, Tunable t) { return r.values[t]; }

// Every number an answer carries.
std::vector<double> numbers(const TuneResult& r) {
  std::vector<double> out{r.chi_square,       r.chi_square_p,   static_cast<double>(r.drives),
                          r.left_out.untuned, r.left_out.tuned, r.left_out.low,
                          r.left_out.high};
  for (const TunedValue& v : r.values) out.insert(out.end(), {v.value, v.sd, v.low80, v.high95, v.removed});
  for (const auto& row : r.correlation) out.insert(out.end(), row.begin(), row.end());
  for (const TunedReading& q : r.readings)
    out.insert(out.end(), {q.tuned.rms, q.left_out_tuned.rms, q.left_out_tuned.mean, q.widened});
  return out;
}

}  // namespace

TEST_CASE("what no shot tells of stays at its prior to the last bit", "[tune]") {
  std::mt19937_64 random(32);
  Session s = usual_session(random);
  SECTION("no flight: drag and lift") {
    s.flight_seen = false;
    const TuneResult r = tuned(s, simulated(s, random));
    for (const Tunable t : {Tunable::drag_scale, Tunable::lift_scale}) {
      CHECK(of(r, t).value == 1.0);
      CHECK(of(r, t).sd == of(r, t).prior_sd);
      CHECK(of(r, t).removed == 0.0);
      CHECK_FALSE(of(r, t).identified);
    }
    CHECK(of(r, Tunable::restitution).removed > 0.05);
    CHECK(r.with_flight == 0);
    CHECK(r.with_strike == 24);
    CHECK(r.readings.size() == 3);
  }
  SECTION("no club: restitution and tangential restitution") {
    s.club_seen = false;
    const TuneResult r = tuned(s, simulated(s, random));
    CHECK(of(r, Tunable::restitution).value == s.setting.head.restitution);
    CHECK(of(r, Tunable::tangential_restitution).value == s.setting.head.tangential_restitution);
    CHECK(of(r, Tunable::restitution).removed == 0.0);
    CHECK(of(r, Tunable::lift_scale).removed > 0.3);
    CHECK(r.with_strike == 0);
    CHECK(r.hidden.empty());
  }
}

TEST_CASE("shots without ball numbers still tell of the flight, through the delivery", "[tune]") {
  std::mt19937_64 random(33);
  Session s = usual_session(random);
  s.ball_seen = false;
  const ShotList list = simulated(s, random);
  const TuneResult through = tuned(s, list);
  CHECK(through.with_strike == 0);
  CHECK(through.with_flight == 24);
  CHECK(of(through, Tunable::lift_scale).removed > 0.1);
  std::mt19937_64 again(33);
  Session seen = usual_session(again);
  const TuneResult directly = tuned(seen, simulated(seen, again));
  CHECK(of(through, Tunable::lift_scale).sd > of(directly, Tunable::lift_scale).sd);
}

TEST_CASE("more errors, less told, and more shots, more told", "[tune]") {
  const auto removed = [](int shots, double noise, double systematic) {
    std::mt19937_64 random(34);
    Session s = usual_session(random);
    s.shots = shots;
    TuneOptions options;
    for (DeviceError& e : options.device) {
      e.noise *= noise;
      e.systematic *= systematic;
    }
    s.device = options.device;
    const TuneResult r = tuned(s, simulated(s, random), options);
    double sum = 0.0;
    for (const TunedValue& v : r.values) sum += v.removed;
    return sum;
  };
  const double usual = removed(24, 1.0, 1.0);
  CHECK(removed(96, 1.0, 1.0) > usual);
  CHECK(removed(24, 3.0, 1.0) < usual);
  CHECK(removed(24, 1.0, 3.0) < usual);
  CHECK(removed(96, 0.1, 0.1) > 1.5 * usual);
}

TEST_CASE("a device noisier than taken is noticed, and its reading counts for less", "[tune]") {
  std::mt19937_64 random(35);
  Session s = usual_session(random);
  s.device[Reading::carry].noise = 0.06;
  const TuneResult r = tuned(s, simulated(s, random));
  const auto carry =
      std::find_if(r.readings.begin(), r.readings.end(), [](const auto& q) { return q.reading == Reading::carry; });
  REQUIRE(carry != r.readings.end());
  // 6 % of 150 m, known to 1 / sqrt(2 * 23) = 15 % of itself; three of these.
  CHECK(std::abs(carry->widened - 9.0) < 4.0);
  CHECK(r.chi_square_p > 0.001);  // nothing is left unexplained
}

TEST_CASE("an unseen strike is slow on average, and that is not taken for a dead head", "[tune]") {
  std::mt19937_64 random(36);
  Session s = usual_session(random);
  s.truth = {};
  for (DeviceError& e : s.device) e = {0.2 * e.noise, 0.0, e.of_reading};  // hardly any errors of measurement
  s.shots = 400;
  s.pupil.spread->toe = 0.015;
  s.pupil.spread->high = 0.010;
  const ShotList list = simulated(s, random);

  TuneOptions options;
  options.device = s.device;
  const Gatherer model(s.pupil, s.setting, options);
  const Evidence e = *model.gather(list.shots.front());
  // The mean of many strikes of this very delivery.
  double mean = 0.0, spin = 0.0;
  constexpr int kStrikes = 40000;
  const Launch centred = impact_from(*e.delivery, s.pupil.handed, s.setting.head, s.setting.ball).launch;
  for (int i = 0; i < kStrikes; ++i) {
    Delivery d = *e.delivery;
    d.toe = 0.015 * deviate(random);
    d.high = 0.010 * deviate(random);
    const Launch launch = impact_from(d, s.pupil.handed, s.setting.head, s.setting.ball).launch;
    mean += (launch.ball_speed - centred.ball_speed) / kStrikes;
    spin += (launch.spin - centred.spin) / kStrikes;
  }
  CAPTURE(mean, e.shift.ball_speed, spin, e.shift.spin);
  CHECK(mean < -0.2);
  CHECK(std::abs(e.shift.ball_speed - mean) < 0.05 * std::abs(mean));  // cross terms and sixth powers are left out
  // The mean of 40 000 spins that scatter by 15 % is known to 0.2 rad/s; 4 of these, and what is left out.
  CHECK(std::abs(e.shift.spin - spin) < 1.0 + 0.05 * std::abs(spin));

  const TuneResult r = tuned(s, list, options);
  CHECK(r.hidden_scale == 1.0);
  CHECK(std::abs(of(r, Tunable::restitution).value - 0.83) < 0.003);
}

namespace {

// Of a pupil whose strikes scatter by this share of what the pupil's file says.
TuneResult tuned_to_steadier(double share, int shots, unsigned seed) {
  std::mt19937_64 random(seed);
  Session s = usual_session(random);
  s.truth = {};
  const Spread said = *s.pupil.spread;
  s.pupil.spread->toe *= share;
  s.pupil.spread->high *= share;
  s.shots = shots;
  const ShotList list = simulated(s, random);
  s.pupil.spread = said;
  return tuned(s, list);
}

}  // namespace

TEST_CASE("a pupil who strikes it better than the spread says is not taken for a hot head", "[tune]") {
  const TuneResult r = tuned_to_steadier(0.2, 60, 43);
  CHECK(r.hidden == std::vector<Reading>{Reading::toe, Reading::high});
  CAPTURE(r.hidden_scale, of(r, Tunable::restitution).value);
  // Scatter of 60 shots in three readings tells the spread to about a tenth; what the device is noisier or quieter than
  // it is taken for goes into it too.
  CHECK(r.hidden_scale < 0.45);
  CHECK(std::abs(of(r, Tunable::restitution).value - 0.83) < of(r, Tunable::restitution).sd);
  CHECK(r.chi_square_p < 0.999);
}

TEST_CASE("how much narrower a pupil strikes than the spread says is found", "[tune]") {
  const double scale = tuned_to_steadier(0.5, 200, 44).hidden_scale;
  CAPTURE(scale);
  CHECK(std::abs(scale - 0.5) < 0.15);  // what noise of the device adds or takes included
}

TEST_CASE("shots left out are missed by less with the tuned model, where the truth is another", "[tune]") {
  std::mt19937_64 random(37);
  const Session s = usual_session(random);
  const LeftOut out = tuned(s, simulated(s, random)).left_out;
  CAPTURE(out.untuned, out.tuned);
  CHECK(out.tuned < out.untuned);
  CHECK(std::abs(out.tuned - 1.0) < 0.3);  // by what is expected
  CHECK(std::abs(out.difference - (out.untuned * out.untuned - out.tuned * out.tuned)) < 1e-12);
}

TEST_CASE("the same tuning for any number of threads, another split for another seed", "[tune]") {
  std::mt19937_64 random(37);
  const Session s = usual_session(random);
  const ShotList list = simulated(s, random);
  TuneOptions options;
  const auto one = numbers(tuned(s, list, options));
  for (const int threads : {2, 5, 64}) {
    options.threads = threads;
    CAPTURE(threads);
    CHECK(numbers(tuned(s, list, options)) == one);
  }
  options.seed = 2;
  const TuneResult other = tuned(s, list, options);
  CHECK(numbers(other) != one);
  CHECK(of(other, Tunable::restitution).value ==
        of(tuned(s, list), Tunable::restitution).value);  // the fit to all shots has no split
}

TEST_CASE("tuning costs few drives", "[tune]") {
  std::mt19937_64 random(38);
  const Session s = usual_session(random);
  const ShotList list = simulated(s, random);
  TuneOptions options;
  for (const int folds : {2, 10, 24, 1000}) {
    options.folds = folds;
    const TuneResult r = tuned(s, list, options);
    CAPTURE(folds, r.drives);
    CHECK(r.left_out.folds == std::min(folds, 24));
    // A fit takes six to eight looks at every shot.
    CHECK(r.drives <= 10L * 24 * (r.left_out.folds + 1));
    CHECK(r.drives >= 24L * (r.left_out.folds + 1));
  }
}

TEST_CASE("a left-hander's shots tune as the mirror image's do", "[tune]") {
  std::mt19937_64 random(39);
  Session s = usual_session(random);
  ShotList list = simulated(s, random);
  const auto right = numbers(tuned(s, list));
  s.pupil.handed = Handed::left;
  s.pupil.delivery = mirrored(s.pupil.delivery);
  for (Shot& shot : list.shots) {
    for (const Reading r : {Reading::path, Reading::face, Reading::azimuth, Reading::tilt}) shot.at(r) = -*shot.at(r);
  }
  const auto left = numbers(tuned(s, list));
  for (std::size_t i = 0; i < right.size(); ++i) {
    CAPTURE(i);
    if (i == 2) continue;  // drives computed: how many steps the solver takes hangs on rounding
    // Flights are each other's mirror to rounding; the solver stops within 1e-5 posterior standard deviations.
    CHECK(left[i] == Approx(right[i]).epsilon(1e-5).margin(1e-6));
  }
}

TEST_CASE("what cannot be tuned to is said", "[tune]") {
  std::mt19937_64 random(40);
  const Session s = usual_session(random);
  ShotList list = simulated(s, random);
  list.shots[3].values = {};
  list.shots[3].at(Reading::carry) = 150.0;
  list.shots[7].at(Reading::launch) = -3 * kDeg;  // never rises, so has no flight to compare
  const TuneResult r = tuned(s, list);
  CHECK(r.shots == 22);
  REQUIRE(r.notes.size() == 2);
  CHECK(r.notes[0].line == 5);
  CHECK_THAT(r.notes[0].message, Catch::Contains("neither a delivery"));
  CHECK(r.notes[1].line == 9);
  CHECK_THAT(r.notes[1].message, Catch::Contains("never rose"));

  list.shots.resize(4);
  CHECK_THROWS_WITH(tuned(s, list), Catch::Contains("3 of 4 shots can be tuned to; at least 5 are needed"));
  TuneOptions options;
  options.folds = 1;
  CHECK_THROWS_WITH(tuned(s, list, options), Catch::Contains("folds"));
}

TEST_CASE("without a run to measure the turf stays as modelled, to the last bit, and no turf touches the others",
          "[tune]") {
  std::mt19937_64 random(45);
  Session s = usual_session(random);
  const ShotList list = simulated(s, random);
  const TuneResult r = tuned(s, list);
  for (const Tunable k : kAllOf<Tunable>) {
    if (!is_of_turf(k)) continue;
    CAPTURE(title_of(k));
    CHECK(r.values[k].value == 1.0);
    CHECK(r.values[k].sd == r.values[k].prior_sd);
    CHECK(r.values[k].removed == 0.0);
    CHECK_FALSE(r.values[k].identified);
  }
  CHECK(of(r, Tunable::tilt_scale).prior_sd == Approx(2.5 / 21.4));
  CHECK(of(r, Tunable::tilt_speed_scale).prior_sd == Approx(0.50));
  CHECK(of(r, Tunable::bounce_scale).prior_sd == Approx(0.20));
  CHECK(of(r, Tunable::rolling_scale).prior_sd == Approx(0.35));
  CHECK(r.with_run == 0);
  CHECK(r.tuning().turf.empty());
  const auto same_four = [&](const TuneResult& other) {
    for (const Tunable k : kAllOf<Tunable>) {
      if (is_of_turf(k)) continue;
      CAPTURE(title_of(k));
      CHECK(other.values[k].value == r.values[k].value);
      CHECK(other.values[k].sd == r.values[k].sd);
    }
    CHECK(other.chi_square == r.chi_square);
  };
  TuneOptions wide;
  wide.widths.turf_tilt *= 2.0;
  wide.widths.turf_restitution = 0.5;
  wide.widths.turf_rolling = 0.9;
  same_four(tuned(s, list, wide));
  s.setting.turf.restitution = 0.7;
  s.setting.turf.rolling = 0.1;
  s.setting.turf.tilt = 0.0;
  same_four(tuned(s, list));
  s.setting.turf.width = 0.0;  // known exactly
  same_four(tuned(s, list));
}

TEST_CASE("a run is a total beside its own carry, and the carry's error is none of it", "[tune]") {
  std::mt19937_64 random(46);
  Session s = usual_session(random);
  s.run_seen = true;
  const Shot shot = simulated(s, random).shots.front();
  TuneOptions options;
  const Gatherer model(s.pupil, s.setting, options);
  const Evidence e = *model.gather(shot);
  REQUIRE(e.readings == std::vector<std::size_t>{0, 1, 2, 3, 4, 5, 6});
  CHECK(e.measured[6] == *shot.at(Reading::total) - *shot.at(Reading::carry));
  const double run = e.measured[6] - model.residual(e, Tunables::Zero())[6];
  CHECK(e.own(6, 6) > 2.7 * 2.7 + 0.0225 * run * run);
  CHECK(e.own(6, 6) < 1.5 * (2.7 * 2.7 + 0.0225 * run * run));  // what the launch's errors add is the lesser part

  options.device[Reading::carry] = {0.1, 0.1, true};
  const Evidence bad_carry = *Gatherer(s.pupil, s.setting, options).gather(shot);
  CHECK(bad_carry.own(6, 6) == Approx(e.own(6, 6)).epsilon(1e-12));
  CHECK(bad_carry.own(3, 6) == Approx(e.own(3, 6)).epsilon(1e-9));
  CHECK(bad_carry.own(3, 3) > 4.0 * e.own(3, 3));

  Shot no_carry = shot, no_total = shot;
  no_carry.at(Reading::carry).reset();
  no_total.at(Reading::total).reset();
  CHECK(model.gather(no_carry)->readings == std::vector<std::size_t>{0, 1, 2, 4, 5});
  CHECK(model.gather(no_total)->readings == std::vector<std::size_t>{0, 1, 2, 3, 4, 5});
}

TEST_CASE("slopes along every tunable are those of differences, on any turf", "[tune]") {
  std::mt19937_64 random(47);
  Session s = usual_session(random);
  s.run_seen = true;
  s.setting.turf.width = 1.5;
  TuneOptions options;
  options.tolerance = kTightFlightTolerance;
  const Gatherer model(s.pupil, s.setting, options);
  for (const Shot& shot : simulated(s, random).shots) {
    const Evidence e = *model.gather(shot);
    Tunables at;
    at << 0.3, -0.5, 0.8, 0.2, -0.7, 0.9, 0.4, -0.6;
    const Residual r = model.residual_and_slope(e, at);
    for (Eigen::Index k = 0; k < static_cast<Eigen::Index>(kTunables); ++k) {
      constexpr double kStep = 1e-3;
      const Rows above = model.residual(e, at + kStep * Tunables::Unit(k)),
                 below = model.residual(e, at - kStep * Tunables::Unit(k));
      for (Eigen::Index i = 0; i < r.value.size(); ++i) {
        const double difference = (above[i] - below[i]) / (2.0 * kStep);
        CAPTURE(k, i, r.slope(i, k), difference);
        // A third derivative times the step squared, and the flight's own steps.
        CHECK(std::abs(r.slope(i, k) - difference) < 1e-4 * std::max(1e-2, std::abs(difference)));
      }
    }
    CHECK(r.slope(6, 4) > 0.0);  // more tilt, less computed run
    CHECK(r.slope(6, 7) > 0.0);  // more resistance, less
    CHECK(r.slope.topRightCorner(6, 4).isZero(0.0));
  }
}

TEST_CASE("as many runs as are said to halve their uncertainty do, and a device's offset sets a floor", "[tune]") {
  std::mt19937_64 random(48);
  Session s = usual_session(random);
  s.run_seen = true;
  s.truth = {};
  const TuneResult first = tuned(s, simulated(s, random));
  REQUIRE(first.run);
  REQUIRE(first.run->to_halve);
  CHECK(first.with_run == 24);
  CHECK(first.tuning().turf == s.pupil.conditions.turf);
  CAPTURE(first.run->prior_sd, first.run->sd, *first.run->to_halve, first.run->least_share);
  s.shots = std::max(*first.run->to_halve, static_cast<int>(kLeastForTuning));
  const TuneResult halved = tuned(s, simulated(s, random));
  // The shots' launches scatter about the mean drive's, and their scatter may be taken for wider than it is.
  CHECK(halved.run->sd < 0.55 * halved.run->prior_sd);
  if (s.shots == *first.run->to_halve) CHECK(halved.run->sd > 0.40 * halved.run->prior_sd);

  TuneOptions options;
  options.device[Reading::total].systematic = 8.0;
  s.device = options.device;
  s.shots = 300;
  const TuneResult floored = tuned(s, simulated(s, random), options);
  CAPTURE(floored.run->least_share, floored.run->sd, floored.run->prior_sd);
  CHECK_FALSE(floored.run->to_halve);
  CHECK(floored.run->least_share > 0.5);
  CHECK(floored.run->sd == Approx(floored.run->least_share * floored.run->prior_sd).epsilon(0.05));
}

TEST_CASE("odd shots are left out when asked", "[tune]") {
  std::mt19937_64 random(41);
  const Session s = usual_session(random);
  ShotList list = simulated(s, random);
  list.shots[2].odd = {Reading::carry};
  TuneOptions options;
  CHECK(tuned(s, list, options).shots == 24);
  options.odd = Outliers::leave_out;
  CHECK(tuned(s, list, options).shots == 23);
}

TEST_CASE("a fit that runs into its end says so", "[tune]") {
  std::mt19937_64 random(42);
  Session s = usual_session(random);
  s.truth.lift_scale = 1.9;  // no ball
  const TuneResult r = tuned(s, simulated(s, random));
  CAPTURE(of(r, Tunable::lift_scale).value, of(r, Tunable::drag_scale).value, r.chi_square_p, r.chi_square);
  CHECK(of(r, Tunable::lift_scale).at_end);
  CHECK(of(r, Tunable::lift_scale).value == Approx(1.24));
  CHECK(r.chi_square_p < 0.01);
}
