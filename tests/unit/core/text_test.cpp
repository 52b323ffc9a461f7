#include "core/text.hpp"

#include <catch2/catch.hpp>
#include <limits>

using namespace loftwright;

TEST_CASE("an end of a range is printed as it is, or with three digits within the range") {
  CHECK(range_end(0.0, true) == "0");
  CHECK(range_end(-20.0, true) == "-20");
  CHECK(range_end(101325.0, false) == "101325");
  CHECK(range_end(0.0125, true) == "0.0125");
  CHECK(range_end(20.000000000000004, true) == "20");  // 20 deg, by way of pi
  CHECK(range_end(9 / 0.44704, true) == "20.2");       // 20.13 mph
  CHECK(range_end(72 / 0.44704, false) == "161");      // 161.06 mph
  CHECK(range_end(-4000 / 0.3048, true) == "-13100");  // -13,123 ft
  CHECK(range_end(-9 / 0.44704, false) == "-20.2");
  CHECK(range_end(1 / 0.3048, false) == "3.28");
  CHECK(range_end(999.96 / 1.0000001, true) == "1000");
  CHECK(range_end(std::numeric_limits<double>::infinity(), false) == "inf");
}

TEST_CASE("of one there is one, of any other number there are more") {
  CHECK(how_many(1, "shot") == "1 shot");
  CHECK(how_many(0, "shot") == "0 shots");
  CHECK(how_many(21, "more shot") == "21 more shots");
  CHECK(plural(1, "pupil") == "pupil");
}
