/// @file
/// Which column of a shot list holds what. The words are data (data/shots/columns.json, read by files/columns_file); a
/// user's own pairs go before them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/shots/reading.hpp"

namespace loftwright {

/// How one reading is written. All words are folded (see `fold`).
struct ReadingWords {
  std::vector<std::string> heads;         ///< "attack", "attack angle"
  std::vector<std::string> second;        ///< heads that stand for it where there is none of the others: "backspin"
  std::vector<std::string> reversed;      ///< heads of columns whose signs are the other way round
  const Unit* unit_if_missing = nullptr;  ///< taken when head, unit row and cells name none; null: that is an error
  std::vector<std::string> plus;          ///< beside a number: "3.4 R"
  std::vector<std::string> minus;         ///< likewise: "down 2"
};

/// The words of all columns.
struct ColumnMap {
  ByReading<ReadingWords> readings;  ///< of each
  std::vector<std::string> label;    ///< heads of the columns that name a shot, ...
  std::vector<std::string> date;     ///< ... its day ...
  std::vector<std::string> club;     ///< ... and its club
  std::vector<std::string> missing;  ///< cells that stand for no reading
  std::vector<std::string> summary;  ///< cells that mark a line as an average or the like, not a shot
};

/// Letters to lower case; "_", "-", "." and "," to spaces; no space doubled or at an end. "Club_Speed" -> "club speed".
std::string fold(std::string_view text);

/// The user's own word on one column.
struct ColumnOverride {
  Reading reading;             ///< what the column holds
  const Unit* unit = nullptr;  ///< null: as the column says
  bool reversed = false;       ///< the column's signs are the other way round
  std::string head;            ///< as in the file; letter case and spaces do not matter
};

/// "attack", "attack_deg", "-low_point_in" and the head it stands for. Throws InputError for an unknown reading or
/// unit.
ColumnOverride column_override(std::string_view key, std::string_view head);

/// A column that was recognised.
struct FoundColumn {
  std::size_t index;           ///< from 0
  std::string head;            ///< as in the file
  Reading reading;             ///< what it holds
  const Unit* unit = nullptr;  ///< null until it is known; stays null for smash
  bool reversed = false;       ///< its signs are the other way round
  bool second = false;         ///< taken for want of a better one
};

/// All columns of a list.
struct FoundColumns {
  std::vector<FoundColumn> readings;  ///< by index
  std::optional<std::size_t> label;   ///< index from 0, likewise the next two; none: no such column
  std::optional<std::size_t> date;    ///< index
  std::optional<std::size_t> club;    ///< index
  std::vector<std::string> unused;    ///< heads nothing was made of
};

/// What --map takes for a column, as a shell does: ball_speed_mph="Ball Speed".
std::string map_words(const FoundColumn& column);

/// The words with the user's own pairs among them, so that such columns are found without the pairs: what a unit is
/// said of holds for its reading whenever a column names none.
ColumnMap learnt(ColumnMap map, const std::vector<ColumnOverride>& overrides);

/// How many of these cells are heads of readings, by the words or by an override: to find the row of heads.
std::size_t count_heads(const std::vector<std::string>& cells, const ColumnMap& map,
                        const std::vector<ColumnOverride>& overrides);

/// Matches heads: a reading's words, with the unit in brackets ("Club Speed (mph)"), as the last word
/// ("club_speed_mph") or not at all; spaces do not matter. Throws InputError when an override's head is not there, or
/// when two columns hold the same reading.
FoundColumns find_columns(const std::vector<std::string>& heads, const ColumnMap& map,
                          const std::vector<ColumnOverride>& overrides);

}  // namespace loftwright
