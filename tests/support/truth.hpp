// One way things truly are, by the tests' own hand and not the program's: what a drive then does.
#pragma once

#include <cmath>
#include <functional>

#include "loftwright/advise/advise.hpp"
#include "pupils.hpp"
#include "stats/quasi.hpp"

namespace loftwright::test {

// A standard normal deviate in equal parts, each by its middle.
inline double deviate(int i, int of) { return normal_quantile((i + 0.5) / of); }

// The mean of what a standard normal deviate gives.
inline double mean_over_normal(const std::function<double(double)>& value, int points = 2000) {
  double mean = 0.0;
  for (int i = 0; i < points; ++i) mean += value(deviate(i, points)) / points;
  return mean;
}

struct Truth {
  double mean_off[7], shot[7];  // [-] standard deviations of Spread, in its order
  ModelErrorOf<double> error;
  double follow, speed_per_attack;
};

// Nothing uncertain.
inline constexpr ErrorWidths kNothing{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, {0, 0, 0}, 0, 0, 0};

// As measured and modelled.
inline Truth nominal_truth(const Pupil& p) { return {{}, {}, {}, p.reach.follow, p.reach.speed_per_attack}; }

inline Delivery true_delivery(const Pupil& p, double loft, double attack, const Truth& t) {
  const Spread s = *p.spread;
  const double change = attack - p.delivery.attack;
  const auto off = [&](int i, double sd) { return sd * (t.mean_off[i] + t.shot[i]); };
  return {p.delivery.club_speed + t.speed_per_attack * change + off(0, s.club_speed),
          attack + off(1, s.attack),
          p.delivery.path + off(2, s.path),
          p.delivery.face + off(3, s.face),
          p.delivery.dynamic_loft + (loft - p.club_loft) + t.follow * change + off(4, s.dynamic_loft),
          p.delivery.toe + off(5, s.toe),
          p.delivery.high + off(6, s.high)};
}

inline double true_goal(const Pupil& p, const Setting& setting, double loft, double attack, const Truth& t) {
  const Delivery d = true_delivery(p, loft, attack, t);
  const Drive drive = drive_from(d, p.handed, setting, kFlightTolerance, t.error);
  return p.goal == Goal::carry ? drive.flight.carry : drive.total;
}

// What a strategy's loft and attack gain over the pupil as he is.
inline double true_gain(const Pupil& p, const Setting& setting, const Strategy& s, const Truth& t) {
  return true_goal(p, setting, s.loft, s.attack, t) - true_goal(p, setting, p.club_loft, p.delivery.attack, t);
}

}  // namespace loftwright::test
