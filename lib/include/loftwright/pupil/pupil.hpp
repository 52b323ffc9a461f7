/// @file
/// What the coach knows about a pupil, as plain data. files/pupil_file reads it from JSON; nothing here reads or
/// prints.
#pragma once

#include <array>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/detail/enum_array.hpp"
#include "loftwright/core/quantity.hpp"
#include "loftwright/equip/head.hpp"
#include "loftwright/impact/impact.hpp"
#include "loftwright/shot/course.hpp"
#include "loftwright/swing/delivery.hpp"
#include "loftwright/swing/technique.hpp"

namespace loftwright {

/// From low to high, ends included; open where not given.
struct Interval {
  double low = -std::numeric_limits<double>::infinity();  ///< in the unit of what it bounds
  double high = std::numeric_limits<double>::infinity();  ///< likewise
};

/// What drives are to be longest in.
enum class Goal { carry, total };
std::string_view key_of(Goal goal);  ///< "carry", "total"

/// What a limit may be set on: a row of kLimits, and its value in a drive in advise/model.cpp.
enum class Limited { spin_loft, launch, spin, apex, landing_angle, side, carry, face_to_path };

/// One row a quantity that limits may be set on: key and title are the quantity's, unless told otherwise.
struct LimitInfo {
  Limited limited;    ///< which
  Quantity quantity;  ///< what it may be, and how it is shown
  double scale;  ///< [SI] how limits are weighed against each other: one of it matters about as much for every quantity
  std::string_view own_title = "";  ///< empty: the quantity's
  bool of_the_run = false;          ///< hangs on the run too, which has kinks that a search must know of

  /// As in files.
  constexpr std::string_view key() const { return about(quantity).key; }
  /// For people.
  constexpr std::string_view title() const { return own_title.empty() ? about(quantity).title : own_title; }
};
/// The table, in the order of Limited.
inline constexpr std::array kLimits{
    LimitInfo{Limited::spin_loft, Quantity::spin_loft, kDegree},
    LimitInfo{Limited::launch, Quantity::launch, kDegree},
    LimitInfo{Limited::spin, Quantity::spin, 100.0 * kPi / 30.0},
    LimitInfo{Limited::apex, Quantity::apex, 1.0},
    LimitInfo{Limited::landing_angle, Quantity::landing, kDegree},
    LimitInfo{Limited::side, Quantity::side, 1.0, "side at rest", true},
    LimitInfo{Limited::carry, Quantity::carry, 1.0},
    LimitInfo{Limited::face_to_path, Quantity::face_to_path, kDegree},
};
constexpr const LimitInfo& about(Limited limited) { return kLimits[index_of(limited)]; }  ///< its row

/// "spin_loft", "launch", ... as in files
constexpr std::string_view key_of(Limited limited) { return about(limited).key(); }
/// "spin loft", "launch", ... for people
constexpr std::string_view title_of(Limited limited) { return about(limited).title(); }
constexpr double scale_of(Limited limited) { return about(limited).scale; }  ///< [SI]

/// What a drive must keep to.
struct Limit {
  Limited quantity;  ///< what it is on
  Interval allowed;  ///< [SI] either end may be open; side is the side at rest, signed, right positive
};

/// Shot-to-shot standard deviations, the units of Delivery, and how they go together.
struct Spread {
  double club_speed = 0.0;    ///< [m/s]
  double attack = 0.0;        ///< [rad]
  double path = 0.0;          ///< [rad]
  double face = 0.0;          ///< [rad]
  double dynamic_loft = 0.0;  ///< [rad]
  double toe = 0.0;           ///< [m]
  double high = 0.0;          ///< [m]

