#include "loftwright/advise/ladder.hpp"

#include <algorithm>
#include <cmath>

#include "advise/draws.hpp"
#include "advise/set_up.hpp"
#include "loftwright/core/quantity.hpp"
#include "stats/quasi.hpp"

namespace loftwright {

namespace {

constexpr double kSignShare = static_cast<double>(kSignDrives) / kSignCounted;

// None: an attack, a low point or a base line beyond what the arc is reckoned for.
std::optional<StepSetUp> set_up_at(const Pupil& pupil, const Delivery& delivery, double low_point_now) {
  try {
    const OnArc at = on_arc(pupil, delivery.attack);
    const double base_line = delivery.path - at.path;
    check(Quantity::swing_direction, base_line);
    return StepSetUp{at.low_point, low_point_now - at.low_point, base_line};
  } catch (const InputError&) {
    return std::nullopt;
  }
}

// The chance that at least kSignDrives of kSignCounted drives show what one shows with chance `p`.
double chance_of_sign(double p) {
  double chance = 0.0, ways = 1.0;
  for (int missed = 0; missed <= kSignCounted - kSignDrives; ++missed) {
    chance += ways * std::pow(p, kSignCounted - missed) * std::pow(1.0 - p, missed);
    ways *= static_cast<double>(kSignCounted - missed) / (missed + 1);
  }
  return chance;
}

// Where a step's sign lies, and what of it a pupil on the step before would show.
void put_sign(LadderStep& s, const LadderStep& before, double scatter, bool upward) {
  const double up = upward ? 1.0 : -1.0, beyond = normal_quantile(kSignShare) * scatter;
  s.sign_attack = s.delivery.attack - up * beyond;
  const double change = std::abs(s.delivery.attack - before.delivery.attack);
  if (s.new_club) return;
  if (scatter == 0.0) {
    s.drives_to_tell = 1;
    return;
  }
  s.sign_by_chance = chance_of_sign(0.5 * std::erfc((change - beyond) / scatter / std::sqrt(2.0)));
  const double drives = std::pow(2.0 * normal_quantile(kStepSure) * scatter / change, 2);
  constexpr double kRounding = 1e-9;
  s.drives_to_tell = static_cast<int>(std::max(1.0, std::ceil(drives - kRounding)));
}

// The attacks and clubs of now and every step; the driver changes in a step of its own.
std::vector<Found> places_of(const Strategy& now, const Strategy& target, double step, const Verdict& verdict,
                             double& equal_step) {
  const auto at = [](const Strategy& club, double attack) {
    return Found{{.loft = club.loft, .attack = attack, .excess = {}, .d_excess = {}}, club.club, 0.0, 0.0, {}};
  };
  const double whole = target.attack - now.attack;
  const bool both = verdict.lever == Lever::both, club_last = both && verdict.first_step == Lever::technique;
  std::vector<Found> places{at(now, now.attack)};
  if (both && std::abs(whole) < kNoMove) {  // of both, the driver's alone
    places.push_back(at(target, target.attack));
    return places;
  }
  constexpr double kRounding = 1e-9;  // [-] a change of six degrees is four steps of one and a half
  const int count = static_cast<int>(std::max(1.0, std::ceil(std::abs(whole) / step - kRounding)));
  equal_step = whole / count;
  if (both && !club_last) places.push_back(at(target, now.attack));
  const Strategy& club = both && !club_last ? target : now;
  for (int i = 1; i <= count; ++i) places.push_back(at(club, i == count ? target.attack : now.attack + i * equal_step));
  if (club_last) places.push_back(at(target, target.attack));
  return places;
}

LadderStep step_at(const DriveModel& model, const Found& place, const AverageDrive& average,
                   const AdviseOptions& options) {
  LadderStep s;
  s.club_loft = place.point.loft;
  s.fit = fit_of(model.pupil(), place.club, s.club_loft);
  s.delivery = model.delivery(place.club, place.point.loft, place.point.attack);
  s.drive = model.drive(s.delivery, options.tight_tolerance);
  s.average = average;
  for (const LimitState& limit : model.limit_states(s.delivery, s.drive)) {
    if (limit.broken) s.broken.push_back(limit.quantity);
  }
  return s;
}

}  // namespace

Ladder lesson_ladder(const Pupil& pupil, const Setting& setting, const Advice& advice, double step,
                     const AdviseOptions& options) {
  check_range("step of the ladder", step / kDegree, kLeastLadderStep / kDegree, kMostLadderStep / kDegree, "deg");
  Ladder out;
  out.lever = advice.verdict.lever;
  out.feasible = advice.feasible;
  out.most_step = step;
  out.scatter_is_usual = !pupil.spread;
  out.scatter = (pupil.spread ? *pupil.spread : usual_spread(pupil.skill, pupil.delivery.club_speed)).attack;
  const bool swing = out.lever != Lever::leave && out.lever != Lever::loft;
  if (!out.feasible || !swing) return out;

  const Strategy& now = advice.at(StrategyKind::as_is);
  const Strategy& target = advice.at(out.lever == Lever::both ? StrategyKind::both : StrategyKind::technique_only);
  std::atomic<int> flights{0};
  const DriveModel model(pupil, setting, options, flights);
  const std::vector<Found> places = places_of(now, target, step, advice.verdict, out.step);
  const std::vector<AverageDrive> averages = average_drives(model, places, options);
  const bool upward = out.step > 0.0;
  const std::optional<StepSetUp> at_first = set_up_at(pupil, now.delivery, 0.0);
  for (std::size_t i = 0; i < places.size(); ++i) {
    LadderStep s = step_at(model, places[i], averages[i], options);
    s.gain = model.goal_of(averages[i]) - model.goal_of(averages[0]);
    if (at_first) s.set_up = set_up_at(pupil, s.delivery, at_first->low_point);
    if (i == 0) {
      out.now = std::move(s);
      continue;
    }
    const LadderStep& before = i == 1 ? out.now : out.steps.back();
    s.new_club = s.club_loft != before.club_loft || places[i].club.face != places[i - 1].club.face;
    put_sign(s, before, out.scatter, upward);
    out.steps.push_back(std::move(s));
  }
  // What the search met is met: a closer flight may be over a limit by what the search's own was off.
  if (target.feasible) out.steps.back().broken.clear();
  return out;
}

}  // namespace loftwright
