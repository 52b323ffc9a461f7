// The real program, as a process of its own.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "run.hpp"

namespace loftwright::test {

// A folder that is gone at the end of its scope.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "loftwright-XXXXXX").string();
    if (!mkdtemp(name.data())) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

inline std::string shell_quoted(const std::string& word) {
  std::string inside;
  for (const char c : word) inside += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return fmt::format("'{}'", inside);
}

inline std::string file_contents(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// `environment`: assignments before the command; `to`: where standard output goes instead of into the result.
inline Ran run_process(const std::vector<std::string>& args, const std::string& input = "", const std::string& environment = "",
                       const std::string& to = "") {
  const TemporaryFolder folder;
  const auto in = folder.path() / "in", out = folder.path() / "out", err = folder.path() / "err";
  std::ofstream(in, std::ios::binary) << input;
  std::string command = fmt::format("cd {} && {} {}", shell_quoted(LOFTWRIGHT_SOURCE_DIR), environment,
                                    shell_quoted(LOFTWRIGHT_BINARY_DIR "/loftwright"));
  for (const std::string& arg : args) command += fmt::format(" {}", shell_quoted(arg));
  command += fmt::format(" <{} >{} 2>{}", shell_quoted(in.string()), to.empty() ? shell_quoted(out.string()) : to,
                         shell_quoted(err.string()));
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, file_contents(out), file_contents(err)};
}

}  // namespace loftwright::test
