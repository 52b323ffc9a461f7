#include "loftwright/report/json.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "advise/reached.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/report/advice_words.hpp"
#include "report/json_parts.hpp"
#include "report/ladder_words.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

// One end of an interval; an open end is null.
Json end_in(std::string_view symbol, double si) { return std::isinf(si) ? Json(nullptr) : in(symbol, si); }

Json limit_of(const LimitState& limit) {
  const std::string_view unit = unit_shown(shown_as(limit.quantity), UnitSystem::metres);
  return {{"quantity", key_of(limit.quantity)},
          {"value", in(unit, limit.value)},
          {"low", end_in(unit, limit.allowed.low)},
          {"high", end_in(unit, limit.allowed.high)},
          {"slack", end_in(unit, limit.slack)},
          {"unit", unit},
          {"active", limit.active},
          {"broken", limit.broken}};
}

Json own_turn_of(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  if (!s.own_turn) return nullptr;
  const OwnTurn& own = *s.own_turn;
  return {{"feasible", own.feasible},
          {"fit", fit_of(own.fit, own.fit ? fit_words(*own.fit) : "")},
          {"gain_m", own.feasible ? in("m", own.gain) : Json(nullptr)},
          {"sentence", own_turn_sentence(s, as_is, units)}};
}

Json strategy_of(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  Json limits = Json::array();
  for (const LimitState& limit : s.limits) limits.push_back(limit_of(limit));
  Json must_give = Json::array();
  for (const LimitState& limit : s.must_give) must_give.push_back(limit_of(limit));
  return {{"loft_deg", in("deg", s.loft)},
          {"attack_deg", in("deg", s.attack)},
          {"dynamic_loft_deg", in("deg", s.delivery.dynamic_loft)},
          {"spin_loft_deg", in("deg", s.drive.spin_loft)},
          {"club_speed_mps", in("m/s", s.delivery.club_speed)},
          {"launch", launch_of(s.drive.launch)},
          {"flight", flight_of(s.drive)},
          {"average",
           {{"carry_m", in("m", s.average.carry)},
            {"total_m", in("m", s.average.total)},
            {"side_m", in("m", s.average.side)},
            {"fairway_share", in("", s.average.fairway_share)}}},
          {"gain_m", in("m", s.gain)},
          {"centred_gain_m", in("m", s.centred_gain)},
          {"price_m", in("m", s.price)},
          {"limits", limits},
          {"feasible", s.feasible},
          {"must_give", must_give},
          {"fit", fit_of(s.fit, fit_sentence(s, as_is, units))},
          {"own_turn", own_turn_of(s, as_is, units)},
          {"at_loft_end", s.at_loft_end},
          {"at_reach_end", s.at_reach_end},
          {"smash", in("", s.drive.smash)},
          {"verification",
           {{"tight_change_m", in("m", s.verification.tight_change)},
            {"restart_change_m", in("m", s.verification.restart_change)}}}};
}

Json exchange_rates_of(const ExchangeRates& rates, Goal goal) {
  const double degree = unit("deg").factor, rpm100 = 100.0 * unit("rpm").factor;
  Json out;
  const auto add = [&](std::string_view distance, double Rate::*of) {
    const auto put = [&](std::string_view per, double metres) {
      out[fmt::format("{}_m_per_{}", distance, per)] = in("m", metres);
    };
    put("attack_deg", rates.attack.*of * degree);
    put("attack_deg_loft_held", rates.attack_loft_held.*of * degree);
    put("loft_deg", rates.loft.*of * degree);
    put("club_speed_mps", rates.club_speed.*of);
    put("100rpm", rates.launch_spin.*of * rpm100);
  };
  add("carry", &Rate::carry);
  add("total", &Rate::total);
  const auto worth = [&](const Rate& lever) {
    const std::optional<double> speed = worth_in_club_speed(lever, rates.club_speed, goal);
    return speed ? in("m/s", *speed * degree) : Json(nullptr);
  };
  out["attack_deg_in_club_speed_mps"] = worth(rates.attack);
  out["loft_deg_in_club_speed_mps"] = worth(rates.loft);
  return out;
}

Json trade_of(const std::vector<TradeRow>& rows) {
  Json out = Json::array();
  for (const TradeRow& row : rows) {
    Json needed = Json::array();
    for (std::size_t i = 0; i < kTradeShares.size(); ++i) {
      const std::optional<double>& change = row.attack_change[i];
      needed.push_back({{"share_pct", in("%", kTradeShares[i])},
                        {"attack_change_deg", change ? in("deg", *change) : Json(nullptr)}});
    }
    out.push_back({{"loft_deg", in("deg", row.loft)},
                   {"gain_at_present_attack_m", in("m", row.gain_at_present_attack)},
                   {"breaks_limit", row.breaks_limit},
                   {"needed", needed}});
  }
  return out;
}

