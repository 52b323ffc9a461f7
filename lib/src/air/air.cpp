#include "loftwright/air/air.hpp"

#include <cmath>

#include "loftwright/air/wind.hpp"
#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/quantity.hpp"

namespace loftwright {

StandardLevel standard_atmosphere(double altitude) {
  check_range("altitude", altitude, -500.0, 11000.0, "m");
  constexpr double kLapse = 0.0065, kGasConstant = 287.05287;  // [K/m], [J/(kg K)] ISO 2533
  const double temperature = kStandardTemperature - kLapse * altitude;
  const double pressure =
      kStandardPressure * std::pow(temperature / kStandardTemperature, kGravity / (kLapse * kGasConstant));
  return {temperature, pressure, pressure / (kGasConstant * temperature)};
}

double moist_air_density(const Weather& weather) {
  // Names and constants as in Picard et al. 2008, eq. 1 and appendix A; carbon dioxide at its standard 400 ppm.
  const double T = weather.temperature, t = T - kCelsiusZero, p = weather.pressure;
  const double psv = std::exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T);
  const double f = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  const double xv = weather.humidity * f * psv / p;
  const double Z = 1.0 -
                   p / T *
                       (1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t + (5.707e-6 - 2.051e-8 * t) * xv +
                        (1.9898e-4 - 2.376e-6 * t) * xv * xv) +
                   (p / T) * (p / T) * (1.83e-11 - 0.765e-8 * xv * xv);
  return 3.483740e-3 * p / (Z * T) * (1.0 - 0.3780 * xv);
}

double air_viscosity(double temperature) { return 1.458e-6 * std::pow(temperature, 1.5) / (temperature + 110.4); }

Air air_from(const Weather& weather) {
  check(Quantity::temperature, weather.temperature);
  check(Quantity::pressure, weather.pressure);
  check(Quantity::humidity, weather.humidity);
  return {moist_air_density(weather), air_viscosity(weather.temperature)};
}

std::string_view key_of(WindProfile profile) {
  switch (profile) {
    case WindProfile::uniform: return "uniform";
    case WindProfile::logarithmic: return "logarithmic";
    case WindProfile::power: return "power";
  }
  return "";
}

}  // namespace loftwright
