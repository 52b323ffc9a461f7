// Looking for what a reading had to say.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>

#include "loftwright/io/findings.hpp"

namespace loftwright::test {

// All findings, a line each, for failure messages.
inline std::string told(const Findings& findings) {
  std::string text;
  for (const Finding& f : findings) {
    text +=
        std::string(f.severity == Severity::error ? "error" : "warning") + " at '" + f.place + "': " + f.message + "\n";
  }
  return text;
}

inline bool tells(const Findings& findings, Severity severity, const std::string& place, const std::string& message) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
    return f.severity == severity && f.place == place && f.message == message;
  });
}

// A folder of its own for one test, removed with all that is in it.
class ScratchFolder {
 public:
  ScratchFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "loftwright-test-XXXXXX").string();
    path_ = mkdtemp(name.data());
  }
  ~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  std::filesystem::path write(const std::string& name, const std::string& text) const {
    const std::filesystem::path file = path_ / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << text;
    return file;
  }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace loftwright::test
