#include "loftwright/pupil/validate.hpp"

#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "loftwright/pupil/complete.hpp"

namespace loftwright {

namespace {

constexpr double kMostTarget = 10.0 * kDegree;  // [rad] common practice

void fail_if(const std::optional<std::string>& wrong, std::string_view where) {
  if (wrong) throw InputError(fmt::format("{} {}", where, *wrong));
}

void fail_if(const std::vector<std::string>& wrong, std::string_view where) {
  if (!wrong.empty()) throw InputError(fmt::format("{} {}", where, wrong.front()));
}

// As check() does for an allowed range of the table.
void check_in(const Range& range, double si, std::string_view name) {
  if (std::isfinite(si) && holds(range, si)) return;
  check_range(name, unit(range.unit).from_si(si), range.low, range.high, range.unit);
}

double club_speed_at(const Pupil& pupil, double attack) {
  return pupil.delivery.club_speed + pupil.reach.speed_per_attack * (attack - pupil.delivery.attack);
}

void validate_reach(const Pupil& pupil) {
  const Reach& r = pupil.reach;
  check(Quantity::effort_per_attack, r.effort_per_attack * kDegree);
  const Range attacks = about(Quantity::attack).allowed;
  check_range("reach attack, low", r.attack.low / kDegree, attacks.low, pupil.delivery.attack / kDegree, "deg");
  check_range("reach attack, high", r.attack.high / kDegree, pupil.delivery.attack / kDegree,
              highest_target(pupil) / kDegree, "deg");
  for (const double attack : {r.attack.low, r.attack.high}) {
    check(Quantity::club_speed, club_speed_at(pupil, attack),
          fmt::format("club speed at {:.1f} deg of attack", attack / kDegree));
  }
  check(Quantity::speed_per_attack, r.speed_per_attack * kDegree);
  check_range("technique options, count", static_cast<double>(r.options.size()), 0.0, static_cast<double>(kMostOptions),
              "");
  for (const TechniqueOption& option : r.options) {
    check(Quantity::effort, option.effort);
    for (const DeliveryQuantity& part : kDeliveryQuantities) {
      const double change = option.change.*part.value;
      if (part.change.known()) check_in(part.change, change, fmt::format("change of {}", about(part.quantity).title));
      if (!part.change.known() && change != 0.0)
        throw InputError(
            fmt::format("change of {}: that is what the rest of the reach is about", about(part.quantity).title));
    }
  }
  fail_if(changes_beyond(pupil), "technique options:");
}

void validate_lofts(const Pupil& pupil) {
  check(Quantity::loft, pupil.club_loft);
  check(Quantity::sleeve_turn, pupil.club_face, "face of the setting in hand");
  const bool has_own =
      std::any_of(pupil.lofts.begin(), pupil.lofts.end(), [](const LoftChoice& c) { return c.in_hand; });
  if (!has_own) throw InputError("lofts: the club in hand must be among them");
  for (const LoftChoice& c : pupil.lofts) {
    check(Quantity::loft, c.low, "loft on offer, low");
    check_range("loft on offer, high", c.high / kDegree, c.low / kDegree, about(Quantity::loft).allowed.high, "deg");
    check(Quantity::face_per_loft, c.face_per_loft);
    check(Quantity::sleeve_turn, c.face, "face of a setting of the sleeve");
  }
}

void validate_spread(const Spread& spread) {
  for (const DeliveryQuantity& part : kDeliveryQuantities)
    check_in(part.sd, spread.*part.spread, fmt::format("spread of {}", about(part.quantity).title));
  fail_if(impossible_together(spread.correlations, kDeliveryQuantities.size()), "spread: these correlations");
}

void validate_tuning(const Pupil& pupil) {
  const Tuning& tuned = *pupil.tuned;
  for (const Tunable i : kAllOf<Tunable>) {
    const std::string_view title = title_of(i);
    check_range(fmt::format("tuned {}, standard deviation", title), tuned.sd[i], 0.0, kTunableMostSd[i], "");
    if (!is_of_turf(i) || has_tuned_turf(pupil)) {
      check_range(fmt::format("tuned {}", title), tuned.value[i], kTunableRange[i].low, kTunableRange[i].high, "");
    }
  }
  fail_if(impossible_together(tuned.correlations, kCountOf<Tunable>), "tuned: these correlations");
}

void validate_limits(const Pupil& pupil) {
  for (const Limit& limit : pupil.limits) {  // an end beyond all that can be is as good as open
    if (!(limit.allowed.low <= limit.allowed.high))
      throw InputError(fmt::format("limit on {}: low lies above high", title_of(limit.quantity)));
  }
}

}  // namespace

double highest_target(const Pupil& pupil) { return std::max(kMostTarget, pupil.delivery.attack); }

std::optional<std::string> reach_without_attack(const Pupil& pupil, const Unit& shown) {
  constexpr double kRounding = 1e-9;  // [rad] one may be typed in deg, the other in rad
  const double measured = pupil.delivery.attack;
  const Interval& reach = pupil.reach.attack;
  if (measured >= reach.low - kRounding && measured <= reach.high + kRounding) return std::nullopt;
  return fmt::format("{:.6g} to {:.6g} {} does not hold the measured attack of {:.4g} {}", shown.from_si(reach.low),
                     shown.from_si(reach.high), shown.symbol, shown.from_si(measured), shown.symbol);
}

std::vector<std::string> speeds_beyond_reach(const Pupil& pupil, const Unit& shown) {
  constexpr Range allowed = about(Quantity::club_speed).allowed;
  const auto in_unit = [&](double si) { return fmt::format("{:.4g} {}", shown.from_si(si), shown.symbol); };
  std::vector<std::string> out;
  for (const double attack : {pupil.reach.attack.low, pupil.reach.attack.high}) {
    if (!std::isfinite(attack)) continue;
    const double there = club_speed_at(pupil, attack);
    if (holds(allowed, there)) continue;
    out.push_back(fmt::format("takes the club speed to {} at an attack of {:.4g} deg; allowed: {} to {}",
                              in_unit(there), attack / kDegree, in_unit(low_of(allowed)), in_unit(high_of(allowed))));
  }
  return out;
}

std::vector<std::string> changes_beyond(const Pupil& pupil) {
  std::vector<std::string> out;
  for (const DeliveryQuantity& part : kDeliveryQuantities) {
    const QuantityInfo& q = about(part.quantity);
    double low = pupil.delivery.*part.value, high = low;
    for (const TechniqueOption& option : pupil.reach.options) {
      const double change = option.change.*part.value;
      (change < 0.0 ? low : high) += change;
    }
    if (holds(q.allowed, low) && holds(q.allowed, high)) continue;
    const Unit& u = unit(q.allowed.unit);
    out.push_back(fmt::format("together they take {} to between {:.4g} and {:.4g} {}; allowed: {:g} to {:g} {}", q.key,
                              u.from_si(low), u.from_si(high), u.symbol, q.allowed.low, q.allowed.high, u.symbol));
  }
  return out;
}

std::optional<std::string> lofts_beyond(const LoftChoice& choice) {
  constexpr Range allowed = about(Quantity::loft).allowed;
  if (holds(allowed, choice.low) && holds(allowed, choice.high)) return std::nullopt;
  return fmt::format("takes the driver of {:.4g} deg to lofts from {:.4g} to {:.4g} deg; allowed: {:g} to {:g} deg",
                     choice.nominal / kDegree, choice.low / kDegree, choice.high / kDegree, allowed.low, allowed.high);
}

std::optional<std::string> impossible_together(std::span<const Spread::Correlation> correlations,
                                               std::size_t quantities) {
  const auto count = static_cast<Eigen::Index>(quantities);
  Eigen::MatrixXd together = Eigen::MatrixXd::Identity(count, count);
  for (const auto& c : correlations) {
    if (c.first < 0 || c.second < 0 || c.first >= count || c.second >= count) return "name a quantity there is not";
    together(c.first, c.second) = together(c.second, c.first) = c.value;
  }
  if (together.llt().info() == Eigen::Success) return std::nullopt;
  return "cannot all hold together (their matrix is not positive definite)";
}

void validate(const Pupil& pupil) {
  validate(pupil.delivery);
  validate_lofts(pupil);
  validate_reach(pupil);
  check(Quantity::measured_shots, pupil.measured_shots);
  check(Quantity::price, pupil.prices.driver, "price of a driver");
  check(Quantity::price, pupil.prices.sleeve, "price of a turn of the sleeve");
  check(Quantity::price, pupil.prices.swing, "price of a change of technique");
  Pupil copy = pupil;
  for (const NumberDatum& d : kNumberData) check(d.quantity, d.of(copy));
  if (pupil.spread) validate_spread(*pupil.spread);
  if (pupil.tuned) validate_tuning(pupil);
  validate_limits(pupil);
}

}  // namespace loftwright
