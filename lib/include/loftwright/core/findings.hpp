/// @file
/// What reading a file has to say: every mistake and doubt with its place, not only the first.
#pragma once

#include <string>
#include <vector>

#include "loftwright/core/error.hpp"

namespace loftwright {

/// Whether a finding stops a file from being used.
enum class Severity {
  error,    ///< the file cannot be used until this is fixed
  warning,  ///< it can, but look again
};

/// One mistake or doubt.
struct Finding {
  Severity severity;    ///< whether the file can be used
  std::string place;    ///< JSON pointer ("/delivery/attack_deg") or "line 3, column 14"; empty: the file as a whole
  std::string message;  ///< what was found and what is allowed
};
/// In the order they were found.
using Findings = std::vector<Finding>;

/// Whether one of them is an error: the file cannot be used.
bool has_errors(const Findings& findings);

/// "/delivery/attack_deg: out of range ...": the place before the message, when there is one.
std::string words_of(const Finding& finding);

/// Thrown when a file cannot be used. what() names the file and lists its errors on lines of their own, the first
/// fifty.
struct FileError : InputError {
  FileError(const std::string& file, Findings all);  ///< `file` as the user named it
  Findings findings;                                 ///< all of them, warnings too
};

}  // namespace loftwright
