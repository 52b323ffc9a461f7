#include "loftwright/report/numbers.hpp"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

namespace loftwright {

namespace {

const Style& style_of(Shown what) { return kStyles[index_of(what)]; }

}  // namespace

std::string_view unit_shown(Shown what, UnitSystem units) {
  const Style& style = style_of(what);
  return units == UnitSystem::yards ? style.yards : style.metres;
}

double step_shown(Shown what) {
  const Style& style = style_of(what);
  return style.step > 0.0 ? style.step : std::pow(10.0, -style.decimals);
}

std::string number(Shown what, double si, UnitSystem units, Sign sign) {
  if (!std::isfinite(si)) throw std::logic_error("a number for people is not finite");
  const Style& style = style_of(what);
  const std::string_view symbol = unit_shown(what, units);
  double value = symbol.empty() ? si : unit(symbol).from_si(si);
  if (style.step > 0.0) value = std::round(value / style.step) * style.step;
  std::string text = fmt::format("{:.{}f}", std::abs(value), style.decimals);
  if (text.find_first_not_of("0.") == std::string::npos) return text;
  if (value < 0.0) return "-" + text;
  return sign == Sign::always ? "+" + text : text;
}

std::string quantity(Shown what, double si, UnitSystem units, Sign sign) {
  const std::string_view symbol = unit_shown(what, units);
  return number(what, si, units, sign) + (symbol.empty() ? "" : " ") + std::string(symbol);
}

bool reads_as_zero(Shown what, double si, UnitSystem units) {
  return number(what, si, units).find_first_not_of("0.") == std::string::npos;
}

Shown shown_as(Limited quantity) { return about(about(quantity).quantity).shown; }

Shown shown_as(Reading reading) { return about(quantity_of(reading)).shown; }

Shown difference_shown_as(Reading reading) {
  const Shown shown = shown_as(reading);
  return shown == Shown::distance ? Shown::gain : shown == Shown::factor ? Shown::coefficient : shown;
}

}  // namespace loftwright
