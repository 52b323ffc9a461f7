#include "loftwright/files/check_file.hpp"

#include <fmt/format.h>

#include "files/academy_json.hpp"
#include "files/book_json.hpp"
#include "files/columns_reader.hpp"
#include "files/model_file.hpp"
#include "files/pupil_reader.hpp"
#include "loftwright/files/columns_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/shots/shot_list.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

// The ball's own file is right; is what it names there?
void check_ball(const Json& document, const fs::path& folder, const Catalogue& catalogue, Findings& findings) {
  const auto ball = read_ball(document, findings);
  if (!ball) return;
  try {
    catalogue.aero(resolved(ball->model.aero, folder));
  } catch (const InputError& e) {
    findings.push_back({Severity::error, "/aero", on_one_line(e)});
  }
}

// "": it names none.
std::string format_of(const Json& document) {
  const bool named = document.is_object() && document.contains("format") && document["format"].is_string();
  return named ? document["format"].get<std::string>() : "";
}

void check_document(const Json& document, const fs::path& folder, const Catalogue& catalogue, Findings& findings) {
  std::vector<std::string> formats{std::string(kPupilFormat)};
  for (const KindOfModel& kind : kinds_of_model()) formats.emplace_back(kind.format);
  formats.emplace_back(kColumnsFormat);
  formats.emplace_back(kBookFormat);
  formats.emplace_back(kAcademyFormat);
  const std::string format = format_of(document);
  // A version this program does not know is still told by the reader of its kind.
  const std::string_view kind = std::string_view(format).substr(0, format.find('/'));
  const auto is = [&](std::string_view known) { return kind == known.substr(0, known.find('/')); };
  if (is(kPupilFormat)) {
    pupil_from(document, folder, catalogue, findings);
  } else if (is("loftwright-ball/1")) {
    check_ball(document, folder, catalogue, findings);
  } else if (is("loftwright-head/1")) {
    read_head(document, findings);
  } else if (is("loftwright-turf/2")) {
    read_turf(document, findings);
  } else if (is("loftwright-aero/1")) {
    read_aero(document, findings);
  } else if (is(kColumnsFormat)) {
    columns_from(document, findings);
  } else if (is(kBookFormat)) {
    book_from(document, findings);
  } else if (is(kAcademyFormat)) {
    academy_from(document, findings);
  } else {
    findings.push_back({Severity::error, format.empty() ? "" : "/format",
                        fmt::format("{}; known formats: {}",
                                    format.empty() ? "\"format\" is missing or no text"
                                                   : in_quotes(format) + " is the format of no file that is read here",
                                    fmt::join(formats, ", "))});
  }
}

// Is it one of our files in JSON? By its name, or by how it begins.
bool is_json(std::string_view text, const fs::path& file) {
  const std::size_t start = text.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  return file.extension() == ".json" || start == std::string_view::npos || text[start] == '{' || text[start] == '[';
}

Findings check_list(std::string_view text) {
  Findings findings;
  const auto at = [](std::size_t line) { return line == 0 ? std::string() : fmt::format("line {}", line); };
  try {
    const ShotList list = read_shots(text, built_in_columns());
    for (const SetAside& row : list.set_aside)
      findings.push_back({Severity::warning, at(row.line), "set aside: " + row.reason});
    for (const Note& note : list.notes) findings.push_back({Severity::warning, at(note.line), note.message});
    if (list.shots.empty()) findings.push_back({Severity::error, "", "no row is a shot"});
  } catch (const InputError& error) {
    findings.push_back({Severity::error, "", error.what()});
  }
  return findings;
}

}  // namespace

Findings check_text(std::string_view text, const fs::path& folder, const Catalogue& catalogue) {
  Findings findings;
  if (const auto document = parse_json(text, findings)) check_document(*document, folder, catalogue, findings);
  return findings;
}

std::string format_named(std::string_view text) {
  Findings unheard;
  const auto document = parse_json(text, unheard);
  return document ? format_of(*document) : "";
}

Findings check_file(const fs::path& file, const Catalogue& catalogue) {
  const std::string text = read_text(file);
  return is_json(text, file) ? check_text(text, file.parent_path(), catalogue) : check_list(text);
}

}  // namespace loftwright
