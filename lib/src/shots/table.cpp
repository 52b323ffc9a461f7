#include "shots/table.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "core/text.hpp"
#include "loftwright/stats/detail/summary.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kMostRows = 20000;  // keeps memory in the tens of megabytes
constexpr std::size_t kHeadsWithin = 20;  // rows: what a device may print above its table

// Why heads between curly quotation marks are not known; "" when there are none.
std::string curly_words(std::string_view heads) {
  const std::string_view mark = curly_quote(heads);
  return mark.empty()
             ? ""
             : fmt::format("; {} is a curly quotation mark, as tablets make them: straight ones (\") are needed", mark);
}

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
                  "--map, as in --map club_speed_mph=\"Head\"{}",
                  kHeadsWithin, first_row, curly_words(first_row)));
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

// What a cell says of the decimals, where its size can tell what its form cannot: 118.250 mph groups no thousands.
DecimalSign sign_in(const std::string& cell, const FoundColumn& column, const ColumnMap& map) {
  const DecimalSign sign = decimal_sign(cell);
  if (sign != DecimalSign::either_point && sign != DecimalSign::either_comma) return sign;
  const bool has_point = sign == DecimalSign::either_point;
  const ReadingInfo& q = info(column.reading);
  const ReadingWords& words = map.readings[column.reading];
  const Cell grouped = read_cell(cell, words, q.dimension, has_point ? Decimal::comma : Decimal::point);
  const Unit* unit = column.unit ? column.unit : grouped.unit ? grouped.unit : words.unit_if_missing;
  if (!grouped.value || (!unit && q.reading != Reading::smash)) return DecimalSign::none;
  const double value = unit ? unit->to_si(*grouped.value) : *grouped.value;
  if (value >= q.low && value <= q.high) return sign;
  return has_point ? DecimalSign::point : DecimalSign::comma;
}

[[noreturn]] void refuse_unclear(const CsvRecord& row, const FoundColumn& column, const ColumnMap& map) {
  const std::string& cell = cell_at(row, column.index);
  const auto as = [&](Decimal decimal) {
    return read_cell(cell, map.readings[column.reading], info(column.reading).dimension, decimal).value.value_or(0.0);
  };
  throw InputError(
      fmt::format("line {}, column '{}': '{:.60}' may be {:.10g} with decimal point or {:.10g} with decimal comma, and "
                  "nothing tells which; write it without "
                  "the sign that groups thousands, or say it with --decimal point or --decimal comma",
                  row.line, column.head, cell, as(Decimal::point), as(Decimal::comma)));
}

Decimal find_decimal(const Table& table, const std::vector<FoundColumn>& columns, const ColumnMap& map,
                     const ReadOptions& options) {
  if (options.decimal) {
    if (*options.decimal != '.' && *options.decimal != ',') throw InputError("the decimal sign is '.' or ','");
    return *options.decimal == '.' ? Decimal::point : Decimal::comma;
  }
  struct Sighting {
    const CsvRecord* row = nullptr;  // of the first
    const FoundColumn* column = nullptr;
  } point, comma, either_point, either_comma;
  for (const CsvRecord& row : table.rows) {
    for (const FoundColumn& column : columns) {
      const auto first = [&](Sighting& found) { found = found.row ? found : Sighting{&row, &column}; };
      switch (sign_in(cell_at(row, column.index), column, map)) {
        case DecimalSign::none: break;
        case DecimalSign::point: first(point); break;
        case DecimalSign::comma: first(comma); break;
        case DecimalSign::either_point: first(either_point); break;
        case DecimalSign::either_comma: first(either_comma); break;
      }
    }
  }
  if (point.row && comma.row) {
    throw InputError(
        fmt::format("line {} has a decimal point, line {} a decimal comma; say which is meant with --decimal",
                    point.row->line, comma.row->line));
  }
  // The sign that writes the decimals elsewhere does not group thousands, but nobody writes 2.65 rpm either. In a list
  // separated by commas a comma inside a quoted cell groups thousands.
  if (either_point.row && !comma.row) refuse_unclear(*either_point.row, *either_point.column, map);
  const bool quoted = table.delimiter == ',' && !comma.row;
  if (either_comma.row && !point.row && !quoted) refuse_unclear(*either_comma.row, *either_comma.column, map);
  return comma.row ? Decimal::comma : Decimal::point;
}

