// Command lines from cases.json: what is typed, the exit code, what must stand on either stream.
#include <filesystem>

#include "cases.hpp"

using namespace loftwright::test;

TEST_CASE("command lines do what cases.json says") {
  const Json cases = command_cases();
  REQUIRE(cases.size() > 40);
  std::filesystem::current_path(LOFTWRIGHT_SOURCE_DIR);  // which files are named from, wherever the tests are called
  for (const Json& one : cases) {
    const ScratchFolder folder;
    const std::string at = folder.path().string();
    for (const auto& [name, text] : files_of(one)) folder.write(name, text);
    const std::vector<std::string> args = args_of(one, at);
    check_does(one.value("process", false) ? run_process(args, input_of(one)) : run_args(args, input_of(one)), one, at);
  }
}
