#include "loftwright/io/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "loftwright/core/constants.hpp"
#include "loftwright/core/units.hpp"

namespace loftwright {

namespace {

struct Style {
  Shown what;
  std::string_view yards;   // symbol of the unit in that system
  std::string_view metres;
  int decimals;
  double step = 0.0;        // in that unit, for what is rounded more coarsely than a decimal; 0: decimals alone
};

constexpr std::array kStyles{
    Style{Shown::distance, "yd", "m", 0},
    Style{Shown::gain, "yd", "m", 1},
    Style{Shown::height, "ft", "m", 0},
    Style{Shown::speed, "mph", "m/s", 1},
    Style{Shown::speed_cost, "mph", "m/s", 2},
    Style{Shown::angle, "deg", "deg", 1},
    Style{Shown::spin, "rpm", "rpm", 0, 10.0},
    Style{Shown::at_address, "in", "cm", 1},
    Style{Shown::on_face, "mm", "mm", 0},
    Style{Shown::radius, "ft", "m", 2},
    Style{Shown::factor, "", "", 2},
    Style{Shown::coefficient, "", "", 3},
    Style{Shown::time, "s", "s", 1},
    Style{Shown::temperature, "F", "C", 0},
};

const Style& style_of(Shown what) {
  for (const Style& style : kStyles) {
    if (style.what == what) return style;
  }
  throw std::logic_error("a kind of number without a style");
}

bool reads_as_zero(Shown what, double si, UnitSystem units) {
  return number(what, si, units).find_first_not_of("0.") == std::string::npos;
}

std::string degrees(double radians, Sign sign = Sign::minus_only) {
  return quantity(Shown::angle, radians, UnitSystem::yards, sign);
}

std::string gain_words(const Strategy& strategy, UnitSystem units) {
  return quantity(Shown::gain, strategy.gain, units, Sign::minus_only);
}

std::string goal_words(Goal goal) { return goal == Goal::carry ? "of carry" : "of total distance"; }

std::string limit_of(const LimitState& limit, UnitSystem units) {
  return limit_words(limit.quantity, limit.allowed, units);
}

std::string give_of(const LimitState& limit, UnitSystem units) {
  return quantity(shown_as(limit.quantity), std::abs(limit.slack), units);
}

// "the best loft alone (12.0 deg) adds 5.6 yd", or why there is no such thing.
std::string loft_alone(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  if (!s.feasible) return "no loft alone meets every limit";
  if (reads_as_zero(Shown::angle, s.loft - as_is.loft, units)) return "no other loft alone adds anything";
  return fmt::format("the best loft alone ({}) adds {}", degrees(s.loft), gain_words(s, units));
}

std::string swing_alone(const Strategy& s, const Strategy& as_is, UnitSystem units) {
  if (!s.feasible) return "no change of swing alone meets every limit";
  if (reads_as_zero(Shown::angle, s.attack - as_is.attack, units)) return "no other attack alone adds anything";
  return fmt::format("the best swing alone (attack {}) adds {}", degrees(s.attack, Sign::always), gain_words(s, units));
}

// Nothing gains what is worth a change, or nothing is sure to.
std::string leave_sentence(const Advice& advice, const Pupil& pupil, const std::string& sure, UnitSystem units) {
  const Strategy& both = advice.at(StrategyKind::both);
  const std::string worth = quantity(Shown::gain, pupil.worthwhile, units);
  if (!advice.confidence || both.gain < pupil.worthwhile) {
    return fmt::format("Leave club and swing alone{}: the most that any loft and swing within reach add is {} {}, and less than {} is "
                       "not worth a change here.",
                       sure, gain_words(both, units), goal_words(advice.goal), worth);
  }
  // Which change is likeliest to be worth it: how far that falls short is what the reader needs, not how sure it is that
  // nothing at all would help.
  StrategyKind likeliest = StrategyKind::both;
  double chance = 0.0;
  for (const StrategyKind kind : {StrategyKind::both, StrategyKind::technique_only, StrategyKind::loft_only}) {
    const auto& judged = advice.confidence->at(kind);
    if (judged && judged->worthwhile_probability > chance) {
      likeliest = kind;
      chance = judged->worthwhile_probability;
    }
  }
  const bool rounds_up = chance >= 0.895;  // to what is asked for
  return fmt::format("Leave club and swing alone for now: the likeliest change ({}) adds {} {}, but {} or more come in only {} of drives, "
                     "where 90 % are asked for.",
                     title_of(likeliest), gain_words(advice.at(likeliest), units), goal_words(advice.goal), worth,
                     rounds_up ? fmt::format("{:.1f} %", 100.0 * std::min(chance, 0.899)) : probability_words(chance));
}

// How an assumption is named and its value told.
struct AssumptionName {
  Assumption assumption;
  std::string_view title;
  enum class Told { not_at_all, speed, angle, times, added, plain, speed_a_degree } told;
};

const AssumptionName& name_of(Assumption assumption) {
  using Told = AssumptionName::Told;
  static constexpr std::array<AssumptionName, kAssumptions> kNames{{
      {Assumption::shots, "the player's scatter", Told::not_at_all},
      {Assumption::measured_club_speed, "the measured club speed", Told::speed},
      {Assumption::measured_attack, "the measured attack", Told::angle},
      {Assumption::measured_dynamic_loft, "the measured dynamic loft", Told::angle},
      {Assumption::measured_strike, "the measured path, face and strike point", Told::not_at_all},
      {Assumption::drag, "the ball's drag", Told::times},
      {Assumption::lift, "the ball's lift", Told::times},
      {Assumption::restitution, "the spring of the face", Told::added},
      {Assumption::tangential_restitution, "the grip of the face", Told::added},
      {Assumption::turf_bounce, "the bounce of the turf", Told::not_at_all},
      {Assumption::turf_roll, "the roll on the turf", Told::not_at_all},
      {Assumption::follow, "how far loft follows a change of attack", Told::plain},
      {Assumption::speed_cost, "the speed that a higher attack brings", Told::speed_a_degree},
  }};
  return kNames[static_cast<std::size_t>(assumption)];
}

// "-2.5 deg instead of -4.0 deg", "0.94 times the model's".
std::string other_value(const AssumptionName& name, double value, double taken, UnitSystem units) {
  using Told = AssumptionName::Told;
  const auto instead = [&](Shown what, double factor = 1.0) {
    return fmt::format("{} instead of {}", quantity(what, value * factor, units), quantity(what, taken * factor, units));
  };
  switch (name.told) {
    case Told::not_at_all: return "";
    case Told::speed: return instead(Shown::speed);
    case Told::angle: return instead(Shown::angle);
    case Told::plain: return instead(Shown::factor);
    case Told::speed_a_degree: return instead(Shown::speed_cost, unit("deg").factor) + " a degree";
    case Told::times: return number(Shown::factor, value, units) + " times the model's";
    case Told::added: return number(Shown::coefficient, value, units, Sign::always) + " beside the model's";
  }
  return "";
}

}  // namespace

std::string_view unit_shown(Shown what, UnitSystem units) {
  const Style& style = style_of(what);
  return units == UnitSystem::yards ? style.yards : style.metres;
}

std::string number(Shown what, double si, UnitSystem units, Sign sign) {
  if (!std::isfinite(si)) throw std::logic_error("a number for people is not finite");
  const Style& style = style_of(what);
  const std::string_view symbol = unit_shown(what, units);
  double value = symbol.empty() ? si : unit(symbol).from_si(si);
  if (style.step > 0.0) value = std::round(value / style.step) * style.step;
  std::string text = fmt::format("{:.{}f}", std::abs(value), style.decimals);
  if (text.find_first_not_of("0.") == std::string::npos) return text;
  if (value < 0.0) return "-" + text;
  return sign == Sign::always ? "+" + text : text;
}

std::string quantity(Shown what, double si, UnitSystem units, Sign sign) {
  const std::string_view symbol = unit_shown(what, units);
  return number(what, si, units, sign) + (symbol.empty() ? "" : " ") + std::string(symbol);
}

std::string pupil_words(const Pupil& pupil) {
  return fmt::format("{}-handed, playing for {}", key_of(pupil.handed), key_of(pupil.goal));
}

std::string delivery_words(const Pupil& pupil, UnitSystem units) {
  const Delivery& d = pupil.delivery;
  std::string now = fmt::format("Now: {} driver, {} of club speed, attack {}, dynamic loft {}, path {}, face {}", degrees(pupil.club_loft),
                                quantity(Shown::speed, d.club_speed, units), degrees(d.attack, Sign::always), degrees(d.dynamic_loft),
                                degrees(d.path, Sign::always), degrees(d.face, Sign::always));
  if (d.toe != 0.0 || d.high != 0.0) {
    now += fmt::format(", struck {} to the {} and {} {}", quantity(Shown::on_face, std::abs(d.toe), units), d.toe < 0.0 ? "heel" : "toe",
                       quantity(Shown::on_face, std::abs(d.high), units), d.high < 0.0 ? "low" : "high");
  }
  return now + ".";
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    out += fmt::format("{}{}", i == 0 ? "" : i + 1 == words.size() ? " and " : ", ", words[i]);
  }
  return out;
}

