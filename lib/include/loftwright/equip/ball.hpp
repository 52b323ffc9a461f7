/// @file
/// The ball as a rigid body. Its aerodynamics live in aero/.
#pragma once

#include "loftwright/core/constants.hpp"

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

/// Throws InputError naming the field that is outside 0.02..0.06 kg, 0.018..0.025 m, 0.3..0.5, 0..1e-3.
void validate(const Ball& ball);

}  // namespace loftwright
