// A player's scatter: how one drive's delivery deviates from the mean, quantities moving together as they are
// correlated.
#pragma once

#include <Eigen/Cholesky>
#include <array>
#include <string>
#include <vector>

#include "loftwright/core/error.hpp"
#include "loftwright/pupil/pupil.hpp"

namespace loftwright {

// What each quantity of Spread moves.
inline constexpr std::array<double Delivery::*, kSpreadQuantities> kSpreadOf{
    &Delivery::club_speed,   &Delivery::attack, &Delivery::path, &Delivery::face,
    &Delivery::dynamic_loft, &Delivery::toe,    &Delivery::high};

// Standard deviations times the Cholesky root of their correlations: what independent deviates are multiplied by.
// Throws InputError, which says what they are of, when they cannot all hold together.
template <std::size_t N>
std::array<std::array<double, N>, N> root_of(const std::array<double, N>& sd,
                                             const std::vector<Spread::Correlation>& correlations,
                                             const std::string& what) {
  using Matrix = Eigen::Matrix<double, N, N>;
  Matrix together = Matrix::Identity();
  for (const auto& c : correlations) together(c.first, c.second) = together(c.second, c.first) = c.value;
  const Eigen::LLT<Matrix> cholesky(together);
  if (cholesky.info() != Eigen::Success) {
    throw InputError(what + ": these correlations cannot all hold together (their matrix is not positive definite)");
  }
  std::array<std::array<double, N>, N> root{};
  for (std::size_t i = 0; i < N; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      root[i][j] = sd[i] * cholesky.matrixL()(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
    }
  }
  return root;
}

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
