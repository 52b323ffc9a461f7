// The dynamic loft at which a drive is best, by plain golden-section search: independent of the project's optimiser.
#pragma once

#include <cmath>

#include "settings.hpp"

namespace loftwright::test {

inline Drive centred(double club_mph, double attack_deg, double loft_deg, const Setting& setting) {
  return drive_from(Delivery{club_mph * kMph, attack_deg * kDeg, 0.0, 0.0, loft_deg * kDeg, 0.0, 0.0}, Handed::right,
                    setting);
}

inline double carry_of(const Drive& drive) { return drive.flight.carry; }
inline double total_of(const Drive& drive) { return drive.total; }

// [deg] between 4 and 35, to 0.01 deg.
template <class Goal>
double best_loft(double club_mph, double attack_deg, const Setting& setting, Goal&& goal) {
  const double ratio = 0.5 * (std::sqrt(5.0) - 1.0);
  auto value = [&](double loft) { return goal(centred(club_mph, attack_deg, loft, setting)); };
  double low = 4.0, high = 35.0;
  double a = high - ratio * (high - low), b = low + ratio * (high - low);
  double at_a = value(a), at_b = value(b);
  while (high - low > 0.01) {
    if (at_a > at_b) {
      high = b, b = a, at_b = at_a;
      a = high - ratio * (high - low), at_a = value(a);
    } else {
      low = a, a = b, at_a = at_b;
      b = low + ratio * (high - low), at_b = value(b);
    }
  }
  return 0.5 * (low + high);
}

}  // namespace loftwright::test
