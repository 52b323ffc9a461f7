// Dual numbers through a whole drive against central differences of tightly integrated ones.
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

constexpr double kDeltaTolerance = 1e-12;  // of the flights the differences are taken of
using Five = Dual<5>;
using Point = std::array<double, 5>;

// Central difference of fourth order, and how far its two halves disagree: they do where a law has a kink or a step.
struct Slope {
  double value;
  double doubt;
};
Slope slope(const std::function<double(double)>& f, double h) {
  const double inner = (f(h) - f(-h)) / (2.0 * h), outer = (f(2.0 * h) - f(-2.0 * h)) / (4.0 * h);
  return {(4.0 * inner - outer) / 3.0, std::abs(inner - outer) + std::abs((f(h) - 2.0 * f(0.0) + f(-h)) / h)};
}

}  // namespace

TEST_CASE("derivatives of a flight are those of central differences", "[flight]") {
  Draws draws(91);
  const Ball ball;
  const AeroModel models[] = {reference_aero(), smits_smith_aero(), linear_aero(), ballistic_range_aero()};
  const double steps[] = {0.02, 1e-4, 1e-4, 0.1, 1e-4};  // m/s, rad, rad, rad/s, rad
  const double sizes[] = {1.0, 57.3 * 0.3, 57.3 * 0.3, 0.02,
                          57.3 * 0.3};  // of a derivative, roughly: 1 m per m/s, 0.3 m per deg, 2 cm per rad/s
  for (int i = 0; i < 90; ++i) {
    Launch launch = draws.drive();
    launch.spin = std::min(launch.spin, 3300.0 * kRpm);  // the kink at S = 0.5 has no derivative
    const AeroModel& aero = models[i / 2 % 4];
    const Air air = draws.air();
    const Wind wind = i % 2 ? draws.wind(WindProfile::logarithmic, 8.0) : Wind{};
    auto at = [&](const Point& x) {
      return fly(Launch{x[0], x[1], x[2], x[3], x[4]}, FlightSetting{&ball, &aero, air, wind}, kDeltaTolerance);
    };
    const Point x{launch.ball_speed, launch.launch, launch.azimuth, launch.spin, launch.tilt};
    LaunchOf<Five> dual;
    dual.ball_speed = Five::variable(x[0], 0);
    dual.launch = Five::variable(x[1], 1);
    dual.azimuth = Five::variable(x[2], 2);
    dual.spin = Five::variable(x[3], 3);
    dual.tilt = Five::variable(x[4], 4);
    const FlightSettingOf<Five> setting{&ball, &aero, air, wind};
    const FlightOf<Five> usual = fly(dual, setting), tight = fly(dual, setting, 1e-11);
    INFO(aero.id << ": " << text(launch) << "; " << text(wind));
    CHECK(usual.carry.v == fly(launch, FlightSetting{&ball, &aero, air, wind}).carry);  // values are those of doubles
    for (std::size_t k = 0; k < 5; ++k) {
      auto moved = [&](auto&& pick) {
        return slope(
                   [&](double h) {
                     Point y = x;
                     y[k] += h;
                     return pick(at(y));
                   },
                   steps[k])
            .value;
      };
      const double carry = moved([](const Flight& f) { return f.carry; });
      const double side = moved([](const Flight& f) { return f.side; });
      const double apex = moved([](const Flight& f) { return f.apex; });
      const double angle = moved([](const Flight& f) { return f.landing_angle; });
      INFO("direction " << k << ": carry " << carry << ", side " << side << ", apex " << apex);
      // Tight: differences of flights good to 1e-9 m over these steps are good to 1e-6 of the size of a derivative.
      CHECK(std::abs(tight.carry.d[k] - carry) < 2e-5 * sizes[k]);
      CHECK(std::abs(tight.side.d[k] - side) < 2e-5 * sizes[k]);
      CHECK(std::abs(tight.apex.d[k] - apex) < 2e-5 * sizes[k]);
      CHECK(std::abs(tight.landing_angle.d[k] - angle) < 2e-5 * sizes[k]);
      // At the default tolerance the derivative is that of the steps taken: good to three digits, as the carry is to
      // six.
      CHECK(std::abs(usual.carry.d[k] - carry) < 2e-3 * sizes[k]);
      CHECK(std::abs(usual.side.d[k] - side) < 2e-3 * sizes[k]);
      CHECK(std::abs(usual.apex.d[k] - apex) < 2e-3 * sizes[k]);
    }
  }
}

