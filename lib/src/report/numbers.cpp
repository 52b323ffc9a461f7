#include "loftwright/report/numbers.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <stdexcept>

namespace loftwright {

namespace {

struct Style {
  Shown what;
  std::string_view yards;   // symbol of the unit in that system
  std::string_view metres;
  int decimals;
  double step = 0.0;        // in that unit, for what is rounded more coarsely than a decimal; 0: decimals alone
};

constexpr std::array kStyles{
    Style{Shown::distance, "yd", "m", 0},
    Style{Shown::gain, "yd", "m", 1},
    Style{Shown::height, "ft", "m", 0},
    Style{Shown::speed, "mph", "m/s", 1},
    Style{Shown::speed_cost, "mph", "m/s", 2},
    Style{Shown::angle, "deg", "deg", 1},
    Style{Shown::spin, "rpm", "rpm", 0, 10.0},
    Style{Shown::at_address, "in", "cm", 1},
    Style{Shown::on_face, "mm", "mm", 0},
    Style{Shown::radius, "ft", "m", 2},
    Style{Shown::factor, "", "", 2},
    Style{Shown::coefficient, "", "", 3},
    Style{Shown::time, "s", "s", 1},
    Style{Shown::temperature, "F", "C", 0},
};

const Style& style_of(Shown what) {
  for (const Style& style : kStyles) {
    if (style.what == what) return style;
  }
  throw std::logic_error("a kind of number without a style");
}

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

bool reads_as_zero(Shown what, double si, UnitSystem units) { return number(what, si, units).find_first_not_of("0.") == std::string::npos; }

Shown shown_as(Limited quantity) {
  switch (quantity) {
    case Limited::spin_loft:
    case Limited::launch:
    case Limited::landing_angle:
    case Limited::face_to_path: return Shown::angle;
    case Limited::spin: return Shown::spin;
    case Limited::apex: return Shown::height;
    case Limited::side:
    case Limited::carry: return Shown::distance;
  }
  throw std::logic_error("a limited quantity without a way to show it");
}

Shown shown_as(Reading reading) {
  switch (reading) {
    case Reading::club_speed:
    case Reading::ball_speed: return Shown::speed;
    case Reading::attack:
    case Reading::path:
    case Reading::face:
    case Reading::dynamic_loft:
    case Reading::swing_direction:
    case Reading::spin_loft:
    case Reading::launch:
    case Reading::azimuth:
    case Reading::tilt:
    case Reading::landing: return Shown::angle;
    case Reading::low_point: return Shown::at_address;
    case Reading::toe:
    case Reading::high: return Shown::on_face;
    case Reading::spin: return Shown::spin;
    case Reading::smash: return Shown::factor;
    case Reading::carry:
    case Reading::total:
    case Reading::side: return Shown::distance;
    case Reading::apex: return Shown::height;
  }
  throw std::logic_error("a reading without a way to show it");
}

Shown difference_shown_as(Reading reading) {
  const Shown shown = shown_as(reading);
  return shown == Shown::distance ? Shown::gain : shown == Shown::factor ? Shown::coefficient : shown;
}

}  // namespace loftwright
