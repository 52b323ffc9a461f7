/// @file
/// A straight line through points that scatter, and how sure its slope is.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "loftwright/core/error.hpp"

namespace loftwright {

/// Ordinary least squares, y = intercept + slope x: every point counts alike, scatters alike and on its own. Of points
/// in groups each group has a line of its own, all with one slope (analysis of covariance).
struct Trend {
  std::size_t count;               ///< [-] points
  double slope;                    ///< [unit of y per unit of x]
  std::vector<double> intercepts;  ///< [unit of y] of each group's line
  std::size_t freedom;             ///< [-] degrees of freedom: count - groups - 1
  /// From the scatter about the lines; they say nothing unless has_doubt().
  double residual_sd = 0.0;     ///< [unit of y]
  double standard_error = 0.0;  ///< [unit of y per unit of x] of the slope
  double low = 0.0;             ///< [unit of y per unit of x] lower end of the slope's confidence interval
  double high = 0.0;            ///< [unit of y per unit of x] upper end

  bool has_doubt() const { return freedom > 0; }  ///< whether there is a scatter to tell it from
};

/// Empty with fewer than two points or when x varies within no group. `group` numbers each point's group from 0, none
/// left out. Throws InputError unless all have the same length, all values are finite, and confidence lies in 0.5 ..
/// 0.9999.
std::optional<Trend> trend(std::span<const double> x, std::span<const double> y, std::span<const std::size_t> group,
                           double confidence = 0.95);

/// All points in one group.
std::optional<Trend> trend(std::span<const double> x, std::span<const double> y, double confidence = 0.95);

}  // namespace loftwright
