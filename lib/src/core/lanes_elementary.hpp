// Sines, arctangents, logarithms and powers of drives side by side, to single precision. As core/detail/elementary.hpp
// has them for doubles.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>

#include "core/lanes.hpp"
#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/detail/scalar.hpp"

namespace loftwright {

constexpr double kRound = 0x1.8p23;  // added and taken off again, leaves a whole number; in the bits below, before

// The polynomials below are in Chebyshev's points, found in 40 digits: nearly of least greatest error. All are even or
// odd. Here, for x within a quarter of pi: the sine within 1.4e-8 of itself, relative, the cosine within 1.1e-9, before
// rounding.
template <std::size_t N>
SinCos<Lanes<N>> sin_cos_of_small(const Lanes<N>& x) {
  const Lanes<N> z = x * x;
  return {x + (x * z) * (-0.1666666466 + z * (0.008332748038 - 0.0001958784052 * z)),
          (1.0 - 0.5 * z) + (z * z) * (0.04166666466 + z * (-0.00138883028 + 2.454789162e-5 * z))};
}

template <std::size_t N, class F>
[[gnu::noinline, gnu::cold]] Lanes<N> one_by_one(const F& f, const Lanes<N>& a) {
  return lanes_of<N>([&](std::size_t i) { return f(lane(a, i)); });
}

// A whole number of quarter turns taken off: what they are in three parts, the first two exact times any number asked
// for.
template <std::size_t N>
SinCos<Lanes<N>> sin_cos(const Lanes<N>& angle) {
  constexpr double kFarthest = 1e4;  // [rad] beyond, no angle is meant
  if (any(!(abs_of(angle) <= Lanes<N>(kFarthest)))) [[unlikely]] {
    return {one_by_one([](double x) { return std::sin(x); }, angle),
            one_by_one([](double x) { return std::cos(x); }, angle)};
  }
  const Lanes<N> rounded = angle * (2.0 / kPi) + kRound, quarters = rounded - kRound;
  const Lanes<N> x =
      ((angle - 0x1.92p+0 * quarters) - 0x1.fb4p-12 * quarters) - (0.5 * kPi - 0x1.92p+0 - 0x1.fb4p-12) * quarters;
  const LaneBits<N> count = bits_of(rounded);
  const auto [s, c] = sin_cos_of_small(x);
  const LaneLogic<N> odd = by_parts<LaneLogic<N>>(
      [](auto n) { return bit_cast<typename LaneLogic<N>::Parts::Vector>(n << 31) >> 31; }, count);
  return {from_bits(bits_of(select(odd, c, s)) ^ ((count >> 1) << 31)),
          from_bits(bits_of(select(odd, s, c)) ^ (((count + 1u) >> 1) << 31))};
}

// The lesser of the two over the greater, turned back by an eighth of a turn where it is steep; atan(x) / x within
// 8e-8, relative, before rounding.
template <std::size_t N>
Lanes<N> arctangent(const Lanes<N>& y, const Lanes<N>& x) {
  constexpr double kSteep = 0.41421356237309503;  // tan(pi / 8)
  const Lanes<N> rise = abs_of(y), run = abs_of(x);
  const LaneLogic<N> over = rise > run;
  const Lanes<N> less = select(over, run, rise), more = max_of(select(over, rise, run), Lanes<N>(1e-30));
  const LaneLogic<N> steep = less > kSteep * more;
  const Lanes<N> t = select(steep, less - more, less) / select(steep, less + more, more);
  const Lanes<N> z = t * t;
  const Lanes<N> atan =
      t + (t * z) * ((-0.3333328656 + 0.1999123774 * z) + (z * z) * (-0.1402414284 + 0.08520492036 * z));
  const Lanes<N> eighth = select(steep, atan + 0.25 * kPi, atan);
  const Lanes<N> quarter = select(over, 0.5 * kPi - eighth, eighth);
  const Lanes<N> half = select(x < Lanes<N>(0.0), kPi - quarter, quarter);
  return from_bits(bits_of(half) ^ (bits_of(y) & kSign));
}

template <std::size_t N>
Lanes<N> whole_to_lanes(const LaneBits<N>& n) {
  return by_parts<Lanes<N>>(
      [](auto x) {
        return __builtin_convertvector(bit_cast<typename LaneLogic<N>::Parts::Vector>(x),
                                       typename Lanes<N>::Parts::Vector);
      },
      n);
}

// Logarithm to base 2 of normal x > 0, and no number that is none of other x. x = 2^e m with m between the roots of 1/2
// and 2; log2 m = s P(s^2) with s = (m - 1) / (m + 1) within 1.2e-7, relative, before rounding.
template <std::size_t N>
Lanes<N> log2(const Lanes<N>& x) {
  const LaneBits<N> bits = bits_of(x);
  const LaneBits<N> e = by_parts<LaneBits<N>>(
      [](auto b) {
        constexpr std::uint32_t kRootHalf = 0x3f3504f3;
        using Signed = typename LaneLogic<N>::Parts::Vector;
        return bit_cast<decltype(b)>(bit_cast<Signed>(b - kRootHalf) >> 23);
      },
      bits);
  const Lanes<N> m = from_bits(bits - (e << 23));
  const Lanes<N> s = (m - 1.0) / (m + 1.0), z = s * s;
  return whole_to_lanes(e) + s * (2.885390422 + z * (0.9615889467 + 0.5957596069 * z));
}

template <std::size_t N>
Lanes<N> logarithm(const Lanes<N>& x) {
  return 0.69314718055994531 * log2(x);
}

// 2^x, held within 2^-126 .. 2^127; within 1e-7, relative, before rounding.
template <std::size_t N>
Lanes<N> power_of_two(const Lanes<N>& x) {
  const Lanes<N> exact = min_of(max_of(x, Lanes<N>(-126.0)), Lanes<N>(127.0));
  const Lanes<N> rounded = exact + kRound;
  const Lanes<N> f = exact - (rounded - kRound), f2 = f * f;
  const Lanes<N> two_to_f = ((1.000000075 + 0.693147188 * f) + f2 * (0.2402210749 + 0.05550357114 * f)) +
                            (f2 * f2) * (0.009676031918 + 0.001339086336 * f);
  return from_bits(bits_of(two_to_f) + (bits_of(rounded) << 23));
}
template <std::size_t N>
Lanes<N> exponential(const Lanes<N>& x) {
  return power_of_two(1.4426950408889634 * x);
}

// x^exponent for x > 0. Rounding of the logarithm: 1e-7 for each unit of it (tests/unit/core).
template <std::size_t N>
Lanes<N> power(const Lanes<N>& x, double exponent) {
  return power_of_two(exponent * log2(x));
}
template <std::size_t N>
Lanes<N> pow(const Lanes<N>& x, double exponent) {
  return power(x, exponent);
}

// As for doubles (core/detail/scalar.hpp).
template <std::size_t N>
Lanes<N> inverse_fifth_root(const Lanes<N>& x) {
  return from_bits(by_parts<LaneBits<N>>([](auto b) { return 0x4c2b3333u - b / 5; }, bits_of(x)));
}
template <std::size_t N>
Lanes<N> coarse(const Lanes<N>& x) {
  return from_bits(bits_of(x) & ~((std::uint32_t{1} << (23 - kCoarseBits)) - 1));
}

}  // namespace loftwright
