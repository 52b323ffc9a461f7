#include "loftwright/report/pages.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "loftwright/core/error.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/report/words.hpp"
#include "report/chart_tables.hpp"
#include "report/page/contour.hpp"
#include "report/page/html.hpp"
#include "report/page/sheet.hpp"
#include "report/page/svg.hpp"

namespace loftwright {

namespace {

constexpr double kChartLeft = 38.0, kChartRight = kPictureWidth - 14.0, kChartTop = 12.0, kChartHeight = 300.0,
                 kChartBottom = kChartHeight - 34.0;

// One quantity over club speed and attack, by lines of equal value. Cells without an answer stand as low as the lowest.
std::string chart_picture(const Chart& chart, const ChartColumn& column, UnitSystem units) {
  const std::vector<double>&speeds = chart.axes.club_speeds, &attacks = chart.axes.attacks;
  const Unit &mph = unit(unit_shown(Shown::speed, units)), &of = unit(unit_shown(column.shown, units));
  if (speeds.size() < 2 || attacks.size() < 2) return "";  // no area to map
  Surface value{speeds.size(), attacks.size(), {}};
  double low = 0.0, high = 0.0;
  bool any = false, all = true;
  for (const ChartCell& c : chart.cells) {
    all = all && c.feasible;
    if (!c.feasible) continue;
    const double v = of.from_si(column.value(c));
    low = any ? std::min(low, v) : v;
    high = any ? std::max(high, v) : v;
    any = true;
  }
  if (!any || high <= low) return "";
  for (const ChartCell& c : chart.cells) value.values.push_back(c.feasible ? of.from_si(column.value(c)) : low);
  const Axis x{mph.from_si(speeds.front()), mph.from_si(speeds.back()), kChartLeft, kChartRight};
  const Axis y{attacks.front() / kDegree, attacks.back() / kDegree, kChartBottom, kChartTop};
  // Nodes need not be even: a line's place between two of them is the same part of the way.
  const auto node = [](const std::vector<double>& values, double at) {
    const auto i = std::min(static_cast<std::size_t>(std::max(at, 0.0)), values.size() - 2);
    return values[i] + (values[i + 1] - values[i]) * (at - static_cast<double>(i));
  };
  const auto placed = [&](std::vector<std::vector<Spot>> lines) {
    for (auto& line : lines) {
      for (Spot& s : line) s = {x.at(mph.from_si(node(speeds, s.x))), y.at(node(attacks, s.y) / kDegree)};
    }
    return lines;
  };
  Drawing d(column.key, kPictureWidth, kChartHeight, fmt::format("{} over club speed and attack", column.title),
            fmt::format("From {} to {}.", quantity(column.shown, of.to_si(low), units),
                        quantity(column.shown, of.to_si(high), units)));
  d.datum("x0", x.at(0.0));
  d.datum("x-per-unit", x.per_unit());
  d.datum("y0", y.at(0.0));
  d.datum("y-per-deg", -y.per_unit());
  d.box(kChartLeft, kChartTop, kChartRight - kChartLeft, kChartBottom - kChartTop, "land");
  const std::vector<double> levels = even_ticks(low, high, 9);
  for (const double level : levels) d.region(placed(region_above(value, level)), "hill");
  std::vector<std::vector<std::vector<Spot>>> lines;
  for (const double level : levels) {
    lines.push_back(placed(contour_lines(value, level)));
    for (const auto& line : lines.back()) d.polyline(line, "contour");
  }
  draw_map_axes(d, x, y, fmt::format("club speed, {}", mph.symbol));
  number_contours(d, x, y, levels, lines);
  return part(fmt::format("{}-part", column.key), column.title,
              "<figure>\n" + d.text() +
                  fmt::format("<p class=\"note\">Lines of equal value, {}.{}</p>\n</figure>\n", of.symbol,
                              all ? "" : " Where no loft meets every limit the map is as low as its lowest."));
}

std::string map_words(const Chart& chart) {
  return fmt::format(
      "Find the club speed along the bottom and the attack up the side (up is positive): the line there names the loft "
      "to deliver for "
      "the longest {}, struck at the face centre, path and face square.",
      key_of(chart.goal));
}

}  // namespace

void check_chart_page(const ChartAxes& axes) {
  constexpr std::size_t kMostCells = 2500;  // five tables of them are some 250 kB
  const std::size_t cells = axes.club_speeds.size() * axes.attacks.size();
  if (cells > kMostCells)
    throw InputError(fmt::format("--html: a page holds at most {} cells; the table has {}", kMostCells, cells));
}

std::string chart_page(const Chart& chart, std::string_view name, const Setting& setting, UnitSystem units) {
  Sheet sheet;
  sheet.title = fmt::format("The loft to deliver, for {}", key_of(chart.goal));
  sheet.body = "<header>\n<h1>The loft to deliver</h1>\n" +
               (name.empty() ? "" : "<p class=\"who\">" + typed(name) + "</p>\n") + "</header>\n";
  const ChartColumn& loft = chart_columns().front();
  const ChartColumn& goal = *std::find_if(chart_columns().begin(), chart_columns().end(),
                                          [&](const ChartColumn& c) { return c.key == key_of(chart.goal); });
  const std::string map = chart_picture(chart, loft, units);
  sheet.body += paragraph(map.empty() ? chart_words(chart, units) : map_words(chart), "verdict");
  std::string notes;
  for (const std::string& note : chart_notes(chart)) notes += paragraph(note, "note");
  sheet.body +=
      "<div class=\"pair lead\">\n" + map + "<div>\n" + chart_picture(chart, goal, units) + notes + "</div>\n</div>\n";
  std::string hold = paragraph(conditions_words(setting, units));
  for (const Limit& limit : chart.limits)
    hold += paragraph(fmt::format("Limit: {}.", limit_words(limit.quantity, limit.allowed, units)));
  sheet.body += "<div class=\"pair\">\n" + part("hold", "What it holds for", hold) +
                part("care", "Take care", bullets(cautions(units))) + "</div>\n";
  const auto table = [&](const ChartColumn& column) {
    return html_table(chart_table(chart, column, 0, chart.axes.club_speeds.size(), units));
  };
  std::string wide, gives = table(loft);
  for (const ChartColumn& column : chart_columns().subspan(1)) {
    if (column.key == fmt::format("best-{}", key_of(chart.goal))) continue;  // that is the first table
    (column.text ? wide : gives) += table(column);
  }
  sheet.body +=
      part("numbers", "The same in numbers", "<div class=\"paper-columns\">\n" + gives + "</div>\n" + wide, "coach");
  return whole_page(sheet);
}

}  // namespace loftwright
