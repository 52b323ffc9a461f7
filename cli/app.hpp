// The command line as a function, so that tests call it in-process.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace loftwright::cli {

// Exit codes: 0 done; 1 computed, and the answer is no; 2 usage; 3 bad input or data; 4 internal.
enum Exit { kDone = 0, kNo = 1, kUsage = 2, kInput = 3, kInternal = 4 };

// `args` without the program's name. Answers go to `out`, everything else to `err`. Never throws.
int run(const std::vector<std::string>& args, std::istream& in, std::ostream& out, std::ostream& err);

}  // namespace loftwright::cli
