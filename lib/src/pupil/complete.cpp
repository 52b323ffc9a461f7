#include "loftwright/pupil/complete.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"

namespace loftwright {

namespace {

constexpr double kOfferedTarget = 5.0 * kDegree,
                 kOfferedBelow = 2.0 * kDegree;  // [rad] of the reach where nobody says (estimates)
constexpr double kLowestOffered = -10.0 * kDegree;

// Of `data` and their words, those that are not given.
std::vector<std::string> absent(const Given& given, std::initializer_list<std::pair<Datum, std::string_view>> data) {
  std::vector<std::string> out;
  for (const auto& [datum, words] : data) {
    if (!given.has(datum)) out.emplace_back(words);
  }
  return out;
}

std::string taken_as_zero(std::string_view of, const std::vector<std::string>& keys) {
  if (keys.empty()) return "";
  std::string words = listed(keys);
  words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return fmt::format("{} of the {} not given: taken as zero.", words, of);
}

std::string spread_taken(const Pupil& pupil, const Given& given) {
  std::vector<std::string> keys;
  for (std::size_t i = 0; i < kDeliveryQuantities.size(); ++i) {
    if (!given.has(scatter_of(i))) keys.emplace_back(about(kDeliveryQuantities[i].quantity).title);
  }
  if (keys.empty()) return "";
  const std::string what = pupil.spread ? "Spread of " + listed(keys) : "The spread from shot to shot";
  return fmt::format("{} was not given: that usual for a {} golfer taken (estimate{}).", what, key_of(pupil.skill),
                     given.has(Datum::skill) ? "" : "; the skill was not given either");
}

std::string conditions_taken(const Pupil& pupil, const Given& given) {
  if (!given.has(Datum::conditions))
    return "Conditions were not given: sea level, 20 C (68 F), 50 % humidity, calm, medium turf taken.";
  std::vector<std::string> taken = absent(given, {{Datum::altitude, "sea level"},
                                                  {Datum::temperature, "20 C (68 F)"},
                                                  {Datum::humidity, "50 % humidity"},
                                                  {Datum::wind, "calm"},
                                                  {Datum::turf, "medium turf"}});
  if (!pupil.conditions.wind.calm()) {
    for (std::string& words : absent(given, {{Datum::wind_height, "wind measured at 10 m"},
                                             {Datum::wind_profile, "a logarithmic wind profile"}})) {
      taken.push_back(std::move(words));
    }
  }
  return taken.empty() ? "" : fmt::format("Conditions not given: {} taken.", listed(taken));
}

std::string arc_taken(const Pupil& pupil, const Given& given) {
  const std::string plane = fmt::format("a plane of {:.4g} deg", pupil.arc.plane / kDegree),
                    radius =
                        fmt::format("a radius of {:.4g} m ({:.3g} ft)", pupil.arc.radius, pupil.arc.radius / 0.3048);
  const std::vector<std::string> taken = absent(given, {{Datum::plane, plane}, {Datum::radius, radius}});
  return taken.empty()
             ? ""
             : fmt::format("The arc was not given in full: {} taken for set-up targets (estimate).", listed(taken));
}

std::string prices_taken(const Given& given) {
  const bool driver = given.has(Datum::driver_price), swing = given.has(Datum::swing_price);
  if (driver && swing) return "";
  return fmt::format("What a change must gain to be worth it was not given{}: 3 yd (2.7 m) taken.",
                     driver  ? " for technique"
                     : swing ? " for a driver"
                             : "");
}

// As marked: where a setting is, by its name.
std::string setting_taken(const Pupil& pupil) {
  const auto own = std::find_if(pupil.lofts.begin(), pupil.lofts.end(), [](const LoftChoice& c) {
    return c.in_hand && c.low == c.nominal && c.high == c.nominal && c.face == 0.0;
  });
  const bool named = own != pupil.lofts.end() && !own->setting.empty();
  return fmt::format("How the sleeve of the club in hand is set was not given: taken as marked{}.",
                     named ? fmt::format(" ({})", own->setting) : "");
}

std::string take_reach(Pupil& pupil) {
  const double measured = pupil.delivery.attack;
  Interval& reach = pupil.reach.attack;
  reach.low = std::min(measured, std::max(measured - kOfferedBelow, kLowestOffered));
  reach.high = std::max(measured, std::min(measured + kCommonChange, kOfferedTarget));
  return fmt::format(
      "The attack angles within reach were not given: {:.4g} to {:.4g} deg taken ({:g} below to {:g} above the "
      "measured "
      "one, but for that no higher than {:g}; estimate).",
      reach.low / kDegree, reach.high / kDegree, kOfferedBelow / kDegree, kCommonChange / kDegree,
      kOfferedTarget / kDegree);
}

// What is taken where this datum is not given, in words; empty where nothing is to be said. Of data that share a
// sentence the first says it.
std::string taken_for(Datum datum, Pupil& pupil, const Given& given) {
  const bool known = given.has(datum);
  switch (datum) {
    case Datum::handed: return known ? "" : "The hand was not given: a right-hander taken.";
    case Datum::goal: return known ? "" : "The goal was not given: carry taken.";
    case Datum::ball: return known ? "" : fmt::format("The ball was not given: the model \"{}\" taken.", pupil.ball);
    case Datum::head:
      return known ? "" : fmt::format("The driver's head was not given: the model \"{}\" taken.", pupil.head);
    case Datum::face_per_loft: return known ? "" : "How the sleeve turns the face was not given: taken not to.";
    case Datum::club_setting: return known ? "" : setting_taken(pupil);
    case Datum::lofts: return known ? "" : "Lofts on offer were not given: every loft from 8 to 16 deg taken.";
    case Datum::path:
      return taken_as_zero(
          "delivery",
          absent(given, {{Datum::path, "path"}, {Datum::face, "face"}, {Datum::toe, "toe"}, {Datum::high, "high"}}));
    case Datum::azimuth:
      return pupil.launch
                 ? taken_as_zero("launch",
                                 absent(given, {{Datum::azimuth, "launch direction"}, {Datum::tilt, "spin axis"}}))
                 : "";
    case Datum::measured_shots:
      return known ? ""
                   : fmt::format("How many drives the delivery is the mean of was not given: {} taken.",
                                 pupil.measured_shots);
    case Datum::spread: return spread_taken(pupil, given);
    case Datum::effort_per_attack:
      return known || pupil.reach.options.empty()
                 ? ""
                 : "The effort of changing the attack was not given: 1 a degree taken, on the scale of the options.";
    case Datum::reach: return known ? "" : take_reach(pupil);
    case Datum::speed_per_attack: return known ? "" : std::string(taken_sentence(datum));
    case Datum::conditions: return conditions_taken(pupil, given);
    case Datum::plane: return arc_taken(pupil, given);
    case Datum::driver_price: return prices_taken(given);
    default: break;  // a number with a row of its own, or told with another
  }
  const auto row =
      std::find_if(kNumberData.begin(), kNumberData.end(), [&](const NumberDatum& d) { return d.datum == datum; });
  return known || row == kNumberData.end() ? "" : std::string(row->taken);
}

}  // namespace

std::string_view taken_sentence(Datum datum) {
  if (datum == Datum::speed_per_attack)
    return "What a change of attack costs in club speed was not given: nothing taken.";
  const auto* const row =
      std::find_if(kNumberData.begin(), kNumberData.end(), [&](const NumberDatum& d) { return d.datum == datum; });
  return datum == Datum::follow && row != kNumberData.end() ? row->taken : "";
}

void complete_lofts(Pupil& pupil) {
  if (pupil.lofts.empty()) pupil.lofts.push_back({8.0 * kDegree, 16.0 * kDegree, 8.0 * kDegree});
  if (std::any_of(pupil.lofts.begin(), pupil.lofts.end(), [](const LoftChoice& c) { return c.in_hand; })) return;
  // The club in hand is one of the choices: the driver of its loft. Beside a range it is a driver of its own: another
  // loft of the range is another driver, and with a sleeve its face turns, as lofts bought new do not.
  const double loft = pupil.club_loft;
  const auto own = std::find_if(pupil.lofts.begin(), pupil.lofts.end(), [&](const LoftChoice& c) {
    return c.low == c.high && std::abs(loft - c.low) <= kLoftsApart;
  });
  if (own != pupil.lofts.end()) {
    own->in_hand = true;
  } else {
    pupil.lofts.push_back({loft, loft, loft, 0.0, true});
  }
}

Given what_is_given(const Pupil& pupil) {
  const Pupil usual;
  const Delivery& d = pupil.delivery;
  const Conditions &c = pupil.conditions, &u = usual.conditions;
  Given given;
  given.add(Datum::handed, pupil.handed != usual.handed)
      .add(Datum::goal, pupil.goal != usual.goal)
      .add(Datum::ball, pupil.ball != usual.ball)
      .add(Datum::head, pupil.head != usual.head || pupil.head_numbers.has_value())
      .add(Datum::face_per_loft)  // a sleeve made in code has it
      .add(Datum::club_setting)
      .add(Datum::lofts, !pupil.lofts.empty())
      .add(Datum::path, d.path != 0.0 || pupil.delivery_inferred)
      .add(Datum::face, d.face != 0.0 || pupil.delivery_inferred)
      .add(Datum::toe, d.toe != 0.0 || pupil.delivery_inferred)
      .add(Datum::high, d.high != 0.0 || pupil.delivery_inferred)
      .add(Datum::azimuth, pupil.launch && pupil.launch->azimuth != 0.0)
      .add(Datum::tilt, pupil.launch && pupil.launch->tilt != 0.0)
      .add(Datum::measured_shots, pupil.measured_shots != usual.measured_shots)
      .add(Datum::skill, pupil.skill != usual.skill)
      .add(Datum::effort_per_attack, pupil.reach.effort_per_attack != usual.reach.effort_per_attack)
      .add(Datum::reach, std::isfinite(pupil.reach.attack.low) || std::isfinite(pupil.reach.attack.high))
      .add(Datum::speed_per_attack, pupil.reach.speed_per_attack != 0.0)
      .add(Datum::altitude, c.pressure.has_value())
      .add(Datum::turf, c.turf != u.turf)
      .add(Datum::wind_profile, c.wind.profile != u.wind.profile)
      .add(Datum::driver_price, pupil.prices.driver != usual.prices.driver)
      .add(Datum::swing_price, pupil.prices.swing != usual.prices.swing);
  Pupil other = pupil, plain;
  for (const NumberDatum& one : kNumberData) given.add(one.datum, one.of(other) != one.of(plain));
  for (const Datum one : {Datum::altitude, Datum::temperature, Datum::humidity, Datum::wind, Datum::turf}) {
    given.add(Datum::conditions, given.has(one));
  }
  for (std::size_t i = 0; i < kDeliveryQuantities.size(); ++i) given.add(scatter_of(i), pupil.spread.has_value());
  return given;
}

void complete(Pupil& pupil, const Given& given, const std::vector<Told>& told) {
  complete_lofts(pupil);
  for (const Datum datum : kAllOf<Datum>) {
    for (const Told& t : told) {
      if (t.before == datum) pupil.assumed.push_back(t.sentence);
    }
    std::string sentence = taken_for(datum, pupil, given);
    if (!sentence.empty()) pupil.assumed.push_back(std::move(sentence));
  }
}

}  // namespace loftwright