std::string side_words(double side, UnitSystem units) {
  if (reads_as_zero(Shown::distance, side, units)) return "on the target line";
  return quantity(Shown::distance, std::abs(side), units) + (side > 0.0 ? " right" : " left");
}

std::string low_point_words(double low_point, UnitSystem units) {
  if (reads_as_zero(Shown::at_address, low_point, units)) return "at the ball";
  return quantity(Shown::at_address, std::abs(low_point), units) +
         (low_point > 0.0 ? " ahead of the ball" : " behind the ball");
}

Shown shown_as(Limited quantity) {
  switch (quantity) {
    case Limited::spin_loft:
    case Limited::launch:
    case Limited::landing_angle:
    case Limited::face_to_path: return Shown::angle;
    case Limited::spin: return Shown::spin;
    case Limited::apex: return Shown::height;
    case Limited::side:
    case Limited::carry: return Shown::distance;
  }
  throw std::logic_error("a limited quantity without a way to show it");
}

Shown shown_as(Reading reading) {
  switch (reading) {
    case Reading::club_speed:
    case Reading::ball_speed: return Shown::speed;
    case Reading::attack:
    case Reading::path:
    case Reading::face:
    case Reading::dynamic_loft:
    case Reading::swing_direction:
    case Reading::spin_loft:
    case Reading::launch:
    case Reading::azimuth:
    case Reading::tilt:
    case Reading::landing: return Shown::angle;
    case Reading::low_point: return Shown::at_address;
    case Reading::toe:
    case Reading::high: return Shown::on_face;
    case Reading::spin: return Shown::spin;
    case Reading::smash: return Shown::factor;
    case Reading::carry:
    case Reading::total:
    case Reading::side: return Shown::distance;
    case Reading::apex: return Shown::height;
  }
  throw std::logic_error("a reading without a way to show it");
}

