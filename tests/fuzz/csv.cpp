// A shot list. Lines KEY=HEAD, as after --map, may stand above a line "---".
#include <cmath>
#include <vector>

#include "loftwright/files/columns_file.hpp"
#include "loftwright/files/shots_file.hpp"
#include "report/shot_words.hpp"
#include "shots/csv.hpp"
#include "target.hpp"

using namespace loftwright;
using namespace loftwright::fuzz;

namespace {

std::vector<std::vector<std::string>> cells_of(std::string_view text, char delimiter) {
  std::vector<std::vector<std::string>> out;
  CsvReader reader(text, delimiter);
  while (auto record = reader.next()) out.push_back(std::move(record->cells));
  return out;
}

std::string written(const std::vector<std::vector<std::string>>& records, char delimiter) {
  std::string out;
  for (const auto& record : records) {
    for (std::size_t i = 0; i < record.size(); ++i) {
      if (i > 0) out += delimiter;
      out += '"';
      for (const char c : record[i]) out += c == '"' ? std::string("\"\"") : std::string(1, c);
      out += '"';
    }
    out += '\n';
  }
  return out;
}

void check_cells(std::string_view bytes) {
  const std::string text = csv_text(bytes);
  for (const char delimiter : {',', ';', '\t'}) {
    const auto records = cells_of(text, delimiter);
    must(cells_of(written(records, delimiter), delimiter) == records, "cells written and read again are the same");
  }
}

void check_list(std::string_view text, const ReadOptions& options) {
  static const ColumnMap words = built_in_columns();
  const ShotList list = read_shots(text, words, options);
  for (const Shot& shot : list.shots) {
    for (const ReadingInfo& r : readings()) {
      const auto& value = shot.at(r.reading);
      must(!value || (*value >= r.low && *value <= r.high), "a shot's readings lie in their ranges");
    }
  }
  for (const std::string& sentence : remarks(list, "list.csv")) must(!sentence.empty(), "a remark says something");
  for (const Outliers odd : {Outliers::keep, Outliers::leave_out}) {
    const ShotSummary summary = summarise(list, odd);
    for (const ReadingSummary& s : summary.readings) {
      must(std::isfinite(s.summary.mean) && std::isfinite(s.median) && std::isfinite(s.robust_sd),
           "a summary is finite");
    }
    together_sentences(summary);
    if (const auto block = delivery_block(list, odd)) {
      validate(block->mean);
      must(!pupil_lines(*block, UnitSystem::yards).empty(), "a delivery can be written");
    }
  }
}

}  // namespace

LOFTWRIGHT_FUZZ_TARGET(csv)(const std::uint8_t* data, std::size_t size) {
  std::string_view text = text_of(data, size);
  ReadOptions options;
  try {
    if (text.find("\n---\n") != std::string_view::npos) {
      std::string_view maps = take(text, "\n---\n");
      while (!maps.empty()) {
        std::string_view head = take(maps, "\n");
        const std::string_view key = take(head, "=");
        options.overrides.push_back(column_override(key, head));
      }
    }
    check_cells(text);
    check_list(text, options);
  } catch (const InputError& error) {
    must(*error.what() != '\0', "an error says something");
  }
  return 0;
}
