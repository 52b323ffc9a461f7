#include "report/advice_tables.hpp"

#include <fmt/format.h>

#include "loftwright/core/units.hpp"
#include "loftwright/report/advice_words.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

// A row is short of room.
std::string short_title(StrategyKind kind) {
  constexpr EnumArray<StrategyKind, std::string_view> titles{"as is", "loft", "technique", "both"};
  return std::string(titles[kind]);
}

// The averages are over all that the swing may be, which few drives leave wide open.
std::string few_measured_words(const Advice& advice, UnitSystem units) {
  constexpr double kWorthSaying = 3.0 * 0.9144;  // [m] as much as a change must bring
  if (!advice.confidence || !advice.confidence->goal_as_measured) return "";
  const double as_measured = *advice.confidence->goal_as_measured;
  if (as_measured - advice.at(StrategyKind::as_is).goal < kWorthSaying) return "";
  return fmt::format(
      "So few drives were measured that these averages are over very different swings. With the swing just as measured "
      "as is would {} {}: measure more drives.",
      advice.goal == Goal::carry ? "carry" : "come to rest at", quantity(Shown::distance, as_measured, units));
}

}  // namespace

TextTable strategies_table(const Advice& advice, UnitSystem units) {
  const auto head = [&](Shown what) { return std::string(unit_shown(what, units)); };
  TextTable table;
  table.heads = 2;
  table.rows = {{"", "loft", "attack", "launch", "spin", "carry", "total", "held", "gain"},
                {"", head(Shown::angle), head(Shown::angle), head(Shown::angle), head(Shown::spin),
                 head(Shown::distance), head(Shown::distance), "%", head(Shown::gain)}};
  const bool judging = advice.confidence && advice.feasible;
  if (judging) {
    table.rows[0].emplace_back("8 in 10");
    table.rows[1].emplace_back("gain");
  }
  bool broken = false;
  std::string well_struck;
  for (const Strategy& s : advice.strategies) {
    broken = broken || !s.feasible;
    table.rows.push_back(
        {short_title(s.kind) + (s.feasible ? "" : " *"), number(Shown::angle, s.loft, units),
         number(Shown::angle, s.attack, units, Sign::always), number(Shown::angle, s.drive.launch.launch, units),
         number(Shown::spin, s.drive.launch.spin, units), number(Shown::distance, s.average.carry, units),
         number(Shown::distance, s.average.total, units), fmt::format("{:.0f}", 100.0 * s.average.fairway_share),
         s.kind == StrategyKind::as_is || !s.feasible ? "" : number(Shown::gain, s.gain, units, Sign::always)});
    well_struck += fmt::format("{}{} {} and {}", well_struck.empty() ? "" : ", ", title_of(s.kind),
                               number(Shown::distance, s.drive.flight.carry, units),
                               number(Shown::distance, s.drive.total, units));
    if (!judging) continue;
    const auto& judged = advice.confidence->at(s.kind);
    table.rows.back().push_back(judged ? interval_numbers(judged->gain, units) : "");
  }
  if (broken) table.notes.emplace_back("* breaks a limit; see below");
  table.notes.push_back(
      fmt::format("Carry, total and gain are the average drive's, mishits and all. Held: so many of 100 drives, aimed "
                  "at it, rest on the fairway. Well struck, carry and total: {} {}.",
                  well_struck, unit_shown(Shown::distance, units)));
  const std::string few = few_measured_words(advice, units);
  if (!few.empty()) table.notes.push_back(few);
  return table;
}

