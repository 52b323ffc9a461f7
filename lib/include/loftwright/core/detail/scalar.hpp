/// @file
/// What the physics asks of a scalar, so that one text of the model serves plain numbers (double), numbers that carry
/// their derivatives (Dual) and many numbers side by side (Lanes, in lib/src/core). Any further scalar needs: + - * /,
/// comparisons, the functions below, value_of, select.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <type_traits>

#include "loftwright/core/detail/elementary.hpp"

namespace loftwright {

/// A scalar's value without its derivatives.
inline double value_of(double x) { return x; }

/// What steers a computation in T: its values without derivatives.
template <class T>
using ValueOf = decltype(value_of(T()));

/// What a comparison in T gives, and one V for each number in a T. Both are many for lanes.
template <class T>
struct ScalarTraits {
  using Logic = bool;  ///< of a comparison
  /// Of a V.
  template <class V>
  using Each = V;
};
/// What a comparison of two T gives: bool, or one for each lane.
template <class T>
using LogicOf = typename ScalarTraits<T>::Logic;
/// A V, or one for each lane.
template <class T, class V>
using EachOf = typename ScalarTraits<T>::template Each<V>;

/// Whether it holds, or holds in any lane.
inline bool any(bool condition) { return condition; }

/// The same V for each number in a T; a count held in a scalar, for each.
template <class T, class V>
EachOf<T, V> each(const V& v) {
  EachOf<T, V> all;
  if constexpr (std::is_same_v<EachOf<T, V>, V>) {
    all = v;
  } else {
    all.fill(v);
  }
  return all;
}
/// A count as whole numbers.
inline int whole_numbers(double count) { return static_cast<int>(count); }

/// Both sides are computed, one is taken: keeps the physics free of jumps that a lane type could not follow.
template <class T>
T select(bool condition, const T& yes, const T& no) {
  return condition ? yes : no;
}

/// False for NaN and infinities, whatever the compiler may assume of them.
template <class T>
LogicOf<T> is_finite(const T& x) {
  return x - x == T(0.0);
}

/// The bits of a number.
constexpr std::uint64_t bits_of(double x) { return bit_cast<std::uint64_t>(x); }
/// The number with these bits.
constexpr double from_bits(std::uint64_t bits) { return bit_cast<double>(bits); }

/// Forward-mode derivative: a value and its gradient along N directions chosen by the caller with `variable`.
/// Exact to rounding; checked against central differences and closed forms in tests/unit/core.
template <std::size_t N>
struct Dual {
  double v = 0.0;             ///< value, in the unit of the quantity
  std::array<double, N> d{};  ///< derivative along each direction

  constexpr Dual() = default;
  /// A constant.
  constexpr Dual(double value) : v(value) {}  // NOLINT: constants mix freely with duals
  /// One that does not vary along the further directions.
  template <std::size_t M>
  requires(M < N) explicit constexpr Dual(const Dual<M>& narrower) : v(narrower.v) {
    for (std::size_t i = 0; i < M; ++i) d[i] = narrower.d[i];
  }
  /// What is derived by: 1 in its own direction.
  static constexpr Dual variable(double value, std::size_t direction) {
    Dual x(value);
    x.d[direction] = 1.0;
    return x;
  }

  /// f(x) with f'(x) known: the chain rule every function below goes through.
  friend constexpr Dual chain(const Dual& x, double f, double df) {
    Dual r(f);
    for (std::size_t i = 0; i < N; ++i) r.d[i] = df * x.d[i];
    return r;
  }

  /// @cond
  constexpr Dual& operator+=(const Dual& o) {
    v += o.v;
    for (std::size_t i = 0; i < N; ++i) d[i] += o.d[i];
    return *this;
  }
  constexpr Dual& operator-=(const Dual& o) {
    v -= o.v;
    for (std::size_t i = 0; i < N; ++i) d[i] -= o.d[i];
    return *this;
  }
  constexpr Dual& operator*=(const Dual& o) {
    for (std::size_t i = 0; i < N; ++i) d[i] = d[i] * o.v + v * o.d[i];
    v *= o.v;
    return *this;
  }
  constexpr Dual& operator/=(const Dual& o) {
    v /= o.v;
    for (std::size_t i = 0; i < N; ++i) d[i] = (d[i] - v * o.d[i]) / o.v;
    return *this;
  }
  friend constexpr Dual operator+(Dual a, const Dual& b) { return a += b; }
  friend constexpr Dual operator-(Dual a, const Dual& b) { return a -= b; }
  friend constexpr Dual operator*(Dual a, const Dual& b) { return a *= b; }
  friend constexpr Dual operator/(Dual a, const Dual& b) { return a /= b; }
  friend constexpr Dual operator+(Dual a, double b) {
    a.v += b;
    return a;
  }
  friend constexpr Dual operator-(Dual a, double b) {
    a.v -= b;
    return a;
  }
  friend constexpr Dual operator*(const Dual& a, double b) { return chain(a, a.v * b, b); }
  friend constexpr Dual operator/(const Dual& a, double b) { return chain(a, a.v / b, 1.0 / b); }
  friend constexpr Dual operator+(double a, Dual b) {
    b.v += a;
    return b;
  }
  friend constexpr Dual operator-(double a, const Dual& b) { return chain(b, a - b.v, -1.0); }
  friend constexpr Dual operator*(double a, const Dual& b) { return chain(b, a * b.v, a); }
  friend constexpr Dual operator/(double a, const Dual& b) { return chain(b, a / b.v, -a / (b.v * b.v)); }
  friend constexpr Dual operator-(const Dual& a) { return chain(a, -a.v, -1.0); }

