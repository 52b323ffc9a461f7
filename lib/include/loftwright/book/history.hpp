// What a book shows: whether carry under reference conditions is rising, how sure that is, and the best session so far.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "loftwright/book/book.hpp"
#include "loftwright/io/words.hpp"
#include "loftwright/stats/trend.hpp"

namespace loftwright {

struct History {
  std::optional<Trend> carry;       // [m per session] over the sessions in their order; none: fewer than two
  std::optional<std::size_t> best;  // index of the session with the longest carry, the first such; none: no session
  bool one_program = true;          // the same version of the program computed every carry
};
History history(const Book& book);

// Rising, falling, or not to be told from chance yet; with what a session brings and its 95 % interval.
std::string trend_sentence(const History& history, UnitSystem units);

// For other programs, "loftwright-book-history/1"; `units` is for the sentence only.
std::string history_json(const Book& book, UnitSystem units);

}  // namespace loftwright
