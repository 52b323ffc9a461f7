// Between two drives: which change made which part of the yards. Shapley shares over six factors, each switched from its
// value before to its value after in every order; they add up to the whole change exactly.
#pragma once

#include <array>
#include <string_view>
#include <vector>

#include "loftwright/shot/shot.hpp"

namespace loftwright {

enum class Factor {
  club_speed,
  attack,
  loft,        // dynamic loft, as delivered
  strike,      // toe and high
  direction,   // path and face
  conditions,  // head, ball, air, wind and turf
};
inline constexpr std::size_t kFactors = 6;
std::string_view key_of(Factor factor);    // "club_speed", ...
std::string_view title_of(Factor factor);  // "club speed", ...

struct DriveCase {
  Delivery delivery;  // the player's own hand
  Setting setting;
};

struct FactorShare {
  Factor factor;
  double carry;  // [m]
  double total;  // [m]
};

// 64 drives. In the order of Factor; a factor that did not change has shares of exactly zero.
std::array<FactorShare, kFactors> shares_of_change(const DriveCase& before, const DriveCase& after, Handed handed,
                                                   double tolerance = kFlightTolerance);

}  // namespace loftwright
