// Words that several kinds of sentences share.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>

#include "loftwright/advise/advise.hpp"
#include "loftwright/report/numbers.hpp"

namespace loftwright {

// "12.5 deg": the same in either system.
inline std::string degrees(double radians, Sign sign = Sign::minus_only) {
  return quantity(Shown::angle, radians, UnitSystem::yards, sign);
}

// Of ten, how many: not all for less than 99 in a hundred, nor none for more than one.
inline int of_ten(double share) {
  constexpr double kHardlyAny = 0.01;
  const int count = static_cast<int>(std::lround(10.0 * share));
  return std::clamp(count, share > kHardlyAny ? 1 : 0, share < 1.0 - kHardlyAny ? 9 : 10);
}

// "ten more shots".
std::string_view measure_words(Measure measure);

}  // namespace loftwright
