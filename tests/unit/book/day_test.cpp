#include "loftwright/book/day.hpp"

#include <catch2/catch.hpp>

#include "loftwright/core/error.hpp"

using namespace loftwright;

TEST_CASE("days are read and written as ISO 8601 has them") {
  for (const char* text : {"2026-03-14", "1900-01-01", "2100-12-31", "2024-02-29", "2000-02-29"}) {
    INFO(text);
    REQUIRE(parse_day(text));
    CHECK(text_of(*parse_day(text)) == text);
  }
  CHECK(*parse_day("2026-03-14") < *parse_day("2026-04-01"));
}

TEST_CASE("what is not written as a day is none") {
  for (const char* text : {"", "2026", "2026-3-14", "14.03.2026", "03/14/2026", "2026-03-14 ", " 2026-03-14",
                           "2026-03-1x", "20260314", "2026-03-14T10:00", "-026-03-14", "2026_03_14"}) {
    INFO(text);
    CHECK_FALSE(parse_day(text));
  }
}

TEST_CASE("a day that is not in the calendar, or far from our time, is an error") {
  for (const char* text : {"2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "2026-01-00",
                           "1899-12-31", "2101-01-01", "0000-01-01", "9999-12-31"}) {
    INFO(text);
    CHECK_THROWS_AS(parse_day(text), InputError);
  }
}
