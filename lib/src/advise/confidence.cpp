#include "advise/confidence.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "advise/scatter.hpp"
#include "loftwright/core/parallel.hpp"
#include "loftwright/stats/quasi.hpp"
#include "loftwright/stats/sensitivity.hpp"
#include "loftwright/stats/summary.hpp"

namespace loftwright {

namespace {

constexpr double kNone = -std::numeric_limits<double>::infinity();
constexpr double kSure = 0.8, kSeldom = 0.2;  // probability from which one lever is said to be longer, to which the other is

// What a draw is made of: independent standard normal deviates, zero where all is as measured and modelled.
enum Coordinate : std::size_t {
  kShot = 0,                                  // seven: this drive's deviation
  kMeasured = kShot + kSpreadQuantities,      // seven: how far the measured means are off
  kDrag = kMeasured + kSpreadQuantities,
  kLift,
  kRestitution,
  kTangential,
  kTurfTilt,
  kTurfTiltSpeed,
  kTurfRestitution,
  kTurfRise,
  kTurfFriction,
  kTurfRolling,
  kTurfGrass,
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
    case Assumption::turf_bounce: return range(kTurfTilt, 5);
    case Assumption::turf_roll: return {kTurfRolling, kTurfGrass};
    case Assumption::follow: return {kFollow};
    case Assumption::speed_cost: return {kSpeedCost};
  }
  return {};
}

// A scatter has no value to turn at; a strike and a turf are several at once.
bool has_value(Assumption a) {
  return a != Assumption::shots && a != Assumption::measured_strike && a != Assumption::turf_bounce && a != Assumption::turf_roll;
}

using Deviates = std::array<double, kCoordinates>;
constexpr ByTunable<std::size_t> kTunableCoordinates{kRestitution, kTangential, kDrag, kLift};

// The widths of what can be tuned, in the parts of ModelErrorOf: added to the head's, relative to the setting's scales.
ByTunable<double> tunable_widths(const Pupil& pupil, const ErrorWidths& w) {
  if (!pupil.tuned) return {w.restitution, w.tangential_restitution, w.drag_scale, w.lift_scale};
  const Tuning& t = *pupil.tuned;
  return {t.sd[0], t.sd[1], t.sd[2] / t.value[2], t.sd[3] / t.value[3]};
}

// Turns deviates into circumstances.
class Uncertainty {
 public:
  Uncertainty(const Pupil& pupil, const Turf& turf, const ErrorWidths& widths)
      : pupil_(pupil), turf_(turf), widths_(widths), scatter_(pupil) {
    using Correlations = std::vector<Spread::Correlation>;
    tunable_root_ = root_of(tunable_widths(pupil, widths), pupil.tuned ? pupil.tuned->correlations : Correlations{}, "tuned");
  }

  Circumstances at(const Deviates& z) const {
    Circumstances c;
    const double few = 1.0 / std::sqrt(static_cast<double>(pupil_.measured_shots));
    Scatter::Deviates shot;
    for (std::size_t j = 0; j < shot.size(); ++j) shot[j] = z[kShot + j] + few * z[kMeasured + j];
    c.deviation = scatter_.at(shot);
    ByTunable<double> off{};
    for (std::size_t i = 0; i < kTunables; ++i) {
      for (std::size_t j = 0; j <= i; ++j) off[i] += tunable_root_[i][j] * z[kTunableCoordinates[j]];
    }
    c.error = {1.0 + off[2], 1.0 + off[3], off[0], off[1], turf_at(z)};
    const ErrorWidths& w = widths_;
    const double follow = pupil_.reach.follow;
    c.follow = follow + between(z[kFollow], std::min(w.follow_below, follow), std::min(w.follow_above, kMostFollow - follow));
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
      case Assumption::follow: return c.follow;
      case Assumption::speed_cost: return c.speed_per_attack;
      case Assumption::shots:
      case Assumption::measured_strike:
      case Assumption::turf_bounce:
      case Assumption::turf_roll: return 0.0;
    }
    return 0.0;
  }

 private:
  // How far something lies from what is taken: as likely below as above, falling to nothing at either end.
  static double between(double z, double below, double above) {
    const double tail = std::erfc(std::abs(z) / std::sqrt(2.0));  // chance of a larger |z|
    return (z < 0.0 ? -below : above) * (1.0 - std::sqrt(tail));
  }

