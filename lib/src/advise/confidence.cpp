#include "advise/confidence.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <limits>

#include "loftwright/stats/quasi.hpp"
#include "loftwright/stats/sensitivity.hpp"

namespace loftwright {

namespace {

constexpr double kNone = -std::numeric_limits<double>::infinity();
constexpr double kSure = 0.8;  // probability from which a verdict is given

// Coordinates of a draw in the unit cube.
enum Coordinate : std::size_t {
  kShot = 0,                                  // seven: this drive's deviation
  kMeasured = kShot + kSpreadQuantities,      // seven: how far the measured means are off
  kDrag = kMeasured + kSpreadQuantities,
  kLift,
  kRestitution,
  kTangential,
  kTurfTilt,
  kTurfRestitution,
  kFollow,
  kSpeedCost,
  kCoordinates,
};
using Group = std::vector<std::size_t>;

Group range(std::size_t first, std::size_t count) {
  Group g(count);
  for (std::size_t i = 0; i < count; ++i) g[i] = first + i;
  return g;
}

Group coordinates_of(Assumption a) {
  switch (a) {
    case Assumption::shots: return range(kShot, kSpreadQuantities);
    case Assumption::measured_club_speed: return {kMeasured + 0};
    case Assumption::measured_attack: return {kMeasured + 1};
    case Assumption::measured_strike: return {kMeasured + 2, kMeasured + 3, kMeasured + 5, kMeasured + 6};
    case Assumption::measured_dynamic_loft: return {kMeasured + 4};
    case Assumption::drag: return {kDrag};
    case Assumption::lift: return {kLift};
    case Assumption::restitution: return {kRestitution};
    case Assumption::tangential_restitution: return {kTangential};
    case Assumption::turf: return {kTurfTilt, kTurfRestitution};
    case Assumption::follow: return {kFollow};
    case Assumption::speed_cost: return {kSpeedCost};
  }
  return {};
}

constexpr double Spread::*kDeviations[kSpreadQuantities] = {&Spread::club_speed,   &Spread::attack, &Spread::path, &Spread::face,
                                                            &Spread::dynamic_loft, &Spread::toe,    &Spread::high};
constexpr double Delivery::*kQuantities[kSpreadQuantities] = {
    &Delivery::club_speed, &Delivery::attack, &Delivery::path, &Delivery::face, &Delivery::dynamic_loft, &Delivery::toe, &Delivery::high};

// Turns points of the unit cube into circumstances.
class Uncertainty {
 public:
  Uncertainty(const Pupil& pupil, const ErrorWidths& widths) : pupil_(pupil), widths_(widths) {
    const Spread spread = pupil.spread ? *pupil.spread : usual_spread(pupil.skill, pupil.delivery.club_speed);
    Eigen::Matrix<double, kSpreadQuantities, kSpreadQuantities> together = decltype(together)::Identity();
    for (const auto& c : spread.correlations) together(c.first, c.second) = together(c.second, c.first) = c.value;
    const Eigen::LLT<decltype(together)> root(together);
    if (root.info() != Eigen::Success) {
      throw InputError("spread: these correlations cannot all hold together (their matrix is not positive definite)");
    }
    for (int i = 0; i < kSpreadQuantities; ++i) {
      for (int j = 0; j <= i; ++j) root_[i][j] = spread.*kDeviations[i] * root.matrixL()(i, j);
    }
  }

  // Coordinates not in `moved` stay at what was measured and modelled.
  Circumstances at(std::span<const double> u, const Group& moved) const {
    std::array<double, kCoordinates> z{};
    double follow = pupil_.reach.follow;
    for (const std::size_t k : moved) {
      if (k == kFollow) {
        follow = triangular_quantile(u[k], lowest_follow(), follow, highest_follow());
      } else {
        z[k] = normal_quantile(u[k]);
      }
    }
    Circumstances c;
    const double few = 1.0 / std::sqrt(static_cast<double>(pupil_.measured_shots));
    for (int i = 0; i < kSpreadQuantities; ++i) {
      for (int j = 0; j <= i; ++j) {
        c.deviation.*kQuantities[i] += root_[i][j] * (z[kShot + static_cast<std::size_t>(j)] + few * z[kMeasured + static_cast<std::size_t>(j)]);
      }
    }
    c.error = {1.0 + widths_.drag_scale * z[kDrag],
               1.0 + widths_.lift_scale * z[kLift],
               widths_.restitution * z[kRestitution],
               widths_.tangential_restitution * z[kTangential],
               1.0 + widths_.turf_tilt_scale * z[kTurfTilt],
               1.0 + widths_.turf_restitution_scale * z[kTurfRestitution]};
    c.follow = follow;
    c.speed_per_attack = pupil_.reach.speed_per_attack + widths_.speed_per_attack * z[kSpeedCost];
    return c;
  }

