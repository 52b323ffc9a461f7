/// @file
/// A pupil of whom only some things are known, made into one that can be advised on: what is usual takes the place of
/// what is not given, and every such assumption is told.
#pragma once

#include <array>
#include <bitset>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/core/detail/enum_array.hpp"
#include "loftwright/pupil/pupil.hpp"

namespace loftwright {

/// What may be left open, in the order in which it is told what was taken instead.
enum class Datum {
  handed,
  goal,
  ball,
  head,
  face_per_loft,
  club_setting,  ///< of a sleeve that has settings
  lofts,
  path,
  face,
  toe,
  high,
  azimuth,
  tilt,
  measured_shots,
  skill,
  spread,  ///< and the next six: a scatter each, in the order of Spread
  spread_attack,
  spread_path,
  spread_face,
  spread_dynamic_loft,
  spread_toe,
  spread_high,
  effort_per_attack,
  reach,
  follow,
  speed_per_attack,
  conditions,  ///< any of them
  altitude,    ///< or pressure
  temperature,
  humidity,
  wind,
  turf,
  wind_height,
  wind_profile,
  plane,
  radius,
  driver_price,
  swing_price,
  fairway,
};
template <>
inline constexpr std::size_t kCountOf<Datum> = index_of(Datum::fairway) + 1;  ///< how many there are
/// that numbered `part` in the order of Spread
constexpr Datum scatter_of(std::size_t part) { return static_cast<Datum>(index_of(Datum::spread) + part); }

/// What was said of a pupil.
class Given {
 public:
  /// Among what was said, if it was.
  Given& add(Datum datum, bool is_given = true) {
    if (is_given) given_.set(index_of(datum));
    return *this;
  }
  bool has(Datum datum) const { return given_.test(index_of(datum)); }  ///< whether it was said

 private:
  std::bitset<kCountOf<Datum>> given_;
};

/// A datum that is one number: from its row come the key that files read, the check of its range, whether it was given
/// (what is not as in Pupil{} was), and what is told when it was not.
struct NumberDatum {
  Datum datum;                  ///< which
  std::string_view section;     ///< of the file, "conditions"; empty: at its top
  Quantity quantity;            ///< its key and range
  double& (*of)(Pupil&);        ///< where it is, [SI]
  std::string_view taken = "";  ///< the sentence when it is not given; empty: told with another, or not at all
};
/// All of them.
inline constexpr std::array kNumberData{
    NumberDatum{Datum::follow, "reach", Quantity::follow, [](Pupil& p) -> double& { return p.reach.follow; },
                "How far delivered loft follows the attack was not given: 0.85 taken (estimate)."},
    NumberDatum{Datum::altitude, "conditions", Quantity::altitude,
                [](Pupil& p) -> double& { return p.conditions.altitude; }},
    NumberDatum{Datum::temperature, "conditions", Quantity::temperature,
                [](Pupil& p) -> double& { return p.conditions.temperature; }},
    NumberDatum{Datum::humidity, "conditions", Quantity::humidity,
                [](Pupil& p) -> double& { return p.conditions.humidity; }},
    NumberDatum{Datum::wind, "conditions", Quantity::wind, [](Pupil& p) -> double& { return p.conditions.wind.speed; }},
    NumberDatum{Datum::wind_height, "conditions", Quantity::wind_height,
                [](Pupil& p) -> double& { return p.conditions.wind.height; }},
    NumberDatum{Datum::plane, "arc", Quantity::plane, [](Pupil& p) -> double& { return p.arc.plane; }},
    NumberDatum{Datum::radius, "arc", Quantity::radius, [](Pupil& p) -> double& { return p.arc.radius; }},
    NumberDatum{Datum::fairway, "", Quantity::fairway, [](Pupil& p) -> double& { return p.fairway; },
                "The fairway's width was not given: 35 yd (32 m) taken (common practice)."},
};

/// What was said of a pupil made in code: whatever is not as in Pupil{}.
Given what_is_given(const Pupil& pupil);

/// A sentence to stand among the assumptions, before that of its datum.
struct Told {
  Datum before;          ///< whose sentence it stands before
  std::string sentence;  ///< for people
};

/// Fills in lofts and reach where they are not given, and appends to pupil.assumed a sentence for everything that was
/// not. Needs club loft and delivery; throws nothing: validate() says whether the outcome can be used.
void complete(Pupil& pupil, const Given& given, const std::vector<Told>& told = {});
/// The same for a pupil made in code.
inline void complete(Pupil& pupil) { complete(pupil, what_is_given(pupil)); }

/// What is told where a pupil's follow or speed cost is not given; of other data empty.
std::string_view taken_sentence(Datum datum);

/// Every usual loft, where none is on offer; and the club in hand among them.
void complete_lofts(Pupil& pupil);

/// Attacks to aim for that are common, and a change of attack that many make; what lies beyond is doubted, and nothing
/// beyond is taken where nobody says. What is common is common practice; how much is learnt is an estimate. [rad]
inline constexpr double kCommonTarget = 6.0 * kDegree;
inline constexpr double kCommonChange = 6.0 * kDegree;  ///< [rad] likewise
/// [rad] Lofts no further apart are one and the same: closer than any is made.
inline constexpr double kLoftsApart = 0.01 * kDegree;

}  // namespace loftwright
