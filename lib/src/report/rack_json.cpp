#include "loftwright/report/json.hpp"
#include "loftwright/report/words.hpp"
#include "report/json_parts.hpp"
#include "report/rack_tables.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

Json lofts_of(const Rack& rack, const std::vector<std::size_t>& numbers) {
  Json out = Json::array();
  for (const std::size_t j : numbers) out.push_back(in("deg", rack.lofts[j]));
  return out;
}

// Gains that no limit allows are null.
Json gains_of(const LoftCurve& curve) {
  Json out = Json::array();
  for (std::size_t j = 0; j < curve.gain.size(); ++j)
    out.push_back(curve.usable[j] ? in("m", curve.gain[j]) : Json(nullptr));
  return out;
}

}  // namespace

std::string rack_json(const RackAnswer& answer, UnitSystem units) {
  const Rack& r = answer.rack;
  Json lofts = Json::array(), gains = Json::array(), next = Json::array(), by_places = Json::array(),
       pupils = Json::array();
  for (const double loft : r.lofts) lofts.push_back(in("deg", loft));
  for (const RackNext& n : r.next)
    next.push_back({{"loft_deg", in("deg", r.lofts[n.loft])}, {"saves_m", in("m", n.saves)}});
  for (const RackOfSize& s : r.by_size) {
    by_places.push_back(
        {{"places", s.chosen.size()}, {"chosen_deg", lofts_of(r, s.chosen)}, {"lost_m", in("m", s.lost)}});
  }
  for (const RackPupil& p : rack_pupils(answer)) {
    gains.push_back(gains_of(p.curve));
    pupils.push_back({{"file", p.file},
                      {"name", p.curve.name},
                      {"goal", key_of(p.curve.goal)},
                      {"attack_deg", in("deg", p.curve.attack)},
                      {"loft_in_hand_deg", in("deg", p.curve.loft_in_hand)},
                      {"best_loft_deg", in("deg", p.curve.best_loft)},
                      {"best_gain_m", in("m", p.curve.best_gain)},
                      {"loft_deg", p.use.loft ? in("deg", r.lofts[*p.use.loft]) : Json(nullptr)},
                      {"gain_m", in("m", p.use.gain)},
                      {"lost_m", in("m", p.use.lost)},
                      {"limits_given_up", p.curve.limits_given_up},
                      {"from_academy", p.curve.taken}});
  }
  Json out{{"format", "loftwright-rack/1"},
           {"folder", answer.folder.folder.string()},
           {"summary", rack_sentences(answer, units)},
           {"chosen_deg", lofts_of(r, r.best.chosen)},
           {"lost_m", in("m", r.best.lost)},
           {"lofts_deg", lofts},
           {"gain_m", gains},
           {"next", next},
           {"exact", true},
           {"by_places", by_places},
           {"swing", answer.swing == RackSwing::now ? "now" : "after_advice"},
           {"pupils", pupils},
           {"academy", academy_of(answer.academy)}};
  add_failed(out, answer.folder, answer.results);
  out["cautions"] = cautions(units);
  return text_of(out);
}

}  // namespace loftwright
