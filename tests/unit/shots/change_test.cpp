#include "loftwright/shots/detail/change.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// An invented session about a mean delivery: what was measured of each shot is the model's, to the last digit.
struct Session {
  Delivery mean{.club_speed = 80 * kMph, .attack = -3 * kDeg, .dynamic_loft = 12 * kDeg};
  int shots = 14;
  Handed handed = Handed::right;
  std::uint64_t seed = 1;
};

Setting setting() { return default_setting(); }

ShotList hit(const Session& s, const Setting& in = setting()) {
  Draws draws(s.seed);
  const auto scatter = [&](double sd) {  // a sum of twelve is near enough normal
    double sum = -6.0;
    for (int i = 0; i < 12; ++i) sum += draws.between(0.0, 1.0);
    return sd * sum;
  };
  ShotList list;
  for (int i = 0; i < s.shots; ++i) {
    Delivery d = s.mean;
    d.club_speed += scatter(1.2 * kMph);
    d.attack += scatter(1.0 * kDeg);
    d.dynamic_loft += scatter(1.0 * kDeg);
    const Drive drive = drive_from(d, s.handed, in);
    Shot shot;
    shot.line = static_cast<std::size_t>(i) + 2;
    shot.at(Reading::club_speed) = d.club_speed;
    shot.at(Reading::attack) = d.attack;
    shot.at(Reading::dynamic_loft) = d.dynamic_loft;
    shot.at(Reading::ball_speed) = drive.launch.ball_speed;
    shot.at(Reading::launch) = drive.launch.launch;
    shot.at(Reading::spin) = drive.launch.spin;
    shot.at(Reading::carry) = drive.flight.carry;
    list.shots.push_back(shot);
  }
  return list;
}

Session after_lesson() {
  return {.mean = {.club_speed = 80 * kMph, .attack = 1 * kDeg, .dynamic_loft = 14 * kDeg}, .shots = 16, .seed = 2};
}

ChangeOptions quick() {
  ChangeOptions options;
  options.resamples = 200;
  return options;
}

const Estimate& share(const Change& c, Factor f) { return c.shares[f]; }

ShotList without(ShotList list, std::initializer_list<Reading> readings) {
  for (Shot& shot : list.shots) {
    for (const Reading r : readings) shot.at(r).reset();
  }
  return list;
}

}  // namespace

TEST_CASE("the shares are those of the mean deliveries and add up", "[shots]") {
  const Hitting before{hit({}), setting()}, after{hit(after_lesson()), setting()};
  const auto change = explain_change(before, after, Handed::right, quick());
  REQUIRE(change);
  CHECK_FALSE(change->inferred);
  SharesOfChange means({delivery_block(before.list)->mean, before.setting},
                       {delivery_block(after.list)->mean, after.setting}, Handed::right);
  const Shares exact = means.by_who();
  const HeldShares held = means.loft_held();
  double sum = 0.0;
  for (const Factor i : kAllOf<Factor>) {
    INFO(key_of(i));
    CHECK(std::abs(change->shares[i].value - exact[i].carry) < 1e-9);  // the mean is summed in another order
    CHECK(change->shares[i].low <= change->shares[i].value);
    CHECK(change->shares[i].high >= change->shares[i].value);
    sum += change->shares[i].value;
  }
  CHECK(std::abs(sum - change->modelled.value) < 1e-9);
  CHECK(change->modelled.low > 0.0);
  CHECK(share(*change, Factor::swing).low > 0.0);
  CHECK_FALSE(change->club_known);
  for (const HeldFactor i : kAllOf<HeldFactor>) {
    const Estimate& e = change->shares_loft_held[i];
    CHECK(std::abs(e.value - held[i].carry) < 1e-9);
    CHECK(e.low <= e.value);
    CHECK(e.high >= e.value);
  }
  for (std::size_t k = 0; k < kOtherFollows.size(); ++k) {
    const Shares otherwise = means.by_who(kOtherFollows[k]);
    for (const Factor i : kAllOf<Factor>) CHECK(std::abs(change->shares_otherwise[k][i] - otherwise[i].carry) < 1e-9);
  }
  CHECK(change->held == std::vector{Reading::path, Reading::face, Reading::toe, Reading::high});
  for (const Factor f : {Factor::club, Factor::strike, Factor::face, Factor::conditions}) {
    CHECK(share(*change, f).low == 0.0);
    CHECK(share(*change, f).high == 0.0);
  }
  // Every carry is the model's, so what is left over is what scatter about the mean costs: well below a yard either
  // way.
  REQUIRE(change->unexplained);
  CHECK(std::abs(change->unexplained->value) < 1.0 * kYard);
}

