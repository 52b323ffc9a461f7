#include "loftwright/files/columns_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "files/columns_reader.hpp"
#include "files/json_reader.hpp"
#include "files/json_values.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/files/pupil_file.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kMostWords = 100, kLongestWord = 100;  // bytes: longer heads are never matched

std::vector<std::string> read_words(ObjectReader& reader, std::string_view key, Need need) {
  std::vector<std::string> out;
  const Json* list = reader.member(key, need);
  if (!list) return out;
  const std::string place = below(reader.place(), key);
  if (!list->is_array() || list->empty() || list->size() > kMostWords) {
    reader.error(place, fmt::format("a list of 1 to {} words is expected", kMostWords));
    return out;
  }
  for (std::size_t i = 0; i < list->size(); ++i) {
    const Json& word = (*list)[i];
    std::string folded = word.is_string() ? fold(word.get_ref<const std::string&>()) : "";
    if (folded.empty() || folded.size() > kLongestWord) {
      reader.error(below(place, i),
                   fmt::format("a word of 1 to {} letters in double quotes is expected", kLongestWord));
    } else {
      out.push_back(std::move(folded));
    }
  }
  return out;
}

ReadingWords read_reading(ObjectReader& reader, const ReadingInfo& about) {
  const bool others = reader.member("second", Need::optional) || reader.member("reversed", Need::optional);
  ReadingWords words{.heads = read_words(reader, "heads", others ? Need::optional : Need::required),
                     .second = read_words(reader, "second", Need::optional),
                     .reversed = read_words(reader, "reversed", Need::optional),
                     .plus = read_words(reader, "plus", Need::optional),
                     .minus = read_words(reader, "minus", Need::optional)};
  if (const auto unit = reader.text("unit", Need::optional)) {
    words.unit_if_missing = find_unit(*unit);
    if (!words.unit_if_missing || words.unit_if_missing->dimension != about.dimension) {
      reader.error(below(reader.place(), "unit"),
                   fmt::format("{} is no unit of {}", in_quotes(*unit), name_of(about.dimension)));
    }
  }
  for (const std::string& word : words.plus) {
    if (std::find(words.minus.begin(), words.minus.end(), word) != words.minus.end()) {
      reader.error(below(reader.place(), "minus"), fmt::format("{} stands for both signs", in_quotes(word)));
    }
  }
  return words;
}

// One head must not stand for two readings: heads are compared as find_columns does, without spaces.
void check_heads(const ColumnMap& map, Findings& findings) {
  std::map<std::string, std::string> holder;  // head -> where it stands
  for (const ReadingInfo& r : readings()) {
    const ReadingWords& words = map.readings[r.reading];
    for (const auto& [key, list] :
         {std::pair{"heads", &words.heads}, {"second", &words.second}, {"reversed", &words.reversed}}) {
      for (std::string head : *list) {
        std::erase(head, ' ');
        const std::string place = fmt::format("{}/{}", r.key, key);
        const auto [at, is_new] = holder.emplace(head, place);
        if (is_new || at->second == place) continue;
        findings.push_back(
            {Severity::error, fmt::format("/readings/{}", place),
             fmt::format("{} stands for {} already", in_quotes(head), at->second.substr(0, at->second.find('/')))});
      }
    }
  }
}

}  // namespace

std::optional<ColumnMap> columns_from(const Json& document, Findings& findings) {
  if (!format_is(document, kColumnsFormat, findings)) return std::nullopt;
  ColumnMap map;
  Findings mine;
  read_object(document, "", mine, [&](ObjectReader& reader) {
    reader.member("format", Need::required);  // looked at already
    for (const char* key : {"title", "source", "note"}) reader.text(key, Need::optional);
    map.label = read_words(reader, "label", Need::optional);
    map.date = read_words(reader, "date", Need::optional);
    map.club = read_words(reader, "club", Need::optional);
    map.missing = read_words(reader, "missing", Need::optional);
    map.summary = read_words(reader, "summary", Need::optional);
    reader.object("readings", Need::required, [&](ObjectReader& all) {
      for (const ReadingInfo& r : readings()) {
        all.object(r.key, Need::optional, [&](ObjectReader& one) { map.readings[r.reading] = read_reading(one, r); });
      }
    });
  });
  check_heads(map, mine);
  findings.insert(findings.end(), mine.begin(), mine.end());
  if (has_errors(mine)) return std::nullopt;
  return map;
}

std::optional<ColumnMap> read_columns(std::string_view text, Findings& findings) {
  return read_document(text, findings, columns_from);
}

std::string columns_text(const ColumnMap& map) {
  OrderedJson document{{"format", kColumnsFormat}, {"title", "Words for the columns of shot lists"}};
  const auto put = [](OrderedJson& into, const char* key, const std::vector<std::string>& words) {
    if (!words.empty()) into[key] = words;
  };
  put(document, "label", map.label);
  put(document, "date", map.date);
  put(document, "club", map.club);
  put(document, "missing", map.missing);
  put(document, "summary", map.summary);
  for (const ReadingInfo& r : readings()) {
    const ReadingWords& words = map.readings[r.reading];
    OrderedJson one;
    put(one, "heads", words.heads);
    put(one, "second", words.second);
    put(one, "reversed", words.reversed);
    if (words.unit_if_missing) one["unit"] = words.unit_if_missing->symbol;
    put(one, "plus", words.plus);
    put(one, "minus", words.minus);
    if (!one.is_null()) document["readings"][r.key] = one;
  }
  std::string text;
  try {
    text = dumped(document, 2) + "\n";
  } catch (const OrderedJson::type_error&) {
    throw InputError("a column's head is not UTF-8 text");
  }
  Findings findings;
  if (!read_columns(text, findings)) throw FileError("what is to be kept of the columns", findings);
  return text;
}

ColumnMap load_columns(const std::filesystem::path& file) {
  Findings findings;
  std::optional<ColumnMap> map = read_columns(read_text(file), findings);
  if (!map) throw FileError(file.string(), findings);
  return std::move(*map);
}

ColumnMap built_in_columns() {
  constexpr std::string_view kName = "shots/columns.json";
  Findings findings;
  std::optional<ColumnMap> map = read_columns(Catalogue::built_in(kName), findings);
  if (!map) throw FileError(std::string(kName), findings);
  return std::move(*map);
}

}  // namespace loftwright
