/// @file
/// Many drives at once: several side by side in the lanes of one core. What uncertainty, maps, finishes, the tables of
/// pages and the intervals of a comparison are made of. Same physics, same method, same tolerance as drive_from, each
/// drive with its own steps, so a drive's numbers do not depend on its neighbours. Lanes compute in single precision:
/// flights within 1 mm of drive_from, 0.05 mm in the median; with less than 60 rad/s of spin 3 mm, and where S passes
/// kGreatestSpinRatio on the way, 8 mm (the tolerance leaves as much open there). The bits are the same on every
/// processor (tests/property/drives_test.cpp).
#pragma once

#include <span>
#include <vector>

#include "loftwright/shot/shot.hpp"

namespace loftwright {

/// One drive of many.
struct DriveInput {
  Delivery delivery;             ///< the player's own hand
  ModelErrorOf<double> error{};  ///< none unless given
};

/// A finer tolerance would be lost in the rounding of lanes: drives are then computed one at a time.
inline constexpr double kLeastLaneTolerance = 1e-6;

/// How many drives go side by side on this processor: 32 with AVX-512, 16 with AVX2, else 8.
std::size_t lanes_here();

/// drives[i] from inputs[i]; both of one size. A drive that cannot be computed has FlightEnd::not_finite, as from
/// drive_from. Models of air given as a table are computed one drive at a time. `lanes` forces a narrower width (8, 16
/// or 32, at most lanes_here()) or, with 1, one drive at a time: for tests and measurements.
void drive_many(std::span<const DriveInput> inputs, Handed handed, const Setting& setting, double tolerance,
                std::span<Drive> drives, std::size_t lanes = lanes_here());
/// The same into a list of its own.
std::vector<Drive> drive_many(std::span<const DriveInput> inputs, Handed handed, const Setting& setting,
                              double tolerance);

}  // namespace loftwright
