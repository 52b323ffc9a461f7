#include "loftwright/io/pupil_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "io/model_file.hpp"
#include "io/pupil_reader.hpp"

namespace loftwright {

namespace fs = std::filesystem;

namespace {

constexpr double kDegree = kPi / 180.0;
constexpr double kMph = 0.44704;
constexpr Range kLoft{4.0, 30.0, "deg"};
constexpr Range kAttack{-20.0, 20.0, "deg"};
constexpr Range kClubSpeed{9.0, 72.0, "m/s"};

// Ranges as the structs state them.
constexpr std::array kDeliveryFields{
    Field<Delivery>{"club_speed", Dimension::speed, &Delivery::club_speed, kClubSpeed},
    Field<Delivery>{"attack", Dimension::angle, &Delivery::attack, kAttack},
    Field<Delivery>{"dynamic_loft", Dimension::angle, &Delivery::dynamic_loft, {-5.0, 60.0, "deg"}},
    Field<Delivery>{"path", Dimension::angle, &Delivery::path, {-30.0, 30.0, "deg"}, Need::optional},
    Field<Delivery>{"face", Dimension::angle, &Delivery::face, {-30.0, 30.0, "deg"}, Need::optional},
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

struct LimitKey {
  std::string_view key;
  Limited quantity;
  Dimension dimension;
  Range range;
};
constexpr std::array kLimitKeys{
    LimitKey{"spin_loft", Limited::spin_loft, Dimension::angle, {0.0, 90.0, "deg"}},
    LimitKey{"launch", Limited::launch, Dimension::angle, {-20.0, 80.0, "deg"}},
    LimitKey{"spin", Limited::spin, Dimension::spin, {0.0, 15000.0, "rpm"}},
    LimitKey{"apex", Limited::apex, Dimension::length, {0.0, 200.0, "m"}},
    LimitKey{"landing", Limited::landing_angle, Dimension::angle, {0.0, 90.0, "deg"}},
    LimitKey{"side", Limited::side, Dimension::length, {-500.0, 500.0, "m"}},
    LimitKey{"carry", Limited::carry, Dimension::length, {0.0, 500.0, "m"}},
    LimitKey{"face_to_path", Limited::face_to_path, Dimension::angle, {-60.0, 60.0, "deg"}},
};

using Quantities = std::vector<std::pair<std::string_view, Quantity>>;

const Quantity* find(const Quantities& quantities, std::string_view key) {
  const auto at = std::find_if(quantities.begin(), quantities.end(), [&](const auto& q) { return q.first == key; });
  return at == quantities.end() ? nullptr : &at->second;
}

// "path", "path and face", "path, face and toe"
std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    out += fmt::format("{}{}", i == 0 ? "" : i + 1 == words.size() ? " and " : ", ", words[i]);
  }
  return out;
}

// One reading of one pupil file: the sections of the file, in the order in which they need each other.
class PupilReader {
 public:
  PupilReader(const fs::path& folder, const Catalogue& catalogue) : folder_(folder), catalogue_(catalogue) {}

  void read(ObjectReader& top) {
    top.member("format", Need::required);  // looked at already
    pupil_.name = top.text("name", Need::optional).value_or("");
    pupil_.notes = top.text("notes", Need::optional).value_or("");
    read_handed_and_goal(top);
    read_ball(top);
    top.object("club", Need::required, [&](ObjectReader& club) { read_club(club); });
    read_swing(top);
    read_spread(top);
    read_lofts(top);
    read_reach(top);
    top.object("limits", Need::optional, [&](ObjectReader& limits) { read_limits(limits); });
    read_conditions(top);
    read_arc(top);
    const auto worthwhile = top.quantity("worthwhile", Dimension::length, {0.0, 50.0, "m"}, Need::optional);
    if (worthwhile) pupil_.worthwhile = worthwhile->si;
    if (!top.has("worthwhile")) assume("The smallest gain worth having was not given: 3 yd taken.");
  }

  Pupil& pupil() { return pupil_; }