Shown difference_shown_as(Reading reading) {
  const Shown shown = shown_as(reading);
  return shown == Shown::distance ? Shown::gain : shown == Shown::factor ? Shown::coefficient : shown;
}

std::string limit_words(Limited quantity, const Interval& allowed, UnitSystem units) {
  const std::string_view title = title_of(quantity);
  const auto end = [&](double si) { return loftwright::quantity(shown_as(quantity), si, units); };
  const bool low = std::isfinite(allowed.low), high = std::isfinite(allowed.high);
  if (low && high) return fmt::format("{} between {} and {}", title, end(allowed.low), end(allowed.high));
  if (low) return fmt::format("{} at least {}", title, end(allowed.low));
  if (high) return fmt::format("{} at most {}", title, end(allowed.high));
  return fmt::format("{} free", title);
}

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
    return fmt::format("what {} {} club speed does", quantity(Shown::speed, std::abs(speed), units), speed > 0.0 ? "more" : "less");
  };
  const std::string attack = does(rates.attack), loft = does(rates.loft);
  if (attack.empty()) return "";
  return fmt::format("For {}, one degree higher attack, loft following, does {}; one degree more loft does {}.", key_of(advice.goal), attack, loft);
}

std::string verdict_sentence(const Advice& advice, const Pupil& pupil, UnitSystem units) {
  const Strategy& as_is = advice.at(StrategyKind::as_is);
  const Strategy& loft = advice.at(StrategyKind::loft_only);
  const Strategy& swing = advice.at(StrategyKind::technique_only);
  const Strategy& both = advice.at(StrategyKind::both);
  const std::string goal = goal_words(advice.goal);
  if (!advice.feasible) {
    if (!both.must_give) return "No loft and swing within reach meet every limit.";
    return fmt::format("No loft and swing within reach meet every limit: {} would have to give by {}.",
                       limit_of(*both.must_give, units), give_of(*both.must_give, units));
  }
  const std::string sure =
      advice.confidence ? fmt::format(" ({} sure)", probability_words(advice.confidence->verdict_probability)) : "";
  switch (advice.verdict) {
    case Lever::technique:
      return fmt::format("Change the swing, not the club{}: an attack of {} instead of {} with the {} driver in hand adds {} {}; {}.",
                         sure, degrees(swing.attack, Sign::always), degrees(as_is.attack, Sign::always), degrees(as_is.loft),
                         gain_words(swing, units), goal, loft_alone(loft, as_is, units));
    case Lever::loft:
      return fmt::format("Change the loft, not the swing{}: {} instead of {} adds {} {}; {}.", sure, degrees(loft.loft),
                         degrees(as_is.loft), gain_words(loft, units), goal, swing_alone(swing, as_is, units));
    case Lever::either:
      return fmt::format("Either will do{}: {} of loft instead of {} adds {} {}, an attack of {} instead of {} adds {}, and both "
                         "together add {}.",
                         sure, degrees(loft.loft), degrees(as_is.loft), gain_words(loft, units), goal,
                         degrees(swing.attack, Sign::always), degrees(as_is.attack, Sign::always), gain_words(swing, units),
                         gain_words(both, units));
    case Lever::both:
      return fmt::format("Change both{}: {} of loft with an attack of {} adds {} {}; {}, and {}.", sure, degrees(both.loft),
                         degrees(both.attack, Sign::always), gain_words(both, units), goal, loft_alone(loft, as_is, units),
                         swing_alone(swing, as_is, units));
    case Lever::leave: return leave_sentence(advice, pupil, sure, units);
  }
  throw std::logic_error("a verdict without a sentence");
}

