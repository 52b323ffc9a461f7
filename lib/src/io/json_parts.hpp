// Parts that several answers share.
#pragma once

#include "io/json_values.hpp"
#include "loftwright/advise/pupil.hpp"
#include "loftwright/shot/shot.hpp"
#include "loftwright/shots/reading.hpp"
#include "loftwright/stats/summary.hpp"

namespace loftwright {

// "models" and "conditions": what the numbers hold for.
void add_circumstances(OrderedJson& out, const Pupil& pupil, const Setting& setting);

// A reading with its unit, count, mean, sd and standard error (null for fewer than two).
OrderedJson summary_of(Reading reading, const Summary& summary);

}  // namespace loftwright
