#include "advise/reached.hpp"

#include <algorithm>
#include <cmath>

namespace loftwright {

std::optional<double> reached_gain(const Advice& advice) {
  const Lever leader = advice.verdict.leader;
  if (!advice.reached || !advice.feasible || (leader != Lever::technique && leader != Lever::both)) return std::nullopt;
  const Strategy& s = advice.at(strategy_of(leader));
  double by_loft = 0.0;
  if (leader == Lever::both) {
    const auto row = std::find_if(advice.trade.begin(), advice.trade.end(),
                                  [&](const TradeRow& r) { return std::abs(r.loft - s.loft) < 1e-6; });
    if (row == advice.trade.end()) return std::nullopt;
    by_loft = row->gain_at_present_attack;
  }
  return by_loft + advice.reached->share * (s.gain - by_loft);
}

}  // namespace loftwright
