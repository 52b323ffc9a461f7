#include "loftwright/shot/drives.hpp"

#include "core/traps.hpp"
#include "shot/lane_drives.hpp"

namespace loftwright {

std::size_t lanes_here() {
#ifdef LOFTWRIGHT_WIDE_LANES
  // The sets of the x86-64 psABI's levels 3 and 4 that lane_drives.cpp is compiled for.
  const bool v3 = __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma") && __builtin_cpu_supports("bmi2");
  if (v3 && __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
      __builtin_cpu_supports("avx512bw") && __builtin_cpu_supports("avx512cd") && __builtin_cpu_supports("avx512vl")) {
    return 32;
  }
  if (v3) return 16;
#endif
  return 8;
}

void drive_many(std::span<const DriveInput> inputs, Handed handed, const Setting& setting, double tolerance,
                std::span<Drive> drives, std::size_t lanes) {
  if (lanes == 1 || tolerance < kLeastLaneTolerance || !std::holds_alternative<AeroCurve>(setting.aero.form)) {
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      drives[i] = drive_from(inputs[i].delivery, handed, setting, tolerance, inputs[i].error);
    }
    return;
  }
  const WithoutTraps here;
#ifdef LOFTWRIGHT_WIDE_LANES
  if (lanes == 32) return detail::drive_lanes<32>(inputs, handed, setting, tolerance, drives);
  if (lanes == 16) return detail::drive_lanes<16>(inputs, handed, setting, tolerance, drives);
#endif
  detail::drive_lanes<8>(inputs, handed, setting, tolerance, drives);
}

std::vector<Drive> drive_many(std::span<const DriveInput> inputs, Handed handed, const Setting& setting,
                              double tolerance) {
  std::vector<Drive> drives(inputs.size());
  drive_many(inputs, handed, setting, tolerance, drives);
  return drives;
}

}  // namespace loftwright
