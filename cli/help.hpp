// Help, written from the table of options.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "options.hpp"

namespace loftwright::cli {

inline constexpr std::string_view kQuestion =
    "will a change in how you swing, or a change of driver loft, buy you more yards?";
inline constexpr std::string_view kQuantities =
    "Quantities take their unit with them: 82mph, 36.7m/s, 132km/h, 10.5deg, 2700rpm, 4.7in. A bare number has the "
    "unit its option's "
    "help names, whatever --units says.";

struct ExitCode {
  int code;
  std::string_view meaning;
};
std::span<const ExitCode> exit_codes();

std::string help_overview();
std::string help_for_group(std::string_view group);  // the commands of two words that begin with it
std::string help_for(const Command& command);

// An example, indented; a line too long for the screen is broken as a shell would have it.
std::string as_typed(std::string_view args);

// What follows an option's sentence: whether it must be given, its range in the unit of a bare number, its default,
// what it goes with. "" when nothing.
std::string fine_print(const Option& option);

}  // namespace loftwright::cli
