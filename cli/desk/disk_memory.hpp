// Files as texts in memory, in place of the operating system's (loftwright/core/disk.hpp). What is linked with
// disk_memory.cpp touches no disk.
#pragma once

#include <map>
#include <string>

namespace loftwright::desk {

// By name, as relative as the program is given it. A folder is there when a file within it is, or by a name that ends
// in '/'.
using Texts = std::map<std::string, std::string>;

// From now on these files are there, and no others.
void put_files(const Texts& texts);

// What was written since then, with the texts it has now.
Texts written_files();

}  // namespace loftwright::desk