TEST_CASE("derivatives of a drive from the delivery on are those of central differences", "[shot]") {
  Draws draws(92);
  const double steps[] = {0.01, 1e-4, 1e-4, 1e-4, 1e-4};  // m/s, rad, rad, rad, m
  int compared = 0, doubtful = 0;
  for (int i = 0; i < 80; ++i) {
    const Delivery d = draws.delivery();
    Setting in = default_setting();
    in.turf = i % 3 == 0 ? firm() : i % 3 == 1 ? medium() : soft();
    const Handed hand = i % 2 ? Handed::left : Handed::right;
    auto at = [&](const Point& x) {
      return drive_from(Delivery{x[0], x[1], d.path, x[2], x[3], x[4], d.high}, hand, in, kDeltaTolerance);
    };
    const Point x{d.club_speed, d.attack, d.face, d.dynamic_loft, d.toe};
    DeliveryOf<Five> dual;
    dual.club_speed = Five::variable(x[0], 0);
    dual.attack = Five::variable(x[1], 1);
    dual.path = Five(d.path);
    dual.face = Five::variable(x[2], 2);
    dual.dynamic_loft = Five::variable(x[3], 3);
    dual.toe = Five::variable(x[4], 4);
    dual.high = Five(d.high);
    const DriveOf<Five> drive = drive_from(dual, hand, in, 1e-11);
    if (drive.flight.outside_aero_range || drive.flight.end != FlightEnd::landed) continue;
    for (std::size_t k = 0; k < 5; ++k) {
      auto moved = [&](auto&& pick) {
        return slope(
            [&](double h) {
              Point y = x;
              y[k] += h;
              return pick(at(y));
            },
            steps[k]);
      };
      struct Pair {
        const char* name;
        double dual;
        Slope difference;
      };
      for (const Pair& p :
           {Pair{"carry", drive.flight.carry.d[k], moved([](const Drive& r) { return r.flight.carry; })},
            Pair{"side", drive.flight.side.d[k], moved([](const Drive& r) { return r.flight.side; })},
            Pair{"apex", drive.flight.apex.d[k], moved([](const Drive& r) { return r.flight.apex; })},
            Pair{"spin", drive.launch.spin.d[k], moved([](const Drive& r) { return r.launch.spin; })},
            Pair{"total", drive.total.d[k], moved([](const Drive& r) { return r.total; })},
            Pair{"side at rest", drive.side_at_rest.d[k], moved([](const Drive& r) { return r.side_at_rest; })}}) {
        INFO(text(d) << ", " << (hand == Handed::left ? "left" : "right") << "; " << p.name << " along direction " << k
                     << ": " << p.dual << " by Dual, " << p.difference.value << " +- " << p.difference.doubt
                     << " by differences");
        const double size = std::abs(p.difference.value) + 1.0;
        // Bounces go from sliding to rolling and restitution steps at 20 m/s: a difference across such a place says
        // nothing.
        if (p.difference.doubt > 1e-2 * size) {
          ++doubtful;
          continue;
        }
        ++compared;
        CHECK(std::abs(p.dual - p.difference.value) < 1e-4 * size);
      }
    }
  }
  INFO(compared << " compared, " << doubtful << " set aside");
  CHECK(compared > 1000);
  CHECK(doubtful * 10 < compared);
}

TEST_CASE("at the top of carry over loft the derivative passes zero there", "[shot]") {
  // What an optimiser lives on: the loft where Dual says zero is the loft where carry is longest.
  const Setting in = default_setting();
  auto carry = [&](double loft) {
    DeliveryOf<Dual<2>> d;
    d.club_speed = Dual<2>(40.0);
    d.dynamic_loft = Dual<2>::variable(loft, 0);
    return drive_from(d, Handed::right, in, kTightFlightTolerance).flight.carry;
  };
  double low = 8.0 * kDeg, high = 30.0 * kDeg;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    (carry(middle).d[0] > 0.0 ? low : high) = middle;
  }
  const double best = carry(low).v;
  INFO("dynamic loft " << low / kDeg << " deg, carry " << best << " m");
  for (double loft = 8.0; loft <= 30.0; loft += 0.25) CHECK(carry(loft * kDeg).v <= best + 1e-6);
}
