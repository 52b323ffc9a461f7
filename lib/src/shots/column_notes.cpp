#include "shots/column_notes.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <span>

#include "core/text.hpp"
#include "loftwright/shots/shot_summary.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kLeastSlips = 3;   // before a slip is laid at the column's door
constexpr std::size_t kLeastPairs = 10;  // before two columns are said to go opposite ways
constexpr double kOpposite = -0.6;       // [-] correlation

// How to read a column otherwise; "" when the reading has none.
std::string remedy(const ShotList& list, const Slip& slip) {
  const auto column = std::find_if(list.columns.begin(), list.columns.end(),
                                   [&](const FoundColumn& c) { return c.reading == slip.reading; });
  if (column == list.columns.end()) return "";
  FoundColumn otherwise = *column;
  if (slip.unit) otherwise.unit = slip.unit;
  if (!slip.unit) otherwise.reversed = !otherwise.reversed;
  return fmt::format("; if so, read it with --map={}", map_words(otherwise));
}

void note_derived(ShotList& list, const RowCounts& counts) {
  for (const ReadingInfo& r : readings()) {
    const std::size_t n = counts.derived[r.reading];
    if (n == 0) continue;
    const char* from = r.reading == Reading::club_speed   ? "ball speed and speed ratio"
                       : r.reading == Reading::ball_speed ? "club speed and speed ratio"
                                                          : "attack and spin loft";
    list.notes.push_back({0, fmt::format("{} of {} computed from {}", r.title, how_many(n, "shot"), from)});
  }
}

void note_without_spin(ShotList& list, const RowCounts& counts) {
  constexpr std::size_t kMostLines = 10;
  const std::vector<std::size_t>& lines = counts.without_spin;
  if (lines.empty()) return;
  const std::span<const std::size_t> shown(lines.data(), std::min(lines.size(), kMostLines));
  list.notes.push_back(
      {0, fmt::format("spin 0 set aside in {}, line {}{}: no strike leaves a ball without spin, so it was not "
                      "measured; what else is "
                      "there of these shots counts",
                      how_many(lines.size(), "shot"), fmt::join(shown, ", "),
                      shown.size() < lines.size() ? ", ..." : "")});
}

void note_slips(ShotList& list, const RowCounts& counts) {
  for (const auto& [slip, times] : counts.slips) {
    const std::size_t all = counts.seen[slip.reading];
    if (times < kLeastSlips || 5 * times < 4 * all) continue;
    const std::string fit = slip.unit ? fmt::format("if {} were in {}", info(slip.reading).title, slip.unit->symbol)
                                      : fmt::format("with the other sign of {}", info(slip.reading).title);
    list.notes.push_back({0, fmt::format("{} of {} shots would fit {}{}", times, all, fit, remedy(list, slip))});
  }
}

void note_unusual(ShotList& list, const UnitsUsed& units) {
  const auto shots = counted(list, Outliers::keep);
  for (const ReadingInfo& r : readings()) {
    const std::vector<double> values = values_of(shots, r.reading);
    if (values.empty()) continue;
    const double middle = median(values);
    if (middle >= r.usual_low && middle <= r.usual_high) continue;
    const Unit* own = units[r.reading];
    const auto shown = [&](double si) {
      const double value = own ? own->from_si(si) : si;
      return std::abs(value) < 100.0 ? fmt::format("{:.3g}", value) : fmt::format("{:.0f}", value);
    };
    const Unit* meant = unit_meant(r.reading, middle, units);
    const std::string hint =
        meant ? fmt::format("; it would be usual in {}{}", meant->symbol, remedy(list, {r.reading, meant})) : "";
    list.notes.push_back(
        {0, fmt::format("{} in the middle; with a driver {} to {} is usual{}", said(r.reading, middle, units),
                        shown(r.usual_low), shown(r.usual_high), hint)});
  }
}

void note_opposite(ShotList& list) {
  struct Pair {
    Reading a, b;
    double sign;  // of their correlation
  };
  static constexpr Pair kPairs[] = {{Reading::azimuth, Reading::side, 1.0},
                                    {Reading::face, Reading::azimuth, 1.0},
                                    {Reading::attack, Reading::low_point, -1.0}};
  const auto shots = counted(list, Outliers::keep);
  for (const auto& [a, b, sign] : kPairs) {
    const auto [x, y] = both_of(shots, a, b);
    if (x.size() < kLeastPairs) continue;
    const auto r = correlation(x, y);
    if (!r || sign * *r >= kOpposite) continue;
    list.notes.push_back({0, fmt::format("{} and {} go opposite ways (correlation {:.2f}): one may have the other sign",
                                         info(a).title, info(b).title, *r)});
  }
}

}  // namespace

void RowCounts::count(const Slip& slip) {
  const auto at = std::find_if(slips.begin(), slips.end(), [&](const auto& s) { return s.first == slip; });
  if (at == slips.end()) {
    slips.emplace_back(slip, 1);
  } else {
    ++at->second;
  }
}

void note_columns(ShotList& list, const RowCounts& counts, const UnitsUsed& units) {
  note_derived(list, counts);
  note_without_spin(list, counts);
  note_slips(list, counts);
  note_unusual(list, units);
  note_opposite(list);
}

void note_clubs(ShotList& list) {
  std::map<std::string, std::size_t> clubs;
  for (const Shot& shot : list.shots) ++clubs[shot.club];
  if (clubs.size() < 2) return;
  std::vector<std::string> each;
  for (const auto& [club, shots] : clubs) each.push_back(fmt::format("'{:.60}' {}", club, shots));
  list.notes.push_back(
      {0, fmt::format("shots with {} clubs ({}); choose one with --club", clubs.size(), fmt::join(each, ", "))});
}

}  // namespace loftwright
