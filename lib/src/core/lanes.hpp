// N drives side by side: a scalar for the physics whose every operation acts on N numbers at once. Compilers' vector
// types (GCC, clang), so that one text serves every instruction set: the file that includes this is compiled once for each
// (lib/CMakeLists.txt). Why not a library: docs/decisions/0009-lanes.md. Logarithm and power, for winds, are glibc's vector
// ones where they exist (at most 4 units in the last place, glibc manual, Errors in Math Functions), else one lane at a time.
#pragma once

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>

#if defined(__SSE2__)
#include <immintrin.h>
#endif

#include "loftwright/core/constants.hpp"
#include "loftwright/core/scalar.hpp"

namespace loftwright {

#if defined(__AVX512F__)
constexpr std::size_t kNativeLanes = 8;
#elif defined(__AVX2__)
constexpr std::size_t kNativeLanes = 4;
#else
constexpr std::size_t kNativeLanes = 2;
#endif

constexpr std::uint64_t kSign = std::uint64_t{1} << 63;

// N of an element side by side, in two of the processor's vectors: they hide each other's waiting.
template <class Element, std::size_t N>
struct Pack {
  static_assert(N == 2 * kNativeLanes);
  using Vector [[gnu::vector_size(kNativeLanes * sizeof(Element))]] = Element;
  Vector low, high;

  // Written out: left to itself, GCC copies and clears the bytes in halves of a vector, and whole vectors then wait for them.
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
  using Parts = Pack<std::uint64_t, N>;
  Parts v;
  static LaneBits made_of(const typename Parts::Vector& low, const typename Parts::Vector& high) { return {{low, high}}; }

