#include "loftwright/shot/shares.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>
#include <stdexcept>
#include <utility>
#include <vector>

#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const Delivery kSteep{98 * kMph, -8 * kDeg, 2 * kDeg, -1 * kDeg, 6 * kDeg, 0.01, -0.004};
const Delivery kShallow{103 * kMph, 3.2 * kDeg, 0.5 * kDeg, 0, 15 * kDeg, 0, 0.002};

Setting thin_and_firm() {
  Setting thin = default_setting();
  thin.air = air_from(Weather{303.15, 84000, 0.3});
  thin.turf = firm();
  return thin;
}

const Share& of(const Shares& shares, Factor f) { return shares[f]; }

template <class Found>
void check_adds_up(const Found& shares, const Drive& a, const Drive& b) {
  double carry = 0.0, total = 0.0;
  for (const Share& s : shares) {
    carry += s.carry;
    total += s.total;
  }
  // Sums of a hundred rounded numbers of size 200.
  CHECK(std::abs(carry - (b.flight.carry - a.flight.carry)) < 1e-9);
  CHECK(std::abs(total - (b.total - a.total)) < 1e-9);
}

}  // namespace

TEST_CASE("shares are the average over every order in which the hands come after the swing", "[shares]") {
  // Nothing of the engine but the drive: each order is walked, change by change, on a delivery.
  const DriveCase before{kSteep, default_setting(), 9 * kDeg}, after{kShallow, thin_and_firm(), 11.5 * kDeg};
  const double follow = 0.7;
  for (const bool club_known : {true, false}) {
    auto order = kAllOf<Factor>;
    Shares sum{};
    int orders = 0;
    const double swung = follow * (3.2 - -8) * kDeg, club = club_known ? (11.5 - 9) * kDeg : 0.0;
    do {
      if (std::find(order.begin(), order.end(), Factor::hands) < std::find(order.begin(), order.end(), Factor::swing))
        continue;
      ++orders;
      Delivery d = kSteep;
      Setting in = before.setting;
      Drive last = drive_from(d, Handed::right, in);
      for (const Factor f : order) {
        switch (f) {
          case Factor::speed: d.club_speed = kShallow.club_speed; break;
          case Factor::swing:
            d.attack = kShallow.attack;
            d.path = kShallow.path;
            d.dynamic_loft += swung;
            break;
          case Factor::club: d.dynamic_loft += club; break;
          case Factor::hands: d.dynamic_loft += (15 - 6) * kDeg - swung - club; break;
          case Factor::strike:
            d.toe = kShallow.toe;
            d.high = kShallow.high;
            break;
          case Factor::face: d.face = kShallow.face; break;
          case Factor::conditions: in = after.setting; break;
        }
        const Drive now = drive_from(d, Handed::right, in);
        Share& s = sum[f];
        s.carry += now.flight.carry - last.flight.carry;
        s.total += now.total - last.total;
        last = now;
      }
    } while (std::next_permutation(order.begin(), order.end()));
    REQUIRE(orders == 2520);
    DriveCase unknown = after;
    unknown.club_loft.reset();
    SharesOfChange change(before, club_known ? after : unknown, Handed::right);
    CHECK(change.club_known() == club_known);
    const Shares shares = change.by_who(follow);
    for (const Factor i : kAllOf<Factor>) {
      INFO(key_of(i));
      // 2520 sums of seven changes, and lofts that add up in another order.
      CHECK(shares[i].carry == Approx(sum[i].carry / orders).margin(1e-7));
      CHECK(shares[i].total == Approx(sum[i].total / orders).margin(1e-7));
    }
    CHECK((of(shares, Factor::club).carry != 0.0) == club_known);
  }
}

TEST_CASE("shares add up to the millimetre, whatever follows, for either hand", "[shares]") {
  const DriveCase before{kSteep, default_setting(), 9 * kDeg}, after{kShallow, thin_and_firm(), 11.5 * kDeg};
  for (const Handed handed : {Handed::right, Handed::left}) {
    SharesOfChange change(before, after, handed);
    const Drive a = drive_from(before.delivery, handed, before.setting),
                b = drive_from(after.delivery, handed, after.setting);
    for (const double follow : {0.0, kUsualFollow, kMostFollow}) check_adds_up(change.by_who(follow), a, b);
    check_adds_up(change.loft_held(), a, b);
    CHECK(of(change.by_who(), Factor::conditions).carry != 0.0);
    CHECK(std::abs(change.loft_held()[HeldFactor::conditions].carry) > 1.0);
  }
}

