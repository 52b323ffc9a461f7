// Invented pupils for tests.
#pragma once

#include <algorithm>
#include <random>
#include <string>

#include "loftwright/advise/advise.hpp"
#include "loftwright/pupil/pupil.hpp"
#include "settings.hpp"

namespace loftwright::test {

// Hits down with little loft; five drivers to choose from.
inline Pupil plain_pupil() {
  Pupil p;
  p.delivery = {82 * kMph, -4 * kDeg, 0, 0, 9.5 * kDeg, 0, 0};
  p.club_loft = 9.5 * kDeg;
  for (const double loft : {9.0, 9.5, 10.5, 12.0, 13.5})
    p.lofts.push_back({loft * kDeg, loft * kDeg, loft * kDeg, 0.0, loft == 9.5});
  p.reach.attack = {-5 * kDeg, 3 * kDeg};
  return p;
}

// The same without scatter: every drive is the average one.
inline Pupil steady_pupil() {
  Pupil p = plain_pupil();
  p.spread = Spread{};
  return p;
}

inline bool assumes(const Pupil& pupil, const std::string& sentence) {
  return std::ranges::find(pupil.assumed, sentence) != pupil.assumed.end();
}

// For tests that look at the optimum; how sure it is has tests of its own.
inline AdviseOptions without_confidence() {
  AdviseOptions options;
  options.draws = 0;
  return options;
}

// Every loft between two, as a fitting bench would have.
inline LoftChoice loft_range(double low_deg, double high_deg, double in_hand_deg) {
  return {low_deg * kDeg, high_deg * kDeg, in_hand_deg * kDeg, 0.0, true};
}

inline double uniform(std::mt19937& random, double low, double high) {
  return low + (high - low) * std::uniform_real_distribution<double>(0.0, 1.0)(random);
}

// 62 to 115 mph, all sorts of deliveries; every loft from 7 to 18 deg; 4 to 10 deg of attack within reach.
inline Pupil random_pupil(std::mt19937& random) {
  Pupil p;
  const double attack = uniform(random, -6, 4), loft = uniform(random, 8, 14);
  p.delivery = {uniform(random, 62, 115) * kMph,        attack * kDeg,
                uniform(random, -4, 4) * kDeg,          uniform(random, -3, 3) * kDeg,
                (loft + uniform(random, -3, 4)) * kDeg, uniform(random, -12, 12) * 1e-3,
                uniform(random, -8, 8) * 1e-3};
  p.club_loft = loft * kDeg;
  p.lofts = {loft_range(7, 18, loft)};
  p.reach.attack = {(attack - uniform(random, 1, 3)) * kDeg, std::min(attack + uniform(random, 3, 7), 10.0) * kDeg};
  p.reach.follow = uniform(random, 0.3, 1.0);
  p.reach.speed_per_attack = uniform(random, -0.4, 0.2) * kMph / kDeg;
  p.handed = uniform(random, 0, 1) < 0.2 ? Handed::left : Handed::right;
  return p;
}

}  // namespace loftwright::test