  // What an assumption stands at in given circumstances. [SI]
  double value_of(Assumption a, const Circumstances& c) const {
    switch (a) {
      case Assumption::measured_club_speed: return pupil_.delivery.club_speed + c.deviation.club_speed;
      case Assumption::measured_attack: return pupil_.delivery.attack + c.deviation.attack;
      case Assumption::measured_dynamic_loft: return pupil_.delivery.dynamic_loft + c.deviation.dynamic_loft;
      case Assumption::drag: return c.error.drag_scale;
      case Assumption::lift: return c.error.lift_scale;
      case Assumption::restitution: return c.error.restitution;
      case Assumption::tangential_restitution: return c.error.tangential_restitution;
      case Assumption::turf: return c.error.turf_restitution_scale;
      case Assumption::follow: return c.follow;
      case Assumption::speed_cost: return c.speed_per_attack;
      case Assumption::shots:
      case Assumption::measured_strike: return 0.0;
    }
    return 0.0;
  }

 private:
  double lowest_follow() const { return std::max(0.0, pupil_.reach.follow - widths_.follow_below); }
  double highest_follow() const { return std::min(1.0, pupil_.reach.follow + widths_.follow_above); }

  const Pupil& pupil_;
  const ErrorWidths& widths_;
  double root_[kSpreadQuantities][kSpreadQuantities] = {};  // standard deviations times the Cholesky root of the correlations
};

const Group& everything() {
  static const Group all = range(0, kCoordinates);
  return all;
}

// Decisions on trial: fixed lofts and attacks, judged in any circumstances.
struct Trial {
  const DriveModel& model;
  const Found& as_is;
  const std::array<Found, 3>& found;

