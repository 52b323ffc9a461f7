// What a book shows: whether carry under reference conditions is rising, how sure that is, and the best session so far.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/book/book.hpp"
#include "loftwright/io/tables.hpp"
#include "loftwright/io/words.hpp"
#include "loftwright/stats/trend.hpp"

namespace loftwright {

struct History {
  std::vector<std::size_t> driver;  // of each session, numbered from 0 in the order they were first brought
  std::optional<Trend> carry;       // [m per session] over the sessions in their order, a line a driver; none: no driver came twice
  std::optional<std::size_t> best;  // index of the session with the longest carry, the first such; none: no session
  bool one_program = true;          // the same version of the program computed every carry
};
History history(const Book& book);

// Whether the session at `index` has another driver than the one before it: another head, or another loft marked. Where no
// loft is given it is the last one that was, of the same head.
bool changes_driver(const History& history, std::size_t index);

// Rising, falling, or not to be told from chance yet; with what a session brings and its 95 % interval.
std::string trend_sentence(const History& history, UnitSystem units);

// The trend, the best session so far, and what to be careful about: a sentence each.
std::vector<std::string> history_sentences(const Book& book, UnitSystem units);

// "Marlow Fenn (invented), right-handed: 5 sessions, 2026-01-10 to 2026-03-28"
std::string book_title(const Book& book);
std::string counted_sessions(std::size_t count);  // "1 session", "5 sessions"

// What the carry and total of every session hold for.
std::string same_conditions_words(const Catalogue& catalogue, UnitSystem units);

// Carry and total, session by session; and the delivery of each. Empty without sessions.
TextTable history_table(const Book& book, UnitSystem units);
TextTable sessions_table(const std::vector<BookedSession>& sessions, UnitSystem units);

// For other programs, "loftwright-book-history/1"; `units` is for the sentence only.
std::string history_json(const Book& book, UnitSystem units);

}  // namespace loftwright