std::string probability_words(double probability) {
  const double percent = std::clamp(std::round(100.0 * probability), 1.0, 99.0);
  return fmt::format("{}{:.0f} %", probability > 0.995 ? "over " : probability < 0.005 ? "under " : "", percent);
}

std::string interval_numbers(const Interval80& interval, UnitSystem units) {
  return fmt::format("{} to {}", number(Shown::distance, interval.low, units, Sign::always),
                     number(Shown::distance, interval.high, units, Sign::always));
}

std::vector<std::string> odds_sentences(const Advice& advice) {
  std::vector<std::string> out;
  if (!advice.confidence) return out;
  const auto beats = [&](StrategyKind better, StrategyKind other, const std::optional<double>& probability) {
    if (probability) {
      out.push_back(fmt::format("{} goes further than {} in {} of drives", title_of(better), title_of(other), probability_words(*probability)));
    }
  };
  beats(StrategyKind::technique_only, StrategyKind::loft_only, advice.confidence->technique_over_loft);
  beats(StrategyKind::both, StrategyKind::technique_only, advice.confidence->both_over_technique);
  beats(StrategyKind::both, StrategyKind::loft_only, advice.confidence->both_over_loft);
  return out;
}

std::vector<std::string> leaning_sentences(const Advice& advice, UnitSystem units) {
  std::vector<std::string> out;
  if (!advice.confidence) return out;
  constexpr std::size_t kNamed = 3;
  for (const Influence& i : advice.confidence->influences) {
    if (out.size() == kNamed) break;
    const AssumptionName& name = name_of(i.assumption);
    std::string turns;
    if (i.flips_at) {
      turns = fmt::format("; at {} the verdict would be '{}'", other_value(name, *i.flips_at, i.taken, units), key_of(i.becomes));
    } else if (name.told != AssumptionName::Told::not_at_all) {
      turns = "; no likely value turns the verdict";
    }
    out.push_back(fmt::format("{}: {} of the doubt{}", name.title, probability_words(i.total), turns));
  }
  return out;
}

