/// @file
/// Wind over the course: a speed and bearing at one height, and how it falls off towards the ground.
#pragma once

#include <string_view>

#include "loftwright/core/detail/vec3.hpp"

namespace loftwright {

/// Both laws take Y(y) = (y + sqrt(y^2 + 4 y0^2)) / 2 for the height: y itself from a few metres up, y0 at the ground.
/// The true laws bend ever more sharply towards the ground, which costs an integrator that must step across it dearly
/// and changes a carry of 200 m in a wind of 5 m/s by 0.2 m. Y is smooth below ground too, where the last step of a
/// flight looks.
enum class WindProfile {
  uniform,      ///< the same at every height
  logarithmic,  ///< u(y) = u_h ln(Y(y) / z0) / ln(Y(h) / z0), z0 = 0.03 m: open short grass, WMO-No. 8 class 3 (memory)
  power,        ///< u(y) = u_h (Y(y) / Y(h))^(1/7), open land (common practice in wind engineering)
};
std::string_view key_of(WindProfile profile);  ///< "uniform", ...

/// A level wind. Its bearing is told from the target line.
struct Wind {
  double speed = 0.0;    ///< [m/s] at `height`, 0 .. 30
  double from = 0.0;     ///< [rad] bearing it blows from: 0 from the target, +90 deg from the right
  double height = 10.0;  ///< [m] where it was measured, 1 .. 100; 10 m: the standard
  WindProfile profile = WindProfile::logarithmic;  ///< how it falls off towards the ground

  bool calm() const { return speed == 0.0; }  ///< no wind at all
};

/// Air velocity over the course, world frame: what a wind leaves to compute at each height.
class WindField {
 public:
  /// Takes what the ranges of Wind allow; they are not looked at here.
  explicit WindField(const Wind& wind) : profile_(wind.profile) {
    if (wind.calm()) return;
    const double measured = rounded(wind.height);
    if (profile_ == WindProfile::logarithmic) {
      scale_ = 1.0 / logarithm(measured / kRoughness);
    } else if (profile_ == WindProfile::power) {
      scale_ = std::pow(measured, -kExponent);
    }
    const SinCos<double> from = sin_cos(wind.from);
    along_ = -wind.speed * from.cos;
    right_ = -wind.speed * from.sin;
  }

  /// At height y [m] above the ground. [m/s]
  template <class T>
  Vec3<T> at(const T& y) const {
    using std::pow;
    T factor(1.0);
    if (profile_ == WindProfile::logarithmic) {
      factor = scale_ * logarithm(rounded(y) * (1.0 / kRoughness));
    } else if (profile_ == WindProfile::power) {
      factor = scale_ * pow(rounded(y), kExponent);
    }
    return {along_ * factor, T(0.0), right_ * factor};
  }

 private:
  static constexpr double kLowest = 2.0;          ///< [m] y0 (estimate)
  static constexpr double kRoughness = 0.03;      ///< [m] z0
  static constexpr double kExponent = 1.0 / 7.0;  ///< [-]

  template <class T>
  static T rounded(const T& y) {
    using std::sqrt;
    return 0.5 * (y + sqrt(y * y + 4.0 * kLowest * kLowest));
  }

  WindProfile profile_;
  double scale_ = 1.0;
  double along_ = 0.0, right_ = 0.0;  ///< [m/s] where the law is 1
};

}  // namespace loftwright
