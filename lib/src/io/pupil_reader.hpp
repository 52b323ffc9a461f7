// What pupil files and the check of any file share.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "io/json_reader.hpp"
#include "loftwright/io/catalogue.hpp"

namespace loftwright {

inline constexpr std::string_view kPupilFormat = "loftwright-pupil/1";

// read_pupil from a document already parsed.
std::optional<Pupil> pupil_from(const Json& document, const std::filesystem::path& folder, const Catalogue& catalogue,
                                Findings& findings);

// What went wrong in a file that another one names, as one line of that other one's findings.
std::string on_one_line(const InputError& error);

}  // namespace loftwright
