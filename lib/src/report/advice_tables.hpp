// The tables of advice, as text for people: what the screen and the page both lay out. Nothing here computes physics.
#pragma once

#include <string>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/core/units.hpp"
#include "report/text_table.hpp"

namespace loftwright {

// Four lines: loft, attack, launch, spin, carry, total, gain and, with confidence, its 80 % interval.
TextTable strategies_table(const Advice& advice, UnitSystem units);

// How sure each gain is. Empty without confidence or when nothing is feasible.
TextTable confidence_table(const Advice& advice, UnitSystem units);

// What one step of each lever buys.
TextTable rates_table(const Advice& advice, UnitSystem units);

// How little change of attack each loft needs. Empty when nothing gains.
TextTable trade_table(const Advice& advice, UnitSystem units);

// Most gain for each effort, a sentence each. Empty unless the pupil's reach lists options.
std::vector<std::string> effort_sentences(const Advice& advice, const Pupil& pupil, UnitSystem units);

}  // namespace loftwright