  friend constexpr bool operator<(const Dual& a, const Dual& b) { return a.v < b.v; }
  friend constexpr bool operator>(const Dual& a, const Dual& b) { return a.v > b.v; }
  friend constexpr bool operator<=(const Dual& a, const Dual& b) { return a.v <= b.v; }
  friend constexpr bool operator>=(const Dual& a, const Dual& b) { return a.v >= b.v; }

  friend double value_of(const Dual& a) { return a.v; }
  friend Dual sqrt(const Dual& a) {
    const double r = std::sqrt(a.v);
    return chain(a, r, 0.5 / r);
  }
  friend Dual exponential(const Dual& a) {
    const double e = exponential(a.v);
    return chain(a, e, e);
  }
  friend Dual logarithm(const Dual& a) { return chain(a, logarithm(a.v), 1.0 / a.v); }
  friend SinCos<Dual> sin_cos(const Dual& a) {
    const auto [s, c] = sin_cos(a.v);
    return {chain(a, s, c), chain(a, c, -s)};
  }
  friend SinCos<Dual> sin_cos_of_small(const Dual& a) {
    const auto [s, c] = sin_cos_of_small(a.v);
    return {chain(a, s, c), chain(a, c, -s)};
  }
  friend Dual tan(const Dual& a) {
    const double t = std::tan(a.v);
    return chain(a, t, 1.0 + t * t);
  }
  friend Dual asin(const Dual& a) { return chain(a, std::asin(a.v), 1.0 / std::sqrt(1.0 - a.v * a.v)); }
  friend Dual acos(const Dual& a) { return chain(a, std::acos(a.v), -1.0 / std::sqrt(1.0 - a.v * a.v)); }
  friend Dual atan(const Dual& a) { return chain(a, std::atan(a.v), 1.0 / (1.0 + a.v * a.v)); }
  friend Dual arctangent(const Dual& y, const Dual& x) {
    const double squared = x.v * x.v + y.v * y.v;
    const double s = squared > 0.0 ? 1.0 / squared : 0.0;  // at the origin no direction is meant
    Dual r(arctangent(y.v, x.v));
    for (std::size_t i = 0; i < N; ++i) r.d[i] = (x.v * y.d[i] - y.v * x.d[i]) * s;
    return r;
  }
  /// Constant exponents only: the model has no other.
  friend Dual pow(const Dual& a, double n) {
    const double p = std::pow(a.v, n);
    return chain(a, p, a.v == 0.0 ? 0.0 : n * p / a.v);
  }
  /// @endcond
};

/// The lesser of two.
template <class T>
T min_of(const T& a, const T& b) {
  return select(b < a, b, a);
}
/// The greater of two.
template <class T>
T max_of(const T& a, const T& b) {
  return select(a < b, b, a);
}
/// Without its sign.
template <class T>
T abs_of(const T& a) {
  return select(a < T(0.0), -a, a);
}
inline double abs_of(double a) { return std::abs(a); }  ///< no branch: signs of errors cannot be predicted

/// sqrt whose derivative at exactly zero is zero, for lengths that may vanish (a square strike has no slip).
template <class T>
T length_of(const T& squared) {
  using std::sqrt;
  return select(squared > T(0.0), sqrt(max_of(squared, T(1e-300))), T(0.0));
}

/// sqrt(x) and a / sqrt(x) for x > 0. Division and product go on beside the root instead of after it.
template <class T>
struct RootAndQuotient {
  T root;      ///< sqrt(x)
  T quotient;  ///< a / sqrt(x)
};
/// Both of x > 0.
template <class T>
RootAndQuotient<T> root_and_quotient(const T& x, const T& a) {
  using std::sqrt;
  const T root = sqrt(x);
  return {root, (a * (1.0 / x)) * root};
}

/// x^(-1/5) to 3.5 %, for 1e-300 < x < 1e300: what a step-size controller needs, without a call of pow. The bits of a
/// double are nearly its logarithm: a fifth of them, off the middle.
template <class T>
T inverse_fifth_root(const T& x) {
  const auto fifth = (bits_of(x) >> 32) * std::uint64_t{0x33333333};
  return from_bits(0x4cb8999999999996 - fifth);  // 6/5 of the bits of 1, less 2^48
}

/// x > 0 with the first bits of its mantissa alone.
constexpr int kCoarseBits = 8;
/// See kCoarseBits.
template <class T>
T coarse(const T& x) {
  return from_bits(bits_of(x) & ~((std::uint64_t{1} << (52 - kCoarseBits)) - 1));
}

}  // namespace loftwright
