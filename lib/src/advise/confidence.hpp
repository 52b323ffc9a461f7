// How sure: draws of everything uncertain, the gains of the average drive they leave, the verdict, and what it leans on.
#pragma once

#include <algorithm>

#include "advise/search.hpp"

namespace loftwright {

// A decision on trial. `moves`: it differs from the swing and the club as they are.
struct Decision {
  Found found;
  bool moves = false;
  std::optional<std::size_t> same_as;  // both, where it does what loft (0) or technique (1) alone does
};

struct Judged {
  Confidence confidence;
  std::vector<Choice> choices;
  Verdict verdict;
  std::array<AverageDrive, 4> averages;  // in the order of StrategyKind; of what does not move, as is
  std::optional<std::size_t> both_as;    // both does better as loft (0) or technique (1) alone
};

// The one of a list, such as of choices, that is about a lever; the list's end when none is.
template <class All>
auto of_lever(All& all, Lever lever) {
  return std::find_if(all.begin(), all.end(), [lever](const auto& one) { return one.lever == lever; });
}

// `decisions` of loft only, technique only and both. `as_is_feasible`: the swing as is meets every limit.
Judged judge(const DriveModel& model, const Found& as_is, bool as_is_feasible, const std::array<Decision, 3>& decisions,
             const AdviseOptions& options);

// [m] what the average drive gains at other places over as is, over the first of the same draws.
std::vector<double> average_gains(const DriveModel& model, const Found& as_is, std::span<const Found> places, const AdviseOptions& options);

// The same as judge on the averages the search saw, with nothing uncertain.
void choose(const DriveModel& model, const Found& as_is, bool as_is_feasible, const std::array<Decision, 3>& decisions, Judged& judged);

}  // namespace loftwright
