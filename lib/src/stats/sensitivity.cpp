#include "loftwright/stats/sensitivity.hpp"

#include "loftwright/stats/quasi.hpp"

namespace loftwright {

Sensitivity sobol_indices(const Outputs& outputs, std::size_t dimensions, const std::vector<std::vector<std::size_t>>& factors,
                          std::size_t count, std::uint64_t seed) {
  const std::vector<double> pairs = sobol_points(count, 2 * dimensions, seed);

  // Row i: at a, at b, then at a with each factor taken from b.
  const std::size_t width = 2 + factors.size();
  std::vector<double> points;
  points.reserve(count * width * dimensions);
  for (std::size_t i = 0; i < count; ++i) {
    const auto a = pairs.begin() + static_cast<std::ptrdiff_t>(2 * dimensions * i), b = a + static_cast<std::ptrdiff_t>(dimensions);
    points.insert(points.end(), a, b + static_cast<std::ptrdiff_t>(dimensions));
    for (const auto& factor : factors) {
      const std::size_t row = points.size();
      points.insert(points.end(), a, b);
      for (const std::size_t k : factor) points[row + k] = b[static_cast<std::ptrdiff_t>(k)];
    }
  }
  std::vector<double> values(count * width);
  outputs(points, values);

  Sensitivity result;
  const double n = static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) result.mean += (values[i * width] + values[i * width + 1]) / (2.0 * n);
  for (double& v : values) v -= result.mean;
  for (std::size_t i = 0; i < count; ++i) {
    const double *row = values.data() + i * width;
    result.variance += (row[0] * row[0] + row[1] * row[1]) / (2.0 * n);
  }
  for (std::size_t f = 0; f < factors.size(); ++f) {
    SobolIndex index{0.0, 0.0};
    for (std::size_t i = 0; i < count && result.variance > 0.0; ++i) {
      const double* row = values.data() + i * width;
      const double change = row[2 + f] - row[0];
      index.first += row[1] * change / (n * result.variance);
      index.total += 0.5 * change * change / (n * result.variance);
    }
    result.factors.push_back(index);
  }
  return result;
}

}  // namespace loftwright
