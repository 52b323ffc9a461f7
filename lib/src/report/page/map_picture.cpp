#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>

#include "advise/model.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/report/numbers.hpp"
#include "report/page/contour.hpp"
#include "report/page/pictures.hpp"

namespace loftwright {

namespace {

constexpr double kMapLeft = 38.0, kMapRight = kPictureWidth - 10.0, kMapTop = 26.0, kMapHeight = 340.0,
                 kMapBottom = kMapHeight - 34.0;
constexpr std::size_t kNodes = 41;

// "13.5 deg of loft, attack +3.0 deg"
std::string choice_words(const Strategy& s, UnitSystem units) {
  return fmt::format("{} of loft, attack {}", quantity(Shown::angle, s.loft, units),
                     quantity(Shown::angle, s.attack, units, Sign::always));
}

class Map {
 public:
  Map(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units)
      : advice_(advice),
        pupil_(pupil),
        units_(units),
        d_("map", kPictureWidth, kMapHeight, fmt::format("Map of {} over loft and attack", key_of(advice.goal)),
           told()) {
    for (const LoftChoice& c : pupil.lofts) {
      offered_.low = std::min(offered_.low, c.low);
      offered_.high = std::max(offered_.high, c.high);
    }
    constexpr double kAside = 1.0;  // [deg] of what lies beyond reach and offer
    constexpr Range lofts = about(Quantity::loft).allowed, attacks = about(Quantity::attack).allowed;  // [deg]
    loft_ = {std::max(lofts.low, degrees(offered_.low) - kAside),
             std::min(lofts.high, degrees(offered_.high) + 2.0 * kAside), kMapLeft, kMapRight};
    attack_ = {std::max(attacks.low, degrees(pupil.reach.attack.low) - kAside),
               std::min(attacks.high, degrees(pupil.reach.attack.high) + kAside), kMapBottom, kMapTop};
    survey(setting);
  }

  std::string picture() {
    d_.datum("x0", loft_.at(0.0));
    d_.datum("x-per-deg", loft_.per_unit());
    d_.datum("y0", attack_.at(0.0));
    d_.datum("y-per-deg", -attack_.per_unit());
    draw_hills();
    draw_reach_and_offer();
    draw_map_axes(d_, loft_, attack_, "driver loft, deg");
    draw_answers();
    number_contours(d_, loft_, attack_, levels_, contours_);
    return d_.text() + note();
  }

 private:
  static double degrees(double radians) { return radians / kDegree; }

  std::string told() const {
    std::string out;
    for (const Strategy& s : drawn(advice_)) {
      out += fmt::format("{}{}: {}, {}", out.empty() ? "" : "; ",
                         s.kind == StrategyKind::as_is ? "You are here" : title_of(s.kind), choice_words(s, units_),
                         quantity(Shown::distance, s.goal, units_));
    }
    return out + ".";
  }

  // The optimiser's own function over the whole map, so that its points lie on the map's hills. A club of any loft, its
  // face as the pupil presents it now.
  void survey(const Setting& setting) {
    AdviseOptions options;
    options.tolerance = options.draw_tolerance;
    std::atomic<int> flights{0};
    constexpr std::size_t kShots = 16;  // lines of equal averages need no more
    const DriveModel model = DriveModel(pupil_, setting, options, flights).with_shots(kShots);
    constexpr Range all = about(Quantity::loft).allowed;
    const LoftChoice any{
        .low = low_of(all), .high = high_of(all), .nominal = pupil_.club_loft, .face = pupil_.club_face};
    const Unit& far = unit(unit_shown(Shown::distance, units_));
    const auto node = [](const Axis& axis, std::size_t n) {
      return (axis.low + (axis.high - axis.low) * static_cast<double>(n) / (kNodes - 1)) * kDegree;
    };
    std::vector<std::array<double, 2>> places;
    for (std::size_t j = 0; j < kNodes; ++j) {
      for (std::size_t i = 0; i < kNodes; ++i) places.push_back({node(loft_, i), node(attack_, j)});
    }
    for (const Point& p : model.values(any, places)) {
      goal_.values.push_back(far.from_si(p.goal));
      // Not Point::worst, which is zero wherever limits are kept: the edge of what is allowed lies where this is zero.
      excess_.values.push_back(p.excess.empty() ? -1.0 : *std::max_element(p.excess.begin(), p.excess.end()));
    }
    limited_ = std::any_of(excess_.values.begin(), excess_.values.end(), [](double e) { return e > kLimitSlack; });
    const auto [least, most] = std::minmax_element(goal_.values.begin(), goal_.values.end());
    if (*most > *least) levels_ = even_ticks(*least, *most, 9);
  }

