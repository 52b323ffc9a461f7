// Advice on an 80-column screen, whole or in short, and the cautions that stand below it.
#pragma once

#include <string>

#include "loftwright/advise/ladder.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/shot/shot.hpp"

namespace loftwright::cli {

std::string cautions_text(UnitSystem units);

// Why, at a pupil's level, as one paragraph; the verdict; the cautions.
std::string explanation_text(const Advice& advice, UnitSystem units);

std::string advise_screen(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units);

// The lesson ladder, what it rests on, and the cautions.
std::string ladder_screen(const Ladder& ladder, const Advice& advice, const Pupil& pupil, const Setting& setting,
                          UnitSystem units);

}  // namespace loftwright::cli
