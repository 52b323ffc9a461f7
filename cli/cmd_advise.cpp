#include <fmt/format.h>

#include <cstdint>
#include <ostream>

#include "advise_screen.hpp"
#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/io/json_out.hpp"
#include "loftwright/io/pupil_file.hpp"

namespace loftwright::cli {

namespace {

Pupil pupil_from(const Session& session, Findings& warnings) {
  const std::string& file = session.values.positional();
  if (file != "-") return load_pupil(file, session.catalogue, &warnings);
  Findings findings;
  const auto pupil = read_pupil(from_pipe(session, "a pupil's file"), ".", session.catalogue, findings);
  if (!pupil) throw FileError("standard input", findings);
  warnings = findings;
  return *pupil;
}

}  // namespace

int give_advice(const Session& session, const Pupil& pupil) {
  const Setting setting = setting_for(pupil, session.catalogue);
  AdviseOptions options;
  options.draws = static_cast<int>(session.values.integer("draws"));
  options.seed = static_cast<std::uint64_t>(session.values.integer("seed"));
  options.threads = threads_given(session);
  const Advice advice = advise(pupil, setting, options);
  if (session.json) {
    session.out << advise_json(advice, pupil, setting, session.units);
  } else if (session.values.given("explain")) {
    session.out << explanation_text(advice, session.units) << "\n" << wrapped(verdict_sentence(advice, pupil, session.units), "Verdict: ");
  } else {
    session.out << advise_screen(advice, pupil, setting, session.units);
  }
  return advice.feasible ? kDone : kNo;
}

int cmd_advise(const Session& session) {
  Findings warnings;
  const Pupil pupil = pupil_from(session, warnings);
  for (const Finding& f : warnings) warn(session, fmt::format("{}{}{}", f.place, f.place.empty() ? "" : ": ", f.message));
  return give_advice(session, pupil);
}

}  // namespace loftwright::cli
