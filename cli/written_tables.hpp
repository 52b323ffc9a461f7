// What stands in the schemas and in docs/pupil-file.md because the tables of numbers say so (core/quantity.hpp,
// pupil/pupil.hpp, and those of ball, head, turf and aero): keys and ranges. Every other word of these files is written
// by hand and stays. `loftwright_write_tables` writes them; a test holds them to it.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace loftwright::cli {

struct WrittenFile {
  std::string path;  // below the source folder
  std::string text;  // as it should be
};

// From the files that are there. Throws std::runtime_error naming what has no place in them.
std::vector<WrittenFile> written_tables(const std::filesystem::path& source);

}  // namespace loftwright::cli