std::vector<std::string> measuring_sentences(const Advice& advice, UnitSystem units) {
  std::vector<std::string> out;
  if (!advice.confidence || !advice.feasible) return out;
  const auto add = [&](std::string_view what, double metres) {
    if (!reads_as_zero(Shown::gain, metres, units)) out.push_back(fmt::format("{}: {}", what, quantity(Shown::gain, metres, units)));
  };
  const Measuring& m = advice.confidence->measuring;
  add("ten more shots", m.ten_more_shots);
  add("a ball and head tuned to the player's shots", m.tuned_ball);
  add("a trial lesson", m.trial_lesson);
  add("all of it", m.everything);
  if (out.empty()) out.emplace_back("nothing: no measurement would change the choice");
  if (const auto& both = advice.confidence->at(StrategyKind::both)) {
    add(fmt::format("no measuring, but aiming for the average drive ({} of loft, attack {}) instead of the perfect strike",
                    degrees(both->expected_loft), degrees(both->expected_attack, Sign::always)),
        both->expected_advantage);
  }
  return out;
}

std::string claim_sentence(const Claim& c, Goal goal, UnitSystem units) {
  const std::string_view unit_words = units == UnitSystem::yards ? "yards" : "metres";
  const auto distance = [&](double si) { return fmt::format("{} {}", number(Shown::gain, si, units), unit_words); };
  const auto degrees = [&](double si) { return number(Shown::angle, si, units); };
  const auto turns = [&](double si) { return number(Shown::spin, std::abs(si), units); };
  const std::string_view gets = goal == Goal::carry ? "carries" : "ends";
  const auto one_degree_more = [&](std::string_view of, bool further) {
    return fmt::format("One degree more {} starts the ball {} degrees {} with {} turns {}, and it {} {} {}.", of, degrees(std::abs(c.launch)),
                       c.launch >= 0.0 ? "higher" : "lower", turns(c.spin), c.spin >= 0.0 ? "more" : "fewer", gets, distance(c.distance),
                       further ? "further" : "shorter");
  };
  constexpr std::string_view kLoft = "Loft is how far the face leans back. ";
  constexpr std::string_view kAttack = "Attack is how steeply the head rises through the ball; below zero it falls. ";
  switch (c.kind) {
    case ClaimKind::now:
      return fmt::format("Your ball now starts at {} degrees with {} backward turns a minute and {} {} {} {}.", degrees(c.launch), turns(c.spin),
                         goal == Goal::carry ? "carries" : "comes to rest after", number(Shown::distance, c.distance, units), unit_words,
                         goal == Goal::carry ? "through the air" : "in all");
    case ClaimKind::too_low:
      return fmt::format("That is low: with the same spin a higher start would go further. Your best drive here starts {} degrees higher.",
                         degrees(c.launch));
    case ClaimKind::too_high:
      return fmt::format("That is high: with the same spin a lower start would go further. Your best drive here starts {} degrees lower.",
                         degrees(c.launch));
    case ClaimKind::too_little_spin:
      return fmt::format("More spin would help: from the same start, 100 turns more are worth {}.", distance(c.distance));
    case ClaimKind::too_much_spin:
      return fmt::format("Less spin would help: from the same start, 100 turns fewer are worth {}.", distance(c.distance));
    case ClaimKind::loft_helps: return std::string(kLoft) + one_degree_more("loft", true);
    case ClaimKind::loft_hurts: return std::string(kLoft) + one_degree_more("loft", false);
    case ClaimKind::up_helps: return std::string(kAttack) + one_degree_more("upward", true);
    case ClaimKind::up_hurts: return std::string(kAttack) + one_degree_more("upward", false);
    case ClaimKind::loft_gain:
      return fmt::format("A driver of {} degrees alone buys {}.", degrees(c.loft), distance(c.distance));
    case ClaimKind::loft_no_gain: return fmt::format("No other driver on offer buys a {} by itself.", unit_words.substr(0, unit_words.size() - 1));
    case ClaimKind::technique_gain:
      return fmt::format("An attack of {} degrees with your own driver buys {}.", number(Shown::angle, c.attack, units, Sign::always),
                         distance(c.distance));
    case ClaimKind::technique_no_gain:
      return fmt::format("No other attack within your reach buys a {} by itself.", unit_words.substr(0, unit_words.size() - 1));
    case ClaimKind::both_gain:
      return fmt::format("Together, {} degrees of loft and {} of attack buy {}.", degrees(c.loft),
                         number(Shown::angle, c.attack, units, Sign::always), distance(c.distance));
    case ClaimKind::sure:
      return fmt::format("Of ten drives with {} degrees of loft and {} of attack, about eight should gain between {} and {} {}.", degrees(c.loft),
                         number(Shown::angle, c.attack, units, Sign::always), number(Shown::distance, c.low, units),
                         number(Shown::distance, c.high, units), unit_words);
  }
  return "";
}

