#include "loftwright/stats/detail/several.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <boost/random/gamma_distribution.hpp>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>
#include <cmath>

#include "loftwright/stats/detail/difference.hpp"
#include "stats/distributions.hpp"

namespace loftwright {

namespace {

// As large as the most samples: no memory is asked for draw by draw.
using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kMostSamples, kMostSamples>;
using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kMostSamples, 1>;

double square(double x) { return x * x; }

void check_samples(std::span<const Summary> samples) {
  if (samples.size() < 2 || samples.size() > kMostSamples)
    throw InputError("2 to 50 samples can be compared side by side");
  for (const Summary& one : samples) {
    if (!one.has_spread()) throw InputError("each sample needs at least two values");
    if (one.sd == 0.0) throw InputError("a sample does not vary: how sure its mean is cannot be told");
  }
}

// Variance of the difference of two means, and of each alone.
struct Variances {
  double first, second, together;

  double freedom(const Summary& a, const Summary& b) const {
    return square(first + second) / (square(first) / (static_cast<double>(a.count) - 1.0) +
                                     square(second) / (static_cast<double>(b.count) - 1.0));
  }
};

Variances variances(std::span<const Summary> samples, const MeanErrors& errors, std::size_t i, std::size_t j) {
  const Summary &a = samples[i], &b = samples[j];
  const double first = square(a.standard_error), second = square(b.standard_error);
  const double wandered = square(a.sd) * errors[i][i] + square(b.sd) * errors[j][j] - 2.0 * a.sd * b.sd * errors[i][j];
  return {first, second, std::max(wandered, first + second)};
}

}  // namespace

MeanErrors independent_errors(std::span<const Summary> samples) {
  MeanErrors out(samples.size(), std::vector<double>(samples.size(), 0.0));
  for (std::size_t i = 0; i < samples.size(); ++i) out[i][i] = 1.0 / static_cast<double>(samples[i].count);
  return out;
}

std::vector<PairTest> all_pairs(std::span<const Summary> samples, const MeanErrors& errors, double confidence) {
  check_samples(samples);
  check_range("confidence", confidence, 0.5, 0.9999, "");
  std::vector<PairTest> out;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    for (std::size_t j = i + 1; j < samples.size(); ++j) {
      const bool turned = samples[j].mean > samples[i].mean;
      const std::size_t first = turned ? j : i, second = turned ? i : j;
      const Variances v = variances(samples, errors, first, second);
      const double freedom = v.freedom(samples[first], samples[second]);
      const double critical = studentised_range_exceeded(1.0 - confidence, samples.size(), freedom) / std::sqrt(2.0);
      const double error = std::sqrt(v.together), difference = samples[first].mean - samples[second].mean;
      out.push_back({first, second, difference, error, freedom, difference - critical * error,
                     difference + critical * error, 1.0 - 2.0 * students_t_above(freedom, critical)});
    }
  }
  return out;
}

std::optional<std::size_t> values_needed(double difference, const PairTest& pair, const Summary& first,
                                         const Summary& second, double power) {
  // Wandering counts as more scatter.
  const double wider = pair.standard_error / std::sqrt(square(first.standard_error) + square(second.standard_error));
  Summary a = first, b = second;
  a.sd *= wider;
  b.sd *= wider;
  return values_needed(difference, a, b, std::min(pair.own_confidence, 0.9999), power).each;
}

MeanInterval mean_interval(const Summary& sample, double error, std::size_t samples, double confidence) {
  check_range("confidence", confidence, 0.5, 0.9999, "");
  if (!sample.has_spread()) throw InputError("a mean's interval needs at least two values");
  const double each = std::pow(confidence, 1.0 / static_cast<double>(samples));
  const double half =
      sample.sd * std::sqrt(error) * students_t_exceeded(static_cast<double>(sample.count) - 1.0, (1.0 - each) / 2.0);
  return {sample.mean - half, sample.mean + half};
}

std::vector<double> best_probabilities(std::span<const Summary> samples, const MeanErrors& errors,
                                       const MeanPrior& prior) {
  check_samples(samples);
  if (!(prior.between > 0.0)) throw InputError("true means must be taken to differ by something");
  if (prior.draws < 1000 || prior.draws > 1'000'000) throw InputError("1000 to 1 million draws are needed");
  const auto n = static_cast<Eigen::Index>(samples.size());
  Matrix unit(n, n);
  Vector mean(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    mean[i] = samples[static_cast<std::size_t>(i)].mean;
    for (Eigen::Index j = 0; j < n; ++j) unit(i, j) = errors[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
  }
  const Matrix root = unit.llt().matrixL();
  const double middle = mean.mean();
  mean.array() -= middle;  // where it is does not matter, and small numbers keep their digits

  // Scatters are drawn as each sample alone has them, means given them and the spread between; a draw's weight is how
  // likely the means seen are with them, the middle of the true means integrated out.
  boost::random::mt19937_64 random(prior.seed);
  boost::random::normal_distribution<double> normal;
  std::vector<Eigen::Index> best(prior.draws);
  std::vector<double> weight(prior.draws);
  Vector sd(n), truth(n), noise(n), left(n), drawn(n);
  const Vector ones = Vector::Ones(n);
  for (std::size_t d = 0; d < prior.draws; ++d) {
    for (Eigen::Index i = 0; i < n; ++i) {
      const Summary& one = samples[static_cast<std::size_t>(i)];
      const double freedom = static_cast<double>(one.count) - 1.0;
      boost::random::gamma_distribution<double> chi_squared(freedom / 2.0, 2.0);
      sd[i] = one.sd * std::sqrt(freedom / std::max(chi_squared(random), 1e-12 * freedom));
    }
    const double between = square(prior.between * normal(random));
    Matrix together = sd.asDiagonal() * unit * sd.asDiagonal();
    together.diagonal().array() += between;
    const Eigen::LLT<Matrix> solver(together);
    const double about = normal(random);
    for (Eigen::Index i = 0; i < n; ++i) truth[i] = std::sqrt(between) * normal(random);
    for (Eigen::Index i = 0; i < n; ++i) noise[i] = normal(random);
    // All on the way to a solution, through L; only what is drawn goes all the way.
    const Vector by_ones = solver.matrixL().solve(ones), by_mean = solver.matrixL().solve(mean);
    const double information = by_ones.squaredNorm(), likely = by_ones.dot(by_mean) / information;
    weight[d] = -solver.matrixLLT().diagonal().array().log().sum() - 0.5 * std::log(information) -
                0.5 * (by_mean.squaredNorm() - information * square(likely));

    // True means and what would be seen of them, then moved by what was seen instead (Matheron's rule).
    const Vector seen = truth + sd.asDiagonal() * (root * noise);
    const double centre = likely + about / std::sqrt(information);
    left = by_mean - centre * by_ones - solver.matrixL().solve(seen);
    drawn = truth + between * solver.matrixU().solve(left);
    drawn.maxCoeff(&best[d]);
  }
  const double most = *std::max_element(weight.begin(), weight.end());
  std::vector<double> out(samples.size(), 0.0);
  double sum = 0.0;
  for (std::size_t d = 0; d < prior.draws; ++d) {
    const double w = std::exp(weight[d] - most);
    out[static_cast<std::size_t>(best[d])] += w;
    sum += w;
  }
  for (double& p : out) p /= sum;
  return out;
}

}  // namespace loftwright
