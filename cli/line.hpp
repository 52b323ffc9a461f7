// The words of a command line, taken apart as the table of options says; the only user of CLI11.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "options.hpp"

namespace loftwright::cli {

struct Line {
  const Command* command = nullptr;  // none: no command was named
  std::string group;                 // the first word of a command of two, when the second is missing or unknown
  Typed typed;
  std::vector<std::string> positionals;
};

// The table as declared to CLI11; may parse line after line.
class LineParser {
 public:
  LineParser();
  ~LineParser();

  // Throws UsageError; what was understood before stands in `line`, which is given empty.
  void parse(const std::vector<std::string>& args, Line& line);

 private:
  struct Declared;
  std::unique_ptr<Declared> declared_;
};

}  // namespace loftwright::cli
