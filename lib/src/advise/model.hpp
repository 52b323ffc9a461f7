// The pupil's drive as a function of two variables, club loft and attack, with every limit: what all of advise
// evaluates.
#pragma once

#include <array>
#include <atomic>
#include <cmath>
#include <optional>
#include <span>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/shot/drives.hpp"

namespace loftwright {

// Where one evaluation stands: the goal is the average drive's, the limits the mean delivery's. Gradients are along
// loft and attack [per rad].
struct Point {
  double loft = 0.0;    // [rad]
  double attack = 0.0;  // [rad]
  double goal = 0.0;    // [m]
  std::array<double, 2> d_goal{};
  std::vector<double> excess;  // [-] scaled, positive: an end of a limit is passed; in the order of `ends`
  std::vector<std::array<double, 2>> d_excess;

  double worst() const;  // largest excess; 0 when no limit is passed
};

// One way things may truly be: what the player's hand does on one drive, and what the model does not know. The default
// is what was measured and modelled, struck perfectly.
struct Circumstances {
  Delivery deviation{};  // added to the delivery, the player's own hand
  ModelErrorOf<double> error{};
  double follow = kUsualFollow;
  double speed_per_attack = 0.0;  // [m/s per rad]
};

// The club as it is played now: held at its loft, sleeve and all. validate() has seen to it that there is one.
LoftChoice club_in_hand(const Pupil& pupil);

inline constexpr double kNoMove = 0.05 * kDegree;  // [rad] less is no change
inline bool same_angle(double a, double b) { return std::abs(a - b) < kNoMove; }

// Whether this is the club in hand, held as it is played.
bool is_as_played(const Pupil& pupil, const LoftChoice& club, double loft);
// The same of a choice that offers this one loft alone.
inline bool is_as_played(const Pupil& pupil, const LoftChoice& club) {
  return club.low == club.high && is_as_played(pupil, club, club.low);
}

// What a choice at this loft asks to be fitted; none: the club as it is played.
std::optional<ClubFit> fit_of(const Pupil& pupil, const LoftChoice& club, double loft);

// The average of drives, and how many of them a fairway holds whose middle is their mean side.
AverageDrive average_of(std::span<const Drive> drives, double fairway);

class DriveModel {
 public:
  // Counts every flight in `flights`, which must outlive the model and its copies. Const functions may run in parallel.
  // Throws InputError when the correlations of the pupil's spread cannot hold together.
  DriveModel(const Pupil& pupil, const Setting& setting, const AdviseOptions& options, std::atomic<int>& flights);

  // The same pupil in other circumstances: limits and goal alike.
  DriveModel under(const Circumstances& circumstances) const;
  // The same, averaging over at most so many drives: rougher and faster.
  DriveModel with_shots(std::size_t count) const;

  // One end of one limit.
  struct End {
    std::size_t limit;
    double bound;  // [SI]
    bool upper;
  };

  const Pupil& pupil() const { return pupil_; }
  const Setting& setting() const { return setting_; }
  const std::vector<End>& ends() const { return ends_; }
  const Circumstances& circumstances() const { return circumstances_; }

  template <class T>
  DeliveryOf<T> delivery(const LoftChoice& club, const T& loft, const T& attack) const {
    return delivery(club, loft, attack, circumstances_);
  }

  using Place = std::array<double, 2>;                                    // loft, attack [rad]
  Point value(const LoftChoice& club, double loft, double attack) const;  // no gradients
  Point gradient(const LoftChoice& club, double loft, double attack) const;
  // At many places side by side: limits and the average drive's goal, or the well-struck drive's.
  std::vector<Point> values(const LoftChoice& club, std::span<const Place> places) const;
  std::vector<Point> centred(const LoftChoice& club, std::span<const Place> places) const;

  Drive drive(const Delivery& delivery, double tolerance) const;
  // The average of the player's scatter.
  AverageDrive average(const LoftChoice& club, double loft, double attack) const;
  // One for each of the circumstances, at the tolerance of draws. `out` is as long.
  void drives(const LoftChoice& club, double loft, double attack, std::span<const Circumstances> circumstances,
              std::span<Drive> out) const;
  double goal_of(const Drive& drive) const;
  double goal_of(const AverageDrive& drive) const;
  ExchangeRates rates(const LoftChoice& club, double loft, double attack) const;
  std::vector<LimitState> limit_states(const Delivery& delivery, const Drive& drive) const;

 private:
  template <class T>
  DeliveryOf<T> delivery(const LoftChoice& club, const T& loft, const T& attack, const Circumstances& c) const {
    const Technique technique{pupil_.delivery, pupil_.club_loft, c.follow, c.speed_per_attack};
    DeliveryOf<T> d = technique.delivery(loft, attack) + c.deviation;
    d.face = d.face + (pupil_.handed == Handed::left ? -1.0 : 1.0) *
                          (club.face + club.face_per_loft * (loft - club.nominal) - pupil_.club_face);
    return d;
  }

  template <class T>
  DriveOf<T> drive(const DeliveryOf<T>& delivery, const ModelErrorOf<double>& error, double tolerance) const;
  template <class T>
  Point evaluate(const LoftChoice& club, const T& loft, const T& attack) const;
  template <class T>
  Point point(const T& loft, const T& attack, const T& goal, const DeliveryOf<T>& delivery,
              const DriveOf<T>& drive) const;
  // [m] the average drive's goal at each place
  std::vector<double> average_goals(const LoftChoice& club, std::span<const Place> places) const;
  std::vector<Drive> fly(const std::vector<DriveInput>& inputs, double tolerance) const;

  const Pupil& pupil_;
  const Setting& setting_;
  const AdviseOptions& options_;
  std::atomic<int>* flights_;
  Circumstances circumstances_;
  std::vector<Delivery> shots_;  // deviations the goal is averaged over; empty: the player does not scatter
  std::vector<End> ends_;
};

}  // namespace loftwright
