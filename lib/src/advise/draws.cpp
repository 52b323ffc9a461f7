#include "advise/draws.hpp"

#include <algorithm>
#include <cmath>

#include "core/parallel.hpp"
#include "stats/quasi.hpp"

namespace loftwright {

constexpr std::size_t kDrawn = Sampler::kBlock;

std::vector<Circumstances> Sampler::circumstances(std::size_t block, SurfacePoints* unknown) const {
  const std::vector<double> points = sobol_points(kBlock, kDimensions, seed_, block * kBlock);
  std::vector<Circumstances> out(kBlock);
  for (std::size_t n = 0; n < kBlock; ++n) {
    const double* at = &points[n * kDimensions];
    Uncertainty::Deviates z;
    Scatter::Deviates shot;
    for (const Unknown u : kAllOf<Unknown>) z[u] = normal_quantile(at[index_of(u)]);
    for (std::size_t i = 0; i < shot.size(); ++i) shot[i] = normal_quantile(at[kCountOf<Unknown> + i]);
    for (std::size_t i = 0; unknown && i < unknown->dimensions(); ++i)
      unknown->of(block, i)[n] = static_cast<float>(z.values[i]);
    out[n] = uncertainty_.at(z, shot);
  }
  return out;
}

std::size_t whole_blocks(int draws) { return (static_cast<std::size_t>(draws) + kDrawn - 1) / kDrawn; }

std::vector<AverageDrive> average_drives(const DriveModel& model, std::span<const Found> places,
                                         const AdviseOptions& options) {
  std::vector<AverageDrive> out(places.size());
  if (options.draws == 0) {
    for (std::size_t i = 0; i < places.size(); ++i)
      out[i] = model.average(places[i].club, places[i].point.loft, places[i].point.attack);
    return out;
  }
  const std::size_t blocks = whole_blocks(options.draws), count = blocks * kDrawn;
  const Uncertainty uncertainty(model.pupil(), model.setting(), options.widths);
  const Sampler sampler(uncertainty, options.seed);
  std::vector<AverageDrive> sums(blocks * places.size());
  std::vector<float> sides(count * places.size());
  parallel_for(blocks, options.threads, [&](std::size_t block) {
    const std::vector<Circumstances> circumstances = sampler.circumstances(block);
    std::vector<Drive> drives(kDrawn);
    for (std::size_t i = 0; i < places.size(); ++i) {
      model.drives(places[i].club, places[i].point.loft, places[i].point.attack, circumstances, drives);
      AverageDrive& sum = sums[block * places.size() + i];
      for (std::size_t n = 0; n < kDrawn; ++n) {
        sum.carry += drives[n].flight.carry;
        sum.total += drives[n].total;
        sum.side += drives[n].side_at_rest;
        sides[i * count + block * kDrawn + n] = static_cast<float>(drives[n].side_at_rest);
      }
    }
  });
  const auto n = static_cast<double>(count);
  for (std::size_t i = 0; i < places.size(); ++i) {
    AverageDrive& a = out[i];
    for (std::size_t block = 0; block < blocks; ++block) {
      const AverageDrive& sum = sums[block * places.size() + i];
      a.carry += sum.carry / n;
      a.total += sum.total / n;
      a.side += sum.side / n;
    }
    const auto first = sides.begin() + static_cast<std::ptrdiff_t>(i * count);
    const double half = 0.5 * model.pupil().fairway;
    const auto held = std::count_if(first, first + static_cast<std::ptrdiff_t>(count),
                                    [&](float s) { return std::abs(s - a.side) <= half; });
    a.fairway_share = static_cast<double>(held) / n;
  }
  return out;
}

std::vector<double> average_gains(const DriveModel& model, const Found& as_is, std::span<const Found> places,
                                  const AdviseOptions& options) {
  constexpr std::size_t kMostBlocks = 16;
  const std::size_t blocks = std::min(kMostBlocks, whole_blocks(options.draws));
  const Uncertainty uncertainty(model.pupil(), model.setting(), options.widths);
  const Sampler sampler(uncertainty, options.seed);
  std::vector<double> sums(blocks * places.size(), 0.0);
  parallel_for(blocks, options.threads, [&](std::size_t block) {
    const std::vector<Circumstances> circumstances = sampler.circumstances(block);
    std::vector<Drive> drives(kDrawn);
    const auto goal_sum = [&](const Found& f) {
      double sum = 0.0;
      model.drives(f.club, f.point.loft, f.point.attack, circumstances, drives);
      for (const Drive& d : drives) sum += model.goal_of(d);
      return sum;
    };
    const double base = goal_sum(as_is);
    for (std::size_t i = 0; i < places.size(); ++i) sums[block * places.size() + i] = goal_sum(places[i]) - base;
  });
  std::vector<double> gains(places.size(), 0.0);
  for (std::size_t i = 0; i < sums.size(); ++i)
    gains[i % places.size()] += sums[i] / static_cast<double>(blocks * kDrawn);
  return gains;
}

}  // namespace loftwright
