// Wind over the course: a speed and bearing at one height, and how it falls off towards the ground.
#pragma once

#include "loftwright/core/vec3.hpp"

namespace loftwright {

// Both laws are blown up by kLowest, the depth of air that hugs the ground: the true laws bend ever more sharply towards
// it, and the ball is through the first half metre in a twentieth of a second.
enum class WindProfile {
  uniform,      // the same at every height
  logarithmic,  // u(y) = u_h ln((y + y0) / z0) / ln((h + y0) / z0), z0 = 0.03 m: open short grass, WMO-No. 8 class 3 (memory)
  power,        // u(y) = u_h ((y + y0) / (h + y0))^(1/7), open land (common practice in wind engineering)
};

struct Wind {
  double speed = 0.0;                              // [m/s] at `height`, 0 .. 30
  double from = 0.0;                               // [rad] bearing it blows from: 0 from the target, +90 deg from the right
  double height = 10.0;                            // [m] where the speed was measured (10 m: the meteorological standard)
  WindProfile profile = WindProfile::logarithmic;

  bool calm() const { return speed == 0.0; }
};

// Air velocity at height y [m] above the ground, world frame [m/s]. Below ground the ground's value.
template <class T>
Vec3<T> wind_at(const Wind& wind, const T& y) {
  using std::log, std::pow;
  constexpr double kLowest = 0.5, kRoughness = 0.03;  // [m] y0 (estimate), z0
  const T height = max_of(y, T(0.0)) + kLowest;
  const double measured = wind.height + kLowest;
  T factor(1.0);
  if (wind.profile == WindProfile::logarithmic) {
    factor = log(height / kRoughness) / std::log(measured / kRoughness);
  } else if (wind.profile == WindProfile::power) {
    factor = pow(height / measured, 1.0 / 7.0);
  }
  const T speed = wind.speed * factor;
  return {-std::cos(wind.from) * speed, T(0.0), -std::sin(wind.from) * speed};
}

}  // namespace loftwright
