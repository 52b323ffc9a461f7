/// @file
/// What each number of a ball, a head, a turf and of drag and lift may be, once: a table of rows beside each struct.
/// Whatever reads, checks, holds within bounds or documents such a number takes it from there.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string_view>

#include "loftwright/core/detail/scalar.hpp"
#include "loftwright/core/quantity.hpp"

namespace loftwright {

/// One number of a plain struct S.
template <class S>
struct ModelNumber {
  std::string_view key;                ///< in files: a quantity's base name ("mass"), or the whole key of a bare number
  std::string_view title;              ///< in messages: "head mass"
  std::optional<Dimension> dimension;  ///< none: a bare number
  double S::*member;                   ///< where it is, [SI]
  Range allowed;                       ///< outside: an error
  bool needed = true;                  ///< a file must give it
  double times = 1.0;                  ///< what files give, of the member: 2 for the diameter of what has a radius
};

/// What a member may be, by its table.
template <class S, std::size_t N>
consteval Range allowed_of(const std::array<ModelNumber<S>, N>& numbers, double S::*member) {
  for (const ModelNumber<S>& n : numbers) {
    if (n.member == member) return n.allowed;
  }
  throw std::logic_error("no number of the table");
}

/// x, or the end of the range that it lies beyond. `unit` is that of the range. [SI]
template <class T>
T held_within(const T& x, const Range& range, double unit = 1.0) {
  return min_of(max_of(x, T(range.low * unit)), T(range.high * unit));
}

/// Throws InputError naming the first number that is not finite or out of its range.
template <class S, std::size_t N>
void check_numbers(const std::array<ModelNumber<S>, N>& numbers, const S& of) {
  for (const ModelNumber<S>& n : numbers) check(n.title, n.times * of.*n.member, n.allowed);
}

}  // namespace loftwright
