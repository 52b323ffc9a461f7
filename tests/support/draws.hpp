// Random inputs, the same on every machine: a seeded generator, the ranges tests draw from, and inputs as text for
// INFO.
#pragma once

#include <fmt/format.h>

#include <cstdint>
#include <random>
#include <string>

#include "settings.hpp"

namespace loftwright::test {

class Draws {
 public:
  explicit Draws(std::uint64_t seed) : bits_(seed) {}

  // std::uniform_real_distribution differs between standard libraries; this does not.
  double between(double low, double high) { return low + (high - low) * static_cast<double>(bits_() >> 11) * 0x1p-53; }

  // What a driver does to a ball.
  Launch drive() {
    return {between(75.0, 185.0) * kMph, between(3.0, 24.0) * kDeg, between(-8.0, 8.0) * kDeg,
            between(1200.0, 4500.0) * kRpm, between(-25.0, 25.0) * kDeg};
  }
  // All that Launch allows and that leaves the ground.
  Launch any_launch() {
    return {between(1.0, 110.0), between(0.01, 80.0) * kDeg, between(-60.0, 60.0) * kDeg, between(0.0, 15000.0) * kRpm,
            between(-180.0, 180.0) * kDeg};
  }
  // What players do with a driver.
  Delivery delivery() {
    return {between(55.0, 125.0) * kMph, between(-9.0, 8.0) * kDeg, between(-10.0, 10.0) * kDeg,
            between(-8.0, 8.0) * kDeg,   between(5.0, 24.0) * kDeg, between(-0.025, 0.025),
            between(-0.015, 0.015)};
  }
  // Any that Turf allows.
  Turf turf() {
    return {between(0.0, 40.0) * kDeg, between(0.05, 0.95), between(0.02, 1.0), between(0.0005, 0.2),
            between(0.5, 10.0),        between(0.3, 1.2),   between(0.05, 1.0), between(0.0, 3.0)};
  }
  Air air() { return {between(0.95, 1.30), between(1.70e-5, 1.90e-5)}; }
  Wind wind(WindProfile profile, double fastest = 12.0) {
    return {between(0.0, fastest), between(-kPi, kPi), between(2.0, 15.0), profile};
  }

 private:
  std::mt19937_64 bits_;
};

inline std::string text(const Launch& l) {
  return fmt::format("ball speed {:.6f} m/s, launch {:.6f} deg, azimuth {:.6f} deg, spin {:.4f} rpm, tilt {:.5f} deg",
                     l.ball_speed, l.launch / kDeg, l.azimuth / kDeg, l.spin / kRpm, l.tilt / kDeg);
}
inline std::string text(const Delivery& d) {
  return fmt::format(
      "club speed {:.6f} m/s, attack {:.5f} deg, path {:.5f} deg, face {:.5f} deg, dynamic loft {:.5f} deg, "
      "toe {:.4f} mm, high {:.4f} mm",
      d.club_speed, d.attack / kDeg, d.path / kDeg, d.face / kDeg, d.dynamic_loft / kDeg, d.toe * 1e3, d.high * 1e3);
}
inline std::string text(const Wind& w) {
  constexpr const char* kNames[] = {"uniform", "logarithmic", "power"};
  return fmt::format("wind {:.4f} m/s from {:.3f} deg at {:.3f} m, {}", w.speed, w.from / kDeg, w.height,
                     kNames[static_cast<int>(w.profile)]);
}
inline std::string text(const Air& a) {
  return fmt::format("density {:.6f} kg/m3, viscosity {:.6e} Pa s", a.density, a.viscosity);
}

}  // namespace loftwright::test
