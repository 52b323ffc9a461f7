// The tables of a comparison, as text for people: what the screen and the page both lay out.
#pragma once

#include <string>
#include <vector>

#include "loftwright/core/units.hpp"
#include "loftwright/shots/detail/change.hpp"
#include "report/text_table.hpp"

namespace loftwright {

// Each reading before and after, with the interval of its change.
TextTable readings_table(const CompareAnswer& answer, UnitSystem units);

// Which change made which part of the goal, by the model; without rows, and with the reason as its note, when that
// cannot be told.
TextTable change_table(const CompareAnswer& answer, UnitSystem units);

// What was reached of the gains that were predicted. Empty when none was.
TextTable reached_table(const CompareAnswer& answer, UnitSystem units);

// What a reader should know of the comparison before its tables.
std::vector<std::string> compare_notes(const CompareAnswer& answer);

}  // namespace loftwright
