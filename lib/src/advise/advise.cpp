#include "loftwright/advise/advise.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "advise/confidence.hpp"
#include "advise/model.hpp"
#include "advise/search.hpp"

namespace loftwright {

namespace {

void check(const Pupil& pupil) {
  validate(pupil.delivery);
  check_range("club loft", pupil.club_loft / kDegree, 4.0, 30.0, "deg");
  check_range("follow", pupil.reach.follow, 0.0, kMostFollow, "");
  check_range("reach attack, low", pupil.reach.attack.low / kDegree, -20.0, pupil.delivery.attack / kDegree, "deg");
  check_range("reach attack, high", pupil.reach.attack.high / kDegree, pupil.delivery.attack / kDegree, 20.0, "deg");
  check_range("measured shots", pupil.measured_shots, 1.0, 10000.0, "");
  check_range("technique options, count", static_cast<double>(pupil.reach.options.size()), 0.0, static_cast<double>(kMostOptions), "");
  check_range("smallest worthwhile gain", pupil.worthwhile, 0.0, kMostWorthwhile, "m");
  if (pupil.tuned) {
    for (std::size_t i = 0; i < kTunables; ++i) {
      check_range(fmt::format("tuned {}, standard deviation", title_of(static_cast<Tunable>(i))), pupil.tuned->sd[i], 0.0, 1.0, "");
    }
    check_range("tuned drag", pupil.tuned->value[2], 0.5, 2.0, "");
    check_range("tuned lift", pupil.tuned->value[3], 0.5, 2.0, "");
  }
  const bool has_own = std::any_of(pupil.lofts.begin(), pupil.lofts.end(), [](const LoftChoice& c) { return c.in_hand; });
  if (!has_own) throw InputError("lofts: the club in hand must be among them");
  for (const LoftChoice& c : pupil.lofts) {
    check_range("loft on offer, low", c.low / kDegree, 4.0, 30.0, "deg");
    check_range("loft on offer, high", c.high / kDegree, c.low / kDegree, 30.0, "deg");
  }
  for (const double end : {pupil.reach.attack.low, pupil.reach.attack.high}) {
    const double speed = pupil.delivery.club_speed + pupil.reach.speed_per_attack * (end - pupil.delivery.attack);
    check_range(fmt::format("club speed at {:.1f} deg of attack", end / kDegree), speed, 9.0, 72.0, "m/s");
  }
}

// The club as it is played now: held at its loft, sleeve and all. check() has seen to it that there is one.
LoftChoice club_in_hand(const Pupil& pupil) {
  LoftChoice own = *std::find_if(pupil.lofts.begin(), pupil.lofts.end(), [](const LoftChoice& c) { return c.in_hand; });
  own.low = own.high = pupil.club_loft;
  return own;
}

// What loft may be changed to. A range need not hold the club in hand; a list names it already.
std::vector<LoftChoice> clubs_to_choose(const Pupil& pupil, const LoftChoice& own) {
  std::vector<LoftChoice> clubs = pupil.lofts;
  const bool listed = std::any_of(clubs.begin(), clubs.end(),
                                  [&](const LoftChoice& c) { return c.in_hand && c.low == own.low && c.high == own.high; });
  if (!listed) clubs.push_back(own);
  return clubs;
}

Strategy strategy_at(const DriveModel& model, StrategyKind kind, const Found& found, const AdviseOptions& options) {
  Strategy s;
  s.kind = kind;
  s.loft = found.point.loft;
  s.attack = found.point.attack;
  s.delivery = model.delivery(found.club, s.loft, s.attack);
  s.drive = model.drive(s.delivery, options.tight_tolerance);
  s.goal = model.goal_of(s.drive);
  s.limits = model.limit_states(s.delivery, s.drive);
  // What the search met is met: the closer flight that is shown may be over by what the search's own was off.
  for (LimitState& l : s.limits) {
    if (!l.broken || found.point.worst() > kLimitSlack) continue;
    l.broken = false;
    l.active = true;
  }
  s.feasible = found.feasible() && std::none_of(s.limits.begin(), s.limits.end(), [](const LimitState& l) { return l.broken; });
  s.verification = {s.goal - found.point.goal, found.restart_change};
  if (found.must_give) s.must_give = s.limits[model.ends()[*found.must_give].limit];
  return s;
}

// Held by an end of what may change: the goal would still grow beyond it.
void mark_ends(const DriveModel& model, const Freedom& freedom, const Found& found, Strategy& s) {
  const Point p = model.gradient(found.club, s.loft, s.attack);
  double lowest = s.loft, highest = s.loft;
  for (const LoftChoice& c : freedom.clubs) {
    lowest = std::min(lowest, c.low);
    highest = std::max(highest, c.high);
  }
  constexpr double kNear = 0.005 * kDegree, kLevel = 0.01 / kDegree;  // [rad], [m/rad]: a centimetre a degree is level
  const auto held = [&](double at, double low, double high, double slope) {
    return (at < low + kNear && slope < -kLevel) || (at > high - kNear && slope > kLevel);
  };
  s.at_loft_end = s.kind != StrategyKind::technique_only && held(s.loft, lowest, highest, p.d_goal[0]);
  s.at_reach_end = s.kind != StrategyKind::loft_only && held(s.attack, freedom.attack.low, freedom.attack.high, p.d_goal[1]);
}

// Lofts to lay the trade out for: the clubs on offer, or whole degrees of a range and its ends.
std::vector<std::pair<LoftChoice, double>> trade_lofts(const Pupil& pupil) {
  std::vector<std::pair<LoftChoice, double>> lofts;
  for (const LoftChoice& c : pupil.lofts) {
    lofts.emplace_back(c, c.low);
    if (c.high <= c.low) continue;
    for (double degree = std::floor(c.low / kDegree) + 1.0; degree * kDegree < c.high - 1e-6; degree += 1.0) {
      lofts.emplace_back(c, degree * kDegree);
    }
    lofts.emplace_back(c, c.high);
  }
  lofts.emplace_back(club_in_hand(pupil), pupil.club_loft);
  const auto same = [](const auto& a, const auto& b) { return std::abs(a.second - b.second) < 0.01 * kDegree; };
  std::stable_sort(lofts.begin(), lofts.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  lofts.erase(std::unique(lofts.begin(), lofts.end(), same), lofts.end());
  return lofts;
}

// Walks outward from the present attack both ways and stops where the goal first reaches `wanted` within the limits.
class TradeWalk {
 public:
  TradeWalk(const DriveModel& model, const LoftChoice& club, double loft) : model_(model), club_(club), loft_(loft) {
    const double now = model.pupil().delivery.attack;
    const Interval& reach = model.pupil().reach.attack;
    constexpr int kSteps = 8;
    for (const double end : {reach.low, reach.high}) {
      auto& side = sides_.emplace_back();
      for (int i = 0; i <= (end == now ? 0 : kSteps); ++i) side.push_back(model.value(club, loft, now + (end - now) * i / kSteps));
    }
  }

  const Point& present() const { return sides_[0][0]; }

  std::optional<double> change_for(double wanted) const {
    std::optional<double> least;
    for (const auto& side : sides_) {
      for (std::size_t i = 0; i < side.size(); ++i) {
        if (!reaches(side[i], wanted)) continue;
        const double at = i == 0 ? side[0].attack : between(side[i - 1], side[i], wanted);
        const double change = at - side[0].attack;
        if (!least || std::abs(change) < std::abs(*least)) least = change;
        break;
      }
    }
    return least;
  }

 private:
  static bool reaches(const Point& p, double wanted) { return p.goal >= wanted && p.worst() <= kLimitSlack; }

  double between(const Point& short_of, const Point& enough, double wanted) const {
    double low = short_of.attack, high = enough.attack;
    while (std::abs(high - low) > 0.02 * kDegree) {
      const double middle = 0.5 * (low + high);
      (reaches(model_.value(club_, loft_, middle), wanted) ? high : low) = middle;
    }
    return high;
  }

  const DriveModel& model_;
  LoftChoice club_;
  double loft_;
  std::vector<std::vector<Point>> sides_;
};

std::vector<TradeRow> trade_table(const DriveModel& model, double as_is, double whole_gain) {
  std::vector<TradeRow> rows;
  for (const auto& [club, loft] : trade_lofts(model.pupil())) {
    const TradeWalk walk(model, club, loft);
    TradeRow row{loft, walk.present().goal - as_is, {}};
    for (std::size_t i = 0; i < kTradeShares.size(); ++i) row.attack_change[i] = walk.change_for(as_is + kTradeShares[i] * whole_gain);
    rows.push_back(row);
  }
  return rows;
}

Gains gains_of(const Advice& a) {
  const auto gain = [&](StrategyKind kind) {
    return a.at(kind).feasible ? a.at(kind).gain : -std::numeric_limits<double>::infinity();
  };
  return {gain(StrategyKind::loft_only), gain(StrategyKind::technique_only), gain(StrategyKind::both)};
}

// Every set of further changes, with none to all of the attack change of `both` and the best club for it; what another
// betters for no more effort is left out.
std::vector<EffortPoint> effort_front(const DriveModel& model, const std::vector<LoftChoice>& clubs, const Strategy& both,
                                      const AdviseOptions& options) {
  const Reach& reach = model.pupil().reach;
  if (reach.options.empty()) return {};
  const double now = model.pupil().delivery.attack, base = model.goal_of(model.drive(model.pupil().delivery, options.tolerance));
  std::vector<EffortPoint> all;
  for (unsigned set = 0; set < 1u << reach.options.size(); ++set) {
    Circumstances changed = model.circumstances();
    EffortPoint point{0.0, 0.0, 0.0, now, {}};
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
      const Found found = search(other, {clubs, {p.attack, p.attack}}, options);
      if (!found.feasible()) continue;
      p.loft = found.point.loft;
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

std::optional<SetUp> set_up_for(const Pupil& pupil, double attack) {
  constexpr double kNoChange = 0.1 * kDegree;
  constexpr double kLeastTee = 0.006;  // [m] less is no advice: tees are not set finer (common practice)
  if (std::abs(attack - pupil.delivery.attack) < kNoChange) return std::nullopt;
  const auto on_arc = [&](double at) {
    Arc arc{low_point_for(at, pupil.arc.plane, pupil.arc.radius), pupil.arc.plane, pupil.arc.radius, 0.0};
    return std::pair(arc.low_point, (pupil.handed == Handed::left ? -1.0 : 1.0) * at_ball(arc).path);
  };
  try {
    const auto [now, path_now] = on_arc(pupil.delivery.attack);
    const auto [target, path_target] = on_arc(attack);
    const double path_change = path_target - path_now, high = pupil.delivery.high;
    return SetUp{now, target, now - target, path_change, -path_change, std::abs(high) < kLeastTee ? std::nullopt : std::optional(-high)};
  } catch (const InputError&) {  // an attack, or in a flat plane a low point, beyond what the arc is reckoned for
    return std::nullopt;
  }
}

}  // namespace

std::string_view key_of(StrategyKind kind) {
  constexpr std::string_view keys[] = {"as_is", "loft_only", "technique_only", "both"};
  return keys[static_cast<std::size_t>(kind)];
}

std::string_view title_of(StrategyKind kind) {
  constexpr std::string_view titles[] = {"as is", "loft only", "technique only", "both"};
  return titles[static_cast<std::size_t>(kind)];
}

std::string_view key_of(Lever lever) {
  constexpr std::string_view keys[] = {"technique", "loft", "either", "both", "leave"};
  return keys[static_cast<std::size_t>(lever)];
}

Advice advise(const Pupil& pupil, const Setting& setting, const AdviseOptions& options) {
  check(pupil);
  Advice advice;
  std::atomic<int> flights{0};
  const DriveModel model(pupil, setting, options, flights);
  const LoftChoice own = club_in_hand(pupil);
  const std::vector<LoftChoice> any = clubs_to_choose(pupil, own);
  const Interval present{pupil.delivery.attack, pupil.delivery.attack};

  advice.goal = pupil.goal;
  const Found as_is{model.value(own, pupil.club_loft, present.low), own, 0.0, {}};
  advice.strategies[0] = strategy_at(model, StrategyKind::as_is, as_is, options);

  const std::array<Freedom, 3> freedoms{Freedom{any, present}, Freedom{{own}, pupil.reach.attack}, Freedom{any, pupil.reach.attack}};
  std::array<Found, 3> found;
  for (std::size_t i = 0; i < freedoms.size(); ++i) {
    found[i] = search(model, freedoms[i], options);
    Strategy s = strategy_at(model, static_cast<StrategyKind>(i + 1), found[i], options);
    s.gain = s.goal - advice.strategies[0].goal;
    mark_ends(model, freedoms[i], found[i], s);
    advice.strategies[i + 1] = std::move(s);
  }
  advice.strategy_flights = flights;
  const Strategy& both = advice.at(StrategyKind::both);
  advice.feasible = both.feasible;
  advice.rates = model.rates(own, pupil.club_loft, present.low);
  if (advice.feasible && both.gain > 0.0) advice.trade = trade_table(model, advice.strategies[0].goal, both.gain);
  advice.effort_front = effort_front(model, any, both, options);
  if (options.draws > 0) {
    advice.confidence = judge(model, as_is, freedoms, found, options, advice.verdict);
  } else {
    advice.verdict = rule({gains_of(advice)}, pupil.worthwhile).lever;
  }
  if (advice.feasible && (advice.verdict != Lever::leave && advice.verdict != Lever::loft)) {
    advice.set_up = set_up_for(pupil, advice.at(advice.verdict == Lever::both ? StrategyKind::both : StrategyKind::technique_only).attack);
  }
  advice.flights = flights;
  return advice;
}

}  // namespace loftwright
