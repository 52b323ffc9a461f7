#include "stats/distributions.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/students_t.hpp>

#include "stats/in_double.hpp"

namespace loftwright {

using boost::math::complement;

double students_t_exceeded(double freedom, double chance) { return quantile(complement(StudentsT(freedom), chance)); }

double chi_squared_exceeded(double freedom, double chance) { return quantile(complement(ChiSquared(freedom), chance)); }

double students_t_above(double freedom, double t) { return cdf(complement(StudentsT(freedom), t)); }

double chi_squared_above(double freedom, double value) { return cdf(complement(ChiSquared(freedom), value)); }

}  // namespace loftwright
