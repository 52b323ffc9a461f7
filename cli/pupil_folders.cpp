#include "pupil_folders.hpp"

namespace loftwright::cli {

EntrantSource entrants_of(const Session& session, const PupilFolder& folder) {
  return [&](std::size_t i) { return entrant_of(folder, i, session.catalogue); };
}

AdviseOptions advise_options(const Session& session) {
  AdviseOptions options;
  options.draws = static_cast<int>(session.values.integer("draws"));
  options.seed = session.values.seed("seed");
  options.threads = threads_given(session);
  return options;
}

}  // namespace loftwright::cli
