#include "loftwright/core/error.hpp"

#include <fmt/format.h>

#include <cmath>

namespace loftwright {

void check_range(std::string_view name, double value, double low, double high, std::string_view unit) {
  if (std::isfinite(value) && value >= low && value <= high) return;
  throw InputError(fmt::format("{} is {:.6g}{}{}; allowed: {:.6g} to {:.6g}{}{}", name, value, unit.empty() ? "" : " ",
                               unit, low, high, unit.empty() ? "" : " ", unit));
}

}  // namespace loftwright
