// What more than one kind of file holds: the rows of the table of quantities, and the members they fill.
#pragma once

#include <array>

#include "files/json_reader.hpp"
#include "loftwright/pupil/pupil.hpp"

namespace loftwright {

inline constexpr std::array kDeliveryFields{
    field(Quantity::club_speed, &Delivery::club_speed),     field(Quantity::attack, &Delivery::attack),
    field(Quantity::dynamic_loft, &Delivery::dynamic_loft), field(Quantity::path, &Delivery::path, Need::optional),
    field(Quantity::face, &Delivery::face, Need::optional), field(Quantity::toe, &Delivery::toe, Need::optional),
    field(Quantity::high, &Delivery::high, Need::optional),
};

inline constexpr std::array kWeatherFields{
    field(Quantity::altitude, &Conditions::altitude, Need::optional),
    field(Quantity::temperature, &Conditions::temperature, Need::optional),
    field(Quantity::humidity, &Conditions::humidity, Need::optional),
};

inline constexpr std::array kWindFields{
    field(Quantity::wind, &Wind::speed, Need::optional),
    field(Quantity::wind_from, &Wind::from, Need::optional),
    field(Quantity::wind_height, &Wind::height, Need::optional),
};

inline std::optional<WindProfile> read_wind_profile(ObjectReader& reader, Need need) {
  return reader.word<WindProfile>(
      "wind_profile",
      {{"uniform", WindProfile::uniform}, {"logarithmic", WindProfile::logarithmic}, {"power", WindProfile::power}},
      need);
}

inline std::optional<Handed> read_handed(ObjectReader& reader, Need need) {
  return reader.word<Handed>("handed", {{"right", Handed::right}, {"left", Handed::left}}, need);
}

}  // namespace loftwright
