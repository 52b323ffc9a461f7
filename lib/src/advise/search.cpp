#include "advise/search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

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

bool met(const Point& p) { return p.worst() <= kLimitSlack; }

bool better_point(const Point& a, const Point& b) {
  if (met(a) && met(b)) return a.goal > b.goal;
  return a.worst() < b.worst();
}

// How far apart two starts must be to be worth both.
bool apart(const Point& a, const Point& b) { return std::hypot(a.loft - b.loft, a.attack - b.attack) > 1.0 * kDegree; }

// The first of `sorted`, and the next that lie apart from those before.
std::vector<Point> spread_out(const std::vector<Point>& sorted, std::size_t most) {
  std::vector<Point> out;
  for (const Point& p : sorted) {
    if (out.size() == most) break;
    if (std::all_of(out.begin(), out.end(), [&](const Point& o) { return apart(o, p); })) out.push_back(p);
  }
  return out;
}

// One way: a box of none, one or two variables, solved in degrees.
class Box {
 public:
  Box(const DriveModel& model, const Way& way, const AdviseOptions& options)
      : model_(model),
        rough_(model.with_shots(kRoughShots)),
        club_(way.club),
        attack_(way.attack),
        price_(way.price),
        options_(options) {
    if (club_.high > club_.low) axes_.push_back(0);
    if (attack_.high > attack_.low) axes_.push_back(1);
  }

  const LoftChoice& club() const { return club_; }
  double price() const { return price_; }
  int free() const { return static_cast<int>(axes_.size()); }

  // An even grid, both ends among it.
  std::vector<DriveModel::Place> grid(int one, int two) const {
    return grid_between(low(0), high(0), low(1), high(1), free() == 2 ? two : one);
  }

  // Average drives, roughly, on a coarse grid: where the goal is long.
  std::vector<Point> look() const { return rough_.values(club_, grid(11, 7)); }
  // Well-struck drives on a close grid: where the limits are met.
  std::vector<Point> survey() const { return model_.centred(club_, grid(128, 32)); }

  // The best place of ever closer grids around `from`.
  template <class Order>
  Point close_in(const Point& from, Order ranks_before) const {
    constexpr int kTimes = 8, kNodes = 9;
    const double share = free() == 2 ? 1.0 / 31.0 : 1.0 / 127.0;
    double half[2] = {share * (high(0) - low(0)), share * (high(1) - low(1))};
    Point best = from;
    for (int i = 0; i < kTimes; ++i) {
      const auto end = [&](int axis, double sign) {
        return std::clamp((axis == 0 ? best.loft : best.attack) + sign * half[axis], low(axis), high(axis));
      };
      for (const Point& p :
           model_.centred(club_, grid_between(end(0, -1.0), end(0, 1.0), end(1, -1.0), end(1, 1.0), kNodes))) {
        if (ranks_before(p, best)) best = p;
      }
      for (double& h : half) h *= 0.35;
    }
    return best;
  }

  // Longest goal under all limits, from `start`.
  Point climb(const Point& start, Method method) const {
    return run(
        start, method,
        [](const Point& p, std::span<double> g, std::span<const int> axes) {
          for (std::size_t k = 0; k < g.size(); ++k) g[k] = -kDegree * p.d_goal[axes[k]];
          return -p.goal;
        },
        better_point, std::nullopt);
  }

  // Least excess of one end under all the others.
  Point relax(const Point& start, std::size_t end) const {
    return run(
        start, Method::gradient,
        [end](const Point& p, std::span<double> g, std::span<const int> axes) {
          for (std::size_t k = 0; k < g.size(); ++k) g[k] = kDegree * p.d_excess[end][axes[k]];
          return p.excess[end];
        },
        [end](const Point& a, const Point& b) { return gives_less(a, b, end); }, end);
  }

