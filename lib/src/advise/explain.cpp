#include "loftwright/advise/explain.hpp"

#include <cmath>

#include "loftwright/core/detail/constants.hpp"

namespace loftwright {

namespace {

constexpr double kHundredRpm = 100.0 * kPi / 30.0;
constexpr double kYard = 0.9144;
constexpr double kTelling = 0.25 * kYard;  // a rate below this a degree, or a hundred rpm, is not worth a sentence

void tell_lever(std::vector<Claim>& claims, const Rate& rate, double per_degree, ClaimKind helps, ClaimKind hurts) {
  if (std::abs(per_degree) < kTelling) return;
  claims.push_back({.kind = per_degree > 0.0 ? helps : hurts,
                    .launch = rate.launch * kDegree,
                    .spin = rate.spin * kDegree,
                    .distance = std::abs(per_degree)});
}

void tell_gain(std::vector<Claim>& claims, const Strategy& s, ClaimKind gains, ClaimKind no_gain) {
  if (!s.feasible) return;
  const bool worth_telling = s.gain >= kYard;
  claims.push_back({.kind = worth_telling ? gains : no_gain, .distance = s.gain, .loft = s.loft, .attack = s.attack});
}

}  // namespace

std::vector<Claim> explain(const Advice& a) {
  const auto of_goal = [&](const Rate& rate) { return a.goal == Goal::carry ? rate.carry : rate.total; };
  const Strategy &now = a.at(StrategyKind::as_is), &both = a.at(StrategyKind::both);
  std::vector<Claim> claims{
      {.kind = ClaimKind::now, .launch = now.drive.launch.launch, .spin = now.drive.launch.spin, .distance = now.goal}};

  const double higher = both.drive.launch.launch - now.drive.launch.launch,
               per_launch = of_goal(a.rates.launch_angle) * kDegree;
  if (both.feasible && std::abs(higher) > kDegree && higher * per_launch > 0.0 && std::abs(per_launch) >= kTelling) {
    claims.push_back({.kind = higher > 0.0 ? ClaimKind::too_low : ClaimKind::too_high, .launch = std::abs(higher)});
  }
  const double per_spin = of_goal(a.rates.launch_spin) * kHundredRpm;
  const double hundred_on = now.drive.launch.spin + std::copysign(kHundredRpm, per_spin);
  const bool allowed = std::none_of(now.limits.begin(), now.limits.end(), [&](const LimitState& l) {
    return l.quantity == Limited::spin && (hundred_on < l.allowed.low || hundred_on > l.allowed.high);
  });
  if (allowed && std::abs(per_spin) >= kTelling) {
    claims.push_back({.kind = per_spin > 0.0 ? ClaimKind::too_little_spin : ClaimKind::too_much_spin,
                      .distance = std::abs(per_spin)});
  }
  tell_lever(claims, a.rates.loft, of_goal(a.rates.loft) * kDegree, ClaimKind::loft_helps, ClaimKind::loft_hurts);
  tell_lever(claims, a.rates.attack, of_goal(a.rates.attack) * kDegree, ClaimKind::up_helps, ClaimKind::up_hurts);
  tell_gain(claims, a.at(StrategyKind::loft_only), ClaimKind::loft_gain, ClaimKind::loft_no_gain);
  tell_gain(claims, a.at(StrategyKind::technique_only), ClaimKind::technique_gain, ClaimKind::technique_no_gain);
  // What both buy is news only when it is more than the better one buys.
  double one = 0.0;
  for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only}) {
    if (a.at(kind).feasible) one = std::max(one, a.at(kind).gain);
  }
  if (both.feasible && a.verdict.lever == Lever::both && both.gain >= one + kYard) {
    claims.push_back({.kind = ClaimKind::both_gain, .distance = both.gain, .loft = both.loft, .attack = both.attack});
  }

  // What is not advised is not promised.
  if (a.confidence && a.verdict.leader != Lever::leave) {
    const Strategy& s = a.at(strategy_of(a.verdict.leader));
    const auto& c = a.confidence->at(s.kind);
    if (c)
      claims.push_back({.kind = ClaimKind::sure,
                        .loft = s.loft,
                        .attack = s.attack,
                        .low = c->drive_gain.low,
                        .high = c->drive_gain.high,
                        .share = c->drives_gaining});
  }
  return claims;
}

}  // namespace loftwright
