#include "loftwright/core/error.hpp"
#include "loftwright/equip/ball.hpp"
#include "loftwright/equip/head.hpp"

namespace loftwright {

void validate(const Ball& ball) {
  check_range("ball mass", ball.mass, 0.02, 0.06, "kg");
  check_range("ball radius", ball.radius, 0.018, 0.025, "m");
  check_range("ball inertia factor", ball.inertia_factor, 0.3, 0.5, "");
  check_range("ball spin decay", ball.spin_decay, 0.0, 1e-3, "");
}

void validate(const Head& head) {
  check_range("head mass", head.mass, 0.1, 0.4, "kg");
  check_range("head inertia about the face normal", head.inertia_normal, 5e-5, 2e-3, "kg m2");
  check_range("head inertia about the up-face axis", head.inertia_up, 5e-5, 2e-3, "kg m2");
  check_range("head inertia about the heel-toe axis", head.inertia_heel_toe, 5e-5, 2e-3, "kg m2");
  check_range("head depth", head.depth, 0.0, 0.08, "m");
  check_range("head bulge radius", head.bulge, 0.1, 10.0, "m");
  check_range("head roll radius", head.roll, 0.1, 10.0, "m");
  check_range("head restitution", head.restitution, 0.5, 0.9, "");
  check_range("head restitution speed", head.restitution_speed, 10.0, 80.0, "m/s");
  check_range("head restitution slope", head.restitution_slope, 0.0, 0.01, "s/m");
  check_range("head tangential restitution", head.tangential_restitution, -1.0, 1.0, "");
  check_range("head friction", head.friction, 0.05, 2.0, "");
  check_range("head width", head.width, 0.0, 3.0, "");
}

}  // namespace loftwright
