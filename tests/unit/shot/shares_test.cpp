#include "loftwright/shot/shares.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const Delivery kSteep{98 * kMph, -8 * kDeg, 2 * kDeg, -1 * kDeg, 6 * kDeg, 0.01, -0.004};
const Delivery kShallow{103 * kMph, 3.2 * kDeg, 0.5 * kDeg, 0, 15 * kDeg, 0, 0.002};

}  // namespace

TEST_CASE("shares add up to the millimetre, and mirror when before and after change places", "[shares]") {
  Setting thin = default_setting();
  thin.air = air_from(Weather{303.15, 84000, 0.3});
  thin.turf = firm();
  const DriveCase before{kSteep, default_setting()}, after{kShallow, thin};
  for (const Handed handed : {Handed::right, Handed::left}) {
    const auto shares = shares_of_change(before, after, handed), back = shares_of_change(after, before, handed);
    const Drive a = drive_from(before.delivery, handed, before.setting), b = drive_from(after.delivery, handed, after.setting);
    double carry = 0.0, total = 0.0;
    for (std::size_t i = 0; i < kFactors; ++i) {
      carry += shares[i].carry;
      total += shares[i].total;
      CHECK(shares[i].carry == Approx(-back[i].carry).margin(1e-9));
    }
    // Sums of 64 rounded numbers of size 200.
    CHECK(std::abs(carry - (b.flight.carry - a.flight.carry)) < 1e-9);
    CHECK(std::abs(total - (b.total - a.total)) < 1e-9);
    CHECK(std::abs(shares[static_cast<std::size_t>(Factor::conditions)].carry) > 1.0);
  }
}

TEST_CASE("thin air alone lengthens a drive that flies high and shortens one that flies low", "[shares]") {
  Setting thin = default_setting();
  thin.air = air_from(Weather{303.15, 84000, 0.3});
  Delivery low = kShallow;
  low.dynamic_loft = 6 * kDeg;
  const auto from_air = [&](const Delivery& d) {
    return shares_of_change({d, default_setting()}, {d, thin}, Handed::right)[static_cast<std::size_t>(Factor::conditions)].carry;
  };
  CHECK(from_air(kShallow) > 0.0);  // less drag
  CHECK(from_air(low) < 0.0);       // less lift, and little time aloft for drag to matter
}

TEST_CASE("what did not change has no share", "[shares]") {
  Delivery faster = kSteep;
  faster.club_speed += 2.0;
  const Setting setting = default_setting();
  const auto shares = shares_of_change({kSteep, setting}, {faster, setting}, Handed::right);
  for (std::size_t i = 1; i < kFactors; ++i) {
    CHECK(shares[i].carry == 0.0);
    CHECK(shares[i].total == 0.0);
  }
  CHECK(shares[0].carry == Approx(drive_from(faster, Handed::right, setting).flight.carry -
                                  drive_from(kSteep, Handed::right, setting).flight.carry));
}
