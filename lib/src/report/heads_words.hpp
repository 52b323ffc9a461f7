// Heads side by side, in words and tables: what the screen and the page both lay out.
#pragma once

#include <string>
#include <vector>

#include "loftwright/core/units.hpp"
#include "loftwright/shots/heads.hpp"
#include "report/text_table.hpp"

namespace loftwright {

// Which head to play, how sure that is, and what would tell more: the answer in a few sentences.
std::string heads_sentence(const HeadsAnswer& answer, UnitSystem units);

// "12 and 14 shots cannot tell these two apart; 20 more with each would ...". Empty when they are told apart.
std::string more_shots_words(const HeadsAnswer& answer, const HeadPair& pair, UnitSystem units);

// What a reader should know: a day that was bad with one head, what was computed, heads hit in one go.
std::vector<std::string> heads_notes(const HeadsAnswer& answer, UnitSystem units);

// Each head, the longest first.
TextTable heads_table(const HeadsAnswer& answer, UnitSystem units);
// Each head against the one in hand and against the leader.
TextTable apart_table(const HeadsAnswer& answer, UnitSystem units);
// The mean delivery with each and what the model makes of it, beside what was measured.
TextTable modelled_table(const HeadsAnswer& answer, UnitSystem units);

// "Ayr 12, in hand".
std::string head_words(const HeadsAnswer& answer, std::size_t head);

}  // namespace loftwright
