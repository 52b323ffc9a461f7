// Compiled once for each instruction set, with LOFTWRIGHT_LANES the width (lib/CMakeLists.txt). Nothing in here may be
// a function that other files could share: compiled for the newer machine, it would run on the older. .ci/check_lanes
// looks.
#include "shot/lane_drives.hpp"
#include "core/lanes_elementary.hpp"
#include "flight/integrate.hpp"
#include "ground/bounce.hpp"

namespace loftwright {

// What drive_from calls; found at the point of use.
template <>
FlightOf<Lanes<LOFTWRIGHT_LANES>> fly(const LaunchOf<Lanes<LOFTWRIGHT_LANES>>& launch,
                                      const FlightSettingOf<Lanes<LOFTWRIGHT_LANES>>& setting, double tolerance) {
  return detail::integrate(launch, setting, *std::get_if<AeroCurve>(&setting.aero->form), tolerance,
                           [](const auto&) {});
}
template <>
RunOf<Lanes<LOFTWRIGHT_LANES>> run_out(const LandingOf<Lanes<LOFTWRIGHT_LANES>>& landing,
                                       const RunSettingOf<Lanes<LOFTWRIGHT_LANES>>& setting) {
  return detail::run_on(landing, setting, *std::get_if<AeroCurve>(&setting.aero->form));
}

namespace detail {

// Drives that take about as many steps fly together: a lane that has landed waits for the last. The order for that, for
// at most kBlock of them, from numbers that grow with the time aloft: no more than a sorting into boxes.
constexpr std::size_t kBlock = 256;
using Order = std::array<std::uint8_t, kBlock>;
static_assert(kBlock - 1 <= std::numeric_limits<Order::value_type>::max());

static Order sorted(const std::array<double, kBlock>& keys, std::size_t count) {
  constexpr std::size_t kBoxes = 64;
  double least = keys[0], most = keys[0];
  for (std::size_t i = 1; i < count; ++i) {
    least = keys[i] < least ? keys[i] : least;
    most = keys[i] > most ? keys[i] : most;
  }
  const double scale = most > least ? (kBoxes - 1) / (most - least) : 0.0;
  Order box, order;
  std::array<std::size_t, kBoxes + 1> next{};
  for (std::size_t i = 0; i < count; ++i) {
    box[i] = static_cast<std::uint8_t>((keys[i] - least) * scale);
    ++next[box[i] + 1u];
  }
  for (std::size_t b = 1; b < kBoxes; ++b) next[b] += next[b - 1];
  for (std::size_t i = 0; i < count; ++i) order[next[box[i]]++] = static_cast<std::uint8_t>(i);
  return order;
}

// Vertical speed of launch and what lift adds to it in two seconds: grows with the time aloft. Rough. [m/s]
template <std::size_t N>
Lanes<N> climb(const LaunchOf<Lanes<N>>& launch, const Lanes<N>& lift_scale, const Setting& setting) {
  using L = Lanes<N>;
  constexpr double kWhile = 2.0;  // [s]
  const double slowing = 0.5 * setting.air.density * setting.ball.area() / setting.ball.mass;
  const L& v = launch.ball_speed;
  const L lift = std::get_if<AeroCurve>(&setting.aero.form)->at(L(0.0), {setting.ball.radius * launch.spin / v}).lift;
  const L key = v * launch.launch + (kWhile * setting.lift_scale * slowing) * lift_scale * v * v * lift *
                                        (1.0 - 0.5 * launch.tilt * launch.tilt);
  return select(abs_of(key) < L(1e6), key, L(0.0));
}

// The errors of N of the drives, but for the head's shape, whose work is done with the impact.
template <std::size_t N>
ModelErrorOf<Lanes<N>> errors_of(std::span<const DriveInput> in, const std::array<std::size_t, N>& which) {
  using E = ModelErrorOf<double>;
  using R = TurfErrorOf<double>;
  const auto of = [&](double E::*q) { return lanes_of<N>([&](std::size_t i) { return in[which[i]].error.*q; }); };
  const auto turf = [&](double R::*q) {
    return lanes_of<N>([&](std::size_t i) { return in[which[i]].error.turf.*q; });
  };
  return {of(&E::drag_scale),
          of(&E::lift_scale),
          of(&E::restitution),
          of(&E::tangential_restitution),
          {turf(&R::tilt), turf(&R::restitution), turf(&R::rolling), turf(&R::grass), turf(&R::tilt_speed),
           turf(&R::rise), turf(&R::friction)},
          {}};
}

template <std::size_t N>
void drive_lanes(std::span<const DriveInput> inputs, Handed handed, const Setting& setting, double tolerance,
                 std::span<Drive> drives) {
  using L = Lanes<N>;
  using D = Delivery;
  using H = HeadErrorOf<double>;
  for (std::size_t start = 0; start < inputs.size(); start += kBlock) {
    const std::span<const DriveInput> in = inputs.subspan(start, std::min(kBlock, inputs.size() - start));
    const std::span<Drive> out = drives.subspan(start, in.size());
    std::array<double, kBlock> keys;
    std::array<std::size_t, N> which;  // the last again where there are too few
    const auto gather = [&which](const auto& of) { return lanes_of<N>([&](std::size_t i) { return of(which[i]); }); };

    for (std::size_t first = 0; first < in.size(); first += N) {
      for (std::size_t i = 0; i < N; ++i) which[i] = std::min(first + i, in.size() - 1);
      const auto delivered = [&](double D::*q) {
        return gather([&in, q](std::size_t i) { return in[i].delivery.*q; });
      };
      const DeliveryOf<L> delivery{delivered(&D::club_speed), delivered(&D::attack),       delivered(&D::path),
                                   delivered(&D::face),       delivered(&D::dynamic_loft), delivered(&D::toe),
                                   delivered(&D::high)};
      const auto on_head = [&](double H::*q) {
        return gather([&in, q](std::size_t i) { return in[i].error.head.*q; });
      };
      ModelErrorOf<L> error = errors_of(in, which);
      error.head = {on_head(&H::inertia_up), on_head(&H::depth), on_head(&H::bulge)};
      const ImpactOf<L> impact = impact_from(delivery, handed, setting.head, setting.ball, error);
      const LaunchOf<L>& launch = impact.launch;
      const L smash = launch.ball_speed / delivery.club_speed, key = climb(launch, error.lift_scale, setting);
      for (std::size_t i = 0; i < N && first + i < in.size(); ++i) {
        Drive& drive = out[first + i];
        drive.launch = {lane(launch.ball_speed, i), lane(launch.launch, i), lane(launch.azimuth, i),
                        lane(launch.spin, i), lane(launch.tilt, i)};
        drive.sliding = lane(impact.sliding, i);
        drive.smash = lane(smash, i);
        drive.spin_loft = lane(impact.spin_loft, i);
        keys[first + i] = lane(key, i);
      }
    }
    const Order order = sorted(keys, in.size());
    for (std::size_t first = 0; first < in.size(); first += N) {
      for (std::size_t i = 0; i < N; ++i) which[i] = order[std::min(first + i, in.size() - 1)];
      const auto launched = [&](double Launch::*q) {
        return gather([&out, q](std::size_t i) { return out[i].launch.*q; });
      };
      const LaunchOf<L> launch{launched(&Launch::ball_speed), launched(&Launch::launch), launched(&Launch::azimuth),
                               launched(&Launch::spin), launched(&Launch::tilt)};
      const DriveOf<L> all = drive_from(launch, setting, tolerance, errors_of(in, which));
      const FlightOf<L>& f = all.flight;
      for (std::size_t i = 0; i < N && first + i < in.size(); ++i) {
        Drive& drive = out[which[i]];
        drive.flight = {lane(f.carry, i),
                        lane(f.side, i),
                        lane(f.apex, i),
                        lane(f.landing_angle, i),
                        lane(f.landing_speed, i),
                        lane(f.landing_heading, i),
                        lane(f.time, i),
                        lane(f.landing_spin, i),
                        f.end[i],
                        lane(f.outside_aero_range, i),
                        f.steps[i],
                        f.calls[i]};
        drive.run = {lane(all.run.bounce, i), lane(all.run.roll, i)};
        drive.total = lane(all.total, i);
        drive.side_at_rest = lane(all.side_at_rest, i);
      }
    }
  }
}

template void drive_lanes<LOFTWRIGHT_LANES>(std::span<const DriveInput>, Handed, const Setting&, double,
                                            std::span<Drive>);

}  // namespace detail

}  // namespace loftwright
