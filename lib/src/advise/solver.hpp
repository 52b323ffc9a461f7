// NLopt behind one function. The caller keeps the best of the places it is asked for, so however NLopt ends (converged,
// round-off, evaluation limit) nothing found is lost. Exceptions thrown by the model pass through.
#pragma once

#include <functional>
#include <span>
#include <vector>

namespace loftwright {

struct Problem {
  // Sizes: x and gradient n; gradient of constraint i starts at i * n. Empty gradient spans: not wanted.
  using Objective = std::function<double(std::span<const double> x, std::span<double> gradient)>;
  using Constraints =
      std::function<void(std::span<const double> x, std::span<double> values, std::span<double> gradients)>;

  std::vector<double> low, high;  // bounds; all finite
  Objective minimise;
  int constraint_count = 0;
  Constraints at_most_zero;
};

enum class Method {
  gradient,         // sequential quadratic programming
  derivative_free,  // linear approximation in a shrinking region: for kinks
};

struct SolverOptions {
  Method method = Method::gradient;
  double stop = 1e-4;       // in the variables' unit
  double first_step = 0.5;  // derivative_free only
  int most_evaluations = 60;
};

void solve(const Problem& problem, std::vector<double> start, const SolverOptions& options);

}  // namespace loftwright
