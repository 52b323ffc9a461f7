// Boost's distributions and functions in double throughout. Left alone they go by way of long double: at thrice the
// time, for digits no answer needs, and with others where long double is another type. Who uses one includes Boost's
// header of it.
#pragma once

#include <boost/math/distributions/fwd.hpp>
#include <boost/math/policies/policy.hpp>

namespace loftwright {

// Both, as Boost itself writes a policy in full: all then share one compilation of its functions.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_float<false>,
                                               boost::math::policies::promote_double<false>>;

using ChiSquared = boost::math::chi_squared_distribution<double, InDouble>;
using NonCentralT = boost::math::non_central_t_distribution<double, InDouble>;
using Normal = boost::math::normal_distribution<double, InDouble>;
using StudentsT = boost::math::students_t_distribution<double, InDouble>;

}  // namespace loftwright
