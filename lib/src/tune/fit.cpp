#include "tune/fit.hpp"

#include "loftwright/stats/detail/summary.hpp"
#include "stats/distributions.hpp"
#include "tune/mean_residual.hpp"

namespace loftwright {

namespace {

// Newton's step; what stands at an end of its range and is drawn beyond it stays there.
Tunables step_from(const Standing& here, TunablesSquared curvature, const Tunables& low, const Tunables& high) {
  Tunables slope = here.slope;
  for (Eigen::Index i = 0; i < slope.size(); ++i) {
    if ((here.at[i] <= low[i] && slope[i] > 0.0) || (here.at[i] >= high[i] && slope[i] < 0.0)) {
      curvature.row(i).setZero();
      curvature.col(i).setZero();
      curvature(i, i) = 1.0;
      slope[i] = 0.0;
    }
  }
  return -curvature.llt().solve(slope);
}

// Newton's method, each step cut off at the ends of the ranges (D. P. Bertsekas, Projected Newton methods for
// optimization problems with simple constraints, SIAM J. Control Optim. 20, 1982; from memory). The curvature is Gauss
// and Newton's, which comes with each slope, and what slopes since have shown to be missing in it (the symmetric
// update of rank one): alone it is up to twice too small where readings contradict each other, and steps go to and fro.
Fit solve_for(const Gatherer& model, std::span<const Evidence* const> shots, const Tunables& low, const Tunables& high,
              const ByTuneReading<double>& widened) {
  constexpr double kNear = 1e-4;  // of the standard deviation in that direction: flights are no smoother
  constexpr int kMostEvaluations = 60;
  const MeanResidual mean(model, shots, widened);
  Fit out;
  out.widened = widened;
  Standing best = mean.at(Tunables::Zero().cwiseMax(low).cwiseMin(high));
  TunablesSquared missing = TunablesSquared::Zero();
  int evaluations = 1;
  for (bool ended = false; !ended;) {
    bool nearer = false;
    const bool alone = missing.isZero(0.0);
    TunablesSquared curvature = best.curvature + missing;
    if (curvature.llt().info() != Eigen::Success) curvature = best.curvature;
    const Tunables step = step_from(best, curvature, low, high);
    for (double part = 1.0; !nearer && evaluations < kMostEvaluations; part /= 2.0) {
      const Tunables place = (best.at + part * step).cwiseMax(low).cwiseMin(high);
      if (best.slope.dot(best.at - place) < kNear * kNear) break;
      const Standing here = mean.at(place);
      ++evaluations;
      const Tunables way = here.at - best.at, off = here.slope - best.slope - (here.curvature + missing) * way;
      if (std::abs(off.dot(way)) > 1e-8 * off.norm() * way.norm()) missing += off * off.transpose() / off.dot(way);
      nearer = here.chi_square < best.chi_square;
      if (nearer) best = here;
    }
    // Nothing is left to gain only where Gauss and Newton's curvature says so too: what seemed missing may mislead.
    ended = !nearer && alone;
    if (!nearer) missing.setZero();
  }
  out.drives = static_cast<long>(shots.size()) * evaluations;

  out.at = best.at;
  out.chi_square = best.chi_square + mean.scatter(best.at);
  out.drives += static_cast<long>(shots.size());
  out.covariance = best.curvature.llt().solve(TunablesSquared::Identity());
  for (const Tunable t : kAllOf<Tunable>) {
    const Eigen::Index i = row_of(t);
    constexpr double kAtEnd = 1e-6;  // prior standard deviations
    out.at_end[t] = out.at[i] < low[i] + kAtEnd || out.at[i] > high[i] - kAtEnd;
  }
  return out;
}

// Noise to add to each reading so that the shots scatter about the fit no more than their errors explain. Only where
// chance would bring so much scatter less than once in a hundred; never taken away.
ByTuneReading<double> widening(const Gatherer& model, std::span<const Evidence* const> shots, const Tunables& at) {
  constexpr double kChance = 0.01;
  ByTuneReading<std::vector<double>> residuals;
  ByTuneReading<double> expected{};
  for (const Evidence* e : shots) {
    const Rows residual = model.residual(*e, at);
    for (std::size_t i = 0; i < e->readings.size(); ++i) {
      const auto row = static_cast<Eigen::Index>(i);
      residuals[e->readings[i]].push_back(residual[row]);
      expected[e->readings[i]] += e->own(row, row);
    }
  }
  ByTuneReading<double> out{};
  for (std::size_t r = 0; r < kTuneReadingCount; ++r) {
    const Summary seen = summarise(residuals[r]);
    if (!seen.has_spread()) continue;
    const double freedom = static_cast<double>(seen.count - 1),
                 variance = expected[r] / static_cast<double>(seen.count);
    const double most = variance * chi_squared_exceeded(freedom, kChance) / freedom;
    if (seen.sd * seen.sd > most) out[r] = std::sqrt(seen.sd * seen.sd - variance);
  }
  return out;
}

}  // namespace

Fit fit(const Gatherer& model, std::span<const Evidence* const> shots, const Tunables& low, const Tunables& high) {
  Fit first = solve_for(model, shots, low, high, {});
  const ByTuneReading<double> widened = widening(model, shots, first.at);
  first.drives += static_cast<long>(shots.size());
  if (widened == ByTuneReading<double>{}) return first;
  Fit second = solve_for(model, shots, low, high, widened);
  second.drives += first.drives;
  return second;
}

Scatter scatter_of(const Gatherer& model, std::span<const Evidence* const> shots) {
  const MeanResidual mean(model, shots, {});
  Scatter out{mean.scatter(Tunables::Zero()), -mean.readings()};
  for (const Evidence* e : shots) out.freedom += static_cast<double>(e->readings.size());
  return out;
}

double expected_sd(const Evidence& e, std::size_t row, const ByTuneReading<double>& widened) {
  const auto i = static_cast<Eigen::Index>(row);
  return std::hypot(std::sqrt(e.own(i, i)), widened[e.readings[row]]);
}

}  // namespace loftwright
