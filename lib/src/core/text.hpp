// Text as people write it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace loftwright {

// Without the invisible characters that turn the direction of what follows them (the explicit formatting characters of
// the Unicode bidirectional algorithm, UAX #9): left open in a name, they would turn the words after it too.
std::string without_direction_marks(std::string_view text);

// The first curly quotation mark in a text, as tablets and word processors make them of straight ones. Empty: there is
// none.
std::string_view curly_quote(std::string_view text);

inline bool is_digit(char c) { return c >= '0' && c <= '9'; }  // in any locale

// An end of a range for people: as it is when six digits say it; else three, rounded into the range, so that what is
// printed is itself allowed.
std::string range_end(double end, bool is_low);

// "path", "path and face", "path, face and toe"
std::string listed(const std::vector<std::string>& words);

// "session" for one, "sessions" for any other number; and with the number, "1 session", "5 sessions".
std::string plural(std::size_t count, std::string_view one);
std::string how_many(std::size_t count, std::string_view one);

// "one" .. "twelve", then figures.
std::string in_words(std::size_t count);

// With a capital in front, as sentences begin.
std::string capital(std::string text);

}  // namespace loftwright
