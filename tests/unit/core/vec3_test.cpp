#include "loftwright/core/detail/vec3.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("the frame is right-handed: target x up = right", "[vec3]") {
  const Vec3<double> target{1, 0, 0}, up{0, 1, 0}, right = cross(target, up);
  CHECK(right.x == 0.0);
  CHECK(right.y == 0.0);
  CHECK(right.z == 1.0);
}

TEST_CASE("cross and dot keep their identities", "[vec3]") {
  Draws draws(1);
  for (int i = 0; i < 200; ++i) {
    auto any = [&] { return Vec3<double>{draws.between(-5, 5), draws.between(-5, 5), draws.between(-5, 5)}; };
    const auto a = any(), b = any(), c = any();
    const double eps = 1e-12;  // rounding of products up to 125
    CHECK(std::abs(dot(cross(a, b), a)) < eps);
    CHECK(std::abs(dot(cross(a, b), b)) < eps);
    CHECK(length(cross(a, b) + cross(b, a)) == 0.0);
    CHECK(length(cross(a, cross(b, c)) - (dot(a, c) * b - dot(a, b) * c)) < 100 * eps);
    CHECK(std::abs(dot(cross(a, b), cross(a, b)) + dot(a, b) * dot(a, b) - dot(a, a) * dot(b, b)) < 1000 * eps);
    CHECK(length(a - a) == 0.0);
    CHECK(length(-a + a) == 0.0);
  }
}

TEST_CASE("a direction is a unit vector with the elevation and azimuth it was given", "[vec3]") {
  Draws draws(2);
  for (int i = 0; i < 200; ++i) {
    const double elevation = draws.between(-1.5, 1.5), azimuth = draws.between(-3.1, 3.1);
    const Vec3<double> d = direction(elevation, azimuth);
    INFO("elevation " << elevation << " rad, azimuth " << azimuth << " rad");
    CHECK(std::abs(length(d) - 1.0) < 1e-15 * 4);
    CHECK(std::abs(std::asin(d.y) - elevation) < 1e-13);  // asin loses digits near pi/2
    CHECK(std::abs(std::atan2(d.z, d.x) - azimuth) < 1e-14 * 4);
  }
  CHECK(direction(0.0, 0.1).z > 0.0);  // positive azimuth is to the right
}