std::vector<std::string> explanation(const Advice& advice, UnitSystem units) {
  std::vector<std::string> sentences;
  for (const Claim& c : explain(advice)) sentences.push_back(claim_sentence(c, advice.goal, units));
  return sentences;
}

std::vector<std::string> holding_sentences(const Advice& advice, UnitSystem units) {
  std::vector<std::string> out;
  for (const Strategy& s : advice.strategies) {
    const std::string_view who = title_of(s.kind);
    if (s.must_give) {
      out.push_back(fmt::format("{}: nothing meets every limit; {} would have to give by {}", who, limit_of(*s.must_give, units),
                                give_of(*s.must_give, units)));
    }
    for (const LimitState& limit : s.limits) {
      const std::string value = quantity(shown_as(limit.quantity), limit.value, units);
      const bool told = s.must_give && s.must_give->quantity == limit.quantity;
      if (limit.broken && !told) out.push_back(fmt::format("{}: breaks a limit, {} (it is {})", who, limit_of(limit, units), value));
      if (limit.active && !limit.broken) out.push_back(fmt::format("{}: held by {}", who, limit_of(limit, units)));
    }
    if (s.must_give) continue;  // held by its limits, whatever else
    if (s.at_loft_end) out.push_back(fmt::format("{}: held by the lofts on offer, which end at {}", who, degrees(s.loft)));
    if (s.at_reach_end) {
      out.push_back(fmt::format("{}: held by the reach, which ends at attack {}", who, degrees(s.attack, Sign::always)));
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
  std::vector<std::string> out{fmt::format("low point: {} now; aim for {}", low_point_words(s.low_point_now, units),
                                           low_point_words(s.low_point_target, units)),
                               fmt::format("ball: {}", moved(s.ball_forward, "where it is against the low point",
                                                             "further forward of the low point; move the ball, the low point, or some of each",
                                                             "further back from the low point; move the ball, the low point, or some of each"))};
  if (!reads_as_zero(Shown::angle, s.path_change, units)) {
    const auto side = [](double angle) { return angle > 0.0 ? "right" : "left"; };
    out.push_back(fmt::format("path: moving the low point alone would turn it {} to the {}; swing {} further {} to keep it",
                              degrees(std::abs(s.path_change)), side(s.path_change), degrees(std::abs(s.swing_direction_change)),
                              side(s.swing_direction_change)));
  }
  if (s.tee_higher) {
    out.push_back(fmt::format("tee: {}", moved(*s.tee_higher, "as it is", "higher, for the ball is struck that far below the middle of the face",
                                               "lower, for the ball is struck that far above the middle of the face")));
  }
  return out;
}

std::vector<std::string> drive_notes(const Drive& drive, const AeroModel& aero, UnitSystem units) {
  std::vector<std::string> out;
  if (drive.flight.end != FlightEnd::landed) {
    std::string how(sentence(drive.flight.end));
    how.front() = static_cast<char>(how.front() - 'a' + 'A');
    out.push_back(how + ".");
  }
  if (drive.sliding) out.emplace_back("The ball slid up the face all through impact: less spin than a grip would give.");
  if (drive.flight.outside_aero_range) {
    out.push_back(fmt::format("For part of the way the ball flew outside the data behind the air resistance model '{}' (Reynolds "
                              "number {:.3g} to {:.3g}, spin ratio {:.3g} to {:.3g}): the flight is less certain there.",
                              aero.id, aero.reynolds_low, aero.reynolds_high, aero.spin_ratio_low, aero.spin_ratio_high));
  }
  out.push_back(fmt::format("Run (bounce and roll) is the least certain part: at least {} either way.",
                            quantity(Shown::distance, 10.0 * unit("yd").factor, units)));
  return out;
}

std::string conditions_words(const Pupil& pupil, const Setting& setting, UnitSystem units) {
  const Conditions& c = pupil.conditions;
  const std::string air = c.pressure ? fmt::format("{:.0f} hPa", unit("hPa").from_si(*c.pressure))
                                     : "altitude " + quantity(Shown::height, c.altitude, units);
  std::string wind = "calm";
  if (!c.wind.calm()) {
    const double bearing = std::remainder(c.wind.from, 2.0 * kPi);
    const auto near = [&](double of) { return std::abs(std::remainder(bearing - of, 2.0 * kPi)) < 1e-9; };
    const std::string from = near(0.0)          ? "ahead"
                             : near(kPi)        ? "behind"
                             : near(kPi / 2.0)  ? "the right"
                             : near(-kPi / 2.0) ? "the left"
                                                : degrees(bearing, Sign::always) + " off the target line (right positive)";
    wind = fmt::format("wind {} from {}", quantity(Shown::speed, c.wind.speed, units), from);
  }
  const std::string tuned = pupil.tuned ? " Head and ball tuned to the player's shots." : "";
  return fmt::format("Ball {}, air resistance {}, turf {}; {}, {}, humidity {:.0f} %, {}.{}", pupil.ball, setting.aero.id, c.turf, air,
                     quantity(Shown::temperature, c.temperature, units), 100.0 * c.humidity, wind, tuned);
}

std::vector<std::string> cautions(UnitSystem units) {
  return {"A new swing loads the back and the joints: build it up slowly. Pain means stop.",
          "A pupil with an illness, an injury or an operation behind them asks a doctor or physiotherapist first.",
          "Warm up, and swing only with clear space all around.",
          "A club used in competition must conform to the rules in force.",
          fmt::format("The numbers are a model's: try before you buy. Run is their least certain part, at least {} either way.",
                      quantity(Shown::distance, 10.0 * unit("yd").factor, units))};
}

std::string_view key_of(Goal goal) { return goal == Goal::carry ? "carry" : "total"; }

std::string_view key_of(Handed handed) { return handed == Handed::right ? "right" : "left"; }

std::string_view key_of(WindProfile profile) {
  switch (profile) {
    case WindProfile::uniform: return "uniform";
    case WindProfile::logarithmic: return "logarithmic";
    case WindProfile::power: return "power";
  }
  return "";
}

std::string_view key_of(FlightEnd end) {
  switch (end) {
    case FlightEnd::landed: return "landed";
    case FlightEnd::never_rose: return "never_rose";
    case FlightEnd::time_limit: return "time_limit";
    case FlightEnd::not_finite: return "not_finite";
  }
  return "";
}

}  // namespace loftwright
