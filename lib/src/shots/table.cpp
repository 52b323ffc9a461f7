#include "shots/table.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace loftwright {

namespace {

constexpr std::size_t kMostRows = 20000;  // keeps memory in the tens of megabytes
constexpr std::size_t kHeadsWithin = 20;  // rows: what a device may print above its table

// Which delimiter, and which row holds the heads: whatever gives the most recognised heads.
Table find_table(std::string_view text, const ColumnMap& map, const ReadOptions& options) {
  Table best;
  std::size_t most = 0, readable = 0;
  std::string first_row, problem;
  for (const char delimiter : {',', ';', '\t'}) {
    CsvReader reader(text, delimiter);
    try {
      for (std::size_t i = 0; i < kHeadsWithin; ++i) {
        const auto record = reader.next();
        if (!record) break;
        if (readable++ == 0) first_row = fmt::format("{}", fmt::join(record->cells, ", "));
        const std::size_t heads = count_heads(record->cells, map, options.overrides);
        if (heads > most) {
          most = heads;
          best.delimiter = delimiter;
          best.heads = *record;
        }
      }
    } catch (const InputError& error) {
      if (problem.empty()) problem = error.what();  // this delimiter may simply be the wrong one
    }
  }
  if (most > 0) return best;
  if (readable == 0) throw InputError(problem.empty() ? "the shot list holds nothing but comments" : problem);
  throw InputError(
      fmt::format("no column is recognised in the first {} rows (the first reads: {:.200}); name columns with "
                  "--map, as in --map club_speed_mph=\"Head\"",
                  kHeadsWithin, first_row));
}

// The rows below the heads. Throws beyond kMostRows.
void read_rows(std::string_view text, Table& table, std::vector<Note>& notes) {
  CsvReader reader(text, table.delimiter);
  std::size_t above = 0;
  while (auto record = reader.next()) {
    if (record->line < table.heads.line) ++above;
    if (record->line <= table.heads.line) continue;
    if (table.rows.size() == kMostRows) {
      throw InputError(fmt::format("line {}: more than {} rows", record->line, kMostRows));
    }
    table.rows.push_back(std::move(*record));
  }
  if (above > 0) {
    notes.push_back({0, fmt::format("rows skipped above the heads in line {}: {}", table.heads.line, above)});
  }
  if (reader.comments() > 0) notes.push_back({0, fmt::format("comment lines skipped: {}", reader.comments())});
}

std::string without_brackets(std::string cell) {
  if (cell.size() >= 2 &&
      ((cell.front() == '(' && cell.back() == ')') || (cell.front() == '[' && cell.back() == ']'))) {
    cell = cell.substr(1, cell.size() - 2);
  }
  return cell;
}

const Unit* unit_in(const CsvRecord& row, const FoundColumn& column) {
  const Unit* unit = find_unit(plain(without_brackets(cell_at(row, column.index))));
  return unit && unit->dimension == info(column.reading).dimension ? unit : nullptr;
}

// A second row of heads: units of the right kind under the readings, or nothing.
bool is_unit_row(const CsvRecord& row, const std::vector<FoundColumn>& columns, const ColumnMap& map) {
  bool any = false;
  for (const FoundColumn& column : columns) {
    const bool unit = unit_in(row, column) != nullptr;
    if (!unit && !is_blank_or(cell_at(row, column.index), map.missing)) return false;
    any = any || unit;
  }
  return any;
}

void take_units(const CsvRecord& row, std::vector<FoundColumn>& columns, const ReadOptions& options) {
  for (FoundColumn& column : columns) {
    const Unit* unit = unit_in(row, column);
    const bool users_own = std::any_of(options.overrides.begin(), options.overrides.end(),
                                       [&](const ColumnOverride& o) { return o.reading == column.reading && o.unit; });
    if (!unit || users_own) continue;
    if (column.unit && column.unit != unit) {
      throw InputError(fmt::format("line {}: column '{}' is said to be in {}", row.line, column.head, unit->symbol));
    }
    column.unit = unit;
  }
}

Decimal find_decimal(const Table& table, const std::vector<FoundColumn>& columns, const ReadOptions& options) {
  if (options.decimal) {
    if (*options.decimal != '.' && *options.decimal != ',') throw InputError("the decimal sign is '.' or ','");
    return *options.decimal == '.' ? Decimal::point : Decimal::comma;
  }
  std::size_t point = 0, comma = 0, either_comma = 0;  // line of the first of each, 0: none
  for (const CsvRecord& row : table.rows) {
    for (const FoundColumn& column : columns) {
      const DecimalSign sign = decimal_sign(cell_at(row, column.index));
      const auto first = [&](std::size_t& line) { line = line ? line : row.line; };
      if (sign == DecimalSign::point) first(point);
      if (sign == DecimalSign::comma) first(comma);
      if (sign == DecimalSign::either_comma) first(either_comma);
    }
  }
  if (point && comma) {
    throw InputError(fmt::format(
        "line {} has a decimal point, line {} a decimal comma; say which is meant with --decimal", point, comma));
  }
  // In a list separated by commas a comma inside a quoted cell groups thousands; elsewhere nobody can tell.
  if (!point && !comma && either_comma && table.delimiter != ',') {
    throw InputError(
        fmt::format("line {}: the comma may group thousands or be a decimal comma, and no other cell tells; say "
                    "which with --decimal",
                    either_comma));
  }
  return comma ? Decimal::comma : Decimal::point;
}

// Units that neither heads nor unit row gave: from the first cell that names one, or as the words say.
void complete_units(const Table& table, const ColumnMap& map, Decimal decimal, std::vector<FoundColumn>& columns,
                    std::vector<Note>& notes) {
  std::vector<std::string> without;
  for (FoundColumn& column : columns) {
    const ReadingInfo& q = info(column.reading);
    const ReadingWords& words = map.readings[index_of(column.reading)];
    for (auto row = table.rows.begin(); !column.unit && row != table.rows.end(); ++row) {
      column.unit = read_cell(cell_at(*row, column.index), words, q.dimension, decimal).unit;
    }
    if (column.unit || column.reading == Reading::smash) continue;
    column.unit = words.unit_if_missing;
    if (column.unit) {
      notes.push_back({0, fmt::format("column '{}' names no unit; taken as {}", column.head, column.unit->symbol)});
    } else {
      without.push_back(fmt::format("column '{}' names no unit of {}; say it with --map {}_{}=\"{}\"", column.head,
                                    name_of(q.dimension), q.key, find_unit(q.unit)->suffix, column.head));
    }
  }
  if (!without.empty()) throw InputError(fmt::format("{}", fmt::join(without, "\n")));
}

}  // namespace

const std::string& cell_at(const CsvRecord& row, std::size_t index) {
  static const std::string kEmpty;
  return index < row.cells.size() ? row.cells[index] : kEmpty;
}

bool is_blank_or(const std::string& cell, const std::vector<std::string>& words) {
  const std::string folded = fold(cell);
  return folded.empty() || std::find(words.begin(), words.end(), folded) != words.end();
}

Table read_table(std::string_view text, const ColumnMap& map, const ReadOptions& options, std::vector<Note>& notes) {
  Table table = find_table(text, map, options);
  read_rows(text, table, notes);
  table.columns = find_columns(table.heads.cells, map, options.overrides);
  std::vector<FoundColumn>& columns = table.columns.readings;
  if (!table.rows.empty() && is_unit_row(table.rows.front(), columns, map)) {
    take_units(table.rows.front(), columns, options);
    table.rows.erase(table.rows.begin());
  }
  table.decimal = find_decimal(table, columns, options);
  complete_units(table, map, table.decimal, columns, notes);
  return table;
}

}  // namespace loftwright
