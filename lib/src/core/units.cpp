#include "loftwright/core/units.hpp"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "loftwright/core/detail/constants.hpp"

namespace loftwright {

namespace {

constexpr double kFoot = 0.3048, kInch = 0.0254, kMile = 1609.344, kYard = 0.9144;  // [m] international, exact
constexpr double kPound = 0.45359237;                                               // [kg] exact
// Preferred unit of a dimension first.
constexpr std::array kUnits{
    Unit{"m/s", "mps", Dimension::speed, 1.0},
    Unit{"mph", "mph", Dimension::speed, kMile / 3600.0},
    Unit{"km/h", "kmh", Dimension::speed, 1.0 / 3.6},
    Unit{"ft/s", "fps", Dimension::speed, kFoot},
    Unit{"kn", "kn", Dimension::speed, 1852.0 / 3600.0},
    Unit{"rad", "rad", Dimension::angle, 1.0},
    Unit{"deg", "deg", Dimension::angle, kDegree},
    Unit{"m", "m", Dimension::length, 1.0},
    Unit{"cm", "cm", Dimension::length, 0.01},
    Unit{"mm", "mm", Dimension::length, 0.001},
    Unit{"in", "in", Dimension::length, kInch},
    Unit{"ft", "ft", Dimension::length, kFoot},
    Unit{"yd", "yd", Dimension::length, kYard},
    Unit{"kg", "kg", Dimension::mass, 1.0},
    Unit{"g", "g", Dimension::mass, 0.001},
    Unit{"oz", "oz", Dimension::mass, kPound / 16.0},
    Unit{"K", "k", Dimension::temperature, 1.0},
    Unit{"C", "c", Dimension::temperature, 1.0, kCelsiusZero},
    Unit{"F", "f", Dimension::temperature, 5.0 / 9.0, kCelsiusZero - 32.0 * 5.0 / 9.0},
    Unit{"Pa", "pa", Dimension::pressure, 1.0},
    Unit{"hPa", "hpa", Dimension::pressure, 100.0},
    Unit{"kPa", "kpa", Dimension::pressure, 1000.0},
    Unit{"mbar", "mbar", Dimension::pressure, 100.0},
    Unit{"inHg", "inhg", Dimension::pressure, 3386.389},  // conventional, 0 degC (NIST SP 811)
    Unit{"rad/s", "radps", Dimension::spin, 1.0},
    Unit{"rpm", "rpm", Dimension::spin, 2.0 * kPi / 60.0},
    Unit{"rev/s", "rps", Dimension::spin, 2.0 * kPi},
    Unit{"%", "pct", Dimension::ratio, 0.01},
    Unit{"kg m2", "kgm2", Dimension::inertia, 1.0},
    Unit{"g cm2", "gcm2", Dimension::inertia, 1e-7},
    Unit{"s", "s", Dimension::time, 1.0},
};

// Other spellings people type, for the symbol beside them. Lower case.
constexpr std::array<std::array<std::string_view, 2>, 26> kSpellings{{
    {"kph", "km/h"}, {"kmph", "km/h"}, {"mi/h", "mph"}, {"ftps", "ft/s"},  {"kt", "kn"},       {"kts", "kn"},
    {"knots", "kn"}, {"°", "deg"},     {"º", "deg"},    {"degree", "deg"}, {"degrees", "deg"}, {"\"", "in"},
    {"inch", "in"},  {"inches", "in"}, {"feet", "ft"},  {"foot", "ft"},    {"yard", "yd"},     {"yards", "yd"},
    {"yds", "yd"},   {"metres", "m"},  {"meters", "m"}, {"°c", "C"},       {"degc", "C"},      {"°f", "F"},
    {"degf", "F"},   {"percent", "%"},
}};

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::string_view trim(std::string_view text) {
  const auto is_space = [](char c) { return c == ' ' || c == '\t'; };
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

std::string symbols_of(Dimension dimension) {
  std::string out;
  for (const Unit& u : kUnits) {
    if (u.dimension == dimension) out += fmt::format("{}{}", out.empty() ? "" : ", ", u.symbol);
  }
  return out;
}

}  // namespace

std::string_view name_of(Dimension dimension) {
  switch (dimension) {
    case Dimension::speed: return "speed";
    case Dimension::angle: return "angle";
    case Dimension::length: return "length";
    case Dimension::mass: return "mass";
    case Dimension::temperature: return "temperature";
    case Dimension::pressure: return "pressure";
    case Dimension::spin: return "spin";
    case Dimension::ratio: return "ratio";
    case Dimension::inertia: return "moment of inertia";
    case Dimension::time: return "time";
  }
  return "";
}

std::span<const Unit> units() { return kUnits; }

const Unit* find_unit(std::string_view text) {
  text = trim(text);
  for (const Unit& u : kUnits) {
    if (u.symbol == text || u.suffix == text) return &u;
  }
  const std::string folded = lower(text);
  for (const Unit& u : kUnits) {
    if (lower(u.symbol) == folded || u.suffix == folded) return &u;
  }
  for (const auto& [spelling, symbol] : kSpellings) {
    if (spelling == folded) return find_unit(symbol);
  }
  return nullptr;
}

const Unit* find_suffix(std::string_view suffix) {
  const auto at = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& u) { return u.suffix == suffix; });
  return at == kUnits.end() ? nullptr : &*at;
}

const Unit& unit(std::string_view text) {
  const Unit* found = find_unit(text);
  if (!found) throw std::logic_error(fmt::format("no unit '{}' in the table", text));
  return *found;
}

std::optional<double> parse_number(std::string_view text) {
  text = trim(text);
  if (text.starts_with('+') && !text.starts_with("+-")) text.remove_prefix(1);
  double value = 0.0;
  const auto [end, error] = fast_float::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

double parse_quantity(std::string_view name, std::string_view text, Dimension dimension,
                      std::string_view default_unit) {
  const std::string_view whole = trim(text);
  std::string_view rest = whole;
  if (rest.starts_with('+') && rest.size() > 1 && rest[1] != '-') rest.remove_prefix(1);
  double value = 0.0;
  const auto [end, error] = fast_float::from_chars(rest.data(), rest.data() + rest.size(), value);
  if (error != std::errc{}) {
    throw InputError(
        fmt::format("{}: '{}' has no number; expected one with a unit, such as 10{}", name, whole, default_unit));
  }
  const auto finite = [&](double number) {
    if (!std::isfinite(number)) throw InputError(fmt::format("{}: '{}' is not a finite number", name, whole));
    return number;
  };
  value = finite(value);
  rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
  rest = trim(rest);
  const Unit* found = rest.empty() ? &unit(default_unit) : find_unit(rest);
  if (!found) {
    throw InputError(
        fmt::format("{}: '{}' has the unknown unit '{}'; allowed: {}", name, whole, rest, symbols_of(dimension)));
  }
  if (found->dimension != dimension) {
    throw InputError(fmt::format("{}: '{}' has a unit of {}; expected one of {}: {}", name, whole,
                                 name_of(found->dimension), name_of(dimension), symbols_of(dimension)));
  }
  return finite(found->to_si(value));  // 1e308 may be a number of inHg, and none of Pa
}

}  // namespace loftwright
