// What commands about a drive share: the options for delivery, ball, turf and weather, and a drive on the screen.
#pragma once

#include <string>

#include "commands.hpp"

namespace loftwright::cli {

// `course` with what was typed of the ball, the turf and the weather; the rest of a Course{} is as the options'
// defaults say.
Course course_from(const Values& values, Course course = {});
bool course_given(const Values& values);  // any of them

// The options of that name.
Delivery delivery_from(const Values& values);
Handed handed_from(const Values& values);

// The drive itself, if there is one: throws InputError when the models gave no numbers.
const Drive& computed(const Drive& drive);

// Flight, run and notes.
std::string drive_text(const Drive& drive, const Setting& setting, UnitSystem units);

}  // namespace loftwright::cli
