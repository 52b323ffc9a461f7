/// @file
/// Sine, cosine, arctangent, exponential and logarithm of a double, from arithmetic alone: inlined where the model
/// needs several at once, and the same to the last bit on every processor, which a C library's are not. Within 4e-16 of
/// the truth, relative (tests/unit/core measures). The polynomials of the first three are of least greatest error,
/// found in 50 digits; the others' are Taylor's.
#pragma once

#include <cmath>
#include <cstdint>

namespace loftwright {

/// What std::bit_cast is, which the library of the desk's compiler (libc++ 13) lacks.
template <class To, class From>
constexpr To bit_cast(const From& from) {
  return __builtin_bit_cast(To, from);
}

/// An angle by its sine and cosine.
template <class T>
struct SinCos {
  T sin;  ///< [-]
  T cos;  ///< [-]
};

/// Of an angle of at most a quarter of pi either way.
inline SinCos<double> sin_cos_of_small(double x) {
  const double z = x * x, z2 = z * z, z4 = z2 * z2;
  const double odd = (-0.1666666666666663 + 0.008333333333322113 * z) +
                     z2 * (-0.00019841269829584928 + 2.755731361971933e-06 * z) +
                     z4 * (-2.505074749271856e-08 + 1.5896214007444086e-10 * z);
  const double even = (0.041666666666666595 - 0.0013888888888873047 * z) +
                      z2 * (2.4801587288847356e-05 - 2.75573141777229e-07 * z) +
                      z4 * (2.0875700623884e-09 - 1.1358525007483154e-11 * z);
  const double half = 0.5 * z, most = 1.0 - half;
  return {x + (x * z) * odd, most + (((1.0 - most) - half) + z2 * even)};
}

/// Of any angle; not a number for one that is none. [rad]
inline SinCos<double> sin_cos(double x) {
  if (std::abs(x) < 0.785) return sin_cos_of_small(x);  // as below, without the wait
  if (!(std::abs(x) <= 1e5)) [[unlikely]]
    return {std::sin(x), std::cos(x)};
  // The nearest quarter turn is taken off in three pieces, the first two short enough to be multiplied exactly.
  constexpr double kRound = 0x1.8p52, kQuarter = 0x1.921fb544p+0, kQuarterRest = 0x1.0b4611a6p-34,
                   kQuarterTail = 0x1.3198a2e037073p-69;
  const double shifted = x * 0.63661977236758134 + kRound, turns = shifted - kRound;
  const auto quarter = bit_cast<std::uint64_t>(shifted);
  const SinCos<double> within =
      sin_cos_of_small(((x - turns * kQuarter) - turns * kQuarterRest) - turns * kQuarterTail);
  const double s = quarter & 1 ? within.cos : within.sin, c = quarter & 1 ? within.sin : within.cos;
  return {quarter & 2 ? -s : s, (quarter + 1) & 2 ? -c : c};
}

/// Angle of the point (x, y) from the axis of x, as std::atan2 has it, zeros and infinities with it. [rad]
inline double arctangent(double y, double x) {
  const double across = std::abs(y), along = std::abs(x);
  const bool beyond = across > along;
  const double less = beyond ? along : across, more = beyond ? across : along;
  if (!(more > 1e-150 && more < 1e150)) [[unlikely]]
    return std::atan2(y, x);
  // Turned back by an eighth of a turn where that is nearer.
  constexpr double kEighth = 0x1.921fb54442d18p-1, kEighthRest = 0x1.1a62633145c07p-55;
  const bool steep = less > 0.41421356237309503 * more;  // tan(pi / 8)
  const double t = (steep ? less - more : less) / (steep ? less + more : more);
  const double z = t * t, z2 = z * z, z4 = z2 * z2;
  const double low =
      (-0.333333333333332 + 0.19999999999953208 * z) + z2 * (-0.14285714280162382 + 0.11111110781938824 * z) +
      z4 * ((-0.09090897718837199 + 0.07692059600018561 * z) + z2 * (-0.06663097833890619 + 0.05847849064681036 * z));
  const double high = (-0.05039143402190335 + 0.038060920457778986 * z) - z2 * 0.01790367830567451;
  const double rest = (t * z) * (low + (z4 * z4) * high);
  const double first = steep ? kEighth + (t + (rest + kEighthRest)) : t + rest;
  const double second = beyond ? 2.0 * kEighth - (first - 2.0 * kEighthRest) : first;
  return std::copysign(x < 0.0 ? 4.0 * kEighth - (second - 4.0 * kEighthRest) : second, y);
}

/// e^x, held within e^-700 .. e^700; not a number for one that is none. A whole number of ln 2 is taken off in two
/// pieces, the first exact times any such number.
inline double exponential(double x) {
  if (x != x) [[unlikely]]
    return x;
  const double held = x < -700.0 ? -700.0 : x > 700.0 ? 700.0 : x;
  constexpr double kRound = 0x1.8p52, kLn2 = 0x1.62e42feep-1, kLn2Rest = 0x1.a39ef35793c76p-33;
  const double shifted = held * 1.4426950408889634 + kRound, whole = shifted - kRound;
  const double r = (held - whole * kLn2) - whole * kLn2Rest, r2 = r * r, r4 = r2 * r2;
  const double low = (1.0 / 6.0 + r * (1.0 / 24.0)) + r2 * (1.0 / 120.0 + r * (1.0 / 720.0));
  const double high = (1.0 / 5040.0 + r * (1.0 / 40320.0)) + r2 * (1.0 / 362880.0 + r * (1.0 / 3628800.0)) +
                      r4 * (1.0 / 39916800.0 + r * (1.0 / 479001600.0));
  const double power = 1.0 + (r + (0.5 * r2 + (r * r2) * (low + r4 * high)));
  return power * bit_cast<double>((bit_cast<std::uint64_t>(shifted) + 1023) << 52);
}

/// Natural logarithm of a normal x > 0; std::log of anything else. x = 2^e m with m between the roots of 1/2 and 2, and
/// log m = 2 (s + s^3 / 3 + ...) with s = (m - 1) / (m + 1).
inline double logarithm(double x) {
  if (!(x >= 0x1p-1022 && x < 0x1p1023)) [[unlikely]]
    return std::log(x);
  constexpr std::uint64_t kRootHalf = 0x3fe6a09e667f3bcd;
  constexpr double kLn2 = 0x1.62e42feep-1, kLn2Rest = 0x1.a39ef35793c76p-33;
  const auto bits = bit_cast<std::uint64_t>(x);
  const std::int64_t whole = static_cast<std::int64_t>(bits - kRootHalf) >> 52;
  const double e = static_cast<double>(whole),
               f = bit_cast<double>(bits - (static_cast<std::uint64_t>(whole) << 52)) - 1.0;
  const double s = f / (f + 2.0), z = s * s, z2 = z * z, z4 = z2 * z2;
  const double low = (2.0 / 3.0 + z * (2.0 / 5.0)) + z2 * (2.0 / 7.0 + z * (2.0 / 9.0));
  const double high =
      (2.0 / 11.0 + z * (2.0 / 13.0)) + z2 * (2.0 / 15.0 + z * (2.0 / 17.0)) + z4 * (2.0 / 19.0 + z * (2.0 / 21.0));
  // f - s f is 2 s; f^2 / 2 is taken off exactly where it counts, as in the series log(1 + f) = f - f^2 / 2 + ...
  const double half = 0.5 * f * f;
  return e * kLn2 + (f - (half - (s * (half + z * (low + z4 * high)) + e * kLn2Rest)));
}

}  // namespace loftwright
