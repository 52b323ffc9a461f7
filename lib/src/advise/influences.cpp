#include "advise/influences.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "advise/confidence.hpp"
#include "stats/quasi.hpp"

namespace loftwright {

namespace {

// The coordinates of what is not known, as far as the surfaces have them.
std::vector<std::size_t> within(const std::vector<Unknown>& unknowns, std::size_t dimensions) {
  std::vector<std::size_t> out;
  for (const Unknown u : unknowns) {
    if (index_of(u) < dimensions) out.push_back(index_of(u));
  }
  return out;
}

// How much choosing again gains over keeping to the leader when `unknowns` become known to `shrink` of their width.
double worth_of(const std::vector<Contender>& contenders, const SurfacePoints& points,
                const std::vector<Unknown>& unknowns, double shrink) {
  constexpr std::size_t kBlocksSeen = 16;
  const std::vector<std::size_t> group = within(unknowns, points.dimensions());
  if (group.empty()) return 0.0;
  double lead = -std::numeric_limits<double>::infinity(), again = 0.0;
  std::vector<double> sums(contenders.size(), 0.0);
  std::vector<double> at(group.size());
  const std::size_t blocks = std::min(kBlocksSeen, points.blocks());
  for (std::size_t block = 0; block < blocks; ++block) {
    for (std::size_t n = 0; n < SurfacePoints::kBlock; ++n) {
      for (std::size_t g = 0; g < group.size(); ++g) at[g] = points.of(block, group[g])[n];
      double most = -std::numeric_limits<double>::infinity();
      for (std::size_t c = 0; c < contenders.size(); ++c) {
        const double net = contenders[c].net_given(group, at, shrink);
        sums[c] += net;
        most = std::max(most, net);
      }
      again += most;
    }
  }
  for (const double s : sums) lead = std::max(lead, s);
  return std::max(0.0, again - lead) / static_cast<double>(blocks * SurfacePoints::kBlock);
}

}  // namespace

std::string_view key_of(Assumption assumption) {
  constexpr EnumArray<Assumption, std::string_view> keys{"measured_club_speed",
                                                         "measured_attack",
                                                         "measured_dynamic_loft",
                                                         "measured_strike",
                                                         "drag",
                                                         "lift",
                                                         "restitution",
                                                         "tangential_restitution",
                                                         "turf_bounce",
                                                         "turf_roll",
                                                         "follow",
                                                         "speed_cost"};
  return keys[assumption];
}

Measuring measuring(const std::vector<Contender>& contenders, const Verdict& verdict, const SurfacePoints& points,
                    const Pupil& pupil) {
  std::vector<Unknown> delivery, run;
  for (std::size_t i = 0; i < kSpreadQuantities; ++i) delivery.push_back(measured_part(i));
  for (std::size_t i = kUnknownsOfCarry; i < kUnknownsOfTotal; ++i) run.push_back(static_cast<Unknown>(i));
  // Before ten more shots are hit, their mean is uncertain by what they will take off the uncertainty there is.
  const double n = pupil.measured_shots, shrink = std::sqrt(1.0 - n / (n + 10.0));
  Measuring out;
  const auto worth = [&](const std::vector<Unknown>& unknowns, double of_width = 1.0) {
    return worth_of(contenders, points, unknowns, of_width);
  };
  out.worth[Measure::ten_more_shots] = worth(delivery, shrink);
  out.worth[Measure::tuned_ball] =
      worth({Unknown::drag, Unknown::lift, Unknown::restitution, Unknown::tangential_restitution});
  out.worth[Measure::trial_lesson] = worth({Unknown::follow, Unknown::speed_cost});
  out.worth[Measure::measured_run] = worth(run);
  out.everything = verdict.regret;
  for (double& w : out.worth) w = std::min(w, out.everything);  // a part tells no more than all of it: sampling
  return out;
}

std::vector<Influence> influences(const std::vector<Contender>& contenders, const Verdict& verdict,
                                  const Uncertainty& uncertainty, std::size_t dimensions) {
  if (!verdict.runner_up) return {};
  const auto of = [&](Lever lever) -> const Contender& { return *of_lever(contenders, lever); };
  const Contender &leader = of(verdict.leader), &other = of(*verdict.runner_up);
  if (!leader.gain && !other.gain) return {};
  const GainSurface difference = !leader.gain  ? *other.gain
                                 : !other.gain ? *leader.gain
                                               : leader.gain->minus(*other.gain);
  const Circumstances nominal = uncertainty.at({});
  std::vector<Influence> ranked;
  for (const Assumption a : kAllOf<Assumption>) {
    const GainSurface::Share share = difference.share(within(unknowns_of(a), dimensions));
    ranked.push_back({a, share.alone, share.total, uncertainty.value_of(a, nominal), std::nullopt, verdict.lever});
  }
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const Influence& a, const Influence& b) { return a.total > b.total; });
  constexpr int kNamed = 3;
  int named = 0;
  for (Influence& i : ranked) {
    const std::vector<std::size_t> group = within(unknowns_of(i.assumption), dimensions);
    if (!has_value(i.assumption) || group.empty()) continue;
    if (++named > kNamed) break;
    const auto lever_at = [&](double p) {
      const std::vector<double> at(group.size(), normal_quantile(p));
      std::vector<std::pair<Lever, double>> means;
      for (const Contender& c : contenders) means.emplace_back(c.lever, c.net_given(group, at));
      return leaders(means)->lever;
    };
    const auto turn = nearest_turn(lever_at, verdict.lever);
    if (!turn) continue;
    Uncertainty::Deviates z{};
    for (const std::size_t k : group) z.values[k] = normal_quantile(turn->quantile);
    i.flips_at = uncertainty.value_of(i.assumption, uncertainty.at(z));
    i.becomes = turn->becomes;
  }
  return ranked;
}

}  // namespace loftwright