  Gains gains(const Circumstances& c) const {
    const double base = goal(as_is, c);
    const auto gain = [&](const Found& f) { return f.feasible() ? goal(f, c) - base : kNone; };
    return {gain(found[0]), gain(found[1]), gain(found[2])};
  }
  double goal(const Found& f, const Circumstances& c) const { return model.goal(f.club, f.point.loft, f.point.attack, c); }
};

std::vector<Gains> draw(const Trial& trial, const Uncertainty& uncertainty, const Group& moved, int count, std::uint64_t seed) {
  const auto n = static_cast<std::size_t>(count);
  const std::vector<double> points = sobol_points(n, kCoordinates, seed);
  std::vector<Gains> gains(n);
  for (std::size_t i = 0; i < n; ++i) {
    gains[i] = trial.gains(uncertainty.at(std::span(points).subspan(i * kCoordinates, kCoordinates), moved));
  }
  return gains;
}

constexpr double Gains::*kGain[3] = {&Gains::loft, &Gains::technique, &Gains::both};

Interval80 interval(const std::vector<Gains>& draws, double Gains::*which) {
  std::vector<double> values;
  double mean = 0.0;
  for (const Gains& g : draws) {
    values.push_back(g.*which);
    mean += g.*which / static_cast<double>(draws.size());
  }
  return {quantile(values, 0.1), mean, quantile(values, 0.9)};
}

template <class Condition>
double share(const std::vector<Gains>& draws, Condition holds) {
  return static_cast<double>(std::count_if(draws.begin(), draws.end(), holds)) / static_cast<double>(draws.size());
}

// Where moving one assumption alone turns the verdict: the draws' gains are shifted by what the move does to the perfect
// strike's, and ruled on again.
void find_flip(Influence& influence, const Trial& trial, const Uncertainty& uncertainty, const std::vector<Gains>& draws, Lever now,
               double worthwhile) {
  const Group moved = coordinates_of(influence.assumption);
  std::array<double, kCoordinates> u;
  const Circumstances nominal = uncertainty.at(u, {});
  const Gains base = trial.gains(nominal);
  const auto lever_at = [&](double at) {
    u.fill(at);
    const Gains there = trial.gains(uncertainty.at(u, moved));
    std::vector<Gains> shifted = draws;
    for (Gains& g : shifted) {
      for (const auto which : kGain) g.*which = base.*which == kNone ? kNone : g.*which + there.*which - base.*which;
    }
    return rule(shifted, worthwhile).lever;
  };
  // Two standard deviations either way, nearest first.
  constexpr double kLowest = 0.0228;
  constexpr int kSteps = 6;
  double nearest = 2.0;
  for (const double end : {kLowest, 1.0 - kLowest}) {
    double before = 0.5;
    for (int i = 1; i <= kSteps; ++i) {
      const double at = 0.5 + (end - 0.5) * i / kSteps;
      Lever there = lever_at(at);
      if (there == now) {
        before = at;
        continue;
      }
      double low = before, high = at;
      while (std::abs(high - low) > 0.002) {
        const double middle = 0.5 * (low + high);
        const Lever found = lever_at(middle);
        if (found == now) {
          low = middle;
        } else {
          high = middle;
          there = found;
        }
      }
      if (std::abs(high - 0.5) < nearest) {
        nearest = std::abs(high - 0.5);
        u.fill(high);
        influence.flips_at = uncertainty.value_of(influence.assumption, uncertainty.at(u, moved));
        influence.becomes = there;
      }
      break;
    }
  }
}

std::vector<Influence> influences(const Trial& trial, const Uncertainty& uncertainty, const std::vector<Gains>& draws, Lever now,
                                  double worthwhile, const AdviseOptions& options) {
  std::vector<Influence> ranked;
  std::vector<Group> factors;
  std::array<double, kCoordinates> u{};
  const Circumstances nominal = uncertainty.at(u, {});
  for (std::size_t i = 0; i < kAssumptions; ++i) {
    const auto a = static_cast<Assumption>(i);
    factors.push_back(coordinates_of(a));
    ranked.push_back({a, 0.0, 0.0, uncertainty.value_of(a, nominal), std::nullopt, now});
  }
  const auto difference = [&](std::span<const double> at) {
    const Circumstances c = uncertainty.at(at, everything());
    return trial.goal(trial.found[1], c) - trial.goal(trial.found[0], c);
  };
  const Sensitivity s = sobol_indices(difference, kCoordinates, factors, static_cast<std::size_t>(options.influence_draws), options.seed + 3);
  for (std::size_t i = 0; i < kAssumptions; ++i) {
    ranked[i].first = s.factors[i].first;
    ranked[i].total = s.factors[i].total;
  }
  std::stable_sort(ranked.begin(), ranked.end(), [](const Influence& a, const Influence& b) { return a.total > b.total; });
  int named = 0;
  for (Influence& i : ranked) {
    // A scatter has no value to turn at, and a strike is four at once.
    if (i.assumption == Assumption::shots || i.assumption == Assumption::measured_strike) continue;
    if (++named > 3) break;
    find_flip(i, trial, uncertainty, draws, now, worthwhile);
  }
  return ranked;
}

// How much deciding again gains over the decision made, when `moved` becomes known.
double worth_of_knowing(const Trial& trial, const Freedom& freedom, const Found& decision, const Uncertainty& uncertainty, const Group& moved,
                        double shrink, const AdviseOptions& options) {
  const auto n = static_cast<std::size_t>(options.measuring_draws);
  const std::vector<double> points = sobol_points(n, kCoordinates, options.seed + 4);
  double sum = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    Circumstances c = uncertainty.at(std::span(points).subspan(i * kCoordinates, kCoordinates), moved);
    for (const auto q : kQuantities) c.deviation.*q *= shrink;
    const DriveModel known = trial.model.under(c);
    const Found again = refine(known, freedom, decision, options);
    if (again.feasible()) sum += std::max(0.0, again.point.goal - trial.goal(decision, c));
  }
  return sum / static_cast<double>(n);
}

Measuring measuring(const Trial& trial, const Freedom& freedom, const Found& decision, const Uncertainty& uncertainty,
                    const AdviseOptions& options) {
  const Group delivery = range(kMeasured, kSpreadQuantities);
  const Group ball{kDrag, kLift, kRestitution, kTangential}, lesson{kFollow, kSpeedCost};
  Group all = range(kMeasured, kCoordinates - kMeasured);
  // Before ten more shots are hit, their mean is uncertain by what they will take off the uncertainty there is.
  const double n = trial.model.pupil().measured_shots;
  const double shrink = std::sqrt(1.0 - n / (n + 10.0));
  const auto worth = [&](const Group& moved, double by) {
    return worth_of_knowing(trial, freedom, decision, uncertainty, moved, by, options);
  };
  return {worth(delivery, shrink), worth(ball, 1.0), worth(lesson, 1.0), worth(all, 1.0)};
}

}  // namespace

std::string_view key_of(Assumption assumption) {
  constexpr std::string_view keys[kAssumptions] = {
      "shots", "measured_club_speed", "measured_attack", "measured_dynamic_loft", "measured_strike", "drag", "lift", "restitution",
      "tangential_restitution", "turf", "follow", "speed_cost"};
  return keys[static_cast<std::size_t>(assumption)];
}

