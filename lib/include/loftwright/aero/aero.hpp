/// @file
/// Drag and lift coefficients of a spinning ball. A model is plain data: one of the forms below with its numbers. Every
/// form offers the same small interface,
/// @code
/// template <class T> AeroCoefficients<T> at(const T& reynolds, const SpinRatio<T>& spin_ratio) const;   // finite,
/// drag > 0
/// @endcode
/// with reynolds Re = 2 rho V r / mu and spin_ratio S = w r / V (the flight holds S at kGreatestSpinRatio above it), so
/// a new form is a new alternative of AeroForm and nothing else changes.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <type_traits>
#include <variant>
#include <vector>

#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/detail/model_number.hpp"
#include "loftwright/core/detail/power_law.hpp"

namespace loftwright {

inline constexpr double kGreatestSpinRatio = 0.5;  ///< [-] S is held here above it

inline constexpr Range kReynolds{0.0, 1e7};            ///< [-] what Re may be, in data
inline constexpr Range kSpinRatios{0.0, 10.0};         ///< [-] likewise S
inline constexpr Range kAeroCoefficient{-10.0, 10.0};  ///< [-] of a closed form
inline constexpr Range kLiftExponent{0.05, 4.0};       ///< [-] of a closed form
inline constexpr Range kTableDrag{1e-3, 2.0};          ///< [-] in a cell of a table
inline constexpr Range kTableLift{-1.0, 2.0};          ///< [-] likewise

/// S with its parts w r and V^2; a plain number of T will do. Not deduced: T is that of Re.
template <class T>
using SpinRatio = std::type_identity_t<Quotient<T>>;

/// Drag and lift at one Re and S.
template <class T>
struct AeroCoefficients {
  T drag;  ///< [-] Cd
  T lift;  ///< [-] Cl, along spin axis x velocity
};

/// The drag crisis: below it the air leaves a dimpled ball early, so that drag rises and lift is lost, or even turned
/// round.
///     z = 1 / (1 + exp((Re - reynolds) / width))          Cd + drag z          Cl (1 - lift_loss z)
struct DragCrisis {
  double reynolds = 0.0;   ///< [-] where half of it is there
  double width = 0.0;      ///< [-] of Re
  double drag = 0.0;       ///< [-] added to Cd far below
  double lift_loss = 0.0;  ///< [-] share of Cl lost far below; above 1 it is turned round

  /// How much of it is there. From 30 widths off it is all or nothing to 1e-13: held, so that no Re overflows. A call,
  /// so that flights without a crisis have their registers to themselves.
  template <class T>
  [[gnu::noinline]] T share(const T& re) const {
    return 1.0 / (1.0 + exponential(max_of(T(-30.0), min_of(T(30.0), (re - reynolds) * (1.0 / width)))));
  }
};

/// Its numbers.
inline constexpr std::array kCrisisNumbers{
    ModelNumber<DragCrisis>{"reynolds", "aero crisis: reynolds", std::nullopt, &DragCrisis::reynolds, kReynolds},
    ModelNumber<DragCrisis>{"width", "aero crisis: width", std::nullopt, &DragCrisis::width, {100.0, 1e6}},
    ModelNumber<DragCrisis>{"drag", "aero crisis: drag", std::nullopt, &DragCrisis::drag, kAeroCoefficient},
    ModelNumber<DragCrisis>{"lift_loss", "aero crisis: lift_loss", std::nullopt, &DragCrisis::lift_loss,
                            kAeroCoefficient},
};

/// Closed form after the published fits:
///     Cd = drag + drag_spin S + drag_reynolds (Re/1e5 - 1.5) + drag_wave sin(pi (Re - 9e4) / 2e5)
///     Cl = (lift + lift_spin S + lift_power S^lift_exponent) for S > 0, else 0          and both with the crisis, if
///     any
struct AeroCurve {
  double drag = 0.0;                                ///< [-]
  double drag_spin = 0.0;                           ///< [-]
  double drag_reynolds = 0.0;                       ///< [-] per 1e5 of Re
  double drag_wave = 0.0;                           ///< [-]
  double lift = 0.0;                                ///< [-]
  double lift_spin = 0.0;                           ///< [-]
  double lift_power = 0.0;                          ///< [-]
  PowerLaw lift_exponent = 1.0;                     ///< [-] within kLiftExponent
  std::optional<DragCrisis> crisis = std::nullopt;  ///< none: drag and lift hold down to the slowest ball

