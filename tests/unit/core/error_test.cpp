#include "loftwright/core/error.hpp"

#include <catch2/catch.hpp>
#include <limits>

#include "core/traps.hpp"

using namespace loftwright;

TEST_CASE("a range check takes its ends and nothing beyond, and says what is allowed", "[error]") {
  CHECK_NOTHROW(check_range("launch", -20.0, -20.0, 80.0, "deg"));
  CHECK_NOTHROW(check_range("launch", 80.0, -20.0, 80.0, "deg"));
  CHECK_THROWS_WITH(check_range("launch", 80.5, -20.0, 80.0, "deg"), "launch is 80.5 deg; allowed: -20 to 80 deg");
  CHECK_THROWS_WITH(check_range("ratio", -0.25, 0.0, 1.0, ""), "ratio is -0.25; allowed: 0 to 1");
}

TEST_CASE("what is not finite is out of every range", "[error]") {
  const WithoutTraps here;
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), kInfinity, -kInfinity}) {
    CHECK_THROWS_AS(check_range("x", bad, -kInfinity, kInfinity, "m"), InputError);
  }
}
