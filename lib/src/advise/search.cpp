#include "advise/search.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "advise/solver.hpp"

namespace loftwright {

namespace {

double worst_but(const Point& p, std::size_t end) {
  double most = 0.0;
  for (std::size_t i = 0; i < p.excess.size(); ++i) most = i == end ? most : std::max(most, p.excess[i]);
  return most;
}

// Of two places, the one where `end` need give less for all the others to be met.
bool gives_less(const Point& a, const Point& b, std::size_t end) {
  const double others_a = worst_but(a, end), others_b = worst_but(b, end);
  if (others_a <= kLimitSlack && others_b <= kLimitSlack) return a.excess[end] < b.excess[end];
  return others_a < others_b;
}

std::size_t furthest_passed(const Point& p) {
  return static_cast<std::size_t>(std::max_element(p.excess.begin(), p.excess.end()) - p.excess.begin());
}

// One club and an interval of attack: a box of none, one or two variables, solved in degrees.
class Box {
 public:
  Box(const DriveModel& model, const LoftChoice& club, const Interval& attack, const AdviseOptions& options)
      : model_(model), club_(club), attack_(attack), options_(options) {
    if (club.high > club.low) axes_.push_back(0);
    if (attack.high > attack.low) axes_.push_back(1);
  }

  const LoftChoice& club() const { return club_; }
  int free() const { return static_cast<int>(axes_.size()); }

  // A coarse look: the corners and an even grid between them.
  std::vector<Point> scan() const {
    const int loft_points = club_.high > club_.low ? (free() == 2 ? 6 : 9) : 1;
    const int attack_points = attack_.high > attack_.low ? (free() == 2 ? 6 : 9) : 1;
    std::vector<Point> points;
    for (int i = 0; i < loft_points; ++i) {
      for (int j = 0; j < attack_points; ++j) points.push_back(model_.value(club_, part(0, i, loft_points), part(1, j, attack_points)));
    }
    return points;
  }

  // Longest goal under all limits, from `start`.
  Point climb(const Point& start, Method method) const {
    return run(start, method, [](const Point& p, std::span<double> g, std::span<const int> axes) {
      for (std::size_t k = 0; k < g.size(); ++k) g[k] = -kDegree * p.d_goal[axes[k]];
      return -p.goal;
    }, better, std::nullopt);
  }

  // Least excess of one end under all the others.
  Point relax(const Point& start, std::size_t end) const {
    return run(start, Method::gradient, [end](const Point& p, std::span<double> g, std::span<const int> axes) {
      for (std::size_t k = 0; k < g.size(); ++k) g[k] = kDegree * p.d_excess[end][axes[k]];
      return p.excess[end];
    }, [end](const Point& a, const Point& b) { return gives_less(a, b, end); }, end);
  }

  // The corner farthest from a point, for a start from elsewhere.
  Point far_corner(const Point& from) const {
    const double loft = from.loft - club_.low > club_.high - from.loft ? club_.low : club_.high;
    const double attack = from.attack - attack_.low > attack_.high - from.attack ? attack_.low : attack_.high;
    return {loft, attack, 0.0, {}, {}, {}};
  }

 private:
  double low(int axis) const { return axis == 0 ? club_.low : attack_.low; }
  double high(int axis) const { return axis == 0 ? club_.high : attack_.high; }
  double part(int axis, int i, int count) const {
    return count == 1 ? low(axis) : low(axis) + (high(axis) - low(axis)) * i / (count - 1);
  }

  // The best place NLopt asks for on its way, by `ranks_before`.
  template <class Aim, class Order>
  Point run(const Point& start, Method method, Aim aim, Order ranks_before, std::optional<std::size_t> without) const {
    const bool slopes = method == Method::gradient;
    double loft = start.loft, attack = start.attack;
    Point last, best;
    bool known = false;
    // NLopt asks for objective and constraints in turn at one place: one flight answers both.
    const auto at = [&](std::span<const double> x) -> const Point& {
      double place[2] = {loft, attack};
      for (std::size_t k = 0; k < axes_.size(); ++k) place[axes_[k]] = std::clamp(x[k] * kDegree, low(axes_[k]), high(axes_[k]));
      if (!known || place[0] != last.loft || place[1] != last.attack) {
        last = slopes ? model_.gradient(club_, place[0], place[1]) : model_.value(club_, place[0], place[1]);
        if (!known || ranks_before(last, best)) best = last;
        known = true;
      }
      return last;
    };
    if (free() == 0) return at({});

    std::vector<std::size_t> kept(model_.ends().size());
    std::iota(kept.begin(), kept.end(), std::size_t{0});
    if (without) kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(*without));

    Problem problem;
    std::vector<double> x;
    for (const int axis : axes_) {
      problem.low.push_back(low(axis) / kDegree);
      problem.high.push_back(high(axis) / kDegree);
      x.push_back((axis == 0 ? start.loft : start.attack) / kDegree);
    }
    problem.minimise = [&](std::span<const double> at_x, std::span<double> g) { return aim(at(at_x), g, axes_); };
    problem.constraint_count = static_cast<int>(kept.size());
    problem.at_most_zero = [&](std::span<const double> at_x, std::span<double> values, std::span<double> gradients) {
      const Point& p = at(at_x);
      for (std::size_t i = 0; i < kept.size(); ++i) {
        values[i] = p.excess[kept[i]];
        for (std::size_t k = 0; k < axes_.size() && !gradients.empty(); ++k) {
          gradients[i * axes_.size() + k] = kDegree * p.d_excess[kept[i]][axes_[k]];
        }
      }
    };
    solve(problem, x, {.method = method, .stop = options_.stop / kDegree, .first_step = 0.3,
                       .most_evaluations = slopes ? 40 : 60});
    return best;
  }

