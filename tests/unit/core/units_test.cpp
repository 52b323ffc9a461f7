#include "loftwright/core/units.hpp"

#include <catch2/catch.hpp>
#include <clocale>
#include <map>

#include "core/traps.hpp"
#include "loftwright/core/detail/constants.hpp"

using namespace loftwright;

namespace {

// SI value of `typed` of a unit, from the definitions themselves and not by the table's own factors: NIST SP 811
// (2008), appendix B (international yard and pound, nautical mile, conventional inch of mercury) and the SI brochure.
struct Exact {
  std::string_view symbol;
  Dimension dimension;
  double typed, si;
};
constexpr Exact kExact[] = {
    {"m/s", Dimension::speed, 3.0, 3.0},
    {"mph", Dimension::speed, 125.0, 55.88},  // 0.44704 m/s exactly
    {"km/h", Dimension::speed, 90.0, 25.0},
    {"ft/s", Dimension::speed, 160.0, 48.768},  // the rules' test speed
    {"kn", Dimension::speed, 9.0, 4.63},        // 1852 m an hour
    {"rad", Dimension::angle, 1.0, 1.0},
    {"deg", Dimension::angle, 180.0, 3.141592653589793},
    {"m", Dimension::length, 2.0, 2.0},
    {"cm", Dimension::length, 25.0, 0.25},
    {"mm", Dimension::length, 42.67, 0.04267},
    {"in", Dimension::length, 1.68, 0.042672},  // the rules' least diameter
    {"ft", Dimension::length, 5000.0, 1524.0},
    {"yd", Dimension::length, 317.0, 289.8648},
    {"kg", Dimension::mass, 0.2, 0.2},
    {"g", Dimension::mass, 45.93, 0.04593},
    {"oz", Dimension::mass, 16.0, 0.45359237},  // a pound
    {"K", Dimension::temperature, 293.15, 293.15},
    {"C", Dimension::temperature, 20.0, 293.15},
    {"F", Dimension::temperature, 68.0, 293.15},
    {"Pa", Dimension::pressure, 101325.0, 101325.0},
    {"hPa", Dimension::pressure, 1013.25, 101325.0},
    {"kPa", Dimension::pressure, 101.325, 101325.0},
    {"mbar", Dimension::pressure, 1013.25, 101325.0},
    {"inHg", Dimension::pressure, 29.92, 101320.75888},  // 3386.389 Pa each; a standard atmosphere is 29.9213 of them
    {"rad/s", Dimension::spin, 5.0, 5.0},
    {"rpm", Dimension::spin, 3000.0, 314.1592653589793},
    {"rev/s", Dimension::spin, 37.0, 232.4778563656447},  // 2 pi 37
    {"%", Dimension::ratio, 50.0, 0.5},
    {"kg m2", Dimension::inertia, 5.9e-4, 5.9e-4},
    {"g cm2", Dimension::inertia, 5900.0, 5.9e-4},  // the rules' limit for a driver head
    {"s", Dimension::time, 60.0, 60.0},
};

double parsed(std::string_view text, Dimension dimension, std::string_view default_unit) {
  return parse_quantity("value", text, dimension, default_unit);
}

}  // namespace

TEST_CASE("every unit against its exact definition, there and back") {
  CHECK(std::size(kExact) == units().size());  // none is left out
  for (const Exact& e : kExact) {
    const Unit& u = unit(e.symbol);
    INFO(e.typed << " " << e.symbol << " should be " << e.si << ", is " << u.to_si(e.typed));
    CHECK(u.symbol == e.symbol);
    CHECK(u.dimension == e.dimension);
    // Two or three roundings: the factor, the product and, for temperatures, the sum.
    CHECK(std::abs(u.to_si(e.typed) - e.si) <= 4e-16 * std::abs(e.si));
    for (const double value : {e.typed, -17.3, 1e-3, 0.0, 12345.678}) {
      const double back = u.from_si(u.to_si(value));
      CHECK(std::abs(back - value) <= 4e-16 * (std::abs(value) + std::abs(u.offset / u.factor)));
    }
  }
}

TEST_CASE("symbols and suffixes are unambiguous, and found whatever their letter case") {
  std::map<std::string_view, int> suffixes;
  for (const Unit& u : units()) {
    INFO("unit " << u.symbol);
    CHECK(++suffixes[u.suffix] == 1);
    CHECK(u.suffix.find('_') == std::string_view::npos);
    CHECK(find_unit(u.symbol) == &u);
    CHECK(find_unit(u.suffix)->dimension == u.dimension);
    CHECK(find_suffix(u.suffix) == &u);
    CHECK(name_of(u.dimension) != "");
  }
  CHECK(find_unit("MPH") == &unit("mph"));
  CHECK(find_unit(" Km/H ") == &unit("km/h"));
  CHECK(find_suffix("MPH") == nullptr);
  CHECK(find_suffix("m/s") == nullptr);
  CHECK(find_unit("furlong") == nullptr);
  CHECK(find_unit("") == nullptr);
  CHECK_THROWS_AS(unit("furlong"), std::logic_error);
}

