#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "loftwright/core/units.hpp"
#include "loftwright/report/pages.hpp"
#include "loftwright/report/words.hpp"
#include "report/clinic_tables.hpp"
#include "report/page/html.hpp"
#include "report/page/sheet.hpp"
#include "report/page/svg.hpp"
#include "report/rack_tables.hpp"

namespace loftwright {

namespace {

constexpr double kRackLeft = 40.0, kRackRight = kPictureWidth - 14.0;

// Yards lost, a pupil on average, with each number of lofts.
std::string lost_picture(const RackAnswer& answer, UnitSystem units) {
  constexpr double kTop = 24.0, kBottom = 210.0;
  const Unit& yard = unit(unit_shown(Shown::gain, units));
  const std::size_t sizes = answer.rack.by_size.size(), asked = answer.rack.best.chosen.size();
  const double most = std::max(yard.from_si(lost_each(answer, 1)), 1.0);
  const Axis across{0.5, static_cast<double>(sizes) + 0.5, kRackLeft, kRackRight}, up{0.0, 1.08 * most, kBottom, kTop};
  std::string told;
  for (std::size_t s = 1; s <= sizes; ++s)
    told += fmt::format("{}: {}. ", s, quantity(Shown::gain, lost_each(answer, s), units));
  Drawing d("lost", kPictureWidth, kBottom + 40.0, "What is lost with each number of lofts", told);
  d.datum("x0", across.at(0.0));
  d.datum("x-per-loft", across.per_unit());
  d.datum("y0", up.at(0.0));
  d.datum("y-per-m", -up.per_unit() * yard.from_si(1.0));
  for (const double t : even_ticks(up.low, up.high, 6)) {
    d.line({kRackLeft, up.at(t)}, {kRackRight, up.at(t)}, "grid");
    d.label({kRackLeft - 5.0, up.at(t) + 4.0}, short_number(t), "small", Align::end);
  }
  d.label({2.0, kTop - 11.0}, fmt::format("{} lost, a pupil on average", yard.symbol), "small");
  d.line({kRackLeft, kBottom}, {kRackRight, kBottom}, "ground");
  std::vector<Spot> spots;
  for (std::size_t s = 1; s <= sizes; ++s)
    spots.push_back({across.at(static_cast<double>(s)), up.at(yard.from_si(lost_each(answer, s)))});
  d.polyline(spots, "s-as_is way");
  for (std::size_t s = 0; s < sizes; ++s) {
    const bool chosen = s + 1 == asked;
    d.mark(chosen ? Mark::square : Mark::circle, spots[s], chosen ? "s-loft_only mark" : "s-as_is mark");
    d.keep_clear(spots[s], 6.0, 6.0);
  }
  d.label_if_free({spots[asked - 1].x, spots[asked - 1].y - 10.0}, number(Shown::gain, lost_each(answer, asked), units),
                  "on-paper", Align::middle);
  for (std::size_t s = 1; s <= sizes; ++s)
    d.label_if_free({across.at(static_cast<double>(s)), kBottom + 16.0}, std::to_string(s), "small", Align::middle);
  d.label({0.5 * (kRackLeft + kRackRight), kBottom + 34.0}, "lofts in the rack", "small", Align::middle);
  return "<figure>\n" + d.text() +
         "<p class=\"note\">Against the loft that suits each pupil best; the best lofts of each number. The square is "
         "the rack asked for.</p>\n</figure>\n";
}

// A row a loft of the rack; each pupil who takes it a dot at the loft that suits best.
std::string served_picture(const RackAnswer& answer, UnitSystem units) {
  constexpr double kRow = 40.0, kTop = 6.0, kDot = 3.6, kBins = 52.0, kWords = 14.0;
  const Rack& r = answer.rack;
  const double first = r.lofts.front() / kDegree, last = r.lofts.back() / kDegree;
  const double room = std::max(0.03 * (last - first), 0.1);
  const Axis across{first - room, last + room, 14.0, kRackRight};
  const double floor = kTop + kRow * static_cast<double>(r.best.chosen.size());
  Drawing d("served", kPictureWidth, floor + 40.0, "Who takes which loft",
            fmt::format("{}", fmt::join(served_sentences(answer, units), " ")));
  d.datum("x0", across.at(0.0));
  d.datum("x-per-deg", across.per_unit());
  for (const double t : even_ticks(across.low, across.high, 8)) {
    d.line({across.at(t), kTop}, {across.at(t), floor}, "grid");
    d.label({across.at(t), floor + 15.0}, short_number(t), "small", Align::middle);
  }
  const std::vector<RackPupil> pupils = rack_pupils(answer);
  double top = kTop;
  for (const std::size_t j : r.best.chosen) {
    std::map<long, int> stacked;  // dots at one place, one above the other
    std::size_t count = 0;
    const double base = top + kRow - 6.0, loft = r.lofts[j] / kDegree;
    d.line({14.0, base + 4.0}, {kRackRight, base + 4.0}, "ground");
    d.mark(Mark::square, {across.at(loft), base + 4.0}, "s-loft_only mark");
    for (const RackPupil& p : pupils) {
      if (p.use.loft != j) continue;
      ++count;
      const double x = across.at(p.curve.best_loft / kDegree);
      const long bin = std::lround((x - 14.0) * kBins / (kRackRight - 14.0));
      const int high = stacked[bin]++;
      d.dot({x, base - 5.0 - 2.0 * kDot * std::min(high, 3)}, kDot, "s-both dot");
    }
    d.label({14.0, top + kWords}, fmt::format("{} deg: {}", short_loft(r.lofts[j]), count), "on-paper");
    top += kRow;
  }
  d.label({0.5 * (14.0 + kRackRight), floor + 34.0}, "deg of loft", "small", Align::middle);
  return "<figure>\n" + d.text() +
         "<p class=\"note\">A dot a pupil, at the loft that suits best; the square is the loft that the rack has for "
         "them.</p>\n</figure>\n";
}

}  // namespace

std::string rack_page(const RackAnswer& answer, UnitSystem units) {
  constexpr std::size_t kNameWidth = 60;
  const std::vector<std::string> sentences = rack_sentences(answer, units);
  Sheet sheet;
  sheet.title =
      fmt::format("The rack: {} lofts for {} pupils", answer.rack.best.chosen.size(), answer.rack.uses.size());
  sheet.body =
      fmt::format("<header>\n<h1>The rack</h1>\n<p class=\"who\">{} pupils, {} lofts to choose from</p>\n</header>\n",
                  answer.rack.uses.size(), answer.rack.lofts.size());
  sheet.body += paragraph(sentences.front(), "verdict");
  for (std::size_t i = 1; i < sentences.size(); ++i) sheet.body += paragraph(sentences[i]);
  sheet.body +=
      "<div class=\"pair\">\n" +
      part("lost-part", "Where buying stops paying",
           lost_picture(answer, units) + html_table(rack_size_table(answer, units))) +
      part("served-part", "Who takes which", served_picture(answer, units) + bullets(served_sentences(answer, units))) +
      "</div>\n";
  sheet.body += part("pupils", "In numbers", html_table(rack_pupil_table(answer, units, kNameWidth)));
  sheet.body += part("academy", "From the academy's lessons", bullets(academy_sentences(answer)));
  std::string notes;
  for (const std::string& note : rack_notes(answer)) notes += paragraph(note);
  const std::vector<std::string> failed = failed_sentences(answer.folder, answer.results);
  const std::string left_out = left_out_sentence(answer.folder);
  sheet.body += "<div class=\"pair\">\n" + part("hold", "What it holds for", notes) +
                part("care", "Take care", bullets(cautions(units))) + "</div>\n" +
                part("failed", "Not answered: these files cannot be used", bullets(failed)) +
                (left_out.empty() ? "" : part("left-out", "Left out", "<p>" + typed(left_out) + "</p>\n"));
  sheet.data = answer_element(rack_json(answer, units));
  return whole_page(sheet);
}

}  // namespace loftwright
