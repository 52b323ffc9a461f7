#include "advise/confidence.hpp"

#include <algorithm>
#include <cmath>

#include "advise/draws.hpp"
#include "advise/influences.hpp"
#include "core/parallel.hpp"
#include "stats/quasi.hpp"

namespace loftwright {

namespace {

constexpr EnumArray<StrategyKind, Lever> kLeverOf{Lever::leave, Lever::loft, Lever::technique, Lever::both};
constexpr std::size_t kBlock = SurfacePoints::kBlock;

// The drives of every draw: the same hand and the same world as is and with each decision.
struct Draws {
  SurfacePoints unknown;
  std::vector<StrategyKind> tried;        // which of the decisions move and are feasible
  std::vector<std::vector<float>> gains;  // [m] of single drives, for each tried
  EnumArray<StrategyKind, AverageDrive> averages;
};

Draws draw(const DriveModel& model, const Decisions& decisions, const Uncertainty& uncertainty,
           const AdviseOptions& options) {
  const std::size_t blocks = whole_blocks(options.draws), count = blocks * kBlock;
  const std::size_t seen = model.pupil().goal == Goal::carry ? kUnknownsOfCarry : kUnknownsOfTotal;
  Draws out{SurfacePoints(count, seen), {}, {}, {}};
  std::vector<StrategyKind> flown{StrategyKind::as_is};  // what breaks a limit for its average alone, after the rest
  for (const bool feasible : {true, false}) {
    for (const StrategyKind k : kAllOf<StrategyKind>) {
      if (!decisions[k].moves || decisions[k].found.feasible() != feasible) continue;
      flown.push_back(k);
      if (feasible) out.tried.push_back(k);
    }
  }
  out.gains.assign(out.tried.size(), std::vector<float>(count));
  const std::size_t kinds = flown.size();
  std::vector<std::vector<float>> sides(kinds, std::vector<float>(count));
  std::vector<AverageDrive> sums(blocks * kinds);
  const Sampler sampler(uncertainty, options.seed);

  parallel_for(blocks, options.threads, [&](std::size_t block) {
    const std::vector<Circumstances> circumstances = sampler.circumstances(block, &out.unknown);
    std::vector<double> base(kBlock);
    std::vector<Drive> drives(kBlock);
    for (std::size_t k = 0; k < kinds; ++k) {
      const Found& f = decisions[flown[k]].found;
      model.drives(f.club, f.point.loft, f.point.attack, circumstances, drives);
      AverageDrive& sum = sums[block * kinds + k];
      for (std::size_t n = 0; n < kBlock; ++n) {
        sum.carry += drives[n].flight.carry;
        sum.total += drives[n].total;
        sum.side += drives[n].side_at_rest;
        sides[k][block * kBlock + n] = static_cast<float>(drives[n].side_at_rest);
        const double goal = model.goal_of(drives[n]);
        if (k == 0) base[n] = goal;
        if (k > 0 && k <= out.tried.size()) out.gains[k - 1][block * kBlock + n] = static_cast<float>(goal - base[n]);
      }
    }
  });

  const auto n = static_cast<double>(count);
  std::vector<AverageDrive> averages(kinds);
  for (std::size_t k = 0; k < kinds; ++k) {
    AverageDrive& a = averages[k];
    for (std::size_t block = 0; block < blocks; ++block) {
      const AverageDrive& sum = sums[block * kinds + k];
      a.carry += sum.carry / n;
      a.total += sum.total / n;
      a.side += sum.side / n;
    }
    const double half = 0.5 * model.pupil().fairway;
    const auto held =
        std::count_if(sides[k].begin(), sides[k].end(), [&](float s) { return std::abs(s - a.side) <= half; });
    a.fairway_share = static_cast<double>(held) / n;
  }
  out.averages.fill(averages[0]);
  for (std::size_t k = 1; k < kinds; ++k) out.averages[flown[k]] = averages[k];
  return out;
}

double mean_of(const std::vector<float>& values) {
  double sum = 0.0;
  for (const float v : values) sum += v;
  return sum / static_cast<double>(values.size());
}

// Eight of ten lie between low and high. Reorders the values.
Interval80 interval_of(std::vector<float> values) {
  const double mean = mean_of(values);
  const auto at = [&](double share) {
    const auto nth = values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), nth, values.end());
    return static_cast<double>(*nth);
  };
  const double low = at(0.1), high = at(0.9);
  return {low, mean, high};
}

