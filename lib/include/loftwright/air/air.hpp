/// @file
/// The air a ball flies through: density and viscosity from what a weather report gives.
#pragma once

namespace loftwright {

/// What a weather report gives.
struct Weather {
  double temperature = 293.15;  ///< [K] 233.15 .. 328.15
  double pressure = 101325.0;   ///< [Pa] station pressure, 50 000 .. 110 000
  double humidity = 0.5;        ///< [-] relative, 0 .. 1
};

/// What the flight needs to know of the air.
struct Air {
  double density;    ///< [kg/m^3]
  double viscosity;  ///< [Pa s] dynamic
};

/// ISO 2533 / US Standard Atmosphere 1976, troposphere, dry. Geopotential altitude [m], -500 .. 11 000.
struct StandardLevel {
  double temperature;  ///< [K]
  double pressure;     ///< [Pa]
  double density;      ///< [kg/m^3] ideal gas, R = 287.05287 J/(kg K)
};
/// Throws InputError for an altitude outside that range.
StandardLevel standard_atmosphere(double altitude);

/// Density of moist air, CIPM-2007 (Picard et al., Metrologia 45 (2008) 149): uncertainty 22 ppm in its range.
double moist_air_density(const Weather& weather);  ///< [kg/m^3]

/// Sutherland's law with the constants of ISO 2533.
double air_viscosity(double temperature);  ///< [K] -> [Pa s]

/// Throws InputError when a field is outside the range stated beside it.
Air air_from(const Weather& weather);

}  // namespace loftwright
