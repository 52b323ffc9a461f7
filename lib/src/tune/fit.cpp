#include "tune/fit.hpp"

#include "advise/solver.hpp"
#include "loftwright/stats/detail/summary.hpp"
#include "stats/distributions.hpp"
#include "tune/mean_residual.hpp"

namespace loftwright {

namespace {

Fit solve_for(const Gatherer& model, std::span<const Evidence* const> shots, const Tunables& low, const Tunables& high,
              const ByTuneReading<double>& widened) {
  const MeanResidual mean(model, shots, widened);
  Fit out;
  out.widened = widened;
  Standing best = mean.at(Tunables::Zero());
  out.drives = static_cast<long>(shots.size());
  // Solved in units of what the shots and the prior tell of each value when the others are held.
  const Tunables step = best.curvature.diagonal().cwiseSqrt().cwiseInverse();

  Problem problem;
  for (int k = 0; k < static_cast<int>(kTunables); ++k) {
    problem.low.push_back(low[k] / step[k]);
    problem.high.push_back(high[k] / step[k]);
  }
  problem.minimise = [&](std::span<const double> x, std::span<double> gradient) {
    Tunables place;
    for (std::size_t k = 0; k < kTunables; ++k) {
      const auto i = static_cast<Eigen::Index>(k);
      place[i] = std::clamp(x[k] * step[i], low[i], high[i]);
    }
    const Standing here = mean.at(place);
    out.drives += static_cast<long>(shots.size());
    if (here.chi_square < best.chi_square) best = here;
    for (std::size_t k = 0; k < gradient.size(); ++k) {
      gradient[k] = here.slope[static_cast<Eigen::Index>(k)] * step[static_cast<Eigen::Index>(k)];
    }
    return 0.5 * here.chi_square;
  };
  solve(problem, std::vector<double>(kTunables, 0.0), {.stop = 1e-5, .most_evaluations = 60});

  out.at = best.at;
  out.chi_square = best.chi_square + mean.scatter(best.at);
  out.drives += static_cast<long>(shots.size());
  out.covariance = best.curvature.llt().solve(TunablesSquared::Identity());
  for (const Tunable t : kAllOf<Tunable>) {
    const Eigen::Index i = row_of(t);
    constexpr double kNear = 1e-6;  // prior standard deviations
    out.at_end[t] = out.at[i] < low[i] + kNear || out.at[i] > high[i] - kNear;
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
