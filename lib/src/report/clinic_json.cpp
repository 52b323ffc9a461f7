#include <fmt/format.h>

#include "files/csv_cell.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/words.hpp"
#include "report/clinic_tables.hpp"
#include "report/json_parts.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

// `length`: the unit of gains, "m" or "yd", which is in their keys.
Json row_of(const ClinicRow& row, std::string_view file, std::string_view length) {
  const auto key = [&](std::string_view what) { return fmt::format("{}_{}", what, length); };
  const auto answered = [&](const Json& value) { return row.feasible ? value : Json(nullptr); };
  const auto length_of = [&](const std::optional<double>& gain) { return gain ? in(length, *gain) : Json(nullptr); };
  return {{"file", file},
          {"name", row.name},
          {"lever", answered(key_of(row.lever))},
          {"certainty", answered(key_of(row.certainty))},
          {"loft_deg", answered(in("deg", row.loft))},
          {"attack_deg", answered(in("deg", row.attack))},
          {key("gain"), answered(in(length, row.gain))},
          {key("gain_low"), length_of(row.gain_low)},
          {key("gain_high"), length_of(row.gain_high)},
          {"fairway_share", answered(in("", row.fairway_share))},
          {"measure_first", row.measure_first ? Json(key_of(*row.measure_first)) : Json(nullptr)},
          {"leader", answered(key_of(row.leader))},
          {"probability", answered(in("", row.probability))},
          {"fairway_share_now", in("", row.fairway_share_now)},
          {"goal", key_of(row.goal)},
          {"feasible", row.feasible},
          {"warnings", row.warnings}};
}

// What a sheet has of `fit`: which head, the setting of its sleeve, and whether it is a turn of the club in hand.
void add_head(Json& one, const ClinicRow& row) {
  one["head_loft_deg"] = row.fit ? in("deg", row.fit->head_loft) : Json(nullptr);
  one["setting"] = row.fit && !row.fit->setting.empty() ? Json(row.fit->setting) : Json(nullptr);
  one["in_hand"] = row.fit ? Json(row.fit->in_hand) : Json(nullptr);
}

}  // namespace

std::string clinic_json(const ClinicAnswer& answer, UnitSystem units) {
  Json pupils = Json::array();
  for (std::size_t i = 0; i < answer.results.size(); ++i) {
    const auto& row = answer.results[i].row;
    if (!row) continue;
    Json one = row_of(*row, answer.folder.files[i], "m"), must_give = Json::array();
    for (const LimitState& limit : row->must_give)
      must_give.push_back(limit_words(limit.quantity, limit.allowed, units));
    one["must_give"] = must_give;
    one["from_academy"] = row->taken;
    one["reached_gain_m"] = row->reached_gain ? in("m", *row->reached_gain) : Json(nullptr);
    one["fit"] = fit_of(row->fit, row->fit ? fit_words(*row->fit) : "");
    pupils.push_back(one);
  }
  Json out{{"format", "loftwright-clinic/1"},
           {"folder", answer.folder.folder.string()},
           {"summary", clinic_sentences(answer, units)},
           {"pupils", pupils},
           {"academy", academy_of(answer.academy)}};
  add_failed(out, answer.folder, answer.results);
  out["cautions"] = cautions(units);
  return text_of(out);
}

std::string clinic_csv(const ClinicAnswer& answer, UnitSystem units) {
  const std::string_view length = units == UnitSystem::yards ? "yd" : "m";
  const auto line = [](const Json& row, bool heads) {
    std::string out;
    for (const auto& [key, value] : row.items()) {
      if (!out.empty()) out += ",";
      out += heads ? key : csv_cell(value);
    }
    return out + "\r\n";
  };
  const auto sheet_row = [&](const ClinicRow& row, std::string_view file) {
    Json one = row_of(row, file, length);
    add_head(one, row);
    return one;
  };
  std::string out = line(sheet_row({}, ""), true);
  for (std::size_t i = 0; i < answer.results.size(); ++i) {
    if (const auto& row = answer.results[i].row) out += line(sheet_row(*row, answer.folder.files[i]), false);
  }
  return out;
}

}  // namespace loftwright
