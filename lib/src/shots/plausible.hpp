// Shots that cannot be: beyond physics, or at odds with themselves.
#pragma once

#include <optional>
#include <string>

#include "loftwright/shots/shot_list.hpp"

namespace loftwright {

// A reading that would make sense in another unit (`unit`), or with the other sign (unit null).
struct Slip {
  Reading reading;
  const Unit* unit;

  friend bool operator==(const Slip&, const Slip&) = default;
};

struct Impossible {
  std::string reason;
  std::optional<Slip> slip;  // the likely cause
};

using UnitsUsed = ByReading<const Unit*>;  // how the list writes each reading; null: a plain number

// "ball speed 65 mph", in the list's own unit.
std::string said(Reading reading, double value, const UnitsUsed& units);

// The same number in the unit that would bring `value` into the usual range, if one does.
const Unit* unit_meant(Reading reading, double value, const UnitsUsed& units);

// Empty when the shot can be.
std::optional<Impossible> why_impossible(const Shot& shot, const UnitsUsed& units);

}  // namespace loftwright
