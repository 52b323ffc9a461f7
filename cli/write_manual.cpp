// write_manual FOLDER: the manual page and the completions, for the build alone.
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "manual.hpp"

int main(int argc, char** argv) {
  using namespace loftwright::cli;
  if (argc != 2) return 2;
  const std::filesystem::path folder = argv[1];
  const auto write = [&](const char* name, const std::string& text) {
    std::ofstream file(folder / name, std::ios::binary);
    return static_cast<bool>(file << text << std::flush);
  };
  const bool written = write("loftwright.1", manual_page()) && write("loftwright.bash", bash_completion()) &&
                       write("loftwright.fish", fish_completion());
  if (!written) std::perror(argv[1]);
  return written ? 0 : 1;
}
