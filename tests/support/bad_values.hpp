// Bad input, one field at a time.
#pragma once

#include <catch2/catch.hpp>
#include <limits>
#include <string>

#include "core/traps.hpp"
#include "loftwright/core/error.hpp"

namespace loftwright::test {

// `use` is called with a good input whose field `field` is, in turn, NaN, infinite, and just outside [low, high] (SI):
// each must be an InputError that names `named`; both ends themselves must be taken.
template <class Input, class Use>
void check_field(const Input& good, double Input::*field, const std::string& named, double low, double high,
                 Use&& use) {
  const WithoutTraps here;
  INFO(named << ", allowed " << low << " to " << high);
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  // A thousandth of the range outside; a hair inside, where a conversion of units may round.
  const double beyond = 1e-3 * (high - low), hair = 1e-12 * (high - low);
  for (const double bad :
       {std::numeric_limits<double>::quiet_NaN(), kInfinity, -kInfinity, low - beyond, high + beyond}) {
    Input input = good;
    input.*field = bad;
    INFO("value " << bad);
    try {
      use(input);
      FAIL_CHECK("taken without an error");
    } catch (const InputError& error) {
      INFO("message: " << error.what());
      CHECK(std::string(error.what()).find(named) != std::string::npos);
      CHECK(std::string(error.what()).find("allowed: ") != std::string::npos);
    }
  }
  for (const double end : {low + hair, high - hair}) {
    Input input = good;
    input.*field = end;
    INFO("value " << end);
    CHECK_NOTHROW(use(input));
  }
}

}  // namespace loftwright::test
