// A turf tuned to a pupil's own runs: where it counts, and how surely it is taken to be known.
#include <catch2/catch.hpp>
#include <cmath>

#include "advise/uncertainty.hpp"
#include "pupils.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

Uncertainty::Deviates only(std::size_t unknown, double z) {
  Uncertainty::Deviates all{};
  all[unknown] = z;
  return all;
}

Pupil tuned_on(const std::string& turf) {
  Pupil p = plain_pupil();
  p.tuned = Tuning{{0.82, 0.1, 0.8, 1.2, 1.25, 0.8, 1.25, 0.8}, {0.01, 0.04, 0.04, 0.06, 0.125, 0.08, 0.125, 0.08}, {{6, 7, 0.6}, {2, 6, 0.5}}, 30, turf};
  return p;
}

}  // namespace

TEST_CASE("the turf is as uncertain as it was tuned, together, whatever the turf's width", "[advise]") {
  const Pupil p = tuned_on(Conditions{}.turf);
  CHECK(has_tuned_turf(p));
  Setting setting = default_setting();
  setting.turf.width = 1.5;
  const ErrorWidths widths;
  const Uncertainty u(p, setting, widths);
  for (const double z : {-2.0, 1.0}) {
    // Times or over 1.1, whatever was modelled. Bounce shares half of its deviate with drag; the rest is its own.
    const double rest = std::sqrt(1.0 - 0.25);
    CHECK(u.at(only(kTurfRestitution, z)).error.turf.restitution == Approx(std::pow(1.1, rest * z)));
    CHECK(u.at(only(kDrag, z)).error.turf.restitution == Approx(std::pow(1.1, 0.5 * z)));
    CHECK(u.at(only(kTurfRestitution, z)).error.turf.rolling == Approx(std::pow(1.1, 0.6 / rest * z)));
    CHECK(u.at(only(kTurfRolling, z)).error.turf.restitution == 1.0);
    CHECK(u.at(only(kTurfTilt, z)).error.turf.tilt == Approx(0.1 * setting.turf.tilt * z));
    CHECK(u.at(only(kTurfTiltSpeed, z)).error.turf.tilt_speed == Approx(std::pow(1.1, z)));
    CHECK(u.at(only(kTurfGrass, z)).error.turf.grass == Approx(std::pow(1.0 + widths.turf_grass, 1.5 * z)));  // nobody tuned that
  }
}

TEST_CASE("on another turf, or where no run was measured, it is as uncertain as any turf's", "[advise]") {
  const ErrorWidths widths;
  for (const char* turf : {"firm", ""}) {
    const Pupil p = tuned_on(turf);
    CAPTURE(turf);
    CHECK_FALSE(has_tuned_turf(p));
    for (const double width : {1.0, 1.5}) {
      Setting setting = default_setting();
      setting.turf.width = width;
      const Uncertainty u(p, setting, widths);
      for (const double z : {-2.0, 1.0}) {
        CHECK(u.at(only(kTurfRestitution, z)).error.turf.restitution == Approx(std::pow(1.20, width * z)));
        CHECK(u.at(only(kTurfRolling, z)).error.turf.rolling == Approx(std::pow(1.35, width * z)));
        CHECK(u.at(only(kTurfTilt, z)).error.turf.tilt == Approx(2.5 * kDeg * width * z));
        CHECK(u.at(only(kTurfTiltSpeed, z)).error.turf.tilt_speed == Approx(std::pow(1.50, width * z)));
        CHECK(u.at(only(kDrag, z)).error.turf.restitution == 1.0);
        CHECK(u.at(only(kDrag, z)).error.drag_scale == Approx(1.0 + 0.05 * z));
      }
    }
  }
}
