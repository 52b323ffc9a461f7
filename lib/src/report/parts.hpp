// Words that several kinds of sentences share.
#pragma once

#include <string>

#include "loftwright/report/numbers.hpp"

namespace loftwright {

// "12.5 deg": the same in either system.
inline std::string degrees(double radians, Sign sign = Sign::minus_only) { return quantity(Shown::angle, radians, UnitSystem::yards, sign); }

}  // namespace loftwright
