// Many drives at once are the drives one by one, but for single precision; to the bit the same in every width, whatever
// the neighbours.
#include "loftwright/shot/drives.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/traps.hpp"
#include "draws.hpp"
#include "loftwright/stats/detail/summary.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

std::vector<std::size_t> widths() {
  std::vector<std::size_t> all{8};
  while (all.back() < lanes_here()) all.push_back(2 * all.back());
  return all;
}

std::vector<DriveInput> some_inputs(Draws& draws, std::size_t count) {
  std::vector<DriveInput> inputs(count);
  for (DriveInput& in : inputs) {
    in.delivery = draws.delivery();
    in.error = {draws.between(0.9, 1.1),
                draws.between(0.8, 1.2),
                draws.between(-0.02, 0.02),
                draws.between(-0.2, 0.2),
                {.tilt = draws.between(-0.05, 0.05),
                 .restitution = draws.between(0.8, 1.2),
                 .rolling = draws.between(0.7, 1.4),
                 .grass = draws.between(0.6, 1.7),
                 .tilt_speed = draws.between(0.7, 1.5),
                 .rise = draws.between(-0.3, 0.2),
                 .friction = draws.between(-0.5, 0.0)},
                {.inertia_up = draws.between(0.9, 1.1),
                 .depth = draws.between(-0.004, 0.004),
                 .bulge = draws.between(0.92, 1.08)}};
  }
  return inputs;
}

// The most that S can be on the way, without decay of spin: through 60 points of the path.
double greatest_spin_ratio(const Drive& drive, const Setting& setting, const ModelErrorOf<double>& error) {
  const FlightSetting in{&setting.ball,
                         &setting.aero,
                         setting.air,
                         setting.wind,
                         setting.drag_scale * error.drag_scale,
                         setting.lift_scale * error.lift_scale};
  if (drive.flight.end != FlightEnd::landed) return 0.0;
  const std::vector<FlightPoint> path = trace(drive.launch, in, 60);
  double slowest = drive.launch.ball_speed;
  for (std::size_t i = 1; i < path.size(); ++i) {
    if (path[i].t <= path[i - 1].t) break;  // a hop
    const Vec3<double> way = path[i].at - path[i - 1].at, middle = 0.5 * (path[i].at + path[i - 1].at);
    Vec3<double> speed = 1.0 / (path[i].t - path[i - 1].t) * way;
    if (!setting.wind.calm()) speed = speed - WindField(setting.wind).at(middle.y);
    slowest = std::min(slowest, length(speed));
  }
  return drive.launch.spin * setting.ball.radius / slowest;
}

// Single precision rounds 6e-8 of a number off. The impact makes 1e-6 of that, most of it where a club's speed is taken
// apart into parts along and across the face; a microradian of launch is a third of a millimetre of carry. Near no
// spin, where the lift law rises without bound, the 0.001 rad/s left open there count for more. Where S passes
// kGreatestSpinRatio the steps found by either way differ, and with them the integrator's own error, of up to 6 mm
// there.
struct Difference {
  std::vector<double> flight;                               // [m] greatest of carry, side and apex
  double rest = 0.0, nearly_spinless = 0.0, passing = 0.0;  // [m] the most of total and side at rest; of flights there
  int drives = 0, other_calls = 0,
      other_range = 0;  // other_range: told within the air model's data by one way, outside by the other
};

