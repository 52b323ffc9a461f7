#include <fmt/format.h>

#include <array>

#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "loftwright/report/words.hpp"
#include "report/heads_words.hpp"
#include "report/page/bars.hpp"
#include "report/page/html.hpp"
#include "report/page/sheet.hpp"
#include "report/page/shots_picture.hpp"
#include "report/shot_words.hpp"

namespace loftwright {

namespace {

struct Look {
  std::string_view look;
  Mark mark;
};
constexpr Look kInHand{"s-as_is", Mark::circle};
constexpr std::array kOthers{Look{"s-both", Mark::diamond}, Look{"s-loft_only", Mark::square},
                             Look{"s-technique_only", Mark::triangle}};

// Room for a name in a picture.
std::string short_name(const std::string& name) {
  constexpr std::size_t kMost = 28;
  const std::string_view shown = fitting(name, kMost);
  return std::string(shown) + (shown.size() < name.size() ? "..." : "");
}

// The one in hand looks as the swing as is does on other pages; the others take turns.
Look look_of(const HeadsAnswer& a, std::size_t head) {
  if (a.in_hand == head) return kInHand;
  const std::size_t place = a.in_hand && *a.in_hand < head ? head - 1 : head;
  return kOthers[place % kOthers.size()];
}

std::string shots_part(const HeadsAnswer& a, UnitSystem units) {
  std::vector<ShotsRow> rows;
  for (std::size_t i = 0; i < a.heads.size(); ++i) {
    const HeadResult& h = a.heads[i];
    const AverageReading& goal = a.options.goal == Goal::carry ? *h.carry : *h.total;
    rows.push_back({short_name(a.heads[i].name) + (a.in_hand == i ? " (in hand)" : ""), look_of(a, i).look,
                    look_of(a, i).mark, h.goals, goal.summary, std::pair{goal.low, goal.high}});
  }
  return shots_figure(fmt::format("{} of every shot, head by head", key_of(a.options.goal)), std::move(rows), units);
}

std::string apart_part(const HeadsAnswer& a, UnitSystem units) {
  std::vector<Bar> rows;
  std::string told;
  for (std::size_t i = 0; i < a.heads.size(); ++i) {
    if (i == a.against()) continue;
    const PairTest& test = a.pair(i, a.against()).test;
    const double sign = i < a.against() ? 1.0 : -1.0;
    const double low = sign > 0.0 ? test.low : -test.high, high = sign > 0.0 ? test.high : -test.low;
    const std::string words =
        fmt::format("{}  {} ({} to {})", short_name(a.heads[i].name),
                    quantity(Shown::gain, sign * test.difference, units, Sign::always),
                    number(Shown::gain, low, units, Sign::always), number(Shown::gain, high, units, Sign::always));
    rows.push_back({words, sign * test.difference, std::pair{low, high}, std::string(look_of(a, i).look)});
    told += (told.empty() ? "" : "; ") + words;
  }
  const std::string against = short_name(a.heads[a.against()].name);
  const Drawing d = bars("apart", fmt::format("How much further than {}", against), told + ".", rows, units);
  return "<figure>\n" + d.text() +
         fmt::format("<p class=\"note\">Against {}{}. Lines: {} intervals, all at once.</p>\n</figure>\n",
                     typed(against), a.in_hand ? ", the one in hand" : ", the leader",
                     confidence_words(a.options.confidence));
}

std::string big_numbers(const HeadsAnswer& a, UnitSystem units) {
  const std::size_t shown = a.better().value_or(0), other = shown == a.against() ? 1 : a.against();
  const HeadResult& h = a.heads[shown];
  const AverageReading& goal = a.options.goal == Goal::carry ? *h.carry : *h.total;
  const std::string far(unit_shown(Shown::distance, units));
  const PairTest& test = a.pair(shown, other).test;
  std::string out = big_number(fmt::format("{}, {}", key_of(a.options.goal), typed(h.name)),
                               number(Shown::distance, goal.summary.mean, units), far,
                               fmt::format("{} to {} {}", number(Shown::distance, goal.low, units),
                                           number(Shown::distance, goal.high, units), far)) +
                    big_number(fmt::format("further than {}", typed(a.heads[other].name)),
                               number(Shown::gain, test.difference, units, Sign::always), far,
                               fmt::format("{} interval: {} to {} {}", confidence_words(a.options.confidence),
                                           number(Shown::gain, test.low, units, Sign::always),
                                           number(Shown::gain, test.high, units, Sign::always), far));
  if (h.fairways)
    out += big_number("in the fairway", fmt::format("{} of {}", h.fairways->held, h.fairways->count), "",
                      fmt::format("{} wide", quantity(Shown::distance, a.options.fairway, units)));
  return big_numbers_of(out);
}

std::string coach_part(const HeadsAnswer& a, const Setting& setting, UnitSystem units,
                       const std::vector<std::pair<std::string, std::string>>& inputs) {
  std::string out;
  for (const TextTable& data : {apart_table(a, units), modelled_table(a, units)}) {
    out += html_table(data);
    for (const std::string& note : data.notes) out += data.rows.empty() ? paragraph(note, "note") : "";
  }
  out += paragraph("The model: " + conditions_words(setting, units));
  std::string texts, names;
  for (const auto& [name, text] : inputs) {
    texts += fmt::format("# {}\n{}{}", name, text, text.ends_with('\n') ? "\n" : "\n\n");
    names += fmt::format("{}{}", names.empty() ? "" : " ", name);
  }
  names = escaped(names);
  return out + input_again(texts, names, fmt::format("loftwright heads {} --html page.html", names));
}

}  // namespace

std::string heads_page(const HeadsAnswer& a, std::string_view name, const Setting& setting, UnitSystem units,
                       const std::vector<std::pair<std::string, std::string>>& inputs) {
  Sheet sheet;
  std::vector<std::string> files;
  for (const auto& [file, text] : inputs) files.push_back(file);
  std::string all;
  for (const HeadResult& head : a.heads) all += fmt::format("{}{}", all.empty() ? "" : ", ", head.name);
  const std::string who = name.empty() ? "" : fmt::format("{}: ", name);
  sheet.title = fmt::format("Heads side by side: {}{}", who, all);
  sheet.body = fmt::format("<header>\n<h1>Heads side by side</h1>\n<p class=\"who\">{}{}</p>\n</header>\n", typed(who),
                           typed(all));
  sheet.body += paragraph(heads_sentence(a, units), "verdict") + big_numbers(a, units);
  sheet.body += "<div class=\"pair\">\n" + part("shots-part", "Every shot", shots_part(a, units)) +
                part("apart-part", "Against each other", apart_part(a, units)) + "</div>\n";
  sheet.body += part("heads-part", "Head by head", html_table(heads_table(a, units)));
  sheet.body += part("notes", "What to know", bullets(heads_notes(a, units)));
  sheet.body += part("care", "Take care", bullets(cautions(units)));
  sheet.body += part("coach", "For the coach", coach_part(a, setting, units, inputs), "coach");
  sheet.data = answer_element(heads_json(a, files, setting, units));
  return whole_page(sheet);
}

}  // namespace loftwright
