#include "loftwright/core/findings.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace loftwright {

namespace {

constexpr std::size_t kMostTold = 50;  // errors of one file in a message; the findings beside it are all of them

std::string described(const std::string& file, const Findings& findings) {
  std::string text = fmt::format("{} cannot be used:", file);
  std::size_t count = 0;
  for (const Finding& f : findings) {
    if (f.severity == Severity::error && ++count <= kMostTold) text += fmt::format("\n  {}", words_of(f));
  }
  if (count > kMostTold) text += fmt::format("\n  and {} more; 'loftwright check' names them all", count - kMostTold);
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
