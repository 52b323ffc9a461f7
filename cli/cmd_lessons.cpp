#include <fmt/format.h>

#include <filesystem>
#include <ostream>

#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/files/academy_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "loftwright/report/words.hpp"
#include "page_file.hpp"
#include "report/lessons_words.hpp"

namespace loftwright::cli {

namespace {

std::string lessons_text(const Lessons& lessons, UnitSystem units) {
  std::string out = wrapped(printable(lessons_sentence(lessons, units)));
  const std::string calibration = calibration_sentence(lessons.academy, units);
  if (!calibration.empty()) out += wrapped(calibration);
  out += "\n" + laid_out(academy_table(lessons.academy, units), "", "  ");
  for (const std::string& note : lessons_notes(lessons)) out += wrapped(note, "  - ");
  for (const TextTable& one : {pupils_table(lessons), calibration_table(lessons.academy, units)}) {
    if (!one.rows.empty()) out += "\n" + laid_out(one, "", "  ");
  }
  return out + "\n" + wrapped(cautions(units).front());
}

// With a slash at its end, or "..", a path's last part is no name.
std::string name_of_folder(const std::string& folder) {
  const std::filesystem::path path(folder);
  const std::string name = (path.has_filename() ? path : path.parent_path()).filename().string();
  return name.empty() ? folder : name;
}

}  // namespace

int cmd_lessons(const Session& session) {
  const Values& values = session.values;
  const std::string& folder = values.positional();
  const PageFile page(session);
  const std::string into = values.given("into") ? values.text("into") : "";
  if (values.given("into")) check_into(session, into);
  const AcademyFolder found = load_folder_of_books(folder, session.catalogue);
  for (const std::string& sentence : left_out_sentences(found)) warn(session, sentence);
  if (found.books.empty() && found.failed.empty())
    throw InputError(fmt::format("{}: there is no book in this folder; 'loftwright book add' begins one", folder));
  LessonsOptions options;
  options.threads = threads_given(session);
  const Lessons answer = lessons(found.books, reference_drives(session.catalogue), options);
  session.out << (session.json ? lessons_json(answer, found, session.units) : lessons_text(answer, session.units));
  if (values.given("into")) {
    write_text(
        into, academy_text(answer.academy),
        found.books.empty() ? std::filesystem::path(into) : std::filesystem::path(folder) / found.books.front().file);
    session.kept = fmt::format("{} is written", into);
    if (!session.json)
      session.out << "\n"
                  << wrapped(printable(fmt::format("{} is written: 'advise --academy {}' takes it.", into, into)));
  }
  if (page.wanted()) page.write(lessons_page(answer, found, name_of_folder(folder), session.units));
  for (const AcademyFolder::Failed& failed : found.failed)  // said even when warnings are not wanted
    session.err << printable(FileError((std::filesystem::path(folder) / failed.file).string(), failed.findings).what())
                << "\n";
  return found.failed.empty() ? kDone : kInput;
}

}  // namespace loftwright::cli
