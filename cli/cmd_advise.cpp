#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <istream>
#include <ostream>
#include <thread>

#include "advise_screen.hpp"
#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/io/json_out.hpp"
#include "loftwright/io/pupil_file.hpp"
#include "loftwright/page/advice_page.hpp"
#include "page_file.hpp"

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

struct PupilText {
  Pupil pupil;
  std::string text;
};

PupilText pupil_from(const Session& session, Findings& warnings) {
  const std::string& file = session.values.positional();
  const bool piped = file == "-";
  std::string text = piped ? all_of(session.in) : read_text(file);
  const auto pupil = read_pupil(text, piped ? "." : std::filesystem::path(file).parent_path(), session.catalogue, warnings);
  if (!pupil) throw FileError(piped ? "standard input" : file, warnings);
  return {*pupil, std::move(text)};
}

}  // namespace

int give_advice(const Session& session, const Pupil& pupil, std::string_view text) {
  const PageFile page(session);
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
  if (page.wanted()) page.write(advice_page(advice, pupil, setting, session.catalogue, session.units, text));
  return advice.feasible ? kDone : kNo;
}

int cmd_advise(const Session& session) {
  Findings warnings;
  const auto [pupil, text] = pupil_from(session, warnings);
  for (const Finding& f : warnings) warn(session, fmt::format("{}{}{}", f.place, f.place.empty() ? "" : ": ", f.message));
  return give_advice(session, pupil, text);
}

}  // namespace loftwright::cli
