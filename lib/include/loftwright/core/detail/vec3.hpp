/// @file
/// Three-vectors in the world frame: x down the target line, y up, z to the right; right-handed.
#pragma once

#include "loftwright/core/detail/scalar.hpp"

namespace loftwright {

/// In any unit; it adds, and is multiplied by a scalar.
template <class T>
struct Vec3 {
  T x{};  ///< down the target line
  T y{};  ///< up
  T z{};  ///< to the right

  /// @cond
  friend constexpr Vec3 operator+(const Vec3& a, const Vec3& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend constexpr Vec3 operator-(const Vec3& a, const Vec3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend constexpr Vec3 operator-(const Vec3& a) { return {-a.x, -a.y, -a.z}; }
  friend constexpr Vec3 operator*(const T& s, const Vec3& a) { return {s * a.x, s * a.y, s * a.z}; }
  /// @endcond
};

/// Scalar product.
template <class T>
constexpr T dot(const Vec3<T>& a, const Vec3<T>& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
/// Vector product.
template <class T>
constexpr Vec3<T> cross(const Vec3<T>& a, const Vec3<T>& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
/// `yes` in the lanes where the condition holds, `no` in the others.
template <class T>
requires(!std::is_same_v<LogicOf<T>, bool>) Vec3<T> select(const LogicOf<T>& condition, const Vec3<T>& yes,
                                                           const Vec3<T>& no) {
  return {select(condition, yes.x, no.x), select(condition, yes.y, no.y), select(condition, yes.z, no.z)};
}
/// Euclidean length.
template <class T>
T length(const Vec3<T>& a) {
  return length_of(dot(a, a));
}

/// Exact also where the vectors are nearly parallel. [rad]
template <class T>
T angle_between(const Vec3<T>& a, const Vec3<T>& b) {
  return arctangent(length(cross(a, b)), dot(a, b));
}

/// Unit vector raised `elevation` above the ground and turned `azimuth` to the right of the target line. [rad]
template <class T>
Vec3<T> direction(const SinCos<T>& elevation, const SinCos<T>& azimuth) {
  return {elevation.cos * azimuth.cos, elevation.sin, elevation.cos * azimuth.sin};
}
/// The same from angles. [rad]
template <class T>
Vec3<T> direction(const T& elevation, const T& azimuth) {
  return direction(sin_cos(elevation), sin_cos(azimuth));
}

/// Unit vector across a level direction, to its right.
template <class T>
Vec3<T> right_of(const SinCos<T>& azimuth) {
  return {-azimuth.sin, T(0.0), azimuth.cos};
}

}  // namespace loftwright
