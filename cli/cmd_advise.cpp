#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <istream>
#include <ostream>
#include <thread>

#include "advise_screen.hpp"
#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/io/json_out.hpp"
#include "loftwright/io/pupil_file.hpp"

namespace loftwright::cli {

namespace {

// A pupil's file from a pipe: as much as read_text would take from a file.
std::string all_of(std::istream& in) {
  constexpr std::size_t kMost = 8u << 20;  // [bytes]
  std::string text(kMost + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(in.gcount()));
  if (text.empty()) throw InputError("standard input is empty; a pupil's file is expected");
  if (text.size() > kMost) throw InputError(fmt::format("standard input is too large; allowed: at most {} bytes", kMost));
  return text;
}

Pupil pupil_from(const Session& session, Findings& warnings) {
  const std::string& file = session.values.positional();
  if (file != "-") return load_pupil(file, session.catalogue, &warnings);
  Findings findings;
  const auto pupil = read_pupil(all_of(session.in), ".", session.catalogue, findings);
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
  const long threads = session.values.integer("threads");
  options.threads = threads > 0 ? static_cast<int>(threads) : static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
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