  TurfErrorOf<double> turf_at(const Deviates& z) const {
    const ErrorWidths& w = widths_;
    const double wide = turf_.width;
    const auto times = [wide](double share, double by) { return std::pow(1.0 + share, wide * by); };
    return {.tilt = wide * w.turf_tilt * z[kTurfTilt],
            .restitution = times(w.turf_restitution, z[kTurfRestitution]),
            .rolling = times(w.turf_rolling, z[kTurfRolling]),
            .grass = times(w.turf_grass, z[kTurfGrass]),
            .tilt_speed = times(w.turf_tilt_speed, z[kTurfTiltSpeed]),
            .rise = wide * between(z[kTurfRise], w.turf_rise_below, w.turf_rise_above),
            .friction = wide * between(z[kTurfFriction], w.turf_friction_below, 0.0)};
  }

  const Pupil& pupil_;
  const Turf& turf_;
  const ErrorWidths& widths_;
  Scatter scatter_;
  ByTunable<ByTunable<double>> tunable_root_;
};

// Decisions on trial: fixed lofts and attacks, judged in any circumstances.
struct Trial {
  const DriveModel& model;
  const Found& as_is;
  const std::array<Found, 3>& found;

  std::vector<double> goals(const Found& f, std::span<const Circumstances> circumstances) const {
    return model.goals(f.club, f.point.loft, f.point.attack, circumstances);
  }
  Gains gains(const Circumstances& circumstances) const { return gains(std::span(&circumstances, 1)).front(); }
  std::vector<Gains> gains(std::span<const Circumstances> circumstances) const;
};

constexpr double Gains::*kGain[3] = {&Gains::loft, &Gains::technique, &Gains::both};

std::vector<Gains> Trial::gains(std::span<const Circumstances> circumstances) const {
  std::vector<Gains> gains(circumstances.size(), {kNone, kNone, kNone});
  const std::vector<double> base = goals(as_is, circumstances);
  for (std::size_t k = 0; k < 3; ++k) {
    if (!found[k].feasible()) continue;
    const std::vector<double> changed = goals(found[k], circumstances);
    for (std::size_t i = 0; i < gains.size(); ++i) gains[i].*kGain[k] = changed[i] - base[i];
  }
  return gains;
}

// work(first, count) for parts of `count` draws, on several threads: large enough to fill lanes, small enough to share.
template <class Work>
void in_parts(std::size_t count, int threads, const Work& work) {
  constexpr std::size_t kPart = 256;
  parallel_for((count + kPart - 1) / kPart, threads,
               [&](std::size_t part) { work(part * kPart, std::min(kPart, count - part * kPart)); });
}

// Deviates of `count` draws in which only `moved` moves. The first, most even Sobol coordinates are laid along the directions in
// which the gains change fastest (the linear transformation of Imai & Tan, J. Comput. Finance 10 (2006) 129): of carry's
// intervals the ends then err by a third less; of total's, which has kinks, by no less.
std::vector<Deviates> deviates(const Trial& trial, const Uncertainty& uncertainty, const Group& moved, int count, std::uint64_t seed) {
  const auto dimensions = static_cast<Eigen::Index>(moved.size());
  constexpr double kStep = 0.5;
  std::vector<Circumstances> around;  // above and below in each direction
  for (const std::size_t k : moved) {
    for (const double step : {kStep, -kStep}) {
      Deviates z{};
      z[k] = step;
      around.push_back(uncertainty.at(z));
    }
  }
  const std::vector<Gains> there = trial.gains(around);
  Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(dimensions, 3);
  for (Eigen::Index i = 0; i < dimensions; ++i) {
    const Gains &above = there[static_cast<std::size_t>(2 * i)], &below = there[static_cast<std::size_t>(2 * i + 1)];
    for (int k = 0; k < 3; ++k) {
      if (above.*kGain[k] != kNone) slopes(i, k) = above.*kGain[k] - below.*kGain[k];
    }
  }
  const Eigen::MatrixXd turn = Eigen::HouseholderQR<Eigen::MatrixXd>(slopes).householderQ();

  const std::vector<double> points = sobol_points(static_cast<std::size_t>(count), moved.size(), seed);
  std::vector<Deviates> all(static_cast<std::size_t>(count), Deviates{});
  Eigen::VectorXd y(dimensions);
  for (std::size_t n = 0; n < all.size(); ++n) {
    for (Eigen::Index i = 0; i < dimensions; ++i) y[i] = normal_quantile(points[n * moved.size() + static_cast<std::size_t>(i)]);
    const Eigen::VectorXd z = turn * y;
    for (Eigen::Index i = 0; i < dimensions; ++i) all[n][moved[static_cast<std::size_t>(i)]] = z[i];
  }
  return all;
}