Json interval_of(const Interval80& i) {
  return {{"low_m", in("m", i.low)}, {"mean_m", in("m", i.mean)}, {"high_m", in("m", i.high)}};
}

Json judged_of(const std::optional<StrategyConfidence>& judged) {
  if (!judged) return nullptr;
  return {{"gain", interval_of(judged->gain)},
          {"drive_gain", interval_of(judged->drive_gain)},
          {"drives_gaining", in("", judged->drives_gaining)}};
}

Json choices_of(const Advice& advice, UnitSystem units) {
  Json out = Json::array();
  const std::optional<StrategyConfidence> none;
  for (const Choice& c : advice.choices) {
    const auto& judged = advice.confidence ? advice.confidence->at(strategy_of(c.lever)) : none;
    const auto number_if = [](bool there, std::string_view unit, double value) {
      return there ? in(unit, value) : Json(nullptr);
    };
    const bool leave = c.lever == Lever::leave;
    const auto of = [&](auto value) {
      return judged ? in("m", value(*judged)) : number_if(leave && c.feasible, "m", 0.0);
    };
    const Strategy& s = advice.at(strategy_of(c.lever));
    out.push_back(
        {{"lever", key_of(c.lever)},
         {"feasible", c.feasible},
         {"loft_deg", in("deg", c.loft)},
         {"attack_deg", in("deg", c.attack)},
         {"gain_m", number_if(c.feasible, "m", c.gain)},
         {"gain_low_m", of([](const StrategyConfidence& j) { return j.gain.low; })},
         {"gain_high_m", of([](const StrategyConfidence& j) { return j.gain.high; })},
         {"price_m", in("m", c.price)},
         {"net_gain_m", number_if(c.feasible, "m", c.net_gain)},
         {"best_probability", number_if(c.feasible, "", c.best_probability)},
         {"drives_gaining", judged ? in("", judged->drives_gaining) : number_if(leave && c.feasible, "", 0.0)},
         {"drive_gain_low_m", of([](const StrategyConfidence& j) { return j.drive_gain.low; })},
         {"drive_gain_high_m", of([](const StrategyConfidence& j) { return j.drive_gain.high; })},
         {"fairway_share", number_if(c.feasible, "", s.average.fairway_share)},
         {"fit", fit_of(s.fit, fit_sentence(s, advice.at(StrategyKind::as_is), units))}});
  }
  return out;
}

Json verdict_of(const Advice& advice, UnitSystem units) {
  const Verdict& v = advice.verdict;
  return {{"lever", key_of(v.lever)},
          {"certainty", key_of(v.certainty)},
          {"probability", in("", v.probability)},
          {"regret_m", in("m", v.regret)},
          {"runner_up", v.runner_up ? Json(key_of(*v.runner_up)) : Json(nullptr)},
          {"first_step", v.first_step ? Json(key_of(*v.first_step)) : Json(nullptr)},
          {"measure_first", v.measure_first ? Json(key_of(*v.measure_first)) : Json(nullptr)},
          {"sentence", verdict_sentence(advice, units)}};
}

// The unit an assumption's value is told in, and how many SI units that is.
std::pair<std::string_view, double> unit_of(Assumption assumption) {
  switch (assumption) {
    case Assumption::measured_club_speed: return {"m/s", 1.0};
    case Assumption::measured_attack:
    case Assumption::measured_dynamic_loft: return {"deg", unit("deg").factor};
    case Assumption::speed_cost: return {"m/s per deg", 1.0 / unit("deg").factor};
    default: return {"", 1.0};
  }
}

Json influence_of(const Influence& i) {
  const auto [symbol, factor] = unit_of(i.assumption);
  return {{"assumption", key_of(i.assumption)},
          {"first", in("", i.first)},
          {"total", in("", i.total)},
          {"taken", in("", i.taken / factor)},
          {"flips_at", i.flips_at ? in("", *i.flips_at / factor) : Json(nullptr)},
          {"unit", symbol},
          {"becomes", i.flips_at ? Json(key_of(i.becomes)) : Json(nullptr)}};
}

Json confidence_of(const std::optional<Confidence>& confidence) {
  if (!confidence) return nullptr;
  const Confidence& c = *confidence;
  const auto chance = [](const std::optional<double>& p) { return p ? in("", *p) : Json(nullptr); };
  Json strategies, influences = Json::array();
  for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only, StrategyKind::both}) {
    strategies[std::string(key_of(kind))] = judged_of(c.at(kind));
  }
  for (const Influence& i : c.influences) influences.push_back(influence_of(i));
  Json measuring;
  for (const Measure m : kAllOf<Measure>) measuring[fmt::format("{}_m", key_of(m))] = in("m", c.measuring.worth[m]);
  measuring["everything_m"] = in("m", c.measuring.everything);
  return {{"technique_over_loft", chance(c.technique_over_loft)},
          {"both_over_technique", chance(c.both_over_technique)},
          {"both_over_loft", chance(c.both_over_loft)},
          {"strategies", strategies},
          {"misfit_m", in("m", c.misfit)},
          {"influences", influences},
          {"measuring", measuring},
          {"draws", c.draws},
          {"seed", c.seed}};
}

