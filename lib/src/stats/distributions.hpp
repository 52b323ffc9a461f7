// What intervals and tests ask of distributions, compiled once: Boost's take seconds in each file that includes them.
#pragma once

namespace loftwright {

// What is exceeded with this chance, in (0, 1); freedom > 0.
double students_t_exceeded(double freedom, double chance);
double chi_squared_exceeded(double freedom, double chance);

// The chance to exceed a value.
double students_t_above(double freedom, double t);
double chi_squared_above(double freedom, double value);

}  // namespace loftwright
