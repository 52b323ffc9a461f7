#include "loftwright/report/json.hpp"
#include "report/json_parts.hpp"
#include "report/tune_words.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

Json misses_of(const Misses& m, std::string_view unit) {
  return {{"mean", in(unit, m.mean)}, {"rms", in(unit, m.rms)}};
}

Json tuned_reading_of(const TunedReading& r) {
  const ReadingInfo& about = info(r.reading);
  return {{"reading", r.reading == Reading::total ? "run" : about.key},
          {"unit", about.unit},
          {"shots", r.count},
          {"untuned", misses_of(r.untuned, about.unit)},
          {"tuned", misses_of(r.tuned, about.unit)},
          {"left_out_untuned", misses_of(r.left_out_untuned, about.unit)},
          {"left_out_tuned", misses_of(r.left_out_tuned, about.unit)},
          {"expected_sd", in(about.unit, r.expected)},
          {"widened_sd", in(about.unit, r.widened)}};
}

Json tuned_value_of(const TunedValue& v) {
  return {{"parameter", key_of(v.tunable)},     {"prior", in("", v.prior)},   {"prior_sd", in("", v.prior_sd)},
          {"value", in("", v.value)},           {"sd", in("", v.sd)},         {"low80", in("", v.low80)},
          {"high80", in("", v.high80)},         {"low95", in("", v.low95)},   {"high95", in("", v.high95)},
          {"doubt_removed", in("", v.removed)}, {"identified", v.identified}, {"at_end", v.at_end}};
}

Json tune_fit_of(const TuneResult& r) {
  Json correlations = Json::array();
  for (const auto& c : r.tuning().correlations) {
    correlations.push_back(
        {{"between", {key_of(static_cast<Tunable>(c.first)), key_of(static_cast<Tunable>(c.second))}},
         {"value", in("", c.value)}});
  }
  return {{"correlations", correlations},
          {"chi_square", in("", r.chi_square)},
          {"degrees_of_freedom", r.degrees_of_freedom},
          {"p", in("", r.chi_square_p)}};
}

Json worth_of(const RunWorth& r) {
  return {{"prior_sd_m", in("m", r.prior_sd)},
          {"sd_m", in("m", r.sd)},
          {"least_share", in("", r.least_share)},
          {"shots_to_halve", r.to_halve ? Json(*r.to_halve) : Json()}};
}

Json left_out_of(const LeftOut& l, const std::string& sentence) {
  return {{"folds", l.folds},
          {"untuned", in("", l.untuned)},
          {"tuned", in("", l.tuned)},
          {"difference", in("", l.difference)},
          {"low95", in("", l.low)},
          {"high95", in("", l.high)},
          {"verdict", key_of(l.verdict)},
          {"sentence", sentence}};
}

}  // namespace

std::string tune_json(const TuneResult& result, std::string_view file, const std::string& block, const Setting& setting,
                      UnitSystem units) {
  Json parameters = Json::array(), readings = Json::array(), not_measured = Json::array(), notes = Json::array();
  for (const TunedValue& v : result.values) parameters.push_back(tuned_value_of(v));
  for (const TunedReading& r : result.readings) readings.push_back(tuned_reading_of(r));
  for (const Reading r : result.hidden) not_measured.push_back(info(r).key);
  for (const Note& n : result.notes) notes.push_back({{"line", n.line}, {"message", n.message}});
  Json out{{"format", "loftwright-tune/1"},
           {"file", file},
           {"shots",
            {{"fitted", result.shots},
             {"with_strike", result.with_strike},
             {"with_flight", result.with_flight},
             {"with_run", result.with_run},
             {"odd", result.odd}}},
           {"parameters", parameters},
           {"fit", tune_fit_of(result)},
           {"readings", readings},
           {"left_out", left_out_of(result.left_out, tune_verdict_sentence(result))},
           {"run", result.run ? worth_of(*result.run) : Json()},
           {"not_measured", not_measured},
           {"spread_taken", in("", result.hidden_scale)},
           {"not_fitted", notes},
           {"sentences", tune_sentences(result, units)},
           {"tuned", parsed("{" + block + "}")["tuned"]}};
  add_circumstances(out, setting);
  return text_of(out);
}

}  // namespace loftwright
