// A page on disk.
#pragma once

#include <filesystem>
#include <string_view>

namespace loftwright {

// Throws InputError when `file` does not end in .html or .htm (so that no other file is written over by mistake), is there
// and no plain file, or stands in no folder.
void check_page_name(const std::filesystem::path& file);

// check_page_name, then the page whole or not at all: who looks at `file` sees the old text or the new. Throws Error when the
// machine cannot write it.
void write_page(const std::filesystem::path& file, std::string_view html);

}  // namespace loftwright
