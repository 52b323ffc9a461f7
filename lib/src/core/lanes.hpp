// N drives side by side: a scalar for the physics whose every operation acts on N numbers at once. Compilers' vector
// types (GCC, clang), so that one text serves every instruction set: the file that includes this is compiled once for each
// (lib/CMakeLists.txt). Why not a library: docs/decisions/0009-lanes.md. Elementary functions are glibc's vector ones
// where they exist (at most 4 units in the last place, glibc manual, Errors in Math Functions), else one lane at a time.
#pragma once

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>

#if defined(__SSE2__)
#include <immintrin.h>
#endif

#include "loftwright/core/scalar.hpp"

namespace loftwright {

#if defined(__AVX512F__)
constexpr std::size_t kNativeLanes = 8;
#elif defined(__AVX2__)
constexpr std::size_t kNativeLanes = 4;
#else
constexpr std::size_t kNativeLanes = 2;
#endif

// N of an element side by side, in two of the processor's vectors: they hide each other's waiting.
template <class Element, std::size_t N>
struct Pack {
  static_assert(N == 2 * kNativeLanes);
  using Vector [[gnu::vector_size(kNativeLanes * sizeof(Element))]] = Element;
  Vector low, high;
};

// f on the processor's vectors of its arguments. By name, not in a loop: GCC keeps an array of vectors in memory.
template <class To, class F, class... From>
To by_parts(const F& f, const From&... from) {
  return To::made_of(f(from.v.low...), f(from.v.high...));
}

template <std::size_t N>
struct LaneBits {
  using Parts = Pack<std::uint64_t, N>;
  Parts v;
  static LaneBits made_of(const typename Parts::Vector& low, const typename Parts::Vector& high) { return {{low, high}}; }

  friend LaneBits operator>>(const LaneBits& a, int n) { return by_parts<LaneBits>([n](auto x) { return x >> n; }, a); }
  friend LaneBits operator<<(const LaneBits& a, int n) { return by_parts<LaneBits>([n](auto x) { return x << n; }, a); }
  friend LaneBits operator*(const LaneBits& a, std::uint64_t b) { return by_parts<LaneBits>([b](auto x) { return x * b; }, a); }
  friend LaneBits operator+(const LaneBits& a, const LaneBits& b) { return by_parts<LaneBits>([](auto x, auto y) { return x + y; }, a, b); }
  friend LaneBits operator-(const LaneBits& a, const LaneBits& b) { return by_parts<LaneBits>([](auto x, auto y) { return x - y; }, a, b); }
  friend LaneBits operator+(const LaneBits& a, std::uint64_t b) { return by_parts<LaneBits>([b](auto x) { return x + b; }, a); }
  friend LaneBits operator-(std::uint64_t a, const LaneBits& b) { return by_parts<LaneBits>([a](auto y) { return a - y; }, b); }
};

// What a comparison gives: all ones or none in each lane.
template <std::size_t N>
struct LaneLogic {
  using Parts = Pack<std::int64_t, N>;
  Parts v{};
  static LaneLogic made_of(const typename Parts::Vector& low, const typename Parts::Vector& high) { return {{low, high}}; }

  friend LaneLogic operator&(const LaneLogic& a, const LaneLogic& b) { return by_parts<LaneLogic>([](auto x, auto y) { return x & y; }, a, b); }
  friend LaneLogic operator|(const LaneLogic& a, const LaneLogic& b) { return by_parts<LaneLogic>([](auto x, auto y) { return x | y; }, a, b); }
  friend LaneLogic operator!(const LaneLogic& a) { return by_parts<LaneLogic>([](auto x) { return ~x; }, a); }
};

template <std::size_t N>
struct Lanes {
  using Parts = Pack<double, N>;
  using Logic = LaneLogic<N>;
  Parts v{};

  Lanes() = default;
  Lanes(double all) : v{typename Parts::Vector{} + all, typename Parts::Vector{} + all} {}  // NOLINT: constants mix freely
  static Lanes made_of(const typename Parts::Vector& low, const typename Parts::Vector& high) {
    Lanes made;
    made.v = {low, high};
    return made;
  }

