// Draws of everything uncertain, each with one drive's own deviates: what gains and averages are taken over.
#pragma once

#include <span>
#include <vector>

#include "advise/search.hpp"
#include "advise/surface.hpp"
#include "advise/uncertainty.hpp"

namespace loftwright {

// What is unknown and one drive's own deviates each, block after block.
class Sampler {
 public:
  static constexpr std::size_t kBlock = SurfacePoints::kBlock;

  Sampler(const Uncertainty& uncertainty, std::uint64_t seed) : uncertainty_(uncertainty), seed_(seed) {}

  // Of one block; `unknown` takes as many coordinates of it as it has.
  std::vector<Circumstances> circumstances(std::size_t block, SurfacePoints* unknown = nullptr) const;

 private:
  static constexpr std::size_t kDimensions = kCountOf<Unknown> + kSpreadQuantities;
  const Uncertainty& uncertainty_;
  std::uint64_t seed_;
};

std::size_t whole_blocks(int draws);  // rounded up

// The average drive at each of these places: over all of options.draws, as the strategies' are, or with none of them
// over the player's scatter alone.
std::vector<AverageDrive> average_drives(const DriveModel& model, std::span<const Found> places,
                                         const AdviseOptions& options);

// [m] what the average drive gains at other places over as is, over the first of the same draws.
std::vector<double> average_gains(const DriveModel& model, const Found& as_is, std::span<const Found> places,
                                  const AdviseOptions& options);

}  // namespace loftwright
