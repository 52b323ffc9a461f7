/// @file
/// The ball as a rigid body. Its aerodynamics live in aero/.
#pragma once

#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/detail/model_number.hpp"

namespace loftwright {

/// A ball without its aerodynamics.
struct Ball {
  double mass = 0.04593;        ///< [kg] rules' upper limit
  double radius = 0.021335;     ///< [m] half the rules' lower limit of diameter
  double inertia_factor = 0.4;  ///< [-] I = factor m r^2; 0.4 is a uniform sphere
  double spin_decay = 2.0e-5;   ///< [-] dw/dt = -decay w V / r (Smits & Smith 1994, memory)

  double area() const { return kPi * radius * radius; }                       ///< [m^2]
  double inertia() const { return inertia_factor * mass * radius * radius; }  ///< [kg m^2]
};

/// Its numbers.
inline constexpr std::array kBallNumbers{
    ModelNumber<Ball>{"mass", "ball mass", Dimension::mass, &Ball::mass, {0.02, 0.06, "kg"}},
    ModelNumber<Ball>{"inertia_factor", "ball inertia factor", std::nullopt, &Ball::inertia_factor, {0.3, 0.5}},
    ModelNumber<Ball>{"spin_decay", "ball spin decay", std::nullopt, &Ball::spin_decay, {0.0, 1e-3}},
    ModelNumber<Ball>{"diameter", "ball diameter", Dimension::length, &Ball::radius, {36.0, 50.0, "mm"}, true, 2.0},
};

/// Throws InputError naming the number and its range.
void validate(const Ball& ball);

}  // namespace loftwright