  /// Cd and Cl. [-]
  template <class T>
  AeroCoefficients<T> at(const T& reynolds, const SpinRatio<T>& spin) const {
    const T& s = spin.value;
    T cd = (drag - 1.5 * drag_reynolds) + drag_spin * s + (1e-5 * drag_reynolds) * reynolds;
    if (drag_wave != 0.0) cd = cd + drag_wave * sin_cos(kPi / 2e5 * (reynolds - 9e4)).sin;
    T cl = lift + lift_spin * s;
    if (lift_power != 0.0) cl = cl + lift_exponent.times(lift_power, spin);
    if (crisis) {
      const T z = crisis->share(reynolds);
      cd = cd + crisis->drag * z;
      cl = cl * (1.0 - crisis->lift_loss * z);
    }
    return {cd, select(s > T(0.0), cl, T(0.0))};
  }
};

/// Its numbers, but for the exponent.
inline constexpr std::array kCurveNumbers{
    ModelNumber<AeroCurve>{"drag", "aero drag", std::nullopt, &AeroCurve::drag, kAeroCoefficient},
    ModelNumber<AeroCurve>{"drag_spin", "aero drag_spin", std::nullopt, &AeroCurve::drag_spin, kAeroCoefficient, false},
    ModelNumber<AeroCurve>{"drag_reynolds", "aero drag_reynolds", std::nullopt, &AeroCurve::drag_reynolds,
                           kAeroCoefficient, false},
    ModelNumber<AeroCurve>{"drag_wave", "aero drag_wave", std::nullopt, &AeroCurve::drag_wave, kAeroCoefficient, false},
    ModelNumber<AeroCurve>{"lift", "aero lift", std::nullopt, &AeroCurve::lift, kAeroCoefficient, false},
    ModelNumber<AeroCurve>{"lift_spin", "aero lift_spin", std::nullopt, &AeroCurve::lift_spin, kAeroCoefficient, false},
    ModelNumber<AeroCurve>{"lift_power", "aero lift_power", std::nullopt, &AeroCurve::lift_power, kAeroCoefficient,
                           false},
};

/// A user's table over Re and S. Without overshoot and smooth (C1; but for lines of S where the trend along Re
/// reverses, where the slope along S has a kink): monotone cubic along S, then along Re. Outside the table the edge
/// value holds, and the flight says that it left the table; but no spin is no lift, as with the curve.
struct AeroTable {
  std::vector<double> reynolds;    ///< [-] increasing, at least 2
  std::vector<double> spin_ratio;  ///< [-] increasing, at least 2
  std::vector<double> drag;        ///< [-] reynolds.size() rows of spin_ratio.size()
  std::vector<double> lift;        ///< [-] likewise

  template <class T>
  AeroCoefficients<T> at(const T& re, const SpinRatio<T>& s) const;  ///< Cd and Cl. [-]
};

/// One of the forms above with its numbers.
using AeroForm = std::variant<AeroCurve, AeroTable>;

/// One model as a data file gives it.
struct AeroModel {
  std::string id;                ///< as files name it
  std::string title;             ///< as people do
  std::string source;            ///< citation keys or words, as in the data file
  AeroForm form;                 ///< what drag and lift follow
  double reynolds_low = 0.0;     ///< [-] range of the data behind the form
  double reynolds_high = 0.0;    ///< [-]
  double spin_ratio_low = 0.0;   ///< [-]
  double spin_ratio_high = 0.0;  ///< [-]

