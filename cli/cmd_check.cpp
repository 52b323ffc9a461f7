#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "commands.hpp"
#include "core/text.hpp"
#include "layout.hpp"
#include "loftwright/files/check_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/report/json.hpp"

namespace loftwright::cli {

namespace {

std::string findings_text(const std::string& file, const Findings& findings) {
  const auto errors = static_cast<std::size_t>(
      std::count_if(findings.begin(), findings.end(), [](const Finding& f) { return f.severity == Severity::error; }));
  std::string out = wrapped(fmt::format("{}: {} be used; {}, {}.", printable(file), errors ? "cannot" : "can",
                                        how_many(errors, "error"), how_many(findings.size() - errors, "warning")));
  for (const Finding& f : findings) {
    out += wrapped(printable(words_of(f)), f.severity == Severity::error ? "  error    " : "  warning  ");
  }
  return out;
}

}  // namespace

int cmd_check(const Session& session) {
  const std::string& file = session.values.positional();
  const Findings findings = check_file(file, session.catalogue);
  session.out << (session.json ? check_json(file, findings) : findings_text(file, findings));
  return has_errors(findings) ? kInput : kDone;
}

}  // namespace loftwright::cli
