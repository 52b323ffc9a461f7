// What must hold of every run and every total: a ball never rises faster than it fell, more speed runs farther, steeper
// and more backspin less far, firm beyond medium beyond soft; total has one maximum over loft and no jumps; a topped
// drive does not run past a better one.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "draws.hpp"
#include "ground/bounce.hpp"
#include "loftwright/shot/drives.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const Turf kTurfs[] = {firm(), medium(), soft()};

double run_at(double speed, double below, double backspin, const Turf& turf) {
  Setting in = default_setting();
  in.turf = turf;
  const Run run = run_out(Landing{speed, below, backspin}, run_setting(in));
  return run.bounce + run.roll;
}

// A drive struck at the centre, face and path square.
Drive centred_on(const Turf& turf, double mph, double attack, double loft, double tolerance) {
  Setting in = default_setting();
  in.turf = turf;
  return drive_from(Delivery{mph * kMph, attack * kDeg, 0.0, 0.0, loft * kDeg, 0.0, 0.0}, Handed::right, in, tolerance);
}

}  // namespace

TEST_CASE("a ball never rises faster than it fell", "[ground]") {
  Draws draws(81);
  for (int i = 0; i < 3000; ++i) {
    const Turf& turf = kTurfs[i % 3];
    double forward = draws.between(0.1, 80.0), down = draws.between(0.0, 50.0), spin = draws.between(-600.0, 900.0);
    INFO(forward << " m/s forward, " << down << " m/s down, " << spin << " rad/s");
    for (int bounce = 0; bounce < 8; ++bounce) {
      const auto out = detail::bounce_once(forward, down, spin, turf, Ball{}.radius);
      if (out.forward <= 0.0) break;
      CHECK(out.upward <= turf.rise * down * (1.0 + 1e-12));
      forward = out.forward, down = out.upward, spin = out.backspin;
    }
  }
}

TEST_CASE("more speed runs farther, a steeper landing and more backspin less far, firm beyond medium beyond soft",
          "[ground]") {
  Draws draws(82);
  for (int i = 0; i < 4000; ++i) {
    const double speed = draws.between(15.0, 40.0), below = draws.between(5.0, 55.0) * kDeg,
                 spin = draws.between(0.0, 4500.0) * kRpm;
    const Turf& turf = kTurfs[i % 3];
    const double here = run_at(speed, below, spin, turf);
    INFO(speed << " m/s, " << below / kDeg << " deg, " << spin / kRpm << " rpm: " << here << " m");
    CHECK(run_at(speed + 0.5, below, spin, turf) >= here - 1e-9);
    CHECK(run_at(speed, below + 0.5 * kDeg, spin, turf) <= here + 1e-9);
    CHECK(run_at(speed, below, spin + 10.0, turf) <= here + 1e-9);
    CHECK(run_at(speed, below, spin, firm()) >= run_at(speed, below, spin, medium()) - 1e-9);
    CHECK(run_at(speed, below, spin, medium()) >= run_at(speed, below, spin, soft()) - 1e-9);
  }
}

TEST_CASE("total has one maximum over loft, for launches from 3 deg on, on firm turf from 7 deg on", "[ground]") {
  // Thinner shots run on along the ground: docs/accuracy.md. 1,000 deliveries; lofts half a degree apart, by the
  // flights that optima are sought with: a millimetre each.
  Draws draws(83);
  constexpr double kFlights = 2e-3;  // [m]
  for (int i = 0; i < 1000; ++i) {
    const double mph = draws.between(55.0, 120.0), attack = draws.between(-6.0, 6.0);
    std::vector<double> total;
    for (double loft = std::max(0.5, attack); loft <= 30.0; loft += 0.5) {
      const Drive d = centred_on(kTurfs[i % 3], mph, attack, loft, kFlightTolerance);
      if (d.launch.launch > (i % 3 == 0 ? 7.0 : 3.0) * kDeg) total.push_back(d.total);
    }
    REQUIRE(total.size() > 20);
    int turns = 0;
    bool rising = true;
    for (std::size_t k = 1; k < total.size(); ++k) {
      if (std::abs(total[k] - total[k - 1]) < kFlights) continue;
      if ((total[k] > total[k - 1]) != rising) ++turns, rising = !rising;
    }
    INFO(mph << " mph, attack " << attack << " deg, turf " << i % 3);
    CHECK(turns <= 1);
  }
}

TEST_CASE(
    "the slope of total over loft changes by less than half a yard a degree from one twentieth of a degree to the next",
    "[ground]") {
  Draws draws(84);
  for (int i = 0; i < 60; ++i) {
    const double mph = draws.between(55.0, 120.0), attack = draws.between(-6.0, 6.0),
                 from = std::max(4.0, attack + 3.0);
    std::vector<double> total;
    for (double loft = from; loft < from + 14.0; loft += 0.05) {
      total.push_back(centred_on(kTurfs[i % 3], mph, attack, loft, kTightFlightTolerance).total);
    }
    double worst = 0.0;
    for (std::size_t k = 2; k < total.size(); ++k)
      worst = std::max(worst, std::abs(total[k] - 2.0 * total[k - 1] + total[k - 2]) / 0.05);
    INFO(mph << " mph, attack " << attack << " deg, turf " << i % 3);
    CHECK(worst < 0.5 * kYard);
  }
}

TEST_CASE("a topped drive does not run past a better one", "[ground]") {
  // As launch falls from 8 to 2 deg at one ball speed and spin, total rises by at most 6.9 yd, on firm turf, 1.8 on
  // medium and not at all on soft (measured); nowhere from 125 mph on. A ball that skims in with hardly any spin runs
  // on along firm ground.
  for (std::size_t t = 0; t < 3; ++t) {
    Setting in = default_setting();
    in.turf = kTurfs[t];
    double most = 0.0, from_125 = 0.0;
    for (double mph = 30.0; mph <= 185.0; mph += 5.0) {
      for (double rpm = 0.0; rpm <= 3000.0; rpm += 100.0) {
        double least = 1e9, rise = 0.0;
        for (int tenth = 80; tenth >= 20; --tenth) {
          const double total = drive_from(Launch{mph * kMph, 0.1 * tenth * kDeg, 0.0, rpm * kRpm, 0.0}, in).total;
          rise = std::max(rise, total - least);
          least = std::min(least, total);
        }
        if (mph >= 125.0) from_125 = std::max(from_125, rise);
        most = std::max(most, rise);
      }
    }
    constexpr double kMost[] = {7.0 * kYard, 2.0 * kYard, 1e-3};  // [m] a millimetre is what a flight is good to
    INFO("turf " << t << ": " << most / kYard << " yd");
    CHECK(most < kMost[t]);
    CHECK(from_125 < 1e-3);
  }
}
