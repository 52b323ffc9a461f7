// Lines of equal value over a surface of values, and the regions above them: marching squares.
#pragma once

#include <cstddef>
#include <vector>

#include "page/svg.hpp"

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

}  // namespace loftwright
