// Gives a target every file of the folders named: what it was once found to break on, and what covers it well.
//   loftwright_replay TARGET FOLDER...
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "target.hpp"

int main(int argc, char** argv) {
  const auto target = argc > 1 ? loftwright::fuzz::targets().find(argv[1]) : loftwright::fuzz::targets().end();
  if (target == loftwright::fuzz::targets().end()) {
    for (const auto& [name, function] : loftwright::fuzz::targets()) std::printf("%s\n", std::string(name).c_str());
    return 2;
  }
  std::size_t files = 0;
  for (int i = 2; i < argc; ++i) {
    for (const auto& entry : std::filesystem::directory_iterator(argv[i])) {
      std::ifstream in(entry.path(), std::ios::binary);
      const std::vector<char> bytes{std::istreambuf_iterator<char>(in), {}};
      std::fprintf(stderr, "%s\n", entry.path().c_str());
      target->second(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
      ++files;
    }
  }
  std::printf("%zu files\n", files);
  return files > 0 ? 0 : 1;
}
