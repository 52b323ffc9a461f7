#include "stats/quasi.hpp"

#include <boost/math/special_functions/erf.hpp>
#include <boost/random/sobol.hpp>
#include <cmath>

#include "stats/in_double.hpp"

namespace loftwright {

namespace {

// SplitMix64 (Steele, Lea & Flood 2014): one well-mixed word for each dimension's shift.
std::uint64_t mixed(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15u;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

}  // namespace

std::vector<double> sobol_points(std::size_t count, std::size_t dimensions, std::uint64_t seed, std::size_t first) {
  boost::random::sobol engine(dimensions);
  if (first > 1) engine.discard((first - 1) * dimensions);
  std::vector<std::uint64_t> shift(dimensions);
  for (std::size_t k = 0; k < dimensions; ++k) shift[k] = mixed(seed * 0x100000001b3u + k);
  std::vector<double> points(count * dimensions);
  for (std::size_t i = 0; i < points.size(); ++i) {
    // Boost leaves out the first point, the origin; with it 2^m points are spread exactly evenly along each axis.
    const std::uint64_t word = (first == 0 && i < dimensions ? 0 : engine()) ^ shift[i % dimensions];
    points[i] = (static_cast<double>(word >> 12) + 0.5) * 0x1p-52;
  }
  return points;
}

double normal_quantile(double p) { return -std::sqrt(2.0) * boost::math::erfc_inv(2.0 * p, InDouble()); }

}  // namespace loftwright
