// The rule by which a verdict is reached: docs/verdict.md.
#include <algorithm>
#include <cmath>

#include "advise/confidence.hpp"
#include "loftwright/advise/advise.hpp"

namespace loftwright {

namespace {

constexpr double kSure = 0.9, kLikely = 0.7;  // certainty from which a verdict is called so

bool single(Lever lever) { return lever == Lever::loft || lever == Lever::technique; }

double share_where(std::size_t count, const auto& holds) {
  std::size_t held = 0;
  for (std::size_t i = 0; i < count; ++i) held += holds(i);
  return count == 0 ? 0.0 : static_cast<double>(held) / static_cast<double>(count);
}

}  // namespace

std::string_view key_of(Lever lever) {
  constexpr EnumArray<Lever, std::string_view> keys{"technique", "loft", "either", "both", "leave"};
  return keys[lever];
}

std::string_view key_of(Certainty certainty) {
  constexpr EnumArray<Certainty, std::string_view> keys{"sure", "likely", "close"};
  return keys[certainty];
}

std::string_view key_of(Measure measure) {
  constexpr EnumArray<Measure, std::string_view> keys{"ten_more_shots", "tuned_ball", "trial_lesson", "measured_run"};
  return keys[measure];
}

std::optional<Leaders> leaders(const std::vector<std::pair<Lever, double>>& means) {
  if (means.empty()) return std::nullopt;
  const auto lead =
      std::max_element(means.begin(), means.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  Leaders out{lead->first, lead->first};
  if (!single(lead->first)) return out;
  for (const auto& [lever, mean] : means) {
    if (single(lever) && lever != lead->first && mean > 0.0 && lead->second - mean <= kEqual) out.lever = Lever::either;
  }
  return out;
}

Verdict rule(const std::vector<NetGains>& choices) {
  Verdict v;
  std::vector<std::pair<Lever, double>> means;
  for (const NetGains& c : choices) means.emplace_back(c.lever, c.mean);
  const std::optional<Leaders> lead = leaders(means);
  if (!lead) return v;
  v.lever = lead->lever;
  v.leader = lead->leader;
  const NetGains& leader = *of_lever(choices, v.leader);
  double best_other = 0.0;
  for (const NetGains& c : choices) {
    if (c.lever == v.leader || (v.runner_up && c.mean <= best_other)) continue;
    v.runner_up = c.lever;
    best_other = c.mean;
  }
  const std::size_t count = leader.net.size();
  const auto most_at = [&](std::size_t i) {
    float most = leader.net[i];
    for (const NetGains& c : choices) most = std::max(most, c.net[i]);
    return most;
  };
  v.probability = share_where(count, [&](std::size_t i) { return most_at(i) - leader.net[i] <= kEqual; });
  for (std::size_t i = 0; i < count; ++i) v.regret += (most_at(i) - leader.net[i]) / static_cast<double>(count);
  v.certainty = v.probability >= kSure     ? Certainty::sure
                : v.probability >= kLikely ? Certainty::likely
                                           : Certainty::close;
  if (v.lever == Lever::both) {
    const auto mean_of = [&](Lever lever) {
      const auto at = of_lever(choices, lever);
      return at == choices.end() ? std::optional<double>() : at->mean;
    };
    const std::optional<double> loft = mean_of(Lever::loft), technique = mean_of(Lever::technique);
    if (loft || technique) v.first_step = !technique || (loft && *loft >= *technique) ? Lever::loft : Lever::technique;
  }
  return v;
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

}  // namespace loftwright
