#include "loftwright/report/pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/core/units.hpp"
#include "loftwright/report/json.hpp"
#include "report/compare_tables.hpp"
#include "report/page/bars.hpp"
#include "report/page/html.hpp"
#include "report/page/sheet.hpp"
#include "report/page/svg.hpp"
#include "report/shot_words.hpp"

namespace loftwright {

namespace {

Reading goal_of(const CompareAnswer& a) { return a.options.goal == Goal::carry ? Reading::carry : Reading::total; }

struct Side {
  std::string_view word, look;
  Mark mark;
  std::vector<double> dots;  // [m] of the goal, in rising order: every shot, or of very many every second, third ...
  std::size_t shots_a_dot = 1;
  Summary summary;
};

std::vector<Side> sides_of(const CompareAnswer& a) {
  const ComparedReading& goal = *a.comparison.find(goal_of(a));
  std::vector<Side> out{{"before", "s-as_is", Mark::circle, {}, 1, goal.before},
                        {"after", "s-both", Mark::diamond, {}, 1, goal.after}};
  const ShotList* lists[] = {&a.before.hitting.list, &a.after.hitting.list};
  for (std::size_t i = 0; i < 2; ++i) {
    std::vector<double> values = values_of(counted(*lists[i], a.options.odd), goal_of(a));
    std::sort(values.begin(), values.end());
    constexpr std::size_t kMostDots = 400;
    out[i].shots_a_dot = (values.size() + kMostDots - 1) / kMostDots;
    for (std::size_t n = out[i].shots_a_dot / 2; n < values.size(); n += out[i].shots_a_dot)
      out[i].dots.push_back(values[n]);
  }
  return out;
}

// Every shot a dot along the goal, dots that would touch stacked; below them the mean and how sure it is.
std::string shots_picture(const CompareAnswer& a, UnitSystem units) {
  constexpr double kLeft = 14.0, kRight = kPictureWidth - 14.0, kTop = 18.0, kMostStack = 84.0, kMean = 26.0,
                   kBetween = 16.0, kWords = 16.0;
  const auto& yard = unit(unit_shown(Shown::distance, units));
  const std::vector<Side> sides = sides_of(a);
  double low = sides[0].dots.front(), high = sides[0].dots.back();
  for (const Side& s : sides) low = std::min(low, s.dots.front()), high = std::max(high, s.dots.back());
  const double margin = 0.04 * (high - low) + yard.to_si(1.0);
  const Axis along{low - margin, high + margin, kLeft, kRight};

  // Heights in dots, and dots as large as the tallest stack allows.
  constexpr double kLargest = 4.0, kSmallest = 0.6;
  double radius = kLargest;
  int tallest = 1;
  std::vector<std::vector<int>> stacked(sides.size());
  for (; radius > kSmallest; radius *= 0.85) {
    tallest = 1;
    for (std::size_t i = 0; i < sides.size(); ++i) {
      stacked[i].clear();
      std::vector<double> last;  // of each level
      for (const double v : sides[i].dots) {
        const double x = along.at(v);
        std::size_t level = 0;
        while (level < last.size() && x - last[level] < 2.1 * radius) ++level;
        if (level == last.size()) last.push_back(x);
        last[level] = x;
        stacked[i].push_back(static_cast<int>(level));
        tallest = std::max(tallest, static_cast<int>(level) + 1);
      }
    }
    if (2.1 * radius * tallest <= kMostStack) break;
  }

  std::string told;
  for (const Side& s : sides) {
    told +=
        fmt::format("{}{}: {}, mean {}, from {} to {}", told.empty() ? "" : "; ", s.word,
                    counted_shots(s.summary.count), quantity(Shown::distance, s.summary.mean, units),
                    number(Shown::distance, s.dots.front(), units), quantity(Shown::distance, s.dots.back(), units));
  }
  const double stack = kWords + 2.1 * radius * tallest, row = stack + kMean + kBetween,
               floor = kTop + 2.0 * row - kBetween;
  Drawing d("shots", kPictureWidth, floor + 26.0,
            fmt::format("{} of every shot, before and after", info(goal_of(a)).title), told + ".");
  d.datum("x0", along.at(0.0));
  d.datum("x-per-m", along.per_unit());
  for (const double t : even_ticks(yard.from_si(along.low), yard.from_si(along.high), 6)) {
    const double x = along.at(yard.to_si(t));
    d.line({x, kTop - 8.0}, {x, floor}, "grid");
    d.label({x, floor + 15.0}, fmt::format("{} {}", short_number(t), yard.symbol), "small", Align::middle);
  }
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const Side& s = sides[i];
    const double ground = kTop + row * static_cast<double>(i) + stack;
    d.label({kLeft, ground - stack + 8.0}, fmt::format("{}, {}", s.word, counted_shots(s.summary.count)), "on-paper");
    for (std::size_t n = 0; n < s.dots.size(); ++n) {
      d.dot({along.at(s.dots[n]), ground - radius * (1.0 + 2.1 * stacked[i][n])}, radius,
            fmt::format("{} shot", s.look));
    }
    d.line({kLeft, ground}, {kRight, ground}, "ground");
    const Spot mean{along.at(s.summary.mean), ground + 11.0};
    d.mark(s.mark, mean, fmt::format("{} mark", s.look));
    const bool right = mean.x < kRight - 76.0;  // else there is no room for the words
    d.label({mean.x + (right ? 10.0 : -10.0), mean.y + 5.0},
            fmt::format("mean {}", quantity(Shown::distance, s.summary.mean, units)), "on-paper",
            right ? Align::start : Align::end);
  }
  const std::size_t most = std::max(sides[0].shots_a_dot, sides[1].shots_a_dot);
  return "<figure>\n" + d.text() +
         fmt::format(
             "<p class=\"note\">Every dot is {}, dots that would touch stacked; the mark below is the mean of "
             "all.</p>\n</figure>\n",
             most == 1 ? "a shot" : fmt::format("one of up to {} shots", most));
}

std::string change_picture(const CompareAnswer& a, UnitSystem units) {
  if (!a.change) return "";
  constexpr EnumArray<Factor, std::string_view> kLooks{"s-as_is", "s-technique_only", "s-loft_only", "s-as_is",
                                                       "s-as_is", "s-as_is",          "s-as_is"};
  std::vector<Bar> rows;
  const auto add = [&](std::string_view what, const Estimate& e, std::string_view look) {
    rows.push_back(
        {fmt::format("{}  {} ({} to {})", what, quantity(Shown::gain, e.value, units, Sign::always),
                     number(Shown::gain, e.low, units, Sign::always), number(Shown::gain, e.high, units, Sign::always)),
         e.value, std::pair{e.low, e.high}, std::string(look)});
  };
  for (const Factor f : kAllOf<Factor>) {
    const Estimate& share = a.change->shares[f];
    if (share.value != 0.0 || share.low != 0.0 || share.high != 0.0)
      add(title_of(f, a.change->club_known), share, kLooks[f]);
  }
  add("all by the model", a.change->modelled, "s-both");
  if (a.change->unexplained) add("measured beyond that", *a.change->unexplained, "s-as_is");
  std::string told;
  for (const Bar& row : rows) told += (told.empty() ? "" : "; ") + row.words;
  const Drawing d = bars("change", fmt::format("Which change made which part of the {}", info(goal_of(a)).title),
                         told + ".", rows, units);
  return "<figure>\n" + d.text() +
         fmt::format("<p class=\"note\">Lines: {} intervals.</p>\n</figure>\n", confidence_words(a.options.confidence));
}

std::string big_numbers(const CompareAnswer& a, UnitSystem units) {
  const ComparedReading& goal = *a.comparison.find(goal_of(a));
  const std::string far(unit_shown(Shown::distance, units));
  return big_numbers_of(
      big_number(fmt::format("{} before", info(goal_of(a)).title), number(Shown::distance, goal.before.mean, units),
                 far, shots_words(a.before.hitting.list, a.options.odd)) +
      big_number(fmt::format("{} after", info(goal_of(a)).title), number(Shown::distance, goal.after.mean, units), far,
                 shots_words(a.after.hitting.list, a.options.odd)) +
      big_number("change", number(Shown::gain, goal.test.difference, units, Sign::always), far,
                 fmt::format("{} interval: {} to {} {}", confidence_words(a.options.confidence),
                             number(Shown::gain, goal.test.low, units, Sign::always),
                             number(Shown::gain, goal.test.high, units, Sign::always), far)));
}

std::string coach_part(const CompareAnswer& a, UnitSystem units,
                       const std::vector<std::pair<std::string, std::string>>& inputs) {
  std::string out;
  for (const std::string& note : compare_notes(a)) out += paragraph(note);
  out +=
      html_table(readings_table(a, units)) + html_table(change_table(a, units)) + html_table(reached_table(a, units));
  const std::string before = conditions_words(a.before.hitting.setting, units),
                    after = conditions_words(a.after.hitting.setting, units);
  out += paragraph("The model: " + before);
  if (after != before) out += paragraph("After: " + after);
  std::string texts;
  for (const auto& [name, text] : inputs)
    texts += fmt::format("# {}\n{}{}", name, text, text.ends_with('\n') ? "\n" : "\n\n");
  return out +
         input_again(texts, "before.csv and after.csv", "loftwright compare before.csv after.csv --html page.html");
}

}  // namespace

std::string compare_page(const CompareAnswer& a, UnitSystem units,
                         const std::vector<std::pair<std::string, std::string>>& inputs) {
  Sheet sheet;
  const std::string& name = a.name;
  sheet.title = fmt::format("Before and after: {}{}, {}", name.empty() ? "" : name + ": ", a.before.file, a.after.file);
  sheet.body = fmt::format("<header>\n<h1>Before and after</h1>\n<p class=\"who\">{}{}, then {}</p>\n</header>\n",
                           name.empty() ? "" : typed(name) + ": ", typed(a.before.file), typed(a.after.file));
  sheet.body +=
      paragraph(verdict_sentence(a.comparison, a.options, a.change, units), "verdict") + big_numbers(a, units);
  sheet.body += "<div class=\"pair\">\n" + part("shots-part", "Every shot", shots_picture(a, units)) +
                part("change-part", "What made the change", change_picture(a, units)) + "</div>\n";
  sheet.body += part("care", "Take care", bullets(cautions(units)));
  sheet.body += part("coach", "For the coach", coach_part(a, units, inputs), "coach");
  sheet.data = answer_element(compare_json(a, units));
  return whole_page(sheet);
}

}  // namespace loftwright
