#include "loftwright/shots/shot_list.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "loftwright/shots/csv.hpp"
#include "loftwright/stats/summary.hpp"
#include "loftwright/swing/delivery.hpp"
#include "shots/cells.hpp"
#include "shots/plausible.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kMostRows = 20000;    // keeps memory in the tens of megabytes
constexpr std::size_t kHeadsWithin = 20;    // rows: what a device may print above its table
constexpr std::size_t kLeastForColumn = 3;  // shots before a slip is laid at the column's door

struct Table {
  char delimiter = ',';
  CsvRecord heads;
  std::vector<CsvRecord> rows;
};

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

Table read_table(std::string_view text, const ColumnMap& map, const ReadOptions& options, std::vector<Note>& notes) {
  Table table = find_table(text, map, options);
  CsvReader reader(text, table.delimiter);
  std::size_t above = 0;
  while (auto record = reader.next()) {
    if (record->line < table.heads.line) ++above;
    if (record->line <= table.heads.line) continue;
    if (table.rows.size() == kMostRows)
      throw InputError(fmt::format("line {}: more than {} rows", record->line, kMostRows));
    table.rows.push_back(std::move(*record));
  }
  if (above > 0)
    notes.push_back({0, fmt::format("{} row(s) above the heads in line {} skipped", above, table.heads.line)});
  if (reader.comments() > 0) notes.push_back({0, fmt::format("{} comment line(s) skipped", reader.comments())});
  return table;
}

const std::string& cell_at(const CsvRecord& row, std::size_t index) {
  static const std::string kEmpty;
  return index < row.cells.size() ? row.cells[index] : kEmpty;
}

