// A player's scatter: how one drive's delivery deviates from the mean, quantities moving together as they are
// correlated.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "loftwright/pupil/pupil.hpp"

namespace loftwright {

// What each quantity of Spread moves.
inline constexpr std::array<double Delivery::*, kSpreadQuantities> kSpreadOf{
    &Delivery::club_speed,   &Delivery::attack, &Delivery::path, &Delivery::face,
    &Delivery::dynamic_loft, &Delivery::toe,    &Delivery::high};

// Standard deviations times the Cholesky root of their correlations: what independent deviates are multiplied by.
// Throws InputError, which says what they are of, when they cannot all hold together. Of as many as there are
// quantities of Spread, and as there are tunables.
template <std::size_t N>
std::array<std::array<double, N>, N> root_of(const std::array<double, N>& sd,
                                             const std::vector<Spread::Correlation>& correlations,
                                             const std::string& what);

class Scatter {
 public:
  // The pupil's spread, or the usual one. Throws InputError when its correlations cannot all hold together.
  explicit Scatter(const Pupil& pupil);

  // From independent standard normal deviates: what is added to the delivery, the player's own hand. Of a left-hander
  // path and face turn the other way, so that a mirrored player has the mirrored drives.
  using Deviates = std::array<double, kSpreadQuantities>;
  Delivery at(const Deviates& z) const;
  bool any() const;  // false: every drive is the mean delivery

 private:
  bool left_;
  std::array<std::array<double, kSpreadQuantities>, kSpreadQuantities> root_;
};

}  // namespace loftwright
