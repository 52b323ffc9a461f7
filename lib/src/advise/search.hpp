// The best loft and attack within what a strategy may change: a coarse look everywhere, then NLopt from the best places.
#pragma once

#include <optional>
#include <span>

#include "advise/model.hpp"

namespace loftwright {

// What a strategy may change: which clubs (each a loft or a range), and the attack between two ends (equal: held).
struct Freedom {
  std::vector<LoftChoice> clubs;
  Interval attack;
};

struct Found {
  Point point;
  LoftChoice club;
  double restart_change = 0.0;  // [m] goal found from elsewhere minus the goal found first
  std::optional<std::size_t> must_give;  // infeasible: index of the end (DriveModel::ends) that must give
  bool feasible() const { return !must_give; }
};

// Longest goal under every limit; when that is impossible, the point where the one limit that must give gives least.
Found search(const DriveModel& model, const Freedom& freedom, const AdviseOptions& options);

// The same from a solution near by: only its club's neighbours in loft are tried, by a climb from where it stood.
Found refine(const DriveModel& model, const Freedom& freedom, const Found& near_by, const AdviseOptions& options);

// A better of two points: limits first, then the goal.
bool better(const Point& a, const Point& b);

}  // namespace loftwright
