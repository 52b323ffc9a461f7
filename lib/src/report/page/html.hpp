// HTML from text. Everything that is not markup of ours goes through `escaped`, once.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/advice_tables.hpp"

namespace loftwright {

// Text that is safe between tags and inside double-quoted attributes: markup escaped, control characters other than
// line ends turned into spaces, marks of direction left out.
std::string escaped(std::string_view text);

// The longest beginning of a text, in whole characters, that takes no more than `most` bytes once escaped.
std::string_view fitting(std::string_view text, std::size_t most);

// What a user typed: escaped, kept from turning the direction of the text around it, and cut where it would fill the
// page.
inline constexpr std::size_t kLongestTyped = 10'000;  // [bytes] of markup
std::string typed(std::string_view text);

// JSON that can stand inside a script element: no "<" is left in it.
std::string in_script(std::string_view json);

std::string paragraph(std::string_view text, std::string_view kind = "");
std::string bullets(const std::vector<std::string>& items);  // nothing for nothing

// A table with its title as caption, in a frame that scrolls sideways on a narrow screen. Nothing without rows.
// `links`: for each row below the heads, what its first cell leads to, as an address; empty: nothing.
std::string html_table(const TextTable& table, const std::vector<std::string>& links = {});

// A file's name as part of an address.
std::string as_address(std::string_view name);

}  // namespace loftwright
