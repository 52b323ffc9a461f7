// Generalised least squares on the mean residual of many shots. How residuals go with the swing from shot to shot is
// not used: errors in the measured delivery would pass for properties of head and ball (errors in variables).
#pragma once

#include <span>

#include "tune/evidence.hpp"

namespace loftwright {

using TunablesSquared = Eigen::Matrix<double, kTunables, kTunables>;

struct Fit {
  Tunables at = Tunables::Zero();
  TunablesSquared covariance = TunablesSquared::Identity();  // prior standard deviations, squared
  double chi_square = 0.0;                                   // of the residuals at `at` and of the way from the prior
  ByTunable<bool> at_end{};
  ByTuneReading<double> widened{};  // [SI] standard deviation added to a reading's noise
  long drives = 0;
};

// The place of least chi-square and prior together, from the prior.
Fit fit(const Gatherer& model, std::span<const Evidence* const> shots, const Tunables& low, const Tunables& high);

// Of the shots' residuals about their mean, at the prior, in units of the errors taken. Distributed as chi-square with
// `freedom` if these are as taken.
struct Scatter {
  double chi_square;
  double freedom;
};
Scatter scatter_of(const Gatherer& model, std::span<const Evidence* const> shots);

// Standard deviation of one shot's residual in one reading by its own errors, noise widened as in a fit.
double expected_sd(const Evidence& e, std::size_t row, const ByTuneReading<double>& widened);

}  // namespace loftwright