TEST_CASE("the same seed gives the same intervals on any number of threads", "[shots]") {
  const Hitting before{hit({}), setting()}, after{hit(after_lesson()), setting()};
  ChangeOptions options = quick();
  const auto one = explain_change(before, after, Handed::right, options);
  options.threads = 3;
  const auto three = explain_change(before, after, Handed::right, options);
  options.seed = 2;
  const auto other = explain_change(before, after, Handed::right, options);
  CHECK(one->modelled.low == three->modelled.low);
  CHECK(one->modelled.high == three->modelled.high);
  CHECK(one->modelled.low != other->modelled.low);
  CHECK(one->modelled.value == other->modelled.value);
}

TEST_CASE("a reading that only one list has gets no share", "[shots]") {
  Hitting before{hit({}), setting()}, after{hit(after_lesson()), setting()};
  for (Shot& shot : after.list.shots) {
    shot.at(Reading::toe) = 0.02;
    shot.at(Reading::path) = 4 * kDeg;
  }
  const auto change = explain_change(before, after, Handed::right, quick());
  CHECK(share(*change, Factor::strike).value == 0.0);
  const auto path_held = change->shares_loft_held[HeldFactor::direction];
  CHECK(path_held.value == 0.0);
  for (Shot& shot : before.list.shots) shot.at(Reading::toe) = -0.001;
  CHECK(share(*explain_change(before, after, Handed::right, quick()), Factor::strike).value < 0.0);
}

TEST_CASE("a club of known loft has its own share, and its interval", "[shots]") {
  Hitting before{hit({}), setting(), 10 * kDeg}, after{hit(after_lesson()), setting()};
  const auto unknown = explain_change(before, after, Handed::right, quick());
  after.club_loft = 12 * kDeg;
  const auto known = explain_change(before, after, Handed::right, quick());
  CHECK_FALSE(unknown->club_known);
  CHECK(known->club_known);
  CHECK(share(*known, Factor::club).low > 0.0);
  CHECK(share(*known, Factor::club).low < share(*known, Factor::club).value);
  CHECK(share(*known, Factor::hands).value < share(*unknown, Factor::hands).value);
  CHECK(share(*known, Factor::speed).value == Approx(share(*unknown, Factor::speed).value).margin(0.5));
  CHECK(std::abs(known->modelled.value - unknown->modelled.value) < 1e-9);
}

TEST_CASE("the loft that follows the attack is what the pupil's does", "[shots]") {
  const Hitting before{hit({}), setting()}, after{hit(after_lesson()), setting()};
  ChangeOptions options = quick();
  options.follow = kOtherFollows[0];
  const auto change = explain_change(before, after, Handed::right, options);
  CHECK(change->follow == kOtherFollows[0]);
  for (const Factor i : kAllOf<Factor>)
    CHECK(std::abs(change->shares[i].value - change->shares_otherwise[0][i]) < 1e-9);
}

TEST_CASE("other weather has its own share", "[shots]") {
  Setting windy = setting();
  windy.wind = {.speed = 5.0, .from = 0.0};
  const Hitting before{hit({}), setting()}, after{hit(after_lesson(), windy), windy};
  const auto change = explain_change(before, after, Handed::right, quick());
  CHECK(share(*change, Factor::conditions).high < 0.0);
  CHECK(std::abs(change->unexplained->value) < 1.0 * kYard);
}

