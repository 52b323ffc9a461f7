// The program in-process.
#pragma once

#include <algorithm>
#include <filesystem>
#include <nlohmann/json_fwd.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "app.hpp"
#include "options.hpp"

namespace loftwright::test {

using Json = nlohmann::ordered_json;  // an answer of --json, in its own order

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

// A line as typed: words parted by spaces, double quotes around what belongs together.
inline std::vector<std::string> words_of(const std::string& line) {
  std::vector<std::string> words(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ' ' && !quoted) {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  std::erase(words, "");
  return words;
}

inline Ran run_line(const std::string& line, const std::string& input = "") { return run_args(words_of(line), input); }

// The first example in a command's help, with the program's own data looked for in `data`; with few draws where it
// draws, as none of what is asked of every command hangs on how many.
inline std::vector<std::string> example_of(const cli::Command& command, const std::filesystem::path& data) {
  std::vector<std::string> words = words_of(std::string(command.examples.front().args));
  for (std::string& word : words) {
    if (word.starts_with("data/")) word = (data / word.substr(5)).string();
  }
  const std::vector<const cli::Option*> options = cli::options_of(command);
  if (std::any_of(options.begin(), options.end(),
                  [](const cli::Option* o) { return o->name == "draws" && o->needs.empty(); })) {
    words.insert(words.end(), {"--draws", "256"});
  }
  return words;
}

}  // namespace loftwright::test
