// Flights with derivatives along: by loft and attack, by the five numbers of a launch, by what of a tuning acts aloft.
#include "flight/integrate.hpp"

namespace loftwright {

// The search's own: the form of drag and lift is asked for once, as for plain numbers (a seventh of its time).
template <>
FlightOf<Dual<2>> fly(const LaunchOf<Dual<2>>& launch, const FlightSettingOf<Dual<2>>& setting, double tolerance) {
  return std::visit(
      [&](const auto& form) { return detail::integrate(launch, setting, form, tolerance, [](const auto&) {}); },
      setting.aero->form);
}

// Beside more derivatives, asking for it at each call is nothing, and all is compiled once.
template <class T>
FlightOf<T> fly(const LaunchOf<T>& launch, const FlightSettingOf<T>& setting, double tolerance) {
  return detail::integrate(launch, setting, *setting.aero, tolerance, [](const auto&) {});
}

template FlightOf<Dual<4>> fly(const LaunchOf<Dual<4>>&, const FlightSettingOf<Dual<4>>&, double);
template FlightOf<Dual<5>> fly(const LaunchOf<Dual<5>>&, const FlightSettingOf<Dual<5>>&, double);

}  // namespace loftwright
