#include "advise/uncertainty.hpp"

#include <algorithm>
#include <cmath>

namespace loftwright {

namespace {

constexpr ByTunable<Unknown> kUnknownOf{
    Unknown::restitution,     Unknown::tangential_restitution, Unknown::drag,        Unknown::lift, Unknown::turf_tilt,
    Unknown::turf_tilt_speed, Unknown::turf_restitution,       Unknown::turf_rolling};

// The widths of what can be tuned, in the parts of ModelErrorOf: added to the head's, relative to the setting's scales,
// the turf's tilt in radians and its others as logarithms. A turf that was not tuned is known as its kind is.
ByTunable<double> tunable_widths(const Pupil& pupil, const Turf& turf, const ErrorWidths& w) {
  const auto factor = [&](double share) { return turf.width * std::log1p(share); };
  ByTunable<double> out{w.restitution,
                        w.tangential_restitution,
                        w.drag_scale,
                        w.lift_scale,
                        turf.width * w.turf_tilt,
                        factor(w.turf_tilt_speed),
                        factor(w.turf_restitution),
                        factor(w.turf_rolling)};
  if (!pupil.tuned) return out;
  const Tuning& t = *pupil.tuned;
  for (const Tunable i : {Tunable::restitution, Tunable::tangential_restitution}) out[i] = t.sd[i];
  for (const Tunable i : {Tunable::drag_scale, Tunable::lift_scale}) out[i] = t.sd[i] / t.value[i];
  if (!has_tuned_turf(pupil)) return out;
  out[Tunable::tilt_scale] = t.sd[Tunable::tilt_scale] / t.value[Tunable::tilt_scale] * turf.tilt;
  for (const Tunable i : kAllOf<Tunable>) {
    if (is_known_to_a_factor(i)) out[i] = std::log1p(t.sd[i] / t.value[i]);
  }
  return out;
}

// Those of a turf that is not played on hold for nothing.
std::vector<Spread::Correlation> tunable_correlations(const Pupil& pupil) {
  std::vector<Spread::Correlation> out;
  if (pupil.tuned) out = pupil.tuned->correlations;
  const int tuned = static_cast<int>(has_tuned_turf(pupil) ? kCountOf<Tunable> : index_of(Tunable::tilt_scale));
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

}  // namespace

std::vector<Unknown> unknowns_of(Assumption a) {
  switch (a) {
    case Assumption::measured_club_speed: return {Unknown::measured_club_speed};
    case Assumption::measured_attack: return {Unknown::measured_attack};
    case Assumption::measured_strike:
      return {Unknown::measured_path, Unknown::measured_face, Unknown::measured_toe, Unknown::measured_high};
    case Assumption::measured_dynamic_loft: return {Unknown::measured_dynamic_loft};
    case Assumption::drag: return {Unknown::drag};
    case Assumption::lift: return {Unknown::lift};
    case Assumption::restitution: return {Unknown::restitution};
    case Assumption::tangential_restitution: return {Unknown::tangential_restitution};
    case Assumption::turf_bounce:
      return {Unknown::turf_tilt, Unknown::turf_tilt_speed, Unknown::turf_restitution, Unknown::turf_rise,
              Unknown::turf_friction};
    case Assumption::turf_roll: return {Unknown::turf_rolling, Unknown::turf_grass};
    case Assumption::follow: return {Unknown::follow};
    case Assumption::speed_cost: return {Unknown::speed_cost};
  }
  return {};
}

bool has_value(Assumption a) {
  return a != Assumption::measured_strike && a != Assumption::turf_bounce && a != Assumption::turf_roll;
}

Uncertainty::Uncertainty(const Pupil& pupil, const Setting& setting, const ErrorWidths& widths)
    : pupil_(pupil), setting_(setting), widths_(widths), scatter_(pupil) {
  tunable_root_ = root_of(tunable_widths(pupil, setting.turf, widths).values, tunable_correlations(pupil), "tuned");
}

Circumstances Uncertainty::at(const Deviates& z, const Scatter::Deviates& shot) const {
  Circumstances c;
  const ErrorWidths& w = widths_;
  const double few = 1.0 / std::sqrt(static_cast<double>(pupil_.measured_shots));
  Scatter::Deviates off_mean = shot;
  for (std::size_t j = 0; j < off_mean.size(); ++j) off_mean[j] += few * z[measured_part(j)];
  c.deviation = scatter_.at(off_mean);
  ByTunable<double> off{};
  for (const Tunable i : kAllOf<Tunable>) {
    for (const Tunable j : kAllOf<Tunable>) {
      if (j <= i) off[i] += tunable_root_[index_of(i)][index_of(j)] * z[kUnknownOf[j]];
    }
  }
  c.error = {.drag_scale = 1.0 + off[Tunable::drag_scale],
             .lift_scale = 1.0 + off[Tunable::lift_scale],
             .restitution = off[Tunable::restitution],
             .tangential_restitution = off[Tunable::tangential_restitution],
             .turf = turf_at(z, off),
             .head = head_at(z)};
  const double follow = pupil_.reach.follow;
  c.follow = follow + between(z[Unknown::follow], std::min(w.follow_below, follow),
                              std::min(w.follow_above, kMostFollow - follow));
  c.speed_per_attack = pupil_.reach.speed_per_attack + w.speed_per_attack * z[Unknown::speed_cost];
  return c;
}

TurfErrorOf<double> Uncertainty::turf_at(const Deviates& z, const ByTunable<double>& off) const {
  const ErrorWidths& w = widths_;
  const double wide = setting_.turf.width;
  const auto times = [wide](double share, double by) { return over_or_under(share, wide * by); };
  return {.tilt = off[Tunable::tilt_scale],
          .restitution = std::exp(off[Tunable::bounce_scale]),
          .rolling = std::exp(off[Tunable::rolling_scale]),
          .grass = times(w.turf_grass, z[Unknown::turf_grass]),
          .tilt_speed = std::exp(off[Tunable::tilt_speed_scale]),
          .rise = wide * between(z[Unknown::turf_rise], w.turf_rise_below, w.turf_rise_above),
          .friction = wide * between(z[Unknown::turf_friction], w.turf_friction_below, 0.0)};
}

HeadErrorOf<double> Uncertainty::head_at(const Deviates& z) const {
  const HeadWidths& w = widths_.head;
  const double wide = setting_.head.width;
  return {over_or_under(w.inertia_up, wide * z[Unknown::head_inertia]), wide * w.depth * z[Unknown::head_depth],
          over_or_under(w.bulge, wide * z[Unknown::head_bulge])};
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
