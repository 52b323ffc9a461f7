/// @file
/// Physical constants the whole model shares. SI.
#pragma once

namespace loftwright {

inline constexpr double kPi = 3.14159265358979323846;   ///< [rad]
inline constexpr double kDegree = kPi / 180.0;          ///< [rad]
inline constexpr double kGravity = 9.80665;             ///< [m/s^2] standard gravity, ISO 80000-3 / CGPM 1901
inline constexpr double kStandardPressure = 101325.0;   ///< [Pa] ISO 2533 sea level
inline constexpr double kStandardTemperature = 288.15;  ///< [K] ISO 2533 sea level
inline constexpr double kCelsiusZero = 273.15;          ///< [K] 0 degC, exact

}  // namespace loftwright
