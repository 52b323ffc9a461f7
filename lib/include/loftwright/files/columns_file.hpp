/// @file
/// Words for the columns of shot lists, "format": "loftwright-columns/1" (schema: data/schema/columns.schema.json;
/// docs/shot-list-format.md).
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "loftwright/core/findings.hpp"
#include "loftwright/shots/columns.hpp"

namespace loftwright {

/// Reads what it can and says everything that is wrong: syntax, unknown keys, words of nothing, a unit of another
/// dimension, one head for two readings, one word for both signs. Empty when there is an error.
std::optional<ColumnMap> read_columns(std::string_view text, Findings& findings);

/// The same from a file. Throws FileError.
ColumnMap load_columns(const std::filesystem::path& file);

/// The text of a file, which read_columns reads: what cannot be kept as it is throws InputError.
std::string columns_text(const ColumnMap& map);

/// The program's own: data/shots/columns.json.
ColumnMap built_in_columns();

}  // namespace loftwright
