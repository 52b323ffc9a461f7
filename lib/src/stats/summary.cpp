#include "loftwright/stats/detail/summary.hpp"

#include <algorithm>
#include <cmath>

namespace loftwright {

namespace {

void check_finite(std::span<const double> sample) {
  if (!std::all_of(sample.begin(), sample.end(), [](double x) { return std::isfinite(x); })) {
    throw InputError("a sample holds a value that is not a finite number");
  }
}

void check_pair(std::span<const double> x, std::span<const double> y) {
  if (x.size() != y.size() || x.size() < 2) {
    throw InputError("two samples vary together only when both have the same number of values, at least 2");
  }
}

double mean_of(std::span<const double> sample) {
  const double n = static_cast<double>(sample.size());
  double first = 0.0, rest = 0.0;
  for (const double x : sample) first += x / n;  // dividing first keeps huge values from overflowing
  for (const double x : sample) rest += (x - first) / n;
  return first + rest;
}

// Sum of products of deviations, less the product of what the rounded means left over.
double co_moment(std::span<const double> x, double x_mean, std::span<const double> y, double y_mean) {
  double products = 0.0, x_rest = 0.0, y_rest = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double dx = x[i] - x_mean, dy = y[i] - y_mean;
    products += dx * dy;
    x_rest += dx;
    y_rest += dy;
  }
  return products - x_rest * y_rest / static_cast<double>(x.size());
}

double median_distance(std::span<const double> sample, double from) {
  std::vector<double> distances;
  distances.reserve(sample.size());
  for (const double x : sample) distances.push_back(std::abs(x - from));
  return median(distances);
}

}  // namespace

Summary summarise(std::span<const double> sample) {
  check_finite(sample);
  Summary s{.count = sample.size()};
  if (s.count == 0) return s;
  s.mean = mean_of(sample);
  if (s.count == 1) return s;
  const double n = static_cast<double>(s.count);
  s.sd = std::sqrt(std::max(0.0, co_moment(sample, s.mean, sample, s.mean)) / (n - 1.0));
  s.standard_error = s.sd / std::sqrt(n);
  return s;
}

double covariance(std::span<const double> x, std::span<const double> y) {
  check_pair(x, y);
  check_finite(x);
  check_finite(y);
  return co_moment(x, mean_of(x), y, mean_of(y)) / static_cast<double>(x.size() - 1);
}

std::optional<double> correlation(std::span<const double> x, std::span<const double> y) {
  const double together = covariance(x, y), sds = summarise(x).sd * summarise(y).sd;
  if (sds == 0.0) return std::nullopt;
  return std::clamp(together / sds, -1.0, 1.0);
}

double quantile(std::span<const double> sample, double share) {
  if (sample.empty()) throw InputError("an empty sample has no quantile");
  check_finite(sample);
  check_range("share", share, 0.0, 1.0, "");
  std::vector<double> sorted(sample.begin(), sample.end());
  return quantile_in_place(sorted, share);
}

double quantile_in_place(std::span<double> sample, double share) {
  const double at = share * static_cast<double>(sample.size() - 1);
  const auto below = static_cast<std::ptrdiff_t>(at);
  std::nth_element(sample.begin(), sample.begin() + below, sample.end());
  const double low = sample[static_cast<std::size_t>(below)], part = at - static_cast<double>(below);
  if (part == 0.0) return low;
  return low + part * (*std::min_element(sample.begin() + below + 1, sample.end()) - low);
}

double median(std::span<const double> sample) { return quantile(sample, 0.5); }

double robust_sd(std::span<const double> sample) {
  constexpr double kNormalQuartile = 0.674489750196082;  // [-] the upper quartile of the standard normal
  return median_distance(sample, median(sample)) / kNormalQuartile;
}

std::vector<bool> outliers(std::span<const double> sample, double limit) {
  std::vector<bool> marks(sample.size(), false);
  if (sample.size() < kLeastForOutliers) return marks;
  const double middle = median(sample);
  double scatter = robust_sd(sample);
  if (scatter == 0.0) {
    constexpr double kNormalMeanDeviation = 0.797884560802865;  // [-] sqrt(2/pi), of the standard normal
    for (const double x : sample)
      scatter += std::abs(x - middle) / kNormalMeanDeviation / static_cast<double>(sample.size());
  }
  for (std::size_t i = 0; i < sample.size(); ++i) marks[i] = std::abs(sample[i] - middle) > limit * scatter;
  return marks;
}

}  // namespace loftwright
