#include <algorithm>

#include "io/json_parts.hpp"
#include "loftwright/io/json_out.hpp"
#include "loftwright/io/shot_words.hpp"
#include "shots/parts.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

Json keys_of(const std::vector<Reading>& readings) {
  Json out = Json::array();
  for (const Reading r : readings) out.push_back(info(r).key);
  return out;
}

Json columns_of(const ShotList& list) {
  Json out = Json::array();
  for (const FoundColumn& c : list.columns) {
    out.push_back({{"head", c.head},
                   {"reading", info(c.reading).key},
                   {"unit", c.unit ? c.unit->symbol : ""},
                   {"reversed", c.reversed}});
  }
  return out;
}

Json set_aside_of(const ShotList& list) {
  Json out = Json::array();
  for (const SetAside& row : list.set_aside) {
    out.push_back({{"line", row.line}, {"cells", row.cells}, {"reason", row.reason}});
  }
  return out;
}

Json odd_of(const ShotList& list) {
  Json out = Json::array();
  for (const Shot& shot : list.shots) {
    if (!shot.odd.empty()) out.push_back({{"line", shot.line}, {"readings", keys_of(shot.odd)}});
  }
  return out;
}

Json notes_of(const std::vector<Note>& notes) {
  Json out = Json::array();
  for (const Note& note : notes) {
    out.push_back({{"line", note.line ? Json(note.line) : Json(nullptr)}, {"message", note.message}});
  }
  return out;
}

Json readings_of(const ShotSummary& summary) {
  Json out = Json::array();
  for (const ReadingSummary& r : summary.readings) {
    Json one = summary_of(r.reading, r.summary);
    one["median"] = in(info(r.reading).unit, r.median);
    one["robust_sd"] = in(info(r.reading).unit, r.robust_sd);
    out.push_back(one);
  }
  return out;
}

Json correlations_of(const ShotSummary& summary) {
  Json out = Json::array();
  for (std::size_t i = 0; i < summary.readings.size(); ++i) {
    for (std::size_t j = i + 1; j < summary.readings.size(); ++j) {
      if (!summary.correlations[i][j]) continue;
      out.push_back({{"between", keys_of({summary.readings[i].reading, summary.readings[j].reading})},
                     {"value", in("", *summary.correlations[i][j])}});
    }
  }
  return out;
}

Json consistency_of(const Consistency& consistency) {
  Json out = Json::array();
  for (const ConsistencyRow& row : consistency.rows) {
    Json one = summary_of(row.reading, row.difference);
    one["model_width"] = in(info(row.reading).unit, row.model_width);
    one["agrees"] = row.agrees;
    out.push_back(one);
  }
  return out;
}

// As the keys of a pupil's file.
Json pupil_of(const std::optional<DeliveryBlock>& block) {
  if (!block) return nullptr;
  Json delivery, spread;
  for (const DeliveryPart& part : kDeliveryParts) {
    const auto& absent = block->taken_as_zero;
    if (std::find(absent.begin(), absent.end(), part.reading) != absent.end()) continue;
    const ReadingInfo& about = info(part.reading);
    const std::string key = std::string(about.key) + "_" + std::string(unit(about.unit).suffix);
    delivery[key] = in(about.unit, block->mean.*part.value);
    if (block->spread) spread[key] = in(about.unit, (*block->spread).*part.spread);
  }
  Json out{{"delivery", delivery}, {"measured_shots", block->count}};
  if (!block->spread) return out;
  Json correlations = Json::array();
  for (const Spread::Correlation& c : block->spread->correlations) {
    correlations.push_back({{"between", {spread_key(c.first), spread_key(c.second)}}, {"value", in("", c.value)}});
  }
  spread["correlations"] = correlations;
  out["spread"] = spread;
  return out;
}

// Without the reading and its unit, where those stand above.
Json part_of(Reading reading, const Summary& summary) {
  Json out = summary_of(reading, summary);
  out.erase("reading");
  out.erase("unit");
  return out;
}

Json side_of(const CompareAnswer::Side& side, OddShots odd) {
  const ShotList& list = side.hitting.list;
  const std::size_t shots = counted(list, odd).size();
  Json out{{"file", side.file},
           {"counted", shots},
           {"left_out", list.shots.size() - shots},
           {"set_aside", set_aside_of(list)},
           {"notes", notes_of(list.notes)},
           {"club_loft_deg", club_loft_of(side.pupil)}};
  add_circumstances(out, side.pupil, side.hitting.setting);
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
    otherwise.push_back({{"follow", kOtherFollows[i]},
                         {"shares_m", by_factor(change->club_known, [&](std::size_t f) -> Json { return in("m", shares[f]); })}});
  }
  for (std::size_t i = 0; i < kHeldFactors; ++i) {
    Json one{{"factor", key_of(static_cast<HeldFactor>(i))}};
    one.update(estimate_of(change->shares_loft_held[i]));
    held.push_back(one);
  }
  return {{"follow", in("", change->follow)},
          {"shares", by_factor(change->club_known, [&](std::size_t i) { return estimate_of(change->shares[i]); })},
          {"shares_otherwise", otherwise},
          {"shares_loft_held", held},
          {"modelled", estimate_of(change->modelled)},
          {"unexplained", change->unexplained ? estimate_of(*change->unexplained) : Json(nullptr)},
          {"inferred", change->inferred},
          {"held", keys_of(change->held)},
          {"resamples", options.resamples},
          {"seed", options.seed}};
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
                  {"notes", notes_of(a.comparison.notes)},
                  {"change", change_of(a.change, a.change_options)},
                  {"reached", reached},
                  {"handed", key_of(a.before.pupil.handed)},
                  {"before", side_of(a.before, a.options.odd)},
                  {"after", side_of(a.after, a.options.odd)}});
}

Json summary_of(Reading reading, const Summary& summary) {
  const ReadingInfo& about = info(reading);
  const auto spread = [&](double si) { return summary.has_spread() ? in(about.unit, si) : Json(nullptr); };
  return {{"reading", about.key},     {"unit", about.unit},
          {"count", summary.count},   {"mean", in(about.unit, summary.mean)},
          {"sd", spread(summary.sd)}, {"standard_error", spread(summary.standard_error)}};
}

std::string shots_json(const ShotsAnswer& a, const Pupil& pupil, const Setting& setting) {
  const ShotSummary summary = summarise(a.list, a.odd);
  const std::size_t shots = counted(a.list, a.odd).size();
  std::vector<Note> notes = a.list.notes;
  notes.insert(notes.end(), a.completed.notes.begin(), a.completed.notes.end());
  Json out{{"format", "loftwright-shots/1"},
           {"file", a.file},
           {"counted", shots},
           {"left_out", a.list.shots.size() - shots},
           {"columns", columns_of(a.list)},
           {"unused", a.list.unused},
           {"set_aside", set_aside_of(a.list)},
           {"odd", odd_of(a.list)},
           {"notes", notes_of(notes)},
           {"readings", readings_of(summary)},
           {"correlations", correlations_of(summary)},
           {"consistency", consistency_of(a.consistency)},
           {"computed", readings_of(summarise(only_computed(a.completed, a.list), a.odd))},
           {"pupil", pupil_of(a.block)},
           {"delivery_inferred", a.block && a.block->inferred},
           {"handed", key_of(pupil.handed)}};
  add_circumstances(out, pupil, setting);
  return text_of(out);
}

}  // namespace loftwright
