#include "loftwright/shots/inference.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// Invented drives of one player, struck at the face centre.
std::vector<Delivery> some_deliveries(int count, unsigned seed) {
  std::mt19937_64 random(seed);
  const auto about = [&](double mean, double sd) { return std::normal_distribution<double>(mean, sd)(random); };
  std::vector<Delivery> out;
  for (int i = 0; i < count; ++i) {
    out.push_back({about(84, 1.5) * kMph, about(-3, 1.0) * kDeg, about(2, 1.5) * kDeg, about(1, 1.5) * kDeg,
                   about(11, 1.2) * kDeg, 0.0, 0.0});
  }
  return out;
}

void put(Shot& shot, const Delivery& d) {
  shot.at(Reading::club_speed) = d.club_speed;
  shot.at(Reading::attack) = d.attack;
  shot.at(Reading::path) = d.path;
  shot.at(Reading::face) = d.face;
  shot.at(Reading::dynamic_loft) = d.dynamic_loft;
}

void put(Shot& shot, const Launch& l) {
  shot.at(Reading::ball_speed) = l.ball_speed;
  shot.at(Reading::launch) = l.launch;
  shot.at(Reading::azimuth) = l.azimuth;
  shot.at(Reading::spin) = l.spin;
  shot.at(Reading::tilt) = l.tilt;
}

void check_same(const Shot& a, const Shot& b, std::initializer_list<Reading> which) {
  for (const Reading reading : which) {
    INFO(info(reading).key);
    REQUIRE(a.at(reading));
    REQUIRE(b.at(reading));
    CHECK(std::abs(*a.at(reading) - *b.at(reading)) < 1e-6);  // delivery_behind stops at 1e-9 of each number's scale
  }
}

constexpr auto kDelivery = {Reading::club_speed, Reading::attack, Reading::path, Reading::face, Reading::dynamic_loft};
constexpr auto kLaunch = {Reading::ball_speed, Reading::launch, Reading::azimuth, Reading::spin, Reading::tilt};

}  // namespace

TEST_CASE("ball numbers give the delivery back, and a delivery the ball numbers, for either hand", "[shots]") {
  const Setting setting = default_setting();
  for (const Handed handed : {Handed::right, Handed::left}) {
    ShotList balls, clubs, truth;
    for (const Delivery& d : some_deliveries(20, 1)) {
      Shot whole, ball, club;
      put(whole, d);
      put(club, d);
      const Launch launch = launch_from(d, handed, setting.head, setting.ball);
      put(whole, launch);
      put(ball, launch);
      truth.shots.push_back(whole);
      balls.shots.push_back(ball);
      clubs.shots.push_back(club);
    }
    const Completed from_balls = complete(balls, setting, handed), from_clubs = complete(clubs, setting, handed);
    CHECK(from_balls.notes.empty());
    CHECK(from_balls.computed[Reading::attack] == 20);
    CHECK(from_balls.computed[Reading::spin] == 0);
    CHECK(from_clubs.computed[Reading::spin] == 20);
    for (std::size_t i = 0; i < truth.shots.size(); ++i) {
      check_same(from_balls.list.shots[i], truth.shots[i], kDelivery);
      check_same(from_clubs.list.shots[i], truth.shots[i], kLaunch);
      check_same(from_balls.list.shots[i], from_clubs.list.shots[i],
                 {Reading::carry, Reading::side, Reading::apex, Reading::landing, Reading::total, Reading::smash,
                  Reading::spin_loft});
    }
    const auto known = delivery_block(truth), inferred = delivery_block(from_balls.list);
    REQUIRE(inferred);
    CHECK(std::abs(inferred->mean.attack - known->mean.attack) < 1e-6);
    CHECK(std::abs(inferred->spread->dynamic_loft - known->spread->dynamic_loft) < 1e-6);
  }
}

