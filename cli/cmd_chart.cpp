#include <fmt/format.h>

#include <array>
#include <ostream>

#include "advise_screen.hpp"
#include "commands.hpp"
#include "layout.hpp"
#include "loftwright/advise/chart.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "loftwright/report/words.hpp"
#include "page_file.hpp"
#include "progress.hpp"
#include "report/chart_tables.hpp"
#include "shot_lists.hpp"

namespace loftwright::cli {

namespace {

ChartAxes axes_from(const Values& values) {
  const auto between = [&](std::string_view what) {
    const auto name = [&](std::string_view end) { return fmt::format("{}-{}", what, end); };
    return axis(fmt::format("--{}, --{}, --{}", name("low"), name("high"), name("step")), values.quantity(name("low")),
                values.quantity(name("high")), values.quantity(name("step")));
  };
  ChartAxes axes{between("speed"), between("attack"), {values.quantity("loft-low"), values.quantity("loft-high")}};
  if (axes.loft.low > axes.loft.high) throw InputError("--loft-low lies above --loft-high");
  return axes;
}

// One table of one quantity; as many beside each other as the screen takes.
std::string table_of(const Chart& chart, const ChartColumn& column, UnitSystem units) {
  constexpr std::size_t kMostBeside = 13;
  std::string out, title;
  for (std::size_t first = 0; first < chart.axes.club_speeds.size(); first += kMostBeside) {
    const TextTable part =
        chart_table(chart, column, first, std::min(first + kMostBeside, chart.axes.club_speeds.size()), units);
    title = part.title;
    out += table(part.rows);
  }
  return section(title, out);
}

std::string chart_text(const Chart& chart, const Setting& setting, std::string_view show, UnitSystem units) {
  std::string out = wrapped(chart_words(chart, units));
  out += wrapped(conditions_words(setting, units));
  for (const Limit& limit : chart.limits)
    out += wrapped(fmt::format("Limit: {}.", limit_words(limit.quantity, limit.allowed, units)));
  for (const ChartColumn& column : chart_columns()) {
    if (show == "all" || show == column.key) out += "\n" + table_of(chart, column, units);
  }
  std::string notes;
  for (const std::string& note : chart_notes(chart)) notes += wrapped(note);
  return out + (notes.empty() ? "" : "\n" + notes) + "\n" + cautions_text(units);
}

std::string chart_csv(const Chart& chart, UnitSystem units) {
  const bool yards = units == UnitSystem::yards;
  const double speed_unit = unit(yards ? "mph" : "m/s").to_si(1.0), length_unit = unit(yards ? "yd" : "m").to_si(1.0);
  std::string out = yards ? "club_speed_mph,attack_deg,loft_deg,launch_deg,spin_rpm,carry_yd,total_yd,feasible\r\n"
                          : "club_speed_mps,attack_deg,loft_deg,launch_deg,spin_rpm,carry_m,total_m,feasible\r\n";
  for (const ChartCell& c : chart.cells) {
    out += fmt::format("{:.6g},{:.6g},{:.2f},{:.2f},{:.0f},{:.1f},{:.1f},{}\r\n", c.club_speed / speed_unit,
                       c.attack / kDegree, c.loft / kDegree, c.drive.launch.launch / kDegree,
                       unit("rpm").from_si(c.drive.launch.spin), c.drive.flight.carry / length_unit,
                       c.drive.total / length_unit, c.feasible ? "yes" : "no");
  }
  return out;
}

}  // namespace

int cmd_chart(const Session& session) {
  const PageFile page(session);
  const Values& values = session.values;
  Findings warnings;
  const ChartAxes axes = axes_from(values);
  if (page.wanted()) check_chart_page(axes);
  const Pupil pupil = [&] {
    Pupil p = values.given("pupil") ? load_pupil(values.text("pupil"), session.catalogue, &warnings) : Pupil{};
    p = player_from(values, p);
    p.goal = goal_from(values, p.goal);
    return p;
  }();
  for (const Finding& f : warnings) warn(session, words_of(f));
  const Setting setting = setting_for(pupil, session.catalogue);
  AdviseOptions options;
  options.threads = threads_given(session);
  const AeroModel second = session.catalogue.aero(kSecondAir);
  options.second_air = &second;
  const Chart table = [&] {
    Progress progress(session, "cells", axes.club_speeds.size() * axes.attacks.size());
    return chart(pupil, setting, axes, options, [&](std::size_t done) { progress.at(done); });
  }();
  if (session.json) {
    session.out << chart_json(table, setting, session.units);
  } else if (values.given("csv")) {
    session.out << chart_csv(table, session.units);
  } else {
    session.out << chart_text(table, setting, values.text("show"), session.units);
  }
  if (page.wanted()) page.write(chart_page(table, pupil.name, setting, session.units));
  const bool possible =
      std::any_of(table.cells.begin(), table.cells.end(), [](const ChartCell& c) { return c.feasible; });
  return possible ? kDone : kNo;
}

}  // namespace loftwright::cli
