// A shot list as a table: where its heads are, which column holds what in which unit, and how it writes numbers.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "loftwright/shots/shot_list.hpp"
#include "shots/cells.hpp"
#include "shots/csv.hpp"

namespace loftwright {

struct Table {
  char delimiter = ',';
  CsvRecord heads;
  std::vector<CsvRecord> rows;  // without heads and units
  FoundColumns columns;         // units known
  Decimal decimal = Decimal::point;
};

// Throws InputError as read_shots does. What was skipped or assumed is noted.
Table read_table(std::string_view text, const ColumnMap& map, const ReadOptions& options, std::vector<Note>& notes);

// "" beyond the end of a short row.
const std::string& cell_at(const CsvRecord& row, std::size_t index);

// Empty, or one of these folded words.
bool is_blank_or(const std::string& cell, const std::vector<std::string>& words);

}  // namespace loftwright
