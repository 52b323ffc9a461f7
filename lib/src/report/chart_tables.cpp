#include "report/chart_tables.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace loftwright {

namespace {

constexpr std::array kColumns{
    ChartColumn{"loft", "Loft to deliver", Shown::angle, [](const ChartCell& c) { return c.loft; }},
    ChartColumn{"best-carry", "Best loft for carry", Shown::angle, [](const ChartCell& c) { return c.loft_for_carry; }},
    ChartColumn{"best-total", "Best loft for total", Shown::angle, [](const ChartCell& c) { return c.loft_for_total; }},
    ChartColumn{"window", "Lofts that lose less than 2 yd, on the average drive", Shown::angle,
                [](const ChartCell& c) { return c.window.low; },
                [](const ChartCell& c, UnitSystem) {
                  return fmt::format("{:.0f}-{:.0f}", std::ceil(c.window.low / kDegree - 0.05),
                                     std::floor(c.window.high / kDegree + 0.05));
                }},
    ChartColumn{"launch", "Launch", Shown::angle, [](const ChartCell& c) { return c.drive.launch.launch; }},
    ChartColumn{"spin", "Spin", Shown::spin, [](const ChartCell& c) { return c.drive.launch.spin; }},
    ChartColumn{"carry", "Carry", Shown::distance, [](const ChartCell& c) { return c.drive.flight.carry; }},
    ChartColumn{"total", "Total", Shown::distance, [](const ChartCell& c) { return c.drive.total; }},
};

}  // namespace

std::span<const ChartColumn> chart_columns() { return kColumns; }

TextTable chart_table(const Chart& chart, const ChartColumn& column, std::size_t first, std::size_t end,
                      UnitSystem units) {
  TextTable table{fmt::format("{} [{}]", column.title, unit_shown(column.shown, units)), {{"attack"}}, 1, {}};
  for (std::size_t j = first; j < end; ++j) {
    std::string speed = number(Shown::speed, chart.axes.club_speeds[j], units);
    if (speed.ends_with(".0")) speed.resize(speed.size() - 2);
    table.rows[0].push_back(speed);
  }
  for (std::size_t i = chart.axes.attacks.size(); i-- > 0;) {
    std::vector<std::string>& row = table.rows.emplace_back();
    const std::string attack = number(Shown::angle, chart.axes.attacks[i], units, Sign::always);
    row.push_back(attack.starts_with('0') ? " " + attack : attack);
    for (std::size_t j = first; j < end; ++j) {
      const ChartCell& cell = chart.at(i, j);
      row.push_back(cell.feasible
                        ? (column.text ? column.text(cell, units) : number(column.shown, column.value(cell), units))
                        : "-");
    }
  }
  return table;
}

std::string chart_words(const Chart& chart, UnitSystem units) {
  return fmt::format(
      "The loft to deliver for the longest {}, by club speed ({}, across) and attack (deg, down the side; up is "
      "positive); "
      "struck at the face centre, path and face square.",
      key_of(chart.goal), unit_shown(Shown::speed, units));
}

std::vector<std::string> chart_notes(const Chart& chart) {
  std::vector<std::string> out;
  std::size_t held = 0, infeasible = 0;
  for (const ChartCell& cell : chart.cells) {
    held += cell.feasible && cell.at_loft_end ? 1 : 0;
    infeasible += cell.feasible ? 0 : 1;
  }
  if (held > 0) {
    out.push_back(fmt::format("In {} of {} cells the loft stands at an end of the {:.1f} to {:.1f} deg allowed.", held,
                              chart.cells.size(), chart.axes.loft.low / kDegree, chart.axes.loft.high / kDegree));
  }
  out.push_back(
      "Numbers are of a well-struck drive; the lofts that lose less than 2 yd are of the average drive, with the "
      "scatter of the pupil or of a "
      "middling player.");
  std::size_t apart = 0;
  for (const ChartCell& cell : chart.cells) apart += cell.feasible && cell.second_loft ? 1 : 0;
  if (apart > 0) {
    out.push_back(
        fmt::format("In {} of {} cells another ball, 'ballistic-range', would have its best loft more than 2 deg away.",
                    apart, chart.cells.size()));
  }
  if (infeasible > 0)
    out.push_back(fmt::format("'-' in {} of {} cells: no loft meets every limit.", infeasible, chart.cells.size()));
  return out;
}

}  // namespace loftwright
