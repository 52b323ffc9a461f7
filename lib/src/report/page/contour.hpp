// Maps of hills: lines of equal value over a surface of values, the regions above them (marching squares), the frame
// around.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "report/page/svg.hpp"

namespace loftwright {

// Values at whole numbers x = 0 .. columns-1, y = 0 .. rows-1, row by row; straight lines between.
struct Surface {
  std::size_t columns, rows;
  std::vector<double> values;

  double at(std::size_t x, std::size_t y) const { return values[y * columns + x]; }
};

// Lines where the field crosses `level`; a line that closes ends where it begins. A saddle is parted by its mean.
std::vector<std::vector<Spot>> contour_lines(const Surface& field, double level);

// Rings (even-odd) around where the field is at least `level`.
std::vector<std::vector<Spot>> region_above(const Surface& field, double level);

// Ticks, numbers and names of both axes, and the frame: something across, angles of attack [deg] up.
void draw_map_axes(Drawing& drawing, const Axis& across, const Axis& attack, std::string_view across_name);

// One number a level, as near the middle of its longest line as there is room.
void number_contours(Drawing& drawing, const Axis& across, const Axis& up, const std::vector<double>& levels,
                     const std::vector<std::vector<std::vector<Spot>>>& contours);

}  // namespace loftwright
