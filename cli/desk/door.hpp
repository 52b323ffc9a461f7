// The one door: a command line and the files it names go in as texts, what it prints and the files it writes come out.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "disk_memory.hpp"

namespace loftwright::desk {

struct Call {
  std::vector<std::string> args;  // without the program's name
  std::string input;              // what standard input holds
  Texts files;                    // all that are there
};

struct Answer {
  int code;  // cli::Exit
  std::string out, err;
  Texts files;  // those written or changed
};

Answer answer(const Call& call);

// Both as bytes: texts one after the other, each after its length. Lengths, counts and the code are four bytes, the
// lowest first.
//   call     count of args, args..., input, then name and text of each file
//   answer   code, out, err, then name and text of each file
Call call_from(std::string_view bytes);  // throws std::out_of_range when they end too soon
std::string bytes_of(const Answer& answer);

}  // namespace loftwright::desk
