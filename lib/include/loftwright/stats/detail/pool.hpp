/// @file
/// What many groups say together of an effect that differs from group to group: random effects by Bayes' rule, so that
/// few groups say little. And what a series of points says of a slope when both of its coordinates were measured with
/// error.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "loftwright/core/error.hpp"

namespace loftwright {

/// What is believed before any group was seen. An effect of a group is normal about the groups' mean.
struct PoolPrior {
  double mean;                      ///< [unit of the effect] of the groups' mean: normal ...
  double mean_sd;                   ///< [unit] ... with this standard deviation, above 0
  double between;                   ///< [unit] standard deviation between groups: half-normal of this scale, above 0
  std::vector<double> nuisances{};  ///< [any] scales, above 0, of further unknowns that all groups share: half-normal

  /// [unit] standard deviation of the effect of a group not seen yet
  double new_group_sd() const;
};

/// What is believed after.
struct Pooled {
  double mean = 0.0;          ///< [unit of the effect] of the groups' mean effect
  double sd = 0.0;            ///< [unit] of that
  double low = 0.0;           ///< [unit] eight times in ten it lies between this ...
  double high = 0.0;          ///< [unit] ... and this
  double between_sd = 0.0;    ///< [unit] between groups: root of the mean square
  double between_low = 0.0;   ///< [unit] eight times in ten the true one lies between this ...
  double between_high = 0.0;  ///< [unit] ... and this
  std::size_t groups = 0;     ///< [-] that said something

  /// [unit] standard deviation of the effect of a group not seen yet: that of its mean and that between groups
  double new_group_sd() const;
};

/// logs[i], log likelihood of what a group showed were its effect effects[i], up to a constant of the group. Called
/// from `threads` threads at once. `nuisances` stand in the order of PoolPrior's.
using GroupLikelihood = std::function<void(std::size_t group, std::span<const double> nuisances,
                                           std::span<const double> effects, std::span<double> logs)>;

/// By sums over a grid of mean, spread between groups and nuisances, drawn in about where they lie; the effects of the
/// groups themselves are integrated out on a grid of their own, of step new_group_sd() / 10 within eight of it either
/// way. Checked against a Gibbs sampler (tests/reference/lessons). Without groups the prior comes back. The same for
/// any number of threads. Throws InputError for scales that are not above 0, and more than two nuisances.
Pooled pool(const PoolPrior& prior, std::size_t groups, const GroupLikelihood& likelihood, int threads = 1);

/// A point as measured, with the covariance of its errors.
struct SeriesPoint {
  double x;       ///< [unit of x]
  double y;       ///< [unit of y]
  double var_x;   ///< [unit of x squared] 0 or more
  double var_y;   ///< [unit of y squared] 0 or more
  double cov_xy;  ///< [product of units] cov_xy^2 <= var_x var_y
};

/// Adds log likelihoods of slopes, each to its own of `logs`: true points (X, Y) with X normal about any mean (standard
/// deviation `spread_x`, above 0) and Y = any intercept + slope X, beside which it scatters by `spread_y` (above 0);
/// mean and intercept integrated out flat. Regressing y on x alone would find too small a slope wherever x has errors
/// (errors in variables: Fuller, Measurement Error Models, Wiley 1987, section 1.2, from memory). A series of one point
/// says nothing. The bits are the same on every processor.
void add_slope_log_likelihoods(std::span<const SeriesPoint> series, double spread_x, double spread_y,
                               std::span<const double> slopes, std::span<double> logs);

}  // namespace loftwright
