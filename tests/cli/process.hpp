// The real program, as a process of its own.
#pragma once

#include <sys/wait.h>

#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "run.hpp"
#include "scratch_folder.hpp"

namespace loftwright::test {

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

// `environment`: assignments or shell commands before the command; `to`: where standard output goes instead of into the
// result; `where`: the folder it runs in.
inline Ran run_process(const std::vector<std::string>& args, const std::string& input = "", const std::string& environment = "",
                       const std::string& to = "", const std::filesystem::path& where = LOFTWRIGHT_SOURCE_DIR) {
  const ScratchFolder folder;
  const auto in = folder.write("in", input), out = folder.path() / "out", err = folder.path() / "err";
  std::string command = fmt::format("cd {} && {} {}", shell_quoted(where.string()), environment,
                                    shell_quoted(LOFTWRIGHT_BINARY_DIR "/loftwright"));
  for (const std::string& arg : args) command += fmt::format(" {}", shell_quoted(arg));
  command += fmt::format(" <{} >{} 2>{}", shell_quoted(in.string()), to.empty() ? shell_quoted(out.string()) : to,
                         shell_quoted(err.string()));
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, file_contents(out), file_contents(err)};
}

}  // namespace loftwright::test
