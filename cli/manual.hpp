// What a system shows of the program beside its own help, written from the table of options: the manual page and
// completion in shells. `write_manual` puts them into files when the program is built.
#pragma once

#include <string>

namespace loftwright::cli {

std::string manual_page();  // roff, for man(1)

std::string bash_completion();
std::string fish_completion();

}  // namespace loftwright::cli
