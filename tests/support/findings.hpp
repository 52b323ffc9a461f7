// Looking for what a reading had to say.
#pragma once

#include <algorithm>
#include <string>

#include "loftwright/core/findings.hpp"
#include "scratch_folder.hpp"

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

}  // namespace loftwright::test
