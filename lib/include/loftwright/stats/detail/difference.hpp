/// @file
/// Did it change? Two independent samples of unequal scatter: the difference of their means, how sure it is, how large
/// it is against the scatter, and how many more values would settle it. `before` and `after` are in the same unit.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "loftwright/stats/detail/summary.hpp"

namespace loftwright {

/// Welch's t test (Biometrika 34 (1947) 28) with Satterthwaite's degrees of freedom, two-sided.
struct WelchTest {
  double difference;          ///< [unit] after - before
  double standard_error;      ///< [unit]
  double t;                   ///< [-]
  double degrees_of_freedom;  ///< [-]
  double p;                   ///< [-] chance of a difference as large as this when there is none
  double low;                 ///< [unit] lower end of the confidence interval
  double high;                ///< [unit] upper end
};

/// Throws InputError when either has no spread (fewer than two values), when neither varies, or when confidence is
/// outside 0.5 .. 0.9999.
WelchTest welch(const Summary& before, const Summary& after, double confidence = 0.95);

/// Hedges' g: difference over the pooled standard deviation, with the exact correction for small samples (Hedges, J.
/// Educ. Stat. 6 (1981) 107). [-] Throws as welch does.
double hedges_g(const Summary& before, const Summary& after);

/// Chance that Welch's test at this confidence finds a true `difference`, given both standard deviations and counts:
/// the noncentral t distribution. [-] Throws as welch does.
double welch_power(double difference, const Summary& before, const Summary& after, double confidence = 0.95);

/// The fewest values to add for welch_power to reach `power`, with the standard deviations seen. Empty: more than
/// kMostValues would be needed, or (adding after only) no number does because the sample before stays as it is.
inline constexpr std::size_t kMostValues = 10000;
/// How many more values would settle it.
struct MoreValues {
  std::optional<std::size_t> after;  ///< added to the sample after
  std::optional<std::size_t> each;   ///< added to both samples
};
/// Throws InputError as welch_power does, and for a power outside 0.05 .. 0.999.
MoreValues values_needed(double difference, const Summary& before, const Summary& after, double confidence = 0.95,
                         double power = 0.8);

/// Holm's correction (Scand. J. Stat. 6 (1979) 65) for many comparisons at once: each p, made larger, in the order
/// given. Throws InputError for a p outside 0 .. 1.
std::vector<double> holm(std::span<const double> p);

/// How a bootstrap is drawn.
struct BootstrapOptions {
  double confidence = 0.95;       ///< [-] 0.5 .. 0.9999
  std::size_t resamples = 10000;  ///< 100 .. 10 million
  std::uint64_t seed = 1;         ///< the same seed gives the same ends on every machine
};

/// Two intervals of one bootstrap.
struct BootstrapInterval {
  double low;              ///< [unit] its lower end ...
  double high;             ///< [unit] ... and its upper: bias-corrected and accelerated (Efron, JASA 82 (1987) 171)
  double percentile_low;   ///< [unit] plain percentiles of the same resamples, the lower ...
  double percentile_high;  ///< [unit] ... and the upper
};

/// Interval for mean(after) - mean(before) that asks for no normal scatter: both samples are drawn again with
/// replacement. Throws InputError when either has fewer than two values, when neither varies, or for options out of
/// range.
BootstrapInterval bootstrap_difference(std::span<const double> before, std::span<const double> after,
                                       const BootstrapOptions& options = {});

/// Which values of a sample one of its resamples holds: `count` (1 or more) indices, drawn with replacement. The same
/// seed and number give the same indices on every machine.
std::vector<std::size_t> resample(std::size_t count, std::uint64_t seed, std::uint64_t number);

/// Percentiles over resamples of two samples of `before` and `after` values are too narrow when these are few: the
/// share to cut off each end instead of (1 - confidence) / 2, which is what it tends to. From Student's t and from the
/// n - 1 that a resample's scatter knows nothing of (Hesterberg, Am. Stat. 69 (2015) 371, memory), here with the
/// smaller n. [-] With fewer than two of either 0: the whole range. Throws InputError for a confidence out of range.
double expanded_tail(double confidence, std::size_t before, std::size_t after);

}  // namespace loftwright
