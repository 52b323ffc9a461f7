// What pupils of an academy reached of such promises, beside a verdict.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/report/advice_words.hpp"

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

std::string reached_sentence(const Advice& advice, UnitSystem units) {
  const Lever leader = advice.verdict.leader;
  if (!advice.reached || !advice.feasible || (leader != Lever::technique && leader != Lever::both)) return "";
  const ReachedShare& r = *advice.reached;
  std::string out = fmt::format(
      "Of what a change of swing was promised to gain your {} reached {:.0f} % (8 in 10: {:.0f} to {:.0f} %)",
      r.pupils == 1 ? "pupil" : fmt::format("{} pupils", r.pupils), 100.0 * r.share, 100.0 * r.low, 100.0 * r.high);
  if (const std::optional<double> gain = reached_gain(advice)) {
    const auto yards = [&](double metres) { return quantity(Shown::gain, metres, units, Sign::always); };
    out += fmt::format(": {} would then gain {} rather than {}", leader == Lever::both ? "both together" : "this one",
                       yards(*gain), yards(advice.at(strategy_of(leader)).gain));
  }
  return out + ". The verdict weighs the swing as if it were learnt in full.";
}

}  // namespace loftwright
