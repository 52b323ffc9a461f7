// The tables of a loft chart, as text for people: what the screen and the page both lay out.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/advise/chart.hpp"
#include "loftwright/report/numbers.hpp"
#include "report/text_table.hpp"

namespace loftwright {

// What a table shows of a cell.
struct ChartColumn {
  std::string_view key;  // of --show
  std::string_view title;
  Shown shown;
  double (*value)(const ChartCell&);                            // [SI]
  std::string (*text)(const ChartCell&, UnitSystem) = nullptr;  // where a cell shows more than the number
};
std::span<const ChartColumn> chart_columns();  // loft first

// One quantity: attack down, the club speeds from `first` to before `end` across. Titled with its unit. A cell without
// an answer has a dash.
TextTable chart_table(const Chart& chart, const ChartColumn& column, std::size_t first, std::size_t end,
                      UnitSystem units);

// What the chart is about, in one sentence.
std::string chart_words(const Chart& chart, UnitSystem units);

// Where loft is held or no loft will do, and how certain the numbers are: a sentence each.
std::vector<std::string> chart_notes(const Chart& chart);

}  // namespace loftwright
