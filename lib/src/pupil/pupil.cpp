#include "loftwright/pupil/pupil.hpp"

#include <algorithm>

#include "loftwright/core/detail/constants.hpp"

namespace loftwright {

double face_turn(const LoftChoice& club, double loft) { return club.face + club.face_per_loft * (loft - club.nominal); }

std::optional<double> known_club_loft(const Pupil& pupil) {
  return pupil.club_loft > 0.0 ? std::optional(pupil.club_loft) : std::nullopt;
}

double marked_loft(const Pupil& pupil) {
  const auto own = std::find_if(pupil.lofts.begin(), pupil.lofts.end(), [](const LoftChoice& c) { return c.in_hand; });
  return own == pupil.lofts.end() ? pupil.club_loft : own->nominal;
}

std::string_view key_of(Skill skill) {
  constexpr EnumArray<Skill, std::string_view> keys{"low-handicap", "mid-handicap", "high-handicap"};
  return keys[skill];
}

Spread usual_spread(Skill skill, double club_speed) {
  switch (skill) {
    case Skill::low_handicap:
      return {0.015 * club_speed, 1.0 * kDegree, 1.5 * kDegree, 1.5 * kDegree, 1.2 * kDegree, 0.007, 0.006, {}};
    case Skill::mid_handicap:
      return {0.02 * club_speed, 1.5 * kDegree, 2.5 * kDegree, 2.5 * kDegree, 1.7 * kDegree, 0.011, 0.008, {}};
    case Skill::high_handicap:
      return {0.03 * club_speed, 2.2 * kDegree, 3.5 * kDegree, 4.0 * kDegree, 2.4 * kDegree, 0.015, 0.010, {}};
  }
  return {};
}

std::string_view key_of(Tunable tunable) {
  constexpr EnumArray<Tunable, std::string_view> keys{
      "restitution", "tangential_restitution", "drag_scale",   "lift_scale",
      "tilt_scale",  "tilt_speed_scale",       "bounce_scale", "rolling_scale"};
  return keys[tunable];
}

std::string_view title_of(Tunable tunable) {
  constexpr EnumArray<Tunable, std::string_view> titles{
      "restitution", "tangential restitution", "drag", "lift", "turf tilt", "tilt speed", "bounce", "rolling"};
  return titles[tunable];
}

bool has_tuned_turf(const Pupil& pupil) {
  return pupil.tuned && !pupil.tuned->turf.empty() && pupil.tuned->turf == pupil.conditions.turf;
}

std::string_view key_of(Goal goal) { return goal == Goal::carry ? "carry" : "total"; }

}  // namespace loftwright
