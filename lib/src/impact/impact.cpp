#include "loftwright/impact/impact.hpp"

#include <Eigen/LU>

#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/error.hpp"
#include "loftwright/core/quantity.hpp"

namespace loftwright {

namespace {

using Five = Dual<5>;

// The five launch numbers as independent, comparable quantities: the two parts of spin instead of its tilt, so that
// nothing wraps.
Eigen::Matrix<double, 5, 1> aims(const Launch& l) {
  const SinCos<double> tilt = sin_cos(l.tilt);
  return (Eigen::Matrix<double, 5, 1>() << l.ball_speed, l.launch, l.azimuth, l.spin * tilt.cos, l.spin * tilt.sin)
      .finished();
}

}  // namespace

void validate(const Launch& launch) {
  check(Quantity::ball_speed, launch.ball_speed);
  check(Quantity::launch, launch.launch);
  check(Quantity::azimuth, launch.azimuth);
  check(Quantity::spin, launch.spin);
  check(Quantity::tilt, launch.tilt);
}

double greatest_smash(const Head& head, const Ball& ball, double club_speed) {
  const Delivery square{.club_speed = club_speed};
  return strike_ball(square, head, ball).launch.ball_speed / club_speed;
}

Delivery delivery_behind(const Launch& launch, const Head& head, const Ball& ball) {
  validate(launch);
  const HeadOf<Five> dual_head = head_in<Five>(head);
  // Newton on five equations, damped by halving; a driver's launch lies close to its loft, so this start serves.
  Eigen::Matrix<double, 5, 1> x;
  x << launch.ball_speed / 1.45, launch.launch * 0.2, launch.azimuth, launch.azimuth, launch.launch * 1.2;
  const Eigen::Matrix<double, 5, 1> goal = aims(launch);
  const Eigen::Matrix<double, 5, 1> scale = (Eigen::Matrix<double, 5, 1>() << 1.0, 0.01, 0.01, 10.0, 10.0).finished();
  auto strike = [&](const Eigen::Matrix<double, 5, 1>& at, Eigen::Matrix<double, 5, 5>* jacobian) {
    DeliveryOf<Five> d;
    d.club_speed = Five::variable(at[0], 0);
    d.attack = Five::variable(at[1], 1);
    d.path = Five::variable(at[2], 2);
    d.face = Five::variable(at[3], 3);
    d.dynamic_loft = Five::variable(at[4], 4);
    const LaunchOf<Five> l = strike_ball(d, dual_head, ball).launch;
    const SinCos<Five> tilt = sin_cos(l.tilt);
    const Five out[5] = {l.ball_speed, l.launch, l.azimuth, l.spin * tilt.cos, l.spin * tilt.sin};
    Eigen::Matrix<double, 5, 1> miss;
    for (int i = 0; i < 5; ++i) {
      miss[i] = out[i].v - goal[i];
      for (int j = 0; jacobian && j < 5; ++j) (*jacobian)(i, j) = out[i].d[j];
    }
    return miss;
  };
  Eigen::Matrix<double, 5, 5> jacobian;
  Eigen::Matrix<double, 5, 1> miss = strike(x, &jacobian);
  for (int round = 0; round < 60; ++round) {
    const double size = miss.cwiseQuotient(scale).norm();
    if (size < 1e-9) {
      const Delivery d{x[0], x[1], x[2], x[3], x[4], 0.0, 0.0};
      validate(d);
      return d;
    }
    const Eigen::Matrix<double, 5, 1> step = jacobian.fullPivLu().solve(miss);
    double damping = 1.0;
    while (damping > 1e-4) {
      const Eigen::Matrix<double, 5, 1> next = x - damping * step;
      if (next.allFinite() && next[0] > 1.0 && next[0] < 120.0 && next.tail(4).cwiseAbs().maxCoeff() < 1.2) {
        const Eigen::Matrix<double, 5, 1> next_miss = strike(next, nullptr);
        if (next_miss.allFinite() && next_miss.cwiseQuotient(scale).norm() < size) {
          x = next;
          break;
        }
      }
      damping *= 0.5;
    }
    if (damping <= 1e-4) break;
    miss = strike(x, &jacobian);
  }
  throw InputError(
      "no driver delivery gives this launch: ball speed, launch and spin do not fit together (spin loft follows spin; "
      "at a given launch more spin needs a steeper attack)");
}

}  // namespace loftwright
