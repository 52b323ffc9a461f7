#include "report/page/contour.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace loftwright;

namespace {

template <class Value>
Surface field_of(std::size_t columns, std::size_t rows, Value value) {
  Surface f{columns, rows, {}};
  for (std::size_t y = 0; y < rows; ++y) {
    for (std::size_t x = 0; x < columns; ++x) f.values.push_back(value(static_cast<double>(x), static_cast<double>(y)));
  }
  return f;
}

// Signed area of a ring; the last spot joins the first.
double area(const std::vector<Spot>& ring) {
  double twice = 0.0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Spot &a = ring[i], &b = ring[(i + 1) % ring.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return 0.5 * twice;
}

}  // namespace

TEST_CASE("a cone's contour is one closed circle", "[page]") {
  const Surface f = field_of(41, 41, [](double x, double y) { return -std::hypot(x - 20.3, y - 19.6); });
  const auto lines = contour_lines(f, -10.0);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].front().x == lines[0].back().x);
  CHECK(lines[0].front().y == lines[0].back().y);
  for (const Spot& s : lines[0]) {
    CAPTURE(s.x, s.y);
    CHECK(std::hypot(s.x - 20.3, s.y - 19.6) ==
          Approx(10.0).margin(0.02));  // a chord's bend over one cell: 1/8 / radius
  }
  CHECK(std::abs(area(lines[0])) == Approx(M_PI * 100.0).epsilon(0.005));
}

TEST_CASE("a plane's contours are straight, run from edge to edge, and the region above fills the rest", "[page]") {
  const Surface f = field_of(11, 6, [](double x, double y) { return x + 2.0 * y; });
  const auto lines = contour_lines(f, 8.0);
  REQUIRE(lines.size() == 1);
  for (const Spot& s : lines[0]) CHECK(s.x + 2.0 * s.y == Approx(8.0).margin(1e-9));
  const auto rings = region_above(f, 8.0);
  REQUIRE(rings.size() == 1);
  CHECK(std::abs(area(rings[0])) == Approx(50.0 - 16.0).epsilon(1e-6));  // of 10 by 5, less the triangle below the line
}

TEST_CASE("levels outside the field: no line, and all or nothing above", "[page]") {
  const Surface f = field_of(4, 4, [](double x, double y) { return x * y; });
  CHECK(contour_lines(f, 100.0).empty());
  CHECK(region_above(f, 100.0).empty());
  const auto all = region_above(f, -1.0);
  REQUIRE(all.size() == 1);
  CHECK(std::abs(area(all[0])) == Approx(9.0).epsilon(1e-6));
}

TEST_CASE("a saddle is parted by its mean, and no two lines cross", "[page]") {
  const Surface f{2, 2, {1.0, 0.0, 0.0, 1.0}};
  CHECK(contour_lines(f, 0.4).size() == 2);
  CHECK(contour_lines(f, 0.6).size() == 2);
  // The two lines cut off the low corners below the mean, the high ones above it.
  for (const auto& line : contour_lines(f, 0.6)) {
    const double sum = line.front().x + line.front().y + line.back().x + line.back().y;
    CAPTURE(sum);
    CHECK((sum == Approx(0.8) || sum == Approx(3.2)));
  }
}

TEST_CASE("a hole inside a region stays a hole", "[page]") {
  const Surface f = field_of(21, 21, [](double x, double y) { return std::hypot(x - 10.0, y - 10.0); });
  const auto rings = region_above(f, 5.0);
  REQUIRE(rings.size() == 2);
  const double a = std::abs(area(rings[0])), b = std::abs(area(rings[1]));
  CHECK(std::max(a, b) - std::min(a, b) == Approx(400.0 - M_PI * 25.0).epsilon(0.01));
}
