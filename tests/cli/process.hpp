// The real program, as a process of its own.
#pragma once

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fmt/format.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "folders.hpp"
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
inline Ran run_process(const std::vector<std::string>& args, const std::string& input = "",
                       const std::string& environment = "", const std::string& to = "",
                       const std::filesystem::path& where = LOFTWRIGHT_SOURCE_DIR) {
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

// Begins the program and leaves it running, its error stream shut up. `out`: where standard output goes.
inline pid_t start_process(const std::vector<std::string>& args, int out, const std::filesystem::path& where) {
  const std::string program = LOFTWRIGHT_BINARY_DIR "/loftwright";
  std::vector<char*> argv{const_cast<char*>(program.c_str())};
  for (const std::string& arg : args) argv.push_back(const_cast<char*>(arg.c_str()));
  argv.push_back(nullptr);
  // A signal that comes before the program has begun waits for it, and finds none of the tests' own handlers.
  sigset_t asked, before;
  sigemptyset(&asked);
  sigaddset(&asked, SIGINT);
  sigprocmask(SIG_BLOCK, &asked, &before);
  const pid_t child = fork();
  if (child == 0) std::signal(SIGINT, SIG_DFL);
  sigprocmask(SIG_SETMASK, &before, nullptr);
  if (child != 0) return child;
  const int nowhere = open("/dev/null", O_RDWR);
  if (chdir(where.c_str()) != 0 || dup2(nowhere, 0) < 0 || dup2(out, 1) < 0 || dup2(nowhere, 2) < 0) _exit(99);
  execv(program.c_str(), argv.data());
  _exit(99);
}

// Its exit code, or minus the signal that ended it.
inline int ended(pid_t child) {
  int status = 0;
  if (waitpid(child, &status, 0) != child) return 99;
  return WIFSIGNALED(status) ? -WTERMSIG(status) : WEXITSTATUS(status);
}

// A copy of the program's own data, for commands that change it.
struct Desk {
  ScratchFolder folder;
  std::filesystem::path data = folder.path() / "data", book = data / "books" / "demo.json";

  Desk() {
    std::filesystem::copy(LOFTWRIGHT_SOURCE_DIR "/data", data, std::filesystem::copy_options::recursive);
    std::string previous = file_contents(book);  // so that there is something to undo
    previous.replace(previous.find("Invented."), 9, "Made up.");
    folder.write("data/books/demo.json.previous", previous);
  }

  // Every file a reader may come upon, and its text. A book's lock is empty and stays.
  std::map<std::string, std::string> files() const { return files_in(folder.path()); }
  std::map<std::string, std::string> books() const { return files_in(data / "books"); }

  // A text in which no folder's name differs from desk to desk.
  std::string without_folder(std::string text) const {
    const std::string name = folder.path().string();
    for (std::size_t at; (at = text.find(name)) != std::string::npos;) text.replace(at, name.size(), "@");
    return text;
  }

 private:
  static std::map<std::string, std::string> files_in(const std::filesystem::path& where) {
    std::map<std::string, std::string> out;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(where)) {
      const bool kept = entry.is_regular_file() && entry.path().extension() != ".lock";
      if (kept) out[entry.path().lexically_relative(where).string()] = file_contents(entry.path());
    }
    return out;
  }
};

// Whether a command leaves its book another than it was, so that the next one needs another desk: one is 86 files.
inline bool changes_book(const cli::Command& command) {
  const std::string_view what = command.name;
  return what == "book add" || what == "book edit" || what == "book remove" || what == "book undo";
}

// Line ends and columns of blanks as single spaces: where a line breaks is not what such a test is about.
inline std::string on_one_line(const std::string& text) {
  std::istringstream words(text);
  std::string out;
  for (std::string word; words >> word;) out += (out.empty() ? "" : " ") + word;
  return out;
}

}  // namespace loftwright::test
