// The trade: what each loft gains at the present attack, and how much attack has to change at each loft for shares of
// what both together gain.
#pragma once

#include <vector>

#include "advise/confidence.hpp"

namespace loftwright {

// One row for each loft on offer, and for the club in hand, which `as_is` plays; `both` gains something. With draws,
// gains are averaged over them.
std::vector<TradeRow> trade_table(const DriveModel& model, const Found& as_is, const Found& both,
                                  const AdviseOptions& options);

}  // namespace loftwright
