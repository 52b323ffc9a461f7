#include "loftwright/report/advice_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "advise/reached.hpp"
#include "core/text.hpp"
#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/units.hpp"
#include "report/parts.hpp"

namespace loftwright {

namespace {

bool is_loss(double gain, UnitSystem units) { return gain < 0.0 && !reads_as_zero(Shown::gain, gain, units); }

std::string yards_of(double gain, UnitSystem units) { return quantity(Shown::gain, std::abs(gain), units); }

// "adds 5.6 yd", "costs 5.6 yd".
std::string gain_words(double gain, UnitSystem units) {
  return fmt::format("{} {}", is_loss(gain, units) ? "costs" : "adds", yards_of(gain, units));
}

std::string goal_words(Goal goal) { return goal == Goal::carry ? "of carry" : "of total distance"; }

// "adds 13.1 yd of carry to the average drive", "costs the average drive 3.2 yd of carry".
std::string average_words(double gain, Goal goal, UnitSystem units) {
  if (is_loss(gain, units))
    return fmt::format("costs the average drive {} {}", yards_of(gain, units), goal_words(goal));
  return fmt::format("adds {} {} to the average drive", yards_of(gain, units), goal_words(goal));
}

std::string limit_of(const LimitState& limit, UnitSystem units) {
  return limit_words(limit.quantity, limit.allowed, units);
}

// Rounded up: given as it is told, it is enough.
std::string give_of(const LimitState& limit, UnitSystem units) {
  const Shown what = shown_as(limit.quantity);
  return quantity(what, std::abs(limit.slack) + unit(unit_shown(what, units)).to_si(0.499 * step_shown(what)), units);
}

// Nobody changes for nothing, but for a limit that is broken now.
bool adds_nothing(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  return as_is.feasible && (s.gain <= 0.0 || reads_as_zero(Shown::gain, s.gain, units));
}

// "the best loft alone (12.0 deg) adds 5.6 yd", or why there is no such thing.
std::string loft_alone(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  if (!s.feasible) return "no loft alone meets every limit";
  const bool turned = s.fit && s.fit->has_sleeve;  // the face too
  if ((!turned && reads_as_zero(Shown::angle, s.loft - as_is.loft, units)) || adds_nothing(s, as_is, units))
    return "no other loft alone adds anything";
  const std::string what = turned ? fmt::format("{}: {}", head_words(*s.fit), degrees(s.loft)) : degrees(s.loft);
  return fmt::format("the best loft alone ({}) {}", what, gain_words(s.gain, units));
}

// Where the best loft alone is on another head than both end with, nobody should buy that on the way: the club of both
// with the swing as it is. (Of its loft the trade has that very club.)
std::string first_loft(const Advice& advice, UnitSystem units) {
  const Strategy &both = advice.at(StrategyKind::both), &loft = advice.at(StrategyKind::loft_only);
  const TradeRow* row = trade_at(advice, both.loft);
  const bool sleeves = both.fit && loft.fit && (both.fit->has_sleeve || loft.fit->has_sleeve);
  const bool same_head =
      sleeves && both.fit->in_hand == loft.fit->in_hand && both.fit->head_loft == loft.fit->head_loft;
  if (!sleeves || same_head || !loft.feasible || !row || row->breaks_limit)
    return loft_alone(loft, advice.at(StrategyKind::as_is), units);
  return fmt::format("that club with the swing as it is {}", gain_words(row->gain_at_present_attack, units));
}

// "13.5 deg instead of 9.5 deg"; what a turned sleeve makes "and".
std::string instead_words(const Strategy& s, const Strategy& as_is, std::string_view of_loft) {
  if (s.fit && s.fit->has_sleeve) return setting_words(*s.fit, as_is.loft) + " and";
  return fmt::format("{}{} instead of {}", degrees(s.loft), of_loft, degrees(as_is.loft));
}

// Of a sleeve that is set elsewhere than as marked, the head does not say the loft.
std::string in_hand_words(const Strategy& as_is) {
  if (as_is.loft == as_is.club.nominal || as_is.club.setting.empty())
    return fmt::format("the {} driver in hand", degrees(as_is.loft));
  return fmt::format("the driver in hand at {} ({})", as_is.club.setting, degrees(as_is.loft));
}

std::string swing_alone(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  if (!s.feasible) return "no change of technique alone meets every limit";
  if (reads_as_zero(Shown::angle, s.attack - as_is.attack, units) || adds_nothing(s, as_is, units))
    return "no other attack alone adds anything";
  return fmt::format("the best technique alone (attack {}) {}", degrees(s.attack, Sign::always),
                     gain_words(s.gain, units));
}

// "adds 13.1 yd of carry to the average drive (+8 to +18)"; what costs yards is done for the limits' sake.
std::string adds_words(const Advice& advice, const Strategy& s, UnitSystem units) {
  std::string out = average_words(s.gain, advice.goal, units);
  const auto judged = advice.confidence ? advice.confidence->at(s.kind) : std::nullopt;
  if (judged) out += fmt::format(" ({})", interval_numbers(judged->gain, units));
  if (is_loss(s.gain, units) && !advice.at(StrategyKind::as_is).feasible)
    out += " but meets every limit, as loft and technique now do not";
  if (judged && (s.gain < judged->gain.low || s.gain > judged->gain.high))
    out += ", a mean that few large gains lift out of its own interval";
  return out;
}

// " (sure, 93 %)", " (likely, 78 %)", " (a close call, 62 %)"; never rounded up to where the next word begins.
std::string certainty_words(const Advice& advice) {
  if (!advice.confidence) return "";
  const Verdict& v = advice.verdict;
  switch (v.certainty) {
    case Certainty::sure: return fmt::format(" (sure, {})", probability_words(v.probability));
    case Certainty::likely: return fmt::format(" (likely, {})", probability_words(std::min(v.probability, 0.894)));
    case Certainty::close: return fmt::format(" (a close call, {})", probability_words(std::min(v.probability, 0.694)));
  }
  return "";
}

std::string_view lever_words(Lever lever) {
  switch (lever) {
    case Lever::technique: return "technique alone";
    case Lever::loft: return "loft alone";
    case Lever::both: return "both";
    case Lever::leave: return "leaving both alone";
    case Lever::either: return "either";
  }
  return "";
}

// What a close call asks for: the next best, what choosing wrongly costs, and what to measure first.
std::string close_words(const Advice& advice, UnitSystem units) {
  const Verdict& v = advice.verdict;
  if (!advice.confidence || v.certainty != Certainty::close) return "";
  std::string out;
  if (v.runner_up) {
    const std::string cost =
        fmt::format("hoosing wrongly costs {} on average.", quantity(Shown::gain, v.regret, units));
    const bool named = v.lever == Lever::either && (*v.runner_up == Lever::loft || *v.runner_up == Lever::technique);
    out += named ? " C" + cost : fmt::format(" Next best is {}; c{}", lever_words(*v.runner_up), cost);
  }
  if (v.measure_first) {
    out += fmt::format(" Measure first: {}, worth {}.", measure_words(*v.measure_first),
                       quantity(Shown::gain, advice.confidence->measuring.worth[*v.measure_first], units));
  }
  return out;
}

// A lever that loses a third of the fairways says so.
std::string fairway_words(const Advice& advice) {
  constexpr double kKept = 2.0 / 3.0;
  const double before = advice.at(StrategyKind::as_is).average.fairway_share;
  const double after = advice.at(strategy_of(advice.verdict.leader)).average.fairway_share;
  if (after > kKept * before) return "";
  return fmt::format(" It holds {} of fairways instead of {}.", probability_words(after), probability_words(before));
}

std::string leave_sentence(const Advice& advice, const std::string& sure, UnitSystem units) {
  const auto best = std::find_if(advice.choices.begin(), advice.choices.end(),
                                 [](const Choice& c) { return c.feasible && c.lever != Lever::leave; });
  if (best == advice.choices.end())
    return fmt::format("Change neither loft nor technique{}: nothing else that is within reach adds anything.", sure);
  return fmt::format(
      "Change neither loft nor technique{}: the best change, {}, {} and would have to add more than {} to be worth it.",
      sure, lever_words(best->lever), average_words(best->gain, advice.goal, units),
      quantity(Shown::gain, best->price, units));
}

std::string must_give_words(const Strategy& s, UnitSystem units) {
  std::vector<std::string> all;
  for (const LimitState& l : s.must_give)
    all.push_back(fmt::format("{} would have to give by {}", limit_of(l, units), give_of(l, units)));
  return listed(all);
}

}  // namespace

std::optional<double> worth_in_club_speed(const Rate& lever, const Rate& club_speed, Goal goal) {
  const double gained = goal == Goal::carry ? lever.carry : lever.total;
  const double per_speed = goal == Goal::carry ? club_speed.carry : club_speed.total;
  if (per_speed <= 0.0) return std::nullopt;
  return gained / per_speed;
}

std::string worth_sentence(const Advice& advice, UnitSystem units) {
  const ExchangeRates& rates = advice.rates;
  const auto does = [&](const Rate& lever) -> std::string {
    const std::optional<double> worth = worth_in_club_speed(lever, rates.club_speed, advice.goal);
    if (!worth) return "";
    const double speed = *worth * unit("deg").factor;
    if (reads_as_zero(Shown::speed, speed, units)) return "next to nothing";
    return fmt::format("what {} {} club speed does", quantity(Shown::speed, std::abs(speed), units),
                       speed > 0.0 ? "more" : "less");
  };
  const std::string attack = does(rates.attack), loft = does(rates.loft);
  if (attack.empty()) return "";
  return fmt::format("For {}, one degree higher attack, loft following, does {}; one degree more loft does {}.",
                     key_of(advice.goal), attack, loft);
}

std::string verdict_sentence(const Advice& advice, UnitSystem units) {
  const Strategy& as_is = advice.at(StrategyKind::as_is);
  const Strategy& loft = advice.at(StrategyKind::loft_only);
  const Strategy& swing = advice.at(StrategyKind::technique_only);
  const Strategy& both = advice.at(StrategyKind::both);
  if (!advice.feasible) {
    return fmt::format("No loft and technique within reach meet every limit{}.",
                       both.must_give.empty() ? "" : ": " + must_give_words(both, units));
  }
  const std::string sure = certainty_words(advice), after = fairway_words(advice) + close_words(advice, units);
  switch (advice.verdict.lever) {
    case Lever::technique:
      return fmt::format("Change the technique, not the loft{}: an attack of {} instead of {} with {} {}; {}.{}", sure,
                         degrees(swing.attack, Sign::always), degrees(as_is.attack, Sign::always), in_hand_words(as_is),
                         adds_words(advice, swing, units), loft_alone(loft, as_is, units), after);
    case Lever::loft:
      return fmt::format("Change the loft, not the technique{}: {} {}; {}.{}", sure, instead_words(loft, as_is, ""),
                         adds_words(advice, loft, units), swing_alone(swing, as_is, units), after);
    case Lever::either: {
      const std::string of_loft =
          fmt::format("{} {}", instead_words(loft, as_is, " of loft"), adds_words(advice, loft, units));
      const std::string of_swing = fmt::format("an attack of {} instead of {} {}", degrees(swing.attack, Sign::always),
                                               degrees(as_is.attack, Sign::always), adds_words(advice, swing, units));
      const bool loft_first = advice.verdict.leader == Lever::loft;
      return fmt::format("Either will do{}: {}, or {}.{}", sure, loft_first ? of_loft : of_swing,
                         loft_first ? of_swing : of_loft, after);
    }
    case Lever::both: {
      const std::string first = !advice.verdict.first_step ? ""
                                : *advice.verdict.first_step == Lever::loft
                                    ? fmt::format(" Start with the loft: {}.", first_loft(advice, units))
                                    : fmt::format(" Start with the technique: {}.", swing_alone(swing, as_is, units));
      const bool turned = both.fit && both.fit->has_sleeve;
      return fmt::format("Change both{}: {} with an attack of {} {}{}.{}{}", sure,
                         turned ? setting_words(*both.fit, as_is.loft) + ";" : degrees(both.loft) + " of loft",
                         degrees(both.attack, Sign::always), turned ? "that " : "", adds_words(advice, both, units),
                         first, after);
    }
    case Lever::leave: return leave_sentence(advice, sure, units) + close_words(advice, units);
  }
  throw std::logic_error("a verdict without a sentence");
}

std::vector<std::string> loft_sentences(const Advice& advice, UnitSystem units) {
  std::vector<std::string> out;
  const Strategy& as_is = advice.at(StrategyKind::as_is);
  for (const StrategyKind kind : {StrategyKind::loft_only, StrategyKind::both}) {
    const Strategy& s = advice.at(kind);
    if (!s.feasible || !s.fit) continue;
    const bool loft_alone_again = kind == StrategyKind::both && s.attack == as_is.attack;
    if (loft_alone_again) continue;
    const bool plain = !s.fit->has_sleeve && reads_as_zero(Shown::angle, s.fit->face, units);  // its loft says all
    if (!plain) out.push_back(fmt::format("{}: {}", title_of(kind), fit_sentence(s, as_is, units)));
    const std::string own = own_turn_sentence(s, as_is, units);
    if (!own.empty()) out.push_back(fmt::format("{}, without another driver: {}", title_of(kind), own));
  }
  if (const auto& w = advice.window) {
    out.push_back(fmt::format("on offer or not, {} to {} deg of loft go within {} of the best, {}, at an attack of {}",
                              number(Shown::angle, w->low, units), number(Shown::angle, w->high, units),
                              quantity(Shown::gain, kWindowLoss, units), degrees(w->best),
                              degrees(w->attack, Sign::always)));
  }
  if (advice.second && advice.second->differs) {
    const SecondOpinion& s = *advice.second;
    out.push_back(fmt::format(
        "another ball, '{}', would say '{}', with {} of loft and an attack of {}: the answer leans on the model of air",
        s.aero, key_of(s.lever), degrees(s.loft), degrees(s.attack, Sign::always)));
  }
  return out;
}

std::string drives_sentence(const Advice& advice, UnitSystem units) {
  if (!advice.confidence || advice.verdict.leader == Lever::leave) return "";
  const StrategyKind kind = strategy_of(advice.verdict.leader);
  const auto& judged = advice.confidence->at(kind);
  if (!judged) return "";
  const double gain = advice.at(kind).gain;
  const Interval80& drives = judged->drive_gain;
  return fmt::format(
      "Of ten drives, {} further than the same swing would have sent them before; eight of ten gain between {} and "
      "{}{}.",
      of_ten_go(judged->drives_gaining), number(Shown::distance, drives.low, units, Sign::always),
      quantity(Shown::distance, drives.high, units, Sign::always),
      gain > drives.high  ? ", and a few so much more that the average lies above that"
      : gain < drives.low ? ", and a few lose so much that the average lies below that"
                          : "");
}

std::string probability_words(double probability) {
  const double percent = std::clamp(std::round(100.0 * probability), 1.0, 99.0);
  return fmt::format("{}{:.0f} %", probability > 0.995 ? "over " : probability < 0.005 ? "under " : "", percent);
}

std::string interval_numbers(const Interval80& interval, UnitSystem units) {
  return fmt::format("{} to {}", number(Shown::distance, interval.low, units, Sign::always),
                     number(Shown::distance, interval.high, units, Sign::always));
}

std::vector<std::string> holding_sentences(const Advice& advice, UnitSystem units) {
  std::vector<std::string> out;
  for (const Strategy& s : advice.strategies) {
    const std::string_view who = title_of(s.kind);
    if (!s.must_give.empty())
      out.push_back(fmt::format("{}: nothing meets every limit; {}", who, must_give_words(s, units)));
    for (const LimitState& limit : s.limits) {
      const std::string value = quantity(shown_as(limit.quantity), limit.value, units);
      const bool told = std::any_of(s.must_give.begin(), s.must_give.end(),
                                    [&](const LimitState& l) { return l.quantity == limit.quantity; });
      if (limit.broken && !told)
        out.push_back(fmt::format(
            "{}: breaks a limit, {} ({}it is {})", who, limit_of(limit, units),
            limit.quantity == Limited::carry || limit.quantity == Limited::side ? "well struck " : "", value));
      if (limit.active && !limit.broken) out.push_back(fmt::format("{}: held by {}", who, limit_of(limit, units)));
    }
    if (!s.must_give.empty()) continue;  // held by its limits, whatever else
    if (s.at_loft_end)
      out.push_back(fmt::format("{}: held by the lofts on offer, which end at {}", who, degrees(s.loft)));
    if (s.at_reach_end) {
      out.push_back(
          fmt::format("{}: held by the reach, which ends at attack {}", who, degrees(s.attack, Sign::always)));
    }
  }
  return out;
}

std::vector<std::string> set_up_sentences(const Advice& advice, UnitSystem units) {
  if (!advice.set_up) return {};
  const SetUp& s = *advice.set_up;
  const auto moved = [&](double by, std::string_view none, std::string_view more, std::string_view less) {
    if (reads_as_zero(Shown::at_address, by, units)) return std::string(none);
    return fmt::format("{} {}", quantity(Shown::at_address, std::abs(by), units), by > 0.0 ? more : less);
  };
  std::vector<std::string> out{
      fmt::format("low point: {} now; aim: {}", low_point_words(s.low_point_now, units),
                  low_point_words(s.low_point_target, units)),
      fmt::format("ball: {}", moved(s.ball_forward, "where it is against the low point",
                                    "further forward of the low point; move the ball, the low point, or some of each",
                                    "further back from the low point; move the ball, the low point, or some of each"))};
  if (!reads_as_zero(Shown::angle, s.path_change, units)) {
    const auto side = [](double angle) { return angle > 0.0 ? "right" : "left"; };
    out.push_back(
        fmt::format("path: moving the low point alone would turn it {} to the {}; swing {} further {} to keep it",
                    degrees(std::abs(s.path_change)), side(s.path_change), degrees(std::abs(s.swing_direction_change)),
                    side(s.swing_direction_change)));
  }
  if (s.tee_higher) {
    out.push_back(fmt::format("tee: {}", moved(*s.tee_higher, "as it is",
                                               "higher, for the ball is struck that far below the middle of the face",
                                               "lower, for the ball is struck that far above the middle of the face")));
  }
  return out;
}

}  // namespace loftwright
