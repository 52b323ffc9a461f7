#include "loftwright/shots/shot_list.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/core/detail/constants.hpp"
#include "loftwright/stats/detail/summary.hpp"
#include "shots/column_notes.hpp"
#include "shots/odd_shots.hpp"
#include "shots/table.hpp"

namespace loftwright {

namespace {

// What a shot's other readings give.
//     cos(spin_loft) = sin(attack) sin(loft) + cos(attack) cos(loft) cos(face - path), solved for the loft above the
//     attack
void derive(Shot& shot, ByReading<std::size_t>& derived) {
  const auto fill = [&](Reading reading, double value) {
    if (!std::isfinite(value)) return;
    shot.at(reading) = value;
    ++derived[reading];
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

// One row, or why it is no shot.
struct Row {
  Shot shot;
  std::string problem;
  bool without_spin = false;  // what the list calls its spin is none
};

// No strike leaves a ball without spin: a device writes 0 for what it did not see. Half of the last digit of a list.
constexpr double kNoSpin = 0.5 * kPi / 30.0;  // [rad/s]

class RowReader {
 public:
  RowReader(const Table& table, const ColumnMap& map, const ReadOptions& options)
      : table_(table), map_(map), options_(options) {}

  Row read(const CsvRecord& row) const {
    Row out{{}, why_no_shot(row)};
    if (out.problem.empty()) out.problem = read_values(row, out.shot);
    std::optional<double>& spin = out.shot.at(Reading::spin);
    out.without_spin = spin && std::abs(*spin) < kNoSpin;
    if (out.without_spin) spin.reset();
    const auto& values = out.shot.values;
    const bool any = std::any_of(values.begin(), values.end(), [](const auto& value) { return value.has_value(); });
    if (out.problem.empty() && !any) out.problem = "no readings";
    return out;
  }

 private:
  bool is_reading(std::size_t index) const {
    const auto& columns = table_.columns.readings;
    return std::any_of(columns.begin(), columns.end(), [&](const FoundColumn& c) { return c.index == index; });
  }

  std::string why_no_shot(const CsvRecord& row) const {
    const std::size_t heads = table_.heads.cells.size();
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const std::string& cell = row.cells[i];
      if (i >= heads && !cell.empty()) {
        return fmt::format(
            "{} cells under {} heads: readings may have moved to the wrong column (a decimal comma in a "
            "list separated by commas needs quotes)",
            row.cells.size(), heads);
      }
      if (!is_reading(i) && !fold(cell).empty() && is_blank_or(cell, map_.summary)) {
        return fmt::format("'{:.60}': a summary of other lines, not a shot", cell);
      }
    }
    if (options_.club && fold(text(row, table_.columns.club)) != fold(*options_.club)) {
      return fmt::format("club '{:.60}', not '{:.60}'", text(row, table_.columns.club), *options_.club);
    }
    return "";
  }

  static std::string text(const CsvRecord& row, const std::optional<std::size_t>& index) {
    return index ? cell_at(row, *index) : "";
  }

  // Fills `shot`; returns what cannot be read, "" when all can.
  std::string read_values(const CsvRecord& row, Shot& shot) const {
    shot.line = row.line;
    shot.label = text(row, table_.columns.label);
    shot.date = text(row, table_.columns.date);
    shot.club = text(row, table_.columns.club);
    for (const FoundColumn& column : table_.columns.readings) {
      const std::string& written = cell_at(row, column.index);
      if (is_blank_or(written, map_.missing)) continue;
      const Cell cell =
          read_cell(written, map_.readings[column.reading], info(column.reading).dimension, table_.decimal);
      if (!cell.value) return fmt::format("column '{}': {}", column.head, cell.problem);
      if (cell.unit && cell.unit != column.unit) {
        return fmt::format("column '{}': '{:.60}' is in another unit than the column ({})", column.head, written,
                           column.unit->symbol);
      }
      const double value =
          (column.unit ? column.unit->to_si(*cell.value) : *cell.value) * (column.reversed ? -1.0 : 1.0);
      shot.at(column.reading) = value + 0.0;  // no minus zero
    }
    return "";
  }

  const Table& table_;
  const ColumnMap& map_;
  const ReadOptions& options_;
};

UnitsUsed units_of(const std::vector<FoundColumn>& columns) {
  UnitsUsed units{};
  for (const ReadingInfo& r : readings()) units[r.reading] = find_unit(r.unit);
  for (const FoundColumn& column : columns) units[column.reading] = column.unit;
  return units;
}

// Far out from the other shots; in a list too short to tell that, what no driver usually does where the middle is a
// driver's.
std::vector<bool> far_out(const ReadingInfo& q, const std::vector<double>& values) {
  const auto usual = [&](double value) { return value >= q.usual_low && value <= q.usual_high; };
  if (values.size() >= kLeastForOutliers || values.size() < 3 || !usual(median(values)))
    return outliers(values, kOutlierShotLimit);
  std::vector<bool> out;
  for (const double value : values) out.push_back(!usual(value));
  return out;
}

}  // namespace

void mark_odd(std::vector<Shot>& shots) {
  for (Shot& shot : shots) shot.odd.clear();
  for (const ReadingInfo& q : readings()) {
    std::vector<Shot*> with;
    std::vector<double> values;
    for (Shot& shot : shots) {
      if (!shot.at(q.reading)) continue;
      with.push_back(&shot);
      values.push_back(*shot.at(q.reading));
    }
    const std::vector<bool> marks = far_out(q, values);
    for (std::size_t i = 0; i < with.size(); ++i) {
      if (marks[i]) with[i]->odd.push_back(q.reading);
    }
  }
}

ShotList read_shots(std::string_view text, const ColumnMap& map, const ReadOptions& options) {
  const std::string in_utf8 = csv_text(text);
  ShotList list;
  const Table table = read_table(in_utf8, map, options, list.notes);
  if (options.club && !table.columns.club) throw InputError("there is no column that names the club");
  list.columns = table.columns.readings;
  list.unused = table.columns.unused;

  const UnitsUsed units = units_of(list.columns);
  const RowReader reader(table, map, options);
  RowCounts counts;
  for (const CsvRecord& row : table.rows) {
    Row read = reader.read(row);
    if (!read.problem.empty()) {
      list.set_aside.push_back({row.line, row.cells, std::move(read.problem)});
      continue;
    }
    if (row.cells.size() < table.heads.cells.size()) {
      list.notes.push_back({row.line, fmt::format("{} cells under {} heads: the rest taken as missing",
                                                  row.cells.size(), table.heads.cells.size())});
    }
    if (read.without_spin) counts.without_spin.push_back(row.line);
    derive(read.shot, counts.derived);
    for (const ReadingInfo& r : readings()) counts.seen[r.reading] += read.shot.at(r.reading) ? 1 : 0;
    if (auto impossible = why_impossible(read.shot, units)) {
      if (impossible->slip) counts.count(*impossible->slip);
      list.set_aside.push_back({row.line, row.cells, std::move(impossible->reason)});
      continue;
    }
    list.shots.push_back(std::move(read.shot));
  }
  mark_odd(list.shots);
  note_columns(list, counts, units);
  if (!options.several_clubs) note_clubs(list);
  return list;
}

}  // namespace loftwright
