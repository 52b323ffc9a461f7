// Plain text for an 80-column screen.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/advice_tables.hpp"

namespace loftwright::cli {

inline constexpr std::size_t kColumns = 80;

// Breaks at blanks, line ends among them. The first line starts with `first`, the others with as many spaces. Ends with
// a newline.
std::string wrapped(std::string_view text, std::string_view first = "");

// Rows of cells: the first column to the left, the others to the right, each as wide as its widest cell, two spaces
// between. Lines start with two spaces and end with a newline.
std::string table(const std::vector<std::vector<std::string>>& rows);

// A heading on a line of its own above `body`; nothing at all above nothing.
std::string section(std::string_view title, std::string_view body);

// A table under its title, `beneath` it and above its notes; `indent` is for the notes. Without rows the notes alone.
std::string laid_out(const TextTable& data, std::string_view beneath = "", std::string_view indent = "");

// Text a user wrote, safe to print: control characters other than line ends become spaces, so no name can move the
// cursor.
std::string printable(std::string_view text);

}  // namespace loftwright::cli
