#include "loftwright/shots/compare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <set>

#include "core/text.hpp"

namespace loftwright {

namespace {

std::string why_incomparable(const Summary& before, const Summary& after) {
  if (before.count == 0 && after.count == 0) return "";  // nobody measured it: nothing to say
  if (!before.has_spread() || !after.has_spread()) {
    return fmt::format("{} before, {} after; at least two of each are needed", how_many(before.count, "reading"),
                       after.count);
  }
  if (before.sd == 0.0 && after.sd == 0.0) return "does not vary in either list";
  return "";
}

CompareVerdict verdict_on(const WelchTest& test, double worthwhile) {
  if (test.low > 0.0) return CompareVerdict::gain;
  if (test.high < 0.0) return CompareVerdict::loss;
  return std::max(-test.low, test.high) < worthwhile ? CompareVerdict::no_change : CompareVerdict::not_yet;
}

// Shots that stand in both lists with all their numbers, three or more.
std::size_t in_both(const ShotList& before, const ShotList& after) {
  constexpr std::ptrdiff_t kLeast = 3;  // fewer may well be the same by chance
  const auto tells = [](const Shot& shot) {
    return std::count_if(shot.values.begin(), shot.values.end(), [](const auto& value) { return value.has_value(); }) >=
           kLeast;
  };
  std::set<ByReading<std::optional<double>>> first;
  for (const Shot& shot : before.shots) {
    if (tells(shot)) first.insert(shot.values);
  }
  return static_cast<std::size_t>(std::count_if(after.shots.begin(), after.shots.end(),
                                                [&](const Shot& shot) { return first.contains(shot.values); }));
}

bool same_shots(const ShotList& before, const ShotList& after) {
  return !before.shots.empty() &&
         std::equal(before.shots.begin(), before.shots.end(), after.shots.begin(), after.shots.end(),
                    [](const Shot& a, const Shot& b) { return a.values == b.values; });
}

// The three numbers a written day begins with; empty when there are not three.
std::optional<std::array<int, 3>> numbers_of(std::string_view day) {
  std::array<int, 3> out{};
  for (int& number : out) {
    const std::size_t start = day.find_first_of("0123456789");
    if (start == std::string_view::npos || start > 1) return std::nullopt;
    day.remove_prefix(start);
    const auto [end, error] = std::from_chars(day.data(), day.data() + day.size(), number);
    if (error != std::errc{}) return std::nullopt;
    day.remove_prefix(static_cast<std::size_t>(end - day.data()));
  }
  return out;
}

// The days of a list, as numbers that rise with time, where `place` says which of the three is year, month and day.
// Empty when one of them is no such day.
std::optional<std::vector<int>> days_of(const ShotList& list, const std::array<std::size_t, 3>& place) {
  std::vector<int> out;
  for (const Shot& shot : list.shots) {
    if (shot.date.empty()) continue;
    const auto numbers = numbers_of(shot.date);
    if (!numbers) return std::nullopt;
    int year = (*numbers)[place[0]];
    const int month = (*numbers)[place[1]], day = (*numbers)[place[2]];
    if (year < 100) year += 2000;
    if (year < 1900 || year > 2100 || month < 1 || month > 12 || day < 1 || day > 31) return std::nullopt;
    out.push_back((year * 100 + month) * 100 + day);
  }
  return out.empty() ? std::nullopt : std::optional(out);
}

// Every shot of the first list later than every one of the second, however their days may be read.
bool dates_swapped(const ShotList& before, const ShotList& after) {
  static constexpr std::array<std::size_t, 3> kOrders[] = {
      {0, 1, 2}, {2, 1, 0}, {2, 0, 1}};  // 2026-11-04, 04.11.2026, 11/04/2026
  bool swapped = false;
  for (const auto& place : kOrders) {
    const auto first = days_of(before, place), second = days_of(after, place);
    if (!first || !second) continue;
    if (*std::min_element(first->begin(), first->end()) <= *std::max_element(second->begin(), second->end()))
      return false;
    swapped = true;
  }
  return swapped;
}

// A reading that no player changes so much between two lessons; "" when there is none. A season's speed training adds
// some 5 to 8 % of club speed (common practice); ball speed depends on the strike too (estimates).
std::string other_player(const ShotList& before, const ShotList& after, Outliers odd) {
  for (const auto& [reading, most] : {std::pair{Reading::club_speed, 1.15}, {Reading::ball_speed, 1.20}}) {
    const auto x = values_of(counted(before, odd), reading), y = values_of(counted(after, odd), reading);
    if (x.empty() || y.empty()) continue;
    const double times = median(y) / median(x);
    if (times <= most && times >= 1.0 / most) return "";
    return fmt::format(
        "{} is {:.0f} % {} in the second list: no player changes so much between two lists; are both of the same one?",
        info(reading).title, std::abs(times - 1.0) * 100.0, times > 1.0 ? "higher" : "lower");
  }
  return "";
}

// What speaks against two lists being one player's before and after.
std::vector<Note> doubts(const ShotList& before, const ShotList& after, Outliers odd) {
  std::vector<Note> out;
  const std::size_t shared = in_both(before, after);
  if (same_shots(before, after)) {
    out.push_back({0, "both lists hold the very same shots: was one list named twice?"});
  } else if (shared > 0) {
    out.push_back({0, fmt::format("{} {} in both lists, number for number: is part of one in the other?",
                                  how_many(shared, "shot"), shared == 1 ? "stands" : "stand")});
  }
  if (dates_swapped(before, after)) {
    out.push_back(
        {0, "by their dates the shots of the first list are later than those of the second: are the two swapped?"});
  }
  if (std::string said = other_player(before, after, odd); !said.empty()) out.push_back({0, std::move(said)});
  return out;
}

}  // namespace

std::string_view key_of(CompareVerdict verdict) {
  switch (verdict) {
    case CompareVerdict::gain: return "gain";
    case CompareVerdict::loss: return "loss";
    case CompareVerdict::no_change: return "no_change";
    case CompareVerdict::not_yet: return "not_yet";
    case CompareVerdict::not_measured: return "not_measured";
  }
  return "";
}

const ComparedReading* Comparison::find(Reading reading) const {
  const auto at = std::find_if(readings.begin(), readings.end(), [&](const auto& r) { return r.reading == reading; });
  return at == readings.end() ? nullptr : &*at;
}

Comparison compare_shots(const ShotList& before, const ShotList& after, const CompareOptions& options) {
  check(Quantity::worthwhile, options.worthwhile);
  const auto shots_before = counted(before, options.odd), shots_after = counted(after, options.odd);
  BootstrapOptions bootstrap = options.bootstrap;
  bootstrap.confidence = options.confidence;

  Comparison out;
  out.notes = doubts(before, after, options.odd);
  std::vector<double> p;
  for (const ReadingInfo& r : readings()) {
    const auto x = values_of(shots_before, r.reading), y = values_of(shots_after, r.reading);
    const Summary first = summarise(x), second = summarise(y);
    if (const std::string reason = why_incomparable(first, second); !reason.empty()) {
      out.not_compared.push_back({r.reading, reason});
      continue;
    }
    if (first.count == 0) continue;
    ComparedReading one{r.reading, first, second, welch(first, second, options.confidence), hedges_g(first, second),
                        1.0,       {}};
    if (r.reading == Reading::carry || r.reading == Reading::total)
      one.bootstrap = bootstrap_difference(x, y, bootstrap);
    p.push_back(one.test.p);
    out.readings.push_back(one);
  }
  const std::vector<double> adjusted = holm(p);
  for (std::size_t i = 0; i < adjusted.size(); ++i) out.readings[i].adjusted_p = adjusted[i];

  const ComparedReading* goal = out.find(options.goal == Goal::carry ? Reading::carry : Reading::total);
  if (!goal) return out;
  out.verdict = verdict_on(goal->test, options.worthwhile);
  if (out.verdict == CompareVerdict::not_yet) {
    out.assumed_difference = std::max(std::abs(goal->test.difference), options.worthwhile);
    out.more_shots =
        values_needed(out.assumed_difference, goal->before, goal->after, options.confidence, options.power);
  }
  return out;
}

Reached reached(double predicted, const WelchTest& measured) {
  check_range("predicted gain", predicted, 1e-6, kMostPredicted, "m");
  return {predicted, measured.difference / predicted, measured.low / predicted, measured.high / predicted};
}

}  // namespace loftwright
