#include "loftwright/stats/trend.hpp"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "loftwright/stats/summary.hpp"

namespace loftwright {

std::optional<Trend> trend(std::span<const double> x, std::span<const double> y, double confidence) {
  check_range("confidence", confidence, 0.5, 0.9999, "");
  if (x.size() != y.size()) throw InputError("a trend needs as many values of x as of y");
  const double mean_x = summarise(x).mean, mean_y = summarise(y).mean;
  double sxx = 0.0, sxy = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sxx += (x[i] - mean_x) * (x[i] - mean_x);
    sxy += (x[i] - mean_x) * (y[i] - mean_y);
  }
  if (!(sxx > 0.0)) return std::nullopt;
  Trend out{x.size(), sxy / sxx, mean_y - sxy / sxx * mean_x};
  if (!out.has_doubt()) return out;
  double squares = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double residual = y[i] - mean_y - out.slope * (x[i] - mean_x);
    squares += residual * residual;
  }
  const double freedom = static_cast<double>(x.size() - 2);
  out.residual_sd = std::sqrt(squares / freedom);
  out.standard_error = out.residual_sd / std::sqrt(sxx);
  const double t = boost::math::quantile(boost::math::students_t(freedom), 0.5 + 0.5 * confidence);
  out.low = out.slope - t * out.standard_error;
  out.high = out.slope + t * out.standard_error;
  return out;
}

}  // namespace loftwright
