/// @file
/// A whole drive: impact, flight and run in one pure function.
#pragma once

#include <string>

#include "loftwright/flight/flight.hpp"
#include "loftwright/ground/run.hpp"
#include "loftwright/impact/impact.hpp"
#include "loftwright/shot/course.hpp"

namespace loftwright {

/// Whose numbers head, ball and turf have: the models', or such as a player's shots were fitted with.
enum class Tuned {
  nothing,
  head_and_ball,
  turf_too,
  another_turf
};  ///< the last: the turf that was tuned is not this one

/// Everything outside the player: head, ball, air, wind and turf. Const during computation, so drives run in parallel.
struct Setting {
  Head head;                ///< it is struck with
  Ball ball;                ///< its body ...
  AeroModel aero;           ///< ... and what it flies by
  Turf turf;                ///< it runs on
  Air air{};                ///< must be given: air_from
  Wind wind;                ///< none unless given
  double drag_scale = 1.0;  ///< [-] multiplies the aerodynamic model's drag: a ball tuned to a player's shots
  double lift_scale = 1.0;  ///< [-] likewise its lift

  /// What it was made from, for whoever tells of it.
  Course course{};
  std::string head_id = "modern-driver";  ///< a data file's id or path; empty: the pupil's own numbers
  Tuned tuned = Tuned::nothing;           ///< none: head and ball as modelled
};

/// What is not known exactly about the setting. All ones and zeros: the setting as it stands.
template <class T>
struct ModelErrorOf {
  T drag_scale = T(1.0);              ///< [-] multiplies the setting's
  T lift_scale = T(1.0);              ///< [-] likewise
  T restitution = T(0.0);             ///< [-] added to the head's
  T tangential_restitution = T(0.0);  ///< [-] added to the head's
  TurfErrorOf<T> turf{};              ///< the turf's
  HeadErrorOf<T> head{};              ///< the head's shape
};

/// The same error in another scalar.
template <class T>
ModelErrorOf<T> error_in(const ModelErrorOf<double>& e) {
  const HeadErrorOf<double>& h = e.head;
  const TurfErrorOf<double>& t = e.turf;
  return {T(e.drag_scale),
          T(e.lift_scale),
          T(e.restitution),
          T(e.tangential_restitution),
          {T(t.tilt), T(t.restitution), T(t.rolling), T(t.grass), T(t.tilt_speed), T(t.rise), T(t.friction)},
          {T(h.inertia_up), T(h.depth), T(h.bulge)}};
}

/// A whole drive.
template <class T>
struct DriveOf {
  LaunchOf<T> launch;    ///< the ball just after impact
  LogicOf<T> sliding{};  ///< at impact
  T smash{};             ///< [-] ball speed over club speed; 0 for a drive that starts from a launch
  T spin_loft{};         ///< [rad]
  FlightOf<T> flight;    ///< until it lands
  RunOf<T> run;          ///< until it lies still
  T total{};             ///< [m] carry + bounce + roll, taken along the target line
  T side_at_rest{};      ///< [m] the run goes on in the direction of landing
};
using Drive = DriveOf<double>;  ///< in plain numbers

/// Spin of a landing ball about the horizontal axis across its way, the only one the run knows: backspin +, topspin -.
/// The spin axis has kept the direction it had at launch, the way has turned by `turn` to the right.
template <class T>
T landing_backspin(const LaunchOf<T>& launch, const FlightOf<T>& flight) {
  const SinCos<T> turn = sin_cos(flight.landing_heading - launch.azimuth), tilt = sin_cos(launch.tilt);
  return flight.landing_spin * (tilt.cos * turn.cos - tilt.sin * sin_cos(launch.launch).sin * turn.sin);
}

/// What the run begins with.
template <class T>
LandingOf<T> landing_of(const LaunchOf<T>& launch, const FlightOf<T>& flight) {
  return {flight.landing_speed, flight.landing_angle, landing_backspin(launch, flight)};
}

/// The flight alone. T: double or Dual of a width instantiated in lib/src/flight.
template <class T>
FlightOf<T> flight_from(const LaunchOf<T>& launch, const Setting& setting, double tolerance = kFlightTolerance,
                        const ModelErrorOf<T>& error = {}) {
  return fly(launch,
             FlightSettingOf<T>{&setting.ball, &setting.aero, setting.air, setting.wind,
                                error.drag_scale * setting.drag_scale, error.lift_scale * setting.lift_scale},
             tolerance);
}

/// The run alone. T: double or Dual of a width instantiated in lib/src/ground.
template <class T>
RunOf<T> run_from(const LandingOf<T>& landing, const Setting& setting, const ModelErrorOf<T>& error = {}) {
  return run_out(landing,
                 RunSettingOf<T>{turf_under(setting.turf, error.turf), &setting.ball, &setting.aero, setting.air,
                                 error.drag_scale * setting.drag_scale, error.lift_scale * setting.lift_scale});
}

/// From a launch on. T: double or Dual of a width instantiated in lib/src/flight.
template <class T>
DriveOf<T> drive_from(const LaunchOf<T>& launch, const Setting& setting, double tolerance = kFlightTolerance,
                      const ModelErrorOf<T>& error = {}) {
  DriveOf<T> drive;
  drive.launch = launch;
  drive.flight = flight_from(launch, setting, tolerance, error);
  drive.run = run_from(landing_of(launch, drive.flight), setting, error);
  const T run = drive.run.bounce + drive.run.roll;
  drive.total = drive.flight.carry + run;
  drive.side_at_rest = drive.flight.side + run * sin_cos(drive.flight.landing_heading).sin;
  return drive;
}

/// The impact alone. A left-hander's delivery is mirrored into its frame and the launch mirrored back, so wind, side
/// and azimuth stay those of the course.
template <class T>
ImpactOf<T> impact_from(const DeliveryOf<T>& delivery, Handed handed, const Head& nominal, const Ball& ball,
                        const ModelErrorOf<T>& error = {}) {
  HeadOf<T> head = head_under(nominal, error.head);
  head.restitution = head.restitution + error.restitution;
  head.tangential_restitution = head.tangential_restitution + error.tangential_restitution;
  const bool left = handed == Handed::left;
  ImpactOf<T> impact = strike_ball(left ? mirrored(delivery) : delivery, head, ball);
  if (left) impact.launch = mirrored(impact.launch);
  return impact;
}

/// From a delivery on, for a player of either hand.
template <class T>
DriveOf<T> drive_from(const DeliveryOf<T>& delivery, Handed handed, const Setting& setting,
                      double tolerance = kFlightTolerance, const ModelErrorOf<T>& error = {}) {
  const ImpactOf<T> impact = impact_from(delivery, handed, setting.head, setting.ball, error);
  DriveOf<T> drive = drive_from(impact.launch, setting, tolerance, error);
  drive.sliding = impact.sliding;
  drive.smash = impact.launch.ball_speed / delivery.club_speed;
  drive.spin_loft = impact.spin_loft;
  return drive;
}

}  // namespace loftwright
