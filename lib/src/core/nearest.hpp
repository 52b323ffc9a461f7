// The known word nearest to a mistyped one, for "did you mean".
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace loftwright {

// Letters to insert, delete, replace or swap with their neighbour to turn one word into the other (optimal string
// alignment distance). Only the first 64 bytes of each are compared: a key of a million letters costs no more than
// that.
std::size_t edit_distance(std::string_view a, std::string_view b);

// The first of the known words at the least distance. A compound that has the whole word among its parts ("loft" in
// "club_loft_deg"; a hyphen is as good as an underscore) comes before it, but not before the word itself or one that is
// a letter longer ("lofts"). Empty when none is known.
std::string nearest(std::string_view word, std::span<const std::string> known);

// Whether few letters are wrong.
bool is_near(std::string_view word, std::string_view known);

// Whether someone who typed the word may have meant this one: it is near, or has the word among its parts.
bool may_be_meant(std::string_view word, std::string_view known);

}  // namespace loftwright
