#include "advise/uncertainty.hpp"

#include <algorithm>
#include <cmath>

namespace loftwright {

namespace {

Group range(std::size_t first, std::size_t count) {
  Group g(count);
  for (std::size_t i = 0; i < count; ++i) g[i] = first + i;
  return g;
}

constexpr ByTunable<std::size_t> kTunableCoordinates{kRestitution, kTangential,    kDrag,            kLift,
                                                     kTurfTilt,    kTurfTiltSpeed, kTurfRestitution, kTurfRolling};

// The widths of what can be tuned, in the parts of ModelErrorOf: added to the head's, relative to the setting's scales, the
// turf's tilt in radians and its others as logarithms. A turf that was not tuned is known as its kind is.
ByTunable<double> tunable_widths(const Pupil& pupil, const Turf& turf, const ErrorWidths& w) {
  const auto factor = [&](double share) { return turf.width * std::log1p(share); };
  ByTunable<double> out{w.restitution, w.tangential_restitution, w.drag_scale, w.lift_scale, turf.width * w.turf_tilt,
                        factor(w.turf_tilt_speed), factor(w.turf_restitution), factor(w.turf_rolling)};
  if (!pupil.tuned) return out;
  const Tuning& t = *pupil.tuned;
  for (std::size_t i = 0; i < kTurfTunables; ++i) out[i] = i < 2 ? t.sd[i] : t.sd[i] / t.value[i];
  if (!has_tuned_turf(pupil)) return out;
  out[4] = t.sd[4] / t.value[4] * turf.tilt;
  for (std::size_t i = kFactorTunables; i < kTunables; ++i) out[i] = std::log1p(t.sd[i] / t.value[i]);
  return out;
}

// Those of a turf that is not played on hold for nothing.
std::vector<Spread::Correlation> tunable_correlations(const Pupil& pupil) {
  std::vector<Spread::Correlation> out;
  if (pupil.tuned) out = pupil.tuned->correlations;
  const int tuned = static_cast<int>(has_tuned_turf(pupil) ? kTunables : kTurfTunables);
  std::erase_if(out, [tuned](const auto& c) { return c.first >= tuned || c.second >= tuned; });
  return out;
}

// How far something lies from what is taken: as likely below as above, falling to nothing at either end.
double between(double z, double below, double above) {
  const double tail = std::erfc(std::abs(z) / std::sqrt(2.0));  // chance of a larger |z|
  return (z < 0.0 ? -below : above) * (1.0 - std::sqrt(tail));
}

// 1 + share, or its inverse, at one standard deviation.
double over_or_under(double share, double z) { return std::exp(std::log1p(share) * z); }

// Its place in kDeliveryQuantities.
std::size_t part_of(Quantity quantity) {
  const auto at = std::find_if(kDeliveryQuantities.begin(), kDeliveryQuantities.end(), [&](const DeliveryQuantity& q) { return q.quantity == quantity; });
  return static_cast<std::size_t>(at - kDeliveryQuantities.begin());
}

}  // namespace

Group coordinates_of(Assumption a) {
  const auto measured = [](Quantity quantity) { return kMeasured + part_of(quantity); };
  switch (a) {
    case Assumption::measured_club_speed: return {measured(Quantity::club_speed)};
    case Assumption::measured_attack: return {measured(Quantity::attack)};
    case Assumption::measured_strike:
      return {measured(Quantity::path), measured(Quantity::face), measured(Quantity::toe), measured(Quantity::high)};
    case Assumption::measured_dynamic_loft: return {measured(Quantity::dynamic_loft)};
    case Assumption::drag: return {kDrag};
    case Assumption::lift: return {kLift};
    case Assumption::restitution: return {kRestitution};
    case Assumption::tangential_restitution: return {kTangential};
    case Assumption::turf_bounce: return range(kTurfTilt, 5);
    case Assumption::turf_roll: return {kTurfRolling, kTurfGrass};
    case Assumption::follow: return {kFollow};
    case Assumption::speed_cost: return {kSpeedCost};
  }
  return {};
}

bool has_value(Assumption a) {
  return a != Assumption::measured_strike && a != Assumption::turf_bounce && a != Assumption::turf_roll;
}

Uncertainty::Uncertainty(const Pupil& pupil, const Setting& setting, const ErrorWidths& widths)
    : pupil_(pupil), setting_(setting), widths_(widths), scatter_(pupil) {
  tunable_root_ = root_of(tunable_widths(pupil, setting.turf, widths), tunable_correlations(pupil), "tuned");
}

Circumstances Uncertainty::at(const Deviates& z, const Scatter::Deviates& shot) const {
  Circumstances c;
  const ErrorWidths& w = widths_;
  const double few = 1.0 / std::sqrt(static_cast<double>(pupil_.measured_shots));
  Scatter::Deviates off_mean = shot;
  for (std::size_t j = 0; j < off_mean.size(); ++j) off_mean[j] += few * z[kMeasured + j];
  c.deviation = scatter_.at(off_mean);
  ByTunable<double> off{};
  for (std::size_t i = 0; i < kTunables; ++i) {
    for (std::size_t j = 0; j <= i; ++j) off[i] += tunable_root_[i][j] * z[kTunableCoordinates[j]];
  }
  c.error = {1.0 + off[2], 1.0 + off[3], off[0], off[1], turf_at(z, off), head_at(z)};
  const double follow = pupil_.reach.follow;
  c.follow = follow + between(z[kFollow], std::min(w.follow_below, follow), std::min(w.follow_above, kMostFollow - follow));
  c.speed_per_attack = pupil_.reach.speed_per_attack + w.speed_per_attack * z[kSpeedCost];
  return c;
}

TurfErrorOf<double> Uncertainty::turf_at(const Deviates& z, const ByTunable<double>& off) const {
  const ErrorWidths& w = widths_;
  const double wide = setting_.turf.width;
  const auto times = [wide](double share, double by) { return over_or_under(share, wide * by); };
  return {.tilt = off[4],
          .restitution = std::exp(off[6]),
          .rolling = std::exp(off[7]),
          .grass = times(w.turf_grass, z[kTurfGrass]),
          .tilt_speed = std::exp(off[5]),
          .rise = wide * between(z[kTurfRise], w.turf_rise_below, w.turf_rise_above),
          .friction = wide * between(z[kTurfFriction], w.turf_friction_below, 0.0)};
}

HeadErrorOf<double> Uncertainty::head_at(const Deviates& z) const {
  const HeadWidths& w = widths_.head;
  const double wide = setting_.head.width;
  return {over_or_under(w.inertia_up, wide * z[kHeadInertia]), wide * w.depth * z[kHeadDepth], over_or_under(w.bulge, wide * z[kHeadBulge])};
}

double Uncertainty::value_of(Assumption a, const Circumstances& c) const {
  switch (a) {
    case Assumption::measured_club_speed: return pupil_.delivery.club_speed + c.deviation.club_speed;
    case Assumption::measured_attack: return pupil_.delivery.attack + c.deviation.attack;
    case Assumption::measured_dynamic_loft: return pupil_.delivery.dynamic_loft + c.deviation.dynamic_loft;
    case Assumption::drag: return c.error.drag_scale;
    case Assumption::lift: return c.error.lift_scale;
    case Assumption::restitution: return c.error.restitution;
    case Assumption::tangential_restitution: return c.error.tangential_restitution;
    case Assumption::follow: return c.follow;
    case Assumption::speed_cost: return c.speed_per_attack;
    case Assumption::measured_strike:
    case Assumption::turf_bounce:
    case Assumption::turf_roll: return 0.0;
  }
  return 0.0;
}

}  // namespace loftwright
