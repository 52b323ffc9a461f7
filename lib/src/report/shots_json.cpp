#include <algorithm>
#include <map>
#include <string>

#include "loftwright/report/json.hpp"
#include "report/json_parts.hpp"
#include "shots/parts.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

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

Json odd_of(const ShotList& list) {
  Json out = Json::array();
  for (const Shot& shot : list.shots) {
    if (!shot.odd.empty()) out.push_back({{"line", shot.line}, {"readings", keys_of(shot.odd)}});
  }
  return out;
}

// In the order of their names, first the shots without one; none where no shot has one.
Json clubs_of(const ShotList& list) {
  std::map<std::string, Json> lines;
  for (const Shot& shot : list.shots) lines[shot.club].push_back(shot.line);
  if (lines.size() == 1 && lines.begin()->first.empty()) lines.clear();
  Json out = Json::array();
  for (const auto& [club, of] : lines) out.push_back({{"club", club}, {"lines", of}});
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

}  // namespace

std::string shots_json(const ShotsAnswer& a, const Setting& setting) {
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
           {"clubs", clubs_of(a.list)},
           {"notes", notes_of(notes)},
           {"readings", readings_of(summary)},
           {"correlations", correlations_of(summary)},
           {"consistency", consistency_of(a.consistency)},
           {"computed", readings_of(summarise(only_computed(a.completed, a.list), a.odd))},
           {"pupil", pupil_of(a.block)},
           {"delivery_inferred", a.block && a.block->inferred},
           {"handed", key_of(a.handed)}};
  add_circumstances(out, setting);
  return text_of(out);
}

}  // namespace loftwright
