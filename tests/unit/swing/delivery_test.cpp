#include "loftwright/swing/delivery.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "bad_values.hpp"
#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("spin loft is dynamic loft minus attack when path and face agree", "[delivery]") {
  for (const double attack : {-8.0, 0.0, 5.0}) {
    for (const double aim : {-6.0, 0.0, 9.0}) {
      const Delivery d{45.0, attack * kDeg, aim * kDeg, aim * kDeg, 13.0 * kDeg, 0.0, 0.0};
      INFO(text(d));
      CHECK(std::abs(spin_loft(d) / kDeg - (13.0 - attack)) < 1e-11);
    }
  }
}

TEST_CASE("spin loft is the angle of spherical trigonometry", "[delivery]") {
  Draws draws(7);
  for (int i = 0; i < 200; ++i) {
    const Delivery d = draws.delivery();
    // Two directions at elevations a, b and azimuths apart by c: cos = sin a sin b + cos a cos b cos c.
    const double cosine = std::sin(d.attack) * std::sin(d.dynamic_loft) +
                          std::cos(d.attack) * std::cos(d.dynamic_loft) * std::cos(d.path - d.face);
    INFO(text(d));
    CHECK(std::abs(std::cos(spin_loft(d)) - cosine) < 1e-15 * 8);
  }
}

TEST_CASE("a face open to the path adds to spin loft", "[delivery]") {
  const Delivery square{45.0, 0.0, 0.0, 0.0, 0.2, 0.0, 0.0}, open{45.0, 0.0, -0.05, 0.05, 0.2, 0.0, 0.0};
  CHECK(spin_loft(open) > spin_loft(square));
}

TEST_CASE("a mirrored delivery swaps right and left and nothing else", "[delivery]") {
  const Delivery d{45.0, 0.01, 0.02, -0.03, 0.2, 0.004, 0.005};
  const Delivery m = mirrored(d);
  CHECK(m.path == -d.path);
  CHECK(m.face == -d.face);
  CHECK(m.toe == d.toe);  // towards the toe, in either hand
  CHECK(m.high == d.high);
  CHECK(m.club_speed == d.club_speed);
  CHECK(m.attack == d.attack);
  CHECK(m.dynamic_loft == d.dynamic_loft);
  CHECK(mirrored(m).path == d.path);
}

TEST_CASE("a change is added quantity by quantity", "[delivery]") {
  const Delivery d =
      Delivery{45.0, 0.01, 0.02, -0.03, 0.2, 0.004, 0.005} + Delivery{2.0, 0.1, 0.3, 0.5, 0.7, 0.01, 0.02};
  CHECK(d.club_speed == 45.0 + 2.0);
  CHECK(d.attack == 0.01 + 0.1);
  CHECK(d.path == 0.02 + 0.3);
  CHECK(d.face == -0.03 + 0.5);
  CHECK(d.dynamic_loft == 0.2 + 0.7);
  CHECK(d.toe == 0.004 + 0.01);
  CHECK(d.high == 0.005 + 0.02);
}

TEST_CASE("a delivery out of range is refused by name", "[delivery]") {
  const auto use = [](const Delivery& d) { validate(d); };
  const Delivery good{45.0, 0.0, 0.0, 0.0, 0.2, 0.0, 0.0};
  check_field(good, &Delivery::club_speed, "club speed", 9.0, 72.0, use);
  check_field(good, &Delivery::attack, "attack", -20.0 * kDeg, 20.0 * kDeg, use);
  check_field(good, &Delivery::path, "path", -30.0 * kDeg, 30.0 * kDeg, use);
  check_field(good, &Delivery::face, "face", -30.0 * kDeg, 30.0 * kDeg, use);
  check_field(good, &Delivery::dynamic_loft, "delivered loft", -5.0 * kDeg, 60.0 * kDeg, use);
  check_field(good, &Delivery::toe, "toe", -0.05, 0.05, use);
  check_field(good, &Delivery::high, "high", -0.03, 0.03, use);
}
