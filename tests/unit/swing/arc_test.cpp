#include "loftwright/swing/arc.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "bad_values.hpp"
#include "core/traps.hpp"
#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// The clubhead as a point on a circle in space, told from nothing but where its plane lies: base line along the swing
// direction, rising towards the player, who stands left of the line of play. Position relative to the low point.
Vec3<double> on_circle(const Arc& arc, double past_low_point) {
  const Vec3<double> along{std::cos(arc.swing_direction), 0.0, std::sin(arc.swing_direction)};
  const Vec3<double> to_player{std::sin(arc.swing_direction), 0.0, -std::cos(arc.swing_direction)};
  const Vec3<double> in_plane_up = std::cos(arc.plane) * to_player + std::sin(arc.plane) * Vec3<double>{0.0, 1.0, 0.0};
  return (arc.radius * std::sin(past_low_point)) * along +
         (arc.radius * (1.0 - std::cos(past_low_point))) * in_plane_up;
}

std::string text(const Arc& arc) {
  return fmt::format("low point {:.5f} m, plane {:.4f} deg, radius {:.5f} m, swing direction {:.4f} deg", arc.low_point,
                     arc.plane / kDeg, arc.radius, arc.swing_direction / kDeg);
}

Arc any_arc(Draws& draws) {
  return {draws.between(-0.35, 0.35), draws.between(30.0, 70.0) * kDeg, draws.between(1.1, 2.0),
          draws.between(-10.0, 10.0) * kDeg};
}

}  // namespace

TEST_CASE("the arc gives the worked numbers", "[arc]") {
  // Worked outside this project: plane 50 deg, radius 1.6 m, attack +3 deg -> path 2.52 deg left of the swing
  // direction, 10.9 cm past the low point, 2.9 mm above it.
  const double low_point = low_point_for(3.0 * kDeg, 50.0 * kDeg, 1.6);
  CHECK(std::abs(-low_point - 0.109) <= 0.5e-3);  // as printed
  const ArcAtBall at = at_ball({low_point, 50.0 * kDeg, 1.6, 0.0});
  CHECK(std::abs(at.attack / kDeg - 3.0) < 1e-12);
  CHECK(std::abs(at.path / kDeg + 2.52) <= 0.5e-2);
  CHECK(std::abs(at.height - 2.9e-3) <= 0.5e-4);
}

TEST_CASE("attack, path and height are those of a point running on a circle in space", "[arc]") {
  Draws draws(5);
  for (int i = 0; i < 300; ++i) {
    const Arc arc = any_arc(draws);
    INFO(text(arc));
    const double past = std::asin(-arc.low_point / arc.radius), h = 1e-5;
    const Vec3<double> v = on_circle(arc, past + h) - on_circle(arc, past - h);
    const ArcAtBall at = at_ball(arc);
    // The difference quotient is exact for a circle up to rounding, 1e-16 / h.
    CHECK(std::abs(at.attack - std::atan2(v.y, std::hypot(v.x, v.z))) < 1e-9);
    CHECK(std::abs(at.path - std::atan2(v.z, v.x)) < 1e-9);
    CHECK(std::abs(at.height - on_circle(arc, past).y) < 1e-14);
  }
}

TEST_CASE("at the low point the club runs level along the swing direction", "[arc]") {
  const ArcAtBall at = at_ball({0.0, 55.0 * kDeg, 1.5, 4.0 * kDeg});
  CHECK(at.attack == 0.0);
  CHECK(at.path == 4.0 * kDeg);
  CHECK(at.height == 0.0);
}

TEST_CASE("low point ahead of the ball hits down and right, behind it up and left", "[arc]") {
  const ArcAtBall down = at_ball({0.1, 50.0 * kDeg, 1.5, 0.0}), up = at_ball({-0.1, 50.0 * kDeg, 1.5, 0.0});
  CHECK(down.attack < 0.0);
  CHECK(down.path > 0.0);
  CHECK(up.attack == -down.attack);
  CHECK(up.path == -down.path);
}

TEST_CASE("plane and radius come back from what the arc delivers", "[arc]") {
  Draws draws(6);
  int tried = 0;
  while (tried < 300) {
    const Arc arc = any_arc(draws);
    if (std::abs(arc.low_point) < 0.01) continue;  // too near the low point the question is ill-posed
    ++tried;
    INFO(text(arc));
    const ArcAtBall at = at_ball(arc);
    const Arc back = arc_from(at.attack, at.path, arc.low_point, arc.swing_direction);
    CHECK(std::abs(back.plane - arc.plane) < 1e-10);  // 1e-16 over the smallest attack and turn, 0.006 squared
    CHECK(std::abs(back.radius - arc.radius) < 1e-10);
    CHECK(std::abs(low_point_for(at.attack, arc.plane, arc.radius) - arc.low_point) < 1e-14);
  }
}

