/// @file
/// Several samples side by side, of unequal scatter and unequal numbers: which means differ, with intervals that hold
/// all at once; how likely each mean is the greatest; and how far values that wander from one to the next widen all of
/// it. All samples are in the same unit.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "loftwright/stats/detail/summary.hpp"

namespace loftwright {

/// Studentised range: the range of `means` independent normal values of the same scatter over an independent estimate
/// of that scatter with `freedom` degrees of freedom. The chance to stay below `q`. [-] Throws InputError unless means
/// is 2 .. kMostSamples and freedom is 1 or more.
double studentised_range_below(double q, std::size_t means, double freedom);
/// What is exceeded with this chance, 1e-4 .. 0.5. [-] Throws likewise.
double studentised_range_exceeded(double chance, std::size_t means, double freedom);
inline constexpr std::size_t kMostSamples = 50;  ///< [-] side by side

/// How the errors of the means go together: what multiplies sd_i sd_j in the covariance of the means i and j. [-] Of
/// values that do not depend on each other 1 / count on the diagonal and zero beside it.
using MeanErrors = std::vector<std::vector<double>>;
MeanErrors independent_errors(std::span<const Summary> samples);  ///< of such values

/// One value as it came: whose it is, and which run of values that came one after the other it stands in.
struct Ordered {
  std::size_t sample;  ///< from 0
  std::size_t run;     ///< from 0; between two runs nothing is shared
  double value;        ///< [unit]
};
/// What the order of the values tells of them.
struct Wandering {
  double share;       ///< [-] of the scatter that wanders from value to value, the mean over what is likely
  MeanErrors errors;  ///< with it
};
/// Values that wander, as a swing does in the course of a session, are known less well than their number says when all
/// of one sample came one after the other, and hardly less well when the samples took turns. Their scatter about the
/// mean of each sample is taken as partly white and partly a first-order autoregression that goes on through a run,
/// whichever sample a value is of. Its share and memory are drawn from the restricted likelihood on a grid, where even
/// odds are that nothing wanders (estimate); the errors are the mean over it. `samples` are of these values; at least
/// two each. Throws InputError otherwise.
Wandering wandering(std::span<const Ordered> values, std::span<const Summary> samples);

/// Two of several samples.
struct PairTest {
  std::size_t first;          ///< from 0; the one with the greater mean
  std::size_t second;         ///< the other
  double difference;          ///< [unit] first - second, 0 or more
  double standard_error;      ///< [unit]
  double degrees_of_freedom;  ///< [-] Satterthwaite's
  double low;                 ///< [unit] lower end of the interval
  double high;                ///< [unit] upper end
  double own_confidence;      ///< [-] of the interval, had these two alone been compared
};
/// Every pair, its interval as wide as it takes for all of them to hold at once with `confidence`: Games & Howell, J.
/// Educ. Stat. 1 (1976) 113, each pair with its own scatter and degrees of freedom, the studentised range in place of
/// Student's t. An interval is never narrower than that of independent values. Ordered by first, then second, as the
/// samples stand. Throws InputError with fewer than two samples or more than kMostSamples, for one that does not vary,
/// and for a confidence outside 0.5 .. 0.9999.
std::vector<PairTest> all_pairs(std::span<const Summary> samples, const MeanErrors& errors, double confidence = 0.95);

/// Values to add to both so that all_pairs would tell apart a true `difference` with this power, with the standard
/// deviations seen; none: more than kMostValues (stats/difference.hpp).
std::optional<std::size_t> values_needed(double difference, const PairTest& pair, const Summary& first,
                                         const Summary& second, double power = 0.8);

/// An interval for one mean that holds together with those of `samples` - 1 others.
struct MeanInterval {
  double low;   ///< [unit]
  double high;  ///< [unit]
};
/// Sidak's, with Student's t. `error`: of the mean, in sd squared (the diagonal of MeanErrors).
MeanInterval mean_interval(const Summary& sample, double error, std::size_t samples, double confidence = 0.95);

/// How the true means are taken to differ before anything is measured.
struct MeanPrior {
  /// [unit] The true means scatter about their own middle, of which nothing is known, with a standard deviation of
  /// which nothing is known but that it is of this size (half-normal).
  double between;
  std::uint64_t seed = 1;    ///< the same seed gives the same numbers on every machine
  std::size_t draws = 8192;  ///< 1000 .. 1 million
};
/// How likely the true mean of each is the greatest; adds up to 1. [-] The means scatter normally (a random-effects
/// model, Gelman, Bayesian Anal. 1 (2006) 515), each scatter is known as well as its count says, and both are
/// integrated over. Without that prior the leader of hardly different samples would be named best far too surely.
/// Throws as all_pairs does.
std::vector<double> best_probabilities(std::span<const Summary> samples, const MeanErrors& errors,
                                       const MeanPrior& prior);

}  // namespace loftwright
