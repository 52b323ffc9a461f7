// The law of the run, for run.cpp and the lanes; everyone else calls `run_out`.
//     tilt = b0 (1 - exp(-u / fade))            the surface leans toward a ball that digs in, not toward one that skims
//     e = e0 / (1 + n / 9 m/s)                  n: speed into the leaning surface
//     friction: slides throughout, or leaves rolling, 2/7 of the slip lost
//     rise = up / (1 + (up / (limit u))^4)^(1/4)    a ball never rises faster than it fell, times the limit
// Eight bounces, hops with drag and Magnus force in closed form between them, then a roll against rolling resistance
// and grass. Level of tilt and of friction: 693 bounces on natural turf (Biber et al., Sports Eng. 26 (2023),
// second-hand); forms and the rest are estimates. A fixed count of bounces and no branch on size keep total smooth over
// loft.
#pragma once

#include "loftwright/ground/run.hpp"

namespace loftwright::detail {

template <class T>
struct Bounce {
  T forward;   // [m/s] after the bounce; negative: checked back
  T upward;    // [m/s]
  T backspin;  // [rad/s] topspin is negative
};

// One bounce of a ball that comes in `forward` and `downward` [m/s, >= 0] with `backspin` [rad/s].
template <class T>
Bounce<T> bounce_once(const T& forward, const T& downward, const T& backspin, const TurfOf<T>& turf,
                      double ball_radius) {
  constexpr double kHalvingSpeed = 9.0;  // [m/s] into the turf, at which restitution is half (estimate)

  const T tilt = turf.tilt * (1.0 - exponential(-(downward / turf.tilt_speed)));
  const auto [s, c] = sin_cos_of_small(tilt);
  const T along = forward * c - downward * s, into = forward * s + downward * c;
  const T e = turf.restitution / (1.0 + into * (1.0 / kHalvingSpeed));
  const double per_radius = 1.0 / ball_radius;
  const T slip = along + ball_radius * backspin;
  const T grip = turf.friction * (1.0 + e) * into;  // most that friction can take off the tangential speed
  const auto slides = value_of(grip) < 2.0 / 7.0 * abs_of(value_of(slip));
  const T taken = select(slides, select(slip < T(0.0), -grip, grip), 2.0 / 7.0 * slip);
  const T along_out = along - taken;
  const T spin_out = select(slides, backspin - (2.5 * per_radius) * taken, -per_radius * along_out);
  const T out = e * into;

  const T up = along_out * s + out * c, limit = turf.rise * downward;
  const T up_squared = up * up, limit_squared = limit * limit;
  const T fourth = length_of(length_of(up_squared * up_squared + limit_squared * limit_squared));
  const T rise = limit * up / max_of(fourth, T(1e-30));  // no fall, no rise
  return {along_out * c - out * s, rise, spin_out};
}

// A hop that leaves the turf as `ball`: its way [m], and the forward speed left at its end. Forward drag over the way;
// drag and Magnus force of the start (topspin pulls down), which may hold the ball up by three quarters of its weight.
template <class T>
struct Hop {
  T way;      // [m]
  T forward;  // [m/s]
};
template <class T, class Form>
Hop<T> hop(const Bounce<T>& ball, const RunSettingOf<T>& in, const Form& form) {
  using std::sqrt;
  constexpr double kLeastGravity = 0.25 * kGravity;
  constexpr double kLeastDrag = 1e-6;  // [1/m] a user's model may have none at such speeds
  const double radius = in.ball->radius;
  const double slowing = 0.5 * in.air.density * in.ball->area() / in.ball->mass;
  const T speed = sqrt(max_of(ball.forward * ball.forward + ball.upward * ball.upward, T(1e-30)));
  const T reynolds = (2.0 * in.air.density * radius / in.air.viscosity) * speed;
  const T spin_ratio = min_of(radius * abs_of(ball.backspin) / speed, T(kGreatestSpinRatio));
  const AeroCoefficients<T> c = form.at(reynolds, spin_ratio);
  const T drag = max_of(slowing * in.drag_scale * c.drag, T(kLeastDrag));
  const T pull = slowing * in.lift_scale * c.lift * speed * ball.forward;
  const T gravity = max_of(kGravity - select(ball.backspin < T(0.0), -pull, pull), T(kLeastGravity));
  const T growth = 1.0 + drag * ball.forward * (2.0 * ball.upward / gravity);
  return {logarithm(growth) / drag, ball.forward / growth};
}

template <class T, class Form>
RunOf<T> run_on(const LandingOf<T>& landing, const RunSettingOf<T>& in, const Form& form) {
  constexpr int kBounces = 8;
  RunOf<T> run;
  const SinCos<T> below = sin_cos(landing.below);
  T forward = landing.speed * below.cos, downward = landing.speed * below.sin, backspin = landing.backspin;
  LogicOf<T> running = is_finite(value_of(landing.speed));
  for (int i = 0; i < kBounces; ++i) {
    Bounce<T> ball = bounce_once(forward, downward, backspin, in.turf, in.ball->radius);
    running = running & (value_of(ball.forward) > 0.0);
    if (!any(running)) break;  // checked back: the run ends here
    if (i < kBounces - 1) {
      ball.forward = select(running, ball.forward, T(0.0));
      const Hop<T> h = hop(ball, in, form);
      run.bounce = run.bounce + select(running, h.way, T(0.0));
      forward = h.forward;
      downward = ball.upward;  // what went up comes down as fast
      backspin = ball.backspin;
    } else {
      const T slowing = (5.0 / 7.0 * kGravity) * in.turf.rolling;
      const T way = logarithm(1.0 + in.turf.grass * ball.forward * ball.forward / slowing) / (2.0 * in.turf.grass);
      run.roll = select(running, way, T(0.0));
    }
  }
  return run;
}

}  // namespace loftwright::detail
