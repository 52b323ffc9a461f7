// A quantity as typed. The first byte chooses what it is of.
#include <fmt/format.h>

#include <cmath>
#include <iterator>

#include "loftwright/book/day.hpp"
#include "loftwright/core/units.hpp"
#include "target.hpp"

using namespace loftwright;
using namespace loftwright::fuzz;

namespace {

void check_number(std::string_view text) {
  const auto value = parse_number(text);
  must(!value || (std::isfinite(*value) && parse_number(fmt::format("{}", *value)) == value),
       "a number written and read again is the same");
}

void check_day(std::string_view text) {
  try {
    const auto day = parse_day(text);
    must(!day || text_of(*day) == text, "a day is written as it was read");
  } catch (const InputError&) {
  }
}

void check_quantity(std::string_view text, const Unit& bare) {
  try {
    const double si = parse_quantity("--value", text, bare.dimension, bare.symbol);
    must(std::isfinite(si), "a quantity is finite");
    const double typed = bare.from_si(si);
    if (!std::isfinite(typed)) return;  // it was typed in a larger unit
    const double again =
        parse_quantity("--value", fmt::format("{} {}", typed, bare.symbol), bare.dimension, bare.symbol);
    // Two roundings, and where zero degrees are not zero kelvins that of the sum.
    must(std::abs(again - si) <= 1e-15 * (2.0 * std::abs(si) + std::abs(bare.offset)),
         "a quantity written and read again is the same");
  } catch (const InputError& error) {
    must(*error.what() != '\0', "an error says something");
  }
}

}  // namespace

LOFTWRIGHT_FUZZ_TARGET(units)(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view text = text_of(data + 1, size - 1);
  check_number(text);
  check_day(text);
  find_suffix(text);
  check_quantity(text, units()[data[0] % std::size(units())]);
  return 0;
}
