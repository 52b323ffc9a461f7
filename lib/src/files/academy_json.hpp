// An academy's numbers read from its file.
#pragma once

#include <optional>
#include <string_view>

#include "files/json_text.hpp"
#include "loftwright/book/lessons.hpp"

namespace loftwright {

inline constexpr std::string_view kAcademyFormat = "loftwright-academy/1";

std::optional<Academy> academy_from(const Json& document, Findings& findings);

}  // namespace loftwright
