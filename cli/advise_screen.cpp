#include "advise_screen.hpp"

#include <fmt/format.h>

#include <cmath>

#include "layout.hpp"
#include "loftwright/core/units.hpp"

namespace loftwright::cli {

namespace {

std::string heading(const Pupil& pupil, const Setting& setting, UnitSystem units) {
  const Delivery& d = pupil.delivery;
  const auto angle = [&](double si, Sign sign = Sign::minus_only) { return quantity(Shown::angle, si, units, sign); };
  std::string out = wrapped(fmt::format("{}, {}-handed, playing for {}", pupil.name.empty() ? "A pupil" : printable(pupil.name),
                                        key_of(pupil.handed), key_of(pupil.goal)));
  std::string now = fmt::format("Now: {} driver, {} of club speed, attack {}, dynamic loft {}, path {}, face {}", angle(pupil.club_loft),
                                quantity(Shown::speed, d.club_speed, units), angle(d.attack, Sign::always), angle(d.dynamic_loft),
                                angle(d.path, Sign::always), angle(d.face, Sign::always));
  if (d.toe != 0.0 || d.high != 0.0) {
    now += fmt::format(", struck {} to the {} and {} {}", quantity(Shown::on_face, std::abs(d.toe), units),
                       d.toe < 0.0 ? "heel" : "toe", quantity(Shown::on_face, std::abs(d.high), units),
                       d.high < 0.0 ? "low" : "high");
  }
  return out + wrapped(now + ".") + wrapped(conditions_words(pupil, setting, units));
}

std::string strategies_table(const Advice& advice, UnitSystem units) {
  const auto head = [&](Shown what) { return std::string(unit_shown(what, units)); };
  std::vector<std::vector<std::string>> rows{
      {"", "loft", "attack", "launch", "spin", "carry", "total", "gain"},
      {"", head(Shown::angle), head(Shown::angle), head(Shown::angle), head(Shown::spin), head(Shown::distance), head(Shown::distance),
       head(Shown::gain)}};
  if (advice.confidence && advice.feasible) {
    rows[0].emplace_back("8 in 10");
    rows[1].emplace_back("gain");
  }
  bool broken = false;
  for (const Strategy& s : advice.strategies) {
    broken = broken || !s.feasible;
    rows.push_back({std::string(title_of(s.kind)) + (s.feasible ? "" : " *"), number(Shown::angle, s.loft, units),
                    number(Shown::angle, s.attack, units, Sign::always), number(Shown::angle, s.drive.launch.launch, units),
                    number(Shown::spin, s.drive.launch.spin, units), number(Shown::distance, s.drive.flight.carry, units),
                    number(Shown::distance, s.drive.total, units),
                    s.kind == StrategyKind::as_is || !s.feasible ? "" : number(Shown::gain, s.gain, units, Sign::always)});
    if (!advice.confidence || !advice.feasible) continue;
    const auto& judged = advice.confidence->at(s.kind);
    rows.back().push_back(judged ? interval_numbers(judged->gain, units) : "");
  }
  return table(rows) + (broken ? "  * breaks a limit; see below\n" : "");
}

std::string confidence_table(const Advice& advice, const Pupil& pupil, UnitSystem units) {
  if (!advice.confidence || !advice.feasible) return "";
  const std::string unit_text(unit_shown(Shown::distance, units));
  std::vector<std::vector<std::string>> rows{
      {"8 drives in 10 gain", "in all", "by scatter", "by the rest", fmt::format("{} or more", quantity(Shown::gain, pupil.worthwhile, units))},
      {"", unit_text, unit_text, unit_text, "in"}};
  for (const Strategy& s : advice.strategies) {
    const auto& judged = advice.confidence->at(s.kind);
    if (!judged) continue;
    rows.push_back({std::string(title_of(s.kind)), interval_numbers(judged->gain, units), interval_numbers(judged->gain_shots, units),
                    interval_numbers(judged->gain_knowledge, units), probability_words(judged->worthwhile_probability)});
  }
  std::string out = table(rows);
  for (const std::string& sentence : odds_sentences(advice)) out += wrapped(sentence, "  - ");
  return out + wrapped(fmt::format("{} draws, seed {}. Scatter is the player's own, from drive to drive: practice shrinks it. The rest is what "
                                   "the model and a few measured shots leave open: measuring shrinks it.",
                                   advice.confidence->draws, advice.confidence->seed), "  ");
}

std::string rates_table(const Advice& advice, UnitSystem units) {
  const ExchangeRates& r = advice.rates;
  const double degree = unit("deg").factor, rpm = unit("rpm").factor;
  const std::string speed_unit(unit_shown(Shown::speed, units));
  const auto row = [&](std::string what, const Rate& rate, double step) -> std::vector<std::string> {
    return {std::move(what), quantity(Shown::gain, rate.carry * step, units, Sign::always),
            quantity(Shown::gain, rate.total * step, units, Sign::always)};
  };
  const std::string worth = worth_sentence(advice, units);
  return section("What one step buys now, all else held",
                 table({{"", "carry", "total"},
                        row("attack 1 deg higher", r.attack, degree),
                        row("1 deg more loft", r.loft, degree),
                        row(fmt::format("1 {} more club speed", speed_unit), r.club_speed, unit(speed_unit).factor),
                        row("100 rpm more spin, same launch", r.launch_spin, 100.0 * rpm)}) +
                     (worth.empty() ? "" : wrapped(worth)));
}

std::string trade_table(const Advice& advice, UnitSystem units) {
  if (advice.trade.empty()) return "";
  std::vector<std::vector<std::string>> rows{{"loft", "gain, swing as is"}};
  for (const double share : kTradeShares) rows.front().push_back(fmt::format("for {:.0f} %", 100.0 * share));
  for (const TradeRow& r : advice.trade) {
    rows.push_back({quantity(Shown::angle, r.loft, units), quantity(Shown::gain, r.gain_at_present_attack, units, Sign::always)});
    for (const auto& change : r.attack_change) {
      rows.back().push_back(change ? quantity(Shown::angle, *change, units, Sign::always) : "out of reach");
    }
  }
  const std::string whole = quantity(Shown::gain, advice.at(StrategyKind::both).gain, units);
  return section(fmt::format("How little change of attack each loft needs for a share of the whole {}", whole), table(rows));
}

std::string effort_table(const Advice& advice, const Pupil& pupil, UnitSystem units) {
  std::string lines;
  for (const EffortPoint& p : advice.effort_front) {
    std::string what;
    for (const std::size_t option : p.options) what += fmt::format(", {}", printable(pupil.reach.options[option].name));
    lines += wrapped(fmt::format("effort {:.1f} gains {}: {} of loft, attack {}{}", p.effort, quantity(Shown::gain, p.gain, units),
                                 quantity(Shown::angle, p.loft, units), quantity(Shown::angle, p.attack, units, Sign::always), what),
                     "  - ");
  }
  return section("Most gain for each effort", lines);
}

std::string list(std::string_view title, const std::vector<std::string>& items) {
  std::string lines;
  for (const std::string& item : items) lines += wrapped(printable(item), "  - ");
  return section(title, lines);
}

}  // namespace

std::string explanation_text(const Advice& advice, UnitSystem units) {
  std::string text;
  for (const std::string& sentence : explanation(advice, units)) text += (text.empty() ? "" : " ") + sentence;
  return wrapped(text);
}

std::string advise_screen(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  const std::string parts[] = {heading(pupil, setting, units),
                               strategies_table(advice, units),
                               wrapped(verdict_sentence(advice, pupil, units), "Verdict: "),
                               section("How sure", confidence_table(advice, pupil, units)),
                               list("What technique against loft leans on", leaning_sentences(advice, units)),
                               list("What knowing more first would be worth, on average", measuring_sentences(advice, units)),
                               rates_table(advice, units),
                               trade_table(advice, units),
                               effort_table(advice, pupil, units),
                               list("What holds each answer", holding_sentences(advice, units)),
                               list("Set-up", set_up_sentences(advice, units)),
                               list("Assumed", pupil.assumed),
                               list("Cautions", cautions(units))};
  std::string out;
  for (const std::string& part : parts) out += part.empty() ? "" : (out.empty() ? "" : "\n") + part;
  return out;
}

}  // namespace loftwright::cli