std::vector<Gains> draw(const Trial& trial, const Uncertainty& uncertainty, const Group& moved, int count, std::uint64_t seed,
                        int threads) {
  const std::vector<Deviates> z = deviates(trial, uncertainty, moved, count, seed);
  std::vector<Gains> gains(z.size());
  in_parts(z.size(), threads, [&](std::size_t first, std::size_t part) {
    std::vector<Circumstances> circumstances;
    for (std::size_t i = first; i < first + part; ++i) circumstances.push_back(uncertainty.at(z[i]));
    std::ranges::copy(trial.gains(circumstances), gains.begin() + static_cast<std::ptrdiff_t>(first));
  });
  return gains;
}

// Plain deviates, one Sobol coordinate each.
std::vector<Deviates> plain_deviates(const Group& moved, int count, std::uint64_t seed) {
  const std::vector<double> points = sobol_points(static_cast<std::size_t>(count), moved.size(), seed);
  std::vector<Deviates> all(static_cast<std::size_t>(count), Deviates{});
  for (std::size_t n = 0; n < all.size(); ++n) {
    for (std::size_t i = 0; i < moved.size(); ++i) all[n][moved[i]] = normal_quantile(points[n * moved.size() + i]);
  }
  return all;
}

Interval80 interval(const std::vector<Gains>& draws, double Gains::*which) {
  std::vector<double> values;
  double mean = 0.0;
  for (const Gains& g : draws) {
    values.push_back(g.*which);
    mean += g.*which / static_cast<double>(draws.size());
  }
  return {quantile_in_place(values, 0.1), mean, quantile_in_place(values, 0.9)};
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
  const auto circumstances_at = [&](double p) {
    Deviates z{};
    for (const std::size_t k : moved) z[k] = normal_quantile(p);
    return uncertainty.at(z);
  };
  const Gains base = trial.gains(uncertainty.at({}));
  const auto lever_at = [&](double p) {
    const Gains there = trial.gains(circumstances_at(p));
    std::vector<Gains> shifted = draws;
    for (Gains& g : shifted) {
      for (const auto which : kGain) g.*which = base.*which == kNone ? kNone : g.*which + there.*which - base.*which;
    }
    return rule(shifted, worthwhile).lever;
  };
  const auto turn = nearest_turn(lever_at, now);
  if (!turn) return;
  influence.flips_at = uncertainty.value_of(influence.assumption, circumstances_at(turn->quantile));
  influence.becomes = turn->becomes;
}

std::vector<Influence> influences(const Trial& trial, const Uncertainty& uncertainty, const std::vector<Gains>& draws, Lever now,
                                  double worthwhile, const AdviseOptions& options) {
  std::vector<Influence> ranked;
  std::vector<Group> factors;
  const Circumstances nominal = uncertainty.at({});
  for (std::size_t i = 0; i < kAssumptions; ++i) {
    const auto a = static_cast<Assumption>(i);
    factors.push_back(coordinates_of(a));
    ranked.push_back({a, 0.0, 0.0, uncertainty.value_of(a, nominal), std::nullopt, now});
  }
  const auto differences = [&](std::span<const double> points, std::span<double> values) {
    in_parts(values.size(), options.threads, [&](std::size_t first, std::size_t part) {
      std::vector<Circumstances> circumstances;
      for (std::size_t i = first; i < first + part; ++i) {
        Deviates z;
        std::ranges::transform(points.subspan(i * kCoordinates, kCoordinates), z.begin(), normal_quantile);
        circumstances.push_back(uncertainty.at(z));
      }
      const std::vector<double> loft = trial.goals(trial.found[0], circumstances), technique = trial.goals(trial.found[1], circumstances);
      for (std::size_t i = 0; i < part; ++i) values[first + i] = technique[i] - loft[i];
    });
  };
  const Sensitivity s = sobol_indices(differences, kCoordinates, factors, static_cast<std::size_t>(options.influence_draws), options.seed + 3);
  for (std::size_t i = 0; i < kAssumptions; ++i) {
    ranked[i].first = s.factors[i].first;
    ranked[i].total = s.factors[i].total;
  }
  std::stable_sort(ranked.begin(), ranked.end(), [](const Influence& a, const Influence& b) { return a.total > b.total; });
  int named = 0;
  for (Influence& i : ranked) {
    if (!has_value(i.assumption)) continue;
    if (++named > 3) break;
    find_flip(i, trial, uncertainty, draws, now, worthwhile);
  }
  return ranked;
}

