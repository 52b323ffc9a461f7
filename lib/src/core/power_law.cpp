#include "loftwright/core/detail/power_law.hpp"

namespace loftwright {

// Taylor's series about the middle, its fourth power given to the lower ones as Chebyshev does: on -h .. h, d^4 is
// h^2 d^2 - h^4 / 8 to within h^4 / 8.
std::array<double, 4> PowerLaw::cubic(double p, double middle, double half) {
  const double c0 = std::pow(middle, p), c1 = c0 * p / middle, c2 = c1 * (p - 1.0) / (2.0 * middle),
               c3 = c2 * (p - 2.0) / (3.0 * middle), c4 = c3 * (p - 3.0) / (4.0 * middle);
  return {c0 - c4 * half * half * half * half / 8.0, c1, c2 + c4 * half * half, c3};
}

PowerLaw::Table::Table(double p) {
  for (std::uint64_t i = 0; i < kPieces; ++i) pieces_[i] = cubic(p, middle(i), 0.5 / kPieces);
  for (std::uint64_t i = 0; i < kOctaves; ++i) octaves_[i] = std::exp2(p * (static_cast<double>(i) - 0.5 * kOctaves));
}

}  // namespace loftwright
