#include "loftwright/stats/detail/difference.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_int_distribution.hpp>
#include <cmath>
#include <numeric>

#include "core/traps.hpp"
#include "stats/distributions.hpp"
#include "stats/in_double.hpp"

namespace loftwright {

namespace {

using boost::math::complement;

void check_confidence(double confidence) { check_range("confidence", confidence, 0.5, 0.9999, ""); }

// What the two means' difference is known to, and with how many degrees of freedom.
struct Uncertainty {
  double standard_error;
  double degrees_of_freedom;
};

Uncertainty uncertainty(const Summary& before, const Summary& after) {
  if (!before.has_spread() || !after.has_spread()) {
    throw InputError("a difference needs at least two values before and two after");
  }
  if (before.sd == 0.0 && after.sd == 0.0) {
    throw InputError("neither sample varies: how sure their difference is cannot be told");
  }
  const double n0 = static_cast<double>(before.count), n1 = static_cast<double>(after.count);
  const double v0 = before.sd * before.sd / n0, v1 = after.sd * after.sd / n1, v = v0 + v1;
  return {std::sqrt(v), v * v / (v0 * v0 / (n0 - 1.0) + v1 * v1 / (n1 - 1.0))};
}

// Least `added` in 0 .. kMostValues for which reaches(added) holds; it must not turn false again as added grows.
template <class Reaches>
std::optional<std::size_t> least(Reaches reaches) {
  if (reaches(0)) return 0;
  std::size_t short_of = 0, enough = 1;
  while (!reaches(enough)) {
    if (enough >= kMostValues) return std::nullopt;
    short_of = enough;
    enough = std::min(2 * enough, kMostValues);
  }
  while (enough - short_of > 1) {
    const std::size_t middle = short_of + (enough - short_of) / 2;
    (reaches(middle) ? enough : short_of) = middle;
  }
  return enough;
}

double mean_of_resample(std::span<const double> sample, boost::random::mt19937_64& random) {
  // Boost's distribution, unlike the standard library's, is the same everywhere.
  boost::random::uniform_int_distribution<std::size_t> pick(0, sample.size() - 1);
  double sum = 0.0;
  for (std::size_t i = 0; i < sample.size(); ++i) sum += sample[pick(random)];
  return sum / static_cast<double>(sample.size());
}

// Skewness of the difference's influence values: how its scatter changes with its size. Efron & Tibshirani, An
// Introduction to the Bootstrap, 1993, 14.3, for two samples.
double acceleration(std::span<const double> before, double before_mean, std::span<const double> after,
                    double after_mean) {
  double squares = 0.0, cubes = 0.0;
  const auto add = [&](std::span<const double> sample, double mean, double sign) {
    const double n = static_cast<double>(sample.size());
    for (const double x : sample) {
      const double influence = sign * (x - mean) / n;
      squares += influence * influence;
      cubes += influence * influence * influence;
    }
  };
  add(before, before_mean, -1.0);
  add(after, after_mean, 1.0);
  return cubes / (6.0 * std::pow(squares, 1.5));
}

}  // namespace

WelchTest welch(const Summary& before, const Summary& after, double confidence) {
  check_confidence(confidence);
  const auto [standard_error, degrees] = uncertainty(before, after);
  const double difference = after.mean - before.mean, t = difference / standard_error;
  const double half_width = standard_error * students_t_exceeded(degrees, (1.0 - confidence) / 2.0);
  return {difference,
          standard_error,
          t,
          degrees,
          std::min(1.0, 2.0 * students_t_above(degrees, std::abs(t))),
          difference - half_width,
          difference + half_width};
}

double hedges_g(const Summary& before, const Summary& after) {
  uncertainty(before, after);  // its checks are ours
  const double n0 = static_cast<double>(before.count), n1 = static_cast<double>(after.count), degrees = n0 + n1 - 2.0;
  const double pooled = std::sqrt(((n0 - 1.0) * before.sd * before.sd + (n1 - 1.0) * after.sd * after.sd) / degrees);
  const double correction = boost::math::tgamma_delta_ratio((degrees - 1.0) / 2.0, 0.5, InDouble());
  return (after.mean - before.mean) / pooled / (correction * std::sqrt(degrees / 2.0));
}

double welch_power(double difference, const Summary& before, const Summary& after, double confidence) {
  check_confidence(confidence);
  const auto [standard_error, degrees] = uncertainty(before, after);
  const double shift = std::abs(difference) / standard_error;
  const double critical = students_t_exceeded(degrees, (1.0 - confidence) / 2.0);
  // Far out Boost's series gives up, and only the estimated standard deviation can still hide the difference: the chi
  // squared form is then within 1e-8 (measured at 5000 with one degree of freedom).
  constexpr double kFar = 1e4;
  if (shift > kFar) return cdf(ChiSquared(degrees), degrees * (shift / critical) * (shift / critical));
  const WithoutTraps here;  // its series takes the logarithm of zero on the way
  const NonCentralT distribution(degrees, shift);
  return cdf(complement(distribution, critical)) + cdf(distribution, -critical);
}

MoreValues values_needed(double difference, const Summary& before, const Summary& after, double confidence,
                         double power) {
  check_range("power", power, 0.05, 0.999, "");
  const auto reached = [&](std::size_t added_before, std::size_t added_after) {
    Summary more_before = before, more_after = after;
    more_before.count += added_before;
    more_after.count += added_after;
    return welch_power(difference, more_before, more_after, confidence) >= power;
  };
  return {least([&](std::size_t added) { return reached(0, added); }),
          least([&](std::size_t added) { return reached(added, added); })};
}

std::vector<double> holm(std::span<const double> p) {
  for (const double one : p) check_range("p", one, 0.0, 1.0, "");
  std::vector<std::size_t> order(p.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return p[a] < p[b]; });
  std::vector<double> adjusted(p.size());
  double largest = 0.0;
  for (std::size_t rank = 0; rank < order.size(); ++rank) {
    largest = std::max(largest, std::min(1.0, static_cast<double>(p.size() - rank) * p[order[rank]]));
    adjusted[order[rank]] = largest;
  }
  return adjusted;
}

