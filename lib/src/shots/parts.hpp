// Which reading is which member of the model's structs.
#pragma once

#include <array>

#include "loftwright/flight/flight.hpp"
#include "loftwright/impact/impact.hpp"
#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shots/reading.hpp"

namespace loftwright {

struct DeliveryPart {
  Reading reading;
  double Delivery::*value;
  double Spread::*spread;
  bool needed;
};
inline constexpr auto kDeliveryParts = [] {
  std::array<DeliveryPart, kSpreadQuantities> out{};
  for (std::size_t i = 0; i < out.size(); ++i) {
    const DeliveryQuantity& q = kDeliveryQuantities[i];
    out[i] = {static_cast<Reading>(q.quantity), q.value, q.spread, q.needed};
  }
  return out;
}();

template <class T>
struct LaunchPart {
  Reading reading;
  T LaunchOf<T>::*value;
  bool needed;
};
template <class T>
inline constexpr LaunchPart<T> kLaunchParts[] = {
    {Reading::ball_speed, &LaunchOf<T>::ball_speed, true},
    {Reading::launch, &LaunchOf<T>::launch, true},
    {Reading::azimuth, &LaunchOf<T>::azimuth, false},
    {Reading::spin, &LaunchOf<T>::spin, true},
    {Reading::tilt, &LaunchOf<T>::tilt, false},
};

template <class T>
struct FlightPart {
  Reading reading;
  T FlightOf<T>::*value;
};
template <class T>
inline constexpr FlightPart<T> kFlightParts[] = {
    {Reading::carry, &FlightOf<T>::carry},
    {Reading::side, &FlightOf<T>::side},
    {Reading::apex, &FlightOf<T>::apex},
    {Reading::landing, &FlightOf<T>::landing_angle},
};

}  // namespace loftwright
