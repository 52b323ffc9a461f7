#include "report/compare_tables.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "report/shot_words.hpp"

namespace loftwright {

namespace {

std::string p_words(double p) { return p < 0.001 ? "<0.001" : fmt::format("{:.3f}", p); }

std::string_view by_words(const ReachedGain& r) {
  for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only, StrategyKind::both}) {
    if (key_of(kind) == r.by) return title_of(kind);
  }
  return "as you gave it";
}

}  // namespace

std::vector<std::string> compare_notes(const CompareAnswer& a) {
  std::vector<std::string> out;
  if (a.goal_computed) {
    out.push_back(
        fmt::format("The {} was not measured in both lists: it was computed by the model for every shot of both.",
                    key_of(a.options.goal)));
  }
  for (const Note& note : a.comparison.notes) out.push_back(capital(note.message));
  // One sentence for all that cannot be compared for the same reason, where the first of them stands.
  std::vector<std::string> reasons;
  for (const NotCompared& first : a.comparison.not_compared) {
    if (std::find(reasons.begin(), reasons.end(), first.why) != reasons.end()) continue;
    reasons.push_back(first.why);
    std::vector<std::string> titles;
    for (const NotCompared& one : a.comparison.not_compared) {
      if (one.why == first.why) titles.emplace_back(info(one.reading).title);
    }
    out.push_back(fmt::format("Not compared: {} ({}).", listed(titles), first.why));
  }
  return out;
}

TextTable readings_table(const CompareAnswer& a, UnitSystem units) {
  const std::string percent = confidence_words(a.options.confidence);
  TextTable table{"What changed", {{"", "", "before", "after", "change", percent + " interval", "effect", "p"}}, 1, {}};
  for (const ComparedReading& c : a.comparison.readings) {
    const Shown shown = shown_as(c.reading), difference = difference_shown_as(c.reading);
    const auto signed_number = [&](double si) { return number(difference, si, units, Sign::always); };
    table.rows.push_back({std::string(info(c.reading).title), std::string(unit_shown(shown, units)),
                          number(shown, c.before.mean, units), number(shown, c.after.mean, units),
                          signed_number(c.test.difference),
                          fmt::format("{} to {}", signed_number(c.test.low), signed_number(c.test.high)),
                          fmt::format("{:.1f}", c.hedges_g), p_words(c.adjusted_p)});
  }
  table.notes.emplace_back(
      "Effect: the change in units of the scatter from shot to shot (Hedges' g). p: how often chance alone would make "
      "a "
      "change so large, corrected for looking at so many readings at once (Holm).");
  for (const ComparedReading& c : a.comparison.readings) {
    if (!c.bootstrap) continue;
    table.notes.push_back(
        fmt::format("Without assuming bell-shaped scatter, the {} interval of {} is {} to {} (bootstrap).", percent,
                    info(c.reading).title, number(Shown::gain, c.bootstrap->low, units, Sign::always),
                    quantity(Shown::gain, c.bootstrap->high, units, Sign::always)));
  }
  return table;
}

TextTable change_table(const CompareAnswer& a, UnitSystem units) {
  const std::string_view goal = key_of(a.options.goal);
  TextTable table{"Which change made which part, by the model", {}, 1, {}};
  if (!a.change) {
    table.notes.push_back(fmt::format(
        "Which change made which part of the {} cannot be told: the lists have neither club speed, attack and dynamic "
        "loft nor ball speed, launch and spin in common.",
        goal));
    return table;
  }
  table.rows = {{"", std::string(goal), confidence_words(a.options.confidence) + " interval"}};
  for (const double follow : kOtherFollows) table.rows.front().push_back(fmt::format("at {:g}", follow));
  const auto add = [&](std::string_view what, const Estimate& e) {
    table.rows.push_back({std::string(what), quantity(Shown::gain, e.value, units, Sign::always),
                          fmt::format("{} to {}", number(Shown::gain, e.low, units, Sign::always),
                                      quantity(Shown::gain, e.high, units, Sign::always))});
  };
  for (const Factor f : kAllOf<Factor>) {
    const Estimate& share = a.change->shares[f];
    if (share.value == 0.0 && share.low == 0.0 && share.high == 0.0) continue;
    add(title_of(f, a.change->club_known), share);
    for (const auto& otherwise : a.change->shares_otherwise) {
      table.rows.back().push_back(quantity(Shown::gain, otherwise[f], units, Sign::always));
    }
  }
  add("all by the model", a.change->modelled);
  if (a.change->unexplained) add("measured beyond that", *a.change->unexplained);
  table.notes = remarks(*a.change);
  return table;
}

TextTable reached_table(const CompareAnswer& a, UnitSystem units) {
  TextTable table{"What was reached of the predicted gain", {}, 1, {}};
  if (a.reached.empty()) return table;
  table.rows = {{"", "predicted", "reached", confidence_words(a.options.confidence) + " interval"}};
  for (const ReachedGain& r : a.reached) {
    table.rows.push_back({std::string(by_words(r)), quantity(Shown::gain, r.reached.predicted, units, Sign::always),
                          fmt::format("{:.0f} %", 100.0 * r.reached.share),
                          fmt::format("{:.0f} to {:.0f} %", 100.0 * r.reached.low, 100.0 * r.reached.high)});
  }
  if (a.reached.size() > 1)
    table.notes.emplace_back("Read the line of what was changed; the others are for comparison.");
  return table;
}

}  // namespace loftwright
