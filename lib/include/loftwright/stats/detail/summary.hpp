/// @file
/// Location, scatter and togetherness of samples. Every function throws InputError for a value that is not finite.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "loftwright/core/error.hpp"

namespace loftwright {

/// Location and scatter of a sample.
struct Summary {
  std::size_t count = 0;        ///< [-] values
  double mean = 0.0;            ///< [unit of the sample]
  double sd = 0.0;              ///< [unit of the sample] with count - 1; says nothing unless has_spread()
  double standard_error = 0.0;  ///< [unit of the sample] of the mean: sd / sqrt(count); likewise

  bool has_spread() const { return count >= 2; }  ///< whether there is a scatter to speak of
};

/// Two passes with a correction for what the first mean left over (Chan, Golub & LeVeque, Am. Stat. 37 (1983) 242):
/// exact to rounding even where the scatter is a hundred-millionth of the mean (NIST StRD NumAcc4). An empty sample has
/// count 0.
Summary summarise(std::span<const double> sample);

/// Sample covariance, with n - 1. Throws InputError unless both have the same length of at least 2.
double covariance(std::span<const double> x, std::span<const double> y);

/// Pearson's r, -1 .. 1. Empty when either does not vary. Throws as covariance does.
std::optional<double> correlation(std::span<const double> x, std::span<const double> y);

/// Linear between order statistics, share 0 .. 1 (Hyndman & Fan, Am. Stat. 50 (1996) 361, type 7). Throws when empty.
double quantile(std::span<const double> sample, double share);
/// The same without a copy and without looking: of at least one value, all finite. Reorders them.
double quantile_in_place(std::span<double> sample, double share);
double median(std::span<const double> sample);  ///< the middle, or halfway between the middle two; throws when empty

/// 1.4826 times the median absolute deviation from the median: the standard deviation of a normal sample, untouched by
/// a few wild values. Throws when empty.
double robust_sd(std::span<const double> sample);

/// Which values stand out: |x - median| > limit robust_sd, the rule of Iglewicz & Hoaglin, How to Detect and Handle
/// Outliers, ASQC 1993 (memory). Where more than half the values are equal, robust_sd is zero and 1.2533 times the mean
/// absolute deviation from the median takes its place (theirs too). With fewer than kLeastForOutliers values none is
/// marked. Honest normal values marked at limit 3.5: 2.2 % of 8, 0.7 % of 20, 0.2 % of 50; below 8 over 3 % (our
/// simulation).
inline constexpr double kOutlierLimit = 3.5;         ///< [-] the published one
inline constexpr std::size_t kLeastForOutliers = 8;  ///< estimate, from the shares above
/// One for each value, in their order.
std::vector<bool> outliers(std::span<const double> sample, double limit = kOutlierLimit);

}  // namespace loftwright
