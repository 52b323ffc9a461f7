#include <fmt/format.h>

#include <cstdint>
#include <filesystem>
#include <ostream>

#include "advise_screen.hpp"
#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "page_file.hpp"

namespace loftwright::cli {

namespace {

struct PupilText {
  Pupil pupil;
  std::string text;
};

PupilText pupil_from(const Session& session, Findings& warnings) {
  const std::string& file = session.values.positional();
  const bool piped = file == "-";
  std::string text = piped ? from_pipe(session, "a pupil's file") : read_text(file);
  const auto pupil =
      read_pupil(text, piped ? "." : std::filesystem::path(file).parent_path(), session.catalogue, warnings);
  if (!pupil) throw FileError(piped ? "standard input" : file, warnings);
  return {*pupil, std::move(text)};
}

}  // namespace

int give_advice(const Session& session, const Pupil& pupil, std::string_view text) {
  const PageFile page(session);
  const Setting setting = setting_for(pupil, session.catalogue);
  AdviseOptions options;
  options.draws = static_cast<int>(session.values.integer("draws"));
  options.seed = session.values.seed("seed");
  options.threads = threads_given(session);
  const AeroModel second = session.catalogue.aero(kSecondAir);
  options.second_air = &second;
  const Advice advice = advise(pupil, setting, options);
  if (session.json) {
    session.out << advise_json(advice, pupil, setting, session.units);
  } else if (session.values.given("explain")) {
    session.out << explanation_text(advice, session.units);
  } else {
    session.out << advise_screen(advice, pupil, setting, session.units);
  }
  if (page.wanted()) page.write(advice_page(advice, pupil, setting, session.catalogue, session.units, text));
  return advice.feasible ? kDone : kNo;
}

int cmd_advise(const Session& session) {
  Findings warnings;
  const auto [pupil, text] = pupil_from(session, warnings);
  for (const Finding& f : warnings) warn(session, words_of(f));
  return give_advice(session, pupil, text);
}

}  // namespace loftwright::cli
