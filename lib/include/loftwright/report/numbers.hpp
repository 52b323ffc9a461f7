/// @file
/// Numbers for people: in the units they use, with as many digits as mean something.
#pragma once

#include <string>
#include <string_view>

#include "loftwright/core/quantity.hpp"
#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shots/reading.hpp"

namespace loftwright {

/// Always to be written with its sign, or only when negative.
enum class Sign { minus_only, always };

std::string_view unit_shown(Shown what, UnitSystem units);  ///< "yd"; "" for a factor

double step_shown(
    Shown what);  ///< the least difference that a number shows, in its unit: 0.1 where there is one decimal

/// "182", "-4.0", "+2.5"; never "-0". `si` must be finite; throws std::logic_error otherwise: no reader sees a NaN.
std::string number(Shown what, double si, UnitSystem units, Sign sign = Sign::minus_only);

/// The same with its unit: "182 yd".
std::string quantity(Shown what, double si, UnitSystem units, Sign sign = Sign::minus_only);

/// Whether the number reads 0, 0.0, ...
bool reads_as_zero(Shown what, double si, UnitSystem units);

/// How a quantity that limits are set on is shown.
Shown shown_as(Limited quantity);

/// How a reading of a shot is shown, and how a difference or a scatter of such readings.
Shown shown_as(Reading reading);
Shown difference_shown_as(Reading reading);  ///< likewise

}  // namespace loftwright
