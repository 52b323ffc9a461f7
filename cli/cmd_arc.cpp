#include <algorithm>
#include <array>
#include <ostream>

#include "commands.hpp"
#include "drive.hpp"
#include "layout.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/words.hpp"
#include "loftwright/swing/arc.hpp"

namespace loftwright::cli {

namespace {

// The arc in a right-hander's frame, from whichever three numbers were given.
Arc arc_given(const Values& values, double mirror) {
  const auto only = [&](std::array<std::string_view, 3> wanted) {
    constexpr std::array<std::string_view, 5> kAll{"low-point", "plane", "radius", "attack", "path"};
    return std::all_of(kAll.begin(), kAll.end(), [&](std::string_view name) {
      return values.given(name) == (std::find(wanted.begin(), wanted.end(), name) != wanted.end());
    });
  };
  const double direction = mirror * values.quantity("swing-direction");
  if (only({"low-point", "plane", "radius"})) {
    return {values.quantity("low-point"), values.quantity("plane"), values.quantity("radius"), direction};
  }
  if (only({"attack", "plane", "radius"})) {
    const double plane = values.quantity("plane"), radius = values.quantity("radius");
    return {low_point_for(values.quantity("attack"), plane, radius), plane, radius, direction};
  }
  if (only({"attack", "path", "low-point"})) {
    return arc_from(values.quantity("attack"), mirror * values.quantity("path"), values.quantity("low-point"),
                    direction);
  }
  throw UsageError(
      "give just these three: --low-point --plane --radius, or --attack --plane --radius, or --attack --path "
      "--low-point; each "
      "with --swing-direction if it is not zero");
}

std::string arc_text(const Arc& arc, const ArcAtBall& at, UnitSystem units) {
  const auto show = [&](Shown what, double si, Sign sign = Sign::minus_only) {
    return quantity(what, si, units, sign);
  };
  std::string out =
      section("Delivered at the ball", table({{"attack", show(Shown::angle, at.attack, Sign::always)},
                                              {"path", show(Shown::angle, at.path, Sign::always)},
                                              {"height above the low point", show(Shown::at_address, at.height)}}));
  out += "\n";
  out += section("Arc", table({{"low point", low_point_words(arc.low_point, units)},
                               {"plane", show(Shown::angle, arc.plane)},
                               {"radius", show(Shown::radius, arc.radius)},
                               {"base line", show(Shown::angle, arc.swing_direction, Sign::always)}}));
  out += "\n";
  out += wrapped(
      "Attack + upwards; path and base line + right of the target. Geometry only: moving the ball forward by an "
      "inch moves the low point back from it by an inch.");
  out += "\n" + wrapped(cautions(units).front());
  return out;
}

}  // namespace

int cmd_arc(const Session& session) {
  const Handed handed = handed_from(session.values);
  const double mirror = handed == Handed::left ? -1.0 : 1.0;
  Arc arc = arc_given(session.values, mirror);
  ArcAtBall at = at_ball(arc);
  arc.swing_direction *= mirror;
  at.path *= mirror;
  session.out << (session.json ? arc_json(arc, at, handed) : arc_text(arc, at, session.units));
  return kDone;
}

}  // namespace loftwright::cli
