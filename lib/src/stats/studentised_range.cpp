#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/special_functions/erf.hpp>
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

// Evenly spaced places for a standard normal value, the greatest of `means`; beyond them lies 1e-14 of it. Of a
// function that is analytic and dies away at both ends a plain sum converges faster than any power of the step
// (Trefethen & Weideman, SIAM Rev. 56 (2014) 385): to 1e-13 with up to 6 means, to 1e-10 with 50.
struct Place {
  double z, below, weight;  // the chance to stay below z; the density there times the step
};

std::vector<Place> normal_places(std::size_t means) {
  constexpr double kLeast = -5.0, kMost = 7.8;
  const double step = means <= 6 ? 0.4 : 0.25;
  const Normal normal;
  std::vector<Place> out;
  for (double z = kLeast; z < kMost; z += step) out.push_back({z, normal_below(z), step * pdf(normal, z)});
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

// The chance that the studentised range stays below q, for any q of a stretch, from ranges that are computed once. With
// x the logarithm of the scatter s that `freedom` values show of a true scatter of one, its density goes as
// exp(f (x - (exp(2 x) - 1) / 2)), f s^2 being chi squared, and
//     chance(q) = sum of density(log(w / q)) range_below(w) / sum of density(log(w / q))
// over evenly spaced log(w) that are the same for every q: to 1e-9 or better, as above.
class RangeOverScatter {
 public:
  RangeOverScatter(double low, double high, std::size_t means, double freedom)
      : freedom_(freedom), first_(std::log(low)) {
    // Where the density is e^-32 of its greatest, and further; x - (exp(2 x) - 1) / 2 is at most -x^2 above zero.
    const double far = 32.0 / freedom;
    step_ = std::min(means <= 10 ? 0.12 : 0.1, std::sqrt(0.3 / freedom));
    const double last = std::log(high) + std::sqrt(far);
    first_ -= far + std::sqrt(far);
    const std::vector<Place> places = normal_places(means);
    const auto count = static_cast<std::size_t>((last - first_) / step_) + 2;
    for (std::size_t i = 0; i < count; ++i) {
      const double w = std::exp(first_ + static_cast<double>(i) * step_), n = static_cast<double>(means);
      // At most n (w / sqrt(2 pi))^(n - 1), for the density of a normal value is never greater; above 12 surely.
      const bool never = std::log(n) + (n - 1.0) * std::log(0.4 * w) < -32.0;
      below_.push_back(never ? 0.0 : w > 12.0 ? 1.0 : range_below(w, means, places));
    }
  }

  double below(double q) const {
    double sum = 0.0, all = 0.0, x = first_ - std::log(q);
    for (const double range : below_) {
      const double density = std::exp(freedom_ * (x - 0.5 * std::expm1(2.0 * x)));
      sum += density * range;
      all += density;
      x += step_;
    }
    return sum / all;
  }

 private:
  double freedom_, first_, step_;
  std::vector<double> below_;  // ranges
};

}  // namespace

double studentised_range_below(double q, std::size_t means, double freedom) {
  check_range_of(means, freedom);
  if (!(q > 0.0)) return 0.0;
  const WithoutTraps here;  // its tails underflow on purpose
  return RangeOverScatter(q, q, means, freedom).below(q);
}

double studentised_range_exceeded(double chance, std::size_t means, double freedom) {
  check_range_of(means, freedom);
  check_range("chance", chance, 1e-4, 0.5, "");
  // No less than for two means, no more than Bonferroni's for all pairs.
  const double pairs = 0.5 * static_cast<double>(means * (means - 1));
  const double low = 0.999 * std::sqrt(2.0) * students_t_exceeded(freedom, chance / 2.0),
               high = 1.001 * std::sqrt(2.0) * students_t_exceeded(freedom, chance / 2.0 / pairs);
  if (means == 2) return low / 0.999;
  const WithoutTraps here;
  const RangeOverScatter range(low, high, means, freedom);
  std::uintmax_t most = 60;
  const auto [below, above] =
      boost::math::tools::toms748_solve([&](double q) { return range.below(q) - (1.0 - chance); }, low, high,
                                        boost::math::tools::eps_tolerance<double>(40), most);
  return 0.5 * (below + above);
}

}  // namespace loftwright
