/// @file
/// Bounce and roll on level turf, in the vertical plane of the landing velocity. What is computed, and from which
/// source: the law is in lib/src/ground/bounce.hpp and docs/model.md, section 5. Left out: side spin, wind below the
/// hops, slope. Run is the least certain part of a drive: some 6 yd (1 sd) for a steep landing, 13 yd for a shallow
/// one.
#pragma once

#include "loftwright/aero/aero.hpp"
#include "loftwright/air/air.hpp"
#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/detail/model_number.hpp"
#include "loftwright/core/detail/scalar.hpp"
#include "loftwright/equip/ball.hpp"

namespace loftwright {

/// The first four set one turf apart from another; the rest is the law's own, the same on all that ship.
template <class T>
struct TurfOf {
  T tilt = T(21.4 * kDegree);  ///< [rad] greatest lean of the surface toward the ball
  T restitution = T(0.53);     ///< [-] of a ball that hardly falls
  T rolling = T(0.23);         ///< [-] rolling resistance
  T grass = T(0.012);          ///< [1/m] drag of the grass on a rolling ball
  T tilt_speed = T(2.5);       ///< [m/s] downward speed over which the surface comes to lean
  T rise = T(0.9);             ///< [-] greatest ratio of upward to downward speed
  T friction = T(1.0);         ///< [-] ball on turf
  double width = 1.0;          ///< [-] how much less is known of it than of turf that was measured (TurfWidths)
};
using Turf = TurfOf<double>;  ///< in plain numbers

/// Its numbers.
inline constexpr std::array kTurfNumbers{
    ModelNumber<Turf>{"tilt", "turf tilt", Dimension::angle, &Turf::tilt, {0.0, 40.0, "deg"}},
    ModelNumber<Turf>{"restitution", "turf restitution", std::nullopt, &Turf::restitution, {0.05, 0.95}},
    ModelNumber<Turf>{"rolling", "turf rolling resistance", std::nullopt, &Turf::rolling, {0.02, 1.0}},
    ModelNumber<Turf>{"grass_per_m", "turf grass drag in 1/m", std::nullopt, &Turf::grass, {0.0005, 0.2}},
    ModelNumber<Turf>{"tilt_speed", "turf tilt speed", Dimension::speed, &Turf::tilt_speed, {0.5, 10.0, "m/s"}, false},
    ModelNumber<Turf>{"rise", "turf rise", std::nullopt, &Turf::rise, {0.3, 1.2}, false},
    ModelNumber<Turf>{"friction", "turf friction", std::nullopt, &Turf::friction, {0.05, 1.0}, false},
    ModelNumber<Turf>{"width", "turf width", std::nullopt, &Turf::width, {0.0, 3.0}, false},
};

/// Throws InputError naming the number and its range.
void validate(const Turf& turf);

/// What is not known exactly of a turf. All ones and zeros: the turf as it stands.
template <class T>
struct TurfErrorOf {
  T tilt = T(0.0);         ///< [rad] added
  T restitution = T(1.0);  ///< [-] multiplies, as do the next three
  T rolling = T(1.0);      ///< [-]
  T grass = T(1.0);        ///< [-]
  T tilt_speed = T(1.0);   ///< [-]
  T rise = T(0.0);         ///< [-] added
  T friction = T(0.0);     ///< [-] added
};

/// The turf as it is then, held within the ranges above.
template <class T>
TurfOf<T> turf_under(const Turf& turf, const TurfErrorOf<T>& error) {
  return {held_within(turf.tilt + error.tilt, allowed_of(kTurfNumbers, &Turf::tilt), kDegree),
          held_within(turf.restitution * error.restitution, allowed_of(kTurfNumbers, &Turf::restitution)),
          held_within(turf.rolling * error.rolling, allowed_of(kTurfNumbers, &Turf::rolling)),
          held_within(turf.grass * error.grass, allowed_of(kTurfNumbers, &Turf::grass)),
          held_within(turf.tilt_speed * error.tilt_speed, allowed_of(kTurfNumbers, &Turf::tilt_speed)),
          held_within(turf.rise + error.rise, allowed_of(kTurfNumbers, &Turf::rise)),
          held_within(turf.friction + error.friction, allowed_of(kTurfNumbers, &Turf::friction)),
          turf.width};
}

/// A ball that meets the turf.
template <class T>
struct LandingOf {
  T speed;     ///< [m/s]
  T below;     ///< [rad] below horizontal
  T backspin;  ///< [rad/s] about the horizontal axis across its way; topspin is negative
};
using Landing = LandingOf<double>;  ///< in plain numbers

/// What the run is computed in.
template <class T>
struct RunSettingOf {
  TurfOf<T> turf{};                 ///< it runs on
  const Ball* ball = nullptr;       ///< must be given
  const AeroModel* aero = nullptr;  ///< must be given: of the hops
  Air air{};                        ///< density and viscosity
  T drag_scale = T(1.0);            ///< [-] multiplies Cd of the hops, as in the flight
  T lift_scale = T(1.0);            ///< [-] multiplies Cl
};
using RunSetting = RunSettingOf<double>;  ///< in plain numbers

/// A run from landing to rest.
template <class T>
struct RunOf {
  T bounce{};  ///< [m] from the pitch mark to where the roll begins
  T roll{};    ///< [m]
};
using Run = RunOf<double>;  ///< in plain numbers

/// Landing -> bounce and roll. T: double, a width of Dual instantiated in run.cpp, or Lanes.
template <class T>
RunOf<T> run_out(const LandingOf<T>& landing, const RunSettingOf<T>& setting);

}  // namespace loftwright
