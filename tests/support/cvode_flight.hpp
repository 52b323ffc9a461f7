// A flight by a reference library: SUNDIALS CVODE (variable-order Adams, Hindmarsh et al., ACM TOMS 31 (2005) 363)
// integrates a right-hand side with its own steps, error control and root finding.
#pragma once

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <stdexcept>
#include <string>

#include "loftwright/flight/flight.hpp"

namespace loftwright::test {

namespace detail {

inline int ground_and_apex(realtype, N_Vector y, realtype* g, void*) {
  g[0] = NV_Ith_S(y, 1);
  g[1] = NV_Ith_S(y, 4);
  return 0;
}

template <class Equation>
int rates(realtype, N_Vector y, N_Vector dy, void* equation) {
  std::array<double, 7> state, slope;
  for (int i = 0; i < 7; ++i) state[static_cast<std::size_t>(i)] = NV_Ith_S(y, i);
  (*static_cast<const Equation*>(equation))(state, slope);
  for (int i = 0; i < 7; ++i) NV_Ith_S(dy, i) = slope[static_cast<std::size_t>(i)];
  return 0;
}

inline void require(int flag, const char* what) {
  if (flag < 0) throw std::runtime_error(std::string("CVODE: ") + what);
}

}  // namespace detail

// `equation(y, dy)`, states as in FlightEquation. Tolerances relative and absolute [-, SI].
template <class Equation>
Flight fly_by_cvode(const Equation& equation, const Launch& launch, double relative = 1e-11, double absolute = 1e-10) {
  using detail::require;
  SUNContext raw_context = nullptr;
  require(SUNContext_Create(nullptr, &raw_context), "context");
  const std::unique_ptr<std::remove_pointer_t<SUNContext>, void (*)(SUNContext)> context(
      raw_context, [](SUNContext c) { SUNContext_Free(&c); });
  const std::unique_ptr<std::remove_pointer_t<N_Vector>, void (*)(N_Vector)> y(N_VNew_Serial(7, context.get()),
                                                                               N_VDestroy);
  const Vec3<double> v = launch.ball_speed * direction(launch.launch, launch.azimuth);
  const double start[] = {0.0, 0.0, 0.0, v.x, v.y, v.z, launch.spin};
  for (int i = 0; i < 7; ++i) NV_Ith_S(y.get(), i) = start[i];

  const std::unique_ptr<void, void (*)(void*)> cvode(CVodeCreate(CV_ADAMS, context.get()),
                                                     [](void* c) { CVodeFree(&c); });
  const std::unique_ptr<std::remove_pointer_t<SUNNonlinearSolver>, int (*)(SUNNonlinearSolver)> solver(
      SUNNonlinSol_FixedPoint(y.get(), 0, context.get()), SUNNonlinSolFree);
  require(CVodeInit(cvode.get(), detail::rates<Equation>, 0.0, y.get()), "init");
  require(CVodeSStolerances(cvode.get(), relative, absolute), "tolerances");
  require(CVodeSetNonlinearSolver(cvode.get(), solver.get()), "solver");
  require(CVodeSetUserData(cvode.get(), const_cast<Equation*>(&equation)), "data");
  require(CVodeSetMaxNumSteps(cvode.get(), 100000), "steps");
  require(CVodeRootInit(cvode.get(), 2, detail::ground_and_apex), "roots");
  int falling[] = {-1, -1};
  require(CVodeSetRootDirection(cvode.get(), falling), "root direction");

  Flight flight;
  while (true) {
    double t = 0.0;
    const int flag = CVode(cvode.get(), 120.0, y.get(), &t, CV_NORMAL);
    require(flag, "step");
    if (flag != CV_ROOT_RETURN) throw std::runtime_error("CVODE: no landing");
    int found[2];
    require(CVodeGetRootInfo(cvode.get(), found), "root info");
    const auto at = [&](int i) { return NV_Ith_S(y.get(), i); };
    if (found[1]) flight.apex = std::max(flight.apex, at(1));
    if (!found[0]) continue;
    flight.carry = at(0);
    flight.side = at(2);
    flight.time = t;
    flight.landing_speed = std::sqrt(at(3) * at(3) + at(4) * at(4) + at(5) * at(5));
    flight.landing_angle = std::atan2(-at(4), std::hypot(at(3), at(5)));
    flight.landing_heading = std::atan2(at(5), at(3));
    flight.landing_spin = at(6);
    long calls = 0;
    require(CVodeGetNumRhsEvals(cvode.get(), &calls), "calls");
    flight.calls = static_cast<int>(calls);
    return flight;
  }
}

}  // namespace loftwright::test
