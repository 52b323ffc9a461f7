// Runs many command lines in one process, for scripts that would spend their time on starting the program: a JSON array
// of command lines (arrays of words) on standard input, and on standard output an array of what became of each.
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app.hpp"
#include "json.hpp"

int main() {
  nlohmann::json done = nlohmann::json::array();
  const std::string lines(std::istreambuf_iterator<char>(std::cin), {});
  for (const auto& line : loftwright::test::parsed<nlohmann::json>(lines)) {
    std::istringstream nothing;
    std::ostringstream out, err;
    const int code = loftwright::cli::run(line, nothing, out, err);
    done.push_back({{"code", code}, {"out", out.str()}, {"err", err.str()}});
  }
  std::cout << done << '\n';
}
