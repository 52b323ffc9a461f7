/// @file
/// Head, ball and turf tuned to a player's measured shots: restitution, tangential restitution, drag, lift, and the
/// turf's tilt, tilt speed, restitution and rolling, by generalised least squares with a Gaussian prior (of the
/// logarithms of the last three). How to read it: docs/tune.md; how it is done: docs/tune-method.md.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/core/detail/enum_array.hpp"
#include "loftwright/shots/shot_summary.hpp"

namespace loftwright {

/// Readings the fit is held against. The first three follow from the delivery; the others from the ball numbers, as far
/// as these were measured, else from the delivery. Of a total the run is taken: total minus carry, of shots that have
/// both.
inline constexpr std::array kTuneReadings{Reading::ball_speed, Reading::launch,  Reading::spin, Reading::carry,
                                          Reading::apex,       Reading::landing, Reading::total};
/// How many there are.
inline constexpr std::size_t kTuneReadingCount = kTuneReadings.size();
template <class T>
using ByTuneReading = std::array<T, kTuneReadingCount>;  ///< one entry for each, in that order

/// One standard deviation of what a device gets wrong, shot by shot (noise) and on all shots alike (systematic).
struct DeviceError {
  double noise;             ///< [SI], or a share of the reading [-]
  double systematic;        ///< likewise
  bool of_reading = false;  ///< shares
};
/// A good device's, estimates all; zero for readings that no prediction uses. Of the total: what it adds to the run.
ByReading<DeviceError> good_device();

/// How a fit is done.
struct TuneOptions {
  Outliers odd = Outliers::keep;  ///< whether outliers count
  int folds = 10;  ///< [-] 2 or more: parts that are left out in turn; as many as shots or more: each shot alone
  std::uint64_t seed = 1;                         ///< which shot is in which part
  int threads = 1;                                ///< for the parts; the answer is the same for any number
  ErrorWidths widths;                             ///< the prior's standard deviations
  ByReading<DeviceError> device = good_device();  ///< what the device gets wrong
  /// Where path, face or strike point were not measured they are the pupil's means and scatter as the pupil's spread.
  /// Those means are known this well (one standard deviation, estimates), and how far scatter shifts the mean shot to
  /// this share.
  double hidden_direction = 2.0 * kDegree;  ///< [rad] path, face
  double hidden_strike = 0.005;             ///< [m] toe, high
  double hidden_shift = 0.5;                ///< [-]
  /// How irregularly a ball bounces on real turf: one standard deviation of a shot's run, as a share of it (estimate).
  double run_scatter = 0.15;            ///< [-]
  double tolerance = kFlightTolerance;  ///< [-] of the flights
};

inline constexpr std::size_t kLeastForTuning = 5;  ///< shots (estimate)
inline constexpr double kTuneReach = 4.0;          ///< [-] prior standard deviations either way that the fit may go
/// A value stays at its prior, in words, when the shots take less than this share off its standard deviation
/// (estimate).
inline constexpr double kLeastRemoved = 0.10;  ///< [-]

/// One tuned value. All [-].
struct TunedValue {
  Tunable tunable;  ///< which
  double prior;     ///< as modelled
  double prior_sd;  ///< its standard deviation
  double value;     ///< fitted
  double sd;        ///< its standard deviation
  double low80;     ///< eight times in ten the truth lies between this ...
  double high80;    ///< ... and this, if the model and its errors are as stated
  double low95;     ///< 95 times in a hundred between this ...
  double high95;    ///< ... and this
  double removed;   ///< share of the prior's standard deviation that the shots took away
  bool identified;  ///< removed >= kLeastRemoved
  bool at_end;      ///< held by an end of what the fit may reach
};

/// Measured minus computed over some shots. [SI]
struct Misses {
  double mean = 0.0;  ///< [SI]
  double rms = 0.0;   ///< [SI] root of the mean square
};

/// One reading: how far off before and after.
struct TunedReading {
  Reading reading;          ///< which
  std::size_t count;        ///< shots that have it
  Misses untuned;           ///< of the shots fitted to
  Misses tuned;             ///< likewise
  double expected;          ///< [SI] standard deviation that a single shot's noise and strike explain
  double widened;           ///< [SI] noise added because the shots scatter more than that; 0: they do not
  Misses left_out_untuned;  ///< of shots while they were left out of the fit
  Misses left_out_tuned;    ///< likewise
};

/// What measuring runs is worth: of the run of a drive as the pupil's mean swing makes it, as far as the turf leaves it
/// uncertain. By the information of one shot and what a device gets wrong in all of them alike.
struct RunWorth {
  double prior_sd;              ///< [m] untuned
  double sd;                    ///< [m] tuned, on the turf that was found
  double least_share;           ///< [-] of prior_sd that no number of shots takes away
  std::optional<int> to_halve;  ///< shots with carry and total, in all, that halve prior_sd; none: however many do not
};

/// Whether the tuned model predicts other shots better.
enum class TuneVerdict { better, no_better, worse };
template <>
inline constexpr std::size_t kCountOf<TuneVerdict> = 3;  ///< how many there are
std::string_view key_of(TuneVerdict verdict);            ///< "better", "no_better", "worse"

/// How the tuned model predicts shots that it was not fitted to, against the untuned one. A shot's miss is the mean
/// over its readings of the squared residual in units of the expected standard deviation.
struct LeftOut {
  int folds = 0;            ///< [-] parts that were left out in turn
  double untuned = 0.0;     ///< [-] root of the mean miss of the untuned model ...
  double tuned = 0.0;       ///< [-] ... and of the tuned
  double difference = 0.0;  ///< [-] mean of (untuned - tuned) miss a shot, with its 95 % interval (paired t)
  double low = 0.0;         ///< [-] its lower end
  double high = 0.0;        ///< [-] its upper end
  TuneVerdict verdict = TuneVerdict::no_better;  ///< that interval lies above zero, holds it, or lies below
};

/// All that a fit says.
struct TuneResult {
  std::size_t shots = 0;                     ///< fitted to
  std::size_t with_strike = 0;               ///< of them with a delivery and at least one ball number
  std::size_t with_flight = 0;               ///< with a carry, apex or landing
  std::size_t with_run = 0;                  ///< with carry and total
  std::string turf;                          ///< they ran on
  std::size_t odd = 0;                       ///< that stand far out from the others
  ByTunable<TunedValue> values;              ///< each tuned value
  ByTunable<ByTunable<double>> correlation;  ///< [-] of the fitted values
  /// [-] what the fit left: residuals in units of their errors, and the way from the prior, squared. If all errors are
  /// as stated it is distributed as chi-square with as many degrees of freedom as there are readings.
  double chi_square = 0.0;
  std::size_t degrees_of_freedom = 0;  ///< [-] readings
  double chi_square_p = 0.0;           ///< [-] chance of a larger one
  std::vector<TunedReading> readings;  ///< those measured, in the order of kTuneReadings
  std::vector<Reading> hidden;         ///< parts of the delivery not measured in some shot that was fitted to
  double hidden_scale = 1.0;           ///< [-] of the pupil's spread in them that the shots leave room for, 0 .. 1
  LeftOut left_out;                    ///< is it worth having?
  std::optional<RunWorth> run;         ///< none: the pupil's mean swing makes no flight
  std::vector<Note> notes;             ///< shots not fitted to, by line, and why
  long drives = 0;                     ///< shots computed, in all fits together

  Tuning tuning() const;  ///< for the pupil
};

/// `setting` and `pupil` untuned: a Tuning the pupil already has must not have gone into the setting, for the same
/// shots would count twice. Of the pupil, hand, means and spread are used. Throws InputError with fewer than
/// kLeastForTuning shots that say anything, or options out of range.
TuneResult tune(const ShotList& list, const Pupil& pupil, const Setting& setting, const TuneOptions& options = {});

}  // namespace loftwright
