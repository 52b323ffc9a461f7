// Wind over the course: a speed and bearing at one height, and how it falls off towards the ground.
#pragma once

#include "loftwright/core/vec3.hpp"

namespace loftwright {

// Both laws take Y(y) = (y + sqrt(y^2 + 4 y0^2)) / 2 for the height: y itself from a few metres up, y0 at the ground. The
// true laws bend ever more sharply towards the ground, which costs an integrator that must step across it dearly and
// changes a carry of 200 m in a wind of 5 m/s by 0.2 m. Y is smooth below ground too, where the last step of a flight looks.
enum class WindProfile {
  uniform,      // the same at every height
  logarithmic,  // u(y) = u_h ln(Y(y) / z0) / ln(Y(h) / z0), z0 = 0.03 m: open short grass, WMO-No. 8 class 3 (memory)
  power,        // u(y) = u_h (Y(y) / Y(h))^(1/7), open land (common practice in wind engineering)
};

struct Wind {
  double speed = 0.0;                              // [m/s] at `height`, 0 .. 30
  double from = 0.0;                               // [rad] bearing it blows from: 0 from the target, +90 deg from the right
  double height = 10.0;                            // [m] where the speed was measured (10 m: the meteorological standard)
  WindProfile profile = WindProfile::logarithmic;

  bool calm() const { return speed == 0.0; }
};

// Air velocity at height y [m] above the ground, world frame [m/s].
template <class T>
Vec3<T> wind_at(const Wind& wind, const T& y) {
  using std::log, std::pow, std::sqrt;
  constexpr double kLowest = 2.0, kRoughness = 0.03;  // [m] y0 (estimate), z0
  const auto rounded = [&](const auto& at) { return 0.5 * (at + sqrt(at * at + 4.0 * kLowest * kLowest)); };
  const T height = rounded(y);
  const double measured = rounded(wind.height);
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