TEST_CASE("with loft held before and after may change places", "[shares]") {
  const DriveCase before{kSteep, default_setting()}, after{kShallow, thin_and_firm()};
  const HeldShares there = SharesOfChange(before, after, Handed::right).loft_held(),
                   back = SharesOfChange(after, before, Handed::right).loft_held();
  for (const HeldFactor i : kAllOf<HeldFactor>) CHECK(there[i].carry == Approx(-back[i].carry).margin(1e-9));
}

TEST_CASE("a left-hander's shares are the mirror image's", "[shares]") {
  const auto mirror = [](Delivery d) {
    d.path = -d.path;
    d.face = -d.face;
    return d;
  };
  const Setting in = default_setting();
  const Shares right = SharesOfChange({kSteep, in}, {kShallow, in}, Handed::right).by_who(),
               left = SharesOfChange({mirror(kSteep), in}, {mirror(kShallow), in}, Handed::left).by_who();
  for (const Factor i : kAllOf<Factor>) CHECK(right[i].carry == Approx(left[i].carry).margin(1e-9));
}

TEST_CASE("a face that is as much more open as the sleeve opens it is the club's, for either hand", "[shares]") {
  const Setting in = default_setting();
  for (const Handed handed : {Handed::right, Handed::left}) {
    Delivery opened = kSteep;
    opened.face += (handed == Handed::left ? -1.0 : 1.0) * 2 * kDeg;
    const Shares shares =
        SharesOfChange({kSteep, in, 9 * kDeg, 0.5 * kDeg}, {opened, in, 9 * kDeg, 2.5 * kDeg}, handed).by_who();
    CHECK(std::abs(of(shares, Factor::face).carry) < 1e-9);
    CHECK(std::abs(of(shares, Factor::club).carry) > 0.05);
  }
}

TEST_CASE("thin air alone lengthens a drive that flies high and shortens one that flies low", "[shares]") {
  Setting thin = default_setting();
  thin.air = air_from(Weather{303.15, 84000, 0.3});
  Delivery low = kShallow;
  low.dynamic_loft = 6 * kDeg;
  const auto from_air = [&](const Delivery& d) {
    return of(SharesOfChange({d, default_setting()}, {d, thin}, Handed::right).by_who(), Factor::conditions).carry;
  };
  CHECK(from_air(kShallow) > 0.0);  // less drag
  CHECK(from_air(low) < 0.0);       // less lift, and little time aloft for drag to matter
}

TEST_CASE("what did not change has no share, and what alone changed has it all", "[shares]") {
  const Setting setting = default_setting();
  const double now = drive_from(kSteep, Handed::right, setting).flight.carry;
  const auto check_all = [&](const DriveCase& before, const DriveCase& after, Factor whose) {
    INFO(key_of(whose));
    const Shares shares = SharesOfChange(before, after, Handed::right).by_who();
    for (const Factor i : kAllOf<Factor>) {
      if (i == whose) continue;
      CHECK(shares[i].carry == 0.0);
      CHECK(shares[i].total == 0.0);
    }
    CHECK(of(shares, whose).carry == Approx(drive_from(after.delivery, Handed::right, setting).flight.carry - now));
  };
  Delivery faster = kSteep, lofted = kSteep, turned = kSteep, higher = kSteep;
  faster.club_speed += 2.0;
  lofted.dynamic_loft += 2.5 * kDeg;
  turned.face += 2.0 * kDeg;
  higher.high += 0.006;
  check_all({kSteep, setting}, {faster, setting}, Factor::speed);
  check_all({kSteep, setting}, {turned, setting}, Factor::face);
  check_all({kSteep, setting}, {higher, setting}, Factor::strike);
  // The same change of delivered loft is the hands' with the same club, the club's with one of as much more loft, and
  // nobody's alone while the clubs are not known.
  check_all({kSteep, setting, 9 * kDeg}, {lofted, setting, 9 * kDeg}, Factor::hands);
  check_all({kSteep, setting}, {lofted, setting}, Factor::hands);
  const Shares club =
      SharesOfChange({kSteep, setting, 9 * kDeg}, {lofted, setting, 11.5 * kDeg}, Handed::right).by_who();
  CHECK(of(club, Factor::club).carry == Approx(drive_from(lofted, Handed::right, setting).flight.carry - now));
  CHECK(std::abs(of(club, Factor::hands).carry) < 1e-9);  // lofts in radians round
  CHECK(title_of(Factor::hands, true) == "hands");
  CHECK(title_of(Factor::hands, false) == "hands or club");
}

