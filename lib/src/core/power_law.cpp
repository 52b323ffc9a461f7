#include "loftwright/core/power_law.hpp"

#include "loftwright/core/constants.hpp"

namespace loftwright {

PowerLaw::PowerLaw(double exponent) : exponent_(exponent) {
  for (std::uint64_t piece = 0; piece < kPieces; ++piece) {
    const double mid = middle((piece + kFirst) << kBelow);
    const double half = std::ldexp(0.5 / kPerOctave, static_cast<int>(piece / kPerOctave) - kOctaves);
    // Sums of T_k from the values at Chebyshev's nodes, then powers of t = d / half. Relative to the middle's value: the
    // sums stay small.
    double chebyshev[kTerms] = {};
    for (int node = 0; node < kTerms; ++node) {
      const double angle = kPi * (node + 0.5) / kTerms;
      const double value = std::expm1(exponent * std::log1p(half / mid * std::cos(angle)));
      for (int k = 0; k < kTerms; ++k) chebyshev[k] += (k == 0 ? 1.0 : 2.0) / kTerms * value * std::cos(k * angle);
    }
    double before[kTerms] = {1.0}, now[kTerms] = {0.0, 1.0};  // T_0 and T_1 as powers of t
    double powers[kTerms] = {chebyshev[0], chebyshev[1]};
    for (int k = 2; k < kTerms; ++k) {
      double next[kTerms] = {};
      for (int i = 0; i < kTerms; ++i) next[i] = (i > 0 ? 2.0 * now[i - 1] : 0.0) - before[i];
      for (int i = 0; i < kTerms; ++i) {
        powers[i] += chebyshev[k] * next[i];
        before[i] = now[i];
        now[i] = next[i];
      }
    }
    powers[0] += 1.0;
    double scale = std::pow(mid, exponent);
    for (int i = 0; i < kTerms; ++i, scale /= half) coefficients_[piece][static_cast<std::size_t>(i)] = scale * powers[i];
  }
}

}  // namespace loftwright
