// Common practice: what the trade takes for granted. No source; each check says so by standing here.
#include <catch2/catch.hpp>
#include <cmath>

#include "best_loft.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("common practice: a well-struck drive of 103 mph, 3 deg up, carries 225 to 250 yd", "[shot]") {
  for (const double loft : {13.0, 14.0, 15.0, 16.0, 17.0}) {
    const double carry = centred(103.0, 3.0, loft, default_setting()).flight.carry / kYard;
    INFO("dynamic loft " << loft << " deg: " << carry << " yd");
    CHECK(carry > 225.0);
    CHECK(carry < 250.0);
  }
}

TEST_CASE("common practice: from 98 mph 8 deg down with the loft off to 103 mph up is worth over 50 yd of carry",
          "[shot]") {
  for (const double before : {0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0}) {
    for (const double after : {13.0, 14.0, 15.0, 16.0, 17.0}) {
      const double gain = (centred(103.0, 3.2, after, default_setting()).flight.carry -
                           centred(98.0, -8.0, before, default_setting()).flight.carry) /
                          kYard;
      INFO("from " << before << " to " << after << " deg delivered: " << gain << " yd");  // least, measured: 60
      CHECK(gain > 50.0);
    }
  }
}

TEST_CASE("common practice: hitting up beats hitting down at the best loft of each", "[shot]") {
  const Setting in = default_setting();
  for (const double mph : {65.0, 80.0, 95.0, 110.0}) {
    double before = 0.0;
    for (const double attack : {-5.0, -2.5, 0.0, 2.5, 5.0}) {
      const double carry = centred(mph, attack, best_loft(mph, attack, in, carry_of), in).flight.carry;
      INFO(mph << " mph, attack " << attack << " deg: " << carry / kYard << " yd");
      CHECK(carry > before + 1.0);
      before = carry;
    }
  }
}

TEST_CASE("common practice: the best loft for carry is higher than for total", "[shot]") {
  for (const Turf& turf : {firm(), medium(), soft()}) {
    Setting in = default_setting();
    in.turf = turf;
    for (const double mph : {65.0, 80.0, 95.0, 110.0}) {
      for (const double attack : {-5.0, 0.0, 5.0}) {
        const double for_carry = best_loft(mph, attack, in, carry_of), for_total = best_loft(mph, attack, in, total_of);
        INFO(mph << " mph, attack " << attack << " deg, rolling " << turf.rolling << ": " << for_carry << " and "
                 << for_total << " deg");
        CHECK(for_carry > for_total + 0.1);
      }
    }
  }
}

TEST_CASE("common practice: how far drives run", "[ground]") {
  // Course rating takes 20 yd of run for granted; a slow, low drive runs twice as far.
  const auto run = [](double mph, double loft, const Turf& turf) {
    Setting in = default_setting();
    in.turf = turf;
    const Drive d = centred(mph, 0.0, loft, in);
    return (d.total - d.flight.carry) / kYard;
  };
  for (const double mph : {90.0, 95.0, 100.0, 105.0}) {
    INFO(mph << " mph, 14 deg: " << run(mph, 14.0, medium()) << " yd");
    CHECK(run(mph, 14.0, medium()) > 15.0);
    CHECK(run(mph, 14.0, medium()) < 28.0);
  }
  INFO("75 mph, a 9 deg driver delivered at 11: " << run(75.0, 11.0, medium()) << " yd");
  CHECK(run(75.0, 11.0, medium()) > 30.0);
  CHECK(run(75.0, 11.0, medium()) < 50.0);
  for (double mph = 60.0; mph <= 120.0; mph += 10.0) {
    for (double loft = 7.0; loft <= 21.0; loft += 2.0) {
      INFO(mph << " mph, " << loft << " deg");
      CHECK(run(mph, loft, firm()) > run(mph, loft, medium()));
      CHECK(run(mph, loft, medium()) > run(mph, loft, soft()));
    }
  }
}

TEST_CASE("common practice: the best lofts for carry and for total fall with club speed", "[shot]") {
  for (const auto of : {carry_of, total_of}) {
    double before = 90.0;
    for (double mph = 60.0; mph <= 115.0; mph += 5.0) {
      const double loft = best_loft(mph, 0.0, default_setting(), of);
      INFO(mph << " mph: " << loft << " deg");
      CHECK(loft < before - 0.1);
      before = loft;
    }
  }
}

TEST_CASE("common practice: an off-centre strike costs carry, half an inch of it several yards", "[shot]") {
  const Setting in = default_setting();
  for (const double toe : {-0.0127, 0.0127}) {
    const Delivery d{42.0, 0.0, 0.0, 0.0, 15.0 * kDeg, toe, 0.0};
    const double lost =
        (centred(42.0 / kMph, 0.0, 15.0, in).flight.carry - drive_from(d, Handed::right, in).flight.carry) / kYard;
    INFO("toe " << toe * 1e3 << " mm: " << lost << " yd lost");
    CHECK(lost > 2.0);
    CHECK(lost < 20.0);
  }
}
