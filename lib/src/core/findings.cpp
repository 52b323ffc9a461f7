#include "loftwright/core/findings.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace loftwright {

namespace {

std::string described(const std::string& file, const Findings& findings) {
  std::string text = fmt::format("{} cannot be used:", file);
  for (const Finding& f : findings) {
    if (f.severity == Severity::error) text += fmt::format("\n  {}", words_of(f));
  }
  return text;
}

}  // namespace

bool has_errors(const Findings& findings) {
  return std::any_of(findings.begin(), findings.end(), [](const Finding& f) { return f.severity == Severity::error; });
}

std::string words_of(const Finding& finding) {
  return fmt::format("{}{}{}", finding.place, finding.place.empty() ? "" : ": ", finding.message);
}

FileError::FileError(const std::string& file, Findings all)
    : InputError(described(file, all)), findings(std::move(all)) {}

}  // namespace loftwright
