#include "loftwright/advise/advise.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "advise/confidence.hpp"
#include "advise/draws.hpp"
#include "advise/model.hpp"
#include "advise/own_turn.hpp"
#include "advise/search.hpp"
#include "advise/set_up.hpp"
#include "advise/trade.hpp"
#include "core/parallel.hpp"
#include "loftwright/pupil/validate.hpp"

namespace loftwright {

namespace {

// The same loft and the same face, so far as the sleeve's settings turn it; a range's face goes with its loft.
bool same_club(const Found& a, const Found& b) {
  return same_angle(a.point.loft, b.point.loft) && same_angle(a.club.face, b.club.face);
}

// What loft may be changed to, and what each costs: a turn of the sleeve on the club in hand, or another driver. The
// club as it is played is no change.
std::vector<Way> loft_ways(const Pupil& pupil, const Interval& attack, double beside) {
  std::vector<Way> ways;
  for (const LoftChoice& c : pupil.lofts) {
    if (is_as_played(pupil, c)) continue;
    ways.push_back({c, attack, beside + (c.in_hand ? pupil.prices.sleeve : pupil.prices.driver)});
  }
  return ways;
}

// What each strategy may do.
using Ways = EnumArray<StrategyKind, std::vector<Way>>;

Ways ways_of(const Pupil& pupil, const LoftChoice& own) {
  const Interval present{pupil.delivery.attack, pupil.delivery.attack};
  Ways w;
  w[StrategyKind::loft_only] = loft_ways(pupil, present, 0.0);
  if (pupil.reach.attack.high - pupil.reach.attack.low >= kNoMove) {
    w[StrategyKind::technique_only] = {{own, pupil.reach.attack, pupil.prices.swing}};
    w[StrategyKind::both] = loft_ways(pupil, pupil.reach.attack, pupil.prices.swing + kTwoAtOnce);
  }
  return w;
}

// What a single lever does: the best of its ways, or nothing where there are none or none gains.
Decision decide(const std::optional<Found>& best, const Found& as_is) {
  if (!best) return {as_is, false, {}};
  const Found& found = *best;
  if (as_is.point.worst() > kLimitSlack) return {found, true, {}};
  const bool moves = !same_club(found, as_is) || !same_angle(found.point.attack, as_is.point.attack);
  if (!moves || !found.feasible() || found.point.goal <= as_is.point.goal) return {as_is, false, {}};
  return {found, true, {}};
}

// Both together; where one alone sends the average drive as far, both does that.
Decision decide_both(const std::optional<Found>& best, const Found& as_is, const Decisions& alone) {
  Decision both{as_is, false, {}};
  if (best) both = {*best, as_is.point.worst() > kLimitSlack || best->feasible(), {}};
  for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only}) {
    const Decision& one = alone[kind];
    if (!one.moves) continue;
    const Point &a = one.found.point, &b = both.found.point;
    const bool same_place = same_club(one.found, both.found) && same_angle(a.attack, b.attack) &&
                            one.found.feasible() == both.found.feasible();
    const bool no_worse = one.found.feasible() ? !both.found.feasible() || a.goal >= b.goal
                                               : !both.found.feasible() && a.worst() <= b.worst();
    if (!(both.moves || both.same_as) || same_place || no_worse) both = {one.found, false, kind};
  }
  const bool nowhere = same_club(both.found, as_is) && same_angle(both.found.point.attack, as_is.point.attack);
  if (both.moves && nowhere && as_is.point.worst() <= kLimitSlack) both = {as_is, false, {}};
  return both;
}

Strategy strategy_at(const DriveModel& model, StrategyKind kind, const Found& found, const AverageDrive& average,
                     const AdviseOptions& options) {
  Strategy s;
  s.kind = kind;
  s.loft = found.point.loft;
  s.attack = found.point.attack;
  s.price = found.price;
  s.club = found.club;
  s.fit = fit_of(model.pupil(), s.club, s.loft);
  s.delivery = model.delivery(found.club, s.loft, s.attack);
  s.drive = model.drive(s.delivery, options.tight_tolerance);
  s.average = average;
  s.goal = model.goal_of(average);
  s.limits = model.limit_states(s.delivery, s.drive);
  // What the search met is met: the closer flight that is shown may be over by what the search's own was off.
  for (LimitState& l : s.limits) {
    if (!l.broken || found.point.worst() > kLimitSlack) continue;
    l.broken = false;
    l.active = true;
  }
  s.feasible =
      found.feasible() && std::none_of(s.limits.begin(), s.limits.end(), [](const LimitState& l) { return l.broken; });
  s.verification = {model.goal_of(s.drive) - model.goal_of(model.drive(s.delivery, options.tolerance)),
                    found.restart_change};
  for (const std::size_t end : found.must_give) {
    LimitState give = s.limits[model.ends()[end].limit];
    give.slack =
        std::min(give.slack, -found.point.excess[end] * scale_of(give.quantity));  // by the flights that will ask again
    s.must_give.push_back(give);
  }
  return s;
}

