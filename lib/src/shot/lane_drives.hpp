// One width of lanes, for settings whose model of air is an AeroCurve: what drives.cpp chooses from. Each is compiled
// from lane_drives.cpp for its own instruction set.
#pragma once

#include "loftwright/shot/drives.hpp"

namespace loftwright::detail {

template <std::size_t N>
void drive_lanes(std::span<const DriveInput> inputs, Handed handed, const Setting& setting, double tolerance,
                 std::span<Drive> drives);

}  // namespace loftwright::detail
