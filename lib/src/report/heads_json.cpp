#include "loftwright/report/json.hpp"
#include "report/heads_words.hpp"
#include "report/json_parts.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

template <class T, class Of>
Json or_null(const std::optional<T>& value, const Of& of) {
  return value ? Json(of(*value)) : Json(nullptr);
}

void add_average(Json& out, const std::string& key, const std::optional<AverageReading>& average) {
  out[key + "_m"] = or_null(average, [](const AverageReading& a) { return in("m", a.summary.mean); });
  out[key + "_low_m"] = or_null(average, [](const AverageReading& a) { return in("m", a.low); });
  out[key + "_high_m"] = or_null(average, [](const AverageReading& a) { return in("m", a.high); });
  out[key + "_sd_m"] = or_null(average, [](const AverageReading& a) { return in("m", a.summary.sd); });
}

Json fairways_of(const FairwaysHeld& f) {
  return {
      {"held", f.held}, {"of", f.count}, {"low", in("", f.low)}, {"high", in("", f.high)}, {"side_m", in("m", f.side)}};
}

Json modelled_of(const ModelledHead& m) {
  return {{"delivery", delivery_of(m.delivery)},
          {"inferred", m.inferred},
          {"carry_m", in("m", m.carry)},
          {"total_m", in("m", m.total)},
          {"beyond_others_m", in("m", m.beyond_others)},
          {"standard_error_m", in("m", m.standard_error)},
          {"explained_up_to_m", in("m", m.explained_up_to)},
          {"explained", m.explained()}};
}

Json head_of(const HeadsAnswer& a, std::size_t i) {
  const HeadResult& h = a.heads[i];
  Json out{{"head", h.name}, {"shots", h.shots}};
  add_average(out, "carry", h.carry);
  add_average(out, "total", h.total);
  out["fairway_share"] = or_null(h.fairways, [](const FairwaysHeld& f) { return in("", f.share()); });
  out["fairways"] = or_null(h.fairways, fairways_of);
  out["best_probability"] = in("", h.best_probability);
  out["in_hand"] = a.in_hand == i;
  out["left_out"] = h.left_out;
  out["modelled"] = or_null(h.modelled, modelled_of);
  return out;
}

Json pair_of(const HeadsAnswer& a, const HeadPair& pair, UnitSystem units) {
  return {{"first", a.heads[pair.first].name},
          {"second", a.heads[pair.second].name},
          {"difference_m", in("m", pair.test.difference)},
          {"low_m", in("m", pair.test.low)},
          {"high_m", in("m", pair.test.high)},
          {"shots_needed", or_null(pair.shots_needed, [](std::size_t n) { return n; })},
          {"apart", key_of(pair.apart)},
          {"standard_error_m", in("m", pair.test.standard_error)},
          {"degrees_of_freedom", in("", pair.test.degrees_of_freedom)},
          {"sentence", more_shots_words(a, pair, units)}};
}

}  // namespace

std::string heads_json(const HeadsAnswer& a, const std::vector<std::string>& files, const Setting& setting,
                       UnitSystem units) {
  Json heads = Json::array(), apart = Json::array(), left_out = Json::array();
  for (std::size_t i = 0; i < a.heads.size(); ++i) heads.push_back(head_of(a, i));
  for (const HeadPair& pair : a.pairs) apart.push_back(pair_of(a, pair, units));
  for (const LeftOutHead& one : a.left_out) left_out.push_back({{"head", one.name}, {"reason", one.reason}});
  Json out{{"format", "loftwright-heads/1"},
           {"files", files},
           {"goal", key_of(a.options.goal)},
           {"sentence", heads_sentence(a, units)},
           {"heads", heads},
           {"apart", apart},
           {"in_hand", or_null(a.in_hand, [&](std::size_t i) { return a.heads[i].name; })},
           {"better", or_null(a.better(), [&](std::size_t i) { return a.heads[i].name; })},
           {"model_disagrees", a.model_disagrees},
           {"left_out", left_out},
           {"notes", heads_notes(a, units)},
           {"worthwhile_m", in("m", a.options.worthwhile)},
           {"confidence", in("", a.options.confidence)},
           {"power", in("", a.options.power)},
           {"fairway_m", in("m", a.options.fairway)},
           {"carry_computed", a.carry_computed},
           {"total_computed", a.total_computed},
           {"side_computed", a.side_computed},
           {"wandering_share", in("", a.wandering)},
           {"wider", in("", a.wider)},
           {"in_blocks", a.in_blocks},
           {"seed", a.options.seed}};
  add_circumstances(out, setting);
  return text_of(out);
}

}  // namespace loftwright
