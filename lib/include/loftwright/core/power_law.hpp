// x to a fixed power for spin ratios: what std::pow gives, in a third of its time, because the exponent is known beforehand.
#pragma once

#include <array>
#include <cmath>

#include "loftwright/core/scalar.hpp"

namespace loftwright {

// Chebyshev interpolation in sixteenths of octaves between 2^-12 and 1, of degree 5: within 1e-11 of std::pow, relative
// (tests/unit/core measures); std::pow itself outside. For exponents of 0.05 .. 4.
class PowerLaw {
 public:
  PowerLaw(double exponent);  // NOLINT: stands for its exponent

  double exponent() const { return exponent_; }
  friend bool operator==(const PowerLaw& a, const PowerLaw& b) { return a.exponent_ == b.exponent_; }

  double operator()(double x) const {
    const std::uint64_t bits = bits_of(x);
    const std::uint64_t piece = (bits >> kBelow) - kFirst;
    if (piece >= kPieces) return std::pow(x, exponent_);
    const double d = x - middle(bits), d2 = d * d;
    const std::array<double, kTerms>& c = coefficients_[piece];
    return ((c[0] + c[1] * d) + d2 * (c[2] + c[3] * d)) + (d2 * d2) * (c[4] + c[5] * d);
  }
  template <std::size_t N>
  Dual<N> operator()(const Dual<N>& x) const {
    const double p = (*this)(x.v);
    return chain(x, p, x.v == 0.0 ? 0.0 : exponent_ * p / x.v);
  }
  // Lanes compute it: looking up a different piece for each costs more.
  template <class T>
  T operator()(const T& x) const {
    return power(x, exponent_);
  }

 private:
  static constexpr int kTerms = 6, kOctaves = 12, kPerOctave = 16, kBelow = 52 - 4;  // bits of the mantissa below a piece's
  static constexpr std::uint64_t kPieces = std::uint64_t{kOctaves} * kPerOctave, kFirst = std::uint64_t{1023 - kOctaves} * kPerOctave;
  static double middle(std::uint64_t bits) {
    return from_bits((bits & ~((std::uint64_t{1} << kBelow) - 1)) | (std::uint64_t{1} << (kBelow - 1)));
  }

  double exponent_;
  std::array<std::array<double, kTerms>, kPieces> coefficients_;  // of powers of the distance from the piece's middle
};

}  // namespace loftwright
