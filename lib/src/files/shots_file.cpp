#include "loftwright/files/shots_file.hpp"

#include <fmt/format.h>

#include "core/text.hpp"
#include "files/json_text.hpp"
#include "loftwright/files/pupil_file.hpp"

namespace loftwright {

namespace {

// Throws InputError when the text is JSON: it says which of our files it is.
void check_is_list(std::string_view text, const std::string& name) {
  const std::size_t start = text.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  if (start == std::string_view::npos || text[start] != '{') return;
  Findings ignored;
  const std::optional<Json> document = parse_json(text, ignored);
  std::string format;
  if (document && document->is_object() && document->contains("format") && (*document)["format"].is_string()) {
    format = (*document)["format"].get<std::string>();
  }
  static constexpr std::pair<std::string_view, std::string_view> kBeginnings[] = {
      {"loftwright-pupil/", "a pupil's file; 'loftwright advise' reads it"},
      {"loftwright-book/", "a pupil's book; 'loftwright book list' reads it"},
      {"loftwright-columns/", "a file of words for columns; give it with --columns"},
      {"loftwright-", "a model's file or an answer of this program; 'loftwright check' reads models"}};
  for (const auto& [begins, what] : kBeginnings) {
    if (format.starts_with(begins)) throw InputError(fmt::format("{} is no shot list (CSV) but {}", name, what));
  }
  throw InputError(fmt::format("{} is no shot list (CSV) but JSON, and names no format of this program", name));
}

}  // namespace

ShotList shots_from(std::string_view text, const std::string& name, const ColumnMap& words,
                    const ReadOptions& options) {
  check_is_list(text, name);
  ShotList list;
  try {
    list = read_shots(text, words, options);
  } catch (const InputError& error) {
    throw InputError(fmt::format("{}: {}", name, error.what()));
  }
  if (!list.shots.empty()) return list;
  if (list.set_aside.empty()) throw InputError(fmt::format("{}: there are heads but no shots below them", name));
  const SetAside& first = list.set_aside.front();
  throw InputError(fmt::format("{}: no row is a shot; {} set aside, the first of them line {}: {}", name,
                               list.set_aside.size(), first.line, first.reason));
}

ShotList load_shots(const std::filesystem::path& file, const ColumnMap& words, const ReadOptions& options) {
  return shots_from(read_text(file), file.string(), words, options);
}

std::vector<std::string> remarks(const ShotList& list, const std::string& name) {
  std::vector<std::string> out;
  for (const SetAside& row : list.set_aside) {
    out.push_back(fmt::format("{}, line {} set aside: {}", name, row.line, row.reason));
  }
  for (const Note& note : list.notes) {
    out.push_back(fmt::format("{}{}: {}", name, note.line ? fmt::format(", line {}", note.line) : "", note.message));
  }
  return out;
}

std::vector<std::string> remarks(const DeliveryBlock& block) {
  std::vector<std::string> out;
  if (block.inferred) {
    constexpr std::size_t kAll = 3;  // club speed, attack and delivered loft
    std::vector<std::string> missing;
    for (const Reading reading : block.worked_out) missing.emplace_back(info(reading).title);
    out.push_back(fmt::format(
        "{} worked out from {}, for strikes at the centre of the face",
        missing.size() == kAll ? "only ball numbers were measured: the delivery was"
        : missing.empty()
            ? "club speed, attack and delivered loft were not measured together: what lacks was"
            : fmt::format("{} not measured: {}", listed(missing), missing.size() == 1 ? "it was" : "they were"),
        missing.size() == kAll ? "them" : "the ball numbers"));
  }
  std::vector<std::string> absent;
  for (const Reading reading : block.taken_as_zero) absent.emplace_back(info(reading).title);
  if (!absent.empty()) out.push_back(fmt::format("no readings of {}: taken as zero", listed(absent)));
  return out;
}

}  // namespace loftwright
