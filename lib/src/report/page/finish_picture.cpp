#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advise/finish.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/report/words.hpp"
#include "report/page/pictures.hpp"

namespace loftwright {

namespace {

constexpr double kFinishLeft = 38.0, kFinishRight = kPictureWidth - 10.0, kFinishTop = 12.0, kFinishHeight = 340.0,
                 kFinishBottom = kFinishHeight - 34.0;
constexpr double kShare = 0.8;  // [-] of drives inside an ellipse

struct Cloud {
  StrategyKind kind;
  std::vector<Finish> finishes;
  FinishEllipse ellipse;
};

std::vector<Cloud> clouds_of(const Advice& advice, const Pupil& pupil, const Setting& setting) {
  std::vector<StrategyKind> kinds{StrategyKind::as_is};
  for (const StrategyKind k : advised(advice)) {
    if (advice.at(k).feasible) kinds.push_back(k);
  }
  std::vector<Cloud> out;
  for (const StrategyKind kind : kinds) {
    std::vector<Finish> rest = finishes(pupil, setting, advice.at(kind).delivery);
    // A few hundred drives' middle is known to a yard: they are moved to where the average of all draws lies, the one
    // that stands everywhere else.
    const Finish middle = ellipse_of(rest, kShare).centre;
    const AverageDrive& average = advice.at(kind).average;
    for (Finish& f : rest) f = {f.along + average.total - middle.along, f.side + average.side - middle.side};
    out.push_back({kind, rest, ellipse_of(rest, kShare)});
  }
  return out;
}

// One scale for both ways, so that an ellipse has its true shape.
struct Ground {
  Axis side{}, along{};  // [m]
};

Ground ground_for(const std::vector<Cloud>& clouds, double fairway) {
  double nearest = clouds[0].ellipse.centre.along, furthest = nearest, widest = fairway / 2.0;
  for (const Cloud& c : clouds) {
    const FinishEllipse& e = c.ellipse;
    const double half_along = std::hypot(e.longer * std::cos(e.turn), e.shorter * std::sin(e.turn));
    const double half_side = std::hypot(e.longer * std::sin(e.turn), e.shorter * std::cos(e.turn));
    nearest = std::min(nearest, e.centre.along - half_along);
    furthest = std::max(furthest, e.centre.along + half_along);
    widest = std::max(widest, std::abs(e.centre.side) + half_side);
  }
  const double wide = kFinishRight - kFinishLeft, tall = kFinishBottom - kFinishTop,
               margin = 0.08 * (furthest - nearest) + 2.0;
  const double scale = std::min(tall / (furthest - nearest + 2.0 * margin), wide / (2.2 * widest));
  const double middle = 0.5 * (nearest + furthest), half_tall = 0.5 * tall / scale, half_wide = 0.5 * wide / scale;
  return {{-half_wide, half_wide, kFinishLeft, kFinishRight},
          {middle - half_tall, middle + half_tall, kFinishBottom, kFinishTop}};
}

std::string told(const std::vector<Cloud>& clouds, UnitSystem units) {
  std::string out;
  for (const Cloud& c : clouds) {
    out +=
        fmt::format("{}{}: on average {} in all, {}; eight drives in ten rest inside an ellipse {} long and {} wide",
                    out.empty() ? "" : "; ", title_of(c.kind), quantity(Shown::distance, c.ellipse.centre.along, units),
                    side_words(c.ellipse.centre.side, units), quantity(Shown::distance, 2.0 * c.ellipse.longer, units),
                    quantity(Shown::distance, 2.0 * c.ellipse.shorter, units));
  }
  return out + ".";
}

void draw_ground(Drawing& d, const Ground& g, double fairway, UnitSystem units) {
  const Unit& far = unit(unit_shown(Shown::distance, units));
  d.box(kFinishLeft, kFinishTop, kFinishRight - kFinishLeft, kFinishBottom - kFinishTop, "rough");
  const double half = std::min(fairway / 2.0, g.side.high);
  d.box(g.side.at(-half), kFinishTop, g.side.at(half) - g.side.at(-half), kFinishBottom - kFinishTop, "fairway");
  d.line({g.side.at(0.0), kFinishTop}, {g.side.at(0.0), kFinishBottom}, "target");
  for (const double t : even_ticks(far.from_si(g.along.low), far.from_si(g.along.high), 6)) {
    const double y = g.along.at(far.to_si(t));
    d.line({kFinishLeft, y}, {kFinishRight, y}, "grid");
    d.label({kFinishLeft - 5.0, y + 4.0}, short_number(t), "small", Align::end);
  }
  for (const double t : even_ticks(far.from_si(g.side.low), far.from_si(g.side.high), 6)) {
    const double x = g.side.at(far.to_si(t));
    d.line({x, kFinishBottom}, {x, kFinishBottom + 4.0}, "ground");
    d.label_if_free({x, kFinishBottom + 16.0},
                    t == 0.0 ? "0" : fmt::format("{} {}", short_number(std::abs(t)), t < 0.0 ? "left" : "right"),
                    "small");
  }
  d.label({kFinishLeft, kFinishHeight - 4.0}, fmt::format("up: total, {0}; across: side, {0}", far.symbol), "small");
}

void draw_clouds(Drawing& d, const Ground& g, const std::vector<Cloud>& clouds, UnitSystem units) {
  const auto place = [&](const Finish& f) { return Spot{g.side.at(f.side), g.along.at(f.along)}; };
  for (const Cloud& c : clouds) {
    constexpr std::size_t kDots = 48;
    constexpr double kRadius = 1.6;
    for (std::size_t i = 0; i < std::min(kDots, c.finishes.size()); ++i) {
      const Spot at = place(c.finishes[i]);
      const bool inside = at.x > kFinishLeft + kRadius && at.x < kFinishRight - kRadius &&
                          at.y > kFinishTop + kRadius && at.y < kFinishBottom - kRadius;
      if (inside) d.dot(at, kRadius, look_of(c.kind) + " dot");
    }
  }
  for (const Cloud& c : clouds) {
    const FinishEllipse& e = c.ellipse;
    const double scale = g.side.per_unit();
    d.ellipse(place(e.centre), e.longer * scale, e.shorter * scale, e.turn - kPi / 2.0, look_of(c.kind) + " way");
    d.mark(mark_of(c.kind), place(e.centre), look_of(c.kind) + " mark");
    d.keep_clear(place(e.centre), 8.0, 8.0);
  }
  for (const Cloud& c : clouds) {
    d.label_beside(place(c.ellipse.centre),
                   fmt::format("{} {}", title_of(c.kind), number(Shown::distance, c.ellipse.centre.along, units)),
                   "on-paper");
  }
}

}  // namespace

std::string finish_picture(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  const double fairway = pupil.fairway;
  const std::vector<Cloud> clouds = clouds_of(advice, pupil, setting);
  const Ground g = ground_for(clouds, fairway);
  Drawing d("finish", kPictureWidth, kFinishHeight, "Where drives come to rest, seen from above", told(clouds, units));
  d.datum("x0", g.side.at(0.0));
  d.datum("y0", g.along.at(0.0));
  d.datum("per-m", g.side.per_unit());
  draw_ground(d, g, fairway, units);
  draw_clouds(d, g, clouds, units);
  d.label_if_free({g.side.at(0.0), kFinishTop + 13.0},
                  fmt::format("fairway {}", quantity(Shown::distance, fairway, units)), "small on-paper");
  return d.text() +
         fmt::format(
             "<p class=\"note\">Ellipses: eight drives in ten, by {}; their middles are averages, mishits and "
             "all, and so shorter than a perfect strike. Dots: some of those drives. "
             "Fairways held: each ellipse aimed at the middle.</p>\n",
             pupil.spread ? "your own scatter" : "the scatter usual for your skill");
}

}  // namespace loftwright