 private:
  template <class... Args>
  void assume(fmt::format_string<Args...> sentence, Args&&... args) {
    pupil_.assumed.push_back(fmt::format(sentence, std::forward<Args>(args)...));
  }

  void read_handed_and_goal(ObjectReader& top) {
    pupil_.handed = top.word<Handed>("handed", {{"right", Handed::right}, {"left", Handed::left}}, Need::optional)
                        .value_or(Handed::right);
    if (!top.has("handed")) assume("The hand was not given: a right-hander taken.");
    pupil_.goal =
        top.word<Goal>("goal", {{"carry", Goal::carry}, {"total", Goal::total}}, Need::optional).value_or(Goal::carry);
    if (!top.has("goal")) assume("The goal was not given: carry taken.");
  }

  // A model that the file names by id or path: `load` must find it.
  template <class Load>
  void read_model(ObjectReader& reader, std::string_view key, std::string& into, const Load& load) {
    const std::optional<std::string> name = reader.text(key, Need::optional);
    if (name) into = resolved(*name, folder_);
    try {
      load(into);
    } catch (const InputError& e) {
      reader.error(below(reader.place(), key), on_one_line(e));
    }
  }

  void read_ball(ObjectReader& top) {
    read_model(top, "ball", pupil_.ball, [&](const std::string& name) { ball_ = catalogue_.ball(name).ball; });
    if (!top.has("ball")) assume("The ball was not given: the model \"{}\" taken.", pupil_.ball);
  }

  void read_club(ObjectReader& club) {
    const auto loft = club.quantity("loft", Dimension::angle, kLoft, Need::required);
    if (loft) {
      club_loft_ = loft;
      pupil_.club_loft = loft->si;
      if (loft->si < 7.0 * kDegree || loft->si > 20.0 * kDegree) {
        club.warn(loft->place, fmt::format("a driver of {} is unusual (7 to 20 deg are usual)", loft->shown()));
      }
    }
    const Json* head = club.member("head", Need::optional);
    if (head && head->is_object()) {
      read_own_head(club, *head);
    } else {
      read_model(club, "head", pupil_.head, [&](const std::string& name) { head_ = catalogue_.head(name); });
    }
    if (!head) assume("The driver's head was not given: the model \"{}\" taken.", pupil_.head);
  }

  void read_own_head(ObjectReader& club, const Json& numbers) {
    head_ = catalogue_.head(pupil_.head);
    read_object(numbers, below(club.place(), "head"), club.findings(), [&](ObjectReader& reader) {
      const std::vector<std::string> absent = read_head_numbers(reader, Need::optional, *head_);
      if (!absent.empty())
        assume("Of the head, {} were not given: those of \"{}\" taken.", listed(absent), pupil_.head);
    });
    pupil_.head_numbers = head_;
  }

  // The means of the player's swing: measured, or worked out from the ball's.
  void read_swing(ObjectReader& top) {
    Quantities club, ball;
    top.object("delivery", Need::optional, [&](ObjectReader& reader) { club = read_delivery(reader); });
    top.object("launch", Need::optional, [&](ObjectReader& reader) { ball = read_launch(reader); });
    read_shots(top);
    if (top.has("delivery")) {
      delivery_known_ = find(club, "club_speed") && find(club, "attack") && find(club, "dynamic_loft");
      check_smash(top, find(club, "club_speed"), find(ball, "ball_speed"));
    } else if (top.has("launch")) {
      pupil_.delivery_inferred = true;
      if (find(ball, "ball_speed") && find(ball, "launch") && find(ball, "spin")) infer_delivery(top);
    } else if (!top.has("shots")) {
      top.error(top.place(),
                "delivery is missing; give \"delivery\" (club speed, attack, dynamic loft), or \"launch\" (ball speed, "
                "launch, spin) when only ball numbers are known");
    }
    if (delivery_known_) check_delivery(top, club);
  }

