/// @file
/// Units at the edges: what people type ("82mph", "10.5deg") and what keys and column heads carry (club_speed_mph).
/// Inside the library a bare number is SI. Each unit is defined once, in one direction (to SI); the inverse divides.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "loftwright/core/error.hpp"

namespace loftwright {

/// What people count in.
enum class UnitSystem {
  yards,   ///< yd, ft for heights, mph, in at address
  metres,  ///< m, m/s, cm at address
};

/// What a unit measures.
enum class Dimension { speed, angle, length, mass, temperature, pressure, spin, ratio, inertia, time };

std::string_view name_of(Dimension dimension);  ///< "speed", "angle", ...

/// One unit, by what it is in SI.
struct Unit {
  std::string_view symbol;  ///< as people type it: "m/s"
  std::string_view suffix;  ///< in keys and column heads, without the underscore: "mps"
  Dimension dimension;      ///< what it measures
  double factor;            ///< SI per unit, exact where the unit is defined exactly
  double offset = 0.0;      ///< [SI] of the unit's zero; only temperatures have one

  double to_si(double value) const { return value * factor + offset; }      ///< of a value in this unit
  double from_si(double value) const { return (value - offset) / factor; }  ///< into this unit
};

/// The whole table: the one place units are defined.
std::span<const Unit> units();

/// By symbol or suffix or a common other spelling ("kph", "°", "degrees"), letter case ignored where that is not
/// ambiguous. Null when unknown.
const Unit* find_unit(std::string_view text);

/// The unit with exactly this key suffix, or null.
const Unit* find_suffix(std::string_view suffix);

/// The unit of that symbol or suffix; for names in code only: a name not in the table is a logic error.
const Unit& unit(std::string_view text);

/// "82mph", "82 mph", "-4deg", "10.5" (default_unit) -> SI. `name` is for messages. Throws InputError when there is no
/// number, the unit is unknown or of another dimension, or the number is not finite.
double parse_quantity(std::string_view name, std::string_view text, Dimension dimension, std::string_view default_unit);

/// A number alone, the same in every locale. Empty unless the whole text is one finite number.
std::optional<double> parse_number(std::string_view text);

}  // namespace loftwright
