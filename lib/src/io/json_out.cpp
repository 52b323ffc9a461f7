#include "loftwright/io/json_out.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "io/json_parts.hpp"
#include "loftwright/core/units.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

// One end of an interval; an open end is null.
Json end_in(std::string_view symbol, double si) { return std::isinf(si) ? Json(nullptr) : in(symbol, si); }

Json launch_of(const Launch& launch) {
  return {{"ball_speed_mps", in("m/s", launch.ball_speed)},
          {"launch_deg", in("deg", launch.launch)},
          {"azimuth_deg", in("deg", launch.azimuth)},
          {"spin_rpm", in("rpm", launch.spin)},
          {"tilt_deg", in("deg", launch.tilt)}};
}

Json flight_of(const Drive& drive) {
  return {{"carry_m", in("m", drive.flight.carry)},
          {"side_m", in("m", drive.flight.side)},
          {"apex_m", in("m", drive.flight.apex)},
          {"landing_deg", in("deg", drive.flight.landing_angle)},
          {"landing_speed_mps", in("m/s", drive.flight.landing_speed)},
          {"flight_s", in("s", drive.flight.time)},
          {"bounce_m", in("m", drive.run.bounce)},
          {"roll_m", in("m", drive.run.roll)},
          {"total_m", in("m", drive.total)},
          {"rest_side_m", in("m", drive.side_at_rest)},
          {"landing_spin_rpm", in("rpm", drive.flight.landing_spin)},
          {"end", key_of(drive.flight.end)},
          {"outside_aero_range", drive.flight.outside_aero_range}};
}

Json delivery_of(const Delivery& d) {
  return {{"club_speed_mps", in("m/s", d.club_speed)}, {"attack_deg", in("deg", d.attack)},
          {"path_deg", in("deg", d.path)},             {"face_deg", in("deg", d.face)},
          {"dynamic_loft_deg", in("deg", d.dynamic_loft)}, {"toe_mm", in("mm", d.toe)},
          {"high_mm", in("mm", d.high)}};
}

Json models_of(const Pupil& pupil, const Setting& setting) {
  return {{"ball", pupil.ball}, {"aero", setting.aero.id}, {"head", pupil.head_numbers ? "given in the pupil's file" : pupil.head}, {"turf", pupil.conditions.turf}};
}

Json conditions_of(const Conditions& c, const Air& air) {
  Json out;
  if (c.pressure) {
    out["pressure_pa"] = in("Pa", *c.pressure);
  } else {
    out["altitude_m"] = in("m", c.altitude);
  }
  out["temperature_c"] = in("C", c.temperature);
  out["humidity_pct"] = in("%", c.humidity);
  out["air_density_kgpm3"] = in("", air.density);
  out["wind_mps"] = in("m/s", c.wind.speed);
  out["wind_from_deg"] = in("deg", c.wind.from);
  out["wind_height_m"] = in("m", c.wind.height);
  out["wind_profile"] = key_of(c.wind.profile);
  out["notes"] = condition_notes(c);
  return out;
}

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

Json strategy_of(const Strategy& s) {
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
          {"average", {{"carry_m", in("m", s.average.carry)},
                       {"total_m", in("m", s.average.total)},
                       {"side_m", in("m", s.average.side)},
                       {"fairway_share", in("", s.average.fairway_share)}}},
          {"gain_m", in("m", s.gain)},
          {"centred_gain_m", in("m", s.centred_gain)},
          {"price_m", in("m", s.price)},
          {"limits", limits},
          {"feasible", s.feasible},
          {"must_give", must_give},
          {"at_loft_end", s.at_loft_end},
          {"at_reach_end", s.at_reach_end},
          {"smash", in("", s.drive.smash)},
          {"verification", {{"tight_change_m", in("m", s.verification.tight_change)},
                            {"restart_change_m", in("m", s.verification.restart_change)}}}};
}

