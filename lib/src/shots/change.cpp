#include "loftwright/shots/detail/change.hpp"

#include <algorithm>
#include <utility>

#include "core/parallel.hpp"
#include "loftwright/stats/detail/difference.hpp"
#include "shots/parts.hpp"

namespace loftwright {

namespace {

constexpr double kBootstrapTolerance = 1e-5;  // [-] of its flights: a centimetre, where yards scatter

using Shots = std::vector<const Shot*>;

// Mean of a reading over the shots that have it; `otherwise` when none has.
double mean_of(const Shots& shots, Reading reading, double otherwise) {
  double sum = 0.0;
  std::size_t count = 0;
  for (const Shot* shot : shots) {
    if (!shot->at(reading)) continue;
    sum += *shot->at(reading);
    ++count;
  }
  return count > 0 ? sum / static_cast<double>(count) : otherwise;
}

// A list's counted shots, and the mean delivery of them or of a resample; what is not in both lists is zero.
struct Side {
  ShotList list;
  Shots shots;
  const Hitting* hitting;
  std::vector<DeliveryPart> parts;  // in both lists
  Delivery mean;
  double goal = 0.0;  // [m] measured mean; 0 when the goal is not compared

  Delivery delivery(const Shots& of) const {
    Delivery out;
    for (const DeliveryPart& part : parts) out.*part.value = mean_of(of, part.reading, mean.*part.value);
    return out;
  }
  DriveCase drive_case() const { return {delivery(shots), hitting->setting, hitting->club_loft}; }
  Shots again(std::uint64_t seed, std::uint64_t number) const {
    Shots out;
    for (const std::size_t i : resample(shots.size(), seed, number)) out.push_back(shots[i]);
    return out;
  }
};

// What one pair of samples gives.
struct Drawn {
  EnumArray<Factor, double> shares;
  EnumArray<HeldFactor, double> loft_held;
  double modelled = 0.0;
  double unexplained = 0.0;
};

template <class F>
EnumArray<F, double> of_goal(const EnumArray<F, Share>& shares, Goal goal) {
  EnumArray<F, double> out;
  for (const F f : kAllOf<F>) out[f] = goal == Goal::carry ? shares[f].carry : shares[f].total;
  return out;
}

Drawn drawn_from(SharesOfChange& change, const Side& before, const Shots& shots_before, const Side& after,
                 const Shots& shots_after, const ChangeOptions& options) {
  Drawn out{of_goal(change.by_who(options.follow), options.goal), of_goal(change.loft_held(), options.goal)};
  for (const double share : out.shares) out.modelled += share;
  const Reading reading = options.goal == Goal::carry ? Reading::carry : Reading::total;
  const double measured = mean_of(shots_after, reading, after.goal) - mean_of(shots_before, reading, before.goal);
  out.unexplained = measured - out.modelled;
  return out;
}

// The list with the delivery that its ball numbers give, and none other; nothing else is filled in.
ShotList from_ball_numbers(ShotList list, const Setting& setting, Handed handed) {
  for (Shot& shot : list.shots) {
    for (const DeliveryPart& part : kDeliveryParts) shot.at(part.reading).reset();
  }
  const ShotList completed = complete(list, setting, handed).list;
  for (std::size_t i = 0; i < list.shots.size(); ++i) {
    for (const DeliveryPart& part : kDeliveryParts)
      list.shots[i].at(part.reading) = completed.shots[i].at(part.reading);
  }
  return list;
}

bool has(const Shots& shots, Reading reading) {
  return std::any_of(shots.begin(), shots.end(), [&](const Shot* shot) { return shot->at(reading).has_value(); });
}

}  // namespace

bool measured_in_both(const ShotList& before, const ShotList& after, Reading goal) {
  const auto enough = [&](const ShotList& list) { return values_of(counted(list, Outliers::keep), goal).size() >= 2; };
  return enough(before) && enough(after);
}

void compute_goal(Hitting& before, Hitting& after, Handed handed, Reading goal) {
  for (Hitting* one : {&before, &after}) {
    for (Shot& shot : one->list.shots) shot.at(goal).reset();
    const ShotList completed = complete(one->list, one->setting, handed).list;
    for (std::size_t i = 0; i < completed.shots.size(); ++i) one->list.shots[i].at(goal) = completed.shots[i].at(goal);
  }
}

std::optional<Change> explain_change(const Hitting& before, const Hitting& after, Handed handed,
                                     const ChangeOptions& options) {
  const Reading goal = options.goal == Goal::carry ? Reading::carry : Reading::total;
  Change out;
  Side first{before.list, {}, &before, {}, {}}, second{after.list, {}, &after, {}, {}};
  const auto both_have_deliveries = [&] {
    return delivery_block(first.list, options.odd) && delivery_block(second.list, options.odd);
  };
  if (!both_have_deliveries()) {
    out.inferred = true;
    first.list = from_ball_numbers(before.list, before.setting, handed);
    second.list = from_ball_numbers(after.list, after.setting, handed);
    if (!both_have_deliveries()) return std::nullopt;
  }
  first.shots = counted(first.list, options.odd);
  second.shots = counted(second.list, options.odd);
  std::vector<DeliveryPart> parts;
  for (const DeliveryPart& part : kDeliveryParts) {
    if (has(first.shots, part.reading) && has(second.shots, part.reading)) {
      parts.push_back(part);
    } else {
      out.held.push_back(part.reading);
    }
  }
  const bool measured = measured_in_both(before.list, after.list, goal);
  for (Side* side : {&first, &second}) {
    side->parts = parts;
    side->mean = side->delivery(side->shots);
    if (measured) side->goal = mean_of(side->shots, goal, 0.0);
  }

  SharesOfChange means(first.drive_case(), second.drive_case(), handed);
  const Drawn seen = drawn_from(means, first, first.shots, second, second.shots, options);
  std::vector<Drawn> drawn(options.resamples);
  constexpr std::size_t kTogether = 8;  // resamples whose drives fly side by side
  parallel_for((drawn.size() + kTogether - 1) / kTogether, options.threads, [&](std::size_t part) {
    const std::size_t begin = part * kTogether, end = std::min(begin + kTogether, drawn.size());
    std::vector<std::pair<Shots, Shots>> samples;
    std::vector<SharesOfChange> changes;
    for (std::size_t i = begin; i < end; ++i) {
      const auto& [x, y] =
          samples.emplace_back(first.again(options.seed, 2 * i), second.again(options.seed, 2 * i + 1));
      changes.emplace_back(means, first.delivery(x), second.delivery(y), kBootstrapTolerance);
    }
    SharesOfChange::fly_together(changes, options.follow);
    for (std::size_t i = begin; i < end; ++i) {
      const auto& [x, y] = samples[i - begin];
      drawn[i] = drawn_from(changes[i - begin], first, x, second, y, options);
    }
  });
  const double tail = expanded_tail(options.confidence, first.shots.size(), second.shots.size());
  const auto estimate = [&](auto of) {
    std::vector<double> values;
    for (const Drawn& one : drawn) values.push_back(of(one));
    return Estimate{of(seen), quantile(values, tail), quantile(values, 1.0 - tail)};
  };
  for (const Factor f : kAllOf<Factor>) out.shares[f] = estimate([f](const Drawn& d) { return d.shares[f]; });
  for (const HeldFactor f : kAllOf<HeldFactor>)
    out.shares_loft_held[f] = estimate([f](const Drawn& d) { return d.loft_held[f]; });
  out.modelled = estimate([](const Drawn& d) { return d.modelled; });
  if (measured) out.unexplained = estimate([](const Drawn& d) { return d.unexplained; });
  for (std::size_t i = 0; i < kOtherFollows.size(); ++i)
    out.shares_otherwise[i] = of_goal(means.by_who(kOtherFollows[i]), options.goal);
  out.follow = options.follow;
  out.club_known = means.club_known();
  return out;
}

}  // namespace loftwright
