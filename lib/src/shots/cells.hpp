// One cell of a shot list -> a number. "82", "12,5", "2,650", "2 650", "2'650", "-3.4", "3.4 R", "12L", "down 2", "82
// mph", "4 in behind".
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "loftwright/shots/columns.hpp"

namespace loftwright {

// No-break and thin spaces become spaces, the minus sign and the apostrophe of typesetting become "-" and "'".
std::string plain(std::string_view text);

// How a file writes decimals; the other one of the two groups thousands.
enum class Decimal { point, comma };

// What a cell's number alone says about the file's decimals.
enum class DecimalSign {
  none,          // 12
  point,         // 12.5
  comma,         // 12,5
  either_point,  // 1.250: a point with three digits after it
  either_comma,  // 2,650
};
DecimalSign decimal_sign(std::string_view cell);

struct Cell {
  std::optional<double> value;  // in `unit`, or as the column has it
  const Unit* unit = nullptr;   // when the cell names one
  std::string problem;          // why there is no value
};

Cell read_cell(std::string_view cell, const ReadingWords& words, Dimension dimension, Decimal decimal);

}  // namespace loftwright
