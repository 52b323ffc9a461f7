/// @file
/// A folder of pupils' files, one a pupil: what a clinic is.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "loftwright/book/lessons.hpp"
#include "loftwright/clinic/clinic.hpp"
#include "loftwright/files/catalogue.hpp"

namespace loftwright {

/// A file in JSON that says it is no pupil's.
struct LeftOutFile {
  std::string file;    ///< its name in the folder
  std::string format;  ///< what it says it is: "loftwright-columns/1"
};

/// What a folder holds.
struct PupilFolder {
  std::filesystem::path folder;       ///< as the user named it
  std::vector<std::string> files;     ///< names in the folder, in their order: pupils, and what may be meant for one
  std::vector<LeftOutFile> left_out;  ///< likewise
};
inline constexpr std::size_t kMostPupils = 10'000;  ///< [-] of one folder

/// Looks at every *.json of the folder itself, but for those whose name begins with a dot. One that names the format of
/// something else is left out; one with mistakes, or that names none, is taken for a pupil's, whose reader will say
/// what is wrong. Throws InputError when there is no such folder, or no pupil's file or more than kMostPupils in it.
PupilFolder pupil_folder(const std::filesystem::path& folder);

/// The pupil of files[i], ready to be answered; of `academy`, where it is given, is taken what the file leaves open.
/// May be called from any thread. Throws InputError or FileError.
Entrant entrant_of(const PupilFolder& folder, std::size_t i, const Catalogue& catalogue,
                   const NamedAcademy* academy = nullptr);

}  // namespace loftwright
