#include "loftwright/stats/sensitivity.hpp"

#include "loftwright/core/parallel.hpp"
#include "loftwright/stats/quasi.hpp"

namespace loftwright {

Sensitivity sobol_indices(const std::function<double(std::span<const double>)>& output, std::size_t dimensions,
                          const std::vector<std::vector<std::size_t>>& factors, std::size_t count, std::uint64_t seed,
                          int threads) {
  const std::vector<double> points = sobol_points(count, 2 * dimensions, seed);
  const auto a = [&](std::size_t i) { return std::span(points).subspan(2 * dimensions * i, dimensions); };
  const auto b = [&](std::size_t i) { return std::span(points).subspan(2 * dimensions * i + dimensions, dimensions); };

  // Row i: at a, at b, then at a with each factor taken from b.
  const std::size_t width = 2 + factors.size();
  std::vector<double> values(count * width);
  parallel_for(count, threads, [&](std::size_t i) {
    double* row = values.data() + i * width;
    row[0] = output(a(i));
    row[1] = output(b(i));
    std::vector<double> mixed;
    for (std::size_t f = 0; f < factors.size(); ++f) {
      mixed.assign(a(i).begin(), a(i).end());
      for (const std::size_t k : factors[f]) mixed[k] = b(i)[k];
      row[2 + f] = output(mixed);
    }
  });

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
