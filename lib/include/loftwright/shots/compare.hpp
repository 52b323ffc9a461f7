/// @file
/// Before and after: did the lesson change anything, by how much, and how many more shots would tell.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/shots/shot_summary.hpp"
#include "loftwright/stats/detail/difference.hpp"

namespace loftwright {

/// What is asked of two lists.
struct CompareOptions {
  Goal goal = Goal::carry;           ///< what the verdict is about
  double worthwhile = 3.0 * 0.9144;  ///< [m] the smallest change of it that matters to this player, 0 .. kMostPrice
  double confidence = 0.95;          ///< [-] of intervals; a difference is real when its interval leaves out zero
  double power = 0.8;                ///< [-] with which more shots would find a difference
  Outliers odd = Outliers::keep;     ///< whether outliers count
  BootstrapOptions bootstrap{};      ///< its confidence is taken from `confidence`
};

/// One reading before and after.
struct ComparedReading {
  Reading reading;                             ///< which
  Summary before;                              ///< [SI]
  Summary after;                               ///< [SI]
  WelchTest test;                              ///< [SI]
  double hedges_g;                             ///< [-] difference over the shot-to-shot scatter
  double adjusted_p;                           ///< [-] Holm's, over all readings compared
  std::optional<BootstrapInterval> bootstrap;  ///< [SI] of carry and total
};

/// What two lists say of the goal.
enum class CompareVerdict {
  gain,          ///< the goal grew: its interval lies above zero
  loss,          ///< it shrank
  no_change,     ///< settled: the whole interval is smaller than what matters
  not_yet,       ///< no real difference yet: more shots would tell
  not_measured,  ///< the goal is not in both lists with at least two shots each
};
std::string_view key_of(CompareVerdict verdict);  ///< "gain", ...

/// A reading that one list or both have, and why it cannot be compared.
struct NotCompared {
  Reading reading;  ///< which
  std::string why;  ///< "0 readings before, 16 after; at least two of each are needed"
};

/// What comparing two lists finds.
struct Comparison {
  std::vector<ComparedReading> readings;  ///< in the order of Reading
  std::vector<NotCompared> not_compared;  ///< likewise; what neither list has is not among them
  std::vector<Note> notes;                ///< what speaks against comparing the two lists
  /// Of the goal.
  CompareVerdict verdict = CompareVerdict::not_measured;
  /// For not_yet: shots to add so that a difference of the goal as large as seen, or as large as matters when that is
  /// more, would be found with the power asked for.
  double assumed_difference = 0.0;       ///< [m]
  std::optional<MoreValues> more_shots;  ///< none: the verdict is another

  const ComparedReading* find(Reading reading) const;  ///< null when it was not compared
};

/// Shots are taken as independent: alternate the swings or the clubs rather than hit all of one first, so that warming
/// up and tiring do not pass for a difference.
Comparison compare_shots(const ShotList& before, const ShotList& after, const CompareOptions& options = {});

/// What of a predicted gain the measured change is: 1 is all of it.
struct Reached {
  double predicted;  ///< [m]
  double share;      ///< [-]
  double low;        ///< [-] lower end of its confidence interval
  double high;       ///< [-] upper end
};
inline constexpr double kMostPredicted = 200.0;  ///< [m]

/// Throws InputError unless `predicted` [m] is above zero.
Reached reached(double predicted, const WelchTest& measured);

}  // namespace loftwright
