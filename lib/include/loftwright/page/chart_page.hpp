// The loft table for the wall of a clinic.
#pragma once

#include <string>

#include "loftwright/advise/chart.hpp"
#include "loftwright/io/words.hpp"

namespace loftwright {

// Loft to deliver and what it gives, as maps over club speed and attack and as tables. The same input gives the same bytes.
// Throws InputError when the tables would make the page too large.
std::string chart_page(const Chart& chart, const Pupil& like, const Setting& setting, UnitSystem units);

}  // namespace loftwright