void compare(const Drive& many, const Drive& one, const Setting& setting, const ModelErrorOf<double>& error,
             Difference& most) {
  const auto near = [](double a, double b, double off) { return std::abs(a - b) <= off; };
  CHECK(many.flight.end == one.flight.end);
  CHECK(many.sliding == one.sliding);
  CHECK(near(many.launch.ball_speed, one.launch.ball_speed, 2e-6 * one.launch.ball_speed));
  CHECK(near(many.launch.launch, one.launch.launch, 1e-6));
  CHECK(near(many.launch.azimuth, one.launch.azimuth, 1e-6));
  CHECK(near(many.launch.spin, one.launch.spin, 2e-3));
  CHECK(near(many.launch.spin * many.launch.tilt, one.launch.spin * one.launch.tilt, 2e-3));
  CHECK(near(many.smash, one.smash, 3e-6));
  CHECK(near(many.spin_loft, one.spin_loft, 1e-6));
  const double off =
      std::max({std::abs(many.flight.carry - one.flight.carry), std::abs(many.flight.side - one.flight.side),
                std::abs(many.flight.apex - one.flight.apex)});
  const double rest = std::max(std::abs(many.total - one.total), std::abs(many.side_at_rest - one.side_at_rest));
  if (greatest_spin_ratio(one, setting, error) > 0.9 * kGreatestSpinRatio) {
    most.passing = std::max({most.passing, off, rest});
  } else if (one.launch.spin < 60.0) {
    most.nearly_spinless = std::max(most.nearly_spinless, off);
  } else {
    most.flight.push_back(off);
    most.rest = std::max(most.rest, rest);
  }
  CHECK(near(many.run.bounce + many.run.roll, one.run.bounce + one.run.roll, 5e-3));
  CHECK(near(many.flight.landing_angle, one.flight.landing_angle, 1e-4));
  CHECK(near(many.flight.landing_speed, one.flight.landing_speed, 3e-3));
  CHECK(near(many.flight.landing_heading, one.flight.landing_heading, 1e-4));
  CHECK(near(many.flight.landing_spin, one.flight.landing_spin, 3e-3));
  CHECK(near(many.flight.time, one.flight.time, 1e-3));
  ++most.drives;
  most.other_calls += many.flight.calls != one.flight.calls;
  most.other_range += many.flight.outside_aero_range != one.flight.outside_aero_range;
}

}  // namespace

TEST_CASE("drives side by side are the drives one by one", "[drives]") {
  Draws draws(81);
  const AeroModel models[] = {reference_aero(), smits_smith_aero(), linear_aero()};
  Difference most;
  for (int i = 0; i < 90; ++i) {
    Setting setting = default_setting();
    setting.aero = models[i % 3];
    setting.air = draws.air();
    setting.wind = draws.wind(static_cast<WindProfile>(i / 3 % 3));
    if (i % 4 == 0) setting.wind.speed = 0.0;
    const Handed handed = i % 2 == 0 ? Handed::right : Handed::left;
    const std::vector<DriveInput> inputs =
        some_inputs(draws, 300);  // no multiple of any width, more than are sorted together
    std::vector<Drive> many(inputs.size());
    drive_many(inputs, handed, setting, kFlightTolerance, many);
    for (std::size_t k = 0; k < inputs.size(); ++k) {
      INFO(setting.aero.id << ", " << text(setting.wind) << ": " << text(inputs[k].delivery));
      compare(many[k], drive_from(inputs[k].delivery, handed, setting, kFlightTolerance, inputs[k].error), setting,
              inputs[k].error, most);
    }
  }
  const double median = quantile(most.flight, 0.5), nearly_all = quantile(most.flight, 0.999),
               greatest = quantile(most.flight, 1.0);
  INFO("of " << most.drives << " drives " << most.other_calls << " in other steps; flights: median " << median
             << " m, 99.9 % " << nearly_all << " m, most " << greatest << " m; at rest " << most.rest
             << " m; nearly spinless " << most.nearly_spinless << " m; where S passes " << most.passing << " m");
  CHECK(most.flight.size() > 0.8 * most.drives);
  CHECK(median < 6e-5);
  CHECK(nearly_all < 5e-4);
  CHECK(greatest < 1e-3);
  CHECK(most.nearly_spinless < 3e-3);
  CHECK(most.rest < 3e-3);  // a run of 60 m hangs on the landing's angle
  CHECK(most.passing < 8e-3);
  CHECK(most.other_calls < 0.05 * most.drives);
  CHECK(most.other_range < 0.001 * most.drives);  // on the edge, where a rounding decides
}

