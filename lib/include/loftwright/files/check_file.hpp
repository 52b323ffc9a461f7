/// @file
/// Mistakes and doubts in a file, whichever of ours it is.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "loftwright/core/findings.hpp"
#include "loftwright/files/catalogue.hpp"

namespace loftwright {

/// The text of any of the program's own files, known by its "format". `folder` is where files named inside are looked
/// for. Never throws for what is in the text.
Findings check_text(std::string_view text, const std::filesystem::path& folder, const Catalogue& catalogue);

/// The same from a file, which may be a shot list too: what begins with a brace or a bracket or is named .json is JSON.
/// Throws InputError as read_text does.
Findings check_file(const std::filesystem::path& file, const Catalogue& catalogue);

/// The format that a text in JSON says it has, ours or not: "loftwright-pupil/1". Empty when it is no JSON or says
/// none.
std::string format_named(std::string_view text);

}  // namespace loftwright
