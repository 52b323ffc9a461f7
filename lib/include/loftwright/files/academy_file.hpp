/// @file
/// What the lessons of an academy do, on disk: "format": "loftwright-academy/1" (schema:
/// data/schema/academy.schema.json; docs/lessons.md). Made by `loftwright lessons`, taken by `loftwright advise`.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/book/lessons.hpp"
#include "loftwright/core/findings.hpp"
#include "loftwright/files/catalogue.hpp"

namespace loftwright {

/// Says everything that is wrong. Empty when there is an error.
std::optional<Academy> read_academy(std::string_view text, Findings& findings);

/// The same from a file, named as the user named it. Throws FileError.
NamedAcademy load_academy(const std::string& file);

/// The text of the file, which read_academy reads: what cannot be kept as it is throws InputError.
std::string academy_text(const Academy& academy);

/// What stands in a folder of books.
struct AcademyFolder {
  std::vector<NamedBook> books;       ///< by file name
  std::vector<std::string> left_out;  ///< names of .json files that are no books, by name
  /// A book that cannot be read, and why.
  struct Failed {
    std::string file;   ///< its name
    Findings findings;  ///< at least one error
  };
  std::vector<Failed> failed;  ///< by name; the rest is read all the same
};

/// Every file of the folder whose name ends in .json; what lies in folders below is not looked at. A book with promises
/// must name heads that the catalogue has. Throws InputError when it is no folder or cannot be read.
AcademyFolder load_folder_of_books(const std::filesystem::path& folder, const Catalogue& catalogue);

/// reference_drive under the reference conditions of any head; throws InputError for an unknown one.
ReferenceDriveOf reference_drives(const Catalogue& catalogue);

}  // namespace loftwright
