#include "loftwright/flight/flight.hpp"

#include "flight/integrate.hpp"

namespace loftwright {

std::string_view sentence(FlightEnd end) {
  switch (end) {
    case FlightEnd::landed: return "the ball landed";
    case FlightEnd::never_rose: return "the ball left level or downwards and never rose: it has no carry, only a run";
    case FlightEnd::time_limit: return "the ball was still in the air after 60 s";
    case FlightEnd::not_finite:
      return "the flight could not be computed: an input is no finite number or lies far outside its range";
  }
  return "";
}

std::string_view key_of(FlightEnd end) {
  switch (end) {
    case FlightEnd::landed: return "landed";
    case FlightEnd::never_rose: return "never_rose";
    case FlightEnd::time_limit: return "time_limit";
    case FlightEnd::not_finite: return "not_finite";
  }
  return "";
}

template <>
Flight fly(const Launch& launch, const FlightSetting& setting, double tolerance) {
  return std::visit(
      [&](const auto& form) { return detail::integrate(launch, setting, form, tolerance, [](const auto&) {}); },
      setting.aero->form);
}

std::vector<FlightPoint> trace(const Launch& launch, const FlightSetting& setting, int count) {
  const Flight flight = fly(launch, setting);
  const auto points = static_cast<std::size_t>(count);
  std::vector<FlightPoint> path{{0.0, {}}};
  const double spacing = flight.time / (count - 1);
  std::visit(
      [&](const auto& form) {
        detail::integrate(launch, setting, form, kFlightTolerance, [&](const detail::FlightStep<double>& step) {
          while (path.size() < points - 1 && spacing * static_cast<double>(path.size()) <= step.start + step.length) {
            const double t = spacing * static_cast<double>(path.size()), share = (t - step.start) / step.length;
            path.push_back({t, {step.at(0, share), step.at(1, share), step.at(2, share)}});
          }
        });
      },
      setting.aero->form);
  path.resize(points, {flight.time, {flight.carry, 0.0, flight.side}});
  return path;
}

}  // namespace loftwright
