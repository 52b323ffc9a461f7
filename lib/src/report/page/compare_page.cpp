#include "loftwright/report/pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/core/units.hpp"
#include "loftwright/report/json.hpp"
#include "report/compare_tables.hpp"
#include "report/page/bars.hpp"
#include "report/page/html.hpp"
#include "report/page/sheet.hpp"
#include "report/page/shots_picture.hpp"
#include "report/page/svg.hpp"
#include "report/shot_words.hpp"

namespace loftwright {

namespace {

Reading goal_of(const CompareAnswer& a) { return a.options.goal == Goal::carry ? Reading::carry : Reading::total; }

// The goal of every shot counted of a list.
ShotsRow row_of(const CompareAnswer& a, const CompareAnswer::Side& side, const Summary& summary, std::string word,
                std::string_view look, Mark mark) {
  return {std::move(word), look, mark, values_of(counted(side.hitting.list, a.options.odd), goal_of(a)), summary, {}};
}

std::string shots_part(const CompareAnswer& a, UnitSystem units) {
  const ComparedReading& goal = *a.comparison.find(goal_of(a));
  return shots_figure(fmt::format("{} of every shot, before and after", info(goal_of(a)).title),
                      {row_of(a, a.before, goal.before, "before", "s-as_is", Mark::circle),
                       row_of(a, a.after, goal.after, "after", "s-both", Mark::diamond)},
                      units);
}

std::string change_picture(const CompareAnswer& a, UnitSystem units) {
  if (!a.change) return "";
  constexpr EnumArray<Factor, std::string_view> kLooks{"s-as_is", "s-technique_only", "s-loft_only", "s-as_is",
                                                       "s-as_is", "s-as_is",          "s-as_is"};
  std::vector<Bar> rows;
  const auto add = [&](std::string_view what, const Estimate& e, std::string_view look) {
    rows.push_back(
        {fmt::format("{}  {} ({} to {})", what, quantity(Shown::gain, e.value, units, Sign::always),
                     number(Shown::gain, e.low, units, Sign::always), number(Shown::gain, e.high, units, Sign::always)),
         e.value, std::pair{e.low, e.high}, std::string(look)});
  };
  for (const Factor f : kAllOf<Factor>) {
    const Estimate& share = a.change->shares[f];
    if (share.value != 0.0 || share.low != 0.0 || share.high != 0.0)
      add(title_of(f, a.change->club_known), share, kLooks[f]);
  }
  add("all by the model", a.change->modelled, "s-both");
  if (a.change->unexplained) add("measured beyond that", *a.change->unexplained, "s-as_is");
  std::string told;
  for (const Bar& row : rows) told += (told.empty() ? "" : "; ") + row.words;
  const Drawing d = bars("change", fmt::format("Which change made which part of the {}", info(goal_of(a)).title),
                         told + ".", rows, units);
  return "<figure>\n" + d.text() +
         fmt::format("<p class=\"note\">Lines: {} intervals.</p>\n</figure>\n", confidence_words(a.options.confidence));
}

std::string big_numbers(const CompareAnswer& a, UnitSystem units) {
  const ComparedReading& goal = *a.comparison.find(goal_of(a));
  const std::string far(unit_shown(Shown::distance, units));
  return big_numbers_of(
      big_number(fmt::format("{} before", info(goal_of(a)).title), number(Shown::distance, goal.before.mean, units),
                 far, shots_words(a.before.hitting.list, a.options.odd)) +
      big_number(fmt::format("{} after", info(goal_of(a)).title), number(Shown::distance, goal.after.mean, units), far,
                 shots_words(a.after.hitting.list, a.options.odd)) +
      big_number("change", number(Shown::gain, goal.test.difference, units, Sign::always), far,
                 fmt::format("{} interval: {} to {} {}", confidence_words(a.options.confidence),
                             number(Shown::gain, goal.test.low, units, Sign::always),
                             number(Shown::gain, goal.test.high, units, Sign::always), far)));
}

std::string coach_part(const CompareAnswer& a, UnitSystem units,
                       const std::vector<std::pair<std::string, std::string>>& inputs) {
  std::string out;
  for (const std::string& note : compare_notes(a)) out += paragraph(note);
  out +=
      html_table(readings_table(a, units)) + html_table(change_table(a, units)) + html_table(reached_table(a, units));
  const std::string before = conditions_words(a.before.hitting.setting, units),
                    after = conditions_words(a.after.hitting.setting, units);
  out += paragraph("The model: " + before);
  if (after != before) out += paragraph("After: " + after);
  std::string texts;
  for (const auto& [name, text] : inputs)
    texts += fmt::format("# {}\n{}{}", name, text, text.ends_with('\n') ? "\n" : "\n\n");
  return out +
         input_again(texts, "before.csv and after.csv", "loftwright compare before.csv after.csv --html page.html");
}

}  // namespace

std::string compare_page(const CompareAnswer& a, UnitSystem units,
                         const std::vector<std::pair<std::string, std::string>>& inputs) {
  Sheet sheet;
  const std::string& name = a.name;
  sheet.title = fmt::format("Before and after: {}{}, {}", name.empty() ? "" : name + ": ", a.before.file, a.after.file);
  sheet.body = fmt::format("<header>\n<h1>Before and after</h1>\n<p class=\"who\">{}{}, then {}</p>\n</header>\n",
                           name.empty() ? "" : typed(name) + ": ", typed(a.before.file), typed(a.after.file));
  sheet.body +=
      paragraph(verdict_sentence(a.comparison, a.options, a.change, units), "verdict") + big_numbers(a, units);
  sheet.body += "<div class=\"pair\">\n" + part("shots-part", "Every shot", shots_part(a, units)) +
                part("change-part", "What made the change", change_picture(a, units)) + "</div>\n";
  sheet.body += part("care", "Take care", bullets(cautions(units)));
  sheet.body += part("coach", "For the coach", coach_part(a, units, inputs), "coach");
  sheet.data = answer_element(compare_json(a, units));
  return whole_page(sheet);
}

}  // namespace loftwright