  const DriveModel& model_;
  LoftChoice club_;
  Interval attack_;
  const AdviseOptions& options_;
  std::vector<int> axes_;
};

// How far apart two starts must be to be worth both.
bool apart(const Point& a, const Point& b) { return std::hypot(a.loft - b.loft, a.attack - b.attack) > 1.0 * kDegree; }

bool smooth(const DriveModel& model) {
  const auto& limits = model.pupil().limits;
  return model.pupil().goal == Goal::carry &&
         std::none_of(limits.begin(), limits.end(), [](const Limit& l) { return l.quantity == Limited::side; });
}

Point best_in(const DriveModel& model, const Box& box) {
  std::vector<Point> looks = box.scan();
  std::stable_sort(looks.begin(), looks.end(), better);
  Point best = looks.front();
  if (box.free() == 0) return best;
  std::vector<Point> starts{looks.front()};
  for (const Point& p : looks) {
    if (starts.size() < 2 && apart(p, starts.front())) starts.push_back(p);
  }
  for (const Point& start : starts) {
    const Point p = box.climb(start, Method::gradient);
    if (better(p, best)) best = p;
  }
  // The run has kinks (a bounce that grips or slides): a search that needs no slopes finishes what depends on it.
  if (!smooth(model)) {
    const Point p = box.climb(best, Method::derivative_free);
    if (better(p, best)) best = p;
  }
  return best;
}

}  // namespace

bool better(const Point& a, const Point& b) {
  const double over_a = a.worst(), over_b = b.worst();
  if (over_a <= kLimitSlack && over_b <= kLimitSlack) return a.goal > b.goal;
  return over_a < over_b;
}

Found search(const DriveModel& model, const Freedom& freedom, const AdviseOptions& options) {
  std::optional<Found> found;
  std::vector<Box> boxes;
  for (const LoftChoice& club : freedom.clubs) boxes.emplace_back(model, club, freedom.attack, options);
  std::size_t winner = 0;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const Point p = best_in(model, boxes[i]);
    if (!found || better(p, found->point)) {
      found = Found{p, boxes[i].club(), 0.0, {}};
      winner = i;
    }
  }
  if (found->point.worst() <= kLimitSlack) {
    if (boxes[winner].free() > 0) {
      const Point again = boxes[winner].climb(boxes[winner].far_corner(found->point), Method::gradient);
      if (again.worst() <= kLimitSlack) found->restart_change = again.goal - found->point.goal;
      if (better(again, found->point)) found->point = again;
    }
    return *found;
  }

  // No point meets every limit. Which single end, let go as little as possible, would make the rest possible? Sought from the
  // best places of a coarse look at each club: this landscape is less kind than the goal's.
  std::optional<Found> least;
  for (std::size_t end = 0; end < model.ends().size(); ++end) {
    const auto less = [end](const Point& a, const Point& b) { return gives_less(a, b, end); };
    for (const Box& box : boxes) {
      std::vector<Point> starts = box.scan();
      std::stable_sort(starts.begin(), starts.end(), less);
      constexpr std::size_t kStarts = 3;
      if (starts.size() > kStarts) starts.resize(kStarts);
      Point best = starts.front();
      for (const Point& start : starts) {
        const Point p = box.relax(start, end);
        if (less(p, best)) best = p;
      }
      if (worst_but(best, end) <= kLimitSlack && (!least || best.excess[end] < least->point.excess[*least->must_give])) {
        least = Found{best, box.club(), 0.0, end};
      }
    }
  }
  if (least) return *least;
  found->must_give = furthest_passed(found->point);  // more than one must give
  return *found;
}

Found refine(const DriveModel& model, const Freedom& freedom, const Found& near_by, const AdviseOptions& options) {
  const double at = near_by.point.loft;
  const auto distance = [&](const LoftChoice& c) { return std::max({c.low - at, at - c.high, 0.0}); };
  double below = -1.0, above = -1.0;  // distance of the nearest club either side that does not hold this loft; none: -1
  for (const LoftChoice& c : freedom.clubs) {
    double& side = c.low > at ? above : below;
    const double d = distance(c);
    if (d > 0.0 && (side < 0.0 || d < side)) side = d;
  }
  Found best = near_by;
  best.must_give.reset();
  bool first = true;
  for (const LoftChoice& c : freedom.clubs) {
    const double d = distance(c);
    if (d > 0.0 && d != (c.low > at ? above : below)) continue;
    const Box box(model, c, freedom.attack, options);
    const Point start{std::clamp(at, c.low, c.high), near_by.point.attack, 0.0, {}, {}, {}};
    const Point p = box.climb(start, Method::gradient);
    if (first || better(p, best.point)) {
      best.point = p;
      best.club = c;
      first = false;
    }
  }
  if (best.point.worst() > kLimitSlack) {
    best.must_give = furthest_passed(best.point);
  }
  return best;
}

}  // namespace loftwright
