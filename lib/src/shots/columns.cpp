#include "loftwright/shots/columns.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "shots/cells.hpp"

namespace loftwright {

namespace {

// But for spaces. Asked of every cell and every word: no copies.
bool same_letters(std::string_view a, std::string_view b) {
  std::size_t i = 0, j = 0;
  while (true) {
    while (i < a.size() && a[i] == ' ') ++i;
    while (j < b.size() && b[j] == ' ') ++j;
    if (i == a.size() || j == b.size()) return i == a.size() && j == b.size();
    if (a[i++] != b[j++]) return false;
  }
}

bool is_any(std::string_view name, const std::vector<std::string>& words) {
  const auto other_letter = [&](const std::string& word) {  // nearly always
    return !word.empty() && !name.empty() && word.front() != name.front() && word.front() != ' ' && name.front() != ' ';
  };
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string& word) { return !other_letter(word) && same_letters(word, name); });
}

// A head cut into name and unit.
struct ColumnHead {
  std::string name;  // folded
  std::string unit;  // as written; "": none
};

// "Club Speed (mph)", "Attack [deg]".
std::optional<ColumnHead> bracketed(const std::string& head) {
  if (head.empty() || (head.back() != ')' && head.back() != ']')) return std::nullopt;
  const auto open = head.rfind(head.back() == ')' ? '(' : '[');
  if (open == std::string::npos) return std::nullopt;
  return ColumnHead{fold(head.substr(0, open)), head.substr(open + 1, head.size() - open - 2)};
}

// "club_speed_mph", "Side, yd".
std::optional<ColumnHead> last_word(const std::string& folded) {
  const auto space = folded.rfind(' ');
  if (space == std::string::npos) return std::nullopt;
  return ColumnHead{folded.substr(0, space), folded.substr(space + 1)};
}

// The reading a head stands for, with its unit when the head says so.
std::optional<FoundColumn> match(std::size_t index, const std::string& head, const ColumnMap& map) {
  constexpr std::size_t kLongest = 100;  // bytes: what is longer is text, and hostile text need not cost time
  if (head.size() > kLongest) return std::nullopt;
  const std::string folded = fold(head);
  if (folded.empty()) return std::nullopt;
  for (const auto& cut : {std::optional(ColumnHead{folded, ""}), bracketed(head), last_word(folded)}) {
    if (!cut) continue;
    for (const ReadingInfo& q : readings()) {
      const ReadingWords& words = map.readings[q.reading];
      const bool reversed = is_any(cut->name, words.reversed), second = !reversed && is_any(cut->name, words.second);
      if (!reversed && !second && !is_any(cut->name, words.heads)) continue;
      const Unit* unit = cut->unit.empty() ? nullptr : find_unit(cut->unit);
      if (!cut->unit.empty() && (!unit || unit->dimension != q.dimension)) continue;
      return FoundColumn{index, head, q.reading, unit, reversed, second};
    }
  }
  return std::nullopt;
}

bool same_head(const std::string& a, const std::string& b) { return same_letters(fold(a), fold(b)); }

std::size_t find_head(const std::vector<std::string>& heads, const std::string& wanted) {
  auto at = std::find(heads.begin(), heads.end(), wanted);
  if (at == heads.end()) {
    at = std::find_if(heads.begin(), heads.end(), [&](const std::string& head) { return same_head(head, wanted); });
  }
  if (at != heads.end()) return static_cast<std::size_t>(at - heads.begin());
  throw InputError(fmt::format("no column is headed '{:.60}'; there are: {:.500}", wanted,
                               fmt::format("{}", fmt::join(heads, ", "))));
}

std::string reading_keys() {
  std::vector<std::string_view> keys;
  for (const ReadingInfo& q : readings()) keys.push_back(q.key);
  return fmt::format("{}", fmt::join(keys, ", "));
}

}  // namespace

std::string fold(std::string_view text) {
  std::string out;
  for (char c : plain(text)) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == '_' || c == '-' || c == '.' || c == ',' || c == '\t' || c == '\n' || c == '\r') c = ' ';
    if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
  }
  if (out.ends_with(' ')) out.pop_back();
  return out;
}

ColumnOverride column_override(std::string_view key, std::string_view head) {
  ColumnOverride out{.reading = Reading::club_speed, .head = std::string(head)};
  std::string_view name = key;
  if (name.starts_with('-')) {
    out.reversed = true;
    name.remove_prefix(1);
  }
  auto reading = find_reading(name);
  if (!reading) {
    const auto cut = name.rfind('_');
    if (cut != std::string_view::npos) {
      reading = find_reading(name.substr(0, cut));
      out.unit = find_suffix(name.substr(cut + 1));
    }
    if (reading && (!out.unit || out.unit->dimension != info(*reading).dimension)) {
      throw InputError(
          fmt::format("'{}': '{}' is not a unit of {}", key, name.substr(cut + 1), name_of(info(*reading).dimension)));
    }
  }
  if (!reading) throw InputError(fmt::format("'{}' is not a reading of a shot; there are: {}", key, reading_keys()));
  out.reading = *reading;
  return out;
}

