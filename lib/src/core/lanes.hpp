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

#include "loftwright/core/detail/scalar.hpp"

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

}  // namespace loftwright
