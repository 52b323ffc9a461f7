#include "loftwright/check/check_file.hpp"

#include <fmt/format.h>

#include "book/book_json.hpp"
#include "io/columns_reader.hpp"
#include "io/model_file.hpp"
#include "io/pupil_reader.hpp"
#include "loftwright/io/pupil_file.hpp"

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

void check_document(const Json& document, const fs::path& folder, const Catalogue& catalogue, Findings& findings) {
  std::vector<std::string> formats{std::string(kPupilFormat)};
  for (const KindOfModel& kind : kinds_of_model()) formats.emplace_back(kind.format);
  formats.emplace_back(kColumnsFormat);
  formats.emplace_back(kBookFormat);
  std::string format;
  if (document.is_object() && document.contains("format") && document["format"].is_string()) {
    format = document["format"].get<std::string>();
  }
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
  } else {
    findings.push_back(
        {Severity::error, format.empty() ? "" : "/format",
         fmt::format("{}; known formats: {}",
                     format.empty() ? "\"format\" is missing or no text" : in_quotes(format) + " is no format of ours",
                     fmt::join(formats, ", "))});
  }
}

}  // namespace

Findings check_text(std::string_view text, const fs::path& folder, const Catalogue& catalogue) {
  Findings findings;
  if (const auto document = parse_json(text, findings)) check_document(*document, folder, catalogue, findings);
  return findings;
}

Findings check_file(const fs::path& file, const Catalogue& catalogue) {
  return check_text(read_text(file), file.parent_path(), catalogue);
}

}  // namespace loftwright
