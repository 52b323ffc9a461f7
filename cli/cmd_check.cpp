#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/files/check_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/report/json.hpp"

namespace loftwright::cli {

namespace {

std::string counted(std::ptrdiff_t count, std::string_view what) {
  return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string findings_text(const std::string& file, const Findings& findings) {
  const auto errors =
      std::count_if(findings.begin(), findings.end(), [](const Finding& f) { return f.severity == Severity::error; });
  const auto warnings = static_cast<std::ptrdiff_t>(findings.size()) - errors;
  std::string out = wrapped(fmt::format("{}: {} be used; {}, {}.", printable(file), errors ? "cannot" : "can",
                                        counted(errors, "error"), counted(warnings, "warning")));
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
