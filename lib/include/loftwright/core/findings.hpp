/// @file
/// What reading a file has to say: every mistake and doubt with its place, not only the first.
#pragma once

#include <string>
#include <vector>

#include "loftwright/core/error.hpp"

namespace loftwright {

enum class Severity {
  error,    ///< the file cannot be used until this is mended
  warning,  ///< it can, but look again
};

struct Finding {
  Severity severity;
  std::string place;    ///< JSON pointer ("/delivery/attack_deg") or "line 3, column 14"; empty: the file as a whole
  std::string message;  ///< what was found and what is allowed
};
using Findings = std::vector<Finding>;

bool has_errors(const Findings& findings);

/// "/delivery/attack_deg: out of range ...": the place before the message, when there is one.
std::string words_of(const Finding& finding);

/// Thrown when a file cannot be used. what() names the file and lists every error on a line of its own.
struct FileError : InputError {
  FileError(const std::string& file, Findings all);
  Findings findings;
};

}  // namespace loftwright
