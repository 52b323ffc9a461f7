/// @file
/// Sentences about a pupil, a drive and the conditions, shared by the screen, the page and the sentences inside JSON.
/// Nothing here computes physics.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "loftwright/report/numbers.hpp"
#include "loftwright/shot/shot.hpp"

namespace loftwright {

/// "left-handed, playing for total"
std::string pupil_words(const Pupil& pupil);

/// The swing and the club as they are now, in one sentence.
std::string delivery_words(const Pupil& pupil, UnitSystem units);

/// "on the target line", "3 yd right", "12 m left" of the target line. [m], right positive
std::string side_words(double side, UnitSystem units);

/// "on the low point", "4.7 in behind the ball". [m], ahead positive
std::string low_point_words(double low_point, UnitSystem units);

/// "spin at most 3500 rpm", "landing angle between 25.0 deg and 50.0 deg".
std::string limit_words(Limited quantity, const Interval& allowed, UnitSystem units);

/// What a reader should know about one drive: how it ended if it did not simply land, sliding at impact, air resistance
/// beyond the model's data, the doubt about run.
std::vector<std::string> drive_notes(const Drive& drive, const AeroModel& aero, UnitSystem units);

/// What the conditions ask for that is not in the numbers: a cold ball. A sentence each.
std::vector<std::string> condition_notes(const Conditions& conditions);

/// Ball, turf and weather in one line: what the numbers hold for, and what is not in them.
std::string conditions_words(const Setting& setting, UnitSystem units);

/// Health, safety, rules of the game and the limits of a model: to stand beside every advice. The first is of the body.
std::vector<std::string> cautions(UnitSystem units);

}  // namespace loftwright