double chance(const std::vector<float>& a, const std::vector<float>& b) {
  std::size_t longer = 0;
  for (std::size_t i = 0; i < a.size(); ++i) longer += a[i] > b[i];
  return static_cast<double>(longer) / static_cast<double>(a.size());
}

Choice choice_of(Lever lever, const Found& found, bool feasible) {
  return {.lever = lever,
          .feasible = feasible,
          .loft = found.point.loft,
          .attack = found.point.attack,
          .price = found.price};
}

// Most net gain first, ties to the cheaper; what is not feasible last.
void put_in_order(std::vector<Choice>& choices) {
  std::stable_sort(choices.begin(), choices.end(), [](const Choice& a, const Choice& b) {
    if (a.feasible != b.feasible) return a.feasible;
    return a.net_gain != b.net_gain ? a.net_gain > b.net_gain : a.price < b.price;
  });
}

// The chance that each choice has the most net gain, ties to the cheaper.
void count_best(const std::vector<NetGains>& nets, std::vector<Choice>& choices) {
  if (nets.empty()) return;
  const auto price_of = [&](Lever lever) { return of_lever(choices, lever)->price; };
  std::vector<std::size_t> wins(nets.size(), 0), order(nets.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return price_of(nets[a].lever) < price_of(nets[b].lever); });
  const std::size_t count = nets[0].net.size();
  for (std::size_t n = 0; n < count; ++n) {
    std::size_t best = order[0];
    for (const std::size_t i : order) best = nets[i].net[n] > nets[best].net[n] ? i : best;
    ++wins[best];
  }
  for (std::size_t i = 0; i < nets.size(); ++i) {
    of_lever(choices, nets[i].lever)->best_probability = static_cast<double>(wins[i]) / static_cast<double>(count);
  }
}

}  // namespace

void choose(const DriveModel& model, const Decisions& decisions, bool as_is_feasible, Judged& judged) {
  const Found& as_is = decisions[StrategyKind::as_is].found;
  judged.choices = {choice_of(Lever::leave, as_is, as_is_feasible)};
  judged.averages.fill(model.average(as_is.club, as_is.point.loft, as_is.point.attack));
  std::vector<NetGains> nets;
  if (as_is_feasible) nets.push_back({Lever::leave, {0.0f}, 0.0});
  for (const StrategyKind k : kAllOf<StrategyKind>) {
    const Found& f = decisions[k].found;
    if (!decisions[k].moves) continue;
    Choice c = choice_of(kLeverOf[k], f, f.feasible());
    judged.averages[k] = model.average(f.club, f.point.loft, f.point.attack);
    if (c.feasible) {
      c.gain = model.goal_of(judged.averages[k]) - model.goal_of(judged.averages[StrategyKind::as_is]);
      c.net_gain = c.gain - c.price;
      nets.push_back({c.lever, {static_cast<float>(c.net_gain)}, c.net_gain});
    }
    judged.choices.push_back(c);
  }
  judged.verdict = rule(nets);
  count_best(nets, judged.choices);
  put_in_order(judged.choices);
}

