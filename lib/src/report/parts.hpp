// Words that several kinds of sentences share.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include "loftwright/advise/advise.hpp"
#include "loftwright/report/numbers.hpp"

namespace loftwright {

// "12.5 deg": the same in either system.
inline std::string degrees(double radians, Sign sign = Sign::minus_only) {
  return quantity(Shown::angle, radians, UnitSystem::yards, sign);
}

// Of ten, how many: all and none only where the table says "over 99 %" and "under 1 %".
inline int of_ten(double share) {
  constexpr double kHardlyAny = 0.005;
  const int count = static_cast<int>(std::lround(10.0 * share));
  return std::clamp(count, share > kHardlyAny ? 1 : 0, share < 1.0 - kHardlyAny ? 9 : 10);
}

// "all go", "9 go", "1 goes", "none goes".
inline std::string of_ten_go(double share) {
  const int count = of_ten(share);
  if (count == 0) return "none goes";
  if (count == 1) return "1 goes";
  return count == 10 ? "all go" : fmt::format("{} go", count);
}

// "the 12.0 deg head, set to +1", "the club in hand, turned from 0 to +1", "a 13.5 deg driver".
std::string head_words(const ClubFit& fit);

// The same with what it makes: "the 12.0 deg head, set to +1: loft 13.0 deg, face 0.7 deg more closed".
std::string fit_words(const ClubFit& fit);

// The loft, and with a sleeve how it comes about: "13.0 deg (the 12.0 deg head, set to +1)".
std::string loft_words(double loft, const std::optional<ClubFit>& fit);

// Of a sleeve, what a setting makes: "the 12.0 deg head, set to +1, makes 13.0 deg of loft instead of 10.5 deg".
std::string setting_words(const ClubFit& fit, double loft_now);

// The club an answer is played with: "the 12.0 deg head, set to +1", "the club in hand at +1", "10.5 deg driver".
std::string club_words(const Strategy& s);

// What the best turn of the club in hand would give of what a driver to be bought gives. Empty where that is no
// question.
std::string own_turn_sentence(const Strategy& s, const Strategy& as_is, UnitSystem units);

// What to fit, and what it does to the direction. Empty where nothing is turned or bought.
std::string fit_sentence(const Strategy& s, const Strategy& as_is, UnitSystem units);

// "ten more shots".
std::string_view measure_words(Measure measure);

}  // namespace loftwright
