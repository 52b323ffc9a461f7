// A player's scatter: how one drive's delivery deviates from the mean, quantities moving together as they are correlated.
#pragma once

#include <array>

#include "loftwright/advise/pupil.hpp"

namespace loftwright {

// What each quantity of Spread moves.
inline constexpr std::array<double Delivery::*, kSpreadQuantities> kSpreadOf{
    &Delivery::club_speed, &Delivery::attack, &Delivery::path, &Delivery::face, &Delivery::dynamic_loft, &Delivery::toe, &Delivery::high};

class Scatter {
 public:
  // The pupil's spread, or the usual one. Throws InputError when its correlations cannot all hold together.
  explicit Scatter(const Pupil& pupil);

  // From independent standard normal deviates: what is added to the delivery, the player's own hand.
  using Deviates = std::array<double, kSpreadQuantities>;
  Delivery at(const Deviates& z) const;

 private:
  double root_[kSpreadQuantities][kSpreadQuantities] = {};  // standard deviations times the Cholesky root of the correlations
};

}  // namespace loftwright
