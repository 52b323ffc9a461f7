// N drives side by side: a scalar for the physics whose every operation acts on N numbers at once, in single precision,
// which is enough for a drive (docs/accuracy.md). Compilers' vector types (GCC, clang), so that one text serves every
// instruction set: the file that includes this is compiled once for each (lib/CMakeLists.txt). Only sums, products,
// quotients and roots that every processor rounds alike are used, so a drive has the same bits on all. Why not a
// library: docs/decisions/0009-lanes.md.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>

#if defined(__SSE2__)
#include <immintrin.h>
#elif defined(__wasm_simd128__)
#include <wasm_simd128.h>
#endif

#include "loftwright/core/constants.hpp"
#include "loftwright/core/scalar.hpp"

namespace loftwright {

#if defined(__AVX512F__)
constexpr std::size_t kNativeLanes = 16;
#elif defined(__AVX2__)
constexpr std::size_t kNativeLanes = 8;
#else
constexpr std::size_t kNativeLanes = 4;
#endif

constexpr std::uint32_t kSign = std::uint32_t{1} << 31;

// N of an element side by side, in two of the processor's vectors: they hide each other's waiting.
template <class Element, std::size_t N>
struct Pack {
  static_assert(N == 2 * kNativeLanes);
  using Vector [[gnu::vector_size(kNativeLanes * sizeof(Element))]] = Element;
  Vector low, high;

  // Written out: left to itself, GCC copies and clears the bytes in halves of a vector, and whole vectors then wait for
  // them.
  Pack() : low{}, high{} {}
  Pack(const Vector& l, const Vector& h) : low(l), high(h) {}
  Pack(const Pack& o) : low(o.low), high(o.high) {}
  Pack& operator=(const Pack& o) {
    low = o.low;
    high = o.high;
    return *this;
  }
};

// f on the processor's vectors of its arguments. By name, not in a loop: GCC keeps an array of vectors in memory.
template <class To, class F, class... From>
To by_parts(const F& f, const From&... from) {
  return To::made_of(f(from.v.low...), f(from.v.high...));
}

template <std::size_t N>
struct LaneBits {
  using Parts = Pack<std::uint32_t, N>;
  Parts v;
  static LaneBits made_of(const typename Parts::Vector& low, const typename Parts::Vector& high) {
    return {{low, high}};
  }

  friend LaneBits operator>>(const LaneBits& a, int n) {
    return by_parts<LaneBits>([n](auto x) { return x >> n; }, a);
  }
  friend LaneBits operator<<(const LaneBits& a, int n) {
    return by_parts<LaneBits>([n](auto x) { return x << n; }, a);
  }
  friend LaneBits operator+(const LaneBits& a, const LaneBits& b) {
    return by_parts<LaneBits>([](auto x, auto y) { return x + y; }, a, b);
  }
  friend LaneBits operator-(const LaneBits& a, const LaneBits& b) {
    return by_parts<LaneBits>([](auto x, auto y) { return x - y; }, a, b);
  }
  friend LaneBits operator^(const LaneBits& a, const LaneBits& b) {
    return by_parts<LaneBits>([](auto x, auto y) { return x ^ y; }, a, b);
  }
  friend LaneBits operator&(const LaneBits& a, std::uint32_t b) {
    return by_parts<LaneBits>([b](auto x) { return x & b; }, a);
  }
  friend LaneBits operator+(const LaneBits& a, std::uint32_t b) {
    return by_parts<LaneBits>([b](auto x) { return x + b; }, a);
  }
};

// What a comparison gives: all ones or none in each lane.
template <std::size_t N>
struct LaneLogic {
  using Parts = Pack<std::int32_t, N>;
  Parts v{};
  static LaneLogic made_of(const typename Parts::Vector& low, const typename Parts::Vector& high) {
    return {{low, high}};
  }

