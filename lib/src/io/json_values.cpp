#include "io/json_values.hpp"

#include <fmt/format.h>

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

std::string text_of(const OrderedJson& json) {
  return json.dump(2, ' ', false, OrderedJson::error_handler_t::replace) + "\n";
}

}  // namespace loftwright
