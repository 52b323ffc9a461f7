// What is not known of a pupil, a model and a lesson, as independent standard normal deviates: zero where all is as
// measured and modelled. The player's scatter is no part of it: that makes drives differ, not advice uncertain.
#pragma once

#include "advise/model.hpp"
#include "advise/scatter.hpp"
#include "loftwright/core/detail/enum_array.hpp"

namespace loftwright {

enum class Unknown {
  measured_club_speed,  // how far the measured means are off, in the order of Spread
  measured_attack,
  measured_path,
  measured_face,
  measured_dynamic_loft,
  measured_toe,
  measured_high,
  drag,
  lift,
  restitution,
  tangential_restitution,
  follow,
  speed_cost,
  turf_tilt,  // the turf's last: carry knows nothing of them
  turf_tilt_speed,
  turf_restitution,
  turf_rise,
  turf_friction,
  turf_rolling,
  turf_grass,
  head_inertia,  // the head's shape after it: it turns drives aside and takes no yards to speak of
  head_depth,
  head_bulge,
};
template <>
inline constexpr std::size_t kCountOf<Unknown> = index_of(Unknown::head_bulge) + 1;
inline constexpr std::size_t kUnknownsOfCarry = index_of(Unknown::turf_tilt),
                             kUnknownsOfTotal = index_of(Unknown::head_inertia);
constexpr Unknown measured_part(std::size_t part) { return static_cast<Unknown>(part); }  // of Spread

std::vector<Unknown> unknowns_of(Assumption assumption);
// A strike and a turf are several at once: they have no value to name.
bool has_value(Assumption assumption);

class Uncertainty {
 public:
  using Deviates = EnumArray<Unknown, double>;

  // Throws InputError when the pupil's correlations cannot hold together.
  Uncertainty(const Pupil& pupil, const Setting& setting, const ErrorWidths& widths);

  // How things are at `z` on a drive whose own deviates are `shot`.
  Circumstances at(const Deviates& z, const Scatter::Deviates& shot = {}) const;

  // What an assumption stands at. [SI]
  double value_of(Assumption assumption, const Circumstances& circumstances) const;

 private:
  TurfErrorOf<double> turf_at(const Deviates& z, const ByTunable<double>& off) const;
  HeadErrorOf<double> head_at(const Deviates& z) const;

  const Pupil& pupil_;
  const Setting& setting_;
  const ErrorWidths& widths_;
  Scatter scatter_;
  std::array<std::array<double, kCountOf<Tunable>>, kCountOf<Tunable>> tunable_root_;
};

}  // namespace loftwright
