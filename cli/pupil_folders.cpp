#include "pupil_folders.hpp"

namespace loftwright::cli {

std::string academy_text(const std::vector<std::string>& sentences) {
  std::string out;
  for (const std::string& sentence : sentences) out += wrapped(printable(sentence), "  - ");
  return out.empty() ? "" : "\n" + section("From the academy's lessons", out);
}

AdviseOptions advise_options(const Session& session) {
  AdviseOptions options;
  options.draws = static_cast<int>(session.values.integer("draws"));
  options.seed = session.values.seed("seed");
  options.threads = threads_given(session);
  return options;
}

}  // namespace loftwright::cli