  // The seam for a list of shots: their means would become the delivery, their standard deviations the spread.
  void read_shots(ObjectReader& top) {
    if (!top.member("shots", Need::optional)) return;
    top.error(
        below(top.place(), "shots"),
        "a list of shots is not read by this version; put the means into \"delivery\" and the standard deviations into "
        "\"spread\"");
  }

  Quantities read_delivery(ObjectReader& reader) {
    const Quantities read = read_fields<Delivery>(reader, kDeliveryFields, pupil_.delivery);
    assume_zero(reader, kDeliveryFields, "{} of the delivery not given: taken as zero.");
    return read;
  }

  Quantities read_launch(ObjectReader& reader) {
    pupil_.launch.emplace();
    const Quantities read = read_fields<Launch>(reader, kLaunchFields, *pupil_.launch);
    assume_zero(reader, kLaunchFields, "{} of the launch not given: taken as zero.");
    return read;
  }

  template <class Fields>
  void assume_zero(ObjectReader& reader, const Fields& fields, fmt::format_string<std::string> sentence) {
    std::vector<std::string> absent;
    for (const auto& field : fields) {
      if (field.need == Need::optional && !reader.has(field.key)) absent.emplace_back(field.key);
    }
    if (absent.empty()) return;
    std::string words = listed(absent);
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
    assume(sentence, std::move(words));
  }

  void check_smash(ObjectReader& top, const Quantity* club_speed, const Quantity* ball_speed) {
    if (!club_speed || !ball_speed || !head_ || !ball_) return;
    constexpr double kMeasurement = 0.01;  // [-] both speeds are measured (estimate)
    const double smash = ball_speed->si / club_speed->si;
    const double most = (1.0 + kMeasurement) * greatest_smash(*head_, *ball_, club_speed->si);
    const std::string found = fmt::format("a ball speed of {} from a club speed of {} is a smash factor of {:.3f}",
                                          ball_speed->shown(), club_speed->shown(), smash);
    if (smash > most) {
      top.error(ball_speed->place,
                fmt::format("{}; this head and ball allow at most {:.3f}, 1 % for measurement included", found, most));
    } else if (smash < 1.0) {
      top.warn(ball_speed->place, found + ": very low for a driver; look at both again");
    }
  }

  void infer_delivery(ObjectReader& top) {
    if (!head_ || !ball_) return;
    const bool left = pupil_.handed == Handed::left;
    try {
      const Delivery behind = delivery_behind(left ? mirrored(*pupil_.launch) : *pupil_.launch, *head_, *ball_);
      pupil_.delivery = left ? mirrored(behind) : behind;
    } catch (const InputError& e) {
      top.error(below(top.place(), "launch"), fmt::format("the delivery behind it: {}", e.what()));
      return;
    }
    delivery_known_ = true;
    assume(
        "Only ball numbers were given: club speed, attack, dynamic loft, path and face were worked out from them, for "
        "a strike at the centre of the face.");
  }

