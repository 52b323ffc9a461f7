/// @file
/// What a book shows: whether carry under reference conditions is rising, how sure that is, and the best session so
/// far.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/book/book.hpp"
#include "loftwright/shot/shares.hpp"
#include "loftwright/stats/detail/trend.hpp"

namespace loftwright {

/// What all sessions together show.
struct History {
  std::vector<std::size_t> driver;          ///< of each session, numbered from 0 in the order they were first brought
  std::vector<std::optional<double>> loft;  ///< [rad] of each driver, as played; none: no session says
  std::optional<Trend>
      carry;  ///< [m per session] over the sessions in their order, a line a driver; none: no driver came twice
  std::optional<std::size_t> best;  ///< index of the session with the longest carry, the first such; none: no session
  bool one_program = true;          ///< the same version of the program computed every carry
};
History history(const Book& book);  ///< of any book, an empty one too

/// Whether the session at `index` has another driver than the one before it: another head, another loft, or another
/// setting of its sleeve. Where no loft is given it is the last one that was, of the same head.
bool changes_driver(const History& history, std::size_t index);

/// A step to another driver taken apart: who did what between the last session on the one and the first on the other,
/// by the model under reference conditions. Of the shares the conditions' is the head's.
struct DriverStep {
  std::size_t session = 0;                                      ///< index of the first session on the other driver
  Share change{};                                               ///< all of it
  Shares shares{};                                              ///< they add up to it
  std::array<Shares, kOtherFollows.size()> shares_otherwise{};  ///< in the order of kOtherFollows
  bool club_known = false;  ///< the loft on both drivers; else the club's share is zero, and the hands'
  bool known = true;        ///< false: a head is not to be had any more, and nothing else here says anything
};
inline constexpr std::size_t kMostDriverSteps = 20;  ///< of more the latest are taken apart

/// `reference`: the reference conditions with a head; none: it is not to be had. Oldest first.
std::vector<DriverStep> driver_steps(const Book& book, const History& history,
                                     const std::function<std::optional<Setting>(const std::string& head)>& reference);

}  // namespace loftwright
