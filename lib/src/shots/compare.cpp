#include "loftwright/shots/compare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace loftwright {

namespace {

std::string why_incomparable(const Summary& before, const Summary& after) {
  if (before.count == 0 && after.count == 0) return "";  // nobody measured it: nothing to say
  if (!before.has_spread() || !after.has_spread()) {
    return fmt::format("{} reading(s) before, {} after; at least two of each are needed", before.count, after.count);
  }
  if (before.sd == 0.0 && after.sd == 0.0) return "does not vary in either list";
  return "";
}

CompareVerdict verdict_on(const WelchTest& test, double worthwhile) {
  if (test.low > 0.0) return CompareVerdict::gain;
  if (test.high < 0.0) return CompareVerdict::loss;
  return std::max(-test.low, test.high) < worthwhile ? CompareVerdict::no_change : CompareVerdict::not_yet;
}

}  // namespace

std::string_view key_of(CompareVerdict verdict) {
  switch (verdict) {
    case CompareVerdict::gain:
      return "gain";
    case CompareVerdict::loss:
      return "loss";
    case CompareVerdict::no_change:
      return "no_change";
    case CompareVerdict::not_yet:
      return "not_yet";
    case CompareVerdict::not_measured:
      return "not_measured";
  }
  return "";
}

const ComparedReading* Comparison::find(Reading reading) const {
  const auto at = std::find_if(readings.begin(), readings.end(), [&](const auto& r) { return r.reading == reading; });
  return at == readings.end() ? nullptr : &*at;
}

Comparison compare_shots(const ShotList& before, const ShotList& after, const CompareOptions& options) {
  check_range("worthwhile difference", options.worthwhile, 0.0, kMostPrice, "m");
  const auto shots_before = counted(before, options.odd), shots_after = counted(after, options.odd);
  BootstrapOptions bootstrap = options.bootstrap;
  bootstrap.confidence = options.confidence;

  Comparison out;
  std::vector<double> p;
  for (const ReadingInfo& r : readings()) {
    const auto x = values_of(shots_before, r.reading), y = values_of(shots_after, r.reading);
    const Summary first = summarise(x), second = summarise(y);
    if (const std::string reason = why_incomparable(first, second); !reason.empty()) {
      out.notes.push_back({0, fmt::format("{} not compared: {}", r.title, reason)});
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
