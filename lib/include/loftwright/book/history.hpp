/// @file
/// What a book shows: whether carry under reference conditions is rising, how sure that is, and the best session so
/// far.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "loftwright/book/book.hpp"
#include "loftwright/stats/trend.hpp"

namespace loftwright {

/// What all sessions together show.
struct History {
  std::vector<std::size_t> driver;  ///< of each session, numbered from 0 in the order they were first brought
  std::optional<Trend>
      carry;  ///< [m per session] over the sessions in their order, a line a driver; none: no driver came twice
  std::optional<std::size_t> best;  ///< index of the session with the longest carry, the first such; none: no session
  bool one_program = true;          ///< the same version of the program computed every carry
};
History history(const Book& book);  ///< of any book, an empty one too

/// Whether the session at `index` has another driver than the one before it: another head, or another loft marked.
/// Where no loft is given it is the last one that was, of the same head.
bool changes_driver(const History& history, std::size_t index);

}  // namespace loftwright
