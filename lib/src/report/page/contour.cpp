#include "report/page/contour.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <map>

namespace loftwright {

namespace {

// A crossing lies on one edge of the grid: from a node to its right-hand neighbour, or to the one above in y.
using Edge = std::size_t;  // 2 * node, + 1 for the edge along y

class Marcher {
 public:
  Marcher(const Surface& field, double level) : field_(field), level_(level) {}

  std::vector<std::vector<Spot>> lines() {
    for (std::size_t y = 0; y + 1 < field_.rows; ++y) {
      for (std::size_t x = 0; x + 1 < field_.columns; ++x) cross_cell(x, y);
    }
    std::vector<std::vector<Spot>> out;
    // Open lines first, from their free ends; what is left closes.
    for (const bool open : {true, false}) {
      for (auto& [edge, next] : joined_) {
        if (!next.empty() && (!open || next.size() == 1)) out.push_back(follow(edge));
      }
    }
    return out;
  }

 private:
  bool above(std::size_t x, std::size_t y) const { return field_.at(x, y) >= level_; }

  void cross_cell(std::size_t x, std::size_t y) {
    const std::size_t node = y * field_.columns + x;
    const Edge bottom = 2 * node, left = 2 * node + 1, top = 2 * (node + field_.columns), right = 2 * (node + 1) + 1;
    const bool a = above(x, y), b = above(x + 1, y), c = above(x + 1, y + 1), d = above(x, y + 1);
    std::vector<Edge> crossed;  // around the cell
    if (a != b) crossed.push_back(bottom);
    if (b != c) crossed.push_back(right);
    if (c != d) crossed.push_back(top);
    if (d != a) crossed.push_back(left);
    if (crossed.size() == 2) join(crossed[0], crossed[1]);
    if (crossed.size() != 4) return;
    const double middle = (field_.at(x, y) + field_.at(x + 1, y) + field_.at(x + 1, y + 1) + field_.at(x, y + 1)) / 4.0;
    if ((middle >= level_) == a) {  // a and c hang together: b and d are cut off
      join(bottom, right);
      join(top, left);
    } else {
      join(bottom, left);
      join(top, right);
    }
  }

  void join(Edge one, Edge other) {
    joined_[one].push_back(other);
    joined_[other].push_back(one);
  }

  std::vector<Spot> follow(Edge start) {
    std::vector<Spot> line{spot(start)};
    Edge at = start;
    while (!joined_[at].empty()) {
      const Edge next = joined_[at].back();
      joined_[at].pop_back();
      auto& back = joined_[next];
      back.erase(std::find(back.begin(), back.end(), at));
      line.push_back(spot(next));
      at = next;
    }
    return line;
  }

  Spot spot(Edge edge) const {
    const std::size_t node = edge / 2, x = node % field_.columns, y = node / field_.columns;
    const bool along_y = edge % 2 == 1;
    const double here = field_.at(x, y), there = along_y ? field_.at(x, y + 1) : field_.at(x + 1, y);
    const double part = (level_ - here) / (there - here);
    return {static_cast<double>(x) + (along_y ? 0.0 : part), static_cast<double>(y) + (along_y ? part : 0.0)};
  }

  const Surface& field_;
  double level_;
  std::map<Edge, std::vector<Edge>> joined_;  // in the order of edges: the same lines everywhere
};

}  // namespace

std::vector<std::vector<Spot>> contour_lines(const Surface& field, double level) {
  return Marcher(field, level).lines();
}

std::vector<std::vector<Spot>> region_above(const Surface& field, double level) {
  // A frame far below the level closes every line, a hair outside the field.
  constexpr double kFarBelow = 1e9;
  Surface framed{field.columns + 2, field.rows + 2, {}};
  framed.values.assign(framed.columns * framed.rows, level - kFarBelow);
  for (std::size_t y = 0; y < field.rows; ++y) {
    for (std::size_t x = 0; x < field.columns; ++x) framed.values[(y + 1) * framed.columns + x + 1] = field.at(x, y);
  }
  std::vector<std::vector<Spot>> rings = contour_lines(framed, level);
  for (auto& ring : rings) {
    for (Spot& s : ring) s = {s.x - 1.0, s.y - 1.0};
  }
  return rings;
}

void draw_map_axes(Drawing& drawing, const Axis& across, const Axis& attack, std::string_view across_name) {
  const double left = across.from, right = across.to, bottom = attack.from, top = attack.to;
  for (const double t : even_ticks(across.low, across.high, 8)) {
    drawing.line({across.at(t), bottom}, {across.at(t), bottom + 4.0}, "ground");
    drawing.label({across.at(t), bottom + 16.0}, short_number(t), "small", Align::middle);
  }
  for (const double t : even_ticks(attack.low, attack.high, 8)) {
    drawing.line({left - 4.0, attack.at(t)}, {left, attack.at(t)}, "ground");
    drawing.label({left - 6.0, attack.at(t) + 4.0}, fmt::format("{}{}", t > 0.0 ? "+" : "", short_number(t)), "small",
                  Align::end);
  }
  drawing.label({right, bottom + 30.0}, across_name, "small", Align::end);
  drawing.label({left, bottom + 30.0}, "up: attack, deg", "small", Align::start);
  drawing.box(left, top, right - left, bottom - top, "frame");
}

void number_contours(Drawing& drawing, const Axis& across, const Axis& up, const std::vector<double>& levels,
                     const std::vector<std::vector<std::vector<Spot>>>& contours) {
  for (std::size_t l = 0; l < levels.size(); ++l) {
    const auto longest = std::max_element(contours[l].begin(), contours[l].end(),
                                          [](const auto& a, const auto& b) { return a.size() < b.size(); });
    if (longest == contours[l].end()) continue;
    const std::size_t n = longest->size();
    for (std::size_t k = 0; k < n; ++k) {
      const Spot s =
          (*longest)[(n / 2 + (k % 2 == 0 ? k / 2 : n - (k + 1) / 2)) % n];  // the middle, then outwards either way
      const bool inside =
          s.x > across.from + 16.0 && s.x < across.to - 16.0 && s.y > up.to + 10.0 && s.y < up.from - 8.0;
      if (inside && drawing.label_if_free({s.x, s.y + 4.0}, short_number(levels[l]), "small on-paper", Align::middle))
        break;
    }
  }
}

}  // namespace loftwright
