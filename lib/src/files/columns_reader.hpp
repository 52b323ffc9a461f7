// Column words from a parsed file.
#pragma once

#include <optional>

#include "files/json_text.hpp"
#include "loftwright/shots/columns.hpp"

namespace loftwright {

inline constexpr std::string_view kColumnsFormat = "loftwright-columns/1";

std::optional<ColumnMap> columns_from(const Json& document, Findings& findings);

}  // namespace loftwright
