// How a cell may be written, seen through read_shots: one column, one row.
#include <catch2/catch.hpp>
#include <cmath>

#include "loftwright/files/columns_file.hpp"
#include "loftwright/shots/shot_list.hpp"

using namespace loftwright;
using Catch::Matchers::Contains;

namespace {

// The value in the unit named, or none when the shot was set aside; then `reason` says why.
std::optional<double> read(const std::string& head, const std::string& cell, Reading reading, const char* unit_name,
                           std::string* reason = nullptr) {
  static const ColumnMap words = built_in_columns();
  const ShotList list = read_shots("Label;" + head + "\none;" + cell + "\n", words);
  REQUIRE(list.shots.size() + list.set_aside.size() == 1);
  if (list.shots.empty()) {
    if (reason) *reason = list.set_aside[0].reason;
    return std::nullopt;
  }
  REQUIRE(list.shots[0].at(reading));
  return unit(unit_name).from_si(*list.shots[0].at(reading));
}

void check_cell(const std::string& head, const std::string& cell, Reading reading, const char* unit_name,
                double expected) {
  INFO(head << " = '" << cell << "'");
  const auto got = read(head, cell, reading, unit_name);
  REQUIRE(got);
  CHECK(std::abs(*got - expected) < 1e-9);  // rounding of the unit there and back
}

void check_unreadable(const std::string& head, const std::string& cell, const std::string& message) {
  INFO(head << " = '" << cell << "'");
  std::string reason;
  CHECK_FALSE(read(head, cell, Reading::side, "m", &reason));
  CHECK_THAT(reason, Contains(message));
}

}  // namespace

TEST_CASE("numbers, signs and sides", "[shots]") {
  const auto side = [](const std::string& cell, double expected) {
    check_cell("Side (yd)", cell, Reading::side, "yd", expected);
  };
  side("12", 12);
  side("-12.5", -12.5);
  side("+3", 3);
  side(".5", 0.5);
  side("12,5", 12.5);
  side("12 L", -12);
  side("12L", -12);
  side("3.4R", 3.4);
  side("R 3.4", 3.4);
  side("left 3.4", -3.4);
  side("3.4 Right", 3.4);
  side(
      "\xE2\x88\x92"
      "7",
      -7);                 // the minus sign of typesetting
  side("4\xC2\xA0L", -4);  // a no-break space
  side("12 yd L", -12);
  side("12yd L", -12);
  side("12 yards", 12);
  side("0 L", 0);
  CHECK_FALSE(std::signbit(*read("Side (yd)", "0 L", Reading::side, "yd")));
  side("1.2e1", 12);
  side("1,200.5e-2", 12.005);
}

TEST_CASE("thousands in threes, whatever stands between them", "[shots]") {
  const auto spin = [](const std::string& cell, double expected) {
    check_cell("Spin", cell, Reading::spin, "rpm", expected);
  };
  for (const char* cell : {"2 350", "2'350", "2\u00a0350", "2\u202f350", "2\u2009350", "2\u2019350", "+2 350",
                           "2 350 rpm", "2'350,0", "2 350.0"})
    spin(cell, 2350);
  spin("2 350,5", 2350.5);
  spin("9'350", 9350);
  check_cell("Side (mm)", "12 350 L", Reading::side, "mm", -12350);
  for (const char* cell :
       {"2 35", "2 3500", "2350 350", "2  350", "2' 350", "0 350", "2 350'000 1", "1.5 200", "2 350 35"})
    check_unreadable("Spin", cell, "'");
}

TEST_CASE("a number that the decimals alone could tell is refused, with both ways to read it", "[shots]") {
  const ColumnMap words = built_in_columns();
  const auto spin = [&](std::string_view text, const ReadOptions& options = {}) {
    return std::round(unit("rpm").from_si(*read_shots(text, words, options).shots.at(0).at(Reading::spin)) * 1e6) / 1e6;
  };
  for (const char* text : {"Spin\n2.650\n2400\n", "Spin,Attack\n2.650,-3\n", "Spin,Attack\n2.650,-3.2\n",
                           "Spin;Attack\n2.650;-3\n", "Spin\tAttack\n2400\t-3.2\n2.650\t1\n"}) {
    INFO(text);
    CHECK_THROWS_WITH(spin(text),
                      Contains("column 'Spin': '2.650' may be 2.65 with decimal point or 2650 with decimal comma") &&
                          Contains("--decimal"));
  }
  for (const char* text : {"Spin;Attack\n2,650;-3\n", "Spin;Attack\n2,650;-3,2\n"}) {
    INFO(text);
    CHECK_THROWS_WITH(spin(text), Contains("'2,650' may be 2650 with decimal point or 2.65 with decimal comma"));
  }
  CHECK(spin("Spin\n3.650\n", {.decimal = ','}) == 3650);
  CHECK(spin("Spin;Launch\n3650.5;12.125\n") == 3650.5);
  // What its size tells is no riddle: 118.250 mph groups no thousands, nor does a smash.
  const ShotList list = read_shots("Ball Speed (mph);Attack;Smash;Spin\n118.250;-4.125;1.450;2650\n", words);
  CHECK(std::abs(unit("mph").from_si(*list.shots.at(0).at(Reading::ball_speed)) - 118.25) < 1e-9);
  const ShotList comma = read_shots("Ball Speed (mph);Attack;Smash;Spin\n118,250;-4,125;1,450;2650\n", words);
  CHECK(comma.shots.at(0).values == list.shots.at(0).values);
}

