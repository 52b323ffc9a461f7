// Which reading is which member of the model's structs.
#pragma once

#include "loftwright/flight/flight.hpp"
#include "loftwright/impact/impact.hpp"
#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shots/reading.hpp"

namespace loftwright {

struct DeliveryPart {
  Reading reading;
  double Delivery::*value;
  double Spread::*spread;
  bool needed;  // without it there is no delivery; the others are zero when nobody measured them
};
inline constexpr DeliveryPart kDeliveryParts[kSpreadQuantities] = {  // in the order of Spread
    {Reading::club_speed, &Delivery::club_speed, &Spread::club_speed, true},
    {Reading::attack, &Delivery::attack, &Spread::attack, true},
    {Reading::path, &Delivery::path, &Spread::path, false},
    {Reading::face, &Delivery::face, &Spread::face, false},
    {Reading::dynamic_loft, &Delivery::dynamic_loft, &Spread::dynamic_loft, true},
    {Reading::toe, &Delivery::toe, &Spread::toe, false},
    {Reading::high, &Delivery::high, &Spread::high, false},
};

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
