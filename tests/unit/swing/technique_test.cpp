#include "loftwright/swing/technique.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

Technique pupil(double follow) {
  return {.measured = {36.0, -4.0 * kDeg, 1.0 * kDeg, -0.5 * kDeg, 9.5 * kDeg, 0.003, -0.002},
          .club_loft = 10.5 * kDeg,
          .follow = follow,
          .speed_per_attack = -2.0};
}

}  // namespace

TEST_CASE("with the club in hand and the swing as it is, the delivery is the measured one", "[technique]") {
  const Technique t = pupil(0.6);
  const Delivery d = t.delivery(t.club_loft, t.measured.attack);
  CHECK(d.club_speed == t.measured.club_speed);
  CHECK(d.attack == t.measured.attack);
  CHECK(std::abs(d.dynamic_loft - t.measured.dynamic_loft) < 1e-16 * 4);
  CHECK(d.path == t.measured.path);
  CHECK(d.face == t.measured.face);
  CHECK(d.toe == t.measured.toe);
  CHECK(d.high == t.measured.high);
  CHECK(std::abs(t.added_loft() / kDeg + 1.0) < 1e-12);  // 9.5 delivered with 10.5 in hand: a degree taken off
}

TEST_CASE("a degree of club loft is a degree of dynamic loft", "[technique]") {
  const Technique t = pupil(0.6);
  const double attack = t.measured.attack;
  CHECK(std::abs(t.delivery(12.5 * kDeg, attack).dynamic_loft - t.measured.dynamic_loft - 2.0 * kDeg) < 1e-15);
}

TEST_CASE("follow moves dynamic loft with attack: none holds it, all of it holds spin loft", "[technique]") {
  for (const double follow : {0.0, 0.3, 0.6, 1.0}) {
    Technique t = pupil(follow);
    t.measured.path = t.measured.face = 0.0;  // so that spin loft is a difference of two angles
    const double change = 5.0 * kDeg;
    const Delivery before = t.delivery(t.club_loft, t.measured.attack);
    const Delivery after = t.delivery(t.club_loft, t.measured.attack + change);
    INFO("follow " << follow);
    CHECK(std::abs(after.dynamic_loft - before.dynamic_loft - follow * change) < 1e-15);
    CHECK(std::abs(spin_loft(after) - spin_loft(before) - (follow - 1.0) * change) < 1e-14);
  }
}

TEST_CASE("speed is paid per degree of attack", "[technique]") {
  const Technique t = pupil(0.6);
  CHECK(std::abs(t.delivery(t.club_loft, t.measured.attack + 0.1).club_speed - 35.8) < 1e-13);
}

TEST_CASE("a technique's delivery carries the derivatives of the chain", "[technique]") {
  const Technique t = pupil(0.6);
  const auto d = t.delivery(Dual<2>::variable(0.2, 0), Dual<2>::variable(0.01, 1));
  CHECK(d.dynamic_loft.d == std::array{1.0, 0.6});
  CHECK(d.attack.d == std::array{0.0, 1.0});
  CHECK(d.club_speed.d == std::array{0.0, -2.0});
  CHECK(d.path.d == std::array{0.0, 0.0});
}

TEST_CASE("a technique of which nothing was said changes no speed and knows no club", "[technique]") {
  const Technique t{};
  CHECK(t.club_loft == 0.0);
  CHECK(t.follow == 0.85);  // docs/pupil-file.md
  CHECK(t.speed_per_attack == 0.0);
}