// The width of a drag crisis is a metre and a half a second, and single precision has all of it. A drive that takes
// other steps differs by the integrator's own error there, 4 mm at most (tests/property/flight_cost_test).
TEST_CASE("slow drives through a drag crisis, side by side, are the drives one by one", "[drives]") {
  Draws draws(88);
  std::vector<double> off;
  double other_steps = 0.0;  // [m]
  int others = 0;
  for (int i = 0; i < 20; ++i) {
    Setting setting = default_setting();
    setting.aero = ballistic_range_aero();
    setting.air = draws.air();
    setting.wind = draws.wind(static_cast<WindProfile>(i % 3));
    std::vector<DriveInput> inputs = some_inputs(draws, 300);
    for (DriveInput& in : inputs) in.delivery.club_speed = draws.between(50.0, 85.0) * kMph;
    std::vector<Drive> many(inputs.size());
    drive_many(inputs, Handed::right, setting, kFlightTolerance, many);
    for (std::size_t k = 0; k < inputs.size(); ++k) {
      const Drive one = drive_from(inputs[k].delivery, Handed::right, setting, kFlightTolerance, inputs[k].error);
      INFO(text(setting.wind) << ": " << text(inputs[k].delivery));
      CHECK(many[k].flight.end == one.flight.end);
      if (one.launch.spin < 60.0 || greatest_spin_ratio(one, setting, inputs[k].error) > 0.9 * kGreatestSpinRatio)
        continue;
      const double apart =
          std::max({std::abs(many[k].flight.carry - one.flight.carry), std::abs(many[k].flight.side - one.flight.side),
                    std::abs(many[k].flight.apex - one.flight.apex)});
      if (many[k].flight.calls == one.flight.calls) {
        off.push_back(apart);
      } else {
        other_steps = std::max(other_steps, apart);
        ++others;
      }
    }
  }
  INFO(off.size() << " drives in the same steps: median " << quantile(off, 0.5) << " m, 99.9 % " << quantile(off, 0.999)
                  << " m, most " << quantile(off, 1.0) << " m; " << others << " in other steps, most " << other_steps
                  << " m");
  CHECK(off.size() > 3000);
  CHECK(quantile(off, 0.5) < 6e-5);
  CHECK(quantile(off, 0.999) < 5e-4);
  CHECK(quantile(off, 1.0) < 1e-3);
  CHECK(other_steps < 4e-3);
  CHECK(others < 0.03 * static_cast<double>(off.size()));
}

// The promise of flight.hpp for drives (tests/property/flight_cost_test), kept in single precision.
TEST_CASE("drives side by side are within a millimetre of the equations", "[drives]") {
  Draws draws(87);
  std::vector<double> off;
  for (int i = 0; i < 60; ++i) {
    Setting setting = default_setting();
    setting.air = draws.air();
    setting.wind = draws.wind(static_cast<WindProfile>(i % 3));
    if (i % 4 == 0) setting.wind.speed = 0.0;
    const std::vector<DriveInput> inputs = some_inputs(draws, 300);
    std::vector<Drive> many(inputs.size());
    drive_many(inputs, Handed::right, setting, kFlightTolerance, many);
    for (std::size_t k = 0; k < inputs.size(); ++k) {
      const Launch& l = many[k].launch;
      if (l.spin < 1200.0 * kRpm || l.spin > 4500.0 * kRpm || l.launch < 3.0 * kDeg || l.launch > 24.0 * kDeg) continue;
      const Drive exact = drive_from(inputs[k].delivery, Handed::right, setting, 1e-11, inputs[k].error);
      if (greatest_spin_ratio(exact, setting, inputs[k].error) > 0.9 * kGreatestSpinRatio) continue;
      off.push_back(std::max({std::abs(many[k].flight.carry - exact.flight.carry),
                              std::abs(many[k].flight.side - exact.flight.side),
                              std::abs(many[k].flight.apex - exact.flight.apex)}));
    }
  }
  INFO(off.size() << " drives: median " << quantile(off, 0.5) << " m, most " << quantile(off, 1.0) << " m");
  CHECK(off.size() > 8000);
  CHECK(quantile(off, 0.5) < 1e-4);
  CHECK(quantile(off, 1.0) < 1e-3);
}

// Sums, products, quotients and roots of single numbers are rounded alike by every processor, and nothing else is used.
TEST_CASE("every width gives the same bits", "[drives]") {
  Draws draws(85);
  for (const WindProfile profile : {WindProfile::uniform, WindProfile::logarithmic, WindProfile::power}) {
    Setting setting = default_setting();
    setting.wind = draws.wind(profile);
    const std::vector<DriveInput> inputs = some_inputs(draws, 1000);
    std::vector<Drive> plain(inputs.size()), wide(inputs.size());
    drive_many(inputs, Handed::right, setting, kFlightTolerance, plain, widths().front());
    for (const std::size_t lanes : widths()) {
      drive_many(inputs, Handed::right, setting, kFlightTolerance, wide, lanes);
      for (std::size_t i = 0; i < inputs.size(); ++i) {
        INFO(lanes << " lanes, " << text(setting.wind) << ": " << text(inputs[i].delivery));
        CHECK(wide[i].flight.carry == plain[i].flight.carry);
        CHECK(wide[i].flight.side == plain[i].flight.side);
        CHECK(wide[i].flight.apex == plain[i].flight.apex);
        CHECK(wide[i].total == plain[i].total);
        CHECK(wide[i].launch.tilt == plain[i].launch.tilt);
        CHECK(wide[i].flight.calls == plain[i].flight.calls);
      }
    }
  }
}