BootstrapInterval bootstrap_difference(std::span<const double> before, std::span<const double> after,
                                       const BootstrapOptions& options) {
  check_confidence(options.confidence);
  if (options.resamples < 100 || options.resamples > 10'000'000) {
    throw InputError("a bootstrap needs 100 to 10 million resamples");
  }
  const Summary first = summarise(before), second = summarise(after);
  uncertainty(first, second);  // its checks are ours
  const double difference = second.mean - first.mean;

  boost::random::mt19937_64 random(options.seed);
  std::vector<double> drawn(options.resamples);
  for (double& one : drawn) {
    const double again_before = mean_of_resample(before, random);
    one = mean_of_resample(after, random) - again_before;
  }

  // Half of the ties count as below (as SciPy does): with few or equal values there are many.
  const auto count = [&](auto holds) { return static_cast<double>(std::count_if(drawn.begin(), drawn.end(), holds)); };
  const double n = static_cast<double>(drawn.size());
  const double less = count([&](double x) { return x < difference; }),
               more = count([&](double x) { return x > difference; });
  const Normal normal;
  const double bias = quantile(normal, std::clamp((n + less - more) / (2.0 * n), 0.5 / n, 1.0 - 0.5 / n));
  const double a = acceleration(before, first.mean, after, second.mean);
  const double tail = (1.0 - options.confidence) / 2.0;
  const auto corrected = [&](double z) { return cdf(normal, bias + (bias + z) / (1.0 - a * (bias + z))); };
  const double z = quantile(normal, tail);
  return {quantile(drawn, corrected(z)), quantile(drawn, corrected(-z)), quantile(drawn, tail),
          quantile(drawn, 1.0 - tail)};
}

std::vector<std::size_t> resample(std::size_t count, std::uint64_t seed, std::uint64_t number) {
  boost::random::mt19937_64 random(seed * 0x9e3779b97f4a7c15u + number);
  boost::random::uniform_int_distribution<std::size_t> pick(0, count - 1);
  std::vector<std::size_t> out(count);
  for (std::size_t& one : out) one = pick(random);
  return out;
}

double expanded_tail(double confidence, std::size_t before, std::size_t after) {
  check_confidence(confidence);
  if (before < 2 || after < 2) return 0.0;
  const double n = static_cast<double>(std::min(before, after)), degrees = static_cast<double>(before + after - 2);
  const double t = students_t_exceeded(degrees, (1.0 - confidence) / 2.0);
  return cdf(Normal(), -t * std::sqrt(n / (n - 1.0)));
}

}  // namespace loftwright
