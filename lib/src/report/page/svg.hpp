// A small layer over SVG: shapes with classes, axes with even ticks, labels that keep out of each other's way. Colours
// and dashes live in page.css, so that one drawing serves light, dark and grey print.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace loftwright {

inline constexpr double kPictureWidth =
    400.0;  // [drawing units] of every picture: page.css sets letters of 13 beside it

// Where a value lies on the drawing.
struct Axis {
  double low, high;  // [the axis' unit]
  double from, to;   // [drawing units] of low and high

  double at(double value) const { return from + (value - low) * (to - from) / (high - low); }
  double per_unit() const { return (to - from) / (high - low); }
};

// At most `most` even values 1, 2 or 5 times a power of ten apart, inside [low, high].
std::vector<double> even_ticks(double low, double high, int most);

// A number without a needless tail: "12.5", "-4", "0".
std::string short_number(double value);

struct Spot {
  double x, y;
};

enum class Align { start, middle, end };

// The mark of each strategy (as is: a circle) differs by shape, so that it is told without colour.
enum class Mark { circle, square, triangle, diamond };

class Drawing {
 public:
  // `title` and `description` are read out instead of the picture; `name` makes their ids unique on the page.
  Drawing(std::string_view name, double width, double height, std::string_view title, std::string_view description);

  void line(Spot a, Spot b, std::string_view look);
  void box(double x, double y, double width, double height, std::string_view look);
  void polyline(const std::vector<Spot>& spots, std::string_view look, bool closed = false);
  void region(const std::vector<std::vector<Spot>>& rings, std::string_view look);  // even-odd
  void ellipse(Spot centre, double longer, double shorter, double turn,
               std::string_view look);  // [rad] clockwise on the drawing
  void mark(Mark mark, Spot at, std::string_view look);
  void dot(Spot at, double radius, std::string_view look);
  void whisker(Spot low, double high_x);  // a level line with an upright at each end

  // Always drawn, and kept clear of by labels that come later.
  void label(Spot at, std::string_view text, std::string_view look, Align align = Align::start);
  // Drawn unless it would touch something kept clear or leave the drawing. Whether it was.
  bool label_if_free(Spot at, std::string_view text, std::string_view look, Align align = Align::middle);
  // Beneath, above or to a side of a mark, where there is room; nowhere when there is none.
  void label_beside(Spot mark, std::string_view text, std::string_view look);
  void keep_clear(Spot centre, double half_width, double half_height);

  // Numbers the script and the tests read back: data-NAME="value".
  void datum(std::string_view name, double value);
  void raw(std::string_view markup) { body_ += markup; }

  std::string text() const;
  // The same for a picture that says nothing the text beside it does not: hidden from who listens.
  std::string ornament(std::string_view look) const;

 private:
  struct Box {
    double left, top, right, bottom;
  };
  static Box box_of(Spot at, std::string_view text, std::string_view look, Align align);
  void put(Spot at, std::string_view text, std::string_view look, Align align);

  std::string name_, title_, description_, data_, body_;
  double width_, height_;
  std::vector<Box> taken_;
};

}  // namespace loftwright
