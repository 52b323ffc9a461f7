/// @file
/// What each number of the program is, once: its key, its title, which way is plus, what it may be, what is usual, and
/// how people type and see it. Whatever reads, checks, writes, shows or documents a quantity takes it from this table.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "loftwright/core/detail/enum_array.hpp"
#include "loftwright/core/units.hpp"

namespace loftwright {

/// Both ends in `unit`, a symbol of the units table; empty for a bare number.
struct Range {
  double low = 0.0;            ///< [unit]
  double high = 0.0;           ///< [unit]
  std::string_view unit = "";  ///< a symbol of the units table

  constexpr bool known() const { return low < high; }  ///< whether anything is said
};
double low_of(const Range& range);          ///< [SI]
double high_of(const Range& range);         ///< [SI]
bool holds(const Range& range, double si);  ///< ends and what rounding makes of them included

/// What a number on the screen is. It decides the unit and how many decimals mean something.
enum class Shown {
  distance,     ///< carry, total, run, side: whole
  gain,         ///< a difference of distances under the same model: one decimal
  height,       ///< apex: ft or m, whole
  speed,        ///< club, ball, wind: one decimal
  speed_cost,   ///< club speed for a degree of attack: two decimals
  angle,        ///< deg, one decimal
  spin,         ///< rpm, to the nearest 10
  at_address,   ///< low point, ball position, tee: in or cm, one decimal
  on_face,      ///< strike point: mm
  radius,       ///< of the arc: ft or m, two decimals
  factor,       ///< smash, what a model is multiplied by: two decimals, no unit
  coefficient,  ///< what is added to a coefficient of restitution: three decimals, no unit
  time,         ///< s, one decimal
  temperature,  ///< F or C, whole
};
/// How such a number is shown.
struct Style {
  Shown what;               ///< the kind of number
  std::string_view yards;   ///< symbol of the unit in that system
  std::string_view metres;  ///< likewise
  int decimals;             ///< shown, in that unit
  double step = 0.0;        ///< in that unit, for what is rounded more coarsely than a decimal; 0: decimals alone
};
/// One for each, in the order of Shown.
inline constexpr std::array kStyles{
    Style{Shown::distance, "yd", "m", 0},      Style{Shown::gain, "yd", "m", 1},
    Style{Shown::height, "ft", "m", 0},        Style{Shown::speed, "mph", "m/s", 1},
    Style{Shown::speed_cost, "mph", "m/s", 2}, Style{Shown::angle, "deg", "deg", 1},
    Style{Shown::spin, "rpm", "rpm", 0, 10.0}, Style{Shown::at_address, "in", "cm", 1},
    Style{Shown::on_face, "mm", "mm", 0},      Style{Shown::radius, "ft", "m", 2},
    Style{Shown::factor, "", "", 2},           Style{Shown::coefficient, "", "", 3},
    Style{Shown::time, "s", "s", 1},           Style{Shown::temperature, "F", "C", 0},
};

/// Every number that is typed, read, kept or shown.
enum class Quantity {
  // A shot: Reading (shots/reading.hpp) has these in this order.
  club_speed,
  attack,
  path,
  face,
  dynamic_loft,
  swing_direction,
  low_point,
  toe,
  high,
  spin_loft,
  ball_speed,
  launch,
  azimuth,
  spin,
  tilt,
  smash,
  carry,
  total,
  side,
  apex,
  landing,
  // The club and the swing.
  face_to_path,
  loft,
  plane,
  radius,
  sleeve_turn,
  face_per_loft,
  follow,
  speed_per_attack,
  effort,
  effort_per_attack,
  // Ball, turf and weather.
  altitude,
  pressure,
  temperature,
  humidity,
  wind,
  wind_from,
  wind_height,
  // What is asked.
  worthwhile,
  price,
  fairway,
  measured_shots,
};

/// A row of the table.
struct QuantityInfo {
  Quantity quantity;         ///< which
  std::string_view key;      ///< in files, answers and, with dashes, options: "club_speed"
  std::string_view title;    ///< in sentences: "club speed"
  Dimension dimension;       ///< what its units are of
  std::string_view plus;     ///< which way is plus: "up"; empty: no sign
  std::string_view meaning;  ///< a line, for help and documents; its sign in words
  Range allowed;             ///< outside: an error. Its unit is that of answers
  Range usual;             ///< outside: look for a slip (common practice, estimates); not known() where nothing is said
  Shown shown;             ///< what it is on a screen
  std::string_view typed;  ///< the unit of a bare number on the command line
};

/// The table, in the order of Quantity.
// clang-format off
inline constexpr std::array kQuantities{
    QuantityInfo{Quantity::club_speed, "club_speed", "club speed", Dimension::speed, "", "speed of the clubhead just before impact",
                 {9.0, 72.0, "m/s"}, {50.0, 125.0, "mph"}, Shown::speed, "mph"},
    QuantityInfo{Quantity::attack, "attack", "attack", Dimension::angle, "up", "attack angle: up positive, down negative",
                 {-20.0, 20.0, "deg"}, {-10.0, 8.0, "deg"}, Shown::angle, "deg"},
    QuantityInfo{Quantity::path, "path", "path", Dimension::angle, "right of target", "club path: right of the target positive",
                 {-30.0, 30.0, "deg"}, {-15.0, 15.0, "deg"}, Shown::angle, "deg"},
    QuantityInfo{Quantity::face, "face", "face", Dimension::angle, "right of target", "face angle: right of the target positive",
                 {-30.0, 30.0, "deg"}, {-15.0, 15.0, "deg"}, Shown::angle, "deg"},
    QuantityInfo{Quantity::dynamic_loft, "dynamic_loft", "delivered loft", Dimension::angle, "", "delivered loft: that of the face as it meets the ball",
                 {-5.0, 60.0, "deg"}, {3.0, 30.0, "deg"}, Shown::angle, "deg"},
    QuantityInfo{Quantity::swing_direction, "swing_direction", "base line", Dimension::angle, "right of target",
                 "base line: where the swing plane meets the ground, right of the target positive", {-30.0, 30.0, "deg"}, {-20.0, 20.0, "deg"},
                 Shown::angle, "deg"},
    QuantityInfo{Quantity::low_point, "low_point", "low point", Dimension::length, "ahead of the ball",
                 "lowest point of the clubhead's arc: ahead of the ball positive, behind it negative", {-0.6, 0.6, "m"}, {-0.35, 0.35, "m"},
                 Shown::at_address, "in"},
    QuantityInfo{Quantity::toe, "toe", "toe", Dimension::length, "towards the toe", "strike point towards the toe (towards the heel: negative)",
                 {-50.0, 50.0, "mm"}, {-25.0, 25.0, "mm"}, Shown::on_face, "mm"},
    QuantityInfo{Quantity::high, "high", "high", Dimension::length, "up the face", "strike point up the face (low: negative)",
                 {-30.0, 30.0, "mm"}, {-20.0, 20.0, "mm"}, Shown::on_face, "mm"},
    QuantityInfo{Quantity::spin_loft, "spin_loft", "spin loft", Dimension::angle, "", "angle between the way of the clubhead and where the face points",
                 {0.0, 70.0, "deg"}, {4.0, 35.0, "deg"}, Shown::angle, "deg"},
    QuantityInfo{Quantity::ball_speed, "ball_speed", "ball speed", Dimension::speed, "", "speed of the ball just after impact",
                 {1.0, 110.0, "m/s"}, {30.0, 88.0, "m/s"}, Shown::speed, "mph"},
    QuantityInfo{Quantity::launch, "launch", "launch", Dimension::angle, "up", "how steeply it leaves, above the ground",
                 {-20.0, 80.0, "deg"}, {1.0, 28.0, "deg"}, Shown::angle, "deg"},
    QuantityInfo{Quantity::azimuth, "azimuth", "launch direction", Dimension::angle, "right of target",
                 "launch direction: how far right of the target it starts (left: negative)", {-60.0, 60.0, "deg"}, {-15.0, 15.0, "deg"}, Shown::angle, "deg"},
    QuantityInfo{Quantity::spin, "spin", "spin", Dimension::spin, "", "all of its spin", {0.0, 15000.0, "rpm"}, {800.0, 6500.0, "rpm"},
                 Shown::spin, "rpm"},
    QuantityInfo{Quantity::tilt, "tilt", "spin axis", Dimension::angle, "curves right",
                 "spin axis: how far it is tilted from level, positive curves the ball right",
                 {-180.0, 180.0, "deg"}, {-35.0, 35.0, "deg"}, Shown::angle, "deg"},
    // A 0.83 head (the rules' limit) of 0.24 kg, as heavy as any, gives 1.54; measuring error on top. Below: hardly a strike.
    QuantityInfo{Quantity::smash, "smash", "speed ratio", Dimension::ratio, "", "ball speed over club speed", {0.70, 1.56}, {1.10, 1.53}, Shown::factor, ""},
    // No golf shot lies outside, and no flight of what a delivery or launch may be comes near.
    QuantityInfo{Quantity::carry, "carry", "carry", Dimension::length, "", "where it lands, down the target line", {0.0, 450.0, "m"},
                 {60.0, 330.0, "m"}, Shown::distance, "yd"},
    QuantityInfo{Quantity::total, "total", "total", Dimension::length, "", "where it comes to rest, down the target line", {0.0, 550.0, "m"},
                 {70.0, 400.0, "m"}, Shown::distance, "yd"},
    QuantityInfo{Quantity::side, "side", "side", Dimension::length, "right of target", "off the target line: right positive", {-200.0, 200.0, "m"},
                 {-60.0, 60.0, "m"}, Shown::distance, "yd"},
    QuantityInfo{Quantity::apex, "apex", "apex", Dimension::length, "", "how high it flies", {0.0, 100.0, "m"}, {3.0, 55.0, "m"}, Shown::height, "ft"},
    QuantityInfo{Quantity::landing, "landing", "descent angle", Dimension::angle, "", "how steeply it lands", {0.0, 90.0, "deg"},
                 {8.0, 60.0, "deg"}, Shown::angle, "deg"},
    QuantityInfo{Quantity::face_to_path, "face_to_path", "face to path", Dimension::angle, "right of the path",
                 "face angle less club path: open positive for a right-hander", {-60.0, 60.0, "deg"}, {}, Shown::angle, "deg"},
    QuantityInfo{Quantity::loft, "loft", "club loft", Dimension::angle, "", "loft of the driver as it is marked", {4.0, 30.0, "deg"},
                 {7.0, 20.0, "deg"}, Shown::angle, "deg"},
    QuantityInfo{Quantity::plane, "plane", "plane", Dimension::angle, "", "how steep the swing plane stands near the ball, from the ground",
                 {20.0, 80.0, "deg"}, {}, Shown::angle, "deg"},
    QuantityInfo{Quantity::radius, "radius", "radius", Dimension::length, "", "radius of the circle the clubhead runs on near the ball",
                 {0.8, 2.5, "m"}, {}, Shown::radius, "m"},
    QuantityInfo{Quantity::sleeve_turn, "range", "turn of the sleeve", Dimension::angle, "more loft", "what the sleeve adds to the loft marked",
                 {-6.0, 6.0, "deg"}, {}, Shown::angle, "deg"},
    QuantityInfo{Quantity::face_per_loft, "face_per_loft", "face per loft", Dimension::ratio, "right, for a right-hander",
                 "degrees that the face turns with a degree of the sleeve's loft", {-3.0, 3.0}, {}, Shown::factor, ""},
    QuantityInfo{Quantity::follow, "follow", "follow", Dimension::ratio, "", "how much the delivered loft rises for each degree that the attack rises",
                 {0.0, 1.3}, {}, Shown::factor, ""},
    QuantityInfo{Quantity::speed_per_attack, "speed_per_attack_deg", "speed per attack", Dimension::speed, "faster",
                 "club speed gained with a degree of attack", {-2.0, 2.0, "m/s"}, {}, Shown::speed_cost, "mph"},
    QuantityInfo{Quantity::effort, "effort", "effort", Dimension::ratio, "", "on the coach's own scale", {0.0, 100.0}, {}, Shown::factor, ""},
    QuantityInfo{Quantity::effort_per_attack, "effort_per_attack_deg", "effort per attack", Dimension::ratio, "",
                 "of a degree of attack, on the scale of the options", {0.0, 100.0}, {}, Shown::factor, ""},
    // The top is where the standard pressure still lies within the pressure's range.
    QuantityInfo{Quantity::altitude, "altitude", "altitude", Dimension::length, "", "height above the sea", {-500.0, 5500.0, "m"}, {},
                 Shown::height, "m"},
    QuantityInfo{Quantity::pressure, "pressure", "pressure", Dimension::pressure, "",
                 "air pressure at the course itself (not reduced to sea level), in place of the altitude", {5e4, 1.1e5, "Pa"}, {}, Shown::factor, "hPa"},
    QuantityInfo{Quantity::temperature, "temperature", "temperature", Dimension::temperature, "", "air temperature", {-40.0, 55.0, "C"}, {},
                 Shown::temperature, "C"},
    QuantityInfo{Quantity::humidity, "humidity", "humidity", Dimension::ratio, "", "relative humidity", {0.0, 100.0, "%"}, {}, Shown::factor, "%"},
    QuantityInfo{Quantity::wind, "wind", "wind", Dimension::speed, "", "wind speed", {0.0, 30.0, "m/s"}, {}, Shown::speed, "mph"},
    QuantityInfo{Quantity::wind_from, "wind_from", "bearing of the wind", Dimension::angle, "right of target",
                 "where the wind blows from: 0 the target, 90 deg the right, 180 deg behind", {-360.0, 360.0, "deg"}, {}, Shown::angle, "deg"},
    // From an anemometer in the hand to where the laws of the ground end (estimates).
    QuantityInfo{Quantity::wind_height, "wind_height", "height of the wind", Dimension::length, "", "height at which that wind was measured",
                 {1.0, 100.0, "m"}, {}, Shown::height, "m"},
    QuantityInfo{Quantity::worthwhile, "worthwhile", "worthwhile difference", Dimension::length, "", "the smallest change that matters",
                 {0.0, 50.0, "m"}, {}, Shown::gain, "yd"},
    // Nothing is free (half a yard); a gain of the most is always worth a change.
    QuantityInfo{Quantity::price, "price", "price", Dimension::length, "", "what a change must gain to be worth it", {0.4572, 50.0, "m"}, {},
                 Shown::gain, "yd"},
    QuantityInfo{Quantity::fairway, "fairway", "fairway", Dimension::length, "", "its width", {5.0, 150.0, "m"}, {}, Shown::distance, "yd"},
    QuantityInfo{Quantity::measured_shots, "measured_shots", "measured shots", Dimension::ratio, "", "drives that the delivery is the mean of",
                 {1.0, 10000.0}, {}, Shown::factor, ""},
};
// clang-format on

constexpr const QuantityInfo& about(Quantity quantity) { return kQuantities[index_of(quantity)]; }  ///< its row

/// A bare number rather than a number with a unit.
constexpr bool is_bare(const QuantityInfo& info) {
  return info.dimension == Dimension::ratio && info.allowed.unit.empty();
}

/// Throws InputError unless `si` is finite and in the allowed range. `name` is for the message, the title when empty.
void check(Quantity quantity, double si, std::string_view name = {});
/// The same for any number and range.
void check(std::string_view name, double si, const Range& allowed);

}  // namespace loftwright