// Held by an end of what may change: the goal would still grow beyond it.
void mark_ends(const DriveModel& model, const Found& found, Strategy& s) {
  const Point p = model.gradient(found.club, s.loft, s.attack);
  const Interval& reach = model.pupil().reach.attack;
  double lowest = s.loft, highest = s.loft;
  for (const LoftChoice& c : model.pupil().lofts) {
    lowest = std::min(lowest, c.low);
    highest = std::max(highest, c.high);
  }
  constexpr double kNear = 0.005 * kDegree, kLevel = 0.01 / kDegree;  // [rad], [m/rad]: a centimetre a degree is level
  const auto held = [&](double at, double low, double high, double slope) {
    return (at < low + kNear && slope < -kLevel) || (at > high - kNear && slope > kLevel);
  };
  s.at_loft_end = s.kind != StrategyKind::technique_only && held(s.loft, lowest, highest, p.d_goal[0]);
  s.at_reach_end = s.kind != StrategyKind::loft_only && held(s.attack, reach.low, reach.high, p.d_goal[1]);
}

// Every set of further changes, with none to all of the attack change of `both` and the best club for it; what another
// betters for no more effort is left out.
std::vector<EffortPoint> effort_front(const DriveModel& model, const LoftChoice& own, const Strategy& both,
                                      const AdviseOptions& options) {
  const Reach& reach = model.pupil().reach;
  if (reach.options.empty()) return {};
  const double now = model.pupil().delivery.attack, base = model.value(own, model.pupil().club_loft, now).goal;
  std::vector<EffortPoint> all;
  for (unsigned set = 0; set < 1u << reach.options.size(); ++set) {
    Circumstances changed = model.circumstances();
    EffortPoint point{0.0, 0.0, 0.0, now, {}, {}};
    for (std::size_t i = 0; i < reach.options.size(); ++i) {
      if (!(set >> i & 1)) continue;
      changed.deviation = changed.deviation + reach.options[i].change;
      point.effort += reach.options[i].effort;
      point.options.push_back(i);
    }
    const DriveModel other = model.under(changed);
    constexpr int kParts = 4;
    for (int part = 0; part <= kParts; ++part) {
      EffortPoint p = point;
      p.attack = now + (both.attack - now) * part / kParts;
      p.effort += reach.effort_per_attack * std::abs(p.attack - now);
      std::vector<Way> ways = loft_ways(model.pupil(), {p.attack, p.attack}, 0.0);
      ways.push_back({own, {p.attack, p.attack}, 0.0});
      const Found found = search(other, ways, options);
      if (!found.feasible()) continue;
      p.loft = found.point.loft;
      p.fit = fit_of(model.pupil(), found.club, p.loft);
      p.gain = found.point.goal - base;
      all.push_back(p);
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const EffortPoint& a, const EffortPoint& b) {
    return a.effort < b.effort || (a.effort == b.effort && a.gain > b.gain);
  });
  constexpr double kMore = 0.1;  // [m] less is no difference
  std::vector<EffortPoint> front;
  for (const EffortPoint& p : all) {
    if (front.empty() || p.gain > front.back().gain + kMore) front.push_back(p);
  }
  return front;
}

// With the face as it sits on the club in hand.
std::optional<LoftWindow> loft_window(const DriveModel& model, const LoftChoice& own, const Advice& advice) {
  double low = own.low, high = own.high;
  for (const LoftChoice& c : model.pupil().lofts) {
    low = std::min(low, c.low);
    high = std::max(high, c.high);
  }
  if (high - low < kNoMove) return std::nullopt;
  LoftChoice any = own;
  any.face_per_loft = 0.0;
  const LoftWindow window = window_of(model, any, low, high, advice.at(strategy_of(advice.verdict.leader)).attack);
  return window.feasible ? std::optional(window) : std::nullopt;
}

// The same question to another model of air, both answered on means: a first answer over draws would differ for that
// alone.
std::optional<SecondOpinion> second_opinion(const Pupil& pupil, const Setting& setting, const DriveModel& model,
                                            const Decisions& decisions, bool as_is_feasible,
                                            const AdviseOptions& options) {
  if (options.second_air->id == setting.aero.id || pupil.tuned) return std::nullopt;
  Judged first;
  choose(model, decisions, as_is_feasible, first);
  Setting other = setting;
  other.aero = *options.second_air;
  AdviseOptions plain = options;
  plain.second_air = nullptr;
  plain.draws = 0;
  const Advice a = advise(pupil, other, plain);
  const auto loft_of = [](const std::vector<Choice>& choices) { return choices.front().loft; };
  const Strategy& lead = a.at(strategy_of(a.verdict.leader));
  const bool differs =
      a.verdict.lever != first.verdict.lever || std::abs(lead.loft - loft_of(first.choices)) > kSameLoft;
  return SecondOpinion{other.aero.id, a.verdict.lever, lead.loft, lead.attack, differs};
}

}  // namespace