Judged judge(const DriveModel& model, const Decisions& decisions, bool as_is_feasible, const AdviseOptions& options) {
  const Pupil& pupil = model.pupil();
  const Uncertainty uncertainty(pupil, model.setting(), options.widths);
  Draws draws = draw(model, decisions, uncertainty, options);
  std::vector<std::vector<float>> gains;  // [m] of the average drive at each draw, for each tried
  const std::vector<GainSurface> surfaces = GainSurface::fit(draws.unknown, draws.gains, options.threads, gains);

  Judged out;
  out.averages = draws.averages;
  Confidence& c = out.confidence;
  c.draws = static_cast<int>(draws.unknown.count());
  c.seed = options.seed;
  if (pupil.measured_shots < kFewMeasured) {
    const Found& as_is = decisions[StrategyKind::as_is].found;
    c.goal_as_measured = model.goal_of(model.average(as_is.club, as_is.point.loft, as_is.point.attack));
  }
  out.choices = {choice_of(Lever::leave, decisions[StrategyKind::as_is].found, as_is_feasible)};
  std::vector<NetGains> nets;
  std::vector<Contender> contenders;
  if (as_is_feasible) {
    nets.push_back({Lever::leave, std::vector<float>(draws.unknown.count(), 0.0f), 0.0});
    contenders.push_back({Lever::leave, 0.0, nullptr});
  }
  EnumArray<StrategyKind, const std::vector<float>*> gains_of{};
  // Judged over all draws, one lever's decision may after all send the average drive as far as that of both.
  if (!draws.tried.empty() && draws.tried.back() == StrategyKind::both) {
    double furthest = mean_of(draws.gains.back());
    for (std::size_t t = 0; t + 1 < draws.tried.size(); ++t) {
      const double alone = mean_of(draws.gains[t]);
      if (alone < furthest) continue;
      furthest = alone;
      out.both_as = draws.tried[t];
    }
    if (out.both_as) draws.tried.pop_back();
  }
  for (std::size_t t = 0; t < draws.tried.size(); ++t) {
    const StrategyKind k = draws.tried[t];
    const Found& f = decisions[k].found;
    const double mean = mean_of(draws.gains[t]), shift = mean - mean_of(gains[t]);
    for (float& g : gains[t]) g += static_cast<float>(shift);
    Choice choice = choice_of(kLeverOf[k], f, true);
    choice.gain = mean;
    choice.net_gain = mean - f.price;
    out.choices.push_back(choice);
    NetGains net{kLeverOf[k], gains[t], choice.net_gain};
    for (float& g : net.net) g -= static_cast<float>(f.price);
    nets.push_back(std::move(net));
    contenders.push_back({kLeverOf[k], f.price, &surfaces[t]});
    const auto gaining = std::count_if(draws.gains[t].begin(), draws.gains[t].end(), [](float g) { return g > 0.0f; });
    c.strategies[k] = StrategyConfidence{interval_of(gains[t]), interval_of(draws.gains[t]),
                                         static_cast<double>(gaining) / static_cast<double>(draws.unknown.count())};
    c.misfit = std::max(c.misfit, surfaces[t].misfit());
    gains_of[k] = &gains[t];
  }
  for (const StrategyKind k : kAllOf<StrategyKind>) {
    if (decisions[k].moves && !decisions[k].found.feasible())
      out.choices.push_back(choice_of(kLeverOf[k], decisions[k].found, false));
  }
  const auto longer = [&](StrategyKind a, StrategyKind b) -> std::optional<double> {
    return gains_of[a] && gains_of[b] ? std::optional(chance(*gains_of[a], *gains_of[b])) : std::nullopt;
  };
  c.technique_over_loft = longer(StrategyKind::technique_only, StrategyKind::loft_only);
  c.both_over_technique = longer(StrategyKind::both, StrategyKind::technique_only);
  c.both_over_loft = longer(StrategyKind::both, StrategyKind::loft_only);

  out.verdict = rule(nets);
  count_best(nets, out.choices);
  put_in_order(out.choices);
  if (!contenders.empty()) {
    c.measuring = measuring(contenders, out.verdict, draws.unknown, pupil);
    c.influences = influences(contenders, out.verdict, uncertainty, draws.unknown.dimensions());
    const auto& worth = c.measuring.worth;
    const Measure most = static_cast<Measure>(std::max_element(worth.begin(), worth.end()) - worth.begin());
    if (c.measuring.worth[most] >= kLeastWorth) out.verdict.measure_first = most;
  }
  return out;
}

}  // namespace loftwright
