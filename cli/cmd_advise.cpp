#include <fmt/format.h>

#include <cstdint>
#include <filesystem>
#include <ostream>

#include "advise_screen.hpp"
#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/files/book_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "page_file.hpp"

namespace loftwright::cli {

namespace {

// Empty: none was named.
std::optional<PupilText> file_given(const Session& session) {
  const std::string& file = session.values.positional();
  if (file.empty()) return std::nullopt;
  if (file == "-") return PupilText{"standard input", from_pipe(session, "a pupil's file"), "."};
  return PupilText{file, read_text(file), std::filesystem::path(file).parent_path()};
}

SessionPupil pupil_of_book(const Session& session, const std::optional<PupilText>& file, Findings& warnings) {
  const std::string book_file = session.values.text("book");
  const LoadedBook loaded = load_book(book_file);
  for (const std::string& sentence : loaded.warnings) warn(session, sentence);
  std::optional<int> number;
  if (session.values.given("session")) number = static_cast<int>(session.values.integer("session"));
  SessionPupil out =
      pupil_of(loaded.book, book_file, session_of(loaded.book, number), file, session.catalogue, warnings);
  for (const std::string& sentence : out.notices) warn(session, sentence);
  return out;
}

}  // namespace

int give_advice(const Session& session, const Pupil& as_given, std::string_view text, const SessionPupil* taken) {
  const PageFile page(session);
  Pupil pupil = as_given;
  AdviseOptions options;
  const std::optional<NamedAcademy> academy = academy_given(session);
  if (academy) take_academy(*academy, pupil, options.widths);
  const Setting setting = setting_for(pupil, session.catalogue);
  options.draws = static_cast<int>(session.values.integer("draws"));
  options.seed = session.values.seed("seed");
  options.threads = threads_given(session);
  const AeroModel second = session.catalogue.aero(kSecondAir);
  options.second_air = &second;
  Advice advice = advise(pupil, setting, options);
  if (academy) advice.reached = reached_share_of(academy->academy);
  std::optional<Ladder> ladder;
  if (session.values.given("ladder"))
    ladder = lesson_ladder(pupil, setting, advice, session.values.quantity("step"), options);
  const BesideAdvice beside{.ladder = ladder ? &*ladder : nullptr, .taken = taken};
  if (session.json) {
    session.out << advise_json(advice, pupil, setting, session.units, beside);
  } else if (ladder) {
    session.out << ladder_screen(*ladder, advice, pupil, setting, session.units);
  } else if (session.values.given("explain")) {
    session.out << explanation_text(advice, session.units);
  } else {
    session.out << advise_screen(advice, pupil, setting, session.units);
  }
  if (page.wanted()) page.write(advice_page(advice, pupil, setting, session.catalogue, session.units, text, beside));
  return advice.feasible ? kDone : kNo;
}

int cmd_advise(const Session& session) {
  Findings warnings;
  const auto warn_all = [&] {
    for (const Finding& f : warnings) warn(session, words_of(f));
  };
  const std::optional<PupilText> file = file_given(session);
  if (session.values.given("book")) {
    const SessionPupil taken = pupil_of_book(session, file, warnings);
    warn_all();
    return give_advice(session, taken.pupil, taken.text, &taken);
  }
  const std::optional<Pupil> pupil = read_pupil(file->text, file->folder, session.catalogue, warnings);
  if (!pupil) throw FileError(file->file, warnings);
  warn_all();
  return give_advice(session, *pupil, file->text);
}

}  // namespace loftwright::cli
