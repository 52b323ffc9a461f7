// What of a promised gain pupils of an academy would reach, by their share.
#pragma once

#include <optional>

#include "loftwright/advise/advise.hpp"

namespace loftwright {

// [m] of the verdict's choice: a driver is had, of the swing's part they reach Advice::reached. None where nothing is
// known of that, where no swing is to change, and without the trade (AdviseOptions::verdict_only), which says what the
// loft does alone.
std::optional<double> reached_gain(const Advice& advice);

// The row of the trade for a loft; none where the trade has no such row.
const TradeRow* trade_at(const Advice& advice, double loft);

}  // namespace loftwright