  std::vector<std::vector<Spot>> placed(std::vector<std::vector<Spot>> lines) const {
    for (auto& line : lines) {
      for (Spot& s : line) {
        s = {loft_.from + (loft_.to - loft_.from) * s.x / (kNodes - 1),
             attack_.from + (attack_.to - attack_.from) * s.y / (kNodes - 1)};
      }
    }
    return lines;
  }

  void draw_hills() {
    d_.box(kMapLeft, kMapTop, kMapRight - kMapLeft, kMapBottom - kMapTop, "land");
    for (const double level : levels_) d_.region(placed(region_above(goal_, level)), "hill");
    if (limited_) {
      d_.raw(
          "<pattern id=\"hatch\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" "
          "patternTransform=\"rotate(45)\"><path class=\"hatch\" "
          "d=\"M0 0V6\"/></pattern>\n");
      d_.region(placed(region_above(excess_, kLimitSlack)), "broken");
    }
    for (const double level : levels_) {
      contours_.push_back(placed(contour_lines(goal_, level)));
      for (const auto& line : contours_.back()) d_.polyline(line, "contour");
    }
  }

  void draw_reach_and_offer() {
    const double top = attack_.at(degrees(pupil_.reach.attack.high)),
                 bottom = attack_.at(degrees(pupil_.reach.attack.low));
    const double left = loft_.at(degrees(offered_.low)), right = loft_.at(degrees(offered_.high));
    constexpr double kHair = 0.5;  // a single loft, or an attack that cannot change, is still to be seen
    d_.box(left, top, std::max(right - left, kHair), std::max(bottom - top, kHair), "reach");
    std::vector<double> ends;
    for (const LoftChoice& c : pupil_.lofts) {
      ends.push_back(c.low);
      if (c.high > c.low) ends.push_back(c.high);
    }
    std::sort(ends.begin(), ends.end());
    for (const double loft : ends) {
      const double x = loft_.at(degrees(loft));
      d_.line({x, top}, {x, bottom}, "offer");
      d_.line({x, kMapTop - 6.0}, {x, kMapTop}, "ground");
      d_.label_if_free({x, kMapTop - 10.0}, number(Shown::angle, loft, units_), "small", Align::middle);
    }
  }

  void draw_answers() {
    const std::vector<Strategy> answers = drawn(advice_);
    const auto place = [&](const Strategy& s) {
      return Spot{loft_.at(degrees(s.loft)), attack_.at(degrees(s.attack))};
    };
    for (const Strategy& s : answers) {
      d_.mark(mark_of(s.kind), place(s), look_of(s.kind) + " mark");
      d_.keep_clear(place(s), 8.0, 8.0);
    }
    for (const Strategy& s : answers) {
      d_.label_beside(place(s), s.kind == StrategyKind::as_is ? "you are here" : std::string(title_of(s.kind)),
                      "on-paper");
    }
  }

  std::string note() const {
    return fmt::format(
        "<p class=\"note\">Lines of equal {} in {}, {} of club speed{}. The frame: your reach and the lofts on offer "
        "(marked above).{}</p>\n",
        key_of(advice_.goal), unit_shown(Shown::distance, units_),
        quantity(Shown::speed, pupil_.delivery.club_speed, units_),
        pupil_.reach.speed_per_attack == 0.0 ? "" : " now, and what attack does to it",
        limited_ ? " Hatched: breaks a limit set in the pupil's file." : "");
  }

  const Advice& advice_;
  const Pupil& pupil_;
  UnitSystem units_;
  Drawing d_;
  Interval offered_{pupil_.club_loft, pupil_.club_loft};  // [rad]
  Axis loft_{}, attack_{};                                // [deg]
  Surface goal_{kNodes, kNodes, {}};                      // [yd or m]
  Surface excess_{kNodes, kNodes, {}};                    // [-] how far the worst limit is passed
  bool limited_ = false;
  std::vector<double> levels_;
  std::vector<std::vector<std::vector<Spot>>> contours_;  // of each level
};

}  // namespace

std::string map_picture(const Advice& advice, const Pupil& pupil, const Setting& setting, UnitSystem units) {
  return Map(advice, pupil, setting, units).picture();
}

}  // namespace loftwright
