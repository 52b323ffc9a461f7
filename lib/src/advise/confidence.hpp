// How sure: draws over everything uncertain, the verdict they give, and what it leans on.
#pragma once

#include "advise/search.hpp"

namespace loftwright {

// `freedoms` and `found` of loft only, technique only and both. Also gives the verdict.
Confidence judge(const DriveModel& nominal, const Found& as_is, const std::array<Freedom, 3>& freedoms,
                 const std::array<Found, 3>& found, const AdviseOptions& options, Lever& verdict);

}  // namespace loftwright
