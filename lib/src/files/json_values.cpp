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
  for (std::size_t at = 0; at < json.size();) {
    std::size_t end = at + 1;
    if (json[at] == '"') {
      while (json[end] != '"') end += json[end] == '\\' ? 2 : 1;
      ++end;
    } else if (json[at] == '-' || (json[at] >= '0' && json[at] <= '9')) {
      end = std::min(json.find_first_not_of("0123456789.eE+-", at), json.size());
    }
    const std::string_view token = json.substr(at, end - at);
    const bool is_long =
        token.size() > 12 && token.front() != '"' && token.find_first_of(".eE") != std::string_view::npos;
    out += is_long ? fmt::format("{:.12g}", *parse_number(token)) : std::string(token);
    at = end;
  }
  return out;
}

}  // namespace

OrderedJson parsed(std::string_view text) { return OrderedJson::parse(text); }

std::string text_of(const OrderedJson& json) {
  return with_twelve_digits(json.dump(2, ' ', false, OrderedJson::error_handler_t::replace)) + "\n";
}

std::string dumped(const OrderedJson& json, int indent) { return with_twelve_digits(json.dump(indent)); }

}  // namespace loftwright
