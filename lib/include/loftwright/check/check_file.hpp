// Mistakes and doubts in a file, whichever of ours it is.
#pragma once

#include <filesystem>

#include "loftwright/io/catalogue.hpp"
#include "loftwright/io/findings.hpp"

namespace loftwright {

// Any of the program's own files, known by its "format". Throws InputError as read_text does, never for what is in the file.
Findings check_file(const std::filesystem::path& file, const Catalogue& catalogue);

}  // namespace loftwright
