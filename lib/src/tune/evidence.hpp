// What one shot says about head, ball and turf: what was measured, what the model predicts for it, and how far the two
// may differ for other reasons.
#pragma once

#include <Eigen/Cholesky>

#include "loftwright/tune/tune.hpp"
#include "shots/parts.hpp"

namespace loftwright {

// Errors that all shots share: of each measured part of the delivery and of the launch, of the flight's readings, and
// of the shift that scatter of unmeasured parts brings.
inline constexpr int kDeliverySources = 7, kLaunchSources = 5, kFlightSources = 4;
inline constexpr int kSources = kDeliverySources + kLaunchSources + kFlightSources + 1;

inline constexpr std::size_t kTunables = kCountOf<Tunable>;
// Those before the turf's: a flight that carries no derivatives by the turf takes half the time.
inline constexpr std::size_t kTunablesAloft = index_of(Tunable::tilt_scale);

// Small enough to live on the stack.
using Rows = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kTuneReadingCount, 1>;
using RowsByRows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kTuneReadingCount, kTuneReadingCount>;
using RowsBySources = Eigen::Matrix<double, Eigen::Dynamic, kSources, 0, kTuneReadingCount, kSources>;
using RowsByTunables = Eigen::Matrix<double, Eigen::Dynamic, kTunables, 0, kTuneReadingCount, kTunables>;
using Sources = Eigen::Matrix<double, kSources, 1>;
using LaunchVector = Eigen::Matrix<double, kLaunchSources, 1>;
using Tunables = Eigen::Matrix<double, kTunables, 1>;  // in prior standard deviations away from the prior
constexpr Eigen::Index row_of(Tunable tunable) { return static_cast<Eigen::Index>(tunable); }

struct Evidence {
  bool odd = false;                             // marked in the list
  std::vector<std::size_t> readings;            // of kTuneReadings, ascending: one row each
  Rows measured;                                // [SI]
  RowsByRows own;                               // covariance of this shot's own errors
  RowsBySources shared;                         // one standard deviation of each shared error, as it shows here
  std::optional<Delivery> delivery;             // the pupil's means where not measured
  std::array<bool, kDeliverySources> hidden{};  // parts not measured, in the order of kDeliveryParts
  Launch launch;                                // as measured
  std::array<bool, kLaunchSources> known{};     // parts measured, in the order of kLaunchParts
  Launch shift{};      // what scatter of unmeasured parts, and noise of measured ones, does to the mean
  bool flies = false;  // has a reading of the flight
};

// One standard deviation of a turf's tilt, as a share of it; none of a turf that does not tilt.
inline double tilt_share(const Turf& turf, const ErrorWidths& w) {
  return turf.tilt > 0.0 ? turf.width * w.turf_tilt / turf.tilt : 0.0;
}

// Measured minus predicted, and its derivative along each tunable.
struct Residual {
  Rows value;
  RowsByTunables slope;
};

class Gatherer {
 public:
  // `setting` must outlive it. `hidden_scale` multiplies the pupil's spread where it stands in for what was not
  // measured.
  Gatherer(const Pupil& pupil, const Setting& setting, const TuneOptions& options, double hidden_scale = 1.0);

  // Empty when the shot holds nothing to fit to. Throws InputError where the model has no answer.
  std::optional<Evidence> gather(const Shot& shot) const;

  Rows residual(const Evidence& e, const Tunables& at) const;
  Residual residual_and_slope(const Evidence& e, const Tunables& at) const;

 private:
  // `aloft`: the same errors, as impact and flight vary with them.
  template <class T, class All>
  ByTuneReading<All> predicted(const Evidence& e, const ModelErrorOf<T>& aloft, const ModelErrorOf<All>& error) const;
  template <class T>
  ModelErrorOf<T> error_at(const ByTunable<T>& at) const;
  void add_scatter(Evidence& e, Eigen::Matrix<double, kLaunchSources, kLaunchSources>& scatter) const;
  void add_errors(Evidence& e) const;

  struct LaunchSlopes {
    LaunchVector launch = LaunchVector::Zero();
    Eigen::Matrix<double, kLaunchSources, kDeliverySources> slopes =
        Eigen::Matrix<double, kLaunchSources, kDeliverySources>::Zero();
  };
  LaunchSlopes launch_slopes(const Evidence& e) const;
  struct FlightSlopes {
    Eigen::Matrix<double, kFlightSources, kLaunchSources> by_launch =
        Eigen::Matrix<double, kFlightSources, kLaunchSources>::Zero();
    double run = 0.0;  // [m]
  };
  FlightSlopes flight_slopes(const Launch& from) const;
  struct SourceErrors {
    Sources own = Sources::Zero(), shared = Sources::Zero();  // one standard deviation each
  };
  SourceErrors source_errors(const Evidence& e, double run) const;

  const Setting& setting_;
  TuneOptions options_;
  Handed handed_;
  Delivery means_;
  Spread spread_;
  double hidden_scale_;
};

}  // namespace loftwright
