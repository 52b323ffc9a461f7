// Flights with derivatives along: by loft and attack, by the five numbers of a launch, by everything that can be tuned.
// Beside derivatives, asking for the form of drag and lift at each call is nothing, and all is compiled once.
#include "flight/integrate.hpp"

namespace loftwright {

template <class T>
FlightOf<T> fly(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, double tolerance) {
  return detail::integrate(launch, setting, *setting.aero, tolerance, [](const auto&) {});
}

template FlightOf<Dual<2>> fly(const LaunchOf<Dual<2>>&, const FlightSettingOf<Dual<2>>&, double);
template FlightOf<Dual<5>> fly(const LaunchOf<Dual<5>>&, const FlightSettingOf<Dual<5>>&, double);
template FlightOf<Dual<8>> fly(const LaunchOf<Dual<8>>&, const FlightSettingOf<Dual<8>>&, double);

}  // namespace loftwright