// The middle of a column's numbers as they stand there, whatever their unit.
std::optional<double> middle_of(const Table& table, const FoundColumn& column, const ReadingWords& words,
                                Decimal decimal) {
  std::vector<double> values;
  for (const CsvRecord& row : table.rows) {
    if (const auto value = read_cell(cell_at(row, column.index), words, info(column.reading).dimension, decimal).value)
      values.push_back(*value);
  }
  return values.empty() ? std::nullopt : std::optional(median(values));
}

// The units in which the middle of the column would be a driver's, the likeliest first; when there is none, those in
// use.
std::vector<const Unit*> likely_units(const Table& table, const FoundColumn& column, const ReadingWords& words,
                                      Decimal decimal) {
  const ReadingInfo& q = info(column.reading);
  std::vector<const Unit*> in_use, likely;
  for (const char* symbol : {"mph", "m/s", "km/h", "yd", "m", "ft", "in", "cm", "mm", "deg", "rpm"}) {
    if (unit(symbol).dimension == q.dimension) in_use.push_back(&unit(symbol));
  }
  if (decimal == Decimal::comma) {  // and then not in miles and yards, as a rule
    std::stable_partition(in_use.begin(), in_use.end(), [](const Unit* u) {
      return u->symbol != "mph" && u->symbol != "yd" && u->symbol != "ft" && u->symbol != "in";
    });
  }
  const auto middle = middle_of(table, column, words, decimal);
  for (const Unit* u : in_use) {
    const double value = middle ? u->to_si(*middle) : 0.0;
    if (middle && value >= q.usual_low && value <= q.usual_high) likely.push_back(u);
  }
  return likely.empty() ? in_use : likely;
}

// "say it with --map carry_yd="Carry" if it is in yd, --map carry_m="Carry" if in m"
std::string unit_hint(FoundColumn column, const std::vector<const Unit*>& units) {
  std::string out = "say it with ";
  for (const Unit* u : units) {
    column.unit = u;
    out += fmt::format("{}--map {}{}", u == units.front() ? "" : ", ", map_words(column),
                       units.size() == 1 ? "" : fmt::format(" if it is in {}", u->symbol));
  }
  return out;
}

// Units that neither heads nor unit row gave: from the first cell that names one, or as the words say. A column that
// has none is not read, and says so; but one that the user mapped is to be read.
void complete_units(const Table& table, const ColumnMap& map, FoundColumns& found, const ReadOptions& options,
                    std::vector<Note>& notes) {
  std::vector<std::string> without;
  for (FoundColumn& column : found.readings) {
    const ReadingInfo& q = info(column.reading);
    const ReadingWords& words = map.readings[column.reading];
    for (auto row = table.rows.begin(); !column.unit && row != table.rows.end(); ++row) {
      column.unit = read_cell(cell_at(*row, column.index), words, q.dimension, table.decimal).unit;
    }
    if (column.unit || column.reading == Reading::smash) continue;
    column.unit = words.unit_if_missing;
    if (column.unit) {
      notes.push_back({0, fmt::format("column '{}' names no unit; taken as {}", column.head, column.unit->symbol)});
      continue;
    }
    const std::string hint = unit_hint(column, likely_units(table, column, words, table.decimal));
    const bool mapped = std::any_of(options.overrides.begin(), options.overrides.end(),
                                    [&](const ColumnOverride& o) { return o.reading == column.reading; });
    if (mapped)
      throw InputError(fmt::format("column '{}' names no unit of {}; {}", column.head, name_of(q.dimension), hint));
    without.push_back(fmt::format("column '{}' is not read, for it names no unit of {}; {}", column.head,
                                  name_of(q.dimension), hint));
  }
  if (without.size() == found.readings.size()) throw InputError(fmt::format("{}", fmt::join(without, "\n")));
  for (std::string& said : without) notes.push_back({0, std::move(said)});
  std::erase_if(found.readings, [&](const FoundColumn& column) {
    const bool unread = !column.unit && column.reading != Reading::smash;
    if (unread) found.unused.push_back(column.head);
    return unread;
  });
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
  table.decimal = find_decimal(table, columns, map, options);
  complete_units(table, map, table.columns, options, notes);
  for (const std::string& head : table.columns.unused) {
    if (!curly_quote(head).empty())
      notes.push_back({table.heads.line, fmt::format("column '{}' is not read{}", head, curly_words(head))});
  }
  for (const FoundColumn& column : columns) {
    if (!column.second) continue;
    notes.push_back({0, fmt::format("column '{}' is taken as {}, for want of a better one", column.head,
                                    info(column.reading).title)});
  }
  return table;
}

}  // namespace loftwright
