#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/special_functions/erf.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <vector>

#include "core/traps.hpp"
#include "loftwright/stats/detail/several.hpp"
#include "stats/distributions.hpp"
#include "stats/in_double.hpp"

namespace loftwright {

namespace {

void check_range_of(std::size_t means, double freedom) {
  check_range("samples side by side", static_cast<double>(means), 2.0, static_cast<double>(kMostSamples), "");
  check_range("degrees of freedom", freedom, 1.0, 1e9, "");
}

double normal_below(double z) { return 0.5 * boost::math::erfc(-z / std::sqrt(2.0), InDouble()); }

// Gauss-Legendre places and weights for a standard normal value, four pieces of twenty; beyond them lies 1e-17 of it.
struct Place {
  double z, below, weight;  // the chance to stay below z; the density there times the weight
};

std::vector<Place> normal_places() {
  constexpr double kFar = 8.5;
  constexpr int kPieces = 4;
  using Rule = boost::math::quadrature::gauss<double, 20>;
  const Normal normal;
  std::vector<Place> out;
  for (int piece = 0; piece < kPieces; ++piece) {
    const double half = kFar / kPieces, middle = -kFar + half * (2.0 * piece + 1.0);
    for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
      for (const double sign : {-1.0, 1.0}) {
        const double z = middle + sign * half * Rule::abscissa()[i];
        out.push_back({z, normal_below(z), half * Rule::weights()[i] * pdf(normal, z)});
      }
    }
  }
  return out;
}

// The chance that the range of `means` standard normal values stays below w:
//     means x integral of f(z) [F(z) - F(z - w)]^(means - 1) dz, z the greatest value
double range_below(double w, std::size_t means, const std::vector<Place>& places) {
  double sum = 0.0;
  for (const Place& place : places) {
    const double between = std::max(0.0, place.below - normal_below(place.z - w));
    double power = place.weight;
    for (std::size_t i = 1; i < means; ++i) power *= between;
    sum += power;
  }
  return std::min(1.0, static_cast<double>(means) * sum);
}

double range_below(double q, std::size_t means, double freedom, const std::vector<Place>& places) {
  if (!(q > 0.0)) return 0.0;
  // Over the scatter s that `freedom` values show of a true scatter of one; its density, f s^2 being chi squared.
  const double half = 0.5 * freedom;
  const double size = std::log(2.0) + half * std::log(half) - boost::math::lgamma(half, InDouble());
  const auto at = [&](double s) {
    return std::exp(size + (freedom - 1.0) * std::log(s) - half * s * s) * range_below(q * s, means, places);
  };
  constexpr double kOutside = 1e-12;  // of the chance, at each end
  const double low = std::sqrt(chi_squared_exceeded(freedom, 1.0 - kOutside) / freedom),
               high = std::sqrt(chi_squared_exceeded(freedom, kOutside) / freedom);
  // Thirty places do for what is usual, to 1e-8; few degrees of freedom, or very many means, need more near the low
  // end.
  const bool usual = freedom >= 5.0 && means <= 10;
  return std::min(1.0, usual ? boost::math::quadrature::gauss<double, 30>::integrate(at, low, high)
                             : boost::math::quadrature::gauss_kronrod<double, 31>::integrate(at, low, high, 12, 1e-9));
}

}  // namespace

double studentised_range_below(double q, std::size_t means, double freedom) {
  check_range_of(means, freedom);
  const WithoutTraps here;  // its tails underflow on purpose
  return range_below(q, means, freedom, normal_places());
}

double studentised_range_exceeded(double chance, std::size_t means, double freedom) {
  check_range_of(means, freedom);
  check_range("chance", chance, 1e-4, 0.5, "");
  // No less than for two means, no more than Bonferroni's for all pairs.
  const double pairs = 0.5 * static_cast<double>(means * (means - 1));
  const double low = std::sqrt(2.0) * students_t_exceeded(freedom, chance / 2.0),
               high = std::sqrt(2.0) * students_t_exceeded(freedom, chance / 2.0 / pairs);
  if (means == 2) return low;
  const WithoutTraps here;
  const std::vector<Place> places = normal_places();
  std::uintmax_t most = 60;
  const auto [below, above] = boost::math::tools::toms748_solve(
      [&](double q) { return range_below(q, means, freedom, places) - (1.0 - chance); }, 0.999 * low, 1.001 * high,
      boost::math::tools::eps_tolerance<double>(26), most);
  return 0.5 * (below + above);
}

}  // namespace loftwright
