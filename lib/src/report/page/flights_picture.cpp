#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/core/units.hpp"
#include "loftwright/report/numbers.hpp"
#include "report/page/pictures.hpp"

namespace loftwright {

namespace {

constexpr double kFlightsLeft = 34.0, kFlightsRight = kPictureWidth - 12.0, kFlightsTop = 12.0, kSky = 130.0,
                 kLane = 16.0;

// Where the sky and, below the ground, a lane for each drive's landing and run lie.
struct Layout {
  Axis along{};  // [m] from the tee
  Axis up{};     // [m]
  double times = 1.0, ground = 0.0, lanes = 0.0, height = 0.0;
};

Layout laid_out(const std::vector<Strategy>& drives) {
  double longest = 1.0, highest = 1.0;  // [m] a topped drive is drawn too
  for (const Strategy& s : drives) {
    longest = std::max(longest, s.drive.total);
    highest = std::max(highest, s.drive.flight.apex);
  }
  Layout l;
  l.along = {0.0, longest * 1.16, kFlightsLeft, kFlightsRight};  // the longest run's number stands behind it
  const double per_m = l.along.per_unit();
  l.times = std::clamp(std::floor(kSky / (highest * per_m)), 1.0, 4.0);
  l.ground = kFlightsTop + std::min(kSky, highest * per_m * l.times) + 8.0;
  l.up = {0.0, highest, l.ground, l.ground - highest * per_m * l.times};
  l.lanes = l.ground + 24.0;
  l.height = l.lanes + kLane * static_cast<double>(drives.size()) + 4.0;
  return l;
}

std::string told(const std::vector<Strategy>& drives, UnitSystem units) {
  std::string out;
  for (const Strategy& s : drives) {
    out += fmt::format("{}{}: carry {}, run {}, total {}, top {}", out.empty() ? "" : "; ", title_of(s.kind),
                       quantity(Shown::distance, s.drive.flight.carry, units),
                       quantity(Shown::distance, s.drive.run.bounce + s.drive.run.roll, units),
                       quantity(Shown::distance, s.drive.total, units),
                       quantity(Shown::height, s.drive.flight.apex, units));
  }
  return out + ".";
}

void draw_axes(Drawing& d, const Layout& l, UnitSystem units) {
  const Unit &far = unit(unit_shown(Shown::distance, units)), &high = unit(unit_shown(Shown::height, units));
  for (const double t : even_ticks(0.0, far.from_si(l.along.high), 6)) {
    const double x = l.along.at(far.to_si(t));
    d.line({x, kFlightsTop}, {x, l.height - 4.0}, "grid");
    d.label({x, l.ground + 14.0}, t == 0.0 ? fmt::format("0 {}", far.symbol) : short_number(t), "small", Align::middle);
  }
  for (const double t : even_ticks(0.0, high.from_si(l.up.high), 3)) {
    if (t == 0.0) continue;
    const double y = l.up.at(high.to_si(t));
    d.line({kFlightsLeft, y}, {kFlightsRight, y}, "grid");
    d.label({kFlightsLeft - 4.0, y + 4.0}, short_number(t), "small", Align::end);
  }
  d.label({2.0, kFlightsTop - 1.0}, high.symbol, "small");
  d.line({kFlightsLeft, l.ground}, {kFlightsRight, l.ground}, "ground");
}

void draw_lane(Drawing& d, const Layout& l, const Strategy& s, double y, UnitSystem units) {
  const double landed = l.along.at(s.drive.flight.carry), rest = l.along.at(s.drive.total);
  const std::string carry =
      fmt::format("{} {}", title_of(s.kind), number(Shown::distance, s.drive.flight.carry, units));
  const std::string total = number(Shown::distance, s.drive.total, units);
  d.line({landed, y}, {rest, y}, look_of(s.kind) + " run");
  d.line({rest, y - 5.0}, {rest, y + 5.0}, look_of(s.kind) + " run");
  d.mark(mark_of(s.kind), {landed, y}, look_of(s.kind) + " mark");
  // Landed too near the tee for words before the mark: they stand on the long run behind it.
  if (!d.label_if_free({landed - 10.0, y + 4.5}, carry, "on-paper", Align::end))
    d.label({landed + 12.0, y + 4.5}, carry, "on-paper");
  d.label({rest + 5.0, y + 4.5}, total, "on-paper");
}

}  // namespace

std::string flights_picture(const Advice& advice, const Setting& setting, UnitSystem units) {
  constexpr int kPoints = 49;
  const std::vector<Strategy> drives = drawn(advice);
  const Layout l = laid_out(drives);
  Drawing d("flights", kPictureWidth, l.height, "Flights seen from the side", told(drives, units));
  d.datum("x0", l.along.at(0.0));
  d.datum("x-per-m", l.along.per_unit());
  d.datum("y0", l.up.at(0.0));
  d.datum("y-per-m", -l.up.per_unit());
  draw_axes(d, l, units);
  const FlightSetting in{&setting.ball, &setting.aero, setting.air, setting.wind, 1.0, 1.0};
  for (const Strategy& s : drives) {
    std::vector<Spot> way;
    for (const FlightPoint& p : trace(s.drive.launch, in, kPoints))
      way.push_back({l.along.at(p.at.x), l.up.at(p.at.y)});
    d.polyline(way, look_of(s.kind) + " way");
  }
  double y = l.lanes + 0.5 * kLane;
  for (const Strategy& s : drives) {
    draw_lane(d, l, s, y, units);
    y += kLane;
  }
  return d.text() + fmt::format(
                        "<p class=\"note\">Across: {0} from the tee. Up: {1}, drawn {2}. Below the ground: where each "
                        "drive lands (its mark, "
                        "and carry in {0}) and where it comes to rest (total in {0}).</p>\n",
                        unit_shown(Shown::distance, units), unit_shown(Shown::height, units),
                        l.times > 1.0 ? fmt::format("{:.0f} times as tall as far", l.times) : "as tall as far");
}

}  // namespace loftwright
