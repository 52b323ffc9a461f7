/// @file
/// Where drives come to rest when the player's own scatter moves the delivery from drive to drive.
#pragma once

#include <cstdint>
#include <vector>

#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shot/shot.hpp"

namespace loftwright {

/// Where one drive comes to rest.
struct Finish {
  double along = 0.0;  ///< [m] total, down the target line
  double side = 0.0;   ///< [m] at rest, right of it
};

/// How many drives, how closely, and which.
struct FinishOptions {
  int count = 256;          ///< [-] drives; a power of two is best
  double tolerance = 6e-5;  ///< [-] a centimetre, where yards scatter
  std::uint64_t seed = 1;   ///< the same seed gives the same drives
};

/// Drives scattered around `mean` (the player's own hand) by the pupil's spread, or the usual one. Throws InputError
/// when its correlations cannot hold together.
std::vector<Finish> finishes(const Pupil& pupil, const Setting& setting, const Delivery& mean,
                             const FinishOptions& options = {});

/// The ellipse of their mean and covariance that holds `share` of them if they are normally spread. At least two
/// finishes.
struct FinishEllipse {
  Finish centre;         ///< their mean
  double longer = 0.0;   ///< [m] half axes
  double shorter = 0.0;  ///< [m] of the other
  double turn = 0.0;     ///< [rad] of the longer axis, right of the target line
};
/// `share` [-] lies above 0 and below 1.
FinishEllipse ellipse_of(const std::vector<Finish>& finishes, double share);

}  // namespace loftwright
