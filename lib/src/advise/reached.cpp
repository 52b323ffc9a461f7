#include "advise/reached.hpp"

#include <algorithm>
#include <cmath>

namespace loftwright {

const TradeRow* trade_at(const Advice& advice, double loft) {
  const auto row = std::find_if(advice.trade.begin(), advice.trade.end(),
                                [&](const TradeRow& r) { return std::abs(r.loft - loft) < 1e-6; });
  return row == advice.trade.end() ? nullptr : &*row;
}

std::optional<double> reached_gain(const Advice& advice) {
  const Lever leader = advice.verdict.leader;
  if (!advice.reached || !advice.feasible || (leader != Lever::technique && leader != Lever::both)) return std::nullopt;
  const Strategy& s = advice.at(strategy_of(leader));
  double by_loft = 0.0;
  if (leader == Lever::both) {
    const TradeRow* row = trade_at(advice, s.loft);
    if (!row) return std::nullopt;
    by_loft = row->gain_at_present_attack;
  }
  return by_loft + advice.reached->share * (s.gain - by_loft);
}

}  // namespace loftwright