std::string map_words(const FoundColumn& column) {
  // In double quotes a shell still works out these; within single ones nothing but the quote itself ends them.
  const bool plain_inside = column.head.find_first_of("\"$`\\!") == std::string::npos;
  std::string head;
  for (const char c : column.head) head += c == '\'' && !plain_inside ? std::string("'\\''") : std::string(1, c);
  return fmt::format("{}{}{}{}={}{}{}", column.reversed ? "-" : "", info(column.reading).key, column.unit ? "_" : "",
                     column.unit ? column.unit->suffix : "", plain_inside ? "\"" : "'", head,
                     plain_inside ? "\"" : "'");
}

ColumnMap learnt(ColumnMap map, const std::vector<ColumnOverride>& overrides) {
  for (const ColumnOverride& o : overrides) {
    const auto in_brackets = bracketed(o.head);
    const Unit* headed = in_brackets ? find_unit(in_brackets->unit) : nullptr;
    const bool keeps_unit = headed && headed->dimension == info(o.reading).dimension && (!o.unit || o.unit == headed);
    const std::string name = keeps_unit ? in_brackets->name : fold(o.head);
    for (ReadingWords& words : map.readings) {
      for (auto* list : {&words.heads, &words.second, &words.reversed}) {
        std::erase_if(*list, [&](const std::string& word) { return same_letters(word, name); });
      }
    }
    ReadingWords& words = map.readings[o.reading];
    (o.reversed ? words.reversed : words.heads).push_back(name);
    if (o.unit && !keeps_unit) words.unit_if_missing = o.unit;
  }
  return map;
}

std::size_t count_heads(const std::vector<std::string>& cells, const ColumnMap& map,
                        const std::vector<ColumnOverride>& overrides) {
  return static_cast<std::size_t>(std::count_if(cells.begin(), cells.end(), [&](const std::string& cell) {
    return match(0, cell, map) || std::any_of(overrides.begin(), overrides.end(),
                                              [&](const ColumnOverride& o) { return same_head(o.head, cell); });
  }));
}

FoundColumns find_columns(const std::vector<std::string>& heads, const ColumnMap& map,
                          const std::vector<ColumnOverride>& overrides) {
  std::vector<std::optional<FoundColumn>> at(heads.size());
  ByReading<bool> overridden{};
  for (const ColumnOverride& o : overrides) {
    const std::size_t index = find_head(heads, o.head);
    if (overridden[o.reading]) throw InputError(fmt::format("{} is mapped twice", info(o.reading).key));
    if (at[index]) {
      throw InputError(fmt::format("column '{}' is mapped to both {} and {}", heads[index],
                                   info(at[index]->reading).key, info(o.reading).key));
    }
    overridden[o.reading] = true;
    const auto as_headed = match(index, heads[index], map);
    const auto in_brackets = bracketed(heads[index]);
    const Unit* unit = o.unit;
    if (!unit && in_brackets) unit = find_unit(in_brackets->unit);
    if (!unit && as_headed) unit = as_headed->unit;
    if (unit && unit->dimension != info(o.reading).dimension) unit = nullptr;
    at[index] = FoundColumn{index, heads[index], o.reading, unit, o.reversed};
  }

  FoundColumns found;
  ByReading<const FoundColumn*> first{};
  for (std::size_t i = 0; i < heads.size(); ++i) {
    if (!at[i]) {
      at[i] = match(i, heads[i], map);
      if (at[i] && overridden[at[i]->reading]) at[i].reset();
    }
    const std::string name = fold(heads[i]);
    if (at[i]) {
      const FoundColumn*& held = first[at[i]->reading];
      const auto give_up = [&](std::optional<FoundColumn>& column) {
        found.unused.push_back(column->head);
        column.reset();
      };
      if (held && at[i]->second) {
        give_up(at[i]);
        continue;
      }
      if (held && held->second) {
        give_up(at[held->index]);
        held = nullptr;
      }
      if (held) {
        throw InputError(fmt::format("columns '{}' and '{}' both hold {}; choose one with --map {}", held->head,
                                     heads[i], info(at[i]->reading).title, map_words({0, held->head, held->reading})));
      }
      held = &*at[i];
    } else if (!found.label && is_any(name, map.label)) {
      found.label = i;
    } else if (!found.date && is_any(name, map.date)) {
      found.date = i;
    } else if (!found.club && is_any(name, map.club)) {
      found.club = i;
    } else if (!heads[i].empty()) {
      found.unused.push_back(heads[i]);
    }
  }
  for (auto& column : at) {
    if (column) found.readings.push_back(std::move(*column));
  }
  return found;
}

}  // namespace loftwright
