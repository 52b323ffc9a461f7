#include <fmt/format.h>

#include <algorithm>

#include "loftwright/report/pages.hpp"
#include "loftwright/report/words.hpp"
#include "report/clinic_tables.hpp"
#include "report/page/bars.hpp"
#include "report/page/html.hpp"
#include "report/page/sheet.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kMostBars = 24;

struct Gain {
  const ClinicRow* row;
  std::string who;
};

// The pupils something can be done for, most gain first.
std::vector<Gain> gains_of(const ClinicAnswer& answer) {
  std::vector<Gain> out;
  for (std::size_t i = 0; i < answer.results.size(); ++i) {
    const auto& row = answer.results[i].row;
    if (row && row->feasible) out.push_back({&*row, who(row->name, answer.folder.files[i])});
  }
  std::stable_sort(out.begin(), out.end(), [](const Gain& a, const Gain& b) { return a.row->gain > b.row->gain; });
  return out;
}

std::string_view look_of(Lever lever) {
  switch (strategy_of(lever)) {
    case StrategyKind::loft_only: return "s-loft_only";
    case StrategyKind::technique_only: return "s-technique_only";
    case StrategyKind::both: return "s-both";
    case StrategyKind::as_is: break;
  }
  return "s-as_is";
}

std::string gains_figure(const ClinicAnswer& answer, UnitSystem units) {
  constexpr std::size_t kNameWidth = 30;
  const std::vector<Gain> gains = gains_of(answer);
  if (gains.empty()) return "";
  std::vector<Bar> rows;
  std::string told;
  for (const Gain& g : gains) {
    if (rows.size() == kMostBars) break;
    const std::string words =
        fmt::format("{}: {}, {}", cut_to(g.who, kNameWidth),
                    g.row->lever == Lever::leave ? "change nothing" : std::string(key_of(g.row->lever)),
                    quantity(Shown::gain, g.row->gain, units, Sign::always));
    Bar bar{words, g.row->gain, std::nullopt, std::string(look_of(g.row->leader))};
    if (g.row->gain_low && g.row->gain_high && g.row->leader != Lever::leave)
      bar.interval = std::pair(*g.row->gain_low, *g.row->gain_high);
    rows.push_back(bar);
    told += words + ". ";
  }
  const std::string which = gains.size() > kMostBars
                                ? fmt::format("The {} with most to gain of {}. ", kMostBars, gains.size())
                                : std::string();
  return "<figure>\n" + bars("gains", "What each pupil could gain", told, rows, units).text() +
         fmt::format(
             "<p class=\"note\">{}Eight times in ten the gain lies within the line across the end of its bar, as "
             "far as is known.</p>\n</figure>\n",
             which);
}

}  // namespace

std::string clinic_page(const ClinicAnswer& answer, const std::vector<std::string>& pages, UnitSystem units) {
  constexpr std::size_t kNameWidth = 60;
  Sheet sheet;
  std::vector<std::string> links;
  for (std::size_t i = 0; i < answer.results.size(); ++i) {
    if (answer.results[i].row) links.push_back(as_address(pages[i]));
  }
  const std::vector<std::string> sentences = clinic_sentences(answer, units);
  sheet.title = fmt::format("A clinic of {} pupils", links.size());
  sheet.body = fmt::format("<header>\n<h1>The clinic</h1>\n<p class=\"who\">{} pupils</p>\n</header>\n", links.size());
  sheet.body += fmt::format("<p class=\"verdict\">{}</p>\n", typed(sentences.front()));
  for (std::size_t i = 1; i < sentences.size(); ++i) sheet.body += fmt::format("<p>{}</p>\n", typed(sentences[i]));
  TextTable rows = clinic_table(answer, units, kNameWidth);
  rows.title = "Each pupil; the name leads to the page to take home";
  sheet.body +=
      part("pupils", "Who should change what", html_table(rows, links) + bullets(infeasible_sentences(answer, units)));
  sheet.body += part("academy", "From the academy's lessons", bullets(academy_sentences(answer, units)));
  const std::string left_out = left_out_sentence(answer.folder);
  const std::vector<std::string> failed = failed_sentences(answer.folder, answer.results);
  sheet.body += "<div class=\"pair\">\n" + part("gains-part", "Who has most to gain", gains_figure(answer, units)) +
                "<div>\n" + part("care", "Take care", bullets(cautions(units))) +
                part("failed", "Not answered: these files cannot be used", bullets(failed)) +
                (left_out.empty() ? "" : part("left-out", "Left out", "<p>" + typed(left_out) + "</p>\n")) +
                "</div>\n</div>\n";
  sheet.data = answer_element(clinic_json(answer, units));
  return whole_page(sheet);
}

}  // namespace loftwright
