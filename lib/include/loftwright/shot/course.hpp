// Where a ball is struck, as people say it: the ball, the turf and the weather.
#pragma once

#include <optional>
#include <string>

#include "loftwright/air/air.hpp"
#include "loftwright/air/wind.hpp"

namespace loftwright {
/// Weather and ground of a drive.
struct Conditions {
  double altitude = 0.0;           ///< [m] used for pressure when there is no station pressure
  std::optional<double> pressure;  ///< [Pa] station
  double temperature = 293.15;     ///< [K]
  double humidity = 0.5;           ///< [-]
  Wind wind;                       ///< calm
  std::string turf = "medium";     ///< a data file's id or path
};

/// Pressure is the standard atmosphere's at that altitude unless the station's is given. Throws InputError.
inline Air air_from(const Conditions& c) {
  return air_from(
      Weather{c.temperature, c.pressure ? *c.pressure : standard_atmosphere(c.altitude).pressure, c.humidity});
}

/// Ball, turf and weather.
struct Course {
  std::string ball = "reference";  ///< a data file's id or path
  Conditions conditions{};         ///< weather and turf
};

}  // namespace loftwright
