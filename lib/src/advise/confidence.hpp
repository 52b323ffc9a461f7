// How sure: draws of everything uncertain, the gains of the average drive they leave, the verdict, and what it leans
// on.
#pragma once

#include <algorithm>

#include "advise/search.hpp"

namespace loftwright {

// A decision on trial. `moves`: it differs from the swing and the club as they are.
struct Decision {
  Found found;
  bool moves = false;
  std::optional<StrategyKind> same_as;  // both, where it does what loft or technique alone does
};
using Decisions = EnumArray<StrategyKind, Decision>;  // as is never moves

struct Judged {
  Confidence confidence;
  std::vector<Choice> choices;
  Verdict verdict;
  EnumArray<StrategyKind, AverageDrive> averages;  // of what does not move, as is
  std::optional<StrategyKind> both_as;             // both does better as loft or technique alone
};

// The one of a list, such as of choices, that is about a lever; the list's end when none is.
template <class All>
auto of_lever(All& all, Lever lever) {
  return std::find_if(all.begin(), all.end(), [lever](const auto& one) { return one.lever == lever; });
}

// `as_is_feasible`: the swing as is meets every limit.
Judged judge(const DriveModel& model, const Decisions& decisions, bool as_is_feasible, const AdviseOptions& options);

// The same as judge on the averages the search saw, with nothing uncertain.
void choose(const DriveModel& model, const Decisions& decisions, bool as_is_feasible, Judged& judged);

}  // namespace loftwright
