#include "loftwright/report/pages.hpp"

#include <fmt/format.h>

#include "core/disk.hpp"
#include "loftwright/core/error.hpp"

namespace loftwright {

namespace fs = std::filesystem;

void check_page_name(const fs::path& file) {
  if (file.extension() != ".html" && file.extension() != ".htm") {
    throw InputError(fmt::format("{} is no name for a page; it must end in .html or .htm", file.string()));
  }
  const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
  if (!is_there(folder) || kind_of(folder) != FileKind::folder) {
    throw InputError(fmt::format("there is no folder {}; make it first", folder.string()));
  }
  check_replaceable(through_links(file));
}

void write_page(const fs::path& file, std::string_view html) {
  check_page_name(file);
  const fs::path real = through_links(file);
  replace_file(real, html, real, Writing{});
}

}  // namespace loftwright