 private:
  double low(int axis) const { return axis == 0 ? club_.low : attack_.low; }
  double high(int axis) const { return axis == 0 ? club_.high : attack_.high; }
  std::vector<DriveModel::Place> grid_between(double loft_low, double loft_high, double attack_low, double attack_high,
                                              int nodes) const {
    const auto nodes_of = [nodes](double low, double high) { return high > low ? nodes : 1; };
    const auto part = [](double low, double high, int i, int count) {
      return count == 1 ? low : low + (high - low) * i / (count - 1);
    };
    const int lofts = nodes_of(loft_low, loft_high), attacks = nodes_of(attack_low, attack_high);
    std::vector<DriveModel::Place> places;
    for (int i = 0; i < lofts; ++i) {
      for (int j = 0; j < attacks; ++j)
        places.push_back({part(loft_low, loft_high, i, lofts), part(attack_low, attack_high, j, attacks)});
    }
    return places;
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
      for (std::size_t k = 0; k < axes_.size(); ++k)
        place[axes_[k]] = std::clamp(x[k] * kDegree, low(axes_[k]), high(axes_[k]));
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
    solve(problem, x,
          {.method = method, .stop = options_.stop / kDegree, .first_step = 0.3, .most_evaluations = slopes ? 40 : 60});
    return best;
  }

  static constexpr std::size_t kRoughShots = 16;

  const DriveModel& model_;
  DriveModel rough_;
  LoftChoice club_;
  Interval attack_;
  double price_;
  const AdviseOptions& options_;
  std::vector<int> axes_;
};

// A limit on where a drive rests hangs on the run, which has a kink (a bounce that grips or slides): there a search
// that needs no slopes finishes.
bool smooth(const DriveModel& model) {
  const auto& limits = model.pupil().limits;
  return std::none_of(limits.begin(), limits.end(), [](const Limit& l) { return about(l.quantity).of_the_run; });
}

// A box looked at: the places to climb from, best first, and how far the best would go.
struct Looked {
  Box box;
  std::vector<Point> survey;  // empty where there are no limits
  std::vector<Point> starts;
  bool feasible;
  double net;  // [m] roughly
};

Looked look_at(const DriveModel& model, Box box) {
  constexpr std::size_t kStarts = 2, kPlaces = 3, kPlacesBroken = 10;
  std::vector<Point> looks = box.look(), surveyed;
  if (!model.ends().empty()) {
    // Where limits are met may be narrow: of a close grid the best places that meet them, or that break them least,
    // closed in on.
    surveyed = box.survey();
    std::vector<Point> survey = surveyed;
    std::stable_sort(survey.begin(), survey.end(), better_point);
    const bool somewhere = met(survey.front());
    std::vector<Point> places = spread_out(survey, somewhere ? kPlaces : kPlacesBroken);
    if (!somewhere) {
      for (Point& p : places) p = box.close_in(p, better_point);
      std::stable_sort(places.begin(), places.end(), better_point);
      places.resize(std::min(places.size(), kPlaces));
    }
    for (const Point& p : places) {
      looks.push_back(model.value(box.club(), p.loft, p.attack));
    }
  }
  std::stable_sort(looks.begin(), looks.end(), better_point);
  std::vector<Point> starts = spread_out(looks, kStarts);
  const bool feasible = met(starts.front());
  const double net = starts.front().goal - box.price();
  return {std::move(box), std::move(surveyed), std::move(starts), feasible, net};
}

Found best_in(const DriveModel& model, const Looked& looked) {
  const Box& box = looked.box;
  Found best{looked.starts.front(), box.club(), box.price(), 0.0, {}};
  if (box.free() == 0) {
    best.point = model.value(box.club(), best.point.loft, best.point.attack);
    return best;
  }
  best.point = box.climb(looked.starts.front(), Method::gradient);
  for (std::size_t i = 1; i < looked.starts.size(); ++i) {
    const Point p = box.climb(looked.starts[i], Method::gradient);
    const double change = met(p) && met(best.point) ? p.goal - best.point.goal : 0.0;
    best.restart_change = i == 1 ? change : std::max(best.restart_change, change);
    if (better_point(p, best.point)) best.point = p;
  }
  if (!smooth(model)) {
    const Point p = box.climb(best.point, Method::derivative_free);
    if (better_point(p, best.point)) best.point = p;
  }
  return best;
}