std::string_view key_of(StrategyKind kind) {
  constexpr EnumArray<StrategyKind, std::string_view> keys{"as_is", "loft_only", "technique_only", "both"};
  return keys[kind];
}

std::string_view title_of(StrategyKind kind) {
  constexpr EnumArray<StrategyKind, std::string_view> titles{"as is", "loft only", "technique only", "both"};
  return titles[kind];
}

StrategyKind strategy_of(Lever lever) {
  switch (lever) {
    case Lever::loft: return StrategyKind::loft_only;
    case Lever::technique: return StrategyKind::technique_only;
    case Lever::both: return StrategyKind::both;
    case Lever::either:
    case Lever::leave: break;
  }
  return StrategyKind::as_is;
}

Advice advise(const Pupil& pupil, const Setting& setting, const AdviseOptions& options) {
  validate(pupil);
  Advice advice;
  std::atomic<int> flights{0};
  const DriveModel model(pupil, setting, options, flights);
  const LoftChoice own = club_in_hand(pupil);
  advice.goal = pupil.goal;
  const Found as_is{model.value(own, pupil.club_loft, pupil.delivery.attack), own, 0.0, 0.0, {}};
  const bool as_is_feasible = as_is.point.worst() <= kLimitSlack;
  Found unmoved = as_is;  // where there is no way to move, the limits as is must give
  for (std::size_t end = 0; end < model.ends().size(); ++end) {
    if (as_is.point.excess[end] > kLimitSlack) unmoved.must_give.push_back(end);
  }

  const Ways ways = ways_of(pupil, own);
  constexpr std::array kOrder{StrategyKind::both, StrategyKind::loft_only,
                              StrategyKind::technique_only};  // the longest search first
  EnumArray<StrategyKind, std::optional<Found>> best;
  parallel_for(kOrder.size(), options.threads, [&](std::size_t i) {
    const StrategyKind kind = kOrder[i];
    if (!ways[kind].empty()) best[kind] = search(model, ways[kind], options);
  });
  Decisions decisions;
  decisions[StrategyKind::as_is].found = as_is;
  for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::technique_only})
    decisions[kind] = decide(best[kind], unmoved);
  decisions[StrategyKind::both] = decide_both(best[StrategyKind::both], unmoved, decisions);
  advice.strategy_flights = flights;

  Judged judged;
  if (options.draws > 0) {
    judged = judge(model, decisions, as_is_feasible, options);
    advice.confidence = judged.confidence;
  } else {
    choose(model, decisions, as_is_feasible, judged);
  }
  if (judged.both_as) decisions[StrategyKind::both] = {decisions[*judged.both_as].found, false, judged.both_as};
  advice.choices = judged.choices;
  advice.verdict = judged.verdict;

  const Strategy& now = advice.at(StrategyKind::as_is);
  for (const StrategyKind kind : kAllOf<StrategyKind>) {
    const Decision& decision = decisions[kind];
    const StrategyKind judged_as = decision.same_as.value_or(kind);
    Strategy& s = advice.strategies[kind] =
        strategy_at(model, kind, decision.found, judged.averages[judged_as], options);
    if (kind == StrategyKind::as_is) continue;
    if (advice.confidence) advice.confidence->strategies[kind] = judged.confidence.strategies[judged_as];
    s.gain = s.goal - now.goal;
    s.centred_gain = model.goal_of(s.drive) - model.goal_of(now.drive);
    mark_ends(model, decision.found, s);
  }
  const Strategy& both = advice.at(StrategyKind::both);
  advice.feasible =
      std::any_of(advice.choices.begin(), advice.choices.end(), [](const Choice& c) { return c.feasible; });
  advice.rates = model.rates(own, pupil.club_loft, pupil.delivery.attack);
  if (!options.verdict_only) {
    if (both.feasible && both.gain > 0.0)
      advice.trade = trade_table(model, as_is, decisions[StrategyKind::both].found, options);
    advice.effort_front = effort_front(model, own, both, options);
    advice.window = loft_window(model, own, advice);
    for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::both})
      advice.strategies[kind].own_turn = own_turn(model, own, advice.at(kind), options);
  }
  if (options.second_air) advice.second = second_opinion(pupil, setting, model, decisions, as_is_feasible, options);
  if (advice.verdict.lever != Lever::leave && advice.verdict.lever != Lever::loft) {
    advice.set_up = set_up_for(
        pupil,
        advice.at(advice.verdict.lever == Lever::both ? StrategyKind::both : StrategyKind::technique_only).attack);
  }
  advice.flights = flights;
  return advice;
}

}  // namespace loftwright
