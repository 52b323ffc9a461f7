#include "shots/plausible.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "loftwright/core/detail/constants.hpp"
#include "loftwright/swing/delivery.hpp"

namespace loftwright {

namespace {

bool is_usual(Reading reading, double value) {
  return value >= info(reading).usual_low && value <= info(reading).usual_high;
}

// The first unit, other than the list's own, in which the same number passes.
template <class Passes>
const Unit* other_unit(Reading reading, double value, const UnitsUsed& used, Passes passes) {
  const Unit* own = used[reading];
  if (!own) return nullptr;
  for (const Unit& u : units()) {
    if (u.dimension == own->dimension && &u != own && passes(u.to_si(own->from_si(value)))) return &u;
  }
  return nullptr;
}

// Which of two readings would, in another unit, be usual and agree with the other.
template <class Agree>
std::optional<Slip> unit_slip(const Shot& shot, Reading a, Reading b, const UnitsUsed& used, Agree agree) {
  const double va = *shot.at(a), vb = *shot.at(b);
  if (is_usual(b, vb)) {
    if (const Unit* u = other_unit(a, va, used, [&](double v) { return is_usual(a, v) && agree(v, vb); }))
      return Slip{a, u};
  }
  if (is_usual(a, va)) {
    if (const Unit* u = other_unit(b, vb, used, [&](double v) { return is_usual(b, v) && agree(va, v); }))
      return Slip{b, u};
  }
  return std::nullopt;
}

std::string hint(const std::optional<Slip>& slip) {
  if (!slip) return "";
  if (!slip->unit) return fmt::format("; it would fit with the other sign of {}", info(slip->reading).title);
  return fmt::format("; it would fit if {} were in {}", info(slip->reading).title, slip->unit->symbol);
}

using Found = std::optional<Impossible>;

Found out_of_range(const Shot& shot, const UnitsUsed& used) {
  for (const ReadingInfo& q : readings()) {
    const auto& value = shot.at(q.reading);
    if (!value || (*value >= q.low && *value <= q.high)) continue;
    const Unit* own = used[q.reading];
    const auto shown = [&](double v) { return own ? own->from_si(v) : v; };
    const Unit* meant = unit_meant(q.reading, *value, used);
    const std::optional<Slip> slip = meant                          ? std::optional(Slip{q.reading, meant})
                                     : q.low >= 0.0 && *value < 0.0 ? std::optional(Slip{q.reading, nullptr})
                                                                    : std::nullopt;
    return Impossible{fmt::format("{} is outside {} to {}{}", said(q.reading, *value, used),
                                  range_end(shown(q.low), true), range_end(shown(q.high), false), hint(slip)),
                      slip};
  }
  return std::nullopt;
}

Found smash_beyond(const Shot& shot, const UnitsUsed& used) {
  const auto club = shot.at(Reading::club_speed), ball = shot.at(Reading::ball_speed), smash = shot.at(Reading::smash);
  if (!club || !ball) return std::nullopt;
  const ReadingInfo& limits = info(Reading::smash);
  const double ratio = *ball / *club;
  if (ratio < limits.low || ratio > limits.high) {
    const auto slip = unit_slip(shot, Reading::ball_speed, Reading::club_speed, used,
                                [](double b, double c) { return is_usual(Reading::smash, b / c); });
    return Impossible{
        fmt::format("{} is {:.2f} times {}; a strike gives {:.2f} to {:.2f}{}", said(Reading::ball_speed, *ball, used),
                    ratio, said(Reading::club_speed, *club, used), limits.low, limits.high, hint(slip)),
        slip};
  }
  constexpr double kAllowed = 0.1;  // [-] far beyond rounding of the three
  if (smash && std::abs(*smash - ratio) > kAllowed) {
    return Impossible{
        fmt::format("speed ratio {:.2f} does not go with {} and {}, which make {:.2f}", *smash,
                    said(Reading::ball_speed, *ball, used), said(Reading::club_speed, *club, used), ratio),
        {}};
  }
  return std::nullopt;
}

// Spin beyond what any driver gives. Of a rigid ball struck by a rigid face the surface speed that spin makes is S
// times the ball's speed, and S = 0.5 takes a spin loft above 40 deg (tan = 2.07 S / (1 + e) cos of the angle off the
// face's normal, with tangential restitution e 0.2; a driver's is 5 to 35). Of slow balls or where a greater spin loft
// was measured nothing is said; without a ball speed the most is an estimate.
Found spin_beyond(const Shot& shot, const UnitsUsed& used) {
  const auto spin = shot.at(Reading::spin), ball = shot.at(Reading::ball_speed), loft = shot.at(Reading::dynamic_loft),
             attack = shot.at(Reading::attack);
  constexpr double kRadius = 0.02134;                               // [m] the rules' least
  constexpr double kMostRatio = 0.5, kMostSpin = 10000 * kPi / 30;  // [-] [rad/s]
  if (!spin || (loft && attack && *loft - *attack > info(Reading::spin_loft).usual_high)) return std::nullopt;
  if (ball && !is_usual(Reading::ball_speed, *ball)) return std::nullopt;
  const double most = ball ? std::min(kMostSpin, kMostRatio * *ball / kRadius) : kMostSpin;
  if (*spin <= most) return std::nullopt;
  const std::string with = ball ? fmt::format(" with {}", said(Reading::ball_speed, *ball, used)) : "";
  return Impossible{fmt::format("{} is more than a driver gives{}: at most some {}", said(Reading::spin, *spin, used),
                                with, said(Reading::spin, most, used).substr(info(Reading::spin).title.size() + 1)),
                    {}};
}

Found carry_beyond(const Shot& shot, const UnitsUsed& used) {
  const auto ball = shot.at(Reading::ball_speed), carry = shot.at(Reading::carry), total = shot.at(Reading::total);
  // A drive's carry is 3 to 3.6 s times its ball speed; 4.5 leaves a gale behind it (estimate).
  constexpr double kMost = 4.5;  // [s]
  if (ball && carry && *carry > kMost * *ball) {
    const auto slip = unit_slip(shot, Reading::ball_speed, Reading::carry, used,
                                [](double b, double c) { return c < kMost * b && c > 1.5 * b; });
    return Impossible{fmt::format("{} is too far for {}{}", said(Reading::carry, *carry, used),
                                  said(Reading::ball_speed, *ball, used), hint(slip)),
                      slip};
  }
  constexpr double kBack = 20.0, kRun = 150.0;  // [m] spun back; along a hard runway (estimates)
  if (carry && total && (*total < *carry - kBack || *total > *carry + kRun)) {
    const auto slip = unit_slip(shot, Reading::total, Reading::carry, used,
                                [](double t, double c) { return t > c && t < c + kRun / 2; });
    return Impossible{fmt::format("{} does not go with {}{}", said(Reading::total, *total, used),
                                  said(Reading::carry, *carry, used), hint(slip)),
                      slip};
  }
  return std::nullopt;
}

Found apex_beyond(const Shot& shot, const UnitsUsed& used) {
  const auto ball = shot.at(Reading::ball_speed), apex = shot.at(Reading::apex);
  // Energy: drag only takes, lift does no work. A fifth more for gusts and for measuring.
  if (!ball || !apex || *apex <= 1.2 * *ball * *ball / (2.0 * kGravity)) return std::nullopt;
  const auto slip = unit_slip(shot, Reading::ball_speed, Reading::apex, used,
                              [](double b, double h) { return h <= b * b / (2.0 * kGravity); });
  return Impossible{fmt::format("{} is higher than {} can rise{}", said(Reading::apex, *apex, used),
                                said(Reading::ball_speed, *ball, used), hint(slip)),
                    slip};
}

Found spin_loft_at_odds(const Shot& shot, const UnitsUsed& used) {
  const auto loft = shot.at(Reading::dynamic_loft), attack = shot.at(Reading::attack),
             given = shot.at(Reading::spin_loft);
  if (!loft || !attack || !given) return std::nullopt;
  const Delivery delivery{.attack = *attack,
                          .path = shot.at(Reading::path).value_or(0.0),
                          .face = shot.at(Reading::face).value_or(0.0),
                          .dynamic_loft = *loft};
  Delivery reversed = delivery;
  reversed.attack = -reversed.attack;
  const double off = std::abs(spin_loft(delivery) - *given), off_reversed = std::abs(spin_loft(reversed) - *given);
  // Without path and face up to 4 deg may be theirs (10 deg of face to path at a spin loft of 12 deg).
  constexpr double kSign = 4.0 * kDegree, kAny = 8.0 * kDegree;
  const bool sign = off > kSign && off_reversed < 1.5 * kDegree;
  if (!sign && off <= kAny) return std::nullopt;
  const auto slip = sign ? std::optional(Slip{Reading::attack, nullptr}) : std::nullopt;
  return Impossible{
      fmt::format("{} does not go with {} and {}{}", said(Reading::spin_loft, *given, used),
                  said(Reading::dynamic_loft, *loft, used), said(Reading::attack, *attack, used), hint(slip)),
      slip};
}

Found launch_at_odds(const Shot& shot, const UnitsUsed& used) {
  const auto loft = shot.at(Reading::dynamic_loft), attack = shot.at(Reading::attack),
             launch = shot.at(Reading::launch);
  if (!loft || !attack || !launch) return std::nullopt;
  constexpr double kRoll =
      8.0 * kDegree;  // a strike 30 mm up a face of 305 mm roll meets 5.6 deg more loft; gear effect on top
  if (*launch >= std::min(*loft, *attack) - kRoll && *launch <= std::max(*loft, *attack) + kRoll) return std::nullopt;
  return Impossible{fmt::format("{} is not between {} and {}, give or take 8 deg", said(Reading::launch, *launch, used),
                                said(Reading::attack, *attack, used), said(Reading::dynamic_loft, *loft, used)),
                    {}};
}

Found low_point_at_odds(const Shot& shot, const UnitsUsed& used) {
  const auto attack = shot.at(Reading::attack), low_point = shot.at(Reading::low_point);
  // Down before the low point, up after it; near it measuring error decides.
  if (!attack || !low_point || std::abs(*attack) < 2.0 * kDegree || std::abs(*low_point) < 0.05) return std::nullopt;
  if (*attack * *low_point < 0.0) return std::nullopt;
  const Slip slip{Reading::low_point, nullptr};
  return Impossible{fmt::format("{} with {} {} the ball: the club falls until its low point and rises after it{}",
                                said(Reading::attack, *attack, used), said(Reading::low_point, *low_point, used),
                                *low_point > 0.0 ? "ahead of" : "behind", hint(slip)),
                    slip};
}

Found side_at_odds(const Shot& shot, const UnitsUsed& used) {
  const auto azimuth = shot.at(Reading::azimuth), tilt = shot.at(Reading::tilt), carry = shot.at(Reading::carry),
             side = shot.at(Reading::side);
  if (!azimuth || !tilt || !carry || !side) return std::nullopt;
  // Starts and curves to one side by this much, and ends this far on the other: more than a side wind does.
  constexpr double kClear = 12.0;  // [m] estimate
  const double start = *carry * std::tan(*azimuth);
  const bool one_way = *azimuth * *tilt > 0.0 && std::abs(*tilt) > 3.0 * kDegree && std::abs(*tilt) < 90.0 * kDegree;
  if (!one_way || std::abs(start) < kClear || std::copysign(1.0, start) * *side > -kClear) return std::nullopt;
  const Slip slip{Reading::side, nullptr};
  return Impossible{
      fmt::format("{} does not go with {} and {}, which go the other way{}", said(Reading::side, *side, used),
                  said(Reading::azimuth, *azimuth, used), said(Reading::tilt, *tilt, used), hint(slip)),
      slip};
}

}  // namespace

std::string said(Reading reading, double value, const UnitsUsed& units) {
  const Unit* unit = units[reading];
  return fmt::format("{} {:.5g}{}{}", info(reading).title, unit ? unit->from_si(value) : value, unit ? " " : "",
                     unit ? unit->symbol : "");
}

const Unit* unit_meant(Reading reading, double value, const UnitsUsed& units) {
  return other_unit(reading, value, units, [&](double v) { return is_usual(reading, v); });
}

std::optional<Impossible> why_impossible(const Shot& shot, const UnitsUsed& units) {
  for (const auto check : {out_of_range, smash_beyond, spin_beyond, carry_beyond, apex_beyond, spin_loft_at_odds,
                           launch_at_odds, low_point_at_odds, side_at_odds}) {
    if (auto found = check(shot, units)) return found;
  }
  return std::nullopt;
}

}  // namespace loftwright
