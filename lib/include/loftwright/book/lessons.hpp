/// @file
/// What a coach's lessons do, from the books of an academy: how delivered loft and club speed moved with attack, and
/// how much of what was promised was reached; each pooled over the pupils, so that few say little. How:
/// docs/lessons.md.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/book/book.hpp"
#include "loftwright/stats/detail/pool.hpp"

namespace loftwright {

/// What a device gets wrong anew each day, one standard deviation: half of the variance of what a good one gets wrong
/// in all shots alike (good_device of tune/tune.hpp), the other half being the same in every session. Estimates.
struct DayError {
  double attack = 0.28 * kDegree;        ///< [rad]
  double dynamic_loft = 0.35 * kDegree;  ///< [rad]
  double club_speed = 0.005;             ///< [-] of it
};

/// What is taken to begin with.
struct LessonsOptions {
  /// The literature's widths of follow and speed cost: half the variance is of the pupils' mean, half between pupils
  /// (estimate).
  ErrorWidths widths;
  DayError day;  ///< of a session's mean, beside what its few shots leave open
  /// How delivered loft and club speed vary from day to day beside what follows the attack, and attack from session to
  /// session: scales of half-normal priors (estimates).
  double loft_by_day = 0.7 * kDegree;        ///< [rad]
  double speed_by_day = 0.5;                 ///< [m/s]
  double attack_by_session = 4.0 * kDegree;  ///< [rad]
  /// The reached share of what was promised: mean, how well that is known, and between pupils (estimates).
  double reached = 1.0;          ///< [-]
  double reached_sd = 0.4;       ///< [-]
  double reached_between = 0.4;  ///< [-]
  int threads = 1;               ///< the answer is the same for any number
};

/// Promises that count for less than this many metres say nothing of a share.
inline constexpr double kLeastPromise = 2.0 * 0.9144;  ///< [m] (estimate)

/// One promise beside what was reached of it, both under the reference conditions. [m] of the promise's goal
struct Reckoning {
  std::string pupil;               ///< whose
  int session = 0;                 ///< that the promise was made at
  int reached_session = 0;         ///< the last with the promised driver, up to the next promise
  Lever lever = Lever::technique;  ///< what was to change
  double predicted = 0.0;          ///< [m]
  double predicted_loft = 0.0;     ///< [m] of that by the loft alone: a purchase is had, a lesson is to be learnt
  double predicted_low = 0.0;      ///< [m] eight of ten were to lie between this ...
  double predicted_high = 0.0;     ///< [m] ... and this
  double reached = 0.0;            ///< [m] the later session's drive minus the promising one's
};

/// What the lessons of an academy do: what a file keeps, and advise takes.
struct Academy {
  Pooled follow;                        ///< [-] delivered loft a degree of attack
  Pooled speed_per_attack;              ///< [m/s per rad] club speed gained as the attack rises
  std::optional<Pooled> reached_share;  ///< [-] of what was promised of a swing; none: no promise has an outcome yet
  std::vector<Reckoning> calibration;   ///< every promise that has an outcome, by pupil and session
};

/// One book of the academy, and what of it counts.
struct PupilLessons {
  std::string file;           ///< as it is named
  std::string pupil;          ///< whose book it is
  std::size_t sessions = 0;   ///< in it
  std::size_t inferred = 0;   ///< left out: their deliveries were worked back from ball numbers
  std::size_t pairs = 0;      ///< sessions that have one before them with the same driver
  double attack_moved = 0.0;  ///< [rad] from the first session that counts to the last with its driver, the widest
  std::size_t promises = 0;   ///< kept with a session
  std::size_t outcomes = 0;   ///< of them with a later session to hold them against
};

/// All that the books say.
struct Lessons {
  Academy academy;                   ///< pooled
  std::vector<PupilLessons> pupils;  ///< in the order of the books
};

/// A book, and what it is called.
struct NamedBook {
  std::string file;  ///< as it is named
  Book book;         ///< the record
};

/// The model's drive under the reference conditions: reference_drive with the head's reference_setting.
using ReferenceDriveOf = std::function<ReferenceDrive(const Delivery&, Handed, const std::string& head)>;

/// Of any number of books, none too: then what the literature says comes back. `drive_of` is asked for promises alone;
/// what it throws is passed on.
Lessons lessons(const std::vector<NamedBook>& books, const ReferenceDriveOf& drive_of,
                const LessonsOptions& options = {});

/// An academy, and what its file is called.
struct NamedAcademy {
  std::string file;  ///< as it is named
  Academy academy;   ///< what was found
};

/// Puts what the academy found in place of the literature's wherever the pupil's file leaves follow or speed cost open
/// (Pupil::assumed tells); what the pupil's own file gives stands, with the literature's width. What was taken, a
/// sentence each, as it now stands in Pupil::assumed.
std::vector<std::string> take_academy(const NamedAcademy& from, Pupil& pupil, ErrorWidths& widths);

/// What stands beside advice of an academy's pupils (Advice::reached); none: no promise has an outcome yet.
std::optional<ReachedShare> reached_share_of(const Academy& academy);

}  // namespace loftwright
