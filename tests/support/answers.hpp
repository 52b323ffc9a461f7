// An answer with numbers of our choosing, for what puts words and tables to them.
#pragma once

#include <algorithm>
#include <functional>

#include "loftwright/advise/advise.hpp"
#include "loftwright/core/units.hpp"
#include "settings.hpp"

namespace loftwright::test {

inline constexpr UnitSystem kYards = UnitSystem::yards, kMetres = UnitSystem::metres;

inline bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// As is 9.5 deg at -4, loft only 12 deg, technique only +2, both 12 deg and +2; prices 3, 3 and 7 yd; three fairways in
// four held.
inline Advice answer(Lever verdict, double loft_gain_yd, double technique_gain_yd, double both_gain_yd) {
  Advice a;
  const auto set = [&](StrategyKind kind, Lever lever, double loft_deg, double attack_deg, double gain_yd,
                       double price_yd) {
    Strategy& s = a.strategies[kind];
    s.kind = kind;
    s.loft = loft_deg * kDeg;
    s.attack = attack_deg * kDeg;
    s.gain = gain_yd * kYard;
    s.price = price_yd * kYard;
    s.average.fairway_share = 0.75;
    a.choices.push_back({lever, true, s.loft, s.attack, s.price, s.gain, s.gain - s.price});
  };
  set(StrategyKind::as_is, Lever::leave, 9.5, -4, 0, 0);
  set(StrategyKind::loft_only, Lever::loft, 12, -4, loft_gain_yd, 3);
  set(StrategyKind::technique_only, Lever::technique, 9.5, 2, technique_gain_yd, 3);
  set(StrategyKind::both, Lever::both, 12, 2, both_gain_yd, 7);
  std::ranges::stable_sort(a.choices, std::ranges::greater(), &Choice::net_gain);
  a.verdict.lever = verdict;
  a.verdict.leader =
      verdict == Lever::either ? (technique_gain_yd > loft_gain_yd ? Lever::technique : Lever::loft) : verdict;
  return a;
}

// How sure each is, its gain within 4 yd either way and its drives within 12.
inline void judge(Advice& a, Certainty certainty, double probability) {
  a.confidence.emplace();
  for (const StrategyKind k : {StrategyKind::loft_only, StrategyKind::technique_only, StrategyKind::both}) {
    const double g = a.strategies[k].gain;
    a.confidence->strategies[k] =
        StrategyConfidence{{g - 4 * kYard, g, g + 4 * kYard}, {g - 12 * kYard, g, g + 12 * kYard}, 0.83};
  }
  a.verdict.certainty = certainty;
  a.verdict.probability = probability;
}

}  // namespace loftwright::test
