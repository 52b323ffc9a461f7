#include "stats/quasi.hpp"

#include <array>
#include <boost/random/sobol.hpp>
#include <cmath>

#include "loftwright/core/detail/elementary.hpp"

namespace loftwright {

namespace {

// SplitMix64 (Steele, Lea & Flood 2014): one well-mixed word for each dimension's shift.
std::uint64_t mixed(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15u;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

// Seventh order, even and odd powers side by side: half the wait.
double polynomial(const std::array<double, 8>& c, double x) {
  const double x2 = x * x, x4 = x2 * x2;
  return ((c[0] + c[1] * x) + x2 * (c[2] + c[3] * x)) + x4 * ((c[4] + c[5] * x) + x2 * (c[6] + c[7] * x));
}

// Rational functions of Wichura, Applied Statistics 37 (1988) 477, algorithm AS 241, from memory (tests/unit/stats
// measures): one part in 1e16 by its author.
struct Rational {
  std::array<double, 8> over, under;

  double operator()(double x) const { return polynomial(over, x) / polynomial(under, x); }
};
constexpr Rational kMiddle{
    {3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
     4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3},
    {1.0, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3, 2.1213794301586595867e4,
     3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3}};
constexpr Rational kTail{
    {1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0, 3.64784832476320460504e0,
     1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4},
    {1.0, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1, 1.48103976427480074590e-1,
     1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9}};
constexpr Rational kFarTail{
    {6.65790464350110377720e0, 5.46378491116411436990e0, 1.78482653991729133580e0, 2.96560571828504891230e-1,
     2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7},
    {1.0, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2, 7.86869131145613259100e-4,
     1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15}};

}  // namespace

std::vector<double> sobol_points(std::size_t count, std::size_t dimensions, std::uint64_t seed, std::size_t first) {
  boost::random::sobol engine(dimensions);
  if (first > 1) engine.discard((first - 1) * dimensions);
  std::vector<std::uint64_t> shift(dimensions);
  for (std::size_t k = 0; k < dimensions; ++k) shift[k] = mixed(seed * 0x100000001b3u + k);
  std::vector<double> points(count * dimensions);
  // Boost leaves out the first point, the origin; with it 2^m points are spread exactly evenly along each axis.
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t k = 0; k < dimensions; ++k) {
      const std::uint64_t word = (first + i == 0 ? 0 : engine()) ^ shift[k];
      points[i * dimensions + k] = (static_cast<double>(word >> 12) + 0.5) * 0x1p-52;
    }
  }
  return points;
}

double normal_quantile(double p) {
  const double off = p - 0.5;
  if (std::abs(off) <= 0.425) return off * kMiddle(0.180625 - off * off);
  const double r = std::sqrt(-logarithm(off < 0.0 ? p : 1.0 - p));
  return std::copysign(r <= 5.0 ? kTail(r - 1.6) : kFarTail(r - 5.0), off);
}

}  // namespace loftwright
