// A straight line through points that scatter, and how sure its slope is.
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "loftwright/core/error.hpp"

namespace loftwright {

// Ordinary least squares, y = intercept + slope x: every point counts alike, scatters alike and on its own.
struct Trend {
  std::size_t count;
  double slope;      // [unit of y per unit of x]
  double intercept;  // [unit of y]
  // From the scatter about the line, with count - 2 degrees of freedom; they say nothing unless has_doubt().
  double residual_sd = 0.0;      // [unit of y]
  double standard_error = 0.0;   // [unit of y per unit of x] of the slope
  double low = 0.0, high = 0.0;  // [unit of y per unit of x] ends of the slope's confidence interval

  bool has_doubt() const { return count >= 3; }
};

// Empty with fewer than two points or when x does not vary. Throws InputError unless both have the same length, all
// values are finite, and confidence lies in 0.5 .. 0.9999.
std::optional<Trend> trend(std::span<const double> x, std::span<const double> y, double confidence = 0.95);

}  // namespace loftwright
