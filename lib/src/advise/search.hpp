// The best loft and attack within what a strategy may change: a grid everywhere first, then NLopt from the best places.
#pragma once

#include <span>

#include "advise/model.hpp"

namespace loftwright {

// One thing that may be done: a club (a loft or a range), the attack between two ends (equal: held), and what that
// costs.
struct Way {
  LoftChoice club;
  Interval attack;
  double price = 0.0;  // [m]
};

struct Found {
  Point point;
  LoftChoice club;
  double price = 0.0;           // [m]
  double restart_change = 0.0;  // [m] goal found from other starts minus the best one's; zero where there was one start
  std::vector<std::size_t>
      must_give;  // infeasible: the ends (DriveModel::ends) that must give together; at this point the rest is met
  bool feasible() const { return must_give.empty(); }
  double net() const { return point.goal - price; }
};

// Longest average drive less its price under every limit; when that is impossible, the point where the one limit that
// must give gives least, or where all that must give together give least. At least one way.
Found search(const DriveModel& model, std::span<const Way> ways, const AdviseOptions& options);

// Of the lofts from `low` to `high`, on the average drive. [rad]
LoftWindow window_of(const DriveModel& model, const LoftChoice& club, double low, double high, double attack);

// A better of two places: limits first, then the goal less the price.
bool better(const Found& a, const Found& b);

}  // namespace loftwright
