// JSON text to tree, with mistakes placed by line and column. Nothing here throws for what is in the text.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "loftwright/core/findings.hpp"

namespace loftwright {

using Json = nlohmann::json;

inline constexpr int kDeepestNesting = 64;  // of objects and lists in each other: no file of ours needs ten

// The tree of a text. None, and one error with its line and column, when it is not JSON. A key that stands twice is an
// error too, but the tree is still there so that the rest can be checked.
std::optional<Json> parse_json(std::string_view text, Findings& findings);

// What `from` makes of the document in `text`; empty when either finds an error (a key that stands twice leaves a
// tree). The findings are added to those there are.
template <class From>
auto read_document(std::string_view text, Findings& findings, From from) {
  Findings mine;
  const std::optional<Json> document = parse_json(text, mine);
  decltype(from(*document, mine)) result;
  if (document) result = from(*document, mine);
  findings.insert(findings.end(), mine.begin(), mine.end());
  if (has_errors(mine)) result.reset();
  return result;
}

// Text of a file for a message: in double quotes, control characters escaped, shortened when long.
std::string in_quotes(std::string_view text);

// JSON pointer of a member or an item.
std::string below(const std::string& place, std::string_view key);
std::string below(const std::string& place, std::size_t index);

}  // namespace loftwright
