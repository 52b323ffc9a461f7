// The program in-process.
#pragma once

#include <sstream>
#include <string>
#include <vector>

#include "app.hpp"

namespace loftwright::test {

struct Ran {
  int code;
  std::string out;
  std::string err;
};

inline Ran run_args(const std::vector<std::string>& args, const std::string& input = "") {
  std::istringstream in(input);
  std::ostringstream out, err;
  const int code = cli::run(args, in, out, err);
  return {code, out.str(), err.str()};
}

// A line as typed, words parted by spaces.
inline Ran run_line(const std::string& line, const std::string& input = "") {
  std::istringstream words(line);
  std::vector<std::string> args;
  for (std::string word; words >> word;) args.push_back(word);
  return run_args(args, input);
}

}  // namespace loftwright::test