TEST_CASE("loft that follows the attack is the swing's, so the hands have none of it", "[shares]") {
  const Setting setting = default_setting();
  Delivery up = kSteep;
  up.attack += 4 * kDeg;
  up.dynamic_loft += 0.85 * 4 * kDeg;
  SharesOfChange change({kSteep, setting}, {up, setting}, Handed::right);
  CHECK(std::abs(of(change.by_who(0.85), Factor::hands).carry) < 1e-9);
  CHECK(of(change.by_who(0.5), Factor::hands).carry > 0.5);  // less of it followed, so the hands added some
}

TEST_CASE("changes flown together have the shares of each flown alone, to the precision of lanes", "[shares]") {
  const DriveCase before{kSteep, default_setting(), 9 * kDeg, 0.0}, after{kShallow, thin_and_firm(), 11.5 * kDeg, kDeg};
  constexpr double kFollow = 0.7;  // another than the usual
  struct Precision {
    double tolerance;     // [-] of the flights
    double carry, total;  // [m] a run magnifies
  };
  constexpr Precision kLoose{1e-5, 4e-3, 0.02}, kUsual{kFlightTolerance, 2e-4, 1e-3};
  for (const auto& [handed, precision] :
       {std::pair{Handed::right, kLoose}, {Handed::left, kLoose}, {Handed::left, kUsual}}) {
    const auto& [tolerance, carry, total] = precision;
    SharesOfChange like(before, after, handed, tolerance);
    std::vector<SharesOfChange> together, alone;
    for (int i = 0; i < 12; ++i) {
      Delivery a = kSteep, b = kShallow;
      a.club_speed += 0.2 * i;
      b.face -= 0.3 * kDeg * i;
      if (i % 3 == 0) b.toe = a.toe, b.high = a.high;
      for (std::vector<SharesOfChange>* changes : {&together, &alone}) changes->emplace_back(like, a, b, tolerance);
    }
    SharesOfChange::fly_together(together, kFollow);
    for (std::size_t i = 0; i < together.size(); ++i) {
      CAPTURE(i);
      const Shares one = alone[i].by_who(kFollow), same = together[i].by_who(kFollow);
      const HeldShares held = alone[i].loft_held(), same_held = together[i].loft_held();
      for (const Factor f : kAllOf<Factor>) {
        CHECK(same[f].carry == Approx(one[f].carry).margin(carry));
        CHECK(same[f].total == Approx(one[f].total).margin(total));
      }
      for (const HeldFactor f : kAllOf<HeldFactor>) {
        CHECK(same_held[f].carry == Approx(held[f].carry).margin(carry));
        CHECK(same_held[f].total == Approx(held[f].total).margin(total));
      }
      if (i % 3 == 0) CHECK(same[Factor::strike].carry == 0.0);
    }
    // Another follow asks for drives that were not flown: one at a time, then.
    const Shares other = together.back().by_who(1.2), other_alone = alone.back().by_who(1.2);
    CHECK(other[Factor::hands].carry == Approx(other_alone[Factor::hands].carry).margin(carry));
  }
}

TEST_CASE("changes are flown together only where they differ in their deliveries alone", "[shares]") {
  const DriveCase before{kSteep, default_setting()}, after{kShallow, thin_and_firm()};
  const SharesOfChange there(before, after, Handed::right), back(after, before, Handed::right);
  std::vector<SharesOfChange> mixed{there, back}, loose{there, {there, kSteep, kShallow, 10 * kFlightTolerance}};
  CHECK_THROWS_AS(SharesOfChange::fly_together(mixed, kUsualFollow), std::invalid_argument);
  CHECK_THROWS_AS(SharesOfChange::fly_together(loose, kUsualFollow), std::invalid_argument);
  SharesOfChange::fly_together({}, kUsualFollow);  // of none there is nothing to fly
}
