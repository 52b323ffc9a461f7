#include <fmt/format.h>

#include <cmath>
#include <istream>
#include <ostream>

#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/io/json_out.hpp"
#include "loftwright/io/pupil_file.hpp"

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

// A later column for the interval of a gain belongs beside the gain.
std::string strategies_table(const Advice& advice, UnitSystem units) {
  const auto head = [&](Shown what) { return std::string(unit_shown(what, units)); };
  std::vector<std::vector<std::string>> rows{
      {"", "loft", "attack", "launch", "spin", "carry", "total", "gain"},
      {"", head(Shown::angle), head(Shown::angle), head(Shown::angle), head(Shown::spin), head(Shown::distance), head(Shown::distance),
       head(Shown::gain)}};
  bool broken = false;
  for (const Strategy& s : advice.strategies) {
    broken = broken || !s.feasible;
    rows.push_back({std::string(title_of(s.kind)) + (s.feasible ? "" : " *"), number(Shown::angle, s.loft, units),
                    number(Shown::angle, s.attack, units, Sign::always), number(Shown::angle, s.drive.launch.launch, units),
                    number(Shown::spin, s.drive.launch.spin, units), number(Shown::distance, s.drive.flight.carry, units),
                    number(Shown::distance, s.drive.total, units),
                    s.kind == StrategyKind::as_is ? "" : number(Shown::gain, s.gain, units, Sign::always)});
  }
  return table(rows) + (broken ? "  * breaks a limit; see below\n" : "");
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

std::string list(std::string_view title, const std::vector<std::string>& items) {
  std::string lines;
  for (const std::string& item : items) lines += wrapped(printable(item), "  - ");
  return section(title, lines);
}

std::string advice_text(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  const std::string parts[] = {heading(pupil, setting, units),
                               strategies_table(advice, units),
                               wrapped(verdict_sentence(advice, pupil, units), "Verdict: "),
                               rates_table(advice, units),
                               trade_table(advice, units),
                               list("What holds each answer", holding_sentences(advice, units)),
                               list("Set-up", set_up_sentences(advice, units)),
                               list("Assumed", pupil.assumed),
                               list("Cautions", cautions(units))};
  std::string out;
  for (const std::string& part : parts) out += part.empty() ? "" : (out.empty() ? "" : "\n") + part;
  return out;
}

// A pupil's file from a pipe: as much as read_text would take from a file.
std::string all_of(std::istream& in) {
  constexpr std::size_t kMost = 8u << 20;  // [bytes]
  std::string text(kMost + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(in.gcount()));
  if (text.empty()) throw InputError("standard input is empty; a pupil's file is expected");
  if (text.size() > kMost) throw InputError(fmt::format("standard input is too large; allowed: at most {} bytes", kMost));
  return text;
}

Pupil pupil_from(const Session& session, Findings& warnings) {
  const std::string& file = session.values.positional();
  if (file != "-") return load_pupil(file, session.catalogue, &warnings);
  Findings findings;
  const auto pupil = read_pupil(all_of(session.in), ".", session.catalogue, findings);
  if (!pupil) throw FileError("standard input", findings);
  warnings = findings;
  return *pupil;
}

}  // namespace

int give_advice(const Session& session, const Pupil& pupil) {
  const Setting setting = setting_for(pupil, session.catalogue);
  const Advice advice = advise(pupil, setting);
  session.out << (session.json ? advise_json(advice, pupil, setting, session.units)
                               : advice_text(advice, pupil, setting, session.units));
  return advice.feasible ? kDone : kNo;
}

int cmd_advise(const Session& session) {
  Findings warnings;
  const Pupil pupil = pupil_from(session, warnings);
  if (!session.quiet) {
    for (const Finding& f : warnings) {
      session.err << wrapped(printable(fmt::format("{}{}{}", f.place, f.place.empty() ? "" : ": ", f.message)), "warning: ");
    }
  }
  return give_advice(session, pupil);
}

}  // namespace loftwright::cli
