// What the books of an academy say, as text for people: what the screen and the page both lay out.
#pragma once

#include <string>
#include <vector>

#include "loftwright/book/lessons.hpp"
#include "loftwright/files/academy_file.hpp"
#include "loftwright/report/numbers.hpp"
#include "report/text_table.hpp"

namespace loftwright {

// The answer in words: what loft and speed do with attack, and whether promises were kept.
std::string lessons_sentence(const Lessons& lessons, UnitSystem units);

// How much of each number is the pupils' and how much still the literature's, and what to be careful about.
std::vector<std::string> lessons_notes(const Lessons& lessons);

// Whether past predictions promised too much; empty without outcomes.
std::string calibration_sentence(const Academy& academy, UnitSystem units);

// Each number with its interval beside what is taken without it; each book; each promise that has an outcome.
TextTable academy_table(const Academy& academy, UnitSystem units);
TextTable pupils_table(const Lessons& lessons);
TextTable calibration_table(const Academy& academy, UnitSystem units);

// Files of the folder that did not count: not books, and books that cannot be read.
std::vector<std::string> left_out_sentences(const AcademyFolder& folder);

}  // namespace loftwright