Json effort_front_of(const std::vector<EffortPoint>& front, const Pupil& pupil) {
  Json out = Json::array();
  for (const EffortPoint& p : front) {
    Json names = Json::array();
    for (const std::size_t option : p.options) names.push_back(pupil.reach.options[option].name);
    out.push_back({{"effort", in("", p.effort)},
                   {"gain_m", in("m", p.gain)},
                   {"loft_deg", in("deg", p.loft)},
                   {"attack_deg", in("deg", p.attack)},
                   {"options", names}});
  }
  return out;
}

Json window_of(const std::optional<LoftWindow>& w) {
  if (!w) return nullptr;
  return {{"attack_deg", in("deg", w->attack)},
          {"low_deg", in("deg", w->low)},
          {"best_deg", in("deg", w->best)},
          {"high_deg", in("deg", w->high)}};
}

Json second_of(const std::optional<SecondOpinion>& s) {
  if (!s) return nullptr;
  return {{"aero", s->aero},
          {"lever", key_of(s->lever)},
          {"loft_deg", in("deg", s->loft)},
          {"attack_deg", in("deg", s->attack)},
          {"differs", s->differs}};
}

Json reached_of(const Advice& advice) {
  if (!advice.reached) return nullptr;
  const std::optional<double> gain = reached_gain(advice);
  Json out = reached_share_json(*advice.reached);
  out["gain_m"] = gain ? in("m", *gain) : Json(nullptr);
  return out;
}

Json set_up_of(const std::optional<SetUp>& set_up) {
  if (!set_up) return nullptr;
  return {{"low_point_now_m", in("m", set_up->low_point_now)},
          {"low_point_target_m", in("m", set_up->low_point_target)},
          {"ball_forward_m", in("m", set_up->ball_forward)},
          {"path_change_deg", in("deg", set_up->path_change)},
          {"swing_direction_change_deg", in("deg", set_up->swing_direction_change)},
          {"tee_higher_m", set_up->tee_higher ? in("m", *set_up->tee_higher) : Json(nullptr)}};
}

Json taken_of(const SessionPupil& taken) {
  Json from;
  for (const SessionPupil::Part& part : taken.taken) from[std::string(part.key)] = key_of(part.from);
  return {{"book", taken.book},
          {"session", taken.session},
          {"date", text_of(taken.date)},
          {"pupil_file", taken.file ? Json(*taken.file) : Json(nullptr)},
          {"from", from}};
}

}  // namespace

std::string advise_json(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units,
                        const BesideAdvice& beside) {
  Json strategies;
  for (const Strategy& s : advice.strategies)
    strategies[std::string(key_of(s.kind))] = strategy_of(s, advice.at(StrategyKind::as_is), units);
  Json out{{"format", "loftwright-advise/2"},
           {"goal", key_of(advice.goal)},
           {"strategies", strategies},
           {"choices", choices_of(advice, units)},
           {"verdict", verdict_of(advice, units)},
           {"exchange_rates", exchange_rates_of(advice.rates, advice.goal)},
           {"explanation", explanation(advice, units)},
           {"confidence", confidence_of(advice.confidence)},
           {"trade", trade_of(advice.trade)},
           {"effort_front", effort_front_of(advice.effort_front, pupil)},
           {"loft_window", window_of(advice.window)},
           {"second_opinion", second_of(advice.second)},
           {"reached", reached_of(advice)},
           {"set_up", set_up_of(advice.set_up)},
           {"feasible", advice.feasible},
           {"assumed", pupil.assumed},
           {"flights", advice.flights},
           {"cautions", cautions(units)},
           {"pupil",
            {{"name", pupil.name},
             {"handed", key_of(pupil.handed)},
             {"delivery", delivery_of(pupil.delivery)},
             {"delivery_inferred", pupil.delivery_inferred},
             {"tuned", pupil.tuned.has_value()},
             {"club",
              {{"head_loft_deg", in("deg", marked_loft(pupil))},
               {"setting", pupil.club_setting.empty() ? Json(nullptr) : Json(pupil.club_setting)},
               {"loft_deg", in("deg", pupil.club_loft)}}},
             {"fairway_m", in("m", pupil.fairway)},
             {"prices",
              {{"driver_m", in("m", pupil.prices.driver)},
               {"sleeve_m", in("m", pupil.prices.sleeve)},
               {"swing_m", in("m", pupil.prices.swing)}}}}}};
  if (beside.ladder) {
    out["ladder"] = ladder_of(*beside.ladder);
    out["ladder_sentence"] = ladder_sentence(*beside.ladder, advice, units);
  }
  if (beside.taken) out["taken"] = taken_of(*beside.taken);
  add_circumstances(out, setting);
  return text_of(out);
}

}  // namespace loftwright
