#include "loftwright/stats/sensitivity.hpp"

#include "loftwright/stats/quasi.hpp"

namespace loftwright {

Sensitivity sobol_indices(const std::function<double(std::span<const double>)>& output, std::size_t dimensions,
                          const std::vector<std::vector<std::size_t>>& factors, std::size_t count, std::uint64_t seed) {
  const std::vector<double> points = sobol_points(count, 2 * dimensions, seed);
  std::vector<double> at_a(count), at_b(count), mixed(dimensions);
  const auto a = [&](std::size_t i) { return std::span(points).subspan(2 * dimensions * i, dimensions); };
  const auto b = [&](std::size_t i) { return std::span(points).subspan(2 * dimensions * i + dimensions, dimensions); };

  Sensitivity result;
  for (std::size_t i = 0; i < count; ++i) {
    at_a[i] = output(a(i));
    at_b[i] = output(b(i));
    result.mean += (at_a[i] + at_b[i]) / (2.0 * static_cast<double>(count));
  }
  for (std::size_t i = 0; i < count; ++i) {
    at_a[i] -= result.mean;
    at_b[i] -= result.mean;
    result.variance += (at_a[i] * at_a[i] + at_b[i] * at_b[i]) / (2.0 * static_cast<double>(count));
  }
  for (const auto& factor : factors) {
    double first = 0.0, total = 0.0;
    for (std::size_t i = 0; i < count && result.variance > 0.0; ++i) {
      mixed.assign(a(i).begin(), a(i).end());
      for (const std::size_t k : factor) mixed[k] = b(i)[k];
      const double at_mixed = output(mixed) - result.mean;
      first += at_b[i] * (at_mixed - at_a[i]);
      total += 0.5 * (at_a[i] - at_mixed) * (at_a[i] - at_mixed);
    }
    const double whole = result.variance * static_cast<double>(count);
    result.factors.push_back(whole > 0.0 ? SobolIndex{first / whole, total / whole} : SobolIndex{0.0, 0.0});
  }
  return result;
}

}  // namespace loftwright
