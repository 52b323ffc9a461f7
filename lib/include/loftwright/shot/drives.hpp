// Many drives at once: several side by side in the lanes of one core. What uncertainty, charts and the grids of pages
// spend their time in. Same physics, same method, same tolerance as drive_from, each drive with its own steps, so a drive's
// numbers do not depend on its neighbours; they agree with drive_from within 1e-9 m (tests/property/drives_test.cpp).
#pragma once

#include <span>

#include "loftwright/shot/shot.hpp"

namespace loftwright {

struct DriveInput {
  Delivery delivery;                // the player's own hand
  ModelErrorOf<double> error{};
};

// How many drives go side by side on this processor: 16 with AVX-512, 8 with AVX2, else 4.
std::size_t lanes_here();

// drives[i] from inputs[i]; both of one size. A drive that cannot be computed has FlightEnd::not_finite, as from drive_from.
// Models of air given as a table are computed one drive at a time. `lanes` forces a narrower width (4, 8 or 16, at most
// lanes_here()) or, with 1, one drive at a time: for tests and measurements.
void drive_many(std::span<const DriveInput> inputs, Handed handed, const Setting& setting, double tolerance,
                std::span<Drive> drives, std::size_t lanes = lanes_here());

}  // namespace loftwright
