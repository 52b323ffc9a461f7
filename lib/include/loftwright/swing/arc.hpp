/// @file
/// The clubhead near the ball as a circle of effective radius R in a plane inclined psi to the ground, whose base line
/// points along the swing direction. Low point a distance d ahead of the ball (behind: d < 0), phase phi = asin(d/R):
///     sin(attack) = -sin(phi) sin(psi)        path = swing_direction + atan(tan(phi) cos(psi))
/// Right-hander's signs. Geometry only: nothing here knows about forces.
#pragma once

#include "loftwright/core/error.hpp"

namespace loftwright {

/// The circle the clubhead runs on near the ball.
struct Arc {
  double low_point = 0.0;        ///< [m] ahead of the ball, -0.6 .. +0.6, less than the radius
  double plane = 0.0;            ///< [rad] psi, 20 .. 80 deg from the ground
  double radius = 0.0;           ///< [m] 0.8 .. 2.5
  double swing_direction = 0.0;  ///< [rad] right of target, -30 .. +30 deg
};

/// What it delivers there.
struct ArcAtBall {
  double attack;  ///< [rad]
  double path;    ///< [rad]
  double height;  ///< [m] of the clubhead above its low point
};

/// What the arc delivers at the ball. Throws InputError outside the ranges above.
ArcAtBall at_ball(const Arc& arc);

/// Low point that gives `attack` on a known plane and radius. [rad],[rad],[m] -> [m]. Throws InputError when the plane
/// is too flat for the attack asked.
double low_point_for(double attack, double plane, double radius);

/// Plane and radius from what was measured. Attack and path - swing_direction must have opposite signs and neither be
/// zero (at the low point every plane gives the same numbers); throws InputError otherwise.
Arc arc_from(double attack, double path, double low_point, double swing_direction);

}  // namespace loftwright
