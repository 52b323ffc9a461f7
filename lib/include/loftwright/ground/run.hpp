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
  T forward;   // [m/s] after the bounce; negative: checked back
  T upward;    // [m/s]
  T backspin;  // [rad/s] topspin is negative
};

// One bounce of a ball that comes in `forward` and `downward` [m/s, > 0] with `backspin` [rad/s].
template <class T>
Bounce<T> bounce_once(const T& forward, const T& downward, const T& backspin, const TurfOf<T>& turf, double ball_radius) {
  constexpr double kTiltPerUnit = 15.4 * kDegree / 18.6 / (44.4 * kDegree);  // Penner's tilt: rad per (m/s rad)
  constexpr double kGreatestTilt = 40.0 * kDegree;  // keeps the law in sense for landings shallower than its data (estimate)
  constexpr double kFastest = 20.0;                 // [m/s] restitution is constant from here on

  const T speed = length_of(forward * forward + downward * downward);
  const T from_vertical = arctangent(forward, downward);
  const T tilt = min_of(turf.tilt_scale * kTiltPerUnit * speed * from_vertical, T(kGreatestTilt));
  const auto [s, c] = sin_cos_of_small(tilt);
  const T along = forward * c - downward * s, into = forward * s + downward * c;
  const T law = 0.510 - 0.0375 * into + 0.000903 * into * into;
  const T e = turf.restitution_scale * select(into < T(kFastest), law, T(0.120));
  const double per_radius = 1.0 / ball_radius;
  const T slip = along + ball_radius * backspin;
  const T grip = turf.friction * (1.0 + e) * into;  // most that friction can take off the tangential speed
  const auto slides = value_of(grip) < 2.0 / 7.0 * abs_of(value_of(slip));
  const T taken = select(slides, select(slip < T(0.0), -grip, grip), 2.0 / 7.0 * slip);
  const T along_out = along - taken;
  const T spin_out = select(slides, backspin - (2.5 * per_radius) * taken, -per_radius * along_out);
  const T out = e * into;
  return {along_out * c - out * s, along_out * s + out * c, spin_out};
}

// Landing speed [m/s], angle below horizontal [rad], backspin [rad/s] -> bounce and roll.
template <class T>
RunOf<T> run_out(const T& speed, const T& below, const T& backspin, const TurfOf<T>& turf, double ball_radius) {
  constexpr int kBounces = 8;
  RunOf<T> run;
  const SinCos<T> landing = sin_cos(below);
  Bounce<T> ball{speed * landing.cos, speed * landing.sin, backspin};  // what went up comes down as fast
  LogicOf<T> running = is_finite(value_of(speed));
  for (int i = 0; i < kBounces; ++i) {
    ball = bounce_once(ball.forward, ball.upward, ball.backspin, turf, ball_radius);
    running = running & (value_of(ball.forward) > 0.0);
    if (!any(running)) break;  // checked back: the run ends here
    if (i < kBounces - 1) {
      run.bounce = run.bounce + select(running, 2.0 / kGravity * ball.forward * ball.upward, T(0.0));
    } else {
      run.roll = select(running, ball.forward * ball.forward / (2.0 * 5.0 / 7.0 * kGravity * turf.rolling), T(0.0));
    }
  }
  return run;
}

}  // namespace loftwright