Ruling rule(const std::vector<Gains>& draws, double worthwhile) {
  const auto clears = [&](double Gains::*which) {
    return share(draws, [&](const Gains& g) { return g.*which >= worthwhile; }) >= 0.9;
  };
  const bool loft = clears(&Gains::loft), technique = clears(&Gains::technique), both = clears(&Gains::both);
  const double second_lever =
      share(draws, [&](const Gains& g) { return g.both - std::max(g.loft, g.technique) >= worthwhile; });
  if (both && second_lever >= kSure) return {Lever::both, second_lever};
  if (loft && technique) {
    const double p = share(draws, [](const Gains& g) { return g.technique > g.loft; });
    if (p >= kSure) return {Lever::technique, p};
    if (p <= 1.0 - kSure) return {Lever::loft, 1.0 - p};
    return {Lever::either, share(draws, [&](const Gains& g) { return std::min(g.loft, g.technique) >= worthwhile; })};
  }
  if (technique) return {Lever::technique, share(draws, [&](const Gains& g) { return g.technique >= worthwhile; })};
  if (loft) return {Lever::loft, share(draws, [&](const Gains& g) { return g.loft >= worthwhile; })};
  if (both) return {Lever::both, share(draws, [&](const Gains& g) { return g.both >= worthwhile; })};
  return {Lever::leave, share(draws, [&](const Gains& g) { return std::max({g.loft, g.technique, g.both}) < worthwhile; })};
}

Confidence judge(const DriveModel& nominal, const Found& as_is, const std::array<Freedom, 3>& freedoms,
                 const std::array<Found, 3>& found, const AdviseOptions& options, Lever& verdict) {
  const Pupil& pupil = nominal.pupil();
  const Uncertainty uncertainty(pupil, options.widths);
  const Trial trial{nominal, as_is, found};

  Confidence c;
  c.draws = options.draws;
  c.seed = options.seed;
  const Group shots = range(kShot, kSpreadQuantities), knowledge = range(kMeasured, kCoordinates - kMeasured);
  const std::vector<Gains> draws = draw(trial, uncertainty, everything(), options.draws, options.seed);
  const std::vector<Gains> shot_draws = draw(trial, uncertainty, shots, options.part_draws, options.seed + 1);
  const std::vector<Gains> knowledge_draws = draw(trial, uncertainty, knowledge, options.part_draws, options.seed + 2);

  // Shots to average over when the best decision for scattered drives is sought.
  std::vector<Circumstances> scattered;
  const auto n = static_cast<std::size_t>(options.expected_draws);
  const std::vector<double> points = sobol_points(n, kCoordinates, options.seed + 5);
  for (std::size_t i = 0; i < n; ++i) scattered.push_back(uncertainty.at(std::span(points).subspan(i * kCoordinates, kCoordinates), shots));
  const DriveModel expected = nominal.over(scattered);
  const double expected_as_is = expected.value(as_is.club, as_is.point.loft, as_is.point.attack).goal;

  for (std::size_t k = 0; k < 3; ++k) {
    if (!found[k].feasible()) continue;
    const Found best = refine(expected, freedoms[k], found[k], options);
    const double kept = expected.value(found[k].club, found[k].point.loft, found[k].point.attack).goal;
    const double probability = share(draws, [&](const Gains& g) { return g.*kGain[k] >= pupil.worthwhile; });
    c.strategies[k + 1] = StrategyConfidence{interval(draws, kGain[k]), interval(shot_draws, kGain[k]), interval(knowledge_draws, kGain[k]),
                                             probability, best.point.loft, best.point.attack, best.point.goal - expected_as_is,
                                             best.point.goal - kept};
  }
  const auto longer = [&](double Gains::*a, double Gains::*b) -> std::optional<double> {
    if (draws.front().*a == kNone || draws.front().*b == kNone) return std::nullopt;
    return share(draws, [&](const Gains& g) { return g.*a > g.*b; });
  };
  c.technique_over_loft = longer(&Gains::technique, &Gains::loft);
  c.both_over_technique = longer(&Gains::both, &Gains::technique);
  c.both_over_loft = longer(&Gains::both, &Gains::loft);

  const Ruling ruling = rule(draws, pupil.worthwhile);
  verdict = ruling.lever;
  c.verdict_probability = ruling.probability;
  if (c.technique_over_loft) c.influences = influences(trial, uncertainty, draws, ruling.lever, pupil.worthwhile, options);
  if (found[2].feasible()) c.measuring = measuring(trial, freedoms[2], found[2], uncertainty, options);
  return c;
}

}  // namespace loftwright
