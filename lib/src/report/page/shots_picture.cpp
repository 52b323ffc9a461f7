#include "report/page/shots_picture.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "report/shot_words.hpp"

namespace loftwright {

namespace {

constexpr double kShotsLeft = 14.0, kShotsRight = kPictureWidth - 14.0, kShotsTop = 18.0, kMostStack = 84.0,
                 kMean = 26.0, kBetween = 16.0, kWords = 16.0, kLargest = 4.0, kSmallest = 0.6;

// Of very many shots every second, third ... a dot; in rising order. How many shots a dot stands for.
std::size_t thin_out(ShotsRow& row) {
  constexpr std::size_t kMostDots = 400;
  std::sort(row.values.begin(), row.values.end());
  const std::size_t step = (row.values.size() + kMostDots - 1) / kMostDots;
  std::vector<double> kept;
  for (std::size_t n = step / 2; n < row.values.size(); n += step) kept.push_back(row.values[n]);
  row.values = std::move(kept);
  return step;
}

// Heights in dots, and dots as large as the tallest stack allows.
struct Stacks {
  double radius = kLargest;
  int tallest = 1;
  std::vector<std::vector<int>> of;
};

Stacks stacked(const std::vector<ShotsRow>& rows, const Axis& along) {
  Stacks out;
  out.of.resize(rows.size());
  for (; out.radius > kSmallest; out.radius *= 0.85) {
    out.tallest = 1;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      out.of[i].clear();
      std::vector<double> last;  // of each level
      for (const double v : rows[i].values) {
        const double x = along.at(v);
        std::size_t level = 0;
        while (level < last.size() && x - last[level] < 2.1 * out.radius) ++level;
        if (level == last.size()) last.push_back(x);
        last[level] = x;
        out.of[i].push_back(static_cast<int>(level));
        out.tallest = std::max(out.tallest, static_cast<int>(level) + 1);
      }
    }
    if (2.1 * out.radius * out.tallest <= kMostStack) break;
  }
  return out;
}

void draw_row(Drawing& d, const ShotsRow& row, const std::vector<int>& heights, const Axis& along, double ground,
              double stack, double radius, UnitSystem units) {
  d.label({kShotsLeft, ground - stack + 8.0}, fmt::format("{}, {}", row.words, how_many(row.summary.count, "shot")),
          "on-paper");
  for (std::size_t n = 0; n < row.values.size(); ++n) {
    d.dot({along.at(row.values[n]), ground - radius * (1.0 + 2.1 * heights[n])}, radius,
          fmt::format("{} shot", row.look));
  }
  d.line({kShotsLeft, ground}, {kShotsRight, ground}, "ground");
  const Spot mean{along.at(row.summary.mean), ground + 11.0};
  double beside = 10.0;
  if (row.interval) {
    const double low = std::max(kShotsLeft, along.at(row.interval->first)),
                 high = std::min(kShotsRight, along.at(row.interval->second));
    d.whisker({low, mean.y}, high);
    beside = std::max(high - mean.x, mean.x - low) + 6.0;
  }
  d.mark(row.mark, mean, fmt::format("{} mark", row.look));
  const bool right = mean.x < kShotsRight - 84.0 - beside;  // else there is no room for the words
  d.label({mean.x + (right ? beside : -beside), mean.y + 5.0},
          fmt::format("mean {}", quantity(Shown::distance, row.summary.mean, units)), "on-paper",
          right ? Align::start : Align::end);
}

}  // namespace

std::string shots_figure(std::string_view title, std::vector<ShotsRow> rows, UnitSystem units) {
  const auto& yard = unit(unit_shown(Shown::distance, units));
  std::size_t most = 1;
  for (ShotsRow& row : rows) most = std::max(most, thin_out(row));
  double low = rows[0].values.front(), high = rows[0].values.back();
  std::string told;
  for (const ShotsRow& row : rows) {
    low = std::min(low, row.values.front()), high = std::max(high, row.values.back());
    if (row.interval) low = std::min(low, row.interval->first), high = std::max(high, row.interval->second);
    told += fmt::format("{}{}: {}, mean {}, from {} to {}", told.empty() ? "" : "; ", row.words,
                        how_many(row.summary.count, "shot"), quantity(Shown::distance, row.summary.mean, units),
                        number(Shown::distance, row.values.front(), units),
                        quantity(Shown::distance, row.values.back(), units));
  }
  const double margin = 0.04 * (high - low) + yard.to_si(1.0);
  const Axis along{low - margin, high + margin, kShotsLeft, kShotsRight};
  const Stacks stacks = stacked(rows, along);

  const double stack = kWords + 2.1 * stacks.radius * stacks.tallest, row = stack + kMean + kBetween,
               floor = kShotsTop + static_cast<double>(rows.size()) * row - kBetween;
  Drawing d("shots", kPictureWidth, floor + 26.0, title, told + ".");
  d.datum("x0", along.at(0.0));
  d.datum("x-per-m", along.per_unit());
  for (const double t : even_ticks(yard.from_si(along.low), yard.from_si(along.high), 6)) {
    const double x = along.at(yard.to_si(t));
    d.line({x, kShotsTop - 8.0}, {x, floor}, "grid");
    d.label({x, floor + 15.0}, fmt::format("{} {}", short_number(t), yard.symbol), "small", Align::middle);
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    draw_row(d, rows[i], stacks.of[i], along, kShotsTop + row * static_cast<double>(i) + stack, stack, stacks.radius,
             units);
  }
  return "<figure>\n" + d.text() +
         fmt::format(
             "<p class=\"note\">Every dot is {}, dots that would touch stacked; the mark below is the mean of "
             "all.</p>\n</figure>\n",
             most == 1 ? "a shot" : fmt::format("one of up to {} shots", most));
}

}  // namespace loftwright
