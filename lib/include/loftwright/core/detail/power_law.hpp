/// @file
/// A quotient to a fixed power, for spin ratios: what std::pow gives, in a fraction of its time, because the exponent
/// is known beforehand and the power need not wait for the quotient.
#pragma once

#include <array>
#include <cmath>

#include "loftwright/core/detail/scalar.hpp"

namespace loftwright {

/// over / sqrt(under_squared), value and parts. Powers of the parts go on beside root and division instead of after
/// them.
template <class T>
struct Quotient {
  T value;          ///< the quotient
  T over;           ///< its dividend
  T under_squared;  ///< the square of its divisor

  /// A plain number: over 1.
  Quotient(const T& x) : value(x), over(x), under_squared(1.0) {}  // NOLINT: a number is a quotient too
  /// `x` is a / sqrt(b_squared), computed already.
  Quotient(const T& x, const T& a, const T& b_squared) : value(x), over(a), under_squared(b_squared) {}
};

/// Within 1e-12 of std::pow, relative, and 1e-13 for exponents up to 1 (tests/unit/core measures), where both parts lie
/// within 2^-16 .. 2^16; std::pow itself of the value outside, and 0 below 0, which a trial step may ask for. For
/// exponents of 0.05 .. 4.
class PowerLaw {
 public:
  /// [-] 0.05 .. 4
  PowerLaw(double exponent)  // NOLINT: stands for its exponent
      : exponent_(exponent), over_(exponent), under_(-0.5 * exponent) {}

  double exponent() const { return exponent_; }  ///< [-]
  /// The same exponent.
  friend bool operator==(const PowerLaw& a, const PowerLaw& b) { return a.exponent_ == b.exponent_; }

  /// scale q^exponent
  double times(double scale, const Quotient<double>& q) const {
    if (!over_.holds(q.over) || !under_.holds(q.under_squared)) [[unlikely]] {
      return q.value < 0.0 ? 0.0 : scale * std::pow(q.value, exponent_);
    }
    return scale * over_.octave(q.over) * over_.within(q.over) * under_.octave(q.under_squared) *
           under_.within(q.under_squared);
  }
  /// The same with its derivatives.
  template <std::size_t N>
  Dual<N> times(double scale, const Quotient<Dual<N>>& q) const {
    const double p = times(scale, Quotient<double>{q.value.v, q.over.v, q.under_squared.v});
    return chain(q.value, p, q.value.v == 0.0 ? 0.0 : exponent_ * p / q.value.v);
  }
  /// Lanes compute it from the quotient itself.
  template <class T>
  T times(double scale, const Quotient<T>& q) const {
    return scale * power(q.value, exponent_);
  }

 private:
  /// x^p near `middle`, a cubic in x - middle, which is at most `half`.
  static std::array<double, 4> cubic(double p, double middle, double half);

  /// m^p of a mantissa m in 1 .. 2, a cubic for each 512th of it, and 2^(e p) of an exponent e.
  class Table {
   public:
    explicit Table(double p);

    bool holds(double x) const { return (bits_of(x) >> 52) - kFirstOctave < kOctaves; }
    double octave(double x) const { return octaves_[(bits_of(x) >> 52) - kFirstOctave]; }
    double within(double x) const {
      const std::uint64_t mantissa = bits_of(x) & kMantissa;
      const double d = from_bits(kOne | mantissa) - middle(mantissa >> kBelow), d2 = d * d;
      const std::array<double, 4>& c = pieces_[mantissa >> kBelow];
      return (c[0] + c[1] * d) + d2 * (c[2] + c[3] * d);
    }

   private:
    static constexpr std::uint64_t kOne = bits_of(1.0), kMantissa = (std::uint64_t{1} << 52) - 1;
    static constexpr std::uint64_t kPieces = 512, kOctaves = 32, kFirstOctave = 1023 - kOctaves / 2;
    static constexpr int kBelow = 52 - 9;  ///< bits of the mantissa below a piece's
    static double middle(std::uint64_t piece) { return from_bits(kOne | (2 * piece + 1) << (kBelow - 1)); }

    std::array<std::array<double, 4>, kPieces> pieces_;  ///< of powers of the distance from the piece's middle
    std::array<double, kOctaves> octaves_;
  };

  double exponent_;
  Table over_, under_;
};

}  // namespace loftwright