bool is_any(const std::string& cell, const std::vector<std::string>& words) {
  const std::string folded = fold(cell);
  return folded.empty() || std::find(words.begin(), words.end(), folded) != words.end();
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
    if (!unit && !is_any(cell_at(row, column.index), map.missing)) return false;
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

// What a shot's other readings give.
//     cos(spin_loft) = sin(attack) sin(loft) + cos(attack) cos(loft) cos(face - path), solved for the loft above the
//     attack
void derive(Shot& shot, ByReading<std::size_t>& derived) {
  const auto fill = [&](Reading reading, double value) {
    if (!std::isfinite(value)) return;
    shot.at(reading) = value;
    ++derived[index_of(reading)];
  };
  const auto club = shot.at(Reading::club_speed), ball = shot.at(Reading::ball_speed), smash = shot.at(Reading::smash);
  if (smash && *smash > 0.0) {
    if (!club && ball) fill(Reading::club_speed, *ball / *smash);
    if (!ball && club) fill(Reading::ball_speed, *club * *smash);
  }
  const auto attack = shot.at(Reading::attack), spin_loft = shot.at(Reading::spin_loft);
  if (!shot.at(Reading::dynamic_loft) && attack && spin_loft) {
    const double apart = shot.at(Reading::face).value_or(0.0) - shot.at(Reading::path).value_or(0.0);
    const double up = std::sin(*attack), along = std::cos(*attack) * std::cos(apart);
    const double cosine = std::cos(*spin_loft) / std::hypot(up, along);
    if (cosine <= 1.0) fill(Reading::dynamic_loft, std::atan2(up, along) + std::acos(cosine));
  }
}

// Reads rows one after the other and keeps count of what went wrong.
class RowReader {
 public:
  RowReader(const Table& table, const FoundColumns& found, const ColumnMap& map, Decimal decimal,
            const ReadOptions& options, ShotList& list)
      : heads_(table.heads.cells.size()), found_(found), map_(map), decimal_(decimal), options_(options), list_(list) {
    for (const ReadingInfo& q : readings()) units_[index_of(q.reading)] = find_unit(q.unit);
    for (const FoundColumn& column : list.columns) units_[index_of(column.reading)] = column.unit;
  }

  void read(const CsvRecord& row) {
    const std::string reason = why_no_shot(row);
    Shot shot;
    const std::string unreadable = reason.empty() ? read_values(row, shot) : reason;
    if (!unreadable.empty()) return set_aside(row, unreadable);
    derive(shot, derived_);
    for (const ReadingInfo& q : readings()) seen_[index_of(q.reading)] += shot.at(q.reading) ? 1 : 0;
    if (const auto impossible = why_impossible(shot, units_)) {
      if (impossible->slip) count(*impossible->slip);
      return set_aside(row, impossible->reason);
    }
    list_.shots.push_back(std::move(shot));
  }

  void note_columns() {
    note_derived();
    note_slips();
    note_unusual();
    note_clubs();
  }

 private:
  void set_aside(const CsvRecord& row, std::string reason) {
    list_.set_aside.push_back({row.line, row.cells, std::move(reason)});
  }

  std::string why_no_shot(const CsvRecord& row) {
    const auto blank = [](const std::string& cell) { return cell.empty(); };
    if (row.cells.size() > heads_ &&
        !std::all_of(row.cells.begin() + static_cast<std::ptrdiff_t>(heads_), row.cells.end(), blank)) {
      return fmt::format(
          "{} cells under {} heads: readings may have moved to the wrong column (a decimal comma in a list "
          "separated by commas needs quotes)",
          row.cells.size(), heads_);
    }
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const bool reading =
          std::any_of(list_.columns.begin(), list_.columns.end(), [&](const FoundColumn& c) { return c.index == i; });
      if (!reading && !fold(row.cells[i]).empty() && is_any(row.cells[i], map_.summary)) {
        return fmt::format("'{:.60}': a summary of other lines, not a shot", row.cells[i]);
      }
    }
    if (options_.club && found_.club && fold(cell_at(row, *found_.club)) != fold(*options_.club)) {
      return fmt::format("club '{:.60}', not '{:.60}'", cell_at(row, *found_.club), *options_.club);
    }
    return "";
  }

  // Fills `shot`; returns what cannot be read, "" when all can.
  std::string read_values(const CsvRecord& row, Shot& shot) {
    shot.line = row.line;
    const auto text = [&](const std::optional<std::size_t>& index) {
      return index ? cell_at(row, *index) : std::string();
    };
    shot.label = text(found_.label);
    shot.date = text(found_.date);
    shot.club = text(found_.club);
    bool any = false;
    for (const FoundColumn& column : list_.columns) {
      const std::string& written = cell_at(row, column.index);
      if (is_any(written, map_.missing)) continue;
      const Cell cell =
          read_cell(written, map_.readings[index_of(column.reading)], info(column.reading).dimension, decimal_);
      if (!cell.value) return fmt::format("column '{}': {}", column.head, cell.problem);
      if (cell.unit && column.unit && cell.unit != column.unit) {
        return fmt::format("column '{}': '{:.60}' is in another unit than the column ({})", column.head, written,
                           column.unit->symbol);
      }
      const Unit* unit = column.unit ? column.unit : cell.unit;
      const double value = (unit ? unit->to_si(*cell.value) : *cell.value) * (column.reversed ? -1.0 : 1.0);
      shot.at(column.reading) = value + 0.0;  // no minus zero
      any = true;
    }
    if (!any) return "no readings";
    if (row.cells.size() < heads_) {
      list_.notes.push_back(
          {row.line, fmt::format("{} cells under {} heads: the rest taken as missing", row.cells.size(), heads_)});
    }
    return "";
  }

  void count(const Slip& slip) {
    const auto at = std::find_if(slips_.begin(), slips_.end(), [&](const auto& s) { return s.first == slip; });
    if (at == slips_.end()) {
      slips_.emplace_back(slip, 1);
    } else {
      ++at->second;
    }
  }

  // How to read the column of `reading` otherwise; "" when it has none.
  std::string remedy(const Slip& slip) const {
    for (const FoundColumn& column : list_.columns) {
      if (column.reading != slip.reading) continue;
      const Unit* unit = slip.unit ? slip.unit : column.unit;
      const bool reversed = column.reversed != (slip.unit == nullptr);
      return fmt::format("; if so, read it with --map={}{}{}{}=\"{}\"", reversed ? "-" : "", info(slip.reading).key,
                         unit ? "_" : "", unit ? unit->suffix : "", column.head);
    }
    return "";
  }

  void note_derived() {
    for (const ReadingInfo& q : readings()) {
      const std::size_t n = derived_[index_of(q.reading)];
      if (n == 0) continue;
      const char* from = q.reading == Reading::club_speed   ? "ball speed and smash"
                         : q.reading == Reading::ball_speed ? "club speed and smash"
                                                            : "attack and spin loft";
      list_.notes.push_back({0, fmt::format("{} of {} shot(s) computed from {}", q.title, n, from)});
    }
  }

  void note_slips() {
    for (const auto& [slip, times] : slips_) {
      const std::size_t all = seen_[index_of(slip.reading)];
      if (times < kLeastForColumn || 5 * times < 4 * all) continue;
      list_.notes.push_back(
          {0, fmt::format("{} of {} shots would fit {}{}", times, all,
                          slip.unit ? fmt::format("if {} were in {}", info(slip.reading).title, slip.unit->symbol)
                                    : fmt::format("with the other sign of {}", info(slip.reading).title),
                          remedy(slip))});
    }
  }

  std::vector<double> values_of(Reading reading) const {
    std::vector<double> out;
    for (const Shot& shot : list_.shots) {
      if (shot.at(reading)) out.push_back(*shot.at(reading));
    }
    return out;
  }

  // Columns whose middle is not where a driver's is, and pairs that go the wrong way together.
  void note_unusual() {
    for (const ReadingInfo& q : readings()) {
      const std::vector<double> values = values_of(q.reading);
      if (values.empty()) continue;
      const double middle = median(values);
      if (middle >= q.usual_low && middle <= q.usual_high) continue;
      const Unit* own = units_[index_of(q.reading)];
      const Unit* meant = unit_meant(q.reading, middle, units_);
      const auto shown = [&](double si) {
        const double value = own ? own->from_si(si) : si;
        return std::abs(value) < 100.0 ? fmt::format("{:.3g}", value) : fmt::format("{:.0f}", value);
      };
      list_.notes.push_back(
          {0, fmt::format(
                  "{} in the middle; with a driver {} to {} is usual{}", said(q.reading, middle, units_),
                  shown(q.usual_low), shown(q.usual_high),
                  meant ? fmt::format("; it would be usual in {}{}", meant->symbol, remedy({q.reading, meant})) : "")});
    }
    struct Pair {
      Reading a, b;
      double sign;  // of their correlation
    };
    for (const auto& [a, b, sign] :
         {Pair{Reading::azimuth, Reading::side, 1.0}, Pair{Reading::face, Reading::azimuth, 1.0},
          Pair{Reading::attack, Reading::low_point, -1.0}}) {
      std::vector<double> x, y;
      for (const Shot& shot : list_.shots) {
        if (!shot.at(a) || !shot.at(b)) continue;
        x.push_back(*shot.at(a));
        y.push_back(*shot.at(b));
      }
      constexpr std::size_t kLeast = 10;
      if (x.size() < kLeast) continue;
      const auto r = correlation(x, y);
      if (r && sign * *r < -0.6) {
        list_.notes.push_back(
            {0, fmt::format("{} and {} go opposite ways (correlation {:.2f}): one may have the other sign",
                            info(a).title, info(b).title, *r)});
      }
    }
  }

  void note_clubs() {
    std::map<std::string, std::size_t> clubs;
    for (const Shot& shot : list_.shots) ++clubs[shot.club];
    if (clubs.size() < 2) return;
    std::vector<std::string> each;
    for (const auto& [club, shots] : clubs) each.push_back(fmt::format("'{}' {}", club, shots));
    list_.notes.push_back(
        {0, fmt::format("shots with {} clubs ({}); choose one with --club", clubs.size(), fmt::join(each, ", "))});
  }

  std::size_t heads_;
  const FoundColumns& found_;
  const ColumnMap& map_;
  Decimal decimal_;
  const ReadOptions& options_;
  ShotList& list_;
  UnitsUsed units_{};
  ByReading<std::size_t> derived_{};  // shots whose reading was computed
  ByReading<std::size_t> seen_{};     // shots with a reading, kept or not
  std::vector<std::pair<Slip, std::size_t>> slips_;
};

