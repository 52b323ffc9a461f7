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

// The first of the known words at the least distance. Empty when none is known.
std::string nearest(std::string_view word, std::span<const std::string> known);

}  // namespace loftwright
