#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "core/text.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "loftwright/report/words.hpp"
#include "report/lessons_words.hpp"
#include "report/page/html.hpp"
#include "report/page/sheet.hpp"
#include "report/page/svg.hpp"

namespace loftwright {

namespace {

// Promised across, reached up, a mark a promise; on the line what was promised was reached. Level lines: where the
// promise said that eight of ten would lie.
std::string calibration_picture(const Academy& academy, UnitSystem units) {
  constexpr double kLeft = 44.0, kRight = kPictureWidth - 14.0, kTop = 22.0, kBottom = 330.0;
  constexpr std::size_t kMostWhiskers = 40;  // more would be a thicket
  const auto& yard = unit(unit_shown(Shown::gain, units));
  double low = 0.0, high = yard.to_si(5.0);
  const bool whiskers = academy.calibration.size() <= kMostWhiskers;
  for (const Reckoning& r : academy.calibration) {
    low = std::min({low, r.reached, r.predicted, whiskers ? r.predicted_low : r.predicted});
    high = std::max({high, r.reached, r.predicted, whiskers ? r.predicted_high : r.predicted});
  }
  const double margin = 0.05 * (high - low);
  const Axis across{low - margin, high + margin, kLeft, kRight}, up{low - margin, high + margin, kBottom, kTop};
  Drawing d("calibration", kPictureWidth, kBottom + 38.0, "What was promised, and what was reached",
            calibration_sentence(academy, units));
  d.datum("x0", across.at(0.0));
  d.datum("x-per-m", across.per_unit());
  d.datum("y0", up.at(0.0));
  d.datum("y-per-m", -up.per_unit());
  for (const double t : even_ticks(yard.from_si(across.low), yard.from_si(across.high), 6)) {
    const double x = across.at(yard.to_si(t)), y = up.at(yard.to_si(t));
    d.line({x, kTop}, {x, kBottom}, t == 0.0 ? "ground" : "grid");
    d.line({kLeft, y}, {kRight, y}, t == 0.0 ? "ground" : "grid");
    d.label({x, kBottom + 15.0}, short_number(t), "small", Align::middle);
    d.label({kLeft - 5.0, y + 4.0}, short_number(t), "small", Align::end);
  }
  d.label({kLeft, kTop - 8.0}, fmt::format("reached, {}", yard.symbol), "");
  d.label({kRight, kBottom + 32.0}, fmt::format("promised, {}", yard.symbol), "", Align::end);
  d.polyline({{across.at(low), up.at(low)}, {across.at(high), up.at(high)}}, "s-as_is way thin");
  if (academy.reached_share) {
    const double share = academy.reached_share->mean;
    d.polyline({{across.at(0.0), up.at(0.0)}, {across.at(high), up.at(std::max(low, share * high))}},
               "s-loft_only way");
  }
  for (const Reckoning& r : academy.calibration) {
    if (whiskers) d.whisker({across.at(r.predicted_low), up.at(r.reached)}, across.at(r.predicted_high));
  }
  for (const Reckoning& r : academy.calibration) {
    const Spot at{across.at(r.predicted), up.at(r.reached)};
    if (r.lever == Lever::loft) d.mark(Mark::square, at, "s-loft_only mark");
    if (r.lever != Lever::loft) d.mark(Mark::triangle, at, "s-technique_only mark");
  }
  d.label({across.at(high) - 26.0, up.at(high) + 10.0}, "as promised", "on-paper", Align::end);
  return "<figure>\n" + d.text() +
         paragraph(
             fmt::format("Triangles: a change of swing, or of both; squares: another driver alone. {}Thin line: all "
                         "that was promised. {}",
                         whiskers ? "Level lines: where eight of ten were to lie. " : "",
                         academy.reached_share ? "Dashed: the share that your pupils reached." : ""),
             "note") +
         "</figure>\n";
}

std::string big_numbers(const Academy& a, UnitSystem units) {
  const std::string speed = fmt::format("{} a deg", unit_shown(Shown::speed_cost, units));
  std::string out =
      big_number("loft follows attack", number(Shown::factor, a.follow.mean, units), "deg a deg",
                 how_many(a.follow.groups, "pupil")) +
      big_number("club speed", number(Shown::speed_cost, a.speed_per_attack.mean * kDegree, units, Sign::always), speed,
                 how_many(a.speed_per_attack.groups, "pupil"));
  if (a.reached_share) {
    out += big_number("reached of the promised", fmt::format("{:.0f}", 100.0 * a.reached_share->mean), "%",
                      how_many(a.reached_share->groups, "pupil"));
  }
  return big_numbers_of(out);
}

}  // namespace

std::string lessons_page(const Lessons& lessons, const AcademyFolder& folder, std::string_view name, UnitSystem units) {
  const Academy& a = lessons.academy;
  Sheet sheet;
  sheet.title = fmt::format("What the lessons do: {}", name);
  sheet.body = fmt::format("<header>\n<h1>What your lessons do</h1>\n<p class=\"who\">{}</p>\n</header>\n",
                           typed(fmt::format("{} in {}", how_many(lessons.pupils.size(), "book"), name)));
  sheet.body += paragraph(lessons_sentence(lessons, units), "verdict");
  sheet.body += big_numbers(a, units);
  const std::string notes = part("notes-part", "What stands behind it", bullets(lessons_notes(lessons)));
  if (a.calibration.empty()) {
    sheet.body += notes;
  } else {
    sheet.body += "<div class=\"pair\">\n" +
                  part("calibration-part", "Was it promised rightly?",
                       paragraph(calibration_sentence(a, units)) + calibration_picture(a, units)) +
                  notes + "</div>\n";
  }
  sheet.body += part("numbers-part", "The numbers", html_table(academy_table(a, units)));
  sheet.body += part("care", "Take care", bullets(cautions(units)));
  std::vector<std::string> left_out = left_out_sentences(folder);
  for (const AcademyFolder::Failed& f : folder.failed) {
    for (const Finding& finding : f.findings) {
      if (finding.severity == Severity::error) left_out.push_back(fmt::format("{}: {}", f.file, words_of(finding)));
    }
  }
  sheet.body += part("coach", "For the coach",
                     html_table(pupils_table(lessons)) + html_table(calibration_table(a, units)) +
                         under("Not counted", bullets(left_out)),
                     "coach");
  sheet.data = answer_element(lessons_json(lessons, folder, units));
  return whole_page(sheet);
}

}  // namespace loftwright
