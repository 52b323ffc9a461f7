// Which input's uncertainty makes an output uncertain: Sobol indices by pick and freeze.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace loftwright {

struct SobolIndex {
  double first;  // [-] share of the variance this factor explains alone
  double total;  // [-] share that would remain if everything else were known
};

struct Sensitivity {
  double mean = 0.0;
  double variance = 0.0;
  std::vector<SobolIndex> factors;
};

// Values of a function at many points of the unit cube, point after point: all at once, so that the function may spread
// its work as it likes.
using Outputs = std::function<void(std::span<const double> points, std::span<double> values)>;

// `outputs` is a function on the unit cube of `dimensions`; a factor is one or more of its coordinates. First order after
// Saltelli et al., Comput. Phys. Commun. 181 (2010) 259, table 2 (b); total after Jansen, ibid. 117 (1999) 35.
// Evaluates it count * (2 + factors) times. A constant output has indices of zero.
Sensitivity sobol_indices(const Outputs& outputs, std::size_t dimensions, const std::vector<std::vector<std::size_t>>& factors,
                          std::size_t count, std::uint64_t seed);

}  // namespace loftwright