  /// Cd and Cl of whichever form it has. [-]
  template <class T>
  AeroCoefficients<T> at(const T& reynolds, const SpinRatio<T>& spin) const {
    const AeroCurve* curve = std::get_if<AeroCurve>(&form);
    return curve ? curve->at(reynolds, spin) : std::get<AeroTable>(form).at(reynolds, spin);
  }
};

/// Throws InputError: table axes not increasing, sizes that do not fit, drag not positive within the range, no range.
void validate(const AeroModel& model);

namespace detail {

/// Slopes of the monotone cubic of Fritsch & Butland (SIAM J. Sci. Stat. Comput. 5 (1984) 300) at knot i.
template <class T>
T monotone_slope(const double* x, const T* f, std::size_t i, std::size_t n) {
  auto secant = [&](std::size_t k) { return (f[k + 1] - f[k]) / (x[k + 1] - x[k]); };
  if (n == 2) return secant(0);
  if (i == 0) return secant(0);
  if (i == n - 1) return secant(n - 2);
  const T a = secant(i - 1), b = secant(i);
  if (value_of(a) * value_of(b) <= 0.0) return T(0.0);
  const double ha = x[i] - x[i - 1], hb = x[i + 1] - x[i];
  const double wa = 2.0 * hb + ha, wb = hb + 2.0 * ha;
  return (wa + wb) / (wa / a + wb / b);
}

template <class T>
T hermite(double x0, double x1, const T& f0, const T& f1, const T& m0, const T& m1, const T& at) {
  const double h = x1 - x0;
  const T t = (at - x0) / h, t2 = t * t, t3 = t2 * t;
  return (2.0 * t3 - 3.0 * t2 + 1.0) * f0 + h * (t3 - 2.0 * t2 + t) * m0 + (3.0 * t2 - 2.0 * t3) * f1 +
         h * (t3 - t2) * m1;
}

inline std::size_t interval(const std::vector<double>& knots, double at) {
  std::size_t i = 0;
  while (i + 2 < knots.size() && at >= knots[i + 1]) ++i;
  return i;
}

template <class T>
T table_value(const AeroTable& table, const std::vector<double>& values, const T& re, const T& s) {
  const std::size_t nr = table.reynolds.size(), ns = table.spin_ratio.size();
  const std::size_t ir = interval(table.reynolds, value_of(re)), is = interval(table.spin_ratio, value_of(s));
  // Slopes along Re need one row either side of the interval: four rows at most.
  const std::size_t first = ir == 0 ? 0 : ir - 1, last = ir + 2 < nr ? ir + 2 : nr - 1, n = last - first + 1;
  std::array<T, 4> rows;
  const double* s_knots = table.spin_ratio.data();
  for (std::size_t r = 0; r < n; ++r) {
    const double* row = values.data() + (first + r) * ns;
    rows[r] = hermite(s_knots[is], s_knots[is + 1], T(row[is]), T(row[is + 1]), T(monotone_slope(s_knots, row, is, ns)),
                      T(monotone_slope(s_knots, row, is + 1, ns)), s);
  }
  const double* re_knots = table.reynolds.data() + first;
  const std::size_t k = ir - first;
  return hermite(re_knots[k], re_knots[k + 1], rows[k], rows[k + 1], monotone_slope(re_knots, rows.data(), k, n),
                 monotone_slope(re_knots, rows.data(), k + 1, n), re);
}

}  // namespace detail

template <class T>
AeroCoefficients<T> AeroTable::at(const T& re, const SpinRatio<T>& spin) const {
  const T& s = spin.value;
  const T r = max_of(min_of(re, T(reynolds.back())), T(reynolds.front()));
  const T q = max_of(min_of(s, T(spin_ratio.back())), T(spin_ratio.front()));
  return {detail::table_value(*this, drag, r, q), select(s > T(0.0), detail::table_value(*this, lift, r, q), T(0.0))};
}

}  // namespace loftwright
