#include "loftwright/shots/shot_summary.hpp"

#include <algorithm>

#include "shots/parts.hpp"

namespace loftwright {

namespace {

std::optional<double> correlation_of(const std::vector<const Shot*>& shots, Reading a, Reading b) {
  const auto [x, y] = both_of(shots, a, b);
  return x.size() < kLeastForCorrelation ? std::nullopt : correlation(x, y);
}

}  // namespace

std::vector<const Shot*> counted(const ShotList& list, OddShots odd) {
  std::vector<const Shot*> out;
  for (const Shot& shot : list.shots) {
    if (odd == OddShots::keep || shot.odd.empty()) out.push_back(&shot);
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

ShotSummary summarise(const ShotList& list, OddShots odd) {
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

std::optional<DeliveryBlock> delivery_block(const ShotList& list, OddShots odd) {
  const auto shots = counted(list, odd);
  DeliveryBlock block;
  block.count = shots.size();
  Spread spread;
  for (const DeliveryPart& part : kDeliveryParts) {
    const Summary summary = summarise(values_of(shots, part.reading));
    if (summary.count == 0) {
      if (part.needed) return std::nullopt;
      block.taken_as_zero.push_back(part.reading);
      continue;
    }
    block.mean.*part.value = summary.mean;
    spread.*part.spread = summary.sd;
    block.count = std::min(block.count, summary.count);
  }
  if (block.count >= 2) block.spread = spread;
  return block;
}

}  // namespace loftwright
