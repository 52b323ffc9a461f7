// The whole advice on an 80-column screen.
#pragma once

#include <string>

#include "loftwright/io/words.hpp"

namespace loftwright::cli {

// Why, at a pupil's level, as one paragraph.
std::string explanation_text(const Advice& advice, UnitSystem units);

std::string advise_screen(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units);

}  // namespace loftwright::cli