TEST_CASE("other spellings") {
  const std::pair<std::string_view, std::string_view> spellings[] = {
      {"kph", "km/h"}, {"KPH", "km/h"},  {"knots", "kn"}, {"°", "deg"},  {"degrees", "deg"}, {"\"", "in"},
      {"inch", "in"},  {"feet", "ft"},   {"yards", "yd"}, {"yds", "yd"}, {"metres", "m"},    {"°C", "C"},
      {"degF", "F"},   {"percent", "%"}, {"mi/h", "mph"}, {"kts", "kn"}, {"Meters", "m"},    {"Degree", "deg"},
  };
  for (const auto& [spelling, symbol] : spellings) {
    INFO(spelling);
    CHECK(find_unit(spelling) == &unit(symbol));
  }
}

TEST_CASE("a quantity as people type it") {
  CHECK(parsed("82mph", Dimension::speed, "mph") == 82.0 * 0.44704);
  CHECK(parsed("82", Dimension::speed, "mph") == 82.0 * 0.44704);
  CHECK(parsed("36.7m/s", Dimension::speed, "mph") == 36.7);
  CHECK(parsed("  36.7 m/s ", Dimension::speed, "mph") == 36.7);
  CHECK(parsed("-4deg", Dimension::angle, "deg") == -4.0 * (kPi / 180.0));
  CHECK(parsed("+3.2 deg", Dimension::angle, "deg") == 3.2 * (kPi / 180.0));
  CHECK(parsed("10.5°", Dimension::angle, "rad") == 10.5 * (kPi / 180.0));
  CHECK(parsed(".5", Dimension::angle, "rad") == 0.5);
  CHECK(parsed("1e2 mm", Dimension::length, "m") == 0.1);
  CHECK(parsed("68F", Dimension::temperature, "C") == unit("F").to_si(68.0));
  CHECK(parsed("-5", Dimension::temperature, "C") == 268.15);
  CHECK(parsed("2700rpm", Dimension::spin, "rpm") == 2700.0 * (2.0 * kPi / 60.0));
  CHECK(parsed("3in", Dimension::length, "m") == 3.0 * 0.0254);  // no infinity
}

TEST_CASE("a quantity that is none says why") {
  struct Bad {
    std::string_view text;
    Dimension dimension;
    std::string message;
  };
  const Bad cases[] = {
      {"fast", Dimension::speed, "value: 'fast' has no number; expected one with a unit, such as 10mph"},
      {"", Dimension::speed, "value: '' has no number; expected one with a unit, such as 10mph"},
      {"mph", Dimension::speed, "value: 'mph' has no number; expected one with a unit, such as 10mph"},
      {"++3mph", Dimension::speed, "value: '++3mph' has no number; expected one with a unit, such as 10mph"},
      {"+-3mph", Dimension::speed, "value: '+-3mph' has no number; expected one with a unit, such as 10mph"},
      {"82mhp", Dimension::speed, "value: '82mhp' has the unknown unit 'mhp'; allowed: m/s, mph, km/h, ft/s, kn"},
      {"8,5mph", Dimension::speed, "value: '8,5mph' has the unknown unit ',5mph'; allowed: m/s, mph, km/h, ft/s, kn"},
      {"82deg", Dimension::speed,
       "value: '82deg' has a unit of angle; expected one of speed: m/s, mph, km/h, ft/s, kn"},
      {"nan", Dimension::speed, "value: 'nan' is not a finite number"},
      {"inf", Dimension::speed, "value: 'inf' is not a finite number"},
      {"1e999mph", Dimension::speed, "value: '1e999mph' is not a finite number"},
  };
  for (const Bad& bad : cases) {
    INFO(bad.text);
    CHECK_THROWS_WITH(parsed(bad.text, bad.dimension, "mph"), bad.message);
  }
}

TEST_CASE("a number that is finite in its own unit alone is refused") {
  const WithoutTraps here;
  CHECK_THROWS_WITH(parsed("-1e308 inHg", Dimension::pressure, "Pa"), "value: '-1e308 inHg' is not a finite number");
  CHECK(parsed("1e304 inHg", Dimension::pressure, "Pa") == Approx(3.386389e307));
}

TEST_CASE("a number alone, the same in every locale") {
  CHECK(parse_number("1.5") == 1.5);
  CHECK(parse_number(" -2e3\t") == -2000.0);
  CHECK(parse_number("+7") == 7.0);
  for (const char* text : {"", "1,5", "1.5x", "nan", "inf", "1e999", "0x10", "1 2", "--1", "+-1"}) {
    INFO(text);
    CHECK_FALSE(parse_number(text));
  }
  // Where a locale that writes a comma is installed, it must make no difference.
  const std::string before = std::setlocale(LC_NUMERIC, nullptr);
  for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8"}) {
    if (!std::setlocale(LC_NUMERIC, name)) continue;
    CHECK(parse_number("1.5") == 1.5);
    CHECK_FALSE(parse_number("1,5"));
  }
  std::setlocale(LC_NUMERIC, before.c_str());
}
