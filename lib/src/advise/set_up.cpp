#include "advise/set_up.hpp"

#include <cmath>

#include "loftwright/swing/arc.hpp"

namespace loftwright {

OnArc on_arc(const Pupil& pupil, double attack) {
  const Arc arc{low_point_for(attack, pupil.arc.plane, pupil.arc.radius), pupil.arc.plane, pupil.arc.radius, 0.0};
  return {arc.low_point, (pupil.handed == Handed::left ? -1.0 : 1.0) * at_ball(arc).path};
}

std::optional<SetUp> set_up_for(const Pupil& pupil, double attack) {
  constexpr double kNoChange = 0.1 * kDegree;
  constexpr double kLeastTee = 0.006;  // [m] less is no advice: tees are not set finer (common practice)
  if (std::abs(attack - pupil.delivery.attack) < kNoChange) return std::nullopt;
  try {
    const OnArc now = on_arc(pupil, pupil.delivery.attack), target = on_arc(pupil, attack);
    const double path_change = target.path - now.path, high = pupil.delivery.high;
    return SetUp{now.low_point, target.low_point, now.low_point - target.low_point,
                 path_change,   -path_change,     std::abs(high) < kLeastTee ? std::nullopt : std::optional(-high)};
  } catch (const InputError&) {
    return std::nullopt;
  }
}

}  // namespace loftwright