  friend LaneLogic operator&(const LaneLogic& a, const LaneLogic& b) {
    return by_parts<LaneLogic>([](auto x, auto y) { return x & y; }, a, b);
  }
  friend LaneLogic operator|(const LaneLogic& a, const LaneLogic& b) {
    return by_parts<LaneLogic>([](auto x, auto y) { return x | y; }, a, b);
  }
  friend LaneLogic operator!(const LaneLogic& a) {
    return by_parts<LaneLogic>([](auto x) { return ~x; }, a);
  }
};

template <std::size_t N>
struct Lanes {
  using Parts = Pack<float, N>;
  using Logic = LaneLogic<N>;
  Parts v{};

  Lanes() = default;
  Lanes(double all)
      : v{static_cast<float>(all) - typename Parts::Vector{}, static_cast<float>(all) - typename Parts::Vector{}} {
  }  // NOLINT: constants mix freely
  static Lanes made_of(const typename Parts::Vector& low, const typename Parts::Vector& high) {
    Lanes made;
    made.v = {low, high};
    return made;
  }

  Lanes& operator+=(const Lanes& o) { return *this = *this + o; }
  Lanes& operator-=(const Lanes& o) { return *this = *this - o; }
  Lanes& operator*=(const Lanes& o) { return *this = *this * o; }
  friend Lanes operator+(const Lanes& a, const Lanes& b) {
    return by_parts<Lanes>([](auto x, auto y) { return x + y; }, a, b);
  }
  friend Lanes operator-(const Lanes& a, const Lanes& b) {
    return by_parts<Lanes>([](auto x, auto y) { return x - y; }, a, b);
  }
  friend Lanes operator*(const Lanes& a, const Lanes& b) {
    return by_parts<Lanes>([](auto x, auto y) { return x * y; }, a, b);
  }
  friend Lanes operator/(const Lanes& a, const Lanes& b) {
    return by_parts<Lanes>([](auto x, auto y) { return x / y; }, a, b);
  }
  friend Lanes operator-(const Lanes& a) {
    return by_parts<Lanes>([](auto x) { return -x; }, a);
  }
  friend Logic operator<(const Lanes& a, const Lanes& b) {
    return by_parts<Logic>([](auto x, auto y) { return x < y; }, a, b);
  }
  friend Logic operator>(const Lanes& a, const Lanes& b) {
    return by_parts<Logic>([](auto x, auto y) { return x > y; }, a, b);
  }
  friend Logic operator<=(const Lanes& a, const Lanes& b) {
    return by_parts<Logic>([](auto x, auto y) { return x <= y; }, a, b);
  }
  friend Logic operator>=(const Lanes& a, const Lanes& b) {
    return by_parts<Logic>([](auto x, auto y) { return x >= y; }, a, b);
  }
  friend Logic operator==(const Lanes& a, const Lanes& b) {
    return by_parts<Logic>([](auto x, auto y) { return x == y; }, a, b);
  }

