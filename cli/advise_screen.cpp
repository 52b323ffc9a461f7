#include "advise_screen.hpp"

#include <fmt/format.h>

#include "layout.hpp"
#include "loftwright/report/advice_words.hpp"
#include "report/advice_tables.hpp"
#include "report/ladder_words.hpp"

namespace loftwright::cli {

namespace {

std::string heading(const Pupil& pupil, const Setting& setting, UnitSystem units) {
  return wrapped(fmt::format("{}, {}", pupil.name.empty() ? "A pupil" : printable(pupil.name), pupil_words(pupil))) +
         wrapped(delivery_words(pupil, units)) + wrapped(conditions_words(setting, units));
}

std::string lines(const std::vector<std::string>& items) {
  std::string out;
  for (const std::string& item : items) out += wrapped(printable(item), "  - ");
  return out;
}

// Parts with a line between them; nothing for those that are empty.
std::string joined(std::initializer_list<std::string> parts) {
  std::string out;
  for (const std::string& part : parts) out += part.empty() ? "" : (out.empty() ? "" : "\n") + part;
  return out;
}

std::string list(std::string_view title, const std::vector<std::string>& items) { return section(title, lines(items)); }

std::string drives_line(const Advice& advice, UnitSystem units) {
  std::string out;
  for (const std::string& told : {drives_sentence(advice, units), reached_sentence(advice, units)}) {
    if (!told.empty()) out += wrapped(told);
  }
  return out;
}

}  // namespace

std::string cautions_text(UnitSystem units) { return list("Cautions", cautions(units)); }

std::string explanation_text(const Advice& advice, UnitSystem units) {
  std::string text;
  for (const std::string& sentence : explanation(advice, units)) text += (text.empty() ? "" : " ") + sentence;
  return wrapped(text) + "\n" + wrapped(verdict_sentence(advice, units), "Verdict: ") + "\n" + cautions_text(units);
}

std::string advise_screen(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  return joined(
      {heading(pupil, setting, units), laid_out(strategies_table(advice, units), "", "  "),
       wrapped(verdict_sentence(advice, units), "Verdict: ") + drives_line(advice, units),
       laid_out(confidence_table(advice, units), lines(odds_sentences(advice)), "  "),
       list("Which lofts", loft_sentences(advice, units)),
       list("What the choice leans on", leaning_sentences(advice, units)),
       list("Value of information, on average: what knowing more first is worth", measuring_sentences(advice, units)),
       laid_out(rates_table(advice, units)), laid_out(trade_table(advice, units)),
       list("Most gain for each effort", effort_sentences(advice, pupil, units)),
       list("What holds each answer", holding_sentences(advice, units)),
       list("Set-up", set_up_sentences(advice, units)), list("Assumed", pupil.assumed), cautions_text(units)});
}

std::string ladder_screen(const Ladder& ladder, const Advice& advice, const Pupil& pupil, const Setting& setting,
                          UnitSystem units) {
  return joined({wrapped(ladder_sentence(ladder, advice, units)), heading(pupil, setting, units),
                 wrapped(verdict_sentence(advice, units), "Verdict: "), laid_out(ladder_table(ladder, advice, units)),
                 laid_out(ladder_set_up_table(ladder, units)),
                 list("How to know, and when", ladder_sentences(ladder, pupil, advice, units)),
                 list("Assumed", pupil.assumed), cautions_text(units)});
}

}  // namespace loftwright::cli
