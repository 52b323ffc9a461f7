// The loft table for the wall of a clinic.
#pragma once

#include <string>
#include <string_view>

#include "loftwright/advise/chart.hpp"
#include "loftwright/core/units.hpp"

namespace loftwright {

// Before the work is done: throws InputError when the tables would make the page too large.
void check_chart_page(const ChartAxes& axes);

// `name`: of the pupil it is for, as typed; empty: for anyone. Loft to deliver and what it gives, as maps over club speed and attack and as tables. The same input gives the same bytes.
std::string chart_page(const Chart& chart, std::string_view name, const Setting& setting, UnitSystem units);

}  // namespace loftwright
