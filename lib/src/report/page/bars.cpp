#include "report/page/bars.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/core/units.hpp"
#include "loftwright/report/numbers.hpp"

namespace loftwright {

Drawing bars(std::string_view name, std::string_view title, std::string_view description, const std::vector<Bar>& rows,
             UnitSystem units) {
  constexpr double kRow = 46.0, kLeft = 14.0, kRight = 16.0, kTop = 4.0, kBar = 14.0, kBelowWords = 20.0, kBeside = 3.0;
  const auto& yard = unit(unit_shown(Shown::gain, units));
  double low = 0.0, high = yard.to_si(5.0);
  for (const Bar& row : rows) {
    if (row.value) low = std::min(low, *row.value), high = std::max(high, *row.value);
    if (row.interval) low = std::min(low, row.interval->first), high = std::max(high, row.interval->second);
  }
  const Axis along{low, high, kLeft, kPictureWidth - kRight};
  const double floor = kTop + kRow * static_cast<double>(rows.size());
  Drawing d(name, kPictureWidth, floor + 26.0, title, description);
  d.datum("x0", along.at(0.0));
  d.datum("x-per-m", along.per_unit());
  for (const double t : even_ticks(yard.from_si(along.low), yard.from_si(along.high), 6)) {
    const double x = along.at(yard.to_si(t));
    // Beside the bars alone: no line runs through the words above them.
    for (std::size_t row = 0; row < rows.size(); ++row) {
      const double top = kTop + kRow * static_cast<double>(row) + kBelowWords - kBeside;
      d.line({x, top}, {x, top + kBar + 2.0 * kBeside}, t == 0.0 ? "ground" : "grid");
    }
    d.label({x, floor + 15.0},
            t == 0.0 ? fmt::format("0 {}", yard.symbol) : fmt::format("{}{}", t > 0.0 ? "+" : "", short_number(t)),
            "small", Align::middle);
  }
  double y = kTop;
  for (const Bar& row : rows) {
    d.label({kLeft, y + 13.0}, row.words, "on-paper");
    const double middle = y + kBelowWords + kBar / 2.0;
    if (row.value) {
      const double zero = along.at(0.0), end = along.at(*row.value);
      d.box(std::min(zero, end), y + kBelowWords, std::abs(end - zero), kBar, row.look + " bar");
    }
    if (row.interval) d.whisker({along.at(row.interval->first), middle}, along.at(row.interval->second));
    y += kRow;
  }
  return d;
}

}  // namespace loftwright
