#include "advise/solver.hpp"

#include <nlopt.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <memory>
#include <stdexcept>

#include "core/traps.hpp"

namespace loftwright {

namespace {

struct Call {
  const Problem& problem;
  nlopt_opt opt;
  std::exception_ptr thrown{};

  // Runs `f`; on an exception keeps it and stops NLopt, which must not be unwound through. Stops it too when it asks
  // for a place that is no number: 2.7.1 does so after a line search that cannot leave a bound.
  template <class F>
  void guarded(std::span<const double> x, F&& f) {
    if (thrown) return;
    if (!std::all_of(x.begin(), x.end(), [](double v) { return std::isfinite(v); })) {
      nlopt_force_stop(opt);
      return;
    }
    try {
      f();
    } catch (...) {
      thrown = std::current_exception();
      nlopt_force_stop(opt);
    }
  }
};

double objective(unsigned n, const double* x, double* gradient, void* data) {
  auto& call = *static_cast<Call*>(data);
  double value = 0.0;
  call.guarded({x, n}, [&] {
    value = call.problem.minimise({x, n}, gradient ? std::span(gradient, n) : std::span<double>());
  });
  return value;
}

void constraints(unsigned m, double* values, unsigned n, const double* x, double* gradients, void* data) {
  auto& call = *static_cast<Call*>(data);
  std::fill_n(values, m, 0.0);
  call.guarded({x, n}, [&] {
    call.problem.at_most_zero({x, n}, {values, m},
                              gradients ? std::span(gradients, std::size_t{m} * n) : std::span<double>());
  });
}

}  // namespace

void solve(const Problem& problem, std::vector<double> start, const SolverOptions& options) {
  const auto n = static_cast<unsigned>(start.size());
  const std::unique_ptr<nlopt_opt_s, void (*)(nlopt_opt)> opt(
      nlopt_create(options.method == Method::gradient ? NLOPT_LD_SLSQP : NLOPT_LN_COBYLA, n), nlopt_destroy);
  if (!opt) throw std::bad_alloc();
  Call call{problem, opt.get()};
  for (unsigned i = 0; i < n; ++i) start[i] = std::clamp(start[i], problem.low[i], problem.high[i]);

  nlopt_set_lower_bounds(opt.get(), problem.low.data());
  nlopt_set_upper_bounds(opt.get(), problem.high.data());
  nlopt_set_min_objective(opt.get(), objective, &call);
  if (problem.constraint_count > 0) {
    const std::vector<double> tolerance(static_cast<std::size_t>(problem.constraint_count), 1e-6);
    nlopt_add_inequality_mconstraint(opt.get(), static_cast<unsigned>(problem.constraint_count), constraints, &call,
                                     tolerance.data());
  }
  nlopt_set_xtol_abs1(opt.get(), options.stop);
  nlopt_set_maxeval(opt.get(), options.most_evaluations);
  if (options.method == Method::derivative_free) nlopt_set_initial_step1(opt.get(), options.first_step);

  double value = 0.0;
  const WithoutTraps here;  // its line search divides by what may be zero
  nlopt_optimize(opt.get(), start.data(), &value);
  if (call.thrown) std::rethrow_exception(call.thrown);
}

}  // namespace loftwright
