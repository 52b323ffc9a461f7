// Bounce and roll on level turf, in the vertical plane of the landing velocity (side spin no longer turns the ball: a
// stated simplification). Bounce after Penner, Can. J. Phys. 80 (2002) 931 (tilt and restitution forms, memory): a rigid
// bounce on a surface tilted toward the ball, with friction that lets it slide throughout or roll at separation. Eight
// bounces with drag-free hops between them, then a roll: a fixed count keeps total smooth for the optimiser.
// Run is the least certain part of the model: at least +-10 yd.
#pragma once

#include "loftwright/core/constants.hpp"
#include "loftwright/core/scalar.hpp"

namespace loftwright {

template <class T>
struct TurfOf {
  T tilt_scale = T(1.0);         // [-] 0..2
  T restitution_scale = T(1.0);  // [-] 0..1.2
  T friction = T(0.4);           // [-] 0.05..1
  T rolling = T(0.1);            // [-] rolling resistance, 0.02..1
};
using Turf = TurfOf<double>;

// Throws InputError naming the field and its range.
void validate(const Turf& turf);

template <class T>
struct RunOf {
  T bounce{};  // [m] from the pitch mark to where the roll begins
  T roll{};    // [m]
};
using Run = RunOf<double>;

template <class T>
struct Bounce {
  T forward;   // [m/s] after the bounce
  T upward;    // [m/s]
  T backspin;  // [rad/s] topspin is negative
};

// One bounce of a ball coming in at `speed`, `below` the horizontal, with `backspin`.
template <class T>
Bounce<T> bounce_once(const T& speed, const T& below, const T& backspin, const TurfOf<T>& turf, double ball_radius) {
  using std::cos, std::sin;
  constexpr double kTiltPerUnit = 15.4 * kDegree / 18.6 / (44.4 * kDegree);  // Penner's tilt: rad per (m/s rad)
  constexpr double kGreatestTilt = 40.0 * kDegree;  // keeps the law in sense for landings shallower than its data (estimate)
  constexpr double kFastest = 20.0;                 // [m/s] restitution is constant from here on

  const T from_vertical = kPi / 2.0 - below;
  const T tilt = min_of(turf.tilt_scale * kTiltPerUnit * speed * from_vertical, T(kGreatestTilt));
  const T c = cos(tilt), s = sin(tilt);
  const T vx = speed * cos(below), vy = speed * sin(below);
  const T along = vx * c - vy * s, into = vx * s + vy * c;
  const T law = 0.510 - 0.0375 * into + 0.000903 * into * into;
  const T e = turf.restitution_scale * select(into < T(kFastest), law, T(0.120));
  const T slip = along + ball_radius * backspin;
  const T grip = turf.friction * (1.0 + e) * into;  // most that friction can take off the tangential speed
  const bool slides = value_of(grip) < 2.0 / 7.0 * std::abs(value_of(slip));
  const T taken = slides ? select(slip < T(0.0), -grip, grip) : 2.0 / 7.0 * slip;
  const T along_out = along - taken;
  const T spin_out = slides ? backspin - 2.5 * taken / ball_radius : -along_out / ball_radius;
  const T out = e * into;
  return {along_out * c - out * s, along_out * s + out * c, spin_out};
}

// Landing speed [m/s], angle below horizontal [rad], backspin [rad/s] -> bounce and roll.
template <class T>
RunOf<T> run_out(T speed, T below, T backspin, const TurfOf<T>& turf, double ball_radius) {
  using std::atan2;
  constexpr int kBounces = 8;
  RunOf<T> run;
  for (int i = 0; i < kBounces; ++i) {
    const Bounce<T> out = bounce_once(speed, below, backspin, turf, ball_radius);
    if (value_of(out.forward) <= 0.0) return run;  // checked back: the run ends here
    if (i < kBounces - 1) {
      run.bounce = run.bounce + 2.0 / kGravity * out.forward * out.upward;
    } else {
      run.roll = out.forward * out.forward / (2.0 * 5.0 / 7.0 * kGravity * turf.rolling);
    }
    speed = length_of(out.forward * out.forward + out.upward * out.upward);
    below = atan2(out.upward, out.forward);
    backspin = out.backspin;
  }
  return run;
}

}  // namespace loftwright
