// What is said of a rack of demo lofts, for the screen and the page: tables and sentences.
#pragma once

#include <string>
#include <vector>

#include "loftwright/report/json.hpp"
#include "report/text_table.hpp"

namespace loftwright {

// One pupil of a rack: the curve, what is taken from the rack, and the file.
struct RackPupil {
  const LoftCurve& curve;
  const RackUse& use;
  const std::string& file;
};
std::vector<RackPupil> rack_pupils(const RackAnswer& answer);

// Which lofts, what they lose, what one more would save, where buying stops to pay. The first is the answer.
std::vector<std::string> rack_sentences(const RackAnswer& answer, UnitSystem units);

// Who takes which loft, a sentence each.
std::vector<std::string> served_sentences(const RackAnswer& answer, UnitSystem units);

// A row a number of lofts, as far as they save anything and a little beyond.
TextTable rack_size_table(const RackAnswer& answer, UnitSystem units);

// A row a pupil; a name takes at most `name_width` characters.
TextTable rack_pupil_table(const RackAnswer& answer, UnitSystem units, std::size_t name_width);

// What it is reckoned with, a sentence each.
std::vector<std::string> rack_notes(const RackAnswer& answer);

// [m] what each pupil loses on average with a rack of so many.
double lost_each(const RackAnswer& answer, std::size_t size);

}  // namespace loftwright
