#include "report/shot_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/text.hpp"
#include "loftwright/core/units.hpp"
#include "shots/parts.hpp"

namespace loftwright {

namespace {

// ", most of it from the attack (+5.1 yd by the model)": the largest share, where it is the change but for less than
// half of that, more than half however loft follows, its interval leaves out zero, and what is not explained is less.
std::string made_by(const std::optional<Change>& change, double difference, UnitSystem units) {
  if (!change || difference == 0.0) return "";
  const auto of_whole = [&](double share) { return share / difference; };
  const Factor f = *std::max_element(kAllOf<Factor>.begin(), kAllOf<Factor>.end(), [&](Factor a, Factor b) {
    return of_whole(change->shares[a].value) < of_whole(change->shares[b].value);
  });
  const Estimate& share = change->shares[f];
  const double part = of_whole(share.value);
  const bool holds = std::all_of(change->shares_otherwise.begin(), change->shares_otherwise.end(),
                                 [&](const auto& otherwise) { return of_whole(otherwise[f]) > 0.5; });
  if (!holds || part <= 0.5 || part >= 1.5 || share.low * share.high <= 0.0) return "";
  if (change->unexplained && std::abs(change->unexplained->value) >= std::abs(share.value)) return "";
  return fmt::format(", most of it from the {} ({} by the model)", title_of(f, change->club_known),
                     quantity(Shown::gain, share.value, units, Sign::always));
}

std::string more_words(const Comparison& c, const CompareOptions& options, UnitSystem units) {
  const MoreValues more = c.more_shots.value_or(MoreValues{});
  const std::string of = quantity(Shown::gain, c.assumed_difference, units);
  if (!more.after && !more.each)
    return fmt::format("No number of shots worth hitting would show a difference of {}.", of);
  std::string how = more.after ? how_many(more.after.value_or(0), "more shot") + " after" : "";
  if (more.each)
    how += fmt::format("{}{} on each side", more.after ? ", or " : "", how_many(more.each.value_or(0), "more shot"));
  return fmt::format("{} would show a difference of {} {} of the time, if there is one.", "About " + how, of,
                     confidence_words(options.power));
}

}  // namespace

std::vector<std::string> together_sentences(const ShotSummary& summary, std::size_t most) {
  std::vector<std::string> out;
  for (const Togetherness& t : strong_correlations(summary)) {
    if (out.size() == most) break;
    const std::string_view a = info(t.first).title, b = info(t.second).title;
    out.push_back(t.correlation > 0.0
                      ? fmt::format("{} and {} rise together (correlation {:+.2f})", a, b, t.correlation)
                      : fmt::format("as {} rises, {} falls (correlation {:+.2f})", a, b, t.correlation));
  }
  return out;
}

std::string consistency_sentence(const Consistency& consistency) {
  if (consistency.rows.empty()) return "";
  std::vector<std::string> off;
  for (const ConsistencyRow& row : consistency.rows) {
    if (!row.agrees) off.emplace_back(info(row.reading).title);
  }
  if (off.empty())
    return "What was measured and what the model makes of it agree, within chance and the model's own error.";
  return fmt::format(
      "Measured {} and the model are further apart than chance and the model's own error explain: the device, the "
      "model, or the ball, club or weather named is off; which of them cannot be told from here.",
      listed(off));
}

std::string shots_words(const ShotList& list, Outliers odd) {
  const std::size_t shots = counted(list, odd).size();
  std::string text = how_many(shots, "shot") + " counted";
  if (!list.set_aside.empty()) text += fmt::format(", {} set aside", list.set_aside.size());
  if (shots < list.shots.size()) text += fmt::format(", {} left out", how_many(list.shots.size() - shots, "outlier"));
  return text;
}

std::string confidence_words(double confidence) { return fmt::format("{:.4g} %", 100.0 * confidence); }

std::string verdict_sentence(const Comparison& c, const CompareOptions& options, const std::optional<Change>& change,
                             UnitSystem units) {
  const std::string_view goal = key_of(options.goal);
  const ComparedReading* compared = c.find(options.goal == Goal::carry ? Reading::carry : Reading::total);
  if (!compared) return fmt::format("Nothing can be said: {} is not in both lists, twice each at least.", goal);
  const WelchTest& test = compared->test;
  const std::string interval = fmt::format("{} interval {} to {}", confidence_words(options.confidence),
                                           number(Shown::gain, test.low, units, Sign::always),
                                           quantity(Shown::gain, test.high, units, Sign::always));
  const std::string worth = quantity(Shown::gain, options.worthwhile, units);
  const std::string size = quantity(Shown::gain, std::abs(test.difference), units);
  const std::string by = made_by(change, test.difference, units);
  const bool small = std::max(std::abs(test.low), std::abs(test.high)) < options.worthwhile;
  const std::string too_small = small ? fmt::format("; real, but smaller than the {} that matter", worth) : "";
  switch (c.verdict) {
    case CompareVerdict::gain:
      return fmt::format("{} grew by {} ({}){}{}.", capital(std::string(goal)), size, interval, by, too_small);
    case CompareVerdict::loss:
      return fmt::format("{} fell by {} ({}){}{}.", capital(std::string(goal)), size, interval, by, too_small);
    case CompareVerdict::no_change:
      return fmt::format("No difference that matters: {} changed by {} ({}), and all of that interval is less than {}.",
                         goal, quantity(Shown::gain, test.difference, units, Sign::always), interval, worth);
    case CompareVerdict::not_yet:
      return fmt::format("No real difference yet: {} changed by {} ({}). {}", goal,
                         quantity(Shown::gain, test.difference, units, Sign::always), interval,
                         more_words(c, options, units));
    case CompareVerdict::not_measured: break;
  }
  throw std::logic_error("a comparison without a sentence");
}

std::vector<std::string> remarks(const Change& change) {
  std::vector<std::string> out;
  if (change.inferred) {
    out.emplace_back(
        "The deliveries were worked out from the ball numbers of both lists, for strikes at the centre of the face.");
  }
  std::vector<std::string> held;
  for (const Reading r : change.held) held.emplace_back(info(r).title);
  if (!held.empty()) out.push_back(fmt::format("Not in both lists, so taken as unchanged: {}.", listed(held)));
  out.push_back(who_words(change.follow, change.club_known));
  return out;
}

std::string who_words(double follow, bool club_known) {
  const std::string others = fmt::format("{:g} or {:g}", kOtherFollows[0], kOtherFollows[1]);
  const std::string_view rest = club_known ? "Club: the loft on it. Hands: the rest of the delivered loft"
                                           : "Hands or club: the rest of the delivered loft; the loft on the club, "
                                             "before and after, would tell them apart";
  return fmt::format(
      "Swing: attack, path, and the loft that follows the attack, {:.3g} deg a degree (an assumption; on the right, "
      "had it been {}). {}.",
      follow, others, rest);
}

std::string pupil_lines(const DeliveryBlock& block, UnitSystem units) {
  const auto is_measured = [&](Reading reading) {
    return std::find(block.taken_as_zero.begin(), block.taken_as_zero.end(), reading) == block.taken_as_zero.end();
  };
  const auto values = [&](const auto& of) {
    std::string out;
    for (const DeliveryPart& part : kDeliveryParts) {
      if (!is_measured(part.reading)) continue;
      const ReadingInfo& about = info(part.reading);
      const bool in_mph = about.dimension == Dimension::speed && units == UnitSystem::yards;
      const Unit& shown = unit(in_mph ? "mph" : about.unit);
      const double value = shown.from_si(of(part));
      const int decimals = about.dimension == Dimension::length ? 1 : 2;
      out += fmt::format("{}\"{}_{}\": {:.{}f}", out.empty() ? "" : ", ", about.key, shown.suffix,
                         value == 0.0 ? 0.0 : value, decimals);
    }
    return out;
  };
  std::string out = fmt::format("  \"delivery\": {{{}}},\n  \"measured_shots\": {}",
                                values([&](const DeliveryPart& p) { return block.mean.*p.value; }), block.count);
  if (!block.spread) return out + "\n";
  out += fmt::format(",\n  \"spread\": {{{}",
                     values([&](const DeliveryPart& p) { return block.spread.value().*p.spread; }));
  std::string pairs;
  for (const Spread::Correlation& c : block.spread->correlations) {
    pairs += fmt::format("{}\n    {{\"between\": [\"{}\", \"{}\"], \"value\": {:.3f}}}", pairs.empty() ? "" : ",",
                         spread_key(c.first), spread_key(c.second), c.value);
  }
  if (!pairs.empty()) out += fmt::format(", \"correlations\": [{}]", pairs);
  return out + "}\n";
}

}  // namespace loftwright