TEST_CASE("a left-hander's drive is the mirror image", "[shots]") {
  const Setting setting = default_setting();
  for (const Delivery& d : some_deliveries(10, 2)) {
    const Launch right = launch_from(d, Handed::right, setting.head, setting.ball);
    const Launch left = launch_from(mirrored(d), Handed::left, setting.head, setting.ball);
    CHECK(left.azimuth == -right.azimuth);
    CHECK(left.tilt == -right.tilt);
    CHECK(left.ball_speed == right.ball_speed);
    CHECK(right.azimuth != 0.0);
    // A toe strike is a toe strike: with gear effect it curves a left-hander's ball right, a right-hander's left.
    Delivery toe{.club_speed = d.club_speed, .attack = d.attack, .dynamic_loft = d.dynamic_loft, .toe = 0.015};
    CHECK(launch_from(toe, Handed::right, setting.head, setting.ball).tilt < 0.0);
    CHECK(launch_from(toe, Handed::left, setting.head, setting.ball).tilt > 0.0);
  }
}

TEST_CASE("what was measured stays, and directions come only from directions", "[shots]") {
  const Setting setting = default_setting();
  ShotList list;
  Shot shot;
  shot.at(Reading::ball_speed) = 55.0;
  shot.at(Reading::launch) = 12 * kDeg;
  shot.at(Reading::spin) = 2800 * kRpm;
  shot.at(Reading::carry) = 150.0;
  shot.at(Reading::club_speed) = 38.0;
  list.shots.push_back(shot);
  const Completed done = complete(list, setting, Handed::right);
  const Shot& out = done.list.shots[0];
  CHECK(*out.at(Reading::carry) == 150.0);
  CHECK(*out.at(Reading::club_speed) == 38.0);
  CHECK(std::abs(*out.at(Reading::smash) - 55.0 / 38.0) < 1e-12);
  CHECK(out.at(Reading::attack));
  CHECK(out.at(Reading::dynamic_loft));
  for (const Reading none :
       {Reading::path, Reading::face, Reading::side, Reading::azimuth, Reading::tilt, Reading::toe, Reading::high}) {
    INFO(info(none).key);
    CHECK_FALSE(out.at(none));
  }
  const Drive drive = drive_from(*launch_of(shot), setting);
  CHECK(std::abs(*out.at(Reading::total) - (150.0 + drive.run.bounce + drive.run.roll)) < 1e-9);

  // A delivery without directions gives none to the ball.
  list.shots[0] = Shot{};
  for (const auto& [reading, value] : {std::pair{Reading::club_speed, 38.0}, std::pair{Reading::attack, -0.05},
                                       std::pair{Reading::dynamic_loft, 0.2}}) {
    list.shots[0].at(reading) = value;
  }
  const Shot club = complete(list, setting, Handed::right).list.shots[0];
  CHECK(club.at(Reading::ball_speed));
  CHECK_FALSE(club.at(Reading::azimuth));

  // Nothing to go on.
  list.shots[0] = Shot{};
  list.shots[0].at(Reading::carry) = 180.0;
  CHECK(complete(list, setting, Handed::right).list.shots[0].values == list.shots[0].values);
}

TEST_CASE("ball numbers no delivery gives are noted, the shot stays", "[shots]") {
  ShotList list;
  Shot shot;
  shot.line = 7;
  shot.at(Reading::ball_speed) = 55.0;
  shot.at(Reading::launch) = -5 * kDeg;
  shot.at(Reading::spin) = 14000 * kRpm;
  list.shots.push_back(shot);
  const Completed done = complete(list, default_setting(), Handed::right);
  REQUIRE(done.notes.size() == 1);
  CHECK(done.notes[0].line == 7);
  REQUIRE(done.list.shots.size() == 1);
  CHECK(done.list.shots[0].at(Reading::carry));  // the flight could be computed
  CHECK_FALSE(done.list.shots[0].at(Reading::attack));
}

