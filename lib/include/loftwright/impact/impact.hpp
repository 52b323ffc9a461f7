/// @file
/// Impact: two rigid bodies touching at a point (Winfield & Tan, Computers & Structures 53 (1994) 19-25), normal
/// restitution that falls with speed, and tangential restitution of a gripping ball (Cross, Am. J. Phys. 70 (2002)
/// 1093) that gives way to sliding. One 3x3 solve yields ball speed, direction and spin, and with them the loss off
/// centre, gear effect in both directions, bulge and roll, with no separate rule for each.
///     M = (1/m + 1/Mh) I - [rb]x (1/Ib) [rb]x - [rh]x Ih^-1 [rh]x          u' = u + M J
///     normal u'n = -e un        tangential u't = -e_t ut, unless |Jt| > mu Jn: then Jt = mu Jn along the same
///     direction
/// Left out: shaft stiffness beyond the tip mass, face deflection, spin about the ball's line of flight.
#pragma once

#include "loftwright/equip/ball.hpp"
#include "loftwright/equip/head.hpp"
#include "loftwright/swing/delivery.hpp"

namespace loftwright {

/// A ball just after impact. Spin axis is across the flight; tilt + curves right.
template <class T>
struct LaunchOf {
  T ball_speed{};  ///< [m/s] 1 .. 110
  T launch{};      ///< [rad] above the ground, -20 .. +80 deg
  T azimuth{};     ///< [rad] right of target, -60 .. +60 deg
  T spin{};        ///< [rad/s] 0 .. 1570 (15 000 rpm)
  T tilt{};        ///< [rad] of the spin axis, -pi .. pi
};
using Launch = LaunchOf<double>;  ///< in plain numbers

/// Throws InputError naming the field that is not finite or outside the range beside it.
void validate(const Launch& launch);

/// A right-hander's launch as a left-hander's, and back.
template <class T>
LaunchOf<T> mirrored(LaunchOf<T> launch) {
  launch.azimuth = -launch.azimuth;
  launch.tilt = -launch.tilt;
  return launch;
}

/// What comes of an impact.
template <class T>
struct ImpactOf {
  LaunchOf<T> launch;    ///< the ball just after it
  T spin_loft{};         ///< [rad] angle between club velocity and face-centre normal, in three dimensions
  LogicOf<T> sliding{};  ///< the ball slid up the face throughout: less spin than a grip would give
};

/// Highest smash factor this head and ball allow: a level blow with no loft, struck dead centre. [-]
double greatest_smash(const Head& head, const Ball& ball, double club_speed);

namespace detail {

/// Symmetric.
template <class T>
struct Matrix3 {
  T xx{}, yy{}, zz{}, xy{}, yz{}, zx{};