TEST_CASE("every pair of words for a sign", "[shots]") {
  check_cell("Toe (mm)", "5 heel", Reading::toe, "mm", -5);
  check_cell("Toe (mm)", "5 T", Reading::toe, "mm", 5);
  check_cell("High (mm)", "3 low", Reading::high, "mm", -3);
  check_cell("High (mm)", "H 3", Reading::high, "mm", 3);
  check_cell("Attack", "3.2 down", Reading::attack, "deg", -3.2);
  check_cell("Attack", "up 3.2", Reading::attack, "deg", 3.2);
  check_cell("Attack", "3.2\xC2\xB0 D", Reading::attack, "deg", -3.2);
  check_cell("Low Point (in)", "4 in behind", Reading::low_point, "in", -4);
  check_cell("Low Point (in)", "4 A", Reading::low_point, "in", 4);
  check_cell("Path", "2L", Reading::path, "deg", -2);
  check_cell("Face", "1.5\xC2\xB0R", Reading::face, "deg", 1.5);
  check_cell("Spin Axis", "12 L", Reading::tilt, "deg", -12);
}

TEST_CASE("units in the cell", "[shots]") {
  check_cell("Ball Speed", "132 mph", Reading::ball_speed, "mph", 132);
  check_cell("Ball Speed", "212km/h", Reading::ball_speed, "km/h", 212);
  check_cell("Ball Speed (mph)", "132mph", Reading::ball_speed, "mph", 132);
  check_cell("Smash", "148%", Reading::smash, "%", 148);
  std::string reason;
  CHECK_FALSE(read("Ball Speed (mph)", "60 m/s", Reading::ball_speed, "mph", &reason));
  CHECK_THAT(reason, Contains("'60 m/s' is in another unit than the column (mph)"));
}

TEST_CASE("cells that cannot be read set the shot aside and say why", "[shots]") {
  check_unreadable("Side (yd)", "abc", "column 'Side (yd)': 'abc' is not a number");
  check_unreadable("Side (yd)", "-12 L", "'-12 L' has both a sign and a side");
  check_unreadable("Side (yd)", "L 12 R", "names a side twice");
  check_unreadable("Side (yd)", "12 rpm", "'rpm' after its number, which is no unit of length");
  check_unreadable("Side (yd)", "about 12", "neither a sign nor a side");
  check_unreadable("Side (yd)", "1.2.3", "is not a number");
  check_unreadable("Side (yd)", "12 to 14", "no unit of length");
  check_unreadable("Side (yd)", "inf", "is not a number");
  check_unreadable("Side (yd)", "1e999", "is not a number");
  check_unreadable("Side (yd)", "0x12", "no unit");
  check_unreadable("Side (yd)", "12e", "no unit");
  check_unreadable("Side (yd)", "- 5", "neither a sign nor a side");
}

TEST_CASE("cells that stand for no reading", "[shots]") {
  const ColumnMap words = built_in_columns();
  for (const char* cell : {"", "-", "--", "n/a", "N/A", "NaN", "null", "\xE2\x80\x94", "?"}) {
    INFO("'" << cell << "'");
    const ShotList list = read_shots(std::string("Carry (yd),Side (yd)\n200,") + cell + "\n", words);
    REQUIRE(list.shots.size() == 1);
    CHECK_FALSE(list.shots[0].at(Reading::side));
    CHECK(list.shots[0].at(Reading::carry));
  }
}

TEST_CASE("decimal comma and grouped thousands", "[shots]") {
  const ColumnMap words = built_in_columns();
  const auto spin_and_launch = [&](std::string_view text, const ReadOptions& options = {}) {
    const ShotList list = read_shots(text, words, options);
    INFO(text);
    REQUIRE(list.shots.size() == 1);
    return std::pair(std::round(unit("rpm").from_si(*list.shots[0].at(Reading::spin)) * 1e6) / 1e6,
                     std::round(unit("deg").from_si(*list.shots[0].at(Reading::launch)) * 1e6) / 1e6);
  };
  CHECK(spin_and_launch("Spin;Launch\n2650;12,5\n") == std::pair(2650.0, 12.5));
  CHECK(spin_and_launch("Spin;Launch\n2.650;12,5\n") == std::pair(2650.0, 12.5));
  CHECK(spin_and_launch("Spin;Launch\n2,650;12.5\n") == std::pair(2650.0, 12.5));
  CHECK(spin_and_launch("Spin,Launch\n\"2,650\",12\n") == std::pair(2650.0, 12.0));
  CHECK(spin_and_launch("Spin,Launch\n\"2650\",\"12,5\"\n") == std::pair(2650.0, 12.5));
  CHECK(spin_and_launch("Spin\tLaunch\n2650,25\t12\n") == std::pair(2650.25, 12.0));
  CHECK(spin_and_launch("Spin;Launch\n2650;0,125\n") == std::pair(2650.0, 0.125));  // no thousands begin with 0
  CHECK(spin_and_launch("Spin;Launch\n1.234,5;12\n") == std::pair(1234.5, 12.0));
  // Nothing in the file tells, and guessing would be out by a thousand.
  CHECK_THROWS_WITH(spin_and_launch("Spin;Launch\n2,650;12\n"), Contains("line 2") && Contains("--decimal"));
  CHECK(spin_and_launch("Spin;Launch\n2,650;12\n", {.decimal = '.'}) == std::pair(2650.0, 12.0));
  CHECK_THROWS_WITH(read_shots("Spin;Launch\n2650;12.5\n2650;12,5\n", words),
                    Contains("line 2 has a decimal point, line 3"));
  CHECK_THROWS_AS(read_shots("Spin;Launch\n2650;12.5\n", words, {.decimal = ';'}), InputError);
}