  Lanes& operator+=(const Lanes& o) { return *this = *this + o; }
  Lanes& operator-=(const Lanes& o) { return *this = *this - o; }
  Lanes& operator*=(const Lanes& o) { return *this = *this * o; }
  friend Lanes operator+(const Lanes& a, const Lanes& b) { return by_parts<Lanes>([](auto x, auto y) { return x + y; }, a, b); }
  friend Lanes operator-(const Lanes& a, const Lanes& b) { return by_parts<Lanes>([](auto x, auto y) { return x - y; }, a, b); }
  friend Lanes operator*(const Lanes& a, const Lanes& b) { return by_parts<Lanes>([](auto x, auto y) { return x * y; }, a, b); }
  friend Lanes operator/(const Lanes& a, const Lanes& b) { return by_parts<Lanes>([](auto x, auto y) { return x / y; }, a, b); }
  friend Lanes operator-(const Lanes& a) { return by_parts<Lanes>([](auto x) { return -x; }, a); }
  friend Logic operator<(const Lanes& a, const Lanes& b) { return by_parts<Logic>([](auto x, auto y) { return x < y; }, a, b); }
  friend Logic operator>(const Lanes& a, const Lanes& b) { return by_parts<Logic>([](auto x, auto y) { return x > y; }, a, b); }
  friend Logic operator<=(const Lanes& a, const Lanes& b) { return by_parts<Logic>([](auto x, auto y) { return x <= y; }, a, b); }
  friend Logic operator>=(const Lanes& a, const Lanes& b) { return by_parts<Logic>([](auto x, auto y) { return x >= y; }, a, b); }
  friend Logic operator==(const Lanes& a, const Lanes& b) { return by_parts<Logic>([](auto x, auto y) { return x == y; }, a, b); }

