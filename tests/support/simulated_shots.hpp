// Sessions of invented players, simulated by the test's own hand: a true head and ball, a swing that scatters, a strike
// that nobody sees, turf that bounces a ball irregularly, and a device that errs.
#pragma once

#include <optional>
#include <random>

#include "loftwright/tune/tune.hpp"
#include "pupils.hpp"
#include "settings.hpp"

namespace loftwright::test {

struct Session {
  Pupil pupil;                 // means and spread of the swing
  Setting setting;             // as modelled
  ModelErrorOf<double> truth;  // what head, ball and turf are beside it
  ByReading<DeviceError> device = good_device();
  int shots = 24;
  bool strike_seen = false;                        // toe and high measured
  bool club_seen = true;                           // club speed, attack, path, face, dynamic loft measured
  bool ball_seen = true;                           // ball speed, launch, azimuth, spin, tilt
  bool flight_seen = true;                         // carry, apex, landing
  bool run_seen = false;                           // total, where the flight is seen
  double run_scatter = TuneOptions{}.run_scatter;  // [-]
};

// Standard normal, the same on every machine.
inline double deviate(std::mt19937_64& random) {
  const auto u = [&] { return (static_cast<double>(random() >> 11) + 0.5) * 0x1p-53; };
  const double r = std::sqrt(-2.0 * std::log(u()));
  return r * std::cos(2.0 * kPi * u());
}

inline ModelErrorOf<double> draw_head_and_ball(const ErrorWidths& w, std::mt19937_64& random) {
  ModelErrorOf<double> out;
  out.restitution = w.restitution * deviate(random);
  out.tangential_restitution = w.tangential_restitution * deviate(random);
  out.drag_scale = 1.0 + w.drag_scale * deviate(random);
  out.lift_scale = 1.0 + w.lift_scale * deviate(random);
  return out;
}

// A mid-handicap's, with a head and ball of its own.
inline Session usual_session(std::mt19937_64& random) {
  Session s;
  s.pupil = plain_pupil();
  s.pupil.delivery = {84 * kMph, -2 * kDeg, 1 * kDeg, -1 * kDeg, 12 * kDeg, 0, 0};
  s.pupil.spread = usual_spread(Skill::mid_handicap, s.pupil.delivery.club_speed);
  s.setting = default_setting();
  s.truth = draw_head_and_ball({}, random);
  return s;
}

inline void draw_turf(const ErrorWidths& w, const Turf& turf, std::mt19937_64& random, ModelErrorOf<double>& truth) {
  truth.turf.tilt = turf.width * w.turf_tilt * deviate(random);
  truth.turf.tilt_speed = std::pow(1.0 + w.turf_tilt_speed, turf.width * deviate(random));
  truth.turf.restitution = std::pow(1.0 + w.turf_restitution, turf.width * deviate(random));
  truth.turf.rolling = std::pow(1.0 + w.turf_rolling, turf.width * deviate(random));
}

inline ShotList simulated(const Session& s, std::mt19937_64& random) {
  ByReading<double> bias{};  // in standard deviations
  for (double& b : bias) b = deviate(random);
  ShotList list;
  for (int n = 0; n < s.shots; ++n) {
    const Spread spread = *s.pupil.spread;
    Delivery d = s.pupil.delivery;
    d.club_speed += spread.club_speed * deviate(random);
    d.attack += spread.attack * deviate(random);
    d.path += spread.path * deviate(random);
    d.face += spread.face * deviate(random);
    d.dynamic_loft += spread.dynamic_loft * deviate(random);
    d.toe += spread.toe * deviate(random);
    d.high += spread.high * deviate(random);
    const Drive drive = drive_from(d, s.pupil.handed, s.setting, kTightFlightTolerance, s.truth);
    Shot shot;
    shot.line = static_cast<std::size_t>(n + 2);
    const auto see = [&](bool seen, Reading reading, double value) {
      DeviceError e = s.device[reading];
      if (e.of_reading) e = {e.noise * value, e.systematic * value};
      const double off = e.noise * deviate(random) + e.systematic * bias[reading];
      if (seen) shot.at(reading) = value + off;
    };
    see(s.club_seen, Reading::club_speed, d.club_speed);
    see(s.club_seen, Reading::attack, d.attack);
    see(s.club_seen, Reading::path, d.path);
    see(s.club_seen, Reading::face, d.face);
    see(s.club_seen, Reading::dynamic_loft, d.dynamic_loft);
    see(s.strike_seen, Reading::toe, d.toe);
    see(s.strike_seen, Reading::high, d.high);
    see(s.ball_seen, Reading::ball_speed, drive.launch.ball_speed);
    see(s.ball_seen, Reading::launch, drive.launch.launch);
    see(s.ball_seen, Reading::azimuth, drive.launch.azimuth);
    see(s.ball_seen, Reading::spin, drive.launch.spin);
    see(s.ball_seen, Reading::tilt, drive.launch.tilt);
    see(s.flight_seen, Reading::carry, drive.flight.carry);
    see(s.flight_seen, Reading::apex, drive.flight.apex);
    see(s.flight_seen, Reading::landing, drive.flight.landing_angle);
    if (s.run_seen && s.flight_seen) {  // the run is what the device adds to the carry it shows
      const double run = (drive.run.bounce + drive.run.roll) * (1.0 + s.run_scatter * deviate(random));
      see(true, Reading::total, run);
      *shot.at(Reading::total) += *shot.at(Reading::carry);
    }
    list.shots.push_back(shot);
  }
  return list;
}

}  // namespace loftwright::test
