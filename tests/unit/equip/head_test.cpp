#include "loftwright/equip/head.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "bad_values.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("the default head is within the rules", "[head]") {
  const Head head;
  CHECK_NOTHROW(validate(head));
  CHECK(head.restitution <= 0.83);                                   // 0.822 + 0.008 ...
  CHECK(std::abs(head.restitution_speed - 160.0 * 0.3048) < 0.005);  // ... at 160 ft/s
  CHECK(head.inertia_up <= 5900e-7 + 100e-7);                        // 5900 g cm2 + 100
}

TEST_CASE("a head out of range is refused by name", "[head]") {
  const auto use = [](const Head& h) { validate(h); };
  check_field(Head{}, &Head::mass, "mass", 0.1, 0.4, use);
  check_field(Head{}, &Head::inertia_normal, "face normal", 5e-5, 2e-3, use);
  check_field(Head{}, &Head::inertia_up, "up-face", 5e-5, 2e-3, use);
  check_field(Head{}, &Head::inertia_heel_toe, "heel-toe", 5e-5, 2e-3, use);
  check_field(Head{}, &Head::depth, "depth", 0.0, 0.08, use);
  check_field(Head{}, &Head::bulge, "bulge", 0.1, 10.0, use);
  check_field(Head{}, &Head::roll, "roll", 0.1, 10.0, use);
  check_field(Head{}, &Head::restitution, "restitution", 0.5, 0.9, use);
  check_field(Head{}, &Head::restitution_speed, "restitution speed", 10.0, 80.0, use);
  check_field(Head{}, &Head::restitution_slope, "restitution slope", 0.0, 0.01, use);
  check_field(Head{}, &Head::tangential_restitution, "tangential restitution", -1.0, 1.0, use);
  check_field(Head{}, &Head::friction, "friction", 0.05, 2.0, use);
  check_field(Head{}, &Head::width, "width", 0.0, 3.0, use);
}

TEST_CASE("a head that differs stays a head that is allowed", "[head]") {
  const Head head = head_under<double>(Head{}, {1.1, -0.004, 0.92});
  CHECK(head.inertia_up == Approx(1.1 * 4.8e-4).epsilon(1e-15));
  CHECK(head.depth == Approx(0.032).epsilon(1e-15));
  CHECK(head.bulge == Approx(0.92 * 0.305).epsilon(1e-15));
  for (const double by : {-1.0, 0.0, 1e3}) {
    INFO(by);
    CHECK_NOTHROW(validate(head_under<double>(Head{}, {by, by, by})));
  }
}
