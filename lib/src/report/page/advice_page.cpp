#include "loftwright/report/pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/core/units.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/report/advice_words.hpp"
#include "loftwright/report/json.hpp"
#include "report/ladder_words.hpp"
#include "report/page/drive_grid.hpp"
#include "report/page/html.hpp"
#include "report/page/pictures.hpp"
#include "report/page/sheet.hpp"
#include "report/parts.hpp"
#include "report/text_table.hpp"

namespace loftwright {

namespace {

std::string figure(const std::string& picture) { return "<figure>\n" + picture + "</figure>\n"; }

std::string big_numbers(const Advice& advice, UnitSystem units) {
  const std::string far(unit_shown(Shown::distance, units)), goal(key_of(advice.goal));
  const auto drive = [&](const Strategy& s, std::string_view when) {
    return big_number(
        fmt::format("{}average {} {}", key_picture(s.kind), goal, when), number(Shown::distance, s.goal, units), far,
        fmt::format("{}, attack {}", club_words(s), quantity(Shown::angle, s.attack, units, Sign::always)));
  };
  std::string out = drive(advice.at(StrategyKind::as_is), "now");
  const std::vector<StrategyKind> kinds = advised(advice);
  for (const StrategyKind kind : kinds) {
    const Strategy& s = advice.at(kind);
    if (!s.feasible) continue;
    out += drive(s, fmt::format("with {}", advice.verdict.lever == Lever::leave ? "the most in reach (not advised)"
                                                                                : title_of(kind)));
    const auto judged = advice.confidence ? advice.confidence->at(kind) : std::nullopt;
    out +=
        big_number(kinds.size() > 1                       ? fmt::format("gain with {}", title_of(kind))
                   : advice.verdict.lever == Lever::leave ? "gain (not advised)"
                                                          : "gain",
                   number(Shown::gain, s.gain, units, Sign::always), far,
                   judged ? fmt::format("eight times in ten: {} {}", interval_numbers(judged->gain, units), far) : "");
  }
  return big_numbers_of(out);
}

std::string answer_part(const Advice& advice, const Pupil& pupil, UnitSystem units) {
  std::string out = "<header>\n<h1>Where your yards are</h1>\n";
  if (units == UnitSystem::metres) out = "<header>\n<h1>Where your metres are</h1>\n";
  out += fmt::format("<p class=\"who\">{}, {}</p>\n</header>\n", pupil.name.empty() ? "A pupil" : typed(pupil.name),
                     pupil_words(pupil));
  out += paragraph(verdict_sentence(advice, units), "verdict");
  for (const std::string& told : {drives_sentence(advice, units), reached_sentence(advice, units)}) {
    if (!told.empty()) out += paragraph(told);
  }
  if (!pupil.for_pupil.empty()) out += fmt::format("<p class=\"for-pupil\">{}</p>\n", typed(pupil.for_pupil));
  return out + big_numbers(advice, units);
}

// Choices between a few words. `checked` is the value chosen at first.
std::string choices(std::string_view name, std::string_view legend,
                    const std::vector<std::pair<std::string, std::string>>& options, std::string_view checked) {
  std::string out = fmt::format("<fieldset><legend>{}</legend>\n", legend);
  for (const auto& [value, words] : options) {
    out += fmt::format("<label><input type=\"radio\" name=\"{}\" value=\"{}\"{}> {}</label>\n", name, escaped(value),
                       value == checked ? " checked" : "", escaped(words));
  }
  return out + "</fieldset>\n";
}

std::string slider(std::string_view id, std::string_view words, const GridAxis& axis, double value) {
  return fmt::format(
      "<div class=\"slider\"><label for=\"try-{0}\">{1}</label><output for=\"try-{0}\" "
      "id=\"try-{0}-out\"></output>\n<input type=\"range\" "
      "id=\"try-{0}\" min=\"0\" max=\"{2}\" step=\"1\" value=\"{3:.0f}\"></div>\n",
      id, words, axis.count - 1, (value - axis.low) / axis.step);
}

std::string error_words(const DriveGrid::Error& e, UnitSystem units) {
  const auto up = [&](Shown what, double si, int decimals) {  // rounded up: a bound stays one
    const std::string_view symbol = unit_shown(what, units);
    const double by = std::pow(10.0, decimals);
    return fmt::format("{:.{}f} {}", std::ceil(unit(symbol).from_si(si) * by) / by, decimals, symbol);
  };
  return fmt::format(
      "Worked out from a table made with this page. Largest distance from the full model, measured at {} places: {} of "
      "carry or total, {} "
      "of height, {} of angle, {} of spin. Path, face and strike point stay as they are; club speed moves only with "
      "its own slider.",
      DriveGrid::kMeasured, up(Shown::gain, e.distance, 1), up(Shown::height, e.apex, 1), up(Shown::angle, e.angle, 2),
      up(Shown::spin, e.spin, 0));
}

std::string try_part(const DriveGrid& grid, const Advice& advice, const Pupil& pupil, UnitSystem units) {
  const Delivery& now = pupil.delivery;
  std::string out = "<div class=\"try\">\n<div class=\"controls\">\n";
  out += slider("speed", "Club speed", grid.range()[0], now.club_speed);
  out += slider("attack", "Attack", grid.range()[1], now.attack / kDegree);
  out += slider("loft", "Driver loft", grid.range()[2], pupil.club_loft / kDegree);
  std::string jumps;
  for (const Strategy& s : advice.strategies) {
    if (s.feasible || s.kind == StrategyKind::as_is) {
      jumps += fmt::format("<button type=\"button\" data-strategy=\"{}\">{}{}</button>\n", key_of(s.kind),
                           key_picture(s.kind), title_of(s.kind));
    }
  }
  out += fmt::format("<div class=\"jumps\" role=\"group\" aria-label=\"Set the sliders to\">\n{}</div>\n", jumps);
  std::string turfs;
  for (const std::string& id : grid.turfs()) {
    turfs += fmt::format("<option{}>{}</option>", id == pupil.conditions.turf ? " selected" : "", escaped(id));
  }
  out += fmt::format(
      "<div class=\"turf\"><label for=\"try-turf\">Turf</label> <select id=\"try-turf\">{}</select></div>\n", turfs);
  out += choices("try-goal", "Show", {{"carry", "carry"}, {"total", "total"}}, key_of(advice.goal));
  out +=
      "</div>\n<div class=\"result\">\n<p class=\"now\"><b id=\"try-goal-number\"></b> <span "
      "id=\"try-goal-words\"></span></p>\n"
      "<p id=\"try-difference\"></p>\n<div id=\"try-picture\"></div>\n<dl class=\"small-numbers\">\n";
  for (const auto& [id, words] : {std::pair{"carry", "carry"},
                                  {"total", "total"},
                                  {"launch", "launch"},
                                  {"spin", "spin"},
                                  {"apex", "apex"},
                                  {"landing", "descent angle"},
                                  {"delivered", "delivered loft"},
                                  {"side", "side"}}) {
    out += fmt::format("<div><dt>{}</dt><dd id=\"try-{}\"></dd></div>\n", words, id);
  }
  out += "</dl>\n<p class=\"unseen\" role=\"status\" id=\"try-said\"></p>\n</div>\n</div>\n";
  return out + paragraph(error_words(grid.error(), units), "note");
}

std::string to_do_part(const Advice& advice, UnitSystem units) {
  const std::string set_up = under("At address", bullets(set_up_sentences(advice, units))),
                    care = bullets(cautions(units));
  return set_up.empty() ? part("care", "Take care", care)
                        : part("do-part", "What to do", set_up + under("Take care", care));
}

std::string model_words(ModelKind kind, std::string_view id, const Catalogue& catalogue) {
  const ModelInfo info = catalogue.info(kind, id);
  return fmt::format("{}: {} ({}). {}", info.id, info.title, info.status, info.source);
}

std::vector<std::string> sources(const Setting& setting, const Catalogue& catalogue) {
  std::vector<std::string> out{"Ball " + model_words(ModelKind::ball, setting.course.ball, catalogue)};
  // A ball's own file may name an air model beside it, which the catalogue does not list.
  const auto airs = catalogue.list(ModelKind::aero);
  const bool listed =
      std::any_of(airs.begin(), airs.end(), [&](const ModelInfo& i) { return i.id == setting.aero.id; });
  out.push_back("Air resistance " +
                (listed ? model_words(ModelKind::aero, setting.aero.id, catalogue) : setting.aero.id));
  out.push_back("Head " + (setting.head_id.empty() ? std::string("given in the pupil's file")
                                                   : model_words(ModelKind::head, setting.head_id, catalogue)));
  out.push_back("Turf " + model_words(ModelKind::turf, setting.course.conditions.turf, catalogue));
  return out;
}

// For the pupil the steps in words, and the care that a new swing asks for; for the coach the numbers.
std::string ladder_part(const Ladder& ladder, const Pupil& pupil, const Advice& advice, UnitSystem units) {
  std::string out = paragraph(ladder_sentence(ladder, advice, units));
  if (ladder.steps.empty()) return out;
  std::vector<std::string> care = cautions(units);
  care.resize(2);  // of the body, and of its past
  out += html_table(pupils_ladder_table(ladder, advice, units)) +
         bullets(pupils_ladder_sentences(ladder, advice, units)) + under("Take care", bullets(care));
  TextTable numbers = ladder_table(ladder, advice, units);
  numbers.title = "For the coach: the ladder in numbers";
  return out + html_table(numbers) + html_table(ladder_set_up_table(ladder, units)) +
         under("How to know, and when", bullets(ladder_sentences(ladder, pupil, advice, units)));
}

// What makes the page's ladder again.
std::string ladder_option(const Ladder* ladder) {
  if (!ladder) return "";
  if (ladder->most_step == kLadderStep) return " --ladder";
  return fmt::format(" --ladder --step {:g}deg", ladder->most_step / kDegree);
}

std::string coach_part(const Advice& advice, const Pupil& pupil, const Setting& setting, const Catalogue& catalogue,
                       UnitSystem units) {
  TextTable answers = strategies_table(advice, units);
  answers.title = "The four answers";
  std::string out = paragraph(delivery_words(pupil, units)) + paragraph(conditions_words(setting, units));
  out += html_table(answers) + html_table(confidence_table(advice, units)) + bullets(odds_sentences(advice)) +
         "<div class=\"columns\">\n";
  const auto block = [&](const std::string& content) {
    out += content.empty() ? "" : "<div class=\"block\">\n" + content + "</div>\n";
  };
  block(html_table(rates_table(advice, units)));
  block(html_table(trade_table(advice, units)));
  block(under("Which lofts", bullets(loft_sentences(advice, units))));
  block(under("What the choice leans on", bullets(leaning_sentences(advice, units))));
  block(under("Value of information, on average: what knowing more first is worth",
              bullets(measuring_sentences(advice, units))));
  block(under("Most gain for each effort", bullets(effort_sentences(advice, pupil, units))));
  block(under("What holds each answer", bullets(holding_sentences(advice, units))));
  block(under("Assumed", bullets(pupil.assumed)));
  block(under("Models and sources", bullets(sources(setting, catalogue))));
  return out + "</div>\n";
}

}  // namespace

std::string advice_page(const Advice& advice, const Pupil& pupil, const Setting& setting, const Catalogue& catalogue,
                        UnitSystem units, std::string_view input, const BesideAdvice& beside) {
  const auto grid = DriveGrid::around(pupil, setting, advice, catalogue, units);
  Sheet sheet;
  sheet.title = fmt::format("Where the {} are{}", units == UnitSystem::yards ? "yards" : "metres",
                            pupil.name.empty() ? "" : ": " + pupil.name);
  sheet.body = "<div class=\"pupil\">\n" + answer_part(advice, pupil, units);
  sheet.body +=
      "<div class=\"parts\">\n<div class=\"pair\">\n<div>\n" +
      part("flights-part", "Your drives from the side, well struck", figure(flights_picture(advice, setting, units))) +
      part("gains-part", "What each change adds to the average drive", figure(gains_picture(advice, units))) +
      "</div>\n<div>\n" + part("why-part", "Why", bullets(explanation(advice, units))) + to_do_part(advice, units) +
      "</div>\n</div>\n";
  if (grid)
    sheet.body += fmt::format("<div id=\"try-part\" hidden>\n{}</div>\n",
                              part("try", "Try it, one well-struck drive", try_part(*grid, advice, pupil, units)));
  sheet.body +=
      "<div class=\"pair\">\n" +
      part("map-part", "Where you stand, and where you could", figure(map_picture(advice, pupil, setting, units))) +
      part("finish-part", "Where your drives finish", figure(finish_picture(advice, pupil, setting, units))) +
      "</div>\n</div>\n</div>\n";
  if (beside.ladder)
    sheet.body +=
        part("ladder-part", "Your ladder, step by step", ladder_part(*beside.ladder, pupil, advice, units), "sheet");
  sheet.body += part(
      "coach", "For the coach",
      coach_part(advice, pupil, setting, catalogue, units) +
          input_again(without_notes(input), "pupil.json",
                      fmt::format("loftwright advise pupil.json --html page.html{}", ladder_option(beside.ladder))),
      "coach");
  sheet.data = answer_element(advise_json(advice, pupil, setting, units, beside));
  if (grid) sheet.data += data_element("grid", grid->json(pupil, advice, units));
  sheet.scripts = grid.has_value();
  return whole_page(sheet);
}

}  // namespace loftwright
