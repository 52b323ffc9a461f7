#include "advise/own_turn.hpp"

#include <array>

#include "advise/draws.hpp"

namespace loftwright {

namespace {

constexpr double kHardly = 0.05 * 0.9144;  // [m] is shown as nothing

Found at(const LoftChoice& club, double loft, double attack) {
  return {{.loft = loft, .attack = attack, .excess = {}, .d_excess = {}}, club, 0.0, 0.0, {}};
}

// [m] how much further the second place goes than the first, over the same drives.
double further(const DriveModel& model, const Found& first, const Found& second, const AdviseOptions& options) {
  if (options.draws > 0) return average_gains(model, first, std::array{second}, options).front();
  const std::vector<AverageDrive> averages = average_drives(model, std::array{first, second}, options);
  return model.goal_of(averages[1]) - model.goal_of(averages[0]);
}

}  // namespace

std::optional<OwnTurn> own_turn(const DriveModel& model, const LoftChoice& own, const Strategy& answer,
                                const AdviseOptions& options) {
  if (!answer.feasible || !answer.fit || answer.fit->in_hand) return std::nullopt;
  const Pupil& pupil = model.pupil();
  const double attack = answer.attack;
  std::vector<Way> turns;
  for (const LoftChoice& c : pupil.lofts) {
    if (c.in_hand && !is_as_played(pupil, c)) turns.push_back({c, {attack, attack}, 0.0});
  }
  if (turns.empty()) return std::nullopt;
  const Found turn = search(model, turns, options);
  Found as_set = at(own, pupil.club_loft, attack);
  as_set.point = model.value(own, pupil.club_loft, attack);
  const bool may_stay = as_set.point.worst() <= kLimitSlack;
  OwnTurn out;
  out.feasible = may_stay || turn.feasible();
  if (!out.feasible) return out;
  const bool turned = turn.feasible() && (!may_stay || turn.point.goal > as_set.point.goal + kHardly);
  const Found& best = turned ? turn : as_set;
  if (turned) out.fit = fit_of(pupil, best.club, best.point.loft);
  if (!turned && same_angle(attack, pupil.delivery.attack)) return out;  // as is
  // Over the drives of the answer's own gain, in so far as the two differ: that cancels most of what they scatter by.
  out.gain = answer.gain + further(model, at(answer.club, answer.loft, attack), best, options);
  return out;
}

}  // namespace loftwright
