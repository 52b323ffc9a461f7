// A topped drive must not run past a good one: total falls as launch drops from 8 to 2 deg at a held ball speed (up to 150 mph)
// and spin (up to 3000 rpm).
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

struct Rise {
  double most = 0.0;  // [m] total above the least total of any higher launch
  std::string where = "nowhere";
};

Rise worst_rise(const Turf& turf, double rpm_from, double rpm_to) {
  Setting in = default_setting();
  in.turf = turf;
  Rise worst;
  for (double mph = 30.0; mph <= 150.0; mph += 5.0) {
    for (double rpm = rpm_from; rpm <= rpm_to; rpm += 100.0) {
      double least = 1e9;
      for (int tenth = 80; tenth >= 20; --tenth) {
        const double total = drive_from(Launch{mph * kMph, 0.1 * tenth * kDeg, 0.0, rpm * kRpm, 0.0}, in).total;
        if (total - least > worst.most) {
          worst = {total - least, fmt::format("{} mph, {} rpm, launch {} deg", mph, rpm, 0.1 * tenth)};
        }
        least = std::min(least, total);
      }
    }
  }
  return worst;
}

}  // namespace

TEST_CASE("total never rises when a drive is topped, on medium and soft turf", "[ground]") {
  const Rise soft_rise = worst_rise(soft(), 0.0, 3000.0), medium_rise = worst_rise(medium(), 200.0, 3000.0);
  INFO("soft: " << soft_rise.where << "; medium: " << medium_rise.where);
  CHECK(soft_rise.most < 1e-3);  // what a flight is good to
  CHECK(medium_rise.most < 1e-3);
}

TEST_CASE("total never rises by more than the step in the law of restitution, on firm turf from 800 rpm", "[ground]") {
  // Penner's e drops from 0.1212 to 0.120 where the ball meets the turf at 20 m/s; total steps by about 5 cm there.
  const Rise rise = worst_rise(firm(), 800.0, 3000.0);
  INFO(rise.where);
  CHECK(rise.most < 0.06);
}

// KNOWN TO FAIL, by up to 5.2 m (150 mph, no spin, firm; 0.28 m on medium): a ball that skims in at 2 deg with hardly any spin
// meets a surface tilted by 40 deg, leaves it at nearly 50 deg and hops over 100 yd without drag. The law is used far outside what
// it was made for. docs/accuracy.md says so; when the run is mended, this tag goes.
TEST_CASE("total never rises when a drive is topped, on every turf, down to no spin", "[ground][!shouldfail]") {
  for (const Turf& turf : {firm(), medium(), soft()}) {
    const Rise rise = worst_rise(turf, 0.0, 3000.0);
    INFO(rise.where << ": " << rise.most << " m");
    CHECK(rise.most < 1e-3);
  }
}
