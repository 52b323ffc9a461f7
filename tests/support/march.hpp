// The classical fourth-order Runge-Kutta step, the plainest integrator there is, for following the flight's right-hand
// side where fly() cannot start (from a height, downwards) and for measuring the order of convergence.
#pragma once

#include "loftwright/flight/flight.hpp"

namespace loftwright::test {

using FlightState = std::array<double, 7>;  // x y z vx vy vz w

template <class Equation>
FlightState march(const Equation& equation, FlightState y, double time, int steps) {
  const double h = time / steps;
  auto slope = [&](const FlightState& at) {
    FlightState dy;
    equation(at, dy, 0.0);
    return dy;
  };
  auto moved = [&](const FlightState& by, double dt) {
    FlightState at = y;
    for (std::size_t i = 0; i < at.size(); ++i) at[i] += dt * by[i];
    return at;
  };
  for (int n = 0; n < steps; ++n) {
    const FlightState a = slope(y), b = slope(moved(a, h / 2)), c = slope(moved(b, h / 2)), d = slope(moved(c, h));
    for (std::size_t i = 0; i < y.size(); ++i) y[i] += h / 6 * (a[i] + 2 * b[i] + 2 * c[i] + d[i]);
  }
  return y;
}

}  // namespace loftwright::test
