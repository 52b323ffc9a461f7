#include <fmt/format.h>

#include <cerrno>
#include <fstream>
#include <system_error>

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
  } else if (is("loftwright-turf/1")) {
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

std::string read_text(const fs::path& file, std::size_t limit) {
  std::error_code status;
  if (fs::is_directory(file, status))
    throw InputError(fmt::format("{} is a folder; a file is expected", file.string()));
  if (!fs::exists(file, status)) throw InputError(fmt::format("{}: there is no such file", file.string()));
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    throw InputError(fmt::format("{} cannot be opened: {}", file.string(), std::generic_category().message(errno)));
  }
  // Read one byte beyond the limit rather than ask for the size: a pipe has none.
  std::string text;
  constexpr std::size_t kChunk = 64u << 10;
  while (in && text.size() <= limit) {
    const std::size_t old = text.size(), more = std::min(kChunk, limit + 1 - old);
    text.resize(old + more);
    in.read(text.data() + old, static_cast<std::streamsize>(more));
    text.resize(old + static_cast<std::size_t>(in.gcount()));
  }
  if (in.bad()) throw InputError(fmt::format("{} cannot be read to its end", file.string()));
  if (text.empty()) throw InputError(fmt::format("{} is empty", file.string()));
  if (text.size() > limit) {
    throw InputError(fmt::format("{} is too large; allowed: at most {} bytes", file.string(), limit));
  }
  return text;
}

Findings check_file(const fs::path& file, const Catalogue& catalogue) {
  Findings findings;
  const std::string text = read_text(file);
  if (const auto document = parse_json(text, findings)) {
    check_document(*document, file.parent_path(), catalogue, findings);
  }
  return findings;
}

}  // namespace loftwright