TEST_CASE("ball numbers alone are worked back, and only in pairs", "[shots]") {
  const std::initializer_list<Reading> kClub = {Reading::club_speed, Reading::attack, Reading::dynamic_loft};
  const std::initializer_list<Reading> kBallReadings = {Reading::ball_speed, Reading::launch, Reading::spin};
  const Hitting before{hit({}), setting()}, after{hit(after_lesson()), setting()};
  const Hitting ball_before{without(before.list, kClub), setting()}, ball_after{without(after.list, kClub), setting()};
  const auto measured = explain_change(before, after, Handed::right, quick());
  const auto inferred = explain_change(ball_before, ball_after, Handed::right, quick());
  REQUIRE(inferred);
  CHECK(inferred->inferred);
  // Struck at the centre of the face, so the way back finds the delivery again: to what Newton stops at.
  CHECK(std::abs(inferred->modelled.value - measured->modelled.value) < 1e-3);
  // A measured delivery on one side alone would be held against an inferred one: both are inferred.
  const auto mixed = explain_change(before, ball_after, Handed::right, quick());
  REQUIRE(mixed);
  CHECK(mixed->inferred);
  CHECK(mixed->modelled.value == inferred->modelled.value);
  CHECK_FALSE(explain_change({without(before.list, kBallReadings), setting()}, ball_after, Handed::right, quick()));
}

TEST_CASE("what the model does not account for is counted on measured shots alone", "[shots]") {
  const std::initializer_list<Reading> kClub = {Reading::club_speed, Reading::attack, Reading::dynamic_loft};
  Hitting before{without(hit({}), kClub), setting()}, after{without(hit(after_lesson()), kClub), setting()};
  before.list.shots[3].at(Reading::carry).reset();
  for (Shot& shot : after.list.shots) {
    if (shot.at(Reading::carry)) *shot.at(Reading::carry) += 20.0;
  }
  const auto change = explain_change(before, after, Handed::right, quick());
  const auto mean = [](const ShotList& list) {
    return summarise(values_of(counted(list, Outliers::keep), Reading::carry)).mean;
  };
  REQUIRE(change);
  CHECK(change->inferred);
  CHECK(std::abs(change->modelled.value + change->unexplained->value - (mean(after.list) - mean(before.list))) < 1e-9);
}

TEST_CASE("a left-hander's lists are the mirror image", "[shots]") {
  Hitting before{hit({}), setting()}, after{hit(after_lesson()), setting()};
  const auto aim = [](ShotList list, double path, double face) {
    for (Shot& shot : list.shots) {
      shot.at(Reading::path) = path;
      shot.at(Reading::face) = face;
    }
    return list;
  };
  const auto right = explain_change({aim(before.list, 3 * kDeg, 1 * kDeg), setting()},
                                    {aim(after.list, 0, -2 * kDeg), setting()}, Handed::right, quick());
  const auto left = explain_change({aim(before.list, -3 * kDeg, -1 * kDeg), setting()},
                                   {aim(after.list, 0, 2 * kDeg), setting()}, Handed::left, quick());
  CHECK(share(*right, Factor::face).value != 0.0);
  for (const Factor i : kAllOf<Factor>) CHECK(std::abs(right->shares[i].value - left->shares[i].value) < 1e-9);
}

TEST_CASE("a goal nobody measured is computed for both, whatever one of them has", "[shots]") {
  Hitting before{hit({}), setting()}, after{hit(after_lesson()), setting()};
  CHECK(measured_in_both(before.list, after.list, Reading::carry));
  CHECK_FALSE(measured_in_both(before.list, after.list, Reading::total));
  const double carry = *before.list.shots[0].at(Reading::carry);
  for (Shot& shot : before.list.shots) shot.at(Reading::carry) = 10.0;
  after.list = without(after.list, {Reading::carry});
  CHECK_FALSE(measured_in_both(before.list, after.list, Reading::carry));
  compute_goal(before, after, Handed::right, Reading::carry);
  CHECK(std::abs(*before.list.shots[0].at(Reading::carry) - carry) < 1e-3);  // flown from the launch: the same drive
  CHECK(after.list.shots[0].at(Reading::carry));
  CHECK_FALSE(after.list.shots[0].at(Reading::total));
  CHECK_FALSE(
      explain_change(before, {without(after.list, {Reading::carry}), setting()}, Handed::right, quick())->unexplained);
}