// Common practice, no source: low points of 4.6 to 4.8 in behind the ball go with +3.0 to +3.2 deg, 9.8 in ahead with
// -8 deg.
TEST_CASE("common practice: one arc radius explains low points behind and ahead of the ball", "[arc]") {
  for (const auto& [behind, attack_up] : {std::pair{4.6, 3.0}, {4.6, 3.2}, {4.8, 3.0}, {4.8, 3.2}}) {
    bool explained = false;
    for (double radius = 1.3; radius <= 1.8; radius += 0.005) {
      // The plane that gives the attack: the one where low_point_for lands on the low point.
      auto plane_of = [&](double attack, double low_point) {
        double flat = 20.0 * kDeg, steep = 80.0 * kDeg;
        for (int i = 0; i < 60; ++i) {
          const double plane = 0.5 * (flat + steep);
          (std::abs(low_point_for(attack, plane, radius)) > std::abs(low_point) ? flat : steep) = plane;
        }
        return flat;
      };
      const double up = plane_of(attack_up * kDeg, -behind * kInch), down = plane_of(-8.0 * kDeg, 9.8 * kInch);
      if (up < 38.0 * kDeg || up > 60.0 * kDeg || down < 38.0 * kDeg || down > 60.0 * kDeg) continue;
      INFO("radius " << radius << " m, planes " << up / kDeg << " and " << down / kDeg << " deg");
      CHECK(down > up);
      CHECK(std::abs(at_ball({9.8 * kInch, down, radius, 0.0}).attack / kDeg + 8.0) < 1e-9);
      CHECK(std::abs(at_ball({-behind * kInch, up, radius, 0.0}).attack / kDeg - attack_up) < 1e-9);
      explained = true;
    }
    INFO("low point " << behind << " in behind, attack +" << attack_up << " deg");
    CHECK(explained);
  }
}

TEST_CASE("an arc out of range is refused by name", "[arc]") {
  const auto use = [](const Arc& arc) { at_ball(arc); };
  const Arc good{0.1, 50.0 * kDeg, 1.6, 0.0};
  check_field(good, &Arc::plane, "plane", 20.0 * kDeg, 80.0 * kDeg, use);
  check_field(good, &Arc::radius, "radius", 0.8, 2.5, use);
  check_field(good, &Arc::low_point, "low point", -0.6, 0.6, use);
  check_field(good, &Arc::swing_direction, "base line", -30.0 * kDeg, 30.0 * kDeg, use);

  struct Ask {
    double attack = 3.0 * kDeg, plane = 50.0 * kDeg, radius = 1.6;
  };
  const auto ask = [](const Ask& a) { low_point_for(a.attack, a.plane, a.radius); };
  check_field(Ask{}, &Ask::attack, "attack", -20.0 * kDeg, 20.0 * kDeg, ask);
  check_field(Ask{}, &Ask::plane, "plane", 20.0 * kDeg, 80.0 * kDeg, ask);
  check_field(Ask{}, &Ask::radius, "radius", 0.8, 2.5, ask);
}

TEST_CASE("numbers that no arc gives are refused with the reason", "[arc]") {
  const WithoutTraps here;
  CHECK_THROWS_WITH(arc_from(0.0, 0.1, 0.1, 0.0), Catch::Contains("low point"));
  CHECK_THROWS_WITH(arc_from(-0.05, 0.0, 0.1, 0.0), Catch::Contains("differ from zero"));
  CHECK_THROWS_WITH(arc_from(0.05, 0.04, 0.1, 0.0), Catch::Contains("contradict"));    // up with the low point ahead
  CHECK_THROWS_WITH(arc_from(-0.05, -0.04, 0.1, 0.0), Catch::Contains("contradict"));  // path left of it
  CHECK_THROWS_AS(arc_from(-0.3, 0.01, 0.1, 0.0), InputError);                         // radius 0.33 m
  CHECK_THROWS_AS(arc_from(std::nan(""), 0.04, 0.1, 0.0), InputError);
}

TEST_CASE("what an arc is to be found from is refused by name when out of range", "[arc]") {
  const auto use = [](double attack, double path, double low_point, double direction) {
    arc_from(attack, path, low_point, direction);
  };
  for (const double side : {-1.001, 1.001}) {
    INFO("side " << side);
    CHECK_THROWS_WITH(use(side * 20.0 * kDeg, 0.04, 0.1, 0.0), Catch::Contains("attack") && Catch::Contains("allowed"));
    CHECK_THROWS_WITH(use(-0.05, side * 30.0 * kDeg, 0.1, 0.0), Catch::Contains("path") && Catch::Contains("allowed"));
    CHECK_THROWS_WITH(use(-0.05, 0.04, side * 0.6, 0.0), Catch::Contains("low point") && Catch::Contains("allowed"));
    CHECK_THROWS_WITH(use(-0.05, 0.04, 0.1, side * 30.0 * kDeg),
                      Catch::Contains("base line") && Catch::Contains("allowed"));
  }
}

TEST_CASE("an arc is found down to 0.05 deg and a millimetre, and not below", "[arc]") {
  const auto back = [](const Arc& arc) {
    const ArcAtBall at = at_ball(arc);
    INFO("attack " << at.attack / kDeg << " deg, path " << at.path / kDeg << " deg");
    return arc_from(at.attack, at.path, arc.low_point, arc.swing_direction);
  };
  const double low_point = 1.05e-3, radius = 0.8;  // attack and turn of 0.053 deg in a plane of 45 deg
  CHECK(std::abs(back({low_point, 45.0 * kDeg, radius, 0.0}).plane / kDeg - 45.0) < 1e-6);
  CHECK_THROWS_WITH(back({low_point, 39.7 * kDeg, radius, 0.0}),
                    Catch::Contains("differ from zero"));  // attack 0.048 deg
  CHECK_THROWS_WITH(back({low_point, 50.3 * kDeg, radius, 0.0}),
                    Catch::Contains("differ from zero"));  // turn 0.048 deg
}

TEST_CASE("an arc whose plane or radius nobody gave is refused", "[arc]") {
  const WithoutTraps here;
  CHECK_THROWS_WITH(at_ball({.low_point = 0.1, .radius = 1.6}), Catch::Contains("plane"));
  CHECK_THROWS_WITH(at_ball({.low_point = 0.1, .plane = 50.0 * kDeg}), Catch::Contains("radius"));
  CHECK(at_ball({.plane = 50.0 * kDeg, .radius = 1.6}).attack ==
        0.0);  // the low point at the ball, along the target line
  CHECK(at_ball({.plane = 50.0 * kDeg, .radius = 1.6}).path == 0.0);
}
