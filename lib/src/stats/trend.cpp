#include "loftwright/stats/detail/trend.hpp"

#include <algorithm>
#include <cmath>

#include "loftwright/stats/detail/summary.hpp"
#include "stats/distributions.hpp"

namespace loftwright {

std::optional<Trend> trend(std::span<const double> x, std::span<const double> y, std::span<const std::size_t> group,
                           double confidence) {
  check_range("confidence", confidence, 0.5, 0.9999, "");
  if (x.size() != y.size() || x.size() != group.size()) throw InputError("a trend needs as many values of x as of y");
  const std::size_t groups = group.empty() ? 0 : *std::max_element(group.begin(), group.end()) + 1;
  std::vector<double> mean_x, mean_y;
  for (std::size_t g = 0; g < groups; ++g) {
    std::vector<double> own_x, own_y;
    for (std::size_t i = 0; i < x.size(); ++i) {
      if (group[i] != g) continue;
      own_x.push_back(x[i]);
      own_y.push_back(y[i]);
    }
    mean_x.push_back(summarise(own_x).mean);
    mean_y.push_back(summarise(own_y).mean);
  }
  double sxx = 0.0, sxy = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sxx += (x[i] - mean_x[group[i]]) * (x[i] - mean_x[group[i]]);
    sxy += (x[i] - mean_x[group[i]]) * (y[i] - mean_y[group[i]]);
  }
  if (!(sxx > 0.0)) return std::nullopt;
  Trend out{x.size(), sxy / sxx, {}, x.size() - groups - 1};
  for (std::size_t g = 0; g < groups; ++g) out.intercepts.push_back(mean_y[g] - out.slope * mean_x[g]);
  if (!out.has_doubt()) return out;
  double squares = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double residual = y[i] - mean_y[group[i]] - out.slope * (x[i] - mean_x[group[i]]);
    squares += residual * residual;
  }
  const double freedom = static_cast<double>(out.freedom);
  out.residual_sd = std::sqrt(squares / freedom);
  out.standard_error = out.residual_sd / std::sqrt(sxx);
  const double t = students_t_exceeded(freedom, 0.5 - 0.5 * confidence);
  out.low = out.slope - t * out.standard_error;
  out.high = out.slope + t * out.standard_error;
  return out;
}

std::optional<Trend> trend(std::span<const double> x, std::span<const double> y, double confidence) {
  return trend(x, y, std::vector<std::size_t>(x.size(), 0), confidence);
}

}  // namespace loftwright
