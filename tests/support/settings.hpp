// Models under test, written out from the model's own numbers so that a broken data file cannot hide behind itself.
#pragma once

#include "loftwright/shot/shot.hpp"

namespace loftwright::test {

inline constexpr double kDeg = kPi / 180.0, kMph = 0.44704, kYard = 0.9144, kRpm = kPi / 30.0, kInch = 0.0254;

inline const Ball kBall;

inline const AeroModel& reference_aero() {
  static const AeroModel model{
      "reference",
      "",
      "",
      AeroCurve{
          .drag = 0.181, .drag_spin = 0.543, .drag_reynolds = -0.021, .lift_power = 0.7315, .lift_exponent = 0.628},
      4e4,
      2.5e5,
      0.02,
      0.5};
  return model;
}
inline const AeroModel& smits_smith_aero() {
  static const AeroModel model{
      "smits-smith-1994",
      "",
      "",
      AeroCurve{.drag = 0.24, .drag_spin = 0.18, .drag_wave = 0.06, .lift_power = 0.54, .lift_exponent = 0.4},
      4e4,
      2.5e5,
      0.02,
      0.5};
  return model;
}
inline const AeroModel& linear_aero() {
  static const AeroModel model{
      "linear", "",    "",   AeroCurve{.drag = 0.171, .drag_spin = 0.62, .lift = 0.083, .lift_spin = 0.885},
      4e4,      2.5e5, 0.02, 0.5};
  return model;
}
inline const AeroModel& ballistic_range_aero() {
  static const AeroModel model{"ballistic-range",
                               "",
                               "",
                               AeroCurve{.drag = 0.192,
                                         .drag_spin = 0.373,
                                         .drag_reynolds = -0.021,
                                         .lift_power = 0.460,
                                         .lift_exponent = 0.45,
                                         .crisis = DragCrisis{6e4, 4.5e3, 0.27, 1.6}},
                               4e4,
                               2.5e5,
                               0.02,
                               0.5};
  return model;
}
inline Turf firm() { return {18.0 * kDeg, 0.60, 0.15, 0.010, 2.5, 0.9, 1.0, 1.0}; }
inline Turf medium() { return {21.4 * kDeg, 0.53, 0.23, 0.012, 2.5, 0.9, 1.0, 1.0}; }
inline Turf soft() { return {25.0 * kDeg, 0.40, 0.33, 0.016, 2.5, 0.9, 1.0, 1.5}; }

// 20 degC, sea level, 50 % RH, calm, medium turf.
inline Setting default_setting() { return {Head{}, Ball{}, reference_aero(), medium(), air_from(Weather{}), Wind{}}; }

// What a run needs of a setting.
inline RunSetting run_setting(const Setting& in) {
  return {in.turf, &in.ball, &in.aero, in.air, in.drag_scale, in.lift_scale};
}

}  // namespace loftwright::test
