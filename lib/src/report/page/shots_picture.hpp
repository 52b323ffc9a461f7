// Every shot of several lists a dot along one line, a row a list.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "loftwright/core/units.hpp"
#include "loftwright/stats/detail/summary.hpp"
#include "report/page/svg.hpp"

namespace loftwright {

struct ShotsRow {
  std::string words;
  std::string_view look;                              // classes of page.css
  Mark mark;                                          // of the mean
  std::vector<double> values;                         // [m] of the shots, in any order; at least one
  Summary summary;                                    // [m] of them
  std::optional<std::pair<double, double>> interval;  // [m] of the mean: low, high
};

// The drawing "shots" as a figure: dots that would touch stacked, below them the mean and how sure it is.
std::string shots_figure(std::string_view title, std::vector<ShotsRow> rows, UnitSystem units);

}  // namespace loftwright
