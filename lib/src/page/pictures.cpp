#include "page/pictures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <iterator>

#include "advise/model.hpp"
#include "loftwright/advise/finish.hpp"
#include "loftwright/core/units.hpp"
#include "page/bars.hpp"
#include "page/contour.hpp"
#include "page/svg.hpp"

namespace loftwright {

namespace {

constexpr double kAcross = 400.0;  // [drawing units] width of every picture; page.css sets letters of 13 beside it

double shown(Shown what, double si, UnitSystem units) { return unit(unit_shown(what, units)).from_si(si); }

Mark mark_of(StrategyKind kind) {
  constexpr Mark kMarks[] = {Mark::circle, Mark::square, Mark::triangle, Mark::diamond};
  return kMarks[static_cast<std::size_t>(kind)];
}

double degrees(double radians) { return radians / kDegree; }

// "13.5 deg of loft, attack +3.0 deg"
std::string choice_words(const Strategy& s, UnitSystem units) {
  return fmt::format("{} of loft, attack {}", quantity(Shown::angle, s.loft, units), quantity(Shown::angle, s.attack, units, Sign::always));
}

}  // namespace

std::vector<StrategyKind> advised(const Advice& advice) {
  switch (advice.verdict) {
    case Lever::loft: return {StrategyKind::loft_only};
    case Lever::technique: return {StrategyKind::technique_only};
    case Lever::either: return {StrategyKind::loft_only, StrategyKind::technique_only};
    case Lever::both:
    case Lever::leave: break;
  }
  return {StrategyKind::both};
}

std::string look_of(StrategyKind kind) { return fmt::format("s-{}", key_of(kind)); }

std::string key_picture(StrategyKind kind) {
  Drawing key(fmt::format("key-{}", key_of(kind)), 34.0, 14.0, "", "");
  key.line({1.0, 7.0}, {33.0, 7.0}, look_of(kind) + " way");
  key.mark(mark_of(kind), {17.0, 7.0}, look_of(kind) + " mark");
  return key.ornament("key");
}

std::string flights_picture(const Advice& advice, const Setting& setting, UnitSystem units) {
  constexpr int kPoints = 49;
  constexpr double kLeft = 34.0, kRight = 12.0, kTop = 12.0, kSky = 130.0, kLane = 16.0;
  const std::string far(unit_shown(Shown::distance, units)), high(unit_shown(Shown::height, units));
  std::vector<Strategy> shown_here;  // what breaks a limit is no answer
  std::copy_if(advice.strategies.begin(), advice.strategies.end(), std::back_inserter(shown_here),
               [](const Strategy& s) { return s.feasible || s.kind == StrategyKind::as_is; });
  double longest = 0.0, highest = 0.0;
  for (const Strategy& s : shown_here) {
    longest = std::max(longest, s.drive.total);
    highest = std::max(highest, s.drive.flight.apex);
  }
  // The longest run's number needs room behind it.
  const Axis along{0.0, longest * 1.16, kLeft, kAcross - kRight};
  const double times = std::clamp(std::floor(kSky / (std::max(highest, 1.0) * along.per_unit())), 1.0, 4.0);
  const double sky = std::min(kSky, highest * along.per_unit() * times) + 8.0, ground = kTop + sky;
  const Axis up{0.0, 1.0, ground, ground - along.per_unit() * times};
  const double lanes = ground + 24.0, height = lanes + kLane * static_cast<double>(shown_here.size()) + 4.0;

  std::string told;
  for (const Strategy& s : shown_here) {
    told += fmt::format("{}{}: carry {}, run {}, total {}, top {}", told.empty() ? "" : "; ", title_of(s.kind),
                        quantity(Shown::distance, s.drive.flight.carry, units), quantity(Shown::distance, s.drive.run.bounce + s.drive.run.roll, units),
                        quantity(Shown::distance, s.drive.total, units), quantity(Shown::height, s.drive.flight.apex, units));
  }
  Drawing d("flights", kAcross, height, "Flights seen from the side", told + ".");
  d.datum("x0", kLeft);
  d.datum("x-per-m", along.per_unit());
  d.datum("y0", ground);
  d.datum("y-per-m", -up.per_unit());
  for (const double t : even_ticks(0.0, shown(Shown::distance, along.high, units), 6)) {
    const double x = along.at(unit(far).to_si(t));
    d.line({x, kTop}, {x, height - 4.0}, "grid");
    d.label({x, ground + 14.0}, t == 0.0 ? "0 " + far : short_number(t), "small", Align::middle);
  }
  for (const double t : even_ticks(0.0, shown(Shown::height, highest, units), 3)) {
    if (t == 0.0) continue;
    const double y = up.at(unit(high).to_si(t));
    d.line({kLeft, y}, {kAcross - kRight, y}, "grid");
    d.label({kLeft - 4.0, y + 4.0}, short_number(t), "small", Align::end);
  }
  d.label({2.0, kTop - 1.0}, high, "small");
  d.line({kLeft, ground}, {kAcross - kRight, ground}, "ground");
  const FlightSetting in{&setting.ball, &setting.aero, setting.air, setting.wind, 1.0, 1.0};
  for (const Strategy& s : shown_here) {
    std::vector<Spot> way;
    for (const FlightPoint& p : trace(s.drive.launch, in, kPoints)) way.push_back({along.at(p.at.x), up.at(p.at.y)});
    d.polyline(way, look_of(s.kind) + " way");
  }
  for (std::size_t i = 0; i < shown_here.size(); ++i) {
    const Strategy& s = shown_here[i];
    const double y = lanes + kLane * (static_cast<double>(i) + 0.5), landed = along.at(s.drive.flight.carry), rest = along.at(s.drive.total);
    d.line({landed, y}, {rest, y}, look_of(s.kind) + " run");
    d.line({rest, y - 5.0}, {rest, y + 5.0}, look_of(s.kind) + " run");
    d.mark(mark_of(s.kind), {landed, y}, look_of(s.kind) + " mark");
    d.label({landed - 10.0, y + 4.5}, fmt::format("{} {}", title_of(s.kind), number(Shown::distance, s.drive.flight.carry, units)), "on-paper", Align::end);
    d.label({rest + 5.0, y + 4.5}, number(Shown::distance, s.drive.total, units), "on-paper", Align::start);
  }
  return d.text() + fmt::format("<p class=\"note\">Across: {0} from the tee. Up: {1}, drawn {2}. Below the ground: where each drive lands (its mark, "
                                "and carry in {0}) and where it comes to rest (total in {0}).</p>\n",
                                far, high, times > 1.0 ? fmt::format("{:.0f} times as tall as far", times) : "as tall as far");
}

std::string gains_picture(const Advice& advice, UnitSystem units) {
  std::string told;
  std::vector<Bar> rows;
  for (const Strategy& s : advice.strategies) {
    if (s.kind == StrategyKind::as_is) continue;
    const auto judged = advice.confidence ? advice.confidence->at(s.kind) : std::nullopt;
    Bar bar{std::string(title_of(s.kind)), std::nullopt, std::nullopt, look_of(s.kind)};
    std::string words = "breaks a limit";
    if (s.feasible) {
      words = quantity(Shown::gain, s.gain, units, Sign::always);
      bar.value = s.gain;
    }
    if (s.feasible && judged) {
      words += fmt::format("  (8 in 10: {})", interval_numbers(judged->gain, units));
      bar.interval = {judged->gain.low, judged->gain.high};
    }
    bar.words += "  " + words;
    told += (told.empty() ? "" : "; ") + bar.words;
    rows.push_back(std::move(bar));
  }
  const Drawing d = bars("gains", fmt::format("What each change adds to {}", key_of(advice.goal)), told + ".", rows, units);
  return d.text() + (advice.confidence ? "<p class=\"note\">Bars: a perfect strike. Lines: between their ends lie eight drives in ten.</p>\n" : "");
}

std::string map_picture(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  constexpr std::size_t kNodes = 41;
  constexpr double kLeft = 38.0, kRight = 10.0, kTop = 26.0, kBottom = 34.0, kHeight = 340.0, kAside = 1.0 * kDegree;
  Interval loft{pupil.club_loft, pupil.club_loft}, attack{pupil.reach.attack.low, pupil.reach.attack.high};
  for (const LoftChoice& c : pupil.lofts) loft = {std::min(loft.low, c.low), std::max(loft.high, c.high)};
  const double low_loft = std::max(4.0 * kDegree, loft.low - kAside), high_loft = std::min(30.0 * kDegree, loft.high + 2.0 * kAside);
  const double low_attack = std::max(-20.0 * kDegree, attack.low - kAside), high_attack = std::min(20.0 * kDegree, attack.high + kAside);
  const Axis x{low_loft, high_loft, kLeft, kAcross - kRight}, y{low_attack, high_attack, kHeight - kBottom, kTop};

  // The optimiser's own function, so that its points lie on the map's hills. A club of any loft, its face as now.
  AdviseOptions options;
  options.tolerance = options.draw_tolerance;
  std::atomic<int> flights{0};
  const DriveModel model(pupil, setting, options, flights);
  const LoftChoice any{4.0 * kDegree, 30.0 * kDegree, pupil.club_loft, 0.0, false};
  Surface goal{kNodes, kNodes, {}}, excess{kNodes, kNodes, {}};
  for (std::size_t j = 0; j < kNodes; ++j) {
    for (std::size_t i = 0; i < kNodes; ++i) {
      const auto part = [](std::size_t n) { return static_cast<double>(n) / (kNodes - 1); };
      const Point p = model.value(any, low_loft + part(i) * (high_loft - low_loft), low_attack + part(j) * (high_attack - low_attack));
      goal.values.push_back(shown(Shown::distance, p.goal, units));
      double most = -1.0;
      for (const double e : p.excess) most = std::max(most, e);
      excess.values.push_back(most);
    }
  }
  const auto on_drawing = [&](std::vector<std::vector<Spot>> lines) {
    constexpr double kCells = kNodes - 1;
    for (auto& line : lines) {
      for (Spot& s : line) s = {x.from + (x.to - x.from) * s.x / kCells, y.from + (y.to - y.from) * s.y / kCells};
    }
    return lines;
  };

  std::string told = fmt::format("You are at {}, {}", choice_words(advice.at(StrategyKind::as_is), units),
                                 quantity(Shown::distance, advice.at(StrategyKind::as_is).goal, units));
  for (const Strategy& s : advice.strategies) {
    if (s.kind != StrategyKind::as_is && s.feasible) told += fmt::format("; {}: {}, {}", title_of(s.kind), choice_words(s, units), quantity(Shown::distance, s.goal, units));
  }
  const std::string far(unit_shown(Shown::distance, units));
  Drawing d("map", kAcross, kHeight, fmt::format("Map of {} over loft and attack", key_of(advice.goal)), told + ".");
  d.datum("x0", x.at(0.0));
  d.datum("x-per-deg", x.per_unit() * kDegree);
  d.datum("y0", y.at(0.0));
  d.datum("y-per-deg", -y.per_unit() * kDegree);

  const auto [least, most] = std::minmax_element(goal.values.begin(), goal.values.end());
  const std::vector<double> levels = even_ticks(*least, *most, 9);
  d.box(kLeft, kTop, x.to - x.from, y.from - y.to, "land");
  for (const double level : levels) d.region(on_drawing(region_above(goal, level)), "hill");
  const bool limited = std::any_of(excess.values.begin(), excess.values.end(), [](double e) { return e > kLimitSlack; });
  if (limited) {
    d.raw("<pattern id=\"hatch\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path class=\"hatch\" "
          "d=\"M0 0V6\"/></pattern>\n");
    const auto broken = on_drawing(region_above(excess, kLimitSlack));
    d.region(broken, "broken");
  }
  std::vector<std::pair<double, std::vector<std::vector<Spot>>>> lines;
  for (const double level : levels) {
    lines.emplace_back(level, on_drawing(contour_lines(goal, level)));
    for (const auto& line : lines.back().second) d.polyline(line, "contour");
  }
  // The reach, a band; the lofts on offer, lines and ticks above.
  const double top = y.at(pupil.reach.attack.high), bottom = y.at(pupil.reach.attack.low);
  d.box(x.at(loft.low), top, std::max(x.at(loft.high) - x.at(loft.low), 0.5), std::max(bottom - top, 0.5), "reach");
  double last_tick = -1e9;
  std::vector<double> ends;
  for (const LoftChoice& c : pupil.lofts) {
    ends.push_back(c.low);
    if (c.high > c.low) ends.push_back(c.high);
  }
  std::sort(ends.begin(), ends.end());
  for (const double l : ends) {
    d.line({x.at(l), top}, {x.at(l), bottom}, "offer");
    d.line({x.at(l), kTop - 6.0}, {x.at(l), kTop}, "ground");
    const std::string text = number(Shown::angle, l, units);
    if (x.at(l) - last_tick > 30.0) {
      d.label({x.at(l), kTop - 10.0}, text, "small", Align::middle);
      last_tick = x.at(l);
    }
  }
  for (const double t : even_ticks(degrees(low_loft), degrees(high_loft), 8)) {
    d.line({x.at(t * kDegree), y.from}, {x.at(t * kDegree), y.from + 4.0}, "ground");
    d.label({x.at(t * kDegree), y.from + 16.0}, short_number(t), "small", Align::middle);
  }
  for (const double t : even_ticks(degrees(low_attack), degrees(high_attack), 8)) {
    d.line({kLeft - 4.0, y.at(t * kDegree)}, {kLeft, y.at(t * kDegree)}, "ground");
    d.label({kLeft - 6.0, y.at(t * kDegree) + 4.0}, fmt::format("{}{}", t > 0.0 ? "+" : "", short_number(t)), "small", Align::end);
  }
  d.label({kAcross - kRight, kHeight - 4.0}, "driver loft, deg", "small", Align::end);
  d.label({kLeft, kHeight - 4.0}, "up: attack, deg", "small", Align::start);
  d.raw(fmt::format("<rect class=\"frame\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n", kLeft, kTop, x.to - x.from, y.from - y.to));

  for (const Strategy& s : advice.strategies) {
    if (!s.feasible && s.kind != StrategyKind::as_is) continue;
    const Spot at{x.at(s.loft), y.at(s.attack)};
    d.mark(mark_of(s.kind), at, look_of(s.kind) + " mark");
    d.keep_clear(at, 8.0, 8.0);
  }
  for (const Strategy& s : advice.strategies) {
    if (!s.feasible && s.kind != StrategyKind::as_is) continue;
    const Spot at{x.at(s.loft), y.at(s.attack)};
    const std::string name = s.kind == StrategyKind::as_is ? "you are here" : std::string(title_of(s.kind));
    for (const auto& [dx, dy, align] : {std::tuple{0.0, 20.0, Align::middle}, {0.0, -11.0, Align::middle}, {11.0, 4.5, Align::start}, {-11.0, 4.5, Align::end},
                                        {11.0, 18.0, Align::start}, {-11.0, 18.0, Align::end}}) {
      if (d.label_if_free({at.x + dx, at.y + dy}, name, "on-paper", align)) break;
    }
  }
  for (const auto& [level, parts] : lines) {
    // One number a level, as near the middle of its longest line as there is room.
    const auto longest = std::max_element(parts.begin(), parts.end(), [](const auto& a, const auto& b) { return a.size() < b.size(); });
    if (longest == parts.end()) continue;
    const std::size_t n = longest->size();
    for (std::size_t k = 0; k < n; ++k) {
      const std::size_t i = n / 2 + (k % 2 == 0 ? k / 2 : n - (k + 1) / 2);  // middle, then outwards
      const Spot s = (*longest)[i % n];
      if (s.x < kLeft + 16.0 || s.x > kAcross - kRight - 16.0 || s.y < kTop + 10.0 || s.y > y.from - 8.0) continue;
      if (d.label_if_free({s.x, s.y + 4.0}, short_number(level), "small on-paper", Align::middle)) break;
    }
  }
  const double speed_change = pupil.reach.speed_per_attack;
  return d.text() + fmt::format("<p class=\"note\">Lines of equal {} in {}, {} of club speed{}. The frame: your reach and the lofts on offer (marked above).{}</p>\n",
                                key_of(advice.goal), far, quantity(Shown::speed, pupil.delivery.club_speed, units),
                                speed_change == 0.0 ? "" : " now, and what attack does to it",
                                limited ? " Hatched: breaks a limit set in the pupil's file." : "");
}

std::string finish_picture(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  constexpr double kHeight = 340.0, kLeft = 38.0, kRight = 10.0, kTop = 12.0, kBottom = 34.0, kShare = 0.8;
  const std::string far(unit_shown(Shown::distance, units));
  const double fairway = units == UnitSystem::yards ? 35.0 * 0.9144 : 32.0;  // [m] common practice: 25 to 45 yd where drives finish
  std::vector<StrategyKind> kinds{StrategyKind::as_is};
  for (const StrategyKind k : advised(advice)) {
    if (advice.at(k).feasible) kinds.push_back(k);
  }
  struct Cloud {
    StrategyKind kind;
    std::vector<Finish> finishes;
    FinishEllipse ellipse;
  };
  std::vector<Cloud> clouds;
  double nearest = 1e9, furthest = 0.0, widest = fairway / 2.0;
  for (const StrategyKind kind : kinds) {
    Cloud c{kind, finishes(pupil, setting, advice.at(kind).delivery), {}};
    c.ellipse = ellipse_of(c.finishes, kShare);
    const FinishEllipse& e = c.ellipse;
    const double half_along = std::hypot(e.longer * std::cos(e.turn), e.shorter * std::sin(e.turn));
    const double half_side = std::hypot(e.longer * std::sin(e.turn), e.shorter * std::cos(e.turn));
    nearest = std::min(nearest, e.centre.along - half_along);
    furthest = std::max(furthest, e.centre.along + half_along);
    widest = std::max(widest, std::abs(e.centre.side) + half_side);
    clouds.push_back(std::move(c));
  }
  // The same scale both ways.
  const double wide = kAcross - kLeft - kRight, tall = kHeight - kTop - kBottom;
  const double margin = 0.08 * (furthest - nearest) + 2.0;
  const double scale = std::min(tall / (furthest - nearest + 2.0 * margin), wide / (2.2 * widest));
  const double middle = 0.5 * (nearest + furthest), half_tall = 0.5 * tall / scale, half_wide = 0.5 * wide / scale;
  const Axis side{-half_wide, half_wide, kLeft, kLeft + wide}, along{middle - half_tall, middle + half_tall, kTop + tall, kTop};

  std::string told;
  for (const Cloud& c : clouds) {
    told += fmt::format("{}{}: on average {} in all, {}; eight drives in ten rest inside an ellipse {} long and {} wide", told.empty() ? "" : "; ",
                        title_of(c.kind), quantity(Shown::distance, c.ellipse.centre.along, units), side_words(c.ellipse.centre.side, units),
                        quantity(Shown::distance, 2.0 * c.ellipse.longer, units), quantity(Shown::distance, 2.0 * c.ellipse.shorter, units));
  }
  Drawing d("finish", kAcross, kHeight, "Where drives come to rest, seen from above", told + ".");
  d.datum("x0", side.at(0.0));
  d.datum("y0", along.at(0.0));
  d.datum("per-m", scale);
  d.box(kLeft, kTop, wide, tall, "rough");
  const double half_fairway = std::min(fairway / 2.0, half_wide);
  d.box(side.at(-half_fairway), kTop, 2.0 * half_fairway * scale, tall, "fairway");
  d.line({side.at(0.0), kTop}, {side.at(0.0), kTop + tall}, "target");
  for (const double t : even_ticks(shown(Shown::distance, along.low, units), shown(Shown::distance, along.high, units), 6)) {
    const double at = along.at(unit(far).to_si(t));
    d.line({kLeft, at}, {kLeft + wide, at}, "grid");
    d.label({kLeft - 5.0, at + 4.0}, short_number(t), "small", Align::end);
  }
  for (const double t : even_ticks(shown(Shown::distance, side.low, units), shown(Shown::distance, side.high, units), 6)) {
    const double at = side.at(unit(far).to_si(t));
    d.line({at, kTop + tall}, {at, kTop + tall + 4.0}, "ground");
    d.label({at, kTop + tall + 16.0}, t == 0.0 ? "0" : fmt::format("{} {}", short_number(std::abs(t)), t < 0.0 ? "left" : "right"), "small", Align::middle);
  }
  d.label({kLeft, kHeight - 4.0}, fmt::format("up: total, {0}; across: off line, {0}", far), "small");
  for (const Cloud& c : clouds) {
    constexpr std::size_t kDots = 48;
    for (std::size_t i = 0; i < kDots; ++i) {
      const Spot at{side.at(c.finishes[i].side), along.at(c.finishes[i].along)};
      if (at.x < kLeft + 2.0 || at.x > kLeft + wide - 2.0 || at.y < kTop + 2.0 || at.y > kTop + tall - 2.0) continue;
      d.dot(at, 1.6, look_of(c.kind) + " dot");
    }
  }
  for (const Cloud& c : clouds) {
    const FinishEllipse& e = c.ellipse;
    const Spot at{side.at(e.centre.side), along.at(e.centre.along)};
    d.ellipse(at, e.longer * scale, e.shorter * scale, e.turn - kPi / 2.0, look_of(c.kind) + " way");
    d.mark(mark_of(c.kind), at, look_of(c.kind) + " mark");
    d.keep_clear(at, 8.0, 8.0);
  }
  for (const Cloud& c : clouds) {
    const Spot at{side.at(c.ellipse.centre.side), along.at(c.ellipse.centre.along)};
    const std::string name = fmt::format("{} {}", title_of(c.kind), number(Shown::distance, c.ellipse.centre.along, units));
    for (const auto& [dx, dy, align] : {std::tuple{12.0, 4.5, Align::start}, {-12.0, 4.5, Align::end}, {12.0, -14.0, Align::start}, {12.0, 24.0, Align::start}}) {
      if (d.label_if_free({at.x + dx, at.y + dy}, name, "on-paper", align)) break;
    }
  }
  d.label_if_free({side.at(0.0), kTop + 13.0}, fmt::format("fairway {}", quantity(Shown::distance, fairway, units)), "small on-paper", Align::middle);
  return d.text() + "<p class=\"note\">Ellipses: eight drives in ten, by your own scatter; their middles are averages, mishits and all, "
                    "and so shorter than a perfect strike. Dots: some of those drives. Along and across to the same scale. The fairway's width is common "
                    "practice.</p>\n";
}

}  // namespace loftwright