// How much deciding again gains over the decision made, when `moved` becomes known.
double worth_of_knowing(const Trial& trial, const Freedom& freedom, const Found& decision, const Uncertainty& uncertainty, const Group& moved,
                        double shrink, const AdviseOptions& options) {
  const std::vector<Deviates> z = plain_deviates(moved, options.measuring_draws, options.seed + 4);
  std::vector<double> worth(z.size(), 0.0);
  parallel_for(z.size(), options.threads, [&](std::size_t i) {
    Circumstances c = uncertainty.at(z[i]);
    for (const auto q : kSpreadOf) c.deviation.*q *= shrink;
    const DriveModel known = trial.model.under(c);
    const Found again = refine(known, freedom, decision, options);
    const double kept = known.value(decision.club, decision.point.loft, decision.point.attack).goal;
    if (again.feasible()) worth[i] = std::max(0.0, again.point.goal - kept);
  });
  return std::accumulate(worth.begin(), worth.end(), 0.0) / options.measuring_draws;
}

Measuring measuring(const Trial& trial, const Freedom& freedom, const Found& decision, const Uncertainty& uncertainty,
                    const AdviseOptions& options) {
  const Group delivery = range(kMeasured, kSpreadQuantities);
  const Group ball{kDrag, kLift, kRestitution, kTangential}, lesson{kFollow, kSpeedCost};
  const Group all = range(kMeasured, kCoordinates - kMeasured);
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
      "tangential_restitution", "turf_bounce", "turf_roll", "follow", "speed_cost"};
  return keys[static_cast<std::size_t>(assumption)];
}

std::optional<Turn> nearest_turn(const std::function<Lever(double)>& verdict_at, Lever now) {
  constexpr double kLowest = 0.0228, kGrain = 0.002;
  constexpr int kSteps = 6;
  std::optional<Turn> nearest;
  for (const double end : {kLowest, 1.0 - kLowest}) {
    double same = 0.5;
    for (int i = 1; i <= kSteps; ++i) {
      double other = 0.5 + (end - 0.5) * i / kSteps;
      Lever becomes = verdict_at(other);
      if (becomes == now) {
        same = other;
        continue;
      }
      while (std::abs(other - same) > kGrain) {
        const double middle = 0.5 * (same + other);
        const Lever found = verdict_at(middle);
        (found == now ? same : other) = middle;
        if (found != now) becomes = found;
      }
      if (!nearest || std::abs(other - 0.5) < std::abs(nearest->quantile - 0.5)) nearest = Turn{other, becomes};
      break;
    }
  }
  return nearest;
}

Ruling rule(const std::vector<Gains>& draws, double worthwhile) {
  const auto clears = [&](double Gains::*which) {
    return share(draws, [&](const Gains& g) { return g.*which >= worthwhile; }) >= 0.9;
  };
  const bool loft = clears(&Gains::loft), technique = clears(&Gains::technique), both = clears(&Gains::both);
  const double second_lever =
      share(draws, [&](const Gains& g) { return std::isfinite(g.both) && g.both - std::max(g.loft, g.technique) >= worthwhile; });
  if (both && second_lever >= kSure) return {Lever::both, second_lever};
  if (loft && technique) {
    const double p = share(draws, [](const Gains& g) { return g.technique > g.loft; });
    if (p >= kSure) return {Lever::technique, p};
    if (p <= kSeldom) return {Lever::loft, 1.0 - p};
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
  const Uncertainty uncertainty(pupil, nominal.setting().turf, options.widths);
  const Trial trial{nominal, as_is, found};

  Confidence c;
  c.draws = options.draws;
  c.seed = options.seed;
  const Group shots = range(kShot, kSpreadQuantities), knowledge = range(kMeasured, kCoordinates - kMeasured);
  const std::vector<Gains> draws = draw(trial, uncertainty, range(0, kCoordinates), options.draws, options.seed, options.threads);
  const std::vector<Gains> shot_draws = draw(trial, uncertainty, shots, options.part_draws, options.seed + 1, options.threads);
  const std::vector<Gains> knowledge_draws = draw(trial, uncertainty, knowledge, options.part_draws, options.seed + 2, options.threads);

  // Shots to average over when the best decision for scattered drives is sought.
  std::vector<Circumstances> scattered;
  for (const Deviates& z : plain_deviates(shots, options.expected_draws, options.seed + 5)) scattered.push_back(uncertainty.at(z));
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
  if (c.technique_over_loft && options.influence_draws > 0) c.influences = influences(trial, uncertainty, draws, ruling.lever, pupil.worthwhile, options);
  if (found[2].feasible() && options.measuring_draws > 0) c.measuring = measuring(trial, freedoms[2], found[2], uncertainty, options);
  return c;
}

}  // namespace loftwright
