#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "files/json_values.hpp"
#include "files/pupil_reader.hpp"
#include "loftwright/advise/advise.hpp"
#include "loftwright/files/pupil_file.hpp"

namespace loftwright {

namespace {

std::vector<std::string> tunable_keys() {
  std::vector<std::string> keys;
  for (const Tunable t : kAllOf<Tunable>) keys.emplace_back(key_of(t));
  return keys;
}

// What was fitted with one model says nothing of another.
void check_model(ObjectReader& reader, std::string_view key, const std::string& used, const PupilReading& r) {
  const auto name = reader.text(key, Need::optional);
  if (!name || resolved(*name, r.folder) == used) return;
  reader.error(below(reader.place(), key),
               fmt::format("was tuned with {}, but the file's {} is {}: tune again, or take \"tuned\" out",
                           in_quotes(*name), key, in_quotes(used)));
}

// Digits beyond these mean nothing: a hundredth of the smallest doubt that a fit leaves.
OrderedJson rounded(double value, double step) { return in("", std::round(value / step) * step); }

OrderedJson correlations_of(const Tuning& tuning) {
  const auto key = [](int tunable) { return key_of(static_cast<Tunable>(tunable)); };
  OrderedJson out = OrderedJson::array();
  for (const auto& c : tuning.correlations) {
    OrderedJson value = rounded(c.value, 0.01);
    if (value == 0.0) continue;
    out.push_back({{"between", {key(c.first), key(c.second)}}, {"value", value}});
  }
  return out;
}

OrderedJson block_of(const OrderedJson& pupil, const Tuning& tuning) {
  const auto name = [](const OrderedJson& object, const char* key, const std::string& fallback) {
    return object.contains(key) ? object[key] : OrderedJson(fallback);
  };
  OrderedJson out;
  for (const Tunable t : kAllOf<Tunable>) {
    const std::string key(key_of(t));
    out[key] = rounded(tuning.value[t], 1e-4);
    out[key + "_sd"] = rounded(tuning.sd[t], 1e-4);
  }
  out["correlations"] = correlations_of(tuning);
  out["shots"] = tuning.shots;
  const Pupil usual;
  out["ball"] = name(pupil, "ball", usual.ball);
  const OrderedJson head = name(pupil["club"], "head", usual.head);
  if (head.is_string()) out["head"] = head;
  if (!tuning.turf.empty()) {
    out["turf"] =
        name(pupil.contains("conditions") ? pupil["conditions"] : OrderedJson::object(), "turf", usual.conditions.turf);
  }
  return out;
}

// As a person would lay it out: a line a member, a line a pair.
std::string laid_out(const OrderedJson& block, const std::string& indent) {
  std::string out = indent + "\"tuned\": {";
  const char* before = "\n";
  for (const auto& [key, value] : block.items()) {
    out += fmt::format("{}{}  \"{}\": ", before, indent, key);
    before = ",\n";
    if (!value.is_array() || value.empty()) {
      out += dumped(value);
      continue;
    }
    for (std::size_t i = 0; i < value.size(); ++i) {
      const OrderedJson& between = value[i]["between"];
      out += fmt::format("{}\n{}    {{\"between\": [{}, {}], \"value\": {}}}", i == 0 ? "[" : ",", indent,
                         dumped(between[0]), dumped(between[1]), dumped(value[i]["value"]));
    }
    out += fmt::format("\n{}  ]", indent);
  }
  return out + "\n" + indent + "}";
}

OrderedJson pupil_json(std::string_view text) {
  Findings findings;
  const auto document = parse_json(text, findings);
  if (document) format_is(*document, kPupilFormat, findings);
  if (has_errors(findings)) throw FileError("the pupil's file", findings);
  return parsed(text);
}

}  // namespace

void read_tuned(ObjectReader& top, PupilReading& r) {
  top.object("tuned", Need::optional, [&](ObjectReader& reader) {
    Tuning tuning{};
    const ErrorWidths untuned;
    const ByTunable<double> usual_sd{0.0,
                                     0.0,
                                     0.0,
                                     0.0,
                                     untuned.turf_tilt / Turf{}.tilt,
                                     untuned.turf_tilt_speed,
                                     untuned.turf_restitution,
                                     untuned.turf_rolling};
    for (const Tunable t : kAllOf<Tunable>) {
      const Need need = is_of_turf(t) ? Need::optional : Need::required;  // older blocks know nothing of the turf
      const std::string key(key_of(t));
      tuning.value[t] = reader.number(key, {kTunableRange[t].low, kTunableRange[t].high}, need).value_or(1.0);
      tuning.sd[t] = reader.number(key + "_sd", {0.0, kTunableMostSd[t]}, need).value_or(usual_sd[t]);
    }
    read_correlations(reader, tunable_keys(), tuning.correlations);
    tuning.shots = reader.whole("shots", 0, 1000000, Need::optional).value_or(0);
    check_model(reader, "ball", r.pupil.ball, r);
    if (r.pupil.head_numbers) {
      reader.text("head", Need::optional);
    } else {
      check_model(reader, "head", r.pupil.head, r);
    }
    // Another turf is no error: a golfer plays on several, and on those the turf's scales do not count.
    if (const auto turf = reader.text("turf", Need::optional)) {
      tuning.turf = resolved(*turf, r.folder);
    } else if (std::any_of(kAllOf<Tunable>.begin(), kAllOf<Tunable>.end(),
                           [&](Tunable t) { return is_of_turf(t) && tuning.value[t] != 1.0; })) {
      reader.error(below(reader.place(), "turf"), "is missing: tilt_scale to rolling_scale hold for one turf alone");
    }
    r.pupil.tuned = tuning;
  });
}

std::string tuned_block(std::string_view text, const Tuning& tuning) {
  return laid_out(block_of(pupil_json(text), tuning), "") + "\n";
}

std::string with_tuned(std::string_view text, const Tuning& tuning) {
  OrderedJson pupil = pupil_json(text);
  const OrderedJson block = block_of(pupil, tuning);
  if (pupil.contains("tuned")) {
    pupil["tuned"] = block;
    return text_of(pupil);
  }
  const std::size_t close = text.rfind('}'), last = text.find_last_not_of(" \t\r\n", close - 1);
  return fmt::format("{},\n{}\n{}", text.substr(0, last + 1), laid_out(block, "  "), text.substr(close));
}

}  // namespace loftwright
