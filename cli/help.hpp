// Help, written from the table of options.
#pragma once

#include <string>

#include "options.hpp"

namespace loftwright::cli {

std::string help_overview();
std::string help_for(const Command& command);

// What follows an option's sentence: unit of a bare number, range, default, whether it must be given. "" when nothing.
std::string fine_print(const Option& option);

}  // namespace loftwright::cli
