#include "loftwright/equip/ball.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "bad_values.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("the default ball is at the rules' limits", "[ball]") {
  const Ball ball;
  // The Rules of Golf's equipment rules: mass not over 45.93 g (1.620 oz), diameter not under 42.67 mm (1.680 in).
  CHECK(std::abs(ball.mass - 1.620 * 0.45359237 / 16.0) < 1e-5);  // rounded to 0.01 g
  CHECK(ball.mass <= 0.04593);
  CHECK(std::abs(2.0 * ball.radius - 1.680 * 0.0254) < 1e-5);  // rounded to 0.01 mm
  CHECK(2.0 * ball.radius >= 0.04267);
}

TEST_CASE("area and inertia are those of a sphere", "[ball]") {
  const Ball ball{.mass = 0.05, .radius = 0.02};
  CHECK(std::abs(ball.area() - 3.14159265358979 * 4e-4) < 1e-16);
  CHECK(std::abs(ball.inertia() - 8e-6) < 1e-18);
  // 83.6 g cm2 for 45.9 g and 21.35 mm (MDPI Proceedings 49(1) 47, 2020, table 1), printed to 0.1.
  CHECK(std::abs(Ball{.mass = 0.0459, .radius = 0.02135}.inertia() - 83.6e-7) < 0.1e-7);
}

TEST_CASE("a ball out of range is refused by name", "[ball]") {
  const auto use = [](const Ball& b) { validate(b); };
  check_field(Ball{}, &Ball::mass, "mass", 0.02, 0.06, use);
  check_field(Ball{}, &Ball::radius, "diameter", 0.018, 0.025, use);
  check_field(Ball{}, &Ball::inertia_factor, "inertia", 0.3, 0.5, use);
  check_field(Ball{}, &Ball::spin_decay, "spin decay", 0.0, 1e-3, use);
}
