// Findings of papers and surveys that the whole model must share.
#include <catch2/catch.hpp>
#include <cmath>

#include "best_loft.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

std::vector<Setting> every_aero() {
  std::vector<Setting> settings(4, default_setting());
  settings[1].aero = smits_smith_aero();
  settings[2].aero = linear_aero();
  settings[3].aero = ballistic_range_aero();
  return settings;
}

}  // namespace

TEST_CASE("Penner 2001: the loft of longest carry falls as club speed rises", "[shot]") {
  // Penner, Am. J. Phys. 69 (2001) 563. Whatever the aerodynamic model.
  for (const Setting& in : every_aero()) {
    for (const double attack : {-4.0, 0.0, 4.0}) {
      double before = 90.0;
      for (double mph = 60.0; mph <= 125.0; mph += 5.0) {
        const double loft = best_loft(mph, attack, in, carry_of);
        INFO(in.aero.id << ", attack " << attack << " deg, " << mph << " mph: " << loft << " deg");
        CHECK(loft < before - 0.3);  // by 0.5 to 1.2 deg for each 5 mph, measured; the search is good to 0.01
        before = loft;
      }
    }
  }
}

TEST_CASE("Winfield & Tan 1994: best loft and swing elevation move together", "[shot]") {
  // Winfield & Tan, Computers & Structures 53 (1994) 19: the loft there is that of the face as it meets the ball.
  for (const Setting& in : every_aero()) {
    for (const double mph : {70.0, 90.0, 110.0}) {
      double before = 0.0;
      for (double attack = -6.0; attack <= 6.0; attack += 1.0) {
        const double loft = best_loft(mph, attack, in, carry_of);
        INFO(in.aero.id << ", " << mph << " mph, attack " << attack << " deg: " << loft << " deg");
        CHECK(loft > before + 0.1);  // 0.3 to 0.5 deg per degree, measured
        before = loft;
      }
    }
  }
}

TEST_CASE("each ten miles an hour more buy fewer yards than the ten before", "[shot]") {
  // One ball, a governing body's study of 2006, quoted second-hand: 90 -> 100 -> 110 -> 120 mph adds 34, 31 and just
  // under 25 yd. How it was launched is not known, nor on what turf, so only what does not hang on that is asserted:
  // the order, that one delivery held throughout (13 deg, level) adds 36.3, 32.9, 28.7 yd of carry, within 4 yd of the
  // steps, and that its totals on firm turf step by less than these: 29.1, 26.0, 22.6 yd, for a faster drive lands
  // steeper and runs less. Why the law of the run stands all the same: docs/accuracy.md.
  Setting in = default_setting();
  in.turf = firm();
  in.air = air_from(Weather{.temperature = 296.15});
  const double published[] = {34.0, 31.0, 25.0};
  double carry_step = 1e9, total_step = 1e9, best_step = 1e9;
  for (int i = 0; i < 3; ++i) {
    const double mph = 90.0 + 10.0 * i;
    const Drive slow = centred(mph, 0.0, 13.0, in), fast = centred(mph + 10.0, 0.0, 13.0, in);
    const double carry = (fast.flight.carry - slow.flight.carry) / kYard, total = (fast.total - slow.total) / kYard;
    auto best = [&](double v) { return centred(v, 0.0, best_loft(v, 0.0, in, total_of), in).total / kYard; };
    const double at_best = best(mph + 10.0) - best(mph);
    INFO(mph << " to " << mph + 10.0 << " mph: carry +" << carry << ", total +" << total << ", at best loft +"
             << at_best << " yd");
    CHECK(carry < carry_step);
    CHECK(total < total_step);
    CHECK(at_best < best_step);
    CHECK(std::abs(carry - published[i]) < 4.0);
    CHECK(total < published[i]);
    CHECK(total > published[i] - 6.0);
    carry_step = carry, total_step = total, best_step = at_best;
  }
}

TEST_CASE("survey: average players drive a little shorter than their club speed allows", "[shot]") {
  // Mean club speeds of recreational players, men 93 and women 72 mph, and average drives, men about 215 and women 148
  // yd (2018 survey of a governing body; other people than those whose speed was measured). Averages hold mis-hits, a
  // centred strike does not, so the model must not fall short; more than 15 % beyond would be too good to be true.
  // Deliveries are assumed.
  for (const auto& [mph, yards] : {std::pair{93.0, 215.0}, {72.0, 148.0}}) {
    for (const double attack : {-3.0, 0.0}) {
      const double total = centred(mph, attack, 14.0, default_setting()).total / kYard;
      INFO(mph << " mph, attack " << attack << " deg: " << total << " yd");  // measured: 225, 231; 161, 165
      CHECK(total > yards);
      CHECK(total < 1.15 * yards);
    }
  }
}