  friend LaneBits operator>>(const LaneBits& a, int n) { return by_parts<LaneBits>([n](auto x) { return x >> n; }, a); }
  friend LaneBits operator<<(const LaneBits& a, int n) { return by_parts<LaneBits>([n](auto x) { return x << n; }, a); }
  friend LaneBits operator*(const LaneBits& a, std::uint64_t b) { return by_parts<LaneBits>([b](auto x) { return x * b; }, a); }
  friend LaneBits operator+(const LaneBits& a, const LaneBits& b) { return by_parts<LaneBits>([](auto x, auto y) { return x + y; }, a, b); }
  friend LaneBits operator-(const LaneBits& a, const LaneBits& b) { return by_parts<LaneBits>([](auto x, auto y) { return x - y; }, a, b); }
  friend LaneBits operator^(const LaneBits& a, const LaneBits& b) { return by_parts<LaneBits>([](auto x, auto y) { return x ^ y; }, a, b); }
  friend LaneBits operator|(const LaneBits& a, std::uint64_t b) { return by_parts<LaneBits>([b](auto x) { return x | b; }, a); }
  friend LaneBits operator-(const LaneBits& a, std::uint64_t b) { return by_parts<LaneBits>([b](auto x) { return x - b; }, a); }
  friend LaneBits operator&(const LaneBits& a, std::uint64_t b) { return by_parts<LaneBits>([b](auto x) { return x & b; }, a); }
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
  Lanes(double all) : v{all - typename Parts::Vector{}, all - typename Parts::Vector{}} {}  // NOLINT: constants mix freely
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

// In (f(0), f(1), ... side by side) and out by way of memory: a vector's own subscript, with an index known only when it
// runs, is not compiled alike by every setting of GCC 12 (under -fsanitize=undefined it took a neighbour).
template <std::size_t N, class F>
Lanes<N> lanes_of(const F& f) {
  std::array<double, N> values;
  for (std::size_t i = 0; i < N; ++i) values[i] = f(i);
  typename Lanes<N>::Parts::Vector low, high;
  std::memcpy(&low, values.data(), sizeof low);
  std::memcpy(&high, values.data() + kNativeLanes, sizeof high);
  return Lanes<N>::made_of(low, high);
}
template <std::size_t N>
double lane(const Lanes<N>& a, std::size_t i) {
  double value;
  std::memcpy(&value, reinterpret_cast<const char*>(&a.v) + i * sizeof value, sizeof value);
  return value;
}
template <std::size_t N>
bool lane(const LaneLogic<N>& a, std::size_t i) {
  std::int64_t value;
  std::memcpy(&value, reinterpret_cast<const char*>(&a.v) + i * sizeof value, sizeof value);
  return value != 0;
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

// As for doubles, in one instruction where there is one.
template <std::size_t N>
Lanes<N> min_of(const Lanes<N>& a, const Lanes<N>& b) {
  return by_parts<Lanes<N>>(
      [](auto x, auto y) {
#if defined(__AVX512F__)
        return std::bit_cast<decltype(x)>(_mm512_maskz_min_pd(0xff, std::bit_cast<__m512d>(y), std::bit_cast<__m512d>(x)));
#elif defined(__AVX2__)
        return std::bit_cast<decltype(x)>(_mm256_min_pd(std::bit_cast<__m256d>(y), std::bit_cast<__m256d>(x)));
#elif defined(__SSE2__)
        return std::bit_cast<decltype(x)>(_mm_min_pd(std::bit_cast<__m128d>(y), std::bit_cast<__m128d>(x)));
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
        return std::bit_cast<decltype(x)>(_mm512_maskz_max_pd(0xff, std::bit_cast<__m512d>(y), std::bit_cast<__m512d>(x)));
#elif defined(__AVX2__)
        return std::bit_cast<decltype(x)>(_mm256_max_pd(std::bit_cast<__m256d>(y), std::bit_cast<__m256d>(x)));
#elif defined(__SSE2__)
        return std::bit_cast<decltype(x)>(_mm_max_pd(std::bit_cast<__m128d>(y), std::bit_cast<__m128d>(x)));
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

// Each lane's row of a table, by column.
template <std::size_t N>
std::array<Lanes<N>, 4> row(const std::array<double, 4>* table, const LaneBits<N>& at) {
  using Vector = typename Lanes<N>::Parts::Vector;
  const auto columns = [table](auto i) {
#if defined(__AVX2__) && !defined(__AVX512F__)
    // Four rows read whole, and turned.
    const __m256d a = _mm256_loadu_pd(table[i[0]].data()), b = _mm256_loadu_pd(table[i[1]].data()),
                  c = _mm256_loadu_pd(table[i[2]].data()), d = _mm256_loadu_pd(table[i[3]].data());
    const __m256d ab_even = _mm256_unpacklo_pd(a, b), ab_odd = _mm256_unpackhi_pd(a, b);
    const __m256d cd_even = _mm256_unpacklo_pd(c, d), cd_odd = _mm256_unpackhi_pd(c, d);
    return std::array{
        std::bit_cast<Vector>(_mm256_permute2f128_pd(ab_even, cd_even, 0x20)), std::bit_cast<Vector>(_mm256_permute2f128_pd(ab_odd, cd_odd, 0x20)),
        std::bit_cast<Vector>(_mm256_permute2f128_pd(ab_even, cd_even, 0x31)), std::bit_cast<Vector>(_mm256_permute2f128_pd(ab_odd, cd_odd, 0x31))};
#else
    const auto column = [&]<std::size_t... K>(std::size_t j, std::index_sequence<K...>) { return Vector{table[i[K]][j]...}; };
    constexpr std::make_index_sequence<kNativeLanes> all;
    return std::array{column(0, all), column(1, all), column(2, all), column(3, all)};
#endif
  };
  const auto low = columns(at.v.low), high = columns(at.v.high);
  return {Lanes<N>::made_of(low[0], high[0]), Lanes<N>::made_of(low[1], high[1]), Lanes<N>::made_of(low[2], high[2]),
          Lanes<N>::made_of(low[3], high[3])};
}

template <std::size_t N>
struct ScalarTraits<Lanes<N>> {
  using Logic = LaneLogic<N>;
  template <class V>
  using Each = std::array<V, N>;
  // Whether a row for each lane is quicker than arithmetic. With AVX-512 it is not.
  static constexpr bool kLooksUp = kNativeLanes < 8;
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
Native LOFTWRIGHT_VECTOR_FUNCTION(log, v)(Native);
Native LOFTWRIGHT_VECTOR_FUNCTION(pow, vv)(Native, Native);
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
Lanes<N> log(const Lanes<N>& a) {
  return by_parts<Lanes<N>>([](auto x) { return LOFTWRIGHT_VECTOR_FUNCTION(log, v)(x); }, a);
}
template <std::size_t N>
Lanes<N> pow(const Lanes<N>& a, double n) {
  return by_parts<Lanes<N>>([n](auto x) { return LOFTWRIGHT_VECTOR_FUNCTION(pow, vv)(x, Native{} + n); }, a);
}
#undef LOFTWRIGHT_VECTOR_FUNCTION

constexpr double kRound = 0x1.8p52;  // added and taken off again, leaves a whole number; in the bits below, before

// sin(x) / x and the like are even: polynomials in x^2 of least greatest error (Chebyshev's, in 60 digits), for x within a
// quarter of pi: the sine within 2e-14 of itself, relative, the cosine within 1e-15.
template <std::size_t N>
SinCos<Lanes<N>> sin_cos_of_small(const Lanes<N>& x) {
  const Lanes<N> z = x * x, z2 = z * z;
  return {x + (x * z) * ((-0.16666666666663882 + 0.008333333331077422 * z) +
                         z2 * ((-0.0001984126691523504 + 2.7555990399839905e-06 * z) - 2.4805587179980646e-08 * z2)),
          (1.0 - 0.5 * z) + z2 * ((0.04166666666666468 - 0.0013888888887276056 * z) +
                                  z2 * ((2.4801585209738397e-05 - 2.755636931675049e-07 * z) + 2.070056539736993e-09 * z2))};
}

template <std::size_t N, class F>
[[gnu::noinline, gnu::cold]] Lanes<N> one_by_one(const F& f, const Lanes<N>& a) {
  return lanes_of<N>([&](std::size_t i) { return f(lane(a, i)); });
}

// A whole number of quarter turns taken off: what they are in three parts, the first two exact times any number asked for.
template <std::size_t N>
SinCos<Lanes<N>> sin_cos(const Lanes<N>& angle) {
  constexpr double kFarthest = 1e5;  // [rad] beyond, no angle is meant
  if (any(!(abs_of(angle) <= Lanes<N>(kFarthest)))) [[unlikely]] {
    return {one_by_one([](double x) { return std::sin(x); }, angle), one_by_one([](double x) { return std::cos(x); }, angle)};
  }
  const Lanes<N> rounded = angle * (2.0 / kPi) + kRound, quarters = rounded - kRound;
  const Lanes<N> x = ((angle - 0x1.921fb544p+0 * quarters) - 0x1.0b4611a6p-34 * quarters) - 0x1.3198a2e037073p-69 * quarters;
  const LaneBits<N> count = bits_of(rounded);
  const auto [s, c] = sin_cos_of_small(x);
  const LaneLogic<N> odd = by_parts<LaneLogic<N>>(
      [](auto n) { return std::bit_cast<typename LaneLogic<N>::Parts::Vector>(n << 63) >> 63; }, count);
  return {from_bits(bits_of(select(odd, c, s)) ^ ((count >> 1) << 63)),
          from_bits(bits_of(select(odd, s, c)) ^ (((count + std::uint64_t{1}) >> 1) << 63))};
}

template <std::size_t N>
Lanes<N> sin(const Lanes<N>& a) {
  return sin_cos(a).sin;
}

// The lesser of the two over the greater, turned back by an eighth of a turn where it is steep; atan(x) / x as a polynomial
// in x^2 within 5e-15, relative.
template <std::size_t N>
Lanes<N> atan2(const Lanes<N>& y, const Lanes<N>& x) {
  constexpr double kSteep = 0.41421356237309503;  // tan(pi / 8)
  const Lanes<N> rise = abs_of(y), run = abs_of(x);
  const LaneLogic<N> over = rise > run;
  const Lanes<N> less = select(over, run, rise), more = max_of(select(over, rise, run), Lanes<N>(1e-300));
  const LaneLogic<N> steep = less > kSteep * more;
  const Lanes<N> t = select(steep, less - more, less) / select(steep, less + more, more);
  const Lanes<N> z = t * t, z2 = z * z, z4 = z2 * z2;
  const Lanes<N> atan = t + (t * z) * (((-0.3333333333333092 + 0.1999999999772153 * z) + z2 * (-0.14285713929925073 + 0.11111089626077861 * z)) +
                                       z4 * (((-0.09090255377464372 + 0.07681037484051574 * z) +
                                              z2 * (-0.0655085023854286 + 0.051686162502498884 * z)) -
                                             z4 * 0.027229493655218973));
  const Lanes<N> eighth = select(steep, atan + 0.25 * kPi, atan);
  const Lanes<N> quarter = select(over, 0.5 * kPi - eighth, eighth);
  const Lanes<N> half = select(x < Lanes<N>(0.0), kPi - quarter, quarter);
  return from_bits(bits_of(half) ^ (bits_of(y) & kSign));
}

// x^exponent for normal x > 0 and results within 1e-300 .. 1e300: within 1e-12 of std::pow for exponents
// up to 4, relative (tests/unit/core).
// 2^(n log2 x): log2 m = s P(s^2) with s = (m - 1) / (m + 1), P within 2.7e-14 and the power of two within 1.4e-14, relative.
// Both are the polynomials of least greatest error (Remez's exchange, in 40 digits).
template <std::size_t N>
Lanes<N> power(const Lanes<N>& x, double exponent) {
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
