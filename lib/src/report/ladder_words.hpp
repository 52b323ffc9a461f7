// A lesson ladder as text for people: what the screen, the page and the JSON lay out.
#pragma once

#include <string>
#include <vector>

#include "loftwright/advise/ladder.hpp"
#include "report/text_table.hpp"

namespace loftwright {

// How many steps, from where to where, what they bring, and when the driver changes; or why there is no ladder.
std::string ladder_sentence(const Ladder& ladder, const Advice& advice, UnitSystem units);

// "Eight of ten drives above -2.1 deg of attack."
std::string reached_words(const LadderStep& step, const LadderStep& before, const Ladder& ladder);

// What each step delivers and gives; what it is at address and how it is seen to be reached. Empty without steps.
TextTable ladder_table(const Ladder& ladder, const Advice& advice, UnitSystem units);
TextTable ladder_set_up_table(const Ladder& ladder, UnitSystem units);

// For the pupil, in words: what to do, how far drives go, and how the step is seen to be reached.
TextTable pupils_ladder_table(const Ladder& ladder, const Advice& advice, UnitSystem units);

std::vector<std::string> pupils_ladder_sentences(const Ladder& ladder, const Advice& advice, UnitSystem units);

// How the signs were reckoned, when to look again, what a step costs for now or passes, what the ladder leans on.
std::vector<std::string> ladder_sentences(const Ladder& ladder, const Pupil& pupil, const Advice& advice,
                                          UnitSystem units);

}  // namespace loftwright
