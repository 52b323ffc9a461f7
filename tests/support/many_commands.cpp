// Runs many command lines in one process, for scripts that would spend their time on starting the program: a JSON array
// of command lines (arrays of words) on standard input, and on standard output an array of what became of each.
#include <iostream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app.hpp"

int main() {
  nlohmann::json done = nlohmann::json::array();
  for (const auto& line : nlohmann::json::parse(std::cin)) {
    std::istringstream nothing;
    std::ostringstream out, err;
    const int code = loftwright::cli::run(line, nothing, out, err);
    done.push_back({{"code", code}, {"out", out.str()}, {"err", err.str()}});
  }
  std::cout << done << '\n';
}