  // Possible, but hardly what was measured. Bounds: common practice.
  void check_delivery(ObjectReader& top, const Quantities& club) {
    const Delivery& d = pupil_.delivery;
    const auto doubt = [&](std::string_view key, Dimension dimension, double value, std::string_view message) {
      const Quantity* typed = find(club, key);
      const Unit* customary = &unit(dimension == Dimension::speed ? "mph" : "deg");
      const Quantity shown = typed ? *typed : Quantity{value, customary, below(top.place(), "launch")};
      top.warn(shown.place,
               fmt::format("{} of {}{}: {}", key, shown.shown(), typed ? "" : " behind this launch", message));
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
    if (club_loft_ && std::abs(d.dynamic_loft - club_loft_->si) > 12.0 * kDegree) {
      doubt("dynamic_loft", Dimension::angle, d.dynamic_loft,
            fmt::format("more than 12 deg from the club's loft of {}; look at both again", club_loft_->shown()));
    }
  }

  void read_spread(ObjectReader& top) {
    top.object("spread", Need::optional, [&](ObjectReader& reader) {
      Spread spread;
      std::vector<std::string> absent;
      for (const SpreadField& s : kSpreadFields) {
        const Quantities read = read_fields<Spread>(reader, std::span(&s.field, 1), spread);
        if (!reader.has(s.field.key)) absent.emplace_back(s.field.key);
        if (read.empty()) continue;
        const Quantity& q = read.front().second;
        if (q.si == 0.0) reader.warn(q.place, "a spread of zero: nobody repeats a swing exactly");
        if (q.si > s.large) {
          reader.warn(q.place, fmt::format("a standard deviation of {} is large (up to {} is usual)", q.shown(),
                                           q.shown(s.large)));
        }
      }
      pupil_.spread = spread;
      if (!absent.empty()) assume("Spread of {} not given: taken as zero.", listed(absent));
    });
  }

  struct Sleeve {
    Interval turn;  // [rad] of loft
    double face_per_loft = 0.0;
  };

  std::optional<Sleeve> read_sleeve(ObjectReader& top) {
    std::optional<Sleeve> sleeve;
    top.object("sleeve", Need::optional, [&](ObjectReader& reader) {
      const auto turn = reader.interval("range", Dimension::angle, {-6.0, 6.0, "deg"}, Ends::closed, Need::required);
      const auto face = reader.number("face_per_loft", {-3.0, 3.0}, Need::optional);
      if (!reader.has("face_per_loft")) assume("How the sleeve turns the face was not given: taken not to.");
      if (turn && (turn->si.low > 0.0 || turn->si.high < 0.0)) {
        reader.error(turn->place, "must hold 0, the sleeve as the loft is marked");
      } else if (turn) {
        sleeve = Sleeve{turn->si, face.value_or(0.0)};
      }
    });
    return sleeve;
  }

  void read_lofts(ObjectReader& top) {
    const std::optional<Sleeve> sleeve = read_sleeve(top);
    const auto offer = top.find("lofts_on_offer", Dimension::angle, Need::optional);
    if (offer && offer->value->is_object()) {
      read_loft_range(top, *offer);
    } else if (offer) {
      read_loft_list(top, *offer);
    } else if (!top.has("lofts_on_offer")) {
      pupil_.lofts.push_back({8.0 * kDegree, 16.0 * kDegree, 8.0 * kDegree});
      assume("Lofts on offer were not given: every loft from 8 to 16 deg taken.");
    }
    if (!club_loft_) return;
    mark_club_in_hand(sleeve.has_value());
    if (sleeve) fit_sleeve(top, *sleeve);
    std::sort(pupil_.lofts.begin(), pupil_.lofts.end(), [](const LoftChoice& a, const LoftChoice& b) {
      return a.low != b.low ? a.low < b.low : a.high < b.high;
    });
  }

  void read_loft_range(ObjectReader& top, const ObjectReader::Found& offer) {
    read_object(*offer.value, offer.place, top.findings(), [&](ObjectReader& range) {
      const auto end = [&](std::string_view key) {
        const Json* value = range.member(key, Need::required);
        return value ? range.value_in(*value, below(offer.place, key), offer.unit, kLoft) : std::nullopt;
      };
      const std::optional<double> from = end("from"), to = end("to");
      if (!from || !to) return;
      if (*from > *to) {
        range.error(offer.place, fmt::format("the range is crossed: from {:.6g} is above to {:.6g}",
                                             offer.unit->from_si(*from), offer.unit->from_si(*to)));
        return;
      }
      pupil_.lofts.push_back({*from, *to, *from});
    });
  }

  static constexpr double kSameLoft = 0.01 * kDegree;  // [rad] closer than any loft is made

  void read_loft_list(ObjectReader& top, const ObjectReader::Found& offer) {
    if (!offer.value->is_array()) {
      top.error(offer.place, "a list of lofts, or a range {\"from\": ..., \"to\": ...}, is expected");
      return;
    }
    if (offer.value->size() > kMostLofts) {
      top.error(offer.place, fmt::format("has {} lofts; allowed: at most {}", offer.value->size(), kMostLofts));
      return;
    }
    const auto lofts = top.values_in(*offer.value, offer.place, offer.unit, kLoft);
    for (const double loft : lofts.value_or(std::vector<double>{})) {
      const auto same = [&](const LoftChoice& c) { return std::abs(c.nominal - loft) <= kSameLoft; };
      if (std::any_of(pupil_.lofts.begin(), pupil_.lofts.end(), same)) {
        top.warn(offer.place,
                 fmt::format("{:.6g} {} stands twice in the list", offer.unit->from_si(loft), offer.unit->symbol));
      } else {
        pupil_.lofts.push_back({loft, loft, loft});
      }
    }
  }

  // The club in hand is one of the choices: the driver of its loft, or a range that holds it. With a sleeve it is a
  // driver of its own, because the sleeve turns its face, as lofts bought new do not.
  void mark_club_in_hand(bool has_sleeve) {
    const double loft = pupil_.club_loft;
    for (LoftChoice& choice : pupil_.lofts) {
      const bool is_range = choice.low < choice.high;
      if ((is_range && has_sleeve) || loft < choice.low - kSameLoft || loft > choice.high + kSameLoft) continue;
      if (is_range) choice.nominal = loft;
      choice.in_hand = true;
      return;
    }
    pupil_.lofts.push_back({loft, loft, loft, 0.0, true});
  }

  void fit_sleeve(ObjectReader& top, const Sleeve& sleeve) {
    for (LoftChoice& choice : pupil_.lofts) {
      if (choice.low < choice.high) continue;  // every loft of a range is there without turning anything
      choice.low += sleeve.turn.low;
      choice.high += sleeve.turn.high;
      choice.face_per_loft = sleeve.face_per_loft;
      if (choice.low < kLoft.low * kDegree || choice.high > kLoft.high * kDegree) {
        top.error(
            below(top.place(), "sleeve"),
            fmt::format("takes the driver of {:.4g} deg to lofts from {:.4g} to {:.4g} deg; allowed: {:g} to {:g} deg",
                        choice.nominal / kDegree, choice.low / kDegree, choice.high / kDegree, kLoft.low, kLoft.high));
      }
    }
  }

  void read_reach(ObjectReader& top) {
    std::optional<Quantity> speed;
    bool attack_given = false, follow_given = false, speed_given = false;
    top.object("reach", Need::optional, [&](ObjectReader& reach) {
      const auto attack = reach.interval("attack", Dimension::angle, kAttack, Ends::closed, Need::optional);
      if (attack) pupil_.reach.attack = attack->si;
      if (attack && delivery_known_) check_reach_holds_attack(reach, *attack);
      pupil_.reach.follow = reach.number("follow", {0.0, 1.0}, Need::optional).value_or(pupil_.reach.follow);
      speed = reach.quantity("speed_per_attack_deg", Dimension::speed, {-2.0, 2.0, "m/s"}, Need::optional);
      if (speed) pupil_.reach.speed_per_attack = speed->si / kDegree;
      attack_given = reach.has("attack");
      follow_given = reach.has("follow");
      speed_given = reach.has("speed_per_attack_deg");
    });
    if (!attack_given) assume_reach();
    if (!follow_given) {
      assume("How far dynamic loft follows the attack was not given: {:g} taken (estimate).", pupil_.reach.follow);
    }
    if (!speed_given) assume("What a change of attack costs in club speed was not given: nothing taken.");
    if (speed && delivery_known_) check_speed_within_reach(top, *speed);
  }

  void check_reach_holds_attack(ObjectReader& reach, const QuantityInterval& interval) {
    const double measured = pupil_.delivery.attack, rounding = 1e-9;
    if (measured >= interval.si.low - rounding && measured <= interval.si.high + rounding) return;
    const Unit& u = *interval.unit;
    reach.error(interval.place, fmt::format("{:.6g} to {:.6g} {} does not hold the measured attack of {:.4g} {}",
                                            u.from_si(interval.si.low), u.from_si(interval.si.high), u.symbol,
                                            u.from_si(measured), u.symbol));
  }

  void check_speed_within_reach(ObjectReader& top, const Quantity& speed) {
    for (const double attack : {pupil_.reach.attack.low, pupil_.reach.attack.high}) {
      if (!std::isfinite(attack)) continue;  // the interval could not be read, and that was said
      const double there =
          pupil_.delivery.club_speed + pupil_.reach.speed_per_attack * (attack - pupil_.delivery.attack);
      if (there >= kClubSpeed.low && there <= kClubSpeed.high) continue;
      top.error(speed.place, fmt::format("takes the club speed to {} at an attack of {:.4g} deg; allowed: {} to {}",
                                         speed.shown(there), attack / kDegree, speed.shown(kClubSpeed.low),
                                         speed.shown(kClubSpeed.high)));
    }
  }

  void assume_reach() {
    const double measured = pupil_.delivery.attack;
    const double low = std::min(measured, std::max(measured - 2.0 * kDegree, -10.0 * kDegree));
    const double high = std::max(measured, std::min(measured + 5.0 * kDegree, 10.0 * kDegree));
    pupil_.reach.attack = {low, high};
    assume(
        "The attack angles within reach were not given: {:.4g} to {:.4g} deg taken (2 below to 5 above the measured "
        "one, estimate).",
        low / kDegree, high / kDegree);
  }

  void read_limits(ObjectReader& limits) {
    for (const LimitKey& key : kLimitKeys) {
      const auto allowed = limits.interval(key.key, key.dimension, key.range, Ends::may_be_open, Need::optional);
      if (allowed) pupil_.limits.push_back({key.quantity, allowed->si});
    }
  }

  void read_conditions(ObjectReader& top) {
    if (!top.object("conditions", Need::optional, [&](ObjectReader& reader) { read_weather(reader); }) &&
        !top.has("conditions")) {
      assume("Conditions were not given: sea level, 20 C, 50 % humidity, calm, medium turf taken.");
    }
  }

  void read_weather(ObjectReader& reader) {
    Conditions& c = pupil_.conditions;
    const auto take = [&](std::string_view key, Dimension dimension, const Range& range, double& into,
                          Need need = Need::optional) {
      const auto found = reader.quantity(key, dimension, range, need);
      if (found) into = found->si;
      return found;
    };
    // The top is where the standard pressure still lies within the range of Weather.
    const auto altitude = take("altitude", Dimension::length, {-500.0, 5500.0, "m"}, c.altitude);
    double station = 0.0;
    const auto pressure = take("pressure", Dimension::pressure, {5e4, 1.1e5, "Pa"}, station);
    if (pressure) c.pressure = station;
    take("temperature", Dimension::temperature, {233.15, 328.15, "K"}, c.temperature);
    take("humidity", Dimension::ratio, {0.0, 100.0, "%"}, c.humidity);
    take("wind", Dimension::speed, {0.0, 30.0, "m/s"}, c.wind.speed);
    const Need when_windy = c.wind.calm() ? Need::optional : Need::required;
    take("wind_from", Dimension::angle, {-360.0, 360.0, "deg"}, c.wind.from, when_windy);
    take("wind_height", Dimension::length, {0.5, 100.0, "m"}, c.wind.height);
    const auto profile = reader.word<WindProfile>(
        "wind_profile",
        {{"uniform", WindProfile::uniform}, {"logarithmic", WindProfile::logarithmic}, {"power", WindProfile::power}},
        Need::optional);
    if (profile) c.wind.profile = *profile;
    read_model(reader, "turf", c.turf, [&](const std::string& name) { catalogue_.turf(name); });
    if (altitude && pressure) check_pressure(reader, *altitude, *pressure);
    assume_weather(reader);
  }

  // Weather reports give the pressure reduced to sea level; the ball feels the station's.
  void check_pressure(ObjectReader& reader, const Quantity& altitude, const Quantity& pressure) {
    constexpr double kWeather = 0.06;  // [-] what weather alone makes of it (estimate)
    const double standard = standard_atmosphere(altitude.si).pressure;
    if (std::abs(pressure.si / standard - 1.0) <= kWeather) return;
    reader.warn(pressure.place,
                fmt::format("{} does not fit an altitude of {} (about {} there); give the station's pressure, not "
                            "the one reduced to sea level",
                            pressure.shown(), altitude.shown(), pressure.shown(standard)));
  }

  void assume_weather(ObjectReader& reader) {
    std::vector<std::string> taken;
    const auto absent = [&](std::string_view key, std::string_view value) {
      if (!reader.has(key)) taken.emplace_back(value);
    };
    if (!reader.has("pressure")) absent("altitude", "sea level");
    absent("temperature", "20 C");
    absent("humidity", "50 % humidity");
    absent("wind", "calm");
    absent("turf", "medium turf");
    if (!pupil_.conditions.wind.calm()) {
      absent("wind_height", "wind measured at 10 m");
      absent("wind_profile", "a logarithmic wind profile");
    }
    if (!taken.empty()) assume("Conditions not given: {} taken.", listed(taken));
  }

  void read_arc(ObjectReader& top) {
    bool plane_given = false, radius_given = false;
    top.object("arc", Need::optional, [&](ObjectReader& arc) {
      const auto plane = arc.quantity("plane", Dimension::angle, {20.0, 80.0, "deg"}, Need::optional);
      const auto radius = arc.quantity("radius", Dimension::length, {0.8, 2.5, "m"}, Need::optional);
      if (plane) pupil_.arc.plane = plane->si;
      if (radius) pupil_.arc.radius = radius->si;
      plane_given = arc.has("plane");
      radius_given = arc.has("radius");
    });
    std::vector<std::string> taken;
    if (!plane_given) taken.push_back(fmt::format("a plane of {:.4g} deg", pupil_.arc.plane / kDegree));
    if (!radius_given) taken.push_back(fmt::format("a radius of {:.4g} m", pupil_.arc.radius));
    if (!taken.empty()) assume("The arc was not given in full: {} taken for set-up targets (estimate).", listed(taken));
  }

  static constexpr std::size_t kMostLofts = 100;

  const fs::path& folder_;
  const Catalogue& catalogue_;
  Pupil pupil_;
  std::optional<Quantity> club_loft_;
  std::optional<Head> head_;
  std::optional<Ball> ball_;
  bool delivery_known_ = false;
};

}  // namespace

std::string on_one_line(const InputError& error) {
  std::string text = error.what();
  for (std::size_t at = text.find("\n  "); at != std::string::npos; at = text.find("\n  ", at)) {
    text.replace(at, 3, text[at - 1] == ':' ? " " : "; ");
  }
  return text;
}

std::optional<Pupil> pupil_from(const Json& document, const fs::path& folder, const Catalogue& catalogue,
                                Findings& findings) {
  if (!format_is(document, kPupilFormat, findings)) return std::nullopt;
  PupilReader reader(folder, catalogue);
  Findings mine;
  read_object(document, "", mine, [&](ObjectReader& top) { reader.read(top); });
  findings.insert(findings.end(), mine.begin(), mine.end());
  if (has_errors(mine)) return std::nullopt;
  return std::move(reader.pupil());
}

std::optional<Pupil> read_pupil(std::string_view text, const fs::path& folder, const Catalogue& catalogue,
                                Findings& findings) {
  Findings mine;
  const std::optional<Json> document = parse_json(text, mine);
  std::optional<Pupil> pupil;
  if (document) pupil = pupil_from(*document, folder, catalogue, mine);
  findings.insert(findings.end(), mine.begin(), mine.end());
  if (has_errors(mine)) return std::nullopt;  // a key that stands twice leaves a tree
  return pupil;
}

Pupil load_pupil(const fs::path& file, const Catalogue& catalogue, Findings* warnings) {
  Findings findings;
  std::optional<Pupil> pupil = read_pupil(read_text(file), file.parent_path(), catalogue, findings);
  if (!pupil) throw FileError(file.string(), findings);
  if (warnings) warnings->insert(warnings->end(), findings.begin(), findings.end());
  return std::move(*pupil);
}

}  // namespace loftwright
