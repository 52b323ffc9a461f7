#include "loftwright/shots/shot_summary.hpp"

#include <algorithm>
#include <cmath>

#include "shots/parts.hpp"

namespace loftwright {

namespace {

std::optional<double> correlation_of(const std::vector<const Shot*>& shots, Reading a, Reading b) {
  const auto [x, y] = both_of(shots, a, b);
  return x.size() < kLeastForCorrelation ? std::nullopt : correlation(x, y);
}

// The readings of `parts` numbered in the order of Spread.
std::vector<Spread::Correlation> drawn_together(const std::vector<const Shot*>& shots, const std::vector<int>& parts) {
  std::vector<const Shot*> whole;
  for (const Shot* shot : shots) {
    const auto has = [&](int part) { return shot->at(kDeliveryParts[part].reading).has_value(); };
    if (std::all_of(parts.begin(), parts.end(), has)) whole.push_back(shot);
  }
  std::vector<Spread::Correlation> out;
  if (whole.size() < kLeastForCorrelation) return out;
  double chance = 0.0, squares = 0.0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (std::size_t j = i + 1; j < parts.size(); ++j) {
      const auto r = correlation_of(whole, kDeliveryParts[parts[i]].reading, kDeliveryParts[parts[j]].reading);
      if (!r) continue;
      const double left = 1.0 - *r * *r;
      chance += left * left / static_cast<double>(whole.size() - 1);
      squares += *r * *r;
      out.push_back({parts[i], parts[j], *r});
    }
  }
  constexpr double kLeast = 0.01;  // [-] of the way to zero
  const double towards_zero = squares > 0.0 ? std::clamp(chance / squares, kLeast, 1.0) : 1.0;
  for (auto& c : out) c.value *= 1.0 - towards_zero;
  return out;
}

}  // namespace

std::vector<const Shot*> counted(const ShotList& list, Outliers odd) {
  std::vector<const Shot*> out;
  for (const Shot& shot : list.shots) {
    if (odd == Outliers::keep || shot.odd.empty()) out.push_back(&shot);
  }
  return out;
}

std::vector<double> values_of(const std::vector<const Shot*>& shots, Reading reading) {
  std::vector<double> out;
  for (const Shot* shot : shots) {
    if (shot->at(reading)) out.push_back(*shot->at(reading));
  }
  return out;
}

std::pair<std::vector<double>, std::vector<double>> both_of(const std::vector<const Shot*>& shots, Reading a,
                                                            Reading b) {
  std::pair<std::vector<double>, std::vector<double>> out;
  for (const Shot* shot : shots) {
    if (!shot->at(a) || !shot->at(b)) continue;
    out.first.push_back(*shot->at(a));
    out.second.push_back(*shot->at(b));
  }
  return out;
}

ShotSummary summarise(const ShotList& list, Outliers odd) {
  const auto shots = counted(list, odd);
  ShotSummary out;
  for (const ReadingInfo& r : readings()) {
    const std::vector<double> values = values_of(shots, r.reading);
    if (!values.empty()) out.readings.push_back({r.reading, summarise(values), median(values), robust_sd(values)});
  }
  for (const ReadingSummary& a : out.readings) {
    auto& row = out.correlations.emplace_back();
    for (const ReadingSummary& b : out.readings) row.push_back(correlation_of(shots, a.reading, b.reading));
  }
  return out;
}

std::vector<Togetherness> strong_correlations(const ShotSummary& summary) {
  constexpr double kOneInHundred = 2.576;  // of the standard normal, two-sided
  std::vector<Togetherness> out;
  for (std::size_t i = 0; i < summary.readings.size(); ++i) {
    for (std::size_t j = i + 1; j < summary.readings.size(); ++j) {
      const auto& r = summary.correlations[i][j];
      if (!r || std::abs(*r) < kStrongCorrelation) continue;
      const auto &a = summary.readings[i], &b = summary.readings[j];
      const double pairs = static_cast<double>(std::min(a.summary.count, b.summary.count));
      if (std::abs(*r) >= std::tanh(kOneInHundred / std::sqrt(pairs - 3.0))) out.push_back({a.reading, b.reading, *r});
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const Togetherness& a, const Togetherness& b) {
    return std::abs(a.correlation) > std::abs(b.correlation);
  });
  return out;
}

std::optional<DeliveryBlock> delivery_block(const ShotList& list, Outliers odd) {
  const auto shots = counted(list, odd);
  DeliveryBlock block;
  block.count = shots.size();
  Spread spread;
  std::vector<int> measured;
  for (int i = 0; i < kSpreadQuantities; ++i) {
    const DeliveryPart& part = kDeliveryParts[i];
    const Summary summary = summarise(values_of(shots, part.reading));
    if (summary.count == 0) {
      if (part.needed) return std::nullopt;
      block.taken_as_zero.push_back(part.reading);
      continue;
    }
    block.mean.*part.value = summary.mean;
    spread.*part.spread = summary.sd;
    measured.push_back(i);
    block.count = std::min(block.count, summary.count);
  }
  if (block.count < 2) return block;
  spread.correlations = drawn_together(shots, measured);
  block.spread = spread;
  return block;
}

}  // namespace loftwright
