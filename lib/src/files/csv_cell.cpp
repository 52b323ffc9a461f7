#include "files/csv_cell.hpp"

#include <algorithm>
#include <iterator>
#include <string_view>

#include "loftwright/core/units.hpp"

namespace loftwright {

namespace {

// Whether a spreadsheet would work the text out rather than show it: "=1+2", "@SUM(A1)", "-cmd", and the same in wide
// letters or after blanks (OWASP, "CSV Injection", from memory). A number with its sign is one.
bool would_run(const std::string& text) {
  const std::size_t at = text.find_first_not_of(" \t\r\n");
  if (at == std::string::npos || parse_number(text)) return false;
  constexpr std::string_view kStarts[] = {"=", "@", "+", "-", "＝", "＠", "＋", "－"};
  return at > text.find_first_of("\t\r\n") ||
         std::any_of(std::begin(kStarts), std::end(kStarts),
                     [&](std::string_view start) { return std::string_view(text).substr(at).starts_with(start); });
}

}  // namespace

std::string csv_cell(const OrderedJson& value) {
  if (value.is_null()) return "";
  if (!value.is_string()) return dumped(value);
  const std::string& written = value.get_ref<const std::string&>();
  std::string text = would_run(written) ? "'" + written : written;
  if (text.find_first_of(",;\t\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

}  // namespace loftwright
