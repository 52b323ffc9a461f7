#include "loftwright/core/power_law.hpp"

namespace loftwright {

// Taylor's series about the middle, its fourth power given to the lower ones as Chebyshev does: on -h .. h, d^4 is
// h^2 d^2 - h^4 / 8 to within h^4 / 8.
PowerLaw::Table::Table(double p) {
  constexpr double kHalf = 0.5 / kPieces;
  for (std::uint64_t i = 0; i < kPieces; ++i) {
    const double mid = middle(i), c0 = std::pow(mid, p), c1 = c0 * p / mid, c2 = c1 * (p - 1.0) / (2.0 * mid),
                 c3 = c2 * (p - 2.0) / (3.0 * mid), c4 = c3 * (p - 3.0) / (4.0 * mid);
    pieces_[i] = {c0 - c4 * kHalf * kHalf * kHalf * kHalf / 8.0, c1, c2 + c4 * kHalf * kHalf, c3};
  }
  for (std::uint64_t i = 0; i < kOctaves; ++i) octaves_[i] = std::exp2(p * (static_cast<double>(i) - kOctaves / 2));
}

}  // namespace loftwright