  /// Correlations [-], one a pair of quantities numbered in the order above; pairs not named are independent. Together
  /// they must be possible (a positive definite matrix).
  struct Correlation {
    int first;     ///< the number of one, from 0 ...
    int second;    ///< ... and of another
    double value;  ///< [-] above -1 and below 1
  };
  std::vector<Correlation> correlations;  ///< those that are not zero
};
inline constexpr int kSpreadQuantities = 7;  ///< how many there are

/// What a delivery and its scatter are made of, in the order of Spread.
struct DeliveryQuantity {
  Quantity quantity;        ///< what it is
  double Delivery::*value;  ///< where a delivery has it
  double Spread::*spread;   ///< where a spread has its standard deviation
  bool needed;              ///< without it there is no delivery; the others are zero when nobody measured them
  Range sd;                 ///< what its standard deviation may be, and ...
  Range usual_sd;           ///< ... where it is worth a second look (estimates)
  Range change;  ///< what a TechniqueOption may add; not known() for the attack, which the rest of the reach is about
};
/// The table, in the order of Spread.
inline constexpr std::array<DeliveryQuantity, kSpreadQuantities> kDeliveryQuantities{{
    {Quantity::club_speed,
     &Delivery::club_speed,
     &Spread::club_speed,
     true,
     {0.0, 10.0, "m/s"},
     {0.0, 5.0, "mph"},
     {-10.0, 10.0, "m/s"}},
    {Quantity::attack, &Delivery::attack, &Spread::attack, true, {0.0, 15.0, "deg"}, {0.0, 4.0, "deg"}, {}},
    {Quantity::path,
     &Delivery::path,
     &Spread::path,
     false,
     {0.0, 15.0, "deg"},
     {0.0, 6.0, "deg"},
     {-15.0, 15.0, "deg"}},
    {Quantity::face,
     &Delivery::face,
     &Spread::face,
     false,
     {0.0, 15.0, "deg"},
     {0.0, 6.0, "deg"},
     {-15.0, 15.0, "deg"}},
    {Quantity::dynamic_loft,
     &Delivery::dynamic_loft,
     &Spread::dynamic_loft,
     true,
     {0.0, 15.0, "deg"},
     {0.0, 4.0, "deg"},
     {-15.0, 15.0, "deg"}},
    {Quantity::toe, &Delivery::toe, &Spread::toe, false, {0.0, 40.0, "mm"}, {0.0, 20.0, "mm"}, {-50.0, 50.0, "mm"}},
    {Quantity::high, &Delivery::high, &Spread::high, false, {0.0, 30.0, "mm"}, {0.0, 15.0, "mm"}, {-30.0, 30.0, "mm"}},
}};

/// The key of the quantity with this number, 0 .. 6.
constexpr std::string_view spread_key(int quantity) {
  return about(kDeliveryQuantities[static_cast<std::size_t>(quantity)].quantity).key;
}

/// How steadily a golfer delivers the club, for a spread that was not measured.
enum class Skill { low_handicap, mid_handicap, high_handicap };
template <>
inline constexpr std::size_t kCountOf<Skill> = 3;  ///< how many there are
std::string_view key_of(Skill skill);              ///< "low-handicap", ...
/// Estimates: speed 1.5, 2 or 3 % of it; attack 1, 1.5, 2.2 deg; path 1.5, 2.5, 3.5; face 1.5, 2.5, 4; dynamic
/// loft 1.2, 1.7, 2.4 deg; strike 7, 11, 15 mm across the face and 6, 8, 10 mm up and down.
Spread usual_spread(Skill skill, double club_speed);

/// Lofts that can be had: one driver (low == high) or every loft between two. A sleeve widens a driver to a range and
/// turns the face as it turns the loft; where its settings are named, each of them is a choice of its own.
struct LoftChoice {
  double low;                  ///< [rad]
  double high;                 ///< [rad]
  double nominal;              ///< [rad] loft at which the face sits as the player presents it
  double face_per_loft = 0.0;  ///< [-] rad the face turns right (for a right-hander) per rad of loft away from nominal
  bool in_hand = false;        ///< the club the pupil plays now
  bool has_sleeve = false;     ///< its lofts are turns of one head, marked `nominal`; else each is a driver of its own
  std::string setting{};       ///< the sleeve's, by name; empty: none is named
  double face = 0.0;           ///< [rad] that it turns the face right (for a right-hander), against as marked
};

/// How far the face turns right (for a right-hander, left for a left-hander) at this loft of the choice, against as
/// marked. [rad]
double face_turn(const LoftChoice& club, double loft);

/// A further change of technique the coach would work on, added to the delivery as a whole.
struct TechniqueOption {
  std::string name;     ///< as the coach calls it
  double effort = 1.0;  ///< [-] the coach's own scale, 0..100
  Delivery change{};    ///< added to the delivery, the player's own hand
};

/// What the player can do about the swing.
struct Reach {
  Interval attack;                           ///< [rad] holds the measured attack
  double follow = kUsualFollow;              ///< [-] 0 .. kMostFollow, see swing/technique.hpp
  double speed_per_attack = 0.0;             ///< [m/s per rad] club speed gained as the attack rises (estimate)
  double effort_per_attack = 1.0 / kDegree;  ///< [1/rad] of changing the attack, on the options' scale: 1 a degree
  std::vector<TechniqueOption> options;      ///< at most kMostOptions
};
inline constexpr std::size_t kMostOptions = 5;  ///< [-] of one pupil

/// The circle the clubhead runs on, for set-up targets.
struct ArcEstimate {
  double plane = 50.0 * kDegree;  ///< [rad] estimate: a driver's plane is commonly 45 to 55 deg
  double radius = 1.6;            ///< [m] estimate
};

/// What a pupil wants back before a change is worth the bother. [m]
struct Prices {
  double driver = 3.0 * 0.9144;  ///< another driver
  double sleeve = 0.5 * 0.9144;  ///< a turn of the sleeve on the driver in hand
  double swing = 3.0 * 0.9144;   ///< another attack
};
inline constexpr double kLeastPrice = about(Quantity::price).allowed.low;  ///< [m] nothing is free
inline constexpr double kMostPrice =
    about(Quantity::price).allowed.high;      ///< [m] a gain this large is always worth a change
inline constexpr double kTwoAtOnce = 0.9144;  ///< [m] what both at once cost beside their own prices

/// What a model can be tuned in to a player's measured shots (tune/tune.hpp).
enum class Tunable {
  restitution,
  tangential_restitution,
  drag_scale,
  lift_scale,
  tilt_scale,        ///< the turf's from here on: what the run hangs on most ...
  tilt_speed_scale,  ///< ... and this; from here on uncertain by a factor, the others by so much more or less
  bounce_scale,
  rolling_scale,
};
template <>
inline constexpr std::size_t kCountOf<Tunable> = 8;                                    ///< how many there are
constexpr bool is_of_turf(Tunable tunable) { return tunable >= Tunable::tilt_scale; }  ///< not the ball's or head's
/// not to so much more or less
constexpr bool is_known_to_a_factor(Tunable tunable) { return tunable >= Tunable::tilt_speed_scale; }
template <class T>
using ByTunable = EnumArray<Tunable, T>;   ///< one entry for each
std::string_view key_of(Tunable tunable);  ///< "restitution", ... as in files
std::string_view title_of(
    Tunable tunable);  ///< "restitution", "tangential restitution", "drag", "lift", "turf tilt", ...

/// What a tuned value may be, and its standard deviation. All [-].
inline constexpr ByTunable<Interval> kTunableRange{
    {{{0.5, 0.9}, {-1.0, 1.0}, {0.5, 2.0}, {0.5, 2.0}, {0.25, 4.0}, {0.25, 4.0}, {0.25, 4.0}, {0.25, 4.0}}}};
inline constexpr ByTunable<double> kTunableMostSd{1.0, 1.0, 1.0, 1.0,
                                                  4.0, 4.0, 4.0, 4.0};  ///< [-] the greatest standard deviation

/// Head, ball and turf as a player's own shots show them: these values stand in place of the models', and the
/// uncertainty of them in place of the models' (ErrorWidths).
struct Tuning {
  /// [-] within kTunableRange. The first two are the head's, the next multiply the ball's drag and lift, the last the
  /// turf's tilt, tilt speed, restitution and rolling resistance.
  ByTunable<double> value;
  ByTunable<double>
      sd;  ///< [-] 0..kTunableMostSd; of one known to a factor the value lies times or over 1 + sd / value
  std::vector<Spread::Correlation> correlations;  ///< of the errors, numbered in the order of Tunable
  int shots = 0;                                  ///< they were fitted to
  std::string turf{};  ///< the last four hold for this one (id or path); empty: no run was measured
};

/// A pupil. Made in code it needs a delivery and the loft of the club in hand; complete() fills in the rest, validate()
/// checks.
struct Pupil {
  std::string name;                    ///< any; empty: unnamed
  std::string notes;                   ///< the coach's own: on no page
  std::string for_pupil;               ///< printed on the pupil's page
  Handed handed = Handed::right;       ///< the hand played with
  Goal goal = Goal::carry;             ///< what drives are to be longest in
  Delivery delivery;                   ///< as the player's hand has it (a left-hander's is not mirrored yet)
  bool delivery_inferred = false;      ///< from `launch`: only ball numbers were known
  std::optional<Launch> launch;        ///< as measured, when given
  std::optional<Spread> spread;        ///< none: usual_spread(skill)
  Skill skill = Skill::mid_handicap;   ///< for the usual spread
  int measured_shots = 10;             ///< [-] how many drives the delivery is the mean of, 1 .. 10 000
  double club_loft = 0.0;              ///< [rad] of the driver in hand as it is set; 0: no file says (strike, compare)
  std::string club_setting;            ///< its sleeve is at, by name; empty: nobody says, or there is none
  double club_face = 0.0;              ///< [rad] that this setting turns the face, as LoftChoice::face
  std::string head = "modern-driver";  ///< a data file's id or path
  std::optional<Head> head_numbers;    ///< given in the pupil's own file: taken instead of `head`
  std::vector<LoftChoice> lofts;       ///< the club in hand is always among them
  Reach reach;                         ///< what can be done about the swing
  std::vector<Limit> limits;           ///< what drives must keep to
  Conditions conditions;               ///< turf and weather
  std::string ball = "reference";      ///< a data file's id or path
  std::optional<Tuning> tuned;         ///< none: head, ball and turf as modelled
  ArcEstimate arc;                     ///< for set-up targets
  Prices prices;                       ///< kLeastPrice .. kMostPrice each
  double fairway = 35.0 * 0.9144;      ///< [m] its width, 5 .. 150 (common practice)
  std::vector<std::string> assumed;    ///< sentences: what the file left open and what was taken instead
};

std::optional<double> known_club_loft(const Pupil& pupil);  ///< [rad] as it is set; none: no file says
double marked_loft(const Pupil& pupil);                     ///< [rad] on the head of the driver in hand
bool has_tuned_turf(const Pupil& pupil);                    ///< the tuning is of the turf that the pupil plays on

}  // namespace loftwright
