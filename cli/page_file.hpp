// The page of --html, for every command that has one.
#pragma once

#include <optional>
#include <string>

#include "commands.hpp"

namespace loftwright::cli {

class PageFile {
 public:
  // Before the work is done: throws InputError when the name cannot be a page's.
  explicit PageFile(const Session& session);

  bool wanted() const { return file_.has_value(); }
  // Writes it and, unless the answer is JSON, says so beneath the answer.
  void write(const std::string& html) const;

 private:
  const Session& session_;
  std::optional<std::string> file_;
};

}  // namespace loftwright::cli