  friend Lanes value_of(const Lanes& a) { return a; }
  friend LaneBits<N> bits_of(const Lanes& a) {
    return by_parts<LaneBits<N>>([](auto x) { return std::bit_cast<typename LaneBits<N>::Parts::Vector>(x); }, a);
  }
};

// In and out by way of arrays: a vector's own subscript, with an index known only when it runs, is not compiled alike by
// every setting of GCC 12 (under -fsanitize=undefined it took a neighbour).
template <std::size_t N>
Lanes<N> lanes_of(const std::array<double, N>& values) {
  Lanes<N> lanes;
  lanes.v = std::bit_cast<typename Lanes<N>::Parts>(values);
  return lanes;
}
template <std::size_t N>
double lane(const Lanes<N>& a, std::size_t i) {
  return std::bit_cast<std::array<double, N>>(a.v)[i];
}
template <std::size_t N>
bool lane(const LaneLogic<N>& a, std::size_t i) {
  return std::bit_cast<std::array<std::int64_t, N>>(a.v)[i] != 0;
}

template <std::size_t N>
bool any(const LaneLogic<N>& condition) {
  const auto together = condition.v.low | condition.v.high;
#if defined(__AVX512DQ__)
  return _mm512_movepi64_mask(std::bit_cast<__m512i>(together)) != 0;
#elif defined(__AVX2__)
  return _mm256_movemask_pd(std::bit_cast<__m256d>(together)) != 0;
#elif defined(__SSE2__)
  return _mm_movemask_pd(std::bit_cast<__m128d>(together)) != 0;
#else
  std::int64_t whole = 0;
  for (const std::int64_t each : std::bit_cast<std::array<std::int64_t, kNativeLanes>>(together)) whole |= each;
  return whole != 0;
#endif
}

template <std::size_t N>
Lanes<N> from_bits(const LaneBits<N>& bits) {
  return by_parts<Lanes<N>>([](auto x) { return std::bit_cast<typename Lanes<N>::Parts::Vector>(x); }, bits);
}

template <std::size_t N>
struct ScalarTraits<Lanes<N>> {
  using Logic = LaneLogic<N>;
  template <class V>
  using Each = std::array<V, N>;
};

template <std::size_t N>
Lanes<N> select(const LaneLogic<N>& condition, const Lanes<N>& yes, const Lanes<N>& no) {
  return by_parts<Lanes<N>>([](auto c, auto x, auto y) { return c ? x : y; }, condition, yes, no);
}
template <class V, std::size_t N>
std::array<V, N> select(const LaneLogic<N>& condition, const std::array<V, N>& yes, const std::array<V, N>& no) {
  std::array<V, N> out;
  for (std::size_t i = 0; i < N; ++i) out[i] = lane(condition, i) ? yes[i] : no[i];
  return out;
}

template <std::size_t N>
std::array<int, N> whole_numbers(const Lanes<N>& counts) {
  std::array<int, N> out;
  for (std::size_t i = 0; i < N; ++i) out[i] = static_cast<int>(lane(counts, i));
  return out;
}

// glibc's names say the instruction set and the width: _ZGVbN2v_sin is SSE's, two at a time.
using Native = Pack<double, 2 * kNativeLanes>::Vector;
#if defined(__x86_64__) && defined(__GLIBC__)
#if defined(__AVX512F__)
#define LOFTWRIGHT_VECTOR_FUNCTION(name, arguments) _ZGVeN8##arguments##_##name
#elif defined(__AVX2__)
#define LOFTWRIGHT_VECTOR_FUNCTION(name, arguments) _ZGVdN4##arguments##_##name
#else
#define LOFTWRIGHT_VECTOR_FUNCTION(name, arguments) _ZGVbN2##arguments##_##name
#endif
extern "C" {
Native LOFTWRIGHT_VECTOR_FUNCTION(sin, v)(Native);
Native LOFTWRIGHT_VECTOR_FUNCTION(cos, v)(Native);
Native LOFTWRIGHT_VECTOR_FUNCTION(log, v)(Native);
Native LOFTWRIGHT_VECTOR_FUNCTION(pow, vv)(Native, Native);
Native LOFTWRIGHT_VECTOR_FUNCTION(atan2, vv)(Native, Native);
}
#else
template <class F, class... A>
Native one_by_one(const F& f, const A&... a) {
  Native r;
  for (std::size_t i = 0; i < kNativeLanes; ++i) r[i] = f(a[i]...);
  return r;
}
#define LOFTWRIGHT_VECTOR_FUNCTION(name, arguments) \
  [](auto... a) { return one_by_one([](auto... one) { return std::name(one...); }, a...); }
#endif

template <std::size_t N>
Lanes<N> sqrt(const Lanes<N>& a) {
  return by_parts<Lanes<N>>(
      [](auto x) {
        for (std::size_t i = 0; i < kNativeLanes; ++i) x[i] = std::sqrt(x[i]);  // one instruction
        return x;
      },
      a);
}
#if defined(__AVX512F__)
// Division and root take this processor 16 and 24 cycles a vector; from its estimates to 14 bits, two Newton steps reach the
// last place but one in a third of that.
template <std::size_t N>
Root<Lanes<N>> root_of(const Lanes<N>& a) {
  const Lanes<N> inverse = by_parts<Lanes<N>>(
      [](auto x) {
        auto y = std::bit_cast<decltype(x)>(_mm512_maskz_rsqrt14_pd(0xff, std::bit_cast<__m512d>(x)));
        const auto half = 0.5 * x;
        y = y * (1.5 - half * y * y);
        return y * (1.5 - half * y * y);
      },
      a);
  return {a * inverse, inverse};
}
template <std::size_t N>
Lanes<N> quotient(const Lanes<N>& a, const Lanes<N>& b) {
  return by_parts<Lanes<N>>(
      [](auto x, auto d) {
        auto y = std::bit_cast<decltype(d)>(_mm512_maskz_rcp14_pd(0xff, std::bit_cast<__m512d>(d)));
        y = y * (2.0 - d * y);
        return x * (y * (2.0 - d * y));
      },
      a, b);
}
#else
template <std::size_t N>
Lanes<N> quotient(const Lanes<N>& a, const Lanes<N>& b) {
  return a / b;
}
#endif

template <std::size_t N>
Lanes<N> sin(const Lanes<N>& a) {
  return by_parts<Lanes<N>>([](auto x) { return LOFTWRIGHT_VECTOR_FUNCTION(sin, v)(x); }, a);
}
template <std::size_t N>
Lanes<N> cos(const Lanes<N>& a) {
  return by_parts<Lanes<N>>([](auto x) { return LOFTWRIGHT_VECTOR_FUNCTION(cos, v)(x); }, a);
}
template <std::size_t N>
Lanes<N> log(const Lanes<N>& a) {
  return by_parts<Lanes<N>>([](auto x) { return LOFTWRIGHT_VECTOR_FUNCTION(log, v)(x); }, a);
}
template <std::size_t N>
Lanes<N> pow(const Lanes<N>& a, double n) {
  return by_parts<Lanes<N>>([n](auto x) { return LOFTWRIGHT_VECTOR_FUNCTION(pow, vv)(x, Native{} + n); }, a);
}
template <std::size_t N>
Lanes<N> atan2(const Lanes<N>& a, const Lanes<N>& b) {
  return by_parts<Lanes<N>>([](auto y, auto x) { return LOFTWRIGHT_VECTOR_FUNCTION(atan2, vv)(y, x); }, a, b);
}

#undef LOFTWRIGHT_VECTOR_FUNCTION

// x^exponent for normal x > 0 and results within 1e-300 .. 1e300: within 1e-12 of std::pow for exponents
// up to 4, relative (tests/unit/core).
// 2^(n log2 x): log2 m = s P(s^2) with s = (m - 1) / (m + 1), P within 2.7e-14 and the power of two within 1.4e-14, relative.
// Both are the polynomials of least greatest error (Remez's exchange, in 40 digits).
template <std::size_t N>
Lanes<N> power(const Lanes<N>& x, double exponent) {
  constexpr double kRound = 0x1.8p52;  // added and taken off again, leaves a whole number
  constexpr std::uint64_t kRoundBits = 0x4338000000000000;
  const LaneBits<N> bits = bits_of(x);
  // x = 2^e m with m between the roots of 1/2 and 2
  const LaneBits<N> e = by_parts<LaneBits<N>>(
      [](auto b) {
        constexpr std::uint64_t kRootHalf = 0x3fe6a09e667f3bcd;
        using Signed = typename LaneLogic<N>::Parts::Vector;
        return std::bit_cast<decltype(b)>(std::bit_cast<Signed>(b - kRootHalf) >> 52);
      },
      bits);
  const Lanes<N> m = from_bits(bits - (e << 52));
  const Lanes<N> s = quotient(m - 1.0, m + 1.0), z = s * s, z2 = z * z;
  const Lanes<N> log2_m = s * (((2.88539008177785 + 0.96179669411340188 * z) + z2 * (0.57707794234659424 + 0.41220925433664758 * z)) +
                               (z2 * z2) * (0.31990561173358697 + 0.28290144570830646 * z));
  const Lanes<N> log2 = exponent * ((from_bits(e + kRoundBits) - kRound) + log2_m);
  const Lanes<N> rounded = log2 + kRound;
  const Lanes<N> f = log2 - (rounded - kRound), f2 = f * f, f4 = f2 * f2;
  const Lanes<N> two_to_f = (((1.0000000000000128 + 0.69314718055987096 * f) + f2 * (0.24022650695649612 + 0.05550410866868624 * f)) +
                             f4 * ((0.0096181291920772587 + 0.0013333557617539086 * f) +
                                   f2 * (0.00015403434940507926 + 1.5252984859866115e-5 * f))) +
                            (f4 * f4) * (1.3259407353374733e-6 + 1.0150335386733815e-7 * f);
  return from_bits(bits_of(two_to_f) + (bits_of(rounded) << 52));
}

}  // namespace loftwright
