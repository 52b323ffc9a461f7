// The files of data/ as the build put them into the library.
#pragma once

#include <cstddef>
#include <string_view>

namespace loftwright {

struct EmbeddedFile {
  std::string_view name;  // below data/: "balls/reference.json"
  std::string_view text;
};

extern const EmbeddedFile kEmbeddedFiles[];
extern const std::size_t kEmbeddedFilesCount;

}  // namespace loftwright
