// Bars from zero, each under its own words, with the interval that doubt leaves it.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "loftwright/report/words.hpp"
#include "report/page/svg.hpp"

namespace loftwright {

struct Bar {
  std::string words;
  std::optional<double> value;                        // [m] none: nothing is drawn under the words
  std::optional<std::pair<double, double>> interval;  // [m] low, high
  std::string look;                                   // classes of page.css
};

// data-x0 and data-x-per-m say how to read it back.
Drawing bars(std::string_view name, std::string_view title, std::string_view description, const std::vector<Bar>& rows,
             UnitSystem units);

}  // namespace loftwright