TEST_CASE("a device that reads what the model gives is consistent, one with an offset is not", "[shots]") {
  const Setting setting = default_setting();
  ShotList list;
  for (Delivery d : some_deliveries(25, 3)) {
    Shot shot;
    put(shot, d);
    shot.at(Reading::toe) = d.toe = 0.006;
    const Drive drive = drive_from(d, Handed::left, setting);
    put(shot, drive.launch);
    shot.at(Reading::carry) = drive.flight.carry;
    shot.at(Reading::side) = drive.flight.side;
    list.shots.push_back(shot);
  }
  const Consistency clean = consistency(list, setting, Handed::left);
  REQUIRE(clean.rows.size() == 7);
  for (const ConsistencyRow& row : clean.rows) {
    INFO(info(row.reading).key);
    CHECK(row.difference.count == 25);
    CHECK(std::abs(row.difference.mean) < 1e-9);
    CHECK(row.difference.sd < 1e-9);
    CHECK(row.model_width > 0.0);
    CHECK(row.agrees);
  }
  // Read by the wrong hand, gear effect turns the ball the wrong way; ball speed does not know hands.
  for (const ConsistencyRow& row : consistency(list, setting, Handed::right).rows) {
    INFO(info(row.reading).key << " " << row.difference.mean << " width " << row.model_width);
    if (row.reading == Reading::tilt) {
      CHECK(std::abs(row.difference.mean) > 5.0 * kDeg);
      CHECK_FALSE(row.agrees);
    }
    if (row.reading == Reading::ball_speed) CHECK(row.agrees);
  }
  for (Shot& shot : list.shots) {
    *shot.at(Reading::ball_speed) *= 1.08;
    *shot.at(Reading::carry) += 1.0;
  }
  for (const ConsistencyRow& row : consistency(list, setting, Handed::left).rows) {
    if (row.reading == Reading::ball_speed) {
      CHECK(std::abs(row.difference.mean - 0.08 / 1.08 * 55.5) < 0.8);  // 84 mph at a smash of about 1.48
      CHECK_FALSE(row.agrees);
    }
    if (row.reading == Reading::launch) CHECK(row.agrees);
  }
}

TEST_CASE("the model's own width is that of drives with the model moved by one standard deviation", "[shots]") {
  const Setting setting = default_setting();
  const Delivery d{84 * kMph, -3 * kDeg, 2 * kDeg, 1 * kDeg, 11 * kDeg, 0.0, 0.0};
  ShotList list;
  Shot shot;
  put(shot, d);
  const Drive drive = drive_from(d, Handed::right, setting);
  put(shot, drive.launch);
  shot.at(Reading::carry) = drive.flight.carry;
  shot.at(Reading::toe) = 0.0;  // measured: only the height of the strike is open
  list.shots = {shot, shot};
  const ModelWidth width;
  const auto by = [&](auto move) {
    Setting moved = setting;
    Delivery at = d;
    ModelErrorOf<double> error;
    move(at, error);
    return drive_from(at, Handed::right, moved, kTightFlightTolerance, error);
  };
  // Central differences: truncation about 1e-3 of the derivative at these steps.
  const auto effect = [&](auto move, auto value) {
    const auto one = by([&](Delivery& at, auto& error) { move(at, error, 1.0); });
    const auto other = by([&](Delivery& at, auto& error) { move(at, error, -1.0); });
    return (value(one) - value(other)) / 2.0;
  };
  const auto restitution = [&](Delivery&, auto& e, double s) { e.restitution = s * width.restitution; };
  const auto tangential = [&](Delivery&, auto& e, double s) {
    e.tangential_restitution = s * width.tangential_restitution;
  };
  const auto high = [&](Delivery& at, auto&, double s) { at.high = s * width.high; };
  const auto drag = [&](Delivery&, auto& e, double s) { e.drag_scale = 1.0 + s * width.drag_scale; };
  const auto lift = [&](Delivery&, auto& e, double s) { e.lift_scale = 1.0 + s * width.lift_scale; };
  const auto spin = [](const Drive& one) { return one.launch.spin; };
  const auto speed = [](const Drive& one) { return one.launch.ball_speed; };
  const auto carry = [](const Drive& one) { return one.flight.carry; };
  for (const ConsistencyRow& row : consistency(list, setting, Handed::right).rows) {
    INFO(info(row.reading).key << " width " << row.model_width);
    const auto impact = [&](auto value) {
      return std::hypot(effect(restitution, value), effect(tangential, value), effect(high, value));
    };
    if (row.reading == Reading::spin) CHECK(std::abs(row.model_width / impact(spin) - 1.0) < 0.01);
    if (row.reading == Reading::ball_speed) CHECK(std::abs(row.model_width / impact(speed) - 1.0) < 0.01);
    if (row.reading == Reading::carry) {
      CHECK(std::abs(row.model_width / std::hypot(effect(drag, carry), effect(lift, carry)) - 1.0) < 0.01);
    }
  }
}
