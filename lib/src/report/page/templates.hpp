// The colours, the style and the scripts of the page as the build put them into the library.
#pragma once

#include "files/embedded.hpp"

namespace loftwright {

extern const EmbeddedFile kPageFiles[];
extern const std::size_t kPageFilesCount;

// By name ("page.css"). Throws std::logic_error when there is none.
std::string_view page_file(std::string_view name);

}  // namespace loftwright
