// Evenly spread points in the unit cube: a Sobol sequence (Boost.Random, directions of Joe & Kuo 2008) moved by a
// random digital shift, so that a seed gives the same points everywhere and averages stay unbiased.
#pragma once

#include <cstdint>
#include <vector>

namespace loftwright {

// `count` points of `dimensions` (1..3000) coordinates, each strictly inside (0, 1); point i starts at i * dimensions.
// `first`: so many points of the sequence are passed over.
std::vector<double> sobol_points(std::size_t count, std::size_t dimensions, std::uint64_t seed, std::size_t first = 0);

// Quantile of the standard normal, within 1e-15 of itself and the same to the last bit on every processor. p in (0, 1).
double normal_quantile(double p);

}  // namespace loftwright