TEST_CASE("a tolerance that single precision cannot keep is kept one by one", "[drives]") {
  Draws draws(86);
  const Setting setting = default_setting();
  const std::vector<DriveInput> inputs = some_inputs(draws, 20);
  std::vector<Drive> many(inputs.size());
  for (const double tolerance : {kTightFlightTolerance, 0.99 * kLeastLaneTolerance}) {
    drive_many(inputs, Handed::right, setting, tolerance, many);
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      CHECK(many[i].total == drive_from(inputs[i].delivery, Handed::right, setting, tolerance, inputs[i].error).total);
    }
  }
}

TEST_CASE("a drive does not depend on its neighbours", "[drives]") {
  Draws draws(82);
  const Setting setting = default_setting();
  const std::vector<DriveInput> inputs = some_inputs(draws, 33);
  for (const std::size_t lanes : widths()) {
    std::vector<Drive> together(inputs.size()), alone(1);
    drive_many(inputs, Handed::right, setting, kFlightTolerance, together, lanes);
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      drive_many(std::span(&inputs[i], 1), Handed::right, setting, kFlightTolerance, alone, lanes);
      CHECK(alone[0].flight.carry == together[i].flight.carry);
      CHECK(alone[0].total == together[i].total);
    }
  }
}

TEST_CASE("a neighbour that is no number or never rises does no harm, and is told as one by one", "[drives]") {
  const WithoutTraps here;
  Draws draws(83);
  const Setting setting = default_setting();
  std::vector<DriveInput> inputs = some_inputs(draws, 16);
  inputs[3].delivery.attack = std::numeric_limits<double>::quiet_NaN();
  inputs[9].delivery.club_speed = std::numeric_limits<double>::infinity();
  inputs[12].delivery.dynamic_loft = -5.0 * kDeg;
  inputs[12].delivery.attack = -10.0 * kDeg;
  inputs[12].delivery.high = -0.02;
  for (const std::size_t lanes : widths()) {
    std::vector<Drive> many(inputs.size());
    drive_many(inputs, Handed::right, setting, kFlightTolerance, many, lanes);
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      INFO(lanes << " lanes, drive " << i);
      if (i == 3 || i == 9) {
        CHECK(many[i].flight.end == FlightEnd::not_finite);
        CHECK(many[i].flight.carry == 0.0);
      } else {
        Difference most;
        compare(many[i], drive_from(inputs[i].delivery, Handed::right, setting, kFlightTolerance, inputs[i].error),
                setting, inputs[i].error, most);
        CHECK(std::max(most.rest, most.passing) < 1e-3);
      }
    }
    CHECK(many[12].flight.end == FlightEnd::never_rose);
  }
}

TEST_CASE("a model of air given as a table is computed too", "[drives]") {
  Draws draws(84);
  Setting setting = default_setting();
  const AeroCurve& curve = std::get<AeroCurve>(setting.aero.form);
  AeroTable table{{4e4, 1e5, 2e5, 3e5}, {0.02, 0.1, 0.2, 0.5}, {}, {}};
  for (const double re : table.reynolds) {
    for (const double s : table.spin_ratio) {
      const auto c = curve.at(re, s);
      table.drag.push_back(c.drag);
      table.lift.push_back(c.lift);
    }
  }
  setting.aero.form = table;
  const std::vector<DriveInput> inputs = some_inputs(draws, 9);
  std::vector<Drive> many(inputs.size());
  drive_many(inputs, Handed::right, setting, kFlightTolerance, many);
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    CHECK(many[i].total ==
          drive_from(inputs[i].delivery, Handed::right, setting, kFlightTolerance, inputs[i].error).total);
  }
}
