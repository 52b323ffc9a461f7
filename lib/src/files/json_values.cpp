#include "files/json_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "loftwright/core/units.hpp"

namespace loftwright {

OrderedJson in(std::string_view symbol, double si) {
  const double value = symbol.empty() ? si : unit(symbol).from_si(si);
  if (!std::isfinite(value)) throw std::logic_error("a number for JSON is not finite");
  const double rounded = *parse_number(fmt::format("{:.12g}", value));
  return rounded == 0.0 ? 0.0 : rounded;  // no -0
}

namespace {

// The library writes some of our rounded numbers with 17 digits, which are the same number (its method is not always
// the shortest). Whole numbers, a seed among them, and texts are left as they are.
std::string with_twelve_digits(std::string_view json) {
  std::string out;
  out.reserve(json.size());
  std::size_t copied = 0;
  for (std::size_t at = 0; at < json.size();) {
    if (json[at] == '"') {
      do {
        at += json[at] == '\\' ? 2 : 1;
      } while (json[at] != '"');
      ++at;
    } else if (json[at] == '-' || (json[at] >= '0' && json[at] <= '9')) {
      const std::size_t end = std::min(json.find_first_not_of("0123456789.eE+-", at), json.size());
      const std::string_view number = json.substr(at, end - at);
      if (number.size() > 12 && number.find_first_of(".eE") != std::string_view::npos) {
        out += json.substr(copied, at - copied);
        out += fmt::format("{:.12g}", *parse_number(number));
        copied = end;
      }
      at = end;
    } else {
      ++at;
    }
  }
  return out += json.substr(copied);
}

}  // namespace

OrderedJson parsed(std::string_view text) { return OrderedJson::parse(text); }

std::string text_of(const OrderedJson& json) {
  return with_twelve_digits(json.dump(2, ' ', false, OrderedJson::error_handler_t::replace)) + "\n";
}

std::string dumped(const OrderedJson& json, int indent) { return with_twelve_digits(json.dump(indent)); }

}  // namespace loftwright