Json exchange_rates_of(const ExchangeRates& rates, Goal goal) {
  const double degree = unit("deg").factor, rpm100 = 100.0 * unit("rpm").factor;
  Json out;
  const auto add = [&](std::string_view distance, double Rate::*of) {
    const auto put = [&](std::string_view per, double metres) { out[fmt::format("{}_m_per_{}", distance, per)] = in("m", metres); };
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

Json interval_of(const Interval80& i) { return {{"low_m", in("m", i.low)}, {"mean_m", in("m", i.mean)}, {"high_m", in("m", i.high)}}; }

Json judged_of(const std::optional<StrategyConfidence>& judged) {
  if (!judged) return nullptr;
  return {{"gain", interval_of(judged->gain)},
          {"drive_gain", interval_of(judged->drive_gain)},
          {"drives_gaining", in("", judged->drives_gaining)}};
}

Json choices_of(const Advice& advice) {
  Json out = Json::array();
  const std::optional<StrategyConfidence> none;
  for (const Choice& c : advice.choices) {
    const auto& judged = advice.confidence ? advice.confidence->at(strategy_of(c.lever)) : none;
    const auto number_if = [](bool there, std::string_view unit, double value) { return there ? in(unit, value) : Json(nullptr); };
    const bool leave = c.lever == Lever::leave;
    const auto of = [&](auto value) { return judged ? in("m", value(*judged)) : number_if(leave && c.feasible, "m", 0.0); };
    out.push_back({{"lever", key_of(c.lever)},
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
                   {"fairway_share", number_if(c.feasible, "", advice.at(strategy_of(c.lever)).average.fairway_share)}});
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
  for (std::size_t i = 0; i < kMeasures; ++i) measuring[fmt::format("{}_m", key_of(static_cast<Measure>(i)))] = in("m", c.measuring.worth[i]);
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
    out.push_back({{"effort", in("", p.effort)}, {"gain_m", in("m", p.gain)}, {"loft_deg", in("deg", p.loft)},
                   {"attack_deg", in("deg", p.attack)}, {"options", names}});
  }
  return out;
}

Json window_of(const std::optional<LoftWindow>& w) {
  if (!w) return nullptr;
  return {{"attack_deg", in("deg", w->attack)}, {"low_deg", in("deg", w->low)}, {"best_deg", in("deg", w->best)}, {"high_deg", in("deg", w->high)}};
}

Json second_of(const std::optional<SecondOpinion>& s) {
  if (!s) return nullptr;
  return {{"aero", s->aero}, {"lever", key_of(s->lever)}, {"loft_deg", in("deg", s->loft)}, {"attack_deg", in("deg", s->attack)}, {"differs", s->differs}};
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

}  // namespace

void add_circumstances(Json& out, const Pupil& pupil, const Setting& setting) {
  out["models"] = models_of(pupil, setting);
  out["conditions"] = conditions_of(pupil.conditions, setting.air);
}

Json club_loft_of(const Pupil& pupil) {
  const auto loft = known_club_loft(pupil);
  return loft ? in("deg", *loft) : Json(nullptr);
}

std::string fly_json(const Drive& drive, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  Json out{{"format", "loftwright-fly/1"}, {"launch", launch_of(drive.launch)}};
  out.update(flight_of(drive));
  out["notes"] = drive_notes(drive, setting.aero, units);
  add_circumstances(out, pupil, setting);
  out["models"].erase("head");
  return text_of(out);
}

namespace {

Json shares_of(const Shares& shares, bool club_known) {
  return by_factor(club_known, [&](std::size_t i) -> Json { return {{"carry_m", in("m", shares[i].carry)}, {"total_m", in("m", shares[i].total)}}; });
}

Json strike_of(const Drive& drive, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  Json out{{"format", "loftwright-strike/2"},
           {"launch", launch_of(drive.launch)},
           {"smash", in("", drive.smash)},
           {"spin_loft_deg", in("deg", drive.spin_loft)},
           {"flight", flight_of(drive)},
           {"delivery", delivery_of(pupil.delivery)},
           {"club_loft_deg", club_loft_of(pupil)},
           {"handed", key_of(pupil.handed)},
           {"sliding", drive.sliding},
           {"notes", drive_notes(drive, setting.aero, units)}};
  add_circumstances(out, pupil, setting);
  return out;
}

}  // namespace

std::string strike_json(const Drive& drive, const Pupil& pupil, const Setting& setting, UnitSystem units, const Versus* versus) {
  Json out = strike_of(drive, pupil, setting, units);
  if (versus) {
    Json otherwise = Json::array(), held = Json::array();
    for (std::size_t i = 0; i < kOtherFollows.size(); ++i) {
      otherwise.push_back({{"follow", kOtherFollows[i]}, {"shares", shares_of(versus->shares_otherwise[i], versus->club_known)}});
    }
    for (std::size_t i = 0; i < kHeldFactors; ++i) {
      const Share& s = versus->shares_loft_held[i];
      held.push_back({{"factor", key_of(static_cast<HeldFactor>(i))}, {"carry_m", in("m", s.carry)}, {"total_m", in("m", s.total)}});
    }
    out["versus"] = strike_of(versus->drive, versus->pupil, versus->setting, units);
    out["versus"].erase("format");
    out["change"] = {{"carry_m", in("m", versus->drive.flight.carry - drive.flight.carry)},
                     {"total_m", in("m", versus->drive.total - drive.total)}};
    out["follow"] = in("", versus->follow);
    out["shares"] = shares_of(versus->shares, versus->club_known);
    out["shares_otherwise"] = otherwise;
    out["shares_loft_held"] = held;
  }
  return text_of(out);
}

std::string advise_json(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  Json strategies;
  for (const Strategy& s : advice.strategies) strategies[std::string(key_of(s.kind))] = strategy_of(s);
  Json out{{"format", "loftwright-advise/2"},
           {"goal", key_of(advice.goal)},
           {"strategies", strategies},
           {"choices", choices_of(advice)},
           {"verdict", verdict_of(advice, units)},
           {"exchange_rates", exchange_rates_of(advice.rates, advice.goal)},
           {"explanation", explanation(advice, units)},
           {"confidence", confidence_of(advice.confidence)},
           {"trade", trade_of(advice.trade)},
           {"effort_front", effort_front_of(advice.effort_front, pupil)},
           {"loft_window", window_of(advice.window)},
           {"second_opinion", second_of(advice.second)},
           {"set_up", set_up_of(advice.set_up)},
           {"feasible", advice.feasible},
           {"assumed", pupil.assumed},
           {"flights", advice.flights},
           {"cautions", cautions(units)},
           {"pupil", {{"name", pupil.name},
                      {"handed", key_of(pupil.handed)},
                      {"delivery", delivery_of(pupil.delivery)},
                      {"delivery_inferred", pupil.delivery_inferred},
                      {"tuned", pupil.tuned.has_value()},
                      {"fairway_m", in("m", pupil.fairway)},
                      {"prices", {{"driver_m", in("m", pupil.prices.driver)},
                                  {"sleeve_m", in("m", pupil.prices.sleeve)},
                                  {"swing_m", in("m", pupil.prices.swing)}}}}}};
  add_circumstances(out, pupil, setting);
  return text_of(out);
}

std::string chart_json(const Chart& chart, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  Json cells = Json::array(), limits = Json::array();
  for (const ChartCell& c : chart.cells) {
    cells.push_back({{"club_speed_mps", in("m/s", c.club_speed)},
                     {"attack_deg", in("deg", c.attack)},
                     {"loft_deg", in("deg", c.loft)},
                     {"loft_for_carry_deg", in("deg", c.loft_for_carry)},
                     {"loft_for_total_deg", in("deg", c.loft_for_total)},
                     {"window_low_deg", in("deg", c.window.low)},
                     {"window_high_deg", in("deg", c.window.high)},
                     {"second_loft_deg", c.second_loft ? in("deg", *c.second_loft) : Json(nullptr)},
                     {"ball_speed_mps", in("m/s", c.drive.launch.ball_speed)},
                     {"launch_deg", in("deg", c.drive.launch.launch)},
                     {"spin_rpm", in("rpm", c.drive.launch.spin)},
                     {"carry_m", in("m", c.drive.flight.carry)},
                     {"total_m", in("m", c.drive.total)},
                     {"apex_m", in("m", c.drive.flight.apex)},
                     {"landing_deg", in("deg", c.drive.flight.landing_angle)},
                     {"at_loft_end", c.at_loft_end},
                     {"feasible", c.feasible},
                     {"must_give", c.feasible ? Json(nullptr) : Json(key_of(c.must_give))}});
  }
  for (const Limit& limit : pupil.limits) limits.push_back(limit_words(limit.quantity, limit.allowed, units));
  Json out{{"format", "loftwright-chart/1"},
           {"goal", key_of(chart.goal)},
           {"loft_low_deg", in("deg", chart.axes.loft.low)},
           {"loft_high_deg", in("deg", chart.axes.loft.high)},
           {"limits", limits},
           {"cells", cells},
           {"flights", chart.flights},
           {"cautions", cautions(units)}};
  add_circumstances(out, pupil, setting);
  return text_of(out);
}

std::string arc_json(const Arc& arc, const ArcAtBall& at_ball, Handed handed) {
  return text_of({{"format", "loftwright-arc/1"},
                  {"attack_deg", in("deg", at_ball.attack)},
                  {"path_deg", in("deg", at_ball.path)},
                  {"height_m", in("m", at_ball.height)},
                  {"low_point_m", in("m", arc.low_point)},
                  {"plane_deg", in("deg", arc.plane)},
                  {"radius_m", in("m", arc.radius)},
                  {"swing_direction_deg", in("deg", arc.swing_direction)},
                  {"handed", key_of(handed)}});
}

namespace {

Json misses_of(const Misses& m, std::string_view unit) { return {{"mean", in(unit, m.mean)}, {"rms", in(unit, m.rms)}}; }

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
  return {{"parameter", key_of(v.tunable)},
          {"prior", in("", v.prior)},
          {"prior_sd", in("", v.prior_sd)},
          {"value", in("", v.value)},
          {"sd", in("", v.sd)},
          {"low80", in("", v.low80)},
          {"high80", in("", v.high80)},
          {"low95", in("", v.low95)},
          {"high95", in("", v.high95)},
          {"doubt_removed", in("", v.removed)},
          {"identified", v.identified},
          {"at_end", v.at_end}};
}

Json tune_fit_of(const TuneResult& r) {
  Json correlations = Json::array();
  for (const auto& c : r.tuning().correlations) {
    correlations.push_back({{"between", {key_of(static_cast<Tunable>(c.first)), key_of(static_cast<Tunable>(c.second))}},
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

std::string tune_json(const TuneResult& result, std::string_view file, const std::string& block, const Pupil& pupil,
                      const Setting& setting, UnitSystem units) {
  Json parameters = Json::array(), readings = Json::array(), not_measured = Json::array(), notes = Json::array();
  for (const TunedValue& v : result.values) parameters.push_back(tuned_value_of(v));
  for (const TunedReading& r : result.readings) readings.push_back(tuned_reading_of(r));
  for (const Reading r : result.hidden) not_measured.push_back(info(r).key);
  for (const Note& n : result.notes) notes.push_back({{"line", n.line}, {"message", n.message}});
  Json out{{"format", "loftwright-tune/1"},
           {"file", file},
           {"shots", {{"fitted", result.shots}, {"with_strike", result.with_strike}, {"with_flight", result.with_flight}, {"with_run", result.with_run},
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
           {"tuned", Json::parse("{" + block + "}")["tuned"]}};
  add_circumstances(out, pupil, setting);
  return text_of(out);
}

std::string check_json(std::string_view file, const Findings& findings) {
  Json list = Json::array();
  int errors = 0;
  for (const Finding& f : findings) {
    const bool error = f.severity == Severity::error;
    errors += error;
    list.push_back({{"severity", error ? "error" : "warning"}, {"place", f.place}, {"message", f.message}});
  }
  return text_of({{"format", "loftwright-check/1"},
                  {"file", file},
                  {"usable", errors == 0},
                  {"errors", errors},
                  {"warnings", static_cast<int>(findings.size()) - errors},
                  {"findings", list}});
}

}  // namespace loftwright