TextTable confidence_table(const Advice& advice, UnitSystem units) {
  TextTable table{"How sure", {}, 2, {}};
  if (!advice.confidence || !advice.feasible) return table;
  const std::string far(unit_shown(Shown::distance, units)), fine(unit_shown(Shown::gain, units));
  table.rows = {{"", "gain", "8 in 10", "price", "left", "best", "drives", "8 of 10"},
                {"", fine, far, fine, fine, "choice", "gaining", "drives"}};
  for (const Choice& c : advice.choices) {
    if (!c.feasible) continue;
    const StrategyKind kind = strategy_of(c.lever);
    const auto& judged = advice.confidence->at(kind);
    std::vector<std::string> row{c.lever == Lever::leave ? std::string("leave") : short_title(kind),
                                 number(Shown::gain, c.gain, units, Sign::always),
                                 judged ? interval_numbers(judged->gain, units) : "",
                                 number(Shown::gain, c.price, units),
                                 number(Shown::gain, c.net_gain, units, Sign::always),
                                 probability_words(c.best_probability)};
    row.push_back(judged ? probability_words(judged->drives_gaining) : "");
    row.push_back(judged ? interval_numbers(judged->drive_gain, units) : "");
    table.rows.push_back(std::move(row));
  }
  table.notes.push_back(
      fmt::format("Gain: of the average drive, and between which gains it lies eight times in ten as far as is known. "
                  "Price: what the pupil wants back "
                  "for it; left: gain less price. Drives: single ones, further than the same swing would have sent "
                  "them before. Sure, likely: how often nothing else leaves over {} more. {} draws, seed {}{}.",
                  quantity(Shown::gain, kEqual, units), advice.confidence->draws, advice.confidence->seed,
                  reads_as_zero(Shown::distance, advice.confidence->misfit, units)
                      ? std::string()
                      : fmt::format("; read off a surface that misfits by up to {}",
                                    quantity(Shown::gain, advice.confidence->misfit, units))));
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
  TextTable table{"What one step buys a well-struck drive now",
                  {{"", "carry", "total"},
                   row("attack 1 deg higher, loft following", r.attack, degree),
                   row("attack 1 deg higher, loft held", r.attack_loft_held, degree),
                   row("1 deg more loft", r.loft, degree),
                   row(fmt::format("1 {} more club speed", speed_unit), r.club_speed, unit(speed_unit).factor),
                   row("100 rpm more spin, same launch", r.launch_spin, 100.0 * rpm)},
                  1,
                  {"In the first row delivered loft comes with the attack, and club speed where the file says so; "
                   "everywhere else all else is held."}};
  const std::string worth = worth_sentence(advice, units);
  if (!worth.empty()) table.notes.push_back(worth);
  return table;
}

TextTable trade_table(const Advice& advice, UnitSystem units) {
  const std::string whole = quantity(Shown::gain, advice.at(StrategyKind::both).gain, units);
  TextTable table{
      fmt::format("How little change of attack each loft needs for a share of the whole {}", whole), {}, 1, {}};
  if (advice.trade.empty()) return table;
  table.rows = {{"loft", "gain, attack as is"}};
  for (const double share : kTradeShares) table.rows.front().push_back(fmt::format("for {:.0f} %", 100.0 * share));
  bool broken = false;
  for (const TradeRow& r : advice.trade) {
    broken = broken || r.breaks_limit;
    table.rows.push_back({quantity(Shown::angle, r.loft, units) + (r.breaks_limit ? " *" : ""),
                          quantity(Shown::gain, r.gain_at_present_attack, units, Sign::always)});
    for (const auto& change : r.attack_change) {
      table.rows.back().push_back(change ? quantity(Shown::angle, *change, units, Sign::always) : "out of reach");
    }
  }
  if (broken) table.notes.emplace_back("* breaks a limit with the attack as it is");
  return table;
}

std::vector<std::string> effort_sentences(const Advice& advice, const Pupil& pupil, UnitSystem units) {
  std::vector<std::string> out;
  for (const EffortPoint& p : advice.effort_front) {
    std::string what;
    for (const std::size_t option : p.options) what += fmt::format(", {}", pupil.reach.options[option].name);
    out.push_back(fmt::format("effort {:.1f} gains {}: {} of loft, attack {}{}", p.effort,
                              quantity(Shown::gain, p.gain, units), loft_words(p.loft, p.fit),
                              quantity(Shown::angle, p.attack, units, Sign::always), what));
  }
  return out;
}

}  // namespace loftwright
