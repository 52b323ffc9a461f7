// The whole advice on an 80-column screen.
#pragma once

#include <string>

#include "loftwright/io/words.hpp"

namespace loftwright::cli {

std::string advise_screen(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units);

}  // namespace loftwright::cli
