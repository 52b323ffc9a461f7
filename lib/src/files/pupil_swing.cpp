#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>

#include "files/fields.hpp"
#include "files/pupil_reader.hpp"
#include "loftwright/impact/impact.hpp"

namespace loftwright {

namespace {

constexpr double kMph = 0.44704;

// Of attacks to aim for. What is common is common practice; how much is learnt, and what to offer where nobody says, are estimates.
constexpr double kMostTarget = 10.0 * kDegree, kCommonTarget = 6.0 * kDegree, kOfferedTarget = 5.0 * kDegree;
constexpr double kCommonChange = 6.0 * kDegree;

// Further changes of technique. Not the attack: that is what the rest of the reach is about.
constexpr Range kTurn{-15.0, 15.0, "deg"};
constexpr std::array kChangeFields{
    Field<Delivery>{"club_speed", Dimension::speed, &Delivery::club_speed, {-10.0, 10.0, "m/s"}, Need::optional},
    Field<Delivery>{"path", Dimension::angle, &Delivery::path, kTurn, Need::optional},
    Field<Delivery>{"face", Dimension::angle, &Delivery::face, kTurn, Need::optional},
    Field<Delivery>{"dynamic_loft", Dimension::angle, &Delivery::dynamic_loft, kTurn, Need::optional},
    Field<Delivery>{"toe", Dimension::length, &Delivery::toe, {-50.0, 50.0, "mm"}, Need::optional},
    Field<Delivery>{"high", Dimension::length, &Delivery::high, {-30.0, 30.0, "mm"}, Need::optional},
};

constexpr std::array kLaunchFields{
    Field<Launch>{"ball_speed", Dimension::speed, &Launch::ball_speed, {1.0, 110.0, "m/s"}},
    Field<Launch>{"launch", Dimension::angle, &Launch::launch, {-20.0, 80.0, "deg"}},
    Field<Launch>{"spin", Dimension::spin, &Launch::spin, {0.0, 15000.0, "rpm"}},
    Field<Launch>{"azimuth", Dimension::angle, &Launch::azimuth, {-60.0, 60.0, "deg"}, Need::optional},
    Field<Launch>{"tilt", Dimension::angle, &Launch::tilt, {-180.0, 180.0, "deg"}, Need::optional},
};

// A standard deviation beyond `range` is a mistake; beyond `large` it is worth a second look (estimates).
struct SpreadField {
  Field<Spread> field;
  double large;  // [SI]
};
constexpr Range kAngleSpread{0.0, 15.0, "deg"};
constexpr std::array kSpreadFields{
    SpreadField{{"club_speed", Dimension::speed, &Spread::club_speed, {0.0, 10.0, "m/s"}, Need::optional}, 5.0 * kMph},
    SpreadField{{"attack", Dimension::angle, &Spread::attack, kAngleSpread, Need::optional}, 4.0 * kDegree},
    SpreadField{{"path", Dimension::angle, &Spread::path, kAngleSpread, Need::optional}, 6.0 * kDegree},
    SpreadField{{"face", Dimension::angle, &Spread::face, kAngleSpread, Need::optional}, 6.0 * kDegree},
    SpreadField{{"dynamic_loft", Dimension::angle, &Spread::dynamic_loft, kAngleSpread, Need::optional}, 4.0 * kDegree},
    SpreadField{{"toe", Dimension::length, &Spread::toe, {0.0, 40.0, "mm"}, Need::optional}, 0.020},
    SpreadField{{"high", Dimension::length, &Spread::high, {0.0, 30.0, "mm"}, Need::optional}, 0.015},
};

using Quantities = std::vector<std::pair<std::string_view, Quantity>>;

const Quantity* find(const Quantities& quantities, std::string_view key) {
  const auto at = std::find_if(quantities.begin(), quantities.end(), [&](const auto& q) { return q.first == key; });
  return at == quantities.end() ? nullptr : &at->second;
}

template <class Fields>
void assume_zero(ObjectReader& reader, const Fields& fields, fmt::format_string<std::string> sentence,
                 PupilReading& r) {
  std::vector<std::string> absent;
  for (const auto& field : fields) {
    if (field.need == Need::optional && !reader.has(field.key)) absent.emplace_back(field.key);
  }
  if (absent.empty()) return;
  std::string words = listed(absent);
  words[0] = static_cast<char>(words[0] - 'a' + 'A');
  r.assume(sentence, std::move(words));
}

Quantities read_delivery(ObjectReader& reader, PupilReading& r) {
  Quantities read = read_fields<Delivery>(reader, kDeliveryFields, r.pupil.delivery);
  assume_zero(reader, kDeliveryFields, "{} of the delivery not given: taken as zero.", r);
  return read;
}

Quantities read_launch(ObjectReader& reader, PupilReading& r) {
  r.pupil.launch.emplace();
  Quantities read = read_fields<Launch>(reader, kLaunchFields, *r.pupil.launch);
  assume_zero(reader, kLaunchFields, "{} of the launch not given: taken as zero.", r);
  return read;
}

void check_smash(ObjectReader& top, const Quantity* club_speed, const Quantity* ball_speed, PupilReading& r) {
  if (!club_speed || !ball_speed || !r.head || !r.ball) return;
  constexpr double kMeasurement = 0.01;  // [-] both speeds are measured (estimate)
  const double smash = ball_speed->si / club_speed->si;
  const double most = (1.0 + kMeasurement) * greatest_smash(*r.head, *r.ball, club_speed->si);
  const std::string found = fmt::format("a ball speed of {} from a club speed of {} is a smash factor of {:.3f}",
                                        ball_speed->shown(), club_speed->shown(), smash);
  if (smash > most) {
    top.error(ball_speed->place,
              fmt::format("{}; this head and ball allow at most {:.3f}, 1 % for measurement included", found, most));
  } else if (smash < 1.0) {
    top.warn(ball_speed->place, found + ": very low for a driver; look at both again");
  }
}

void infer_delivery(ObjectReader& top, PupilReading& r) {
  if (!r.head || !r.ball) return;
  const bool left = r.pupil.handed == Handed::left;
  try {
    const Delivery behind = delivery_behind(left ? mirrored(*r.pupil.launch) : *r.pupil.launch, *r.head, *r.ball);
    r.pupil.delivery = left ? mirrored(behind) : behind;
  } catch (const InputError& e) {
    top.error(below(top.place(), "launch"), fmt::format("the delivery behind it: {}", e.what()));
    return;
  }
  r.delivery_known = true;
  r.assume(
      "Only ball numbers were given: club speed, attack, dynamic loft, path and face were worked out from them, for "
      "a strike at the centre of the face.");
}

// Possible, but hardly what was measured. Bounds: common practice.
void check_delivery(ObjectReader& top, const Quantities& club, PupilReading& r) {
  const Delivery& d = r.pupil.delivery;
  const auto doubt = [&](std::string_view key, Dimension dimension, double value, std::string_view message) {
    const Quantity* typed = find(club, key);
    const Unit* customary = &unit(dimension == Dimension::speed ? "mph" : "deg");
    const Quantity shown = typed ? *typed : Quantity{value, customary, below(top.place(), r.block ? "shots" : "launch")};
    const char* whose = typed ? "" : r.block ? " in the mean of these shots" : " behind this launch";
    top.warn(shown.place, fmt::format("{} of {}{}: {}", key, shown.shown(), whose, message));
  };
  if (d.club_speed < 50.0 * kMph || d.club_speed > 125.0 * kMph) {
    doubt("club_speed", Dimension::speed, d.club_speed, "unusual with a driver (50 to 125 mph are usual)");
  }
  if (d.attack < -10.0 * kDegree || d.attack > 8.0 * kDegree) {
    doubt("attack", Dimension::angle, d.attack, "unusual with a driver (-10 to +8 deg are usual)");
  }
  if (d.dynamic_loft < d.attack) {
    doubt("dynamic_loft", Dimension::angle, d.dynamic_loft,
          "below the attack angle, so the ball would leave with topspin");
  }
  if (r.club_loft && std::abs(d.dynamic_loft - r.club_loft->si) > 12.0 * kDegree) {
    doubt("dynamic_loft", Dimension::angle, d.dynamic_loft,
          fmt::format("more than 12 deg from the club's loft of {}; look at both again", r.club_loft->shown()));
  }
}

// The means of the player's swing: measured, or worked out from the ball's.
void read_means(ObjectReader& top, PupilReading& r) {
  Quantities club, ball;
  top.object("delivery", Need::optional, [&](ObjectReader& reader) { club = read_delivery(reader, r); });
  top.object("launch", Need::optional, [&](ObjectReader& reader) { ball = read_launch(reader, r); });
  read_shots(top, r);
  if (r.block) {
    // The list says it all; what stands beside it was told to go.
  } else if (top.has("delivery")) {
    r.delivery_known = find(club, "club_speed") && find(club, "attack") && find(club, "dynamic_loft");
    check_smash(top, find(club, "club_speed"), find(ball, "ball_speed"), r);
  } else if (top.has("launch")) {
    r.pupil.delivery_inferred = true;
    if (find(ball, "ball_speed") && find(ball, "launch") && find(ball, "spin")) infer_delivery(top, r);
  } else if (!top.has("shots")) {
    top.error(top.place(),
              "delivery is missing; give \"delivery\" (club speed, attack, dynamic loft), \"shots\" (a list of them), or "
              "\"launch\" (ball speed, launch, spin) when only ball numbers are known");
  }
  if (r.delivery_known) check_delivery(top, club, r);
}

// The number of `name` among the keys; -1 and an error when it is none.
int key_number(ObjectReader& reader, const std::vector<std::string>& keys, const Json& name, const std::string& place) {
  const auto at = std::find_if(keys.begin(), keys.end(), [&](const std::string& key) { return name == key; });
  if (at != keys.end()) return static_cast<int>(at - keys.begin());
  reader.error(place, fmt::format("is none of {}", listed(keys)));
  return -1;
}

void read_correlation(ObjectReader& reader, const std::vector<std::string>& keys, std::vector<Spread::Correlation>& out) {
  const Json* between = reader.member("between", Need::required);
  const auto value = reader.number("value", {-0.99, 0.99}, Need::required);
  if (!between || !value) return;
  const std::string place = below(reader.place(), "between");
  if (!between->is_array() || between->size() != 2) {
    reader.error(place, fmt::format("a list of two of {} is expected", listed(keys)));
    return;
  }
  int first = key_number(reader, keys, (*between)[0], below(place, 0));
  int second = key_number(reader, keys, (*between)[1], below(place, 1));
  if (first < 0 || second < 0) return;
  if (first > second) std::swap(first, second);
  const auto same = [&](const Spread::Correlation& c) { return c.first == first && c.second == second; };
  if (first == second || std::any_of(out.begin(), out.end(), same)) {
    reader.error(place, first == second ? "names one quantity twice" : "this pair stands twice in the list");
    return;
  }
  out.push_back({first, second, *value});
}

std::vector<std::string> spread_keys() {
  std::vector<std::string> keys;
  for (int i = 0; i < kSpreadQuantities; ++i) keys.emplace_back(spread_key(i));
  return keys;
}

enum class Given { in_part, not_at_all };
void assume_spread(PupilReading& r, bool skill_given, Given given, const std::vector<std::string>& absent) {
  constexpr std::string_view kNames[] = {"low-handicap", "mid-handicap", "high-handicap"};
  const std::string_view skill = kNames[static_cast<std::size_t>(r.pupil.skill)];
  const std::string what = given == Given::in_part ? "Spread of " + listed(absent) : "The spread from shot to shot";
  r.assume("{} was not given: that usual for a {} golfer taken (estimate{}).", what, skill,
           skill_given ? "" : "; the skill was not given either");
}

// What is taken where the file says nothing: the scatter of its list of shots and, of what that does not hold, what is
// usual for the skill. `absent`: the latter.
Spread spread_otherwise(ObjectReader& top, const PupilReading& r, std::vector<std::string>& absent) {
  Spread spread = usual_spread(r.pupil.skill, r.pupil.delivery.club_speed);
  const bool scattered = r.block && r.block->spread;
  for (const SpreadField& s : kSpreadFields) {
    const auto& none = r.block ? r.block->taken_as_zero : std::vector<Reading>{};
    const bool measured = scattered && std::find(none.begin(), none.end(), *find_reading(s.field.key)) == none.end();
    if (!measured) {
      absent.emplace_back(s.field.key);
      continue;
    }
    const double sd = (*r.block->spread).*s.field.member;
    const Unit& u = unit(s.field.range.unit);
    const std::string found = fmt::format("the {} of these shots scatters by {:.3g} {}", info(*find_reading(s.field.key)).title,
                                          u.from_si(sd), u.symbol);
    if (u.from_si(sd) > s.field.range.high) {
      top.error(below(top.place(), "shots"), fmt::format("{}; allowed: at most {:g}", found, s.field.range.high));
    } else if (sd > s.large) {
      top.warn(below(top.place(), "shots"), fmt::format("{}: that is much (up to {:.3g} is usual)", found, u.from_si(s.large)));
    }
    spread.*s.field.member = sd;
  }
  if (scattered) spread.correlations = r.block->spread->correlations;
  return spread;
}

// Read into what is taken otherwise, so that what is not given stays.
void read_spread(ObjectReader& top, PupilReading& r) {
  const auto skill = top.word<Skill>("skill",
                                     {{"low-handicap", Skill::low_handicap},
                                      {"mid-handicap", Skill::mid_handicap},
                                      {"high-handicap", Skill::high_handicap}},
                                     Need::optional);
  if (skill) r.pupil.skill = *skill;
  std::vector<std::string> absent;
  Spread spread = spread_otherwise(top, r, absent);
  if (r.block && r.block->spread) r.pupil.spread = spread;
  top.object("spread", Need::optional, [&](ObjectReader& reader) {
    for (const SpreadField& s : kSpreadFields) {
      const Quantities read = read_fields<Spread>(reader, std::span(&s.field, 1), spread);
      if (reader.has(s.field.key)) std::erase(absent, s.field.key);
      if (read.empty()) continue;
      const Quantity& q = read.front().second;
      if (q.si == 0.0) reader.warn(q.place, "a spread of zero: nobody repeats a swing exactly");
      if (q.si > s.large) {
        reader.warn(q.place, fmt::format("a standard deviation of {} is large (up to {} is usual)", q.shown(),
                                         q.shown(s.large)));
      }
    }
    if (reader.has("correlations")) spread.correlations.clear();
    read_correlations(reader, spread_keys(), spread.correlations);
    r.pupil.spread = spread;
  });
  if (absent.empty()) return;
  assume_spread(r, top.has("skill"), r.pupil.spread ? Given::in_part : Given::not_at_all, absent);
}

void read_measured_shots(ObjectReader& top, PupilReading& r) {
  r.pupil.measured_shots =
      top.whole("measured_shots", 1, kMostMeasuredShots, Need::optional).value_or(r.pupil.measured_shots);
  if (!top.has("measured_shots") && !r.block) {
    r.assume("How many drives the delivery is the mean of was not given: {} taken.", r.pupil.measured_shots);
  }
}

void read_option(ObjectReader& reader, PupilReading& r) {
  TechniqueOption option;
  option.name = reader.text("name", Need::required).value_or("");
  if (reader.has("name") && option.name.empty()) reader.error(below(reader.place(), "name"), "is empty");
  option.effort = reader.number("effort", {0.0, 100.0}, Need::required).value_or(0.0);
  if (read_fields<Delivery>(reader, kChangeFields, option.change).empty()) {
    reader.error(reader.place(), "changes nothing; give a change of club_speed, path, face, dynamic_loft, toe or high");
  }
  r.pupil.reach.options.push_back(option);
}

// Whatever options are chosen together, the delivery must stay one that the model takes.
void check_options_together(ObjectReader& reach, const std::string& place, const PupilReading& r) {
  for (const Field<Delivery>& field : kDeliveryFields) {
    double low = r.pupil.delivery.*field.member, high = low;
    for (const TechniqueOption& option : r.pupil.reach.options) {
      const double change = option.change.*field.member;
      (change < 0.0 ? low : high) += change;
    }
    const Unit& u = unit(field.range.unit);
    if (u.from_si(low) >= field.range.low && u.from_si(high) <= field.range.high) continue;
    reach.error(
        place, fmt::format("together they take {} to between {:.4g} and {:.4g} {}; allowed: {:g} to {:g} {}", field.key,
                           u.from_si(low), u.from_si(high), u.symbol, field.range.low, field.range.high, u.symbol));
  }
}

void read_options(ObjectReader& reach, PupilReading& r) {
  const Json* list = reach.member("options", Need::optional);
  if (!list) return;
  const std::string place = below(reach.place(), "options");
  if (!list->is_array() || list->size() > kMostOptions) {
    reach.error(place, fmt::format("a list of at most {} changes of technique is expected", kMostOptions));
    return;
  }
  for (std::size_t i = 0; i < list->size(); ++i) {
    read_object((*list)[i], below(place, i), reach.findings(), [&](ObjectReader& option) { read_option(option, r); });
  }
  if (r.delivery_known) check_options_together(reach, place, r);
}

void check_reach_holds_attack(ObjectReader& reach, const QuantityInterval& interval, PupilReading& r) {
  const double measured = r.pupil.delivery.attack, rounding = 1e-9;
  if (measured >= interval.si.low - rounding && measured <= interval.si.high + rounding) {
    r.pupil.reach.attack.low = std::min(interval.si.low, measured);  // one may be typed in deg, the other in rad
    r.pupil.reach.attack.high = std::max(interval.si.high, measured);
    return;
  }
  const Unit& u = *interval.unit;
  reach.error(interval.place, fmt::format("{:.6g} to {:.6g} {} does not hold the measured attack of {:.4g} {}",
                                          u.from_si(interval.si.low), u.from_si(interval.si.high), u.symbol,
                                          u.from_si(measured), u.symbol));
}

void check_speed_within_reach(ObjectReader& top, const Quantity& speed, PupilReading& r) {
  for (const double attack : {r.pupil.reach.attack.low, r.pupil.reach.attack.high}) {
    if (!std::isfinite(attack)) continue;  // the interval could not be read, and that was said
    const double there =
        r.pupil.delivery.club_speed + r.pupil.reach.speed_per_attack * (attack - r.pupil.delivery.attack);
    if (there >= kClubSpeedRange.low && there <= kClubSpeedRange.high) continue;
    top.error(speed.place, fmt::format("takes the club speed to {} at an attack of {:.4g} deg; allowed: {} to {}",
                                       speed.shown(there), attack / kDegree, speed.shown(kClubSpeedRange.low),
                                       speed.shown(kClubSpeedRange.high)));
  }
}

// Possible, but seldom reached: whoever reads the answer is to know that it stands on that.
void doubt_reach(ObjectReader& reach, const QuantityInterval& interval, PupilReading& r) {
  constexpr double kRounding = 1e-9;
  const auto doubt = [&](const std::string& found) {
    reach.warn(interval.place, found);
    r.assume("The attack within reach as given: {}.", found);
  };
  if (interval.si.high > kCommonTarget + kRounding) {
    doubt(fmt::format("up to {:+.3g} deg is further up than drivers are commonly hit (up to {:+g} deg)", interval.si.high / kDegree,
                      kCommonTarget / kDegree));
  }
  if (!r.delivery_known) return;
  const double up = interval.si.high - r.pupil.delivery.attack, down = r.pupil.delivery.attack - interval.si.low;
  if (std::max(up, down) <= kCommonChange + kRounding) return;
  doubt(fmt::format("{:.3g} deg {} from the measured attack is a change that few make (up to {:g} deg, estimate)", std::max(up, down) / kDegree,
                    up >= down ? "up" : "down", kCommonChange / kDegree));
}

void assume_reach(PupilReading& r) {
  const double measured = r.pupil.delivery.attack;
  const double low = std::min(measured, std::max(measured - 2.0 * kDegree, -10.0 * kDegree));
  const double high = std::max(measured, std::min(measured + kCommonChange, kOfferedTarget));
  r.pupil.reach.attack = {low, high};
  r.assume(
      "The attack angles within reach were not given: {:.4g} to {:.4g} deg taken (2 below to {:g} above the measured "
      "one, but for that no higher than {:g}; estimate).",
      low / kDegree, high / kDegree, kCommonChange / kDegree, kOfferedTarget / kDegree);
}

void read_reach(ObjectReader& top, PupilReading& r) {
  std::optional<Quantity> speed;
  bool attack_given = false, follow_given = false, speed_given = false;
  top.object("reach", Need::optional, [&](ObjectReader& reach) {
    const double highest = std::max(kMostTarget, r.delivery_known ? r.pupil.delivery.attack : 0.0);
    const auto attack = reach.interval("attack", Dimension::angle, {kAttackRange.low, highest / kDegree, "deg"}, Ends::closed, Need::optional);
    if (attack) {
      r.pupil.reach.attack = attack->si;
      if (r.delivery_known) check_reach_holds_attack(reach, *attack, r);
      doubt_reach(reach, *attack, r);
    }
    r.pupil.reach.follow = reach.number("follow", {0.0, kMostFollow}, Need::optional).value_or(r.pupil.reach.follow);
    speed = reach.quantity("speed_per_attack_deg", Dimension::speed, {-2.0, 2.0, "m/s"}, Need::optional);
    if (speed) r.pupil.reach.speed_per_attack = speed->si / kDegree;
    const auto effort = reach.number("effort_per_attack_deg", {0.0, 100.0}, Need::optional);
    if (effort) r.pupil.reach.effort_per_attack = *effort / kDegree;
    read_options(reach, r);
    if (!r.pupil.reach.options.empty() && !reach.has("effort_per_attack_deg")) {
      r.assume("The effort of changing the attack was not given: 1 a degree taken, on the scale of the options.");
    }
    attack_given = reach.has("attack");
    follow_given = reach.has("follow");
    speed_given = reach.has("speed_per_attack_deg");
  });
  if (!attack_given) assume_reach(r);
  if (!follow_given) {
    r.assume("How far dynamic loft follows the attack was not given: {:g} taken (estimate).", r.pupil.reach.follow);
  }
  if (!speed_given) r.assume("What a change of attack costs in club speed was not given: nothing taken.");
  if (speed && r.delivery_known) check_speed_within_reach(top, *speed, r);
}

}  // namespace

void read_correlations(ObjectReader& reader, const std::vector<std::string>& keys, std::vector<Spread::Correlation>& out) {
  const Json* list = reader.member("correlations", Need::optional);
  if (!list) return;
  const std::string place = below(reader.place(), "correlations");
  const std::size_t pairs = keys.size() * (keys.size() - 1) / 2;
  if (!list->is_array() || list->size() > pairs) {
    reader.error(place, fmt::format("a list of at most {} pairs is expected", pairs));
    return;
  }
  for (std::size_t i = 0; i < list->size(); ++i) {
    read_object((*list)[i], below(place, i), reader.findings(), [&](ObjectReader& r) { read_correlation(r, keys, out); });
  }
  const auto count = static_cast<Eigen::Index>(keys.size());
  Eigen::MatrixXd together = Eigen::MatrixXd::Identity(count, count);
  for (const auto& c : out) together(c.first, c.second) = together(c.second, c.first) = c.value;
  if (together.llt().info() == Eigen::Success) return;
  reader.error(place, "cannot all hold together (their matrix is not positive definite)");
}

void read_swing(ObjectReader& top, PupilReading& r) {
  read_means(top, r);
  read_measured_shots(top, r);
  read_spread(top, r);
  read_reach(top, r);
}

}  // namespace loftwright