  friend Lanes value_of(const Lanes& a) { return a; }
  friend LaneBits<N> bits_of(const Lanes& a) {
    return by_parts<LaneBits<N>>([](auto x) { return bit_cast<typename LaneBits<N>::Parts::Vector>(x); }, a);
  }
};

// In (f(0), f(1), ... side by side) and out by way of memory: a vector's own subscript, with an index known only when
// it runs, is not compiled alike by every setting of GCC 12 (under -fsanitize=undefined it took a neighbour).
template <std::size_t N, class F>
Lanes<N> lanes_of(const F& f) {
  std::array<float, N> values;
  for (std::size_t i = 0; i < N; ++i) values[i] = static_cast<float>(f(i));
  typename Lanes<N>::Parts::Vector low, high;
  std::memcpy(&low, values.data(), sizeof low);
  std::memcpy(&high, values.data() + kNativeLanes, sizeof high);
  return Lanes<N>::made_of(low, high);
}
template <std::size_t N>
double lane(const Lanes<N>& a, std::size_t i) {
  float value;
  std::memcpy(&value, reinterpret_cast<const char*>(&a.v) + i * sizeof value, sizeof value);
  return value;
}
template <std::size_t N>
bool lane(const LaneLogic<N>& a, std::size_t i) {
  std::int32_t value;
  std::memcpy(&value, reinterpret_cast<const char*>(&a.v) + i * sizeof value, sizeof value);
  return value != 0;
}

template <std::size_t N>
bool any(const LaneLogic<N>& condition) {
  const auto together = condition.v.low | condition.v.high;
#if defined(__AVX512DQ__)
  return _mm512_movepi32_mask(bit_cast<__m512i>(together)) != 0;
#elif defined(__AVX2__)
  return _mm256_movemask_ps(bit_cast<__m256>(together)) != 0;
#elif defined(__SSE2__)
  return _mm_movemask_ps(bit_cast<__m128>(together)) != 0;
#elif defined(__wasm_simd128__)
  return wasm_v128_any_true(bit_cast<v128_t>(together));
#else
  std::int32_t whole = 0;
  for (const std::int32_t each : bit_cast<std::array<std::int32_t, kNativeLanes>>(together)) whole |= each;
  return whole != 0;
#endif
}

template <std::size_t N>
Lanes<N> from_bits(const LaneBits<N>& bits) {
  return by_parts<Lanes<N>>([](auto x) { return bit_cast<typename Lanes<N>::Parts::Vector>(x); }, bits);
}

// As for doubles, in one instruction where there is one.
template <std::size_t N>
Lanes<N> min_of(const Lanes<N>& a, const Lanes<N>& b) {
  return by_parts<Lanes<N>>(
      [](auto x, auto y) {
#if defined(__AVX512F__)
        return bit_cast<decltype(x)>(_mm512_maskz_min_ps(0xffff, bit_cast<__m512>(y), bit_cast<__m512>(x)));
#elif defined(__AVX2__)
        return bit_cast<decltype(x)>(_mm256_min_ps(bit_cast<__m256>(y), bit_cast<__m256>(x)));
#elif defined(__SSE2__)
        return bit_cast<decltype(x)>(_mm_min_ps(bit_cast<__m128>(y), bit_cast<__m128>(x)));
#elif defined(__wasm_simd128__)
        return bit_cast<decltype(x)>(wasm_f32x4_pmin(bit_cast<v128_t>(x), bit_cast<v128_t>(y)));
#else
        return y < x ? y : x;
#endif
      },
      a, b);
}
template <std::size_t N>
Lanes<N> max_of(const Lanes<N>& a, const Lanes<N>& b) {
  return by_parts<Lanes<N>>(
      [](auto x, auto y) {
#if defined(__AVX512F__)
        return bit_cast<decltype(x)>(_mm512_maskz_max_ps(0xffff, bit_cast<__m512>(y), bit_cast<__m512>(x)));
#elif defined(__AVX2__)
        return bit_cast<decltype(x)>(_mm256_max_ps(bit_cast<__m256>(y), bit_cast<__m256>(x)));
#elif defined(__SSE2__)
        return bit_cast<decltype(x)>(_mm_max_ps(bit_cast<__m128>(y), bit_cast<__m128>(x)));
#elif defined(__wasm_simd128__)
        return bit_cast<decltype(x)>(wasm_f32x4_pmax(bit_cast<v128_t>(x), bit_cast<v128_t>(y)));
#else
        return x < y ? y : x;
#endif
      },
      a, b);
}
template <std::size_t N>
Lanes<N> abs_of(const Lanes<N>& a) {
  return from_bits(bits_of(a) & ~kSign);
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

template <std::size_t N>
Lanes<N> sqrt(const Lanes<N>& a) {
  return by_parts<Lanes<N>>(
      [](auto x) {
#if defined(__wasm_simd128__)
        return bit_cast<decltype(x)>(wasm_f32x4_sqrt(bit_cast<v128_t>(x)));
#else
        for (std::size_t i = 0; i < kNativeLanes; ++i) x[i] = std::sqrt(x[i]);  // one instruction
        return x;
#endif
      },
      a);
}

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

// As for doubles (core/scalar.hpp).
template <std::size_t N>
Lanes<N> inverse_fifth_root(const Lanes<N>& x) {
  return from_bits(by_parts<LaneBits<N>>([](auto b) { return 0x4c2b3333u - b / 5; }, bits_of(x)));
}
template <std::size_t N>
Lanes<N> coarse(const Lanes<N>& x) {
  return from_bits(bits_of(x) & ~((std::uint32_t{1} << (23 - kCoarseBits)) - 1));
}

}  // namespace loftwright
