/// @file
/// What a shot list can tell about a shot: the first rows of the table of quantities (core/quantity.hpp), where a new
/// one is added.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "loftwright/core/detail/enum_array.hpp"
#include "loftwright/core/quantity.hpp"

namespace loftwright {

/// Signs as in Delivery and Launch: attack up; path, face, swing direction, azimuth and side right of target; tilt
/// curves right; toe towards the toe; high up the face; low point ahead of the ball. The same for left-handers: right
/// is right, toe stays toe.
enum class Reading {
  club_speed,
  attack,
  path,
  face,
  dynamic_loft,
  swing_direction,
  low_point,
  toe,
  high,
  spin_loft,
  ball_speed,
  launch,
  azimuth,
  spin,
  tilt,
  smash,
  carry,
  total,
  side,
  apex,
  landing,
};
template <>
inline constexpr std::size_t kCountOf<Reading> = 21;  ///< how many there are

/// One entry for each reading.
template <class T>
using ByReading = EnumArray<Reading, T>;

constexpr Quantity quantity_of(Reading reading) { return static_cast<Quantity>(reading); }  ///< its row in the table

/// What there is to know of a reading.
struct ReadingInfo {
  Reading reading;         ///< which
  std::string_view key;    ///< in files and after --map: "club_speed"
  std::string_view title;  ///< in sentences: "club speed"
  Dimension dimension;     ///< what its units are of
  std::string_view unit;   ///< symbol, for keys and for values that had no column of their own; "" for the speed ratio
  double low;              ///< [SI] no golf shot lies below ...
  double high;             ///< [SI] ... or above; for Delivery and Launch the ranges of their validate()
  double usual_low;        ///< [SI] the middle of a list of drives lies above this ...
  double usual_high;       ///< [SI] ... and below this (estimates): outside, look for a slip
};

const ByReading<ReadingInfo>& readings();                   ///< all of them
const ReadingInfo& info(Reading reading);                   ///< of one
std::optional<Reading> find_reading(std::string_view key);  ///< none: no reading has that key

}  // namespace loftwright
