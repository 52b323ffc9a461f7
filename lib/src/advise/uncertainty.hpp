// What is not known of a pupil, a model and a lesson, as independent standard normal deviates: zero where all is as measured
// and modelled. The player's scatter is no part of it: that makes drives differ, not advice uncertain.
#pragma once

#include "advise/model.hpp"
#include "advise/scatter.hpp"

namespace loftwright {

enum Unknown : std::size_t {
  kMeasured = 0,  // seven: how far the measured means are off
  kDrag = kMeasured + kSpreadQuantities,
  kLift,
  kRestitution,
  kTangential,
  kFollow,
  kSpeedCost,
  kTurfTilt,  // the turf's last: carry knows nothing of them
  kTurfTiltSpeed,
  kTurfRestitution,
  kTurfRise,
  kTurfFriction,
  kTurfRolling,
  kTurfGrass,
  kHeadInertia,  // the head's shape after it: it turns drives aside and takes no yards to speak of
  kHeadDepth,
  kHeadBulge,
  kUnknowns,
};
inline constexpr std::size_t kUnknownsOfCarry = kTurfTilt, kUnknownsOfTotal = kHeadInertia;

using Group = std::vector<std::size_t>;
Group coordinates_of(Assumption assumption);
// A strike and a turf are several at once: they have no value to name.
bool has_value(Assumption assumption);

class Uncertainty {
 public:
  using Deviates = std::array<double, kUnknowns>;

  // Throws InputError when the pupil's correlations cannot hold together.
  Uncertainty(const Pupil& pupil, const Setting& setting, const ErrorWidths& widths);

  // How things are at `unknown` on a drive whose own deviates are `shot`.
  Circumstances at(const Deviates& unknown, const Scatter::Deviates& shot = {}) const;

  // What an assumption stands at. [SI]
  double value_of(Assumption assumption, const Circumstances& circumstances) const;

 private:
  TurfErrorOf<double> turf_at(const Deviates& z, const ByTunable<double>& off) const;
  HeadErrorOf<double> head_at(const Deviates& z) const;

  const Pupil& pupil_;
  const Setting& setting_;
  const ErrorWidths& widths_;
  Scatter scatter_;
  ByTunable<ByTunable<double>> tunable_root_;
};

}  // namespace loftwright
