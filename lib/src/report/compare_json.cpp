#include <fmt/format.h>

#include "loftwright/report/json.hpp"
#include "report/json_parts.hpp"
#include "report/shot_words.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

// Without the reading and its unit, where those stand above.
Json part_of(Reading reading, const Summary& summary) {
  Json out = summary_of(reading, summary);
  out.erase("reading");
  out.erase("unit");
  return out;
}

Json side_of(const CompareAnswer::Side& side, Outliers odd) {
  const ShotList& list = side.hitting.list;
  const std::size_t shots = counted(list, odd).size();
  Json out{{"file", side.file},
           {"counted", shots},
           {"left_out", list.shots.size() - shots},
           {"set_aside", set_aside_of(list)},
           {"notes", notes_of(list.notes)},
           {"club_loft_deg", club_loft_of(side.hitting.club_loft)}};
  add_circumstances(out, side.hitting.setting);
  return out;
}

Json compared_of(const ComparedReading& c) {
  const std::string_view symbol = info(c.reading).unit;
  const WelchTest& t = c.test;
  return {
      {"reading", info(c.reading).key},
      {"unit", symbol},
      {"before", part_of(c.reading, c.before)},
      {"after", part_of(c.reading, c.after)},
      {"difference", in(symbol, t.difference)},
      {"low", in(symbol, t.low)},
      {"high", in(symbol, t.high)},
      {"standard_error", in(symbol, t.standard_error)},
      {"t", in("", t.t)},
      {"degrees_of_freedom", in("", t.degrees_of_freedom)},
      {"p", in("", t.p)},
      {"adjusted_p", in("", c.adjusted_p)},
      {"hedges_g", in("", c.hedges_g)},
      {"bootstrap", c.bootstrap ? Json{{"low", in(symbol, c.bootstrap->low)}, {"high", in(symbol, c.bootstrap->high)}}
                                : Json(nullptr)}};
}

Json more_shots_of(const Comparison& c, const CompareOptions& options) {
  if (!c.more_shots) return nullptr;
  const auto number = [](const std::optional<std::size_t>& n) { return n ? Json(*n) : Json(nullptr); };
  return {{"difference_m", in("m", c.assumed_difference)},
          {"power", in("", options.power)},
          {"after", number(c.more_shots->after)},
          {"each", number(c.more_shots->each)}};
}

Json estimate_of(const Estimate& e) {
  return {{"m", in("m", e.value)}, {"low_m", in("m", e.low)}, {"high_m", in("m", e.high)}};
}

Json change_of(const std::optional<Change>& change, const ChangeOptions& options) {
  if (!change) return nullptr;
  Json otherwise = Json::array(), held = Json::array();
  for (std::size_t i = 0; i < kOtherFollows.size(); ++i) {
    const auto& shares = change->shares_otherwise[i];
    otherwise.push_back(
        {{"follow", kOtherFollows[i]},
         {"shares_m", by_factor(change->club_known, [&](Factor f) -> Json { return in("m", shares[f]); })}});
  }
  for (const HeldFactor factor : kAllOf<HeldFactor>) {
    Json one{{"factor", key_of(factor)}};
    one.update(estimate_of(change->shares_loft_held[factor]));
    held.push_back(one);
  }
  return {{"follow", in("", change->follow)},
          {"shares", by_factor(change->club_known, [&](Factor f) { return estimate_of(change->shares[f]); })},
          {"shares_otherwise", otherwise},
          {"shares_loft_held", held},
          {"modelled", estimate_of(change->modelled)},
          {"unexplained", change->unexplained ? estimate_of(*change->unexplained) : Json(nullptr)},
          {"inferred", change->inferred},
          {"held", keys_of(change->held)},
          {"resamples", options.resamples},
          {"seed", options.seed}};
}

// What speaks against comparing the two lists, and each reading that could not be.
std::vector<Note> notes_on(const Comparison& c) {
  std::vector<Note> out = c.notes;
  for (const NotCompared& one : c.not_compared)
    out.push_back({0, fmt::format("{} not compared: {}", info(one.reading).title, one.why)});
  return out;
}

}  // namespace

std::string compare_json(const CompareAnswer& a, UnitSystem units) {
  Json readings = Json::array(), reached = Json::array();
  for (const ComparedReading& c : a.comparison.readings) readings.push_back(compared_of(c));
  for (const ReachedGain& r : a.reached) {
    reached.push_back({{"by", r.by},
                       {"predicted_m", in("m", r.reached.predicted)},
                       {"share", in("", r.reached.share)},
                       {"low", in("", r.reached.low)},
                       {"high", in("", r.reached.high)}});
  }
  return text_of({{"format", "loftwright-compare/2"},
                  {"goal", key_of(a.options.goal)},
                  {"goal_computed", a.goal_computed},
                  {"verdict",
                   {{"key", key_of(a.comparison.verdict)},
                    {"sentence", verdict_sentence(a.comparison, a.options, a.change, units)}}},
                  {"more_shots", more_shots_of(a.comparison, a.options)},
                  {"worthwhile_m", in("m", a.options.worthwhile)},
                  {"confidence", in("", a.options.confidence)},
                  {"readings", readings},
                  {"notes", notes_of(notes_on(a.comparison))},
                  {"change", change_of(a.change, a.change_options)},
                  {"reached", reached},
                  {"handed", key_of(a.handed)},
                  {"before", side_of(a.before, a.options.odd)},
                  {"after", side_of(a.after, a.options.odd)}});
}

}  // namespace loftwright
