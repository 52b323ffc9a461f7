#include "report/page/svg.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/core/detail/constants.hpp"
#include "report/page/html.hpp"

namespace loftwright {

namespace {

// A hundredth of a drawing unit is finer than any screen.
std::string place(double value) {
  std::string text = fmt::format("{:.2f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string points(const std::vector<Spot>& spots) {
  std::string out;
  for (const Spot& s : spots) out += fmt::format("{}{} {}", out.empty() ? "M" : "L", place(s.x), place(s.y));
  return out;
}

}  // namespace

std::vector<double> even_ticks(double low, double high, int most) {
  const double raw = (high - low) / most, power = std::pow(10.0, std::floor(std::log10(raw)));
  double step = 10.0 * power;
  for (const double times : {5.0, 2.0, 1.0}) {
    if (times * power >= raw) step = times * power;
  }
  std::vector<double> out;
  constexpr double kRounding = 1e-9;
  for (double n = std::ceil(low / step - kRounding); n * step <= high + kRounding * step; n += 1.0)
    out.push_back(n * step);
  return out;
}

std::string short_number(double value) {
  const double rounded = std::round(value * 1000.0) / 1000.0;
  return fmt::format("{:.6g}", rounded == 0.0 ? 0.0 : rounded);
}

Drawing::Drawing(std::string_view name, double width, double height, std::string_view title,
                 std::string_view description)
    : name_(name), title_(title), description_(description), width_(width), height_(height) {}

void Drawing::line(Spot a, Spot b, std::string_view look) {
  body_ +=
      fmt::format("<path class=\"{}\" d=\"M{} {}L{} {}\"/>\n", look, place(a.x), place(a.y), place(b.x), place(b.y));
}

void Drawing::box(double x, double y, double width, double height, std::string_view look) {
  body_ += fmt::format("<rect class=\"{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n", look, place(x), place(y),
                       place(width), place(height));
}

void Drawing::polyline(const std::vector<Spot>& spots, std::string_view look, bool closed) {
  body_ += fmt::format("<path class=\"{}\" d=\"{}{}\"/>\n", look, points(spots), closed ? "Z" : "");
}

void Drawing::region(const std::vector<std::vector<Spot>>& rings, std::string_view look) {
  std::string d;
  for (const auto& ring : rings) d += points(ring) + "Z";
  if (!d.empty()) body_ += fmt::format("<path class=\"{}\" fill-rule=\"evenodd\" d=\"{}\"/>\n", look, d);
}

void Drawing::ellipse(Spot centre, double longer, double shorter, double turn, std::string_view look) {
  body_ += fmt::format("<ellipse class=\"{}\" rx=\"{}\" ry=\"{}\" transform=\"translate({} {}) rotate({})\"/>\n", look,
                       place(longer), place(shorter), place(centre.x), place(centre.y), place(turn / kDegree));
}

void Drawing::mark(Mark mark, Spot at, std::string_view look) {
  constexpr double kHalf = 5.0;
  const auto shape = [&](std::vector<Spot> corners) {
    for (Spot& c : corners) c = {at.x + c.x * kHalf, at.y + c.y * kHalf};
    polyline(corners, look, true);
  };
  switch (mark) {
    case Mark::circle: dot(at, kHalf * 0.95, look); break;
    case Mark::square: shape({{-0.9, -0.9}, {0.9, -0.9}, {0.9, 0.9}, {-0.9, 0.9}}); break;
    case Mark::triangle: shape({{0.0, -1.15}, {1.1, 0.85}, {-1.1, 0.85}}); break;
    case Mark::diamond: shape({{0.0, -1.3}, {1.3, 0.0}, {0.0, 1.3}, {-1.3, 0.0}}); break;
  }
}

void Drawing::dot(Spot at, double radius, std::string_view look) {
  body_ += fmt::format("<circle class=\"{}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", look, place(at.x), place(at.y),
                       place(radius));
}

void Drawing::whisker(Spot low, double high_x) {
  constexpr double kHalf = 5.0;
  for (const std::string_view look : {"whisker-edge", "whisker"}) {  // its edge parts it from what lies beneath
    body_ += fmt::format("<path class=\"{0}\" d=\"M{1} {3}H{2}M{1} {4}V{5}M{2} {4}V{5}\"/>\n", look, place(low.x),
                         place(high_x), place(low.y), place(low.y - kHalf), place(low.y + kHalf));
  }
}

Drawing::Box Drawing::box_of(Spot at, std::string_view text, std::string_view look, Align align) {
  // Wide enough for the sans-serif fonts of common systems at the size page.css gives on a narrow screen.
  constexpr double kSize = 13.0, kSmall = 11.0, kPerSize = 0.6;
  const double size = look.find("small") == std::string_view::npos ? kSize : kSmall;
  const double width = kPerSize * size * static_cast<double>(text.size());
  const double left = align == Align::start ? at.x : align == Align::middle ? at.x - width / 2.0 : at.x - width;
  return {left, at.y - 0.85 * size, left + width, at.y + 0.3 * size};
}

void Drawing::put(Spot at, std::string_view text, std::string_view look, Align align) {
  constexpr std::string_view kAnchors[] = {"start", "middle", "end"};
  body_ += fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\" text-anchor=\"{}\">{}</text>\n", look, place(at.x),
                       place(at.y), kAnchors[static_cast<int>(align)], escaped(text));
}

void Drawing::label(Spot at, std::string_view text, std::string_view look, Align align) {
  taken_.push_back(box_of(at, text, look, align));
  put(at, text, look, align);
}

bool Drawing::label_if_free(Spot at, std::string_view text, std::string_view look, Align align) {
  const Box mine = box_of(at, text, look, align);
  const bool inside = mine.left >= 0.0 && mine.top >= 0.0 && mine.right <= width_ && mine.bottom <= height_;
  const bool free = std::none_of(taken_.begin(), taken_.end(), [&](const Box& b) {
    return mine.left < b.right && b.left < mine.right && mine.top < b.bottom && b.top < mine.bottom;
  });
  if (!inside || !free) return false;
  taken_.push_back(mine);
  put(at, text, look, align);
  return true;
}

void Drawing::label_beside(Spot mark, std::string_view text, std::string_view look) {
  struct Place {
    double x, y;
    Align align;
  };
  for (const Place& p : {Place{0.0, 20.0, Align::middle},
                         {0.0, -11.0, Align::middle},
                         {11.0, 4.5, Align::start},
                         {-11.0, 4.5, Align::end},
                         {11.0, 18.0, Align::start},
                         {-11.0, 18.0, Align::end}}) {
    if (label_if_free({mark.x + p.x, mark.y + p.y}, text, look, p.align)) return;
  }
}

void Drawing::keep_clear(Spot centre, double half_width, double half_height) {
  taken_.push_back({centre.x - half_width, centre.y - half_height, centre.x + half_width, centre.y + half_height});
}

void Drawing::datum(std::string_view name, double value) { data_ += fmt::format(" data-{}=\"{:.8g}\"", name, value); }

std::string Drawing::text() const {
  return fmt::format(
      "<svg id=\"{0}\" viewBox=\"0 0 {1} {2}\" role=\"img\" aria-labelledby=\"{0}-title {0}-desc\"{3}>\n<title "
      "id=\"{0}-title\">{4}</title>\n<desc id=\"{0}-desc\">{5}</desc>\n{6}</svg>\n",
      name_, place(width_), place(height_), data_, escaped(title_), escaped(description_), body_);
}

std::string Drawing::ornament(std::string_view look) const {
  return fmt::format("<svg class=\"{}\" viewBox=\"0 0 {} {}\" aria-hidden=\"true\" focusable=\"false\">{}</svg>", look,
                     place(width_), place(height_), body_);
}

}  // namespace loftwright
