// Keys and ranges of what more than one kind of file holds. Ranges as the structs state them.
#pragma once

#include <array>

#include "files/json_reader.hpp"
#include "loftwright/pupil/pupil.hpp"

namespace loftwright {

inline constexpr Range kClubSpeedRange{9.0, 72.0, "m/s"};
inline constexpr Range kAttackRange{-20.0, 20.0, "deg"};
inline constexpr Range kLoftRange{4.0, 30.0, "deg"};
inline constexpr Range kPressureRange{5e4, 1.1e5, "Pa"};

inline constexpr std::array kDeliveryFields{
    Field<Delivery>{"club_speed", Dimension::speed, &Delivery::club_speed, kClubSpeedRange},
    Field<Delivery>{"attack", Dimension::angle, &Delivery::attack, kAttackRange},
    Field<Delivery>{"dynamic_loft", Dimension::angle, &Delivery::dynamic_loft, {-5.0, 60.0, "deg"}},
    Field<Delivery>{"path", Dimension::angle, &Delivery::path, {-30.0, 30.0, "deg"}, Need::optional},
    Field<Delivery>{"face", Dimension::angle, &Delivery::face, {-30.0, 30.0, "deg"}, Need::optional},
    Field<Delivery>{"toe", Dimension::length, &Delivery::toe, {-50.0, 50.0, "mm"}, Need::optional},
    Field<Delivery>{"high", Dimension::length, &Delivery::high, {-30.0, 30.0, "mm"}, Need::optional},
};

// The top of the altitude is where the standard pressure still lies within the range of Weather.
inline constexpr std::array kWeatherFields{
    Field<Conditions>{"altitude", Dimension::length, &Conditions::altitude, {-500.0, 5500.0, "m"}, Need::optional},
    Field<Conditions>{
        "temperature", Dimension::temperature, &Conditions::temperature, {-40.0, 55.0, "C"}, Need::optional},
    Field<Conditions>{"humidity", Dimension::ratio, &Conditions::humidity, {0.0, 100.0, "%"}, Need::optional},
};

inline constexpr std::array kWindFields{
    Field<Wind>{"wind", Dimension::speed, &Wind::speed, {0.0, 30.0, "m/s"}, Need::optional},
    Field<Wind>{"wind_from", Dimension::angle, &Wind::from, {-360.0, 360.0, "deg"}, Need::optional},
    Field<Wind>{"wind_height", Dimension::length, &Wind::height, {kLowestWind, kHighestWind, "m"}, Need::optional},
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
