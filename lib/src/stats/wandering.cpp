#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>

#include "loftwright/stats/detail/several.hpp"

namespace loftwright {

namespace {

// How values may wander: a share of their scatter is a first-order autoregression, of which `memory` is left one value
// later.
struct Kind {
  double share, memory, odds;
};

// Even odds that nothing wanders; else shares and memories (1.4, 2, 7 and 20 values long) alike (estimates).
std::vector<Kind> kinds() {
  constexpr std::array kShares{0.15, 0.3, 0.5, 0.7}, kMemories{0.5, 0.7, 0.85, 0.95};
  std::vector<Kind> out{{0.0, 0.0, 0.5}};
  for (const double share : kShares) {
    for (const double memory : kMemories)
      out.push_back({share, memory, 0.5 / static_cast<double>(kShares.size() * kMemories.size())});
  }
  return out;
}

// The covariance of the means of values that have a scatter of one each.
Eigen::MatrixXd covariance_of_means(std::span<const Ordered> values, std::span<const Summary> samples,
                                    const Kind& kind) {
  const auto n = static_cast<Eigen::Index>(samples.size());
  Eigen::MatrixXd out = Eigen::MatrixXd::Zero(n, n);
  Eigen::VectorXd before =
      Eigen::VectorXd::Zero(n);  // of each sample the values that came before, as far as remembered
  for (std::size_t t = 0; t < values.size(); ++t) {
    const auto i = static_cast<Eigen::Index>(values[t].sample);
    if (t == 0 || values[t].run != values[t - 1].run) before.setZero();
    before *= kind.memory;
    out(i, i) += 1.0;
    out.row(i) += kind.share * before.transpose();
    out.col(i) += kind.share * before;
    before[i] += 1.0;
  }
  for (Eigen::Index i = 0; i < n; ++i) {
    const double count = static_cast<double>(samples[static_cast<std::size_t>(i)].count);
    out.row(i) /= count;
    out.col(i) /= count;
  }
  return out;
}

// Logarithm of the restricted likelihood of the values, each sample with a mean of its own and all with one scatter,
// which is integrated out (Harville, Biometrika 61 (1974) 383): values and the columns that say whose they are go
// through the same Kalman filter, which makes them independent.
double restricted_likelihood(std::span<const Ordered> values, std::size_t samples, const Kind& kind) {
  const auto n = static_cast<Eigen::Index>(samples);
  Eigen::MatrixXd information = Eigen::MatrixXd::Zero(n + 1, n + 1);  // the last row and column are the values'
  Eigen::RowVectorXd expected = Eigen::RowVectorXd::Zero(n + 1), row(n + 1);
  double variance = kind.share, log_determinant = 0.0;
  for (std::size_t t = 0; t < values.size(); ++t) {
    if (t == 0 || values[t].run != values[t - 1].run) {
      expected.setZero();
      variance = kind.share;
    }
    row.setZero();
    row[static_cast<Eigen::Index>(values[t].sample)] = 1.0;
    row[n] = values[t].value;
    const double seen = variance + 1.0 - kind.share, gain = variance / seen;
    row -= expected;
    information += row.transpose() * row / seen;
    log_determinant += std::log(seen);
    expected = kind.memory * (expected + gain * row);
    variance = kind.memory * kind.memory * variance * (1.0 - gain) + (1.0 - kind.memory * kind.memory) * kind.share;
  }
  const Eigen::LLT<Eigen::MatrixXd> of_means(information.topLeftCorner(n, n));
  const Eigen::VectorXd across = information.topRightCorner(n, 1);
  const double left = information(n, n) - across.dot(of_means.solve(across));
  const double freedom = static_cast<double>(values.size()) - static_cast<double>(samples);
  return -0.5 * log_determinant - of_means.matrixLLT().diagonal().array().log().sum() - 0.5 * freedom * std::log(left);
}

}  // namespace

Wandering wandering(std::span<const Ordered> values, std::span<const Summary> samples) {
  for (const Summary& one : samples) {
    if (!one.has_spread() || one.sd == 0.0) throw InputError("each sample needs at least two values that differ");
  }
  std::vector<Ordered> scaled(values.begin(), values.end());
  for (Ordered& one : scaled) {
    const Summary& sample = samples[one.sample];
    one.value = (one.value - sample.mean) / sample.sd;
  }
  const std::vector<Kind> all = kinds();
  std::vector<double> weight;
  for (const Kind& kind : all)
    weight.push_back(std::log(kind.odds) + restricted_likelihood(scaled, samples.size(), kind));
  const double most = *std::max_element(weight.begin(), weight.end());
  double sum = 0.0;
  for (double& w : weight) sum += w = std::exp(w - most);

  const auto n = static_cast<Eigen::Index>(samples.size());
  Eigen::MatrixXd errors = Eigen::MatrixXd::Zero(n, n);
  Wandering out{0.0, {}};
  for (std::size_t i = 0; i < all.size(); ++i) {
    Eigen::MatrixXd of_kind = covariance_of_means(values, samples, all[i]);
    // A sample's own scatter shows what wanders within it alone.
    Eigen::VectorXd shown(n);
    for (Eigen::Index s = 0; s < n; ++s) {
      const double count = static_cast<double>(samples[static_cast<std::size_t>(s)].count);
      shown[s] = std::sqrt(count * (1.0 - of_kind(s, s)) / (count - 1.0));
    }
    of_kind.array() /= (shown * shown.transpose()).array();
    errors += weight[i] / sum * of_kind;
    out.share += weight[i] / sum * all[i].share;
  }
  for (Eigen::Index i = 0; i < n; ++i) {
    out.errors.emplace_back();
    for (Eigen::Index j = 0; j < n; ++j) out.errors.back().push_back(errors(i, j));
  }
  return out;
}

}  // namespace loftwright
