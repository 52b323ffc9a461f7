// The pupil's drive as a function of two variables, club loft and attack, with every limit: what all of advise evaluates.
#pragma once

#include <array>
#include <vector>

#include "loftwright/advise/advise.hpp"

namespace loftwright {

// Where one evaluation stands. Gradients are along loft and attack [per rad].
struct Point {
  double loft = 0.0;    // [rad]
  double attack = 0.0;  // [rad]
  double goal = 0.0;    // [m]
  std::array<double, 2> d_goal{};
  std::vector<double> excess;                      // [-] scaled, positive: an end of a limit is passed; in the order of `ends`
  std::vector<std::array<double, 2>> d_excess;

  double worst() const;  // largest excess; 0 when no limit is passed
};

class DriveModel {
 public:
  DriveModel(const Pupil& pupil, const Setting& setting, const AdviseOptions& options);

  // One end of one limit.
  struct End {
    std::size_t limit;
    double bound;  // [SI]
    bool upper;
  };

  const Pupil& pupil() const { return pupil_; }
  const std::vector<End>& ends() const { return ends_; }
  const Technique& technique() const { return technique_; }
  int flights() const { return flights_; }

  template <class T>
  DeliveryOf<T> delivery(const LoftChoice& club, const T& loft, const T& attack) const {
    DeliveryOf<T> d = technique_.delivery(loft, attack);
    d.face = d.face + (pupil_.handed == Handed::left ? -1.0 : 1.0) * club.face_per_loft * (loft - club.nominal);
    return d;
  }

  Point value(const LoftChoice& club, double loft, double attack) const;     // no gradients: the cheaper flight
  Point gradient(const LoftChoice& club, double loft, double attack) const;
  Drive drive(const Delivery& delivery, double tolerance) const;
  double goal_of(const Drive& drive) const;
  ExchangeRates rates(const LoftChoice& club, double loft, double attack) const;
  std::vector<LimitState> limit_states(const Delivery& delivery, const Drive& drive) const;

 private:
  template <class T>
  Point evaluate(const LoftChoice& club, const T& loft, const T& attack) const;

  const Pupil& pupil_;
  const Setting& setting_;
  const AdviseOptions& options_;
  Technique technique_;
  std::vector<End> ends_;
  mutable int flights_ = 0;  // a tally, no part of any result
};

}  // namespace loftwright
