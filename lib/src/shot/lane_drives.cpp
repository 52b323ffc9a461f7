// Compiled once for each instruction set, with LOFTWRIGHT_LANES the width (lib/CMakeLists.txt). Nothing in here may be a
// function that other files could share: compiled for the newer machine, it would run on the older. .ci/check_lanes looks.
#include "core/lanes.hpp"
#include "flight/integrate.hpp"
#include "shot/lane_drives.hpp"

namespace loftwright {

// What drive_from calls; found at the point of use.
template <>
FlightOf<Lanes<LOFTWRIGHT_LANES>> fly(const LaunchOf<Lanes<LOFTWRIGHT_LANES>>& launch,
                                      const FlightSettingOf<Lanes<LOFTWRIGHT_LANES>>& setting, double tolerance) {
  return detail::integrate(launch, setting, *std::get_if<AeroCurve>(&setting.aero->form), tolerance, [](const auto&) {});
}

namespace detail {

template <std::size_t N>
void drive_lanes(std::span<const DriveInput> inputs, Handed handed, const Setting& setting, double tolerance,
                 std::span<Drive> drives) {
  using L = Lanes<N>;
  const std::size_t count = inputs.size();
  for (std::size_t first = 0; first < count; first += N) {
    const auto gather = [&](const auto& of) {
      std::array<double, N> x;
      for (std::size_t i = 0; i < N; ++i) x[i] = of(inputs[std::min(first + i, count - 1)]);
      return lanes_of(x);
    };
    const auto delivered = [&](double Delivery::*q) { return gather([q](const DriveInput& in) { return in.delivery.*q; }); };
    const auto erring = [&](double ModelErrorOf<double>::*q) { return gather([q](const DriveInput& in) { return in.error.*q; }); };
    using D = Delivery;
    using E = ModelErrorOf<double>;
    const DeliveryOf<L> delivery{delivered(&D::club_speed), delivered(&D::attack), delivered(&D::path), delivered(&D::face),
                                 delivered(&D::dynamic_loft), delivered(&D::toe), delivered(&D::high)};
    const ModelErrorOf<L> error{erring(&E::drag_scale), erring(&E::lift_scale), erring(&E::restitution),
                                erring(&E::tangential_restitution), erring(&E::turf_tilt_scale),
                                erring(&E::turf_restitution_scale)};
    const DriveOf<L> all = drive_from(delivery, handed, setting, tolerance, error);
    const LaunchOf<L>& launch = all.launch;
    const FlightOf<L>& f = all.flight;
    for (std::size_t i = 0; i < N && first + i < count; ++i) {
      drives[first + i] = {
          {lane(launch.ball_speed, i), lane(launch.launch, i), lane(launch.azimuth, i), lane(launch.spin, i), lane(launch.tilt, i)},
          lane(all.sliding, i),
          lane(all.smash, i),
          lane(all.spin_loft, i),
          {lane(f.carry, i), lane(f.side, i), lane(f.apex, i), lane(f.landing_angle, i), lane(f.landing_speed, i),
           lane(f.landing_heading, i), lane(f.time, i), lane(f.landing_spin, i), f.end[i], lane(f.outside_aero_range, i),
           f.steps[i], f.calls[i]},
          {lane(all.run.bounce, i), lane(all.run.roll, i)},
          lane(all.total, i),
          lane(all.side_at_rest, i)};
    }
  }
}

template void drive_lanes<LOFTWRIGHT_LANES>(std::span<const DriveInput>, Handed, const Setting&, double, std::span<Drive>);

}  // namespace detail

}  // namespace loftwright
