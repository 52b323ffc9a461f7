// Help, written from the table of options.
#pragma once

#include <string>

#include "options.hpp"

namespace loftwright::cli {

std::string help_overview();
std::string help_for_group(std::string_view group);  // the commands of two words that begin with it
std::string help_for(const Command& command);

// What follows an option's sentence: whether it must be given, its range in the unit of a bare number, its default, what it
// goes with. "" when nothing.
std::string fine_print(const Option& option);

}  // namespace loftwright::cli
