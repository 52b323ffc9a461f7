#include "loftwright/ground/run.hpp"

#include "loftwright/core/error.hpp"

namespace loftwright {

void validate(const Turf& turf) {
  check_range("turf tilt scale", turf.tilt_scale, 0.0, 2.0, "");
  check_range("turf restitution scale", turf.restitution_scale, 0.0, 1.2, "");
  check_range("turf friction", turf.friction, 0.05, 1.0, "");
  check_range("turf rolling resistance", turf.rolling, 0.02, 1.0, "");
}

}  // namespace loftwright