void mark_odd(std::vector<Shot>& shots) {
  for (const ReadingInfo& q : readings()) {
    std::vector<Shot*> with;
    std::vector<double> values;
    for (Shot& shot : shots) {
      if (!shot.at(q.reading)) continue;
      with.push_back(&shot);
      values.push_back(*shot.at(q.reading));
    }
    const std::vector<bool> marks = outliers(values, kOddShotLimit);
    for (std::size_t i = 0; i < with.size(); ++i) {
      if (marks[i]) with[i]->odd.push_back(q.reading);
    }
  }
}

}  // namespace

ShotList read_shots(std::string_view bytes, const ColumnMap& map, const ReadOptions& options) {
  const std::string text = csv_text(bytes);
  ShotList list;
  Table table = read_table(text, map, options, list.notes);
  FoundColumns found = find_columns(table.heads.cells, map, options.overrides);
  list.columns = std::move(found.readings);
  list.unused = std::move(found.unused);
  if (options.club && !found.club) throw InputError("there is no column that names the club");
  if (!table.rows.empty() && is_unit_row(table.rows.front(), list.columns, map)) {
    take_units(table.rows.front(), list.columns, options);
    table.rows.erase(table.rows.begin());
  }
  const Decimal decimal = find_decimal(table, list.columns, options);
  complete_units(table, map, decimal, list.columns, list.notes);

  RowReader reader(table, found, map, decimal, options, list);
  for (const CsvRecord& row : table.rows) reader.read(row);
  mark_odd(list.shots);
  reader.note_columns();
  return list;
}

}  // namespace loftwright
