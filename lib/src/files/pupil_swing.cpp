#include <algorithm>
#include <array>
#include <cmath>

#include "files/fields.hpp"
#include "files/pupil_reader.hpp"
#include "loftwright/impact/impact.hpp"
#include "loftwright/pupil/validate.hpp"

namespace loftwright {

namespace {

constexpr std::array kLaunchFields{
    field(Quantity::ball_speed, &Launch::ball_speed),
    field(Quantity::launch, &Launch::launch),
    field(Quantity::spin, &Launch::spin),
    field(Quantity::azimuth, &Launch::azimuth, Need::optional),
    field(Quantity::tilt, &Launch::tilt, Need::optional),
};

// The row of a part of a delivery with another range and member: a scatter or a change.
template <class S>
constexpr Field<S> part_field(const DeliveryQuantity& part, double S::*member, const Range& range) {
  const QuantityInfo& q = about(part.quantity);
  return {q.key, q.dimension, member, range, Need::optional};
}

using Quantities = std::vector<std::pair<std::string_view, TypedQuantity>>;

const TypedQuantity* find(const Quantities& quantities, std::string_view key) {
  const auto at = std::find_if(quantities.begin(), quantities.end(), [&](const auto& q) { return q.first == key; });
  return at == quantities.end() ? nullptr : &at->second;
}

Quantities read_delivery(ObjectReader& reader, PupilReading& r) {
  Quantities read = read_fields<Delivery>(reader, kDeliveryFields, r.pupil.delivery);
  r.given.add(Datum::path, reader.has("path"))
      .add(Datum::face, reader.has("face"))
      .add(Datum::toe, reader.has("toe"))
      .add(Datum::high, reader.has("high"));
  return read;
}

Quantities read_launch(ObjectReader& reader, PupilReading& r) {
  r.pupil.launch.emplace();
  Quantities read = read_fields<Launch>(reader, kLaunchFields, *r.pupil.launch);
  r.given.add(Datum::azimuth, reader.has("azimuth")).add(Datum::tilt, reader.has("tilt"));
  return read;
}

void check_smash(ObjectReader& top, const TypedQuantity* club_speed, const TypedQuantity* ball_speed, PupilReading& r) {
  if (!club_speed || !ball_speed || !r.head || !r.ball) return;
  constexpr double kMeasurement = 0.01;  // [-] both speeds are measured (estimate)
  const double smash = ball_speed->si / club_speed->si;
  const double most = (1.0 + kMeasurement) * greatest_smash(*r.head, *r.ball, club_speed->si);
  const std::string found = fmt::format("a ball speed of {} from a club speed of {} is a speed ratio of {:.3f}",
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
  r.tell(
      Datum::measured_shots,
      "Only ball numbers were given: club speed, attack, delivered loft, path and face were worked out from them, for "
      "a strike at the centre of the face.");
}

// Possible, but hardly what was measured. Bounds: common practice.
void check_delivery(ObjectReader& top, const Quantities& club, PupilReading& r) {
  const Delivery& d = r.pupil.delivery;
  const auto doubt = [&](Quantity quantity, double value, std::string_view message) {
    const QuantityInfo& q = about(quantity);
    const TypedQuantity* typed = find(club, q.key);
    const TypedQuantity shown =
        typed ? *typed : TypedQuantity{value, &unit(q.typed), below(top.place(), r.block ? "shots" : "launch")};
    const char* whose = typed ? "" : r.block ? " in the mean of these shots" : " behind this launch";
    top.warn(shown.place, fmt::format("{} of {}{}: {}", q.key, shown.shown(), whose, message));
  };
  const auto doubt_unusual = [&](Quantity quantity, double value) {
    const QuantityInfo& q = about(quantity);
    if (holds(q.usual, value)) return;
    const std::string high = fmt::format("{}{:g}", q.plus.empty() ? "" : "+", q.usual.high);
    doubt(quantity, value,
          fmt::format("unusual with a driver ({:g} to {} {} are usual)", q.usual.low, high, q.usual.unit));
  };
  doubt_unusual(Quantity::club_speed, d.club_speed);
  doubt_unusual(Quantity::attack, d.attack);
  if (d.dynamic_loft < d.attack) {
    doubt(Quantity::dynamic_loft, d.dynamic_loft, "below the attack angle, so the ball would leave with topspin");
  }
  if (r.club_loft && std::abs(d.dynamic_loft - r.club_loft->si) > 12.0 * kDegree) {
    doubt(Quantity::dynamic_loft, d.dynamic_loft,
          fmt::format("more than 12 deg from the club's loft of {}; look at both again", r.club_loft->shown()));
  }
}

// The means of the player's swing: measured, or worked out from the ball's.
void read_means(ObjectReader& top, PupilReading& r) {
  Quantities club, ball;
  top.object("delivery", Need::optional, [&](ObjectReader& reader) { club = read_delivery(reader, r); });
  top.object("launch", Need::optional, [&](ObjectReader& reader) { ball = read_launch(reader, r); });
  read_shots(top, r);
  if (!top.has("delivery"))
    r.given.add(Datum::path).add(Datum::face).add(Datum::toe).add(Datum::high);  // worked out, or told beside the list
  if (r.block) {
    // The list says it all; what stands beside it was told to go.
  } else if (top.has("delivery")) {
    r.delivery_known = find(club, "club_speed") && find(club, "attack") && find(club, "dynamic_loft");
    check_smash(top, find(club, "club_speed"), find(ball, "ball_speed"), r);
  } else if (top.has("launch")) {
    r.pupil.delivery_inferred = true;
    if (find(ball, "ball_speed") && find(ball, "launch") && find(ball, "spin")) infer_delivery(top, r);
  } else if (!top.has("shots")) {
    top.error(
        top.place(),
        "delivery is missing; give \"delivery\" (club speed, attack, delivered loft), \"shots\" (a list of them), or "
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

void read_correlation(ObjectReader& reader, const std::vector<std::string>& keys,
                      std::vector<Spread::Correlation>& out) {
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

// What is taken where the file says nothing: the scatter of its list of shots and, of what that does not hold, what is
// usual for the skill.
Spread spread_otherwise(ObjectReader& top, PupilReading& r) {
  Spread spread = usual_spread(r.pupil.skill, r.pupil.delivery.club_speed);
  const bool scattered = r.block && r.block->spread;
  for (std::size_t i = 0; i < kDeliveryQuantities.size(); ++i) {
    const DeliveryQuantity& part = kDeliveryQuantities[i];
    const QuantityInfo& q = about(part.quantity);
    const auto& none = r.block ? r.block->taken_as_zero : std::vector<Reading>{};
    const bool measured = scattered && std::find(none.begin(), none.end(), *find_reading(q.key)) == none.end();
    if (!measured) continue;
    r.given.add(scatter_of(i));
    const double sd = (*r.block->spread).*part.spread;
    const Unit& u = unit(part.sd.unit);
    const std::string found =
        fmt::format("the {} of these shots scatters by {:.3g} {}", q.title, u.from_si(sd), u.symbol);
    if (!holds(part.sd, sd)) {
      top.error(below(top.place(), "shots"), fmt::format("{}; allowed: at most {:g}", found, part.sd.high));
    } else if (!holds(part.usual_sd, sd)) {
      top.warn(below(top.place(), "shots"),
               fmt::format("{}: that is much (up to {:.3g} is usual)", found, u.from_si(high_of(part.usual_sd))));
    }
    spread.*part.spread = sd;
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
  r.given.add(Datum::skill, top.has("skill"));
  Spread spread = spread_otherwise(top, r);
  if (r.block && r.block->spread) r.pupil.spread = spread;
  top.object("spread", Need::optional, [&](ObjectReader& reader) {
    for (std::size_t i = 0; i < kDeliveryQuantities.size(); ++i) {
      const DeliveryQuantity& part = kDeliveryQuantities[i];
      const Field<Spread> one = part_field(part, part.spread, part.sd);
      const Quantities read = read_fields<Spread>(reader, std::span(&one, 1), spread);
      r.given.add(scatter_of(i), reader.has(one.key));
      if (read.empty()) continue;
      const TypedQuantity& q = read.front().second;
      if (q.si == 0.0) reader.warn(q.place, "a spread of zero: nobody repeats a swing exactly");
      if (!holds(part.usual_sd, q.si)) {
        reader.warn(q.place, fmt::format("a standard deviation of {} is large (up to {} is usual)", q.shown(),
                                         q.shown(high_of(part.usual_sd))));
      }
    }
    if (reader.has("correlations")) spread.correlations.clear();
    read_correlations(reader, spread_keys(), spread.correlations);
    r.pupil.spread = spread;
  });
}

void read_measured_shots(ObjectReader& top, PupilReading& r) {
  r.pupil.measured_shots =
      top.whole("measured_shots", 1, kMostMeasuredShots, Need::optional).value_or(r.pupil.measured_shots);
  r.given.add(Datum::measured_shots, top.has("measured_shots") || r.block);
}

void read_option(ObjectReader& reader, PupilReading& r) {
  TechniqueOption option;
  option.name = reader.text("name", Need::required).value_or("");
  if (reader.has("name") && option.name.empty()) reader.error(below(reader.place(), "name"), "is empty");
  option.effort = reader.number(Quantity::effort, Need::required).value_or(0.0);
  bool changes = false;
  for (const DeliveryQuantity& part : kDeliveryQuantities) {
    if (!part.change.known()) continue;
    const Field<Delivery> one = part_field(part, part.value, part.change);
    changes = !read_fields<Delivery>(reader, std::span(&one, 1), option.change).empty() || changes;
  }
  if (!changes) {
    reader.error(reader.place(), "changes nothing; give a change of club_speed, path, face, dynamic_loft, toe or high");
  }
  r.pupil.reach.options.push_back(option);
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
  if (!r.delivery_known) return;
  for (std::string& wrong : changes_beyond(r.pupil)) reach.error(place, std::move(wrong));
}

void check_reach_holds_attack(ObjectReader& reach, const TypedInterval& interval, PupilReading& r) {
  if (const auto wrong = reach_without_attack(r.pupil, *interval.unit)) return reach.error(interval.place, *wrong);
  Interval& attack = r.pupil.reach.attack;
  attack = {std::min(attack.low, r.pupil.delivery.attack),
            std::max(attack.high, r.pupil.delivery.attack)};  // but for rounding of units
}

// Possible, but seldom reached: whoever reads the answer is to know that it stands on that.
void doubt_reach(ObjectReader& reach, const TypedInterval& interval, PupilReading& r) {
  constexpr double kRounding = 1e-9;
  const auto doubt = [&](const std::string& found) {
    reach.warn(interval.place, found);
    r.tell(Datum::effort_per_attack, "The attack within reach as given: {}.", found);
  };
  if (interval.si.high > kCommonTarget + kRounding) {
    doubt(fmt::format("up to {:+.3g} deg is further up than drivers are commonly hit (up to {:+g} deg)",
                      interval.si.high / kDegree, kCommonTarget / kDegree));
  }
  if (!r.delivery_known) return;
  const double up = interval.si.high - r.pupil.delivery.attack, down = r.pupil.delivery.attack - interval.si.low;
  if (std::max(up, down) <= kCommonChange + kRounding) return;
  doubt(fmt::format("{:.3g} deg {} from the measured attack is a change that few make (up to {:g} deg, estimate)",
                    std::max(up, down) / kDegree, up >= down ? "up" : "down", kCommonChange / kDegree));
}

void read_reach(ObjectReader& top, PupilReading& r) {
  top.object("reach", Need::optional, [&](ObjectReader& reach) {
    const Range allowed{about(Quantity::attack).allowed.low, highest_target(r.pupil) / kDegree, "deg"};
    const auto attack = reach.interval("attack", Dimension::angle, allowed, Ends::closed, Need::optional);
    if (attack) {
      r.pupil.reach.attack = attack->si;
      if (r.delivery_known) check_reach_holds_attack(reach, *attack, r);
      doubt_reach(reach, *attack, r);
    }
    read_numbers(reach, "reach", r);
    r.speed_per_attack = reach.quantity(Quantity::speed_per_attack, Need::optional);
    if (r.speed_per_attack) r.pupil.reach.speed_per_attack = r.speed_per_attack->si / kDegree;
    const auto effort = reach.number(Quantity::effort_per_attack, Need::optional);
    if (effort) r.pupil.reach.effort_per_attack = *effort / kDegree;
    read_options(reach, r);
    r.given.add(Datum::effort_per_attack, reach.has("effort_per_attack_deg"))
        .add(Datum::reach, reach.has("attack"))
        .add(Datum::speed_per_attack, reach.has("speed_per_attack_deg"));
  });
}

}  // namespace

void read_correlations(ObjectReader& reader, const std::vector<std::string>& keys,
                       std::vector<Spread::Correlation>& out) {
  const Json* list = reader.member("correlations", Need::optional);
  if (!list) return;
  const std::string place = below(reader.place(), "correlations");
  const std::size_t pairs = keys.size() * (keys.size() - 1) / 2;
  if (!list->is_array() || list->size() > pairs) {
    reader.error(place, fmt::format("a list of at most {} pairs is expected", pairs));
    return;
  }
  for (std::size_t i = 0; i < list->size(); ++i) {
    read_object((*list)[i], below(place, i), reader.findings(),
                [&](ObjectReader& r) { read_correlation(r, keys, out); });
  }
  if (const auto wrong = impossible_together(out, keys.size())) reader.error(place, *wrong);
}

void read_swing(ObjectReader& top, PupilReading& r) {
  read_means(top, r);
  read_measured_shots(top, r);
  read_spread(top, r);
  read_reach(top, r);
}

}  // namespace loftwright