// No point meets every limit. Which single end, let go as little as possible, would make the rest possible? And if
// none: which together, where the worst of them gives least?
Found least_broken(const DriveModel& model, const std::vector<Looked>& looked) {
  std::optional<Found> least;
  for (std::size_t end = 0; end < model.ends().size(); ++end) {
    const auto less = [end](const Point& a, const Point& b) { return gives_less(a, b, end); };
    for (const Looked& l : looked) {
      std::vector<Point> survey = l.survey;
      std::stable_sort(survey.begin(), survey.end(), less);
      constexpr std::size_t kStarts = 6;
      Point best = survey.front();
      for (const Point& start : spread_out(survey, kStarts)) {
        const Point close = l.box.close_in(start, less), p = l.box.relax(close, end);
        if (less(close, best)) best = close;
        if (less(p, best)) best = p;
      }
      if (worst_but(best, end) <= kLimitSlack &&
          (!least || best.excess[end] < least->point.excess[least->must_give.front()])) {
        least = Found{best, l.box.club(), l.box.price(), 0.0, {end}};
      }
    }
  }
  if (!least) {
    for (const Looked& l : looked) {
      const Point p = l.box.close_in(l.starts.front(), better_point);
      if (!least || p.worst() < least->point.worst()) least = Found{p, l.box.club(), l.box.price(), 0.0, {}};
    }
    for (std::size_t end = 0; end < model.ends().size(); ++end) {
      if (least->point.excess[end] > kLimitSlack) least->must_give.push_back(end);
    }
  }
  least->point = model.value(least->club, least->point.loft, least->point.attack);
  return *least;
}

}  // namespace

bool better(const Found& a, const Found& b) {
  if (met(a.point) && met(b.point)) return a.net() > b.net();
  return a.point.worst() < b.point.worst();
}

LoftWindow window_of(const DriveModel& model, const LoftChoice& club, double low, double high, double attack) {
  constexpr double kStep = 0.5 * kDegree;
  const int steps = std::max(1, static_cast<int>(std::ceil((high - low) / kStep - 1e-9)));
  std::vector<DriveModel::Place> places;
  for (int i = 0; i <= steps; ++i) places.push_back({low + (high - low) * i / steps, attack});
  const std::vector<Point> points = model.values(club, places);
  const bool any_meets = std::any_of(points.begin(), points.end(), met);
  const auto counts = [&](const Point& p) { return met(p) || !any_meets; };
  const auto best = std::max_element(points.begin(), points.end(), [&](const Point& a, const Point& b) {
    return counts(a) != counts(b) ? counts(b) : a.goal < b.goal;
  });
  LoftWindow w{attack, low, best->loft, high, any_meets};
  const double least = best->goal - kWindowLoss;
  // Outward to the first that loses more, and between it and the one before it; or to the last that breaks no limit.
  const auto end = [&](auto from, auto to, int way, double otherwise) {
    for (auto at = from; at != to; at += way) {
      const Point &here = *at, &next = *(at + way);
      if (!counts(next)) return here.loft;
      if (next.goal < least) return here.loft + (next.loft - here.loft) * (here.goal - least) / (here.goal - next.goal);
    }
    return otherwise;
  };
  w.low = end(best, points.begin(), -1, low);
  w.high = end(best, points.end() - 1, 1, high);
  return w;
}

Found search(const DriveModel& model, std::span<const Way> ways, const AdviseOptions& options) {
  std::vector<Looked> looked;
  for (const Way& way : ways) looked.push_back(look_at(model, Box(model, way, options)));
  double best_net = -std::numeric_limits<double>::infinity();
  for (const Looked& l : looked) {
    if (l.feasible) best_net = std::max(best_net, l.net);
  }
  constexpr double kWorthClimbing = 3.0;  // [m] behind the best as roughly seen: not overtaken by a climb
  std::optional<Found> found;
  for (const Looked& l : looked) {
    if (l.feasible && l.net < best_net - kWorthClimbing) continue;
    const Found f = best_in(model, l);
    if (!found || better(f, *found)) found = f;
  }
  if (met(found->point)) return *found;
  return least_broken(model, looked);
}

}  // namespace loftwright
