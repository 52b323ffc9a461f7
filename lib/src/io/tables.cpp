#include "loftwright/io/tables.hpp"

#include <fmt/format.h>

#include "loftwright/core/units.hpp"

namespace loftwright {

TextTable strategies_table(const Advice& advice, UnitSystem units) {
  const auto head = [&](Shown what) { return std::string(unit_shown(what, units)); };
  TextTable table;
  table.heads = 2;
  table.rows = {{"", "loft", "attack", "launch", "spin", "carry", "total", "gain"},
                {"", head(Shown::angle), head(Shown::angle), head(Shown::angle), head(Shown::spin), head(Shown::distance), head(Shown::distance),
                 head(Shown::gain)}};
  const bool judging = advice.confidence && advice.feasible;
  if (judging) {
    table.rows[0].emplace_back("8 in 10");
    table.rows[1].emplace_back("gain");
  }
  bool broken = false;
  for (const Strategy& s : advice.strategies) {
    broken = broken || !s.feasible;
    table.rows.push_back({std::string(title_of(s.kind)) + (s.feasible ? "" : " *"), number(Shown::angle, s.loft, units),
                          number(Shown::angle, s.attack, units, Sign::always), number(Shown::angle, s.drive.launch.launch, units),
                          number(Shown::spin, s.drive.launch.spin, units), number(Shown::distance, s.drive.flight.carry, units),
                          number(Shown::distance, s.drive.total, units),
                          s.kind == StrategyKind::as_is || !s.feasible ? "" : number(Shown::gain, s.gain, units, Sign::always)});
    if (!judging) continue;
    const auto& judged = advice.confidence->at(s.kind);
    table.rows.back().push_back(judged ? interval_numbers(judged->gain, units) : "");
  }
  if (broken) table.notes.emplace_back("* breaks a limit; see below");
  return table;
}

TextTable confidence_table(const Advice& advice, const Pupil& pupil, UnitSystem units) {
  TextTable table{"How sure", {}, 2, {}};
  if (!advice.confidence || !advice.feasible) return table;
  const std::string unit_text(unit_shown(Shown::distance, units));
  table.rows = {{"8 drives in 10 gain", "in all", "by scatter", "by the rest", fmt::format("{} or more", quantity(Shown::gain, pupil.worthwhile, units))},
                {"", unit_text, unit_text, unit_text, "in"}};
  for (const Strategy& s : advice.strategies) {
    const auto& judged = advice.confidence->at(s.kind);
    if (!judged) continue;
    table.rows.push_back({std::string(title_of(s.kind)), interval_numbers(judged->gain, units), interval_numbers(judged->gain_shots, units),
                          interval_numbers(judged->gain_knowledge, units), probability_words(judged->worthwhile_probability)});
  }
  table.notes.push_back(
      fmt::format("{} draws, seed {}. Scatter is the player's own, from drive to drive: practice shrinks it. The rest is what "
                  "the model and a few measured shots leave open: measuring shrinks it.",
                  advice.confidence->draws, advice.confidence->seed));
  return table;
}

TextTable rates_table(const Advice& advice, UnitSystem units) {
  const ExchangeRates& r = advice.rates;
  const double degree = unit("deg").factor, rpm = unit("rpm").factor;
  const std::string speed_unit(unit_shown(Shown::speed, units));
  const auto row = [&](std::string what, const Rate& rate, double step) -> std::vector<std::string> {
    return {std::move(what), quantity(Shown::gain, rate.carry * step, units, Sign::always),
            quantity(Shown::gain, rate.total * step, units, Sign::always)};
  };
  TextTable table{"What one step buys now",
              {{"", "carry", "total"},
               row("attack 1 deg higher, loft following", r.attack, degree),
               row("attack 1 deg higher, loft held", r.attack_loft_held, degree),
               row("1 deg more loft", r.loft, degree),
               row(fmt::format("1 {} more club speed", speed_unit), r.club_speed, unit(speed_unit).factor),
               row("100 rpm more spin, same launch", r.launch_spin, 100.0 * rpm)},
              1,
              {"In the first row delivered loft comes with the attack, and club speed where the file says so; everywhere else all else is held."}};
  const std::string worth = worth_sentence(advice, units);
  if (!worth.empty()) table.notes.push_back(worth);
  return table;
}

TextTable trade_table(const Advice& advice, UnitSystem units) {
  const std::string whole = quantity(Shown::gain, advice.at(StrategyKind::both).gain, units);
  TextTable table{fmt::format("How little change of attack each loft needs for a share of the whole {}", whole), {}, 1, {}};
  if (advice.trade.empty()) return table;
  table.rows = {{"loft", "gain, swing as is"}};
  for (const double share : kTradeShares) table.rows.front().push_back(fmt::format("for {:.0f} %", 100.0 * share));
  for (const TradeRow& r : advice.trade) {
    table.rows.push_back({quantity(Shown::angle, r.loft, units), quantity(Shown::gain, r.gain_at_present_attack, units, Sign::always)});
    for (const auto& change : r.attack_change) {
      table.rows.back().push_back(change ? quantity(Shown::angle, *change, units, Sign::always) : "out of reach");
    }
  }
  return table;
}

std::vector<std::string> effort_sentences(const Advice& advice, const Pupil& pupil, UnitSystem units) {
  std::vector<std::string> out;
  for (const EffortPoint& p : advice.effort_front) {
    std::string what;
    for (const std::size_t option : p.options) what += fmt::format(", {}", pupil.reach.options[option].name);
    out.push_back(fmt::format("effort {:.1f} gains {}: {} of loft, attack {}{}", p.effort, quantity(Shown::gain, p.gain, units),
                              quantity(Shown::angle, p.loft, units), quantity(Shown::angle, p.attack, units, Sign::always), what));
  }
  return out;
}

}  // namespace loftwright