  /// scale times a's outer product with itself
  void add_outer(const T& scale, const Vec3<T>& a) {
    const Vec3<T> b = scale * a;
    xx += b.x * a.x;
    yy += b.y * a.y;
    zz += b.z * a.z;
    xy += b.x * a.y;
    yz += b.y * a.z;
    zx += b.z * a.x;
  }
  /// scale times the identity
  void add_diagonal(const T& scale) {
    xx += scale;
    yy += scale;
    zz += scale;
  }
  friend Vec3<T> operator*(const Matrix3& m, const Vec3<T>& v) {
    return {m.xx * v.x + m.xy * v.y + m.zx * v.z, m.xy * v.x + m.yy * v.y + m.yz * v.z,
            m.zx * v.x + m.yz * v.y + m.zz * v.z};
  }
};

/// The mobility is positive definite by construction, so its determinant is never zero.
template <class T>
Vec3<T> solve(const Matrix3<T>& m, const Vec3<T>& b) {
  const Matrix3<T> cofactors{m.yy * m.zz - m.yz * m.yz, m.zz * m.xx - m.zx * m.zx, m.xx * m.yy - m.xy * m.xy,
                             m.yz * m.zx - m.xy * m.zz, m.zx * m.xy - m.yz * m.xx, m.xy * m.yz - m.zx * m.yy};
  return (1.0 / (m.xx * cofactors.xx + m.xy * cofactors.xy + m.zx * cofactors.zx)) * (cofactors * b);
}

}  // namespace detail

/// Delivery (right-hander's frame) -> launch.
template <class T>
ImpactOf<T> strike_ball(const DeliveryOf<T>& d, const HeadOf<T>& head, const Ball& ball) {
  const SinCos<T> face = sin_cos(d.face);
  const Vec3<T> normal_centre = direction(sin_cos(d.dynamic_loft), face);
  const Vec3<T> toeward = right_of(face);
  const Vec3<T> upface = cross(toeward, normal_centre);
  const Vec3<T> normal = direction(d.dynamic_loft + (1.0 / head.roll) * d.high, d.face + (1.0 / head.bulge) * d.toe);
  const Vec3<T> to_contact_head = head.depth * normal_centre + d.toe * toeward + d.high * upface;
  const Vec3<T> to_contact_ball = T(-ball.radius) * normal;

  // -[r]x I^-1 [r]x is a sum of outer products of r x axis over the principal axes; for a ball it is (r^2 - r r^T) / I.
  const T ball_inverse(1.0 / ball.inertia());
  const double radius_squared = ball.radius * ball.radius;
  detail::Matrix3<T> mobility;
  mobility.add_diagonal(T(1.0 / ball.mass + 1.0 / head.mass + radius_squared / ball.inertia()));
  mobility.add_outer(T(-radius_squared / ball.inertia()), normal);
  mobility.add_outer(T(1.0 / head.inertia_normal), cross(to_contact_head, normal_centre));
  mobility.add_outer(1.0 / head.inertia_up, cross(to_contact_head, upface));
  mobility.add_outer(T(1.0 / head.inertia_heel_toe), cross(to_contact_head, toeward));

  const Vec3<T> club = direction(d.attack, d.path);
  const Vec3<T> u = (-d.club_speed) * club;
  const T u_n = dot(u, normal);
  const Vec3<T> u_t = u - u_n * normal;
  const T e = head.restitution - head.restitution_slope * (abs_of(u_n) - head.restitution_speed);

  const Vec3<T> grip = detail::solve(mobility, (-(e * u_n)) * normal - head.tangential_restitution * u_t - u);
  const T grip_n = dot(grip, normal);
  const Vec3<T> grip_t = grip - grip_n * normal;
  const T grip_along = length(grip_t);
  const LogicOf<T> sliding = value_of(grip_along) > head.friction * value_of(grip_n);
  Vec3<T> impulse = grip;
  if (any(sliding)) {
    const Vec3<T> along = normal + (head.friction / grip_along) * grip_t;
    impulse = select(sliding, (-(1.0 + e) * u_n / dot(normal, mobility * along)) * along, grip);
  }

  const Vec3<T> v = T(1.0 / ball.mass) * impulse;
  const Vec3<T> w = ball_inverse * cross(to_contact_ball, impulse);

  ImpactOf<T> out;
  out.spin_loft = angle_between(club, normal_centre);
  out.sliding = sliding;
  out.launch.ball_speed = length(v);
  const T level = length_of(v.x * v.x + v.z * v.z), per_level = 1.0 / max_of(level, T(1e-30));
  out.launch.launch = arctangent(v.y, level);
  out.launch.azimuth = arctangent(v.z, v.x);
  const Vec3<T> right = right_of(SinCos<T>{per_level * v.z, per_level * v.x});
  const Vec3<T> up = (1.0 / out.launch.ball_speed) * cross(right, v);
  const T back = dot(w, right), side = -dot(w, up);
  out.launch.spin = length_of(back * back + side * side);
  out.launch.tilt = arctangent(side, back);
  return out;
}

/// The delivery behind a measured launch, struck at the face centre: club speed, attack, dynamic loft, path and face
/// that give the five launch numbers. Throws InputError when no delivery within the ranges of Delivery does (too much
/// or too little spin for the launch, say).
Delivery delivery_behind(const Launch& launch, const Head& head, const Ball& ball);

}  // namespace loftwright
