// Many drives at once are the drives one by one: every width this processor has, whatever the neighbours.
#include "loftwright/shot/drives.hpp"

#include <catch2/catch.hpp>
#include <algorithm>
#include <cmath>
#include <limits>

#include "draws.hpp"
#include "loftwright/core/traps.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

std::vector<std::size_t> widths() {
  std::vector<std::size_t> all{4};
  while (all.back() < lanes_here()) all.push_back(2 * all.back());
  return all;
}

std::vector<DriveInput> some_inputs(Draws& draws, std::size_t count) {
  std::vector<DriveInput> inputs(count);
  for (DriveInput& in : inputs) {
    in.delivery = draws.delivery();
    in.error = {draws.between(0.9, 1.1), draws.between(0.8, 1.2), draws.between(-0.02, 0.02), draws.between(-0.2, 0.2),
                draws.between(0.8, 1.2), draws.between(0.8, 1.2)};
  }
  return inputs;
}

// 1e-9 m: a million times less than the integrator's own error. What remains is rounding: another order of operations in
// elementary functions, a lift law within 1e-13.
void check_same(const Drive& many, const Drive& one) {
  const auto same = [](double a, double b) { return std::abs(a - b) <= 1e-9; };
  CHECK(many.flight.end == one.flight.end);
  CHECK(many.sliding == one.sliding);
  CHECK(many.flight.calls == one.flight.calls);
  CHECK(many.flight.steps == one.flight.steps);
  CHECK(many.flight.outside_aero_range == one.flight.outside_aero_range);
  CHECK(same(many.launch.ball_speed, one.launch.ball_speed));
  CHECK(same(many.launch.launch, one.launch.launch));
  CHECK(same(many.launch.azimuth, one.launch.azimuth));
  CHECK(same(many.launch.spin, one.launch.spin));
  CHECK(same(many.launch.tilt, one.launch.tilt));
  CHECK(same(many.smash, one.smash));
  CHECK(same(many.spin_loft, one.spin_loft));
  CHECK(same(many.flight.carry, one.flight.carry));
  CHECK(same(many.flight.side, one.flight.side));
  CHECK(same(many.flight.apex, one.flight.apex));
  CHECK(same(many.flight.landing_angle, one.flight.landing_angle));
  CHECK(same(many.flight.landing_speed, one.flight.landing_speed));
  CHECK(same(many.flight.landing_heading, one.flight.landing_heading));
  CHECK(same(many.flight.landing_spin, one.flight.landing_spin));
  CHECK(same(many.flight.time, one.flight.time));
  CHECK(same(many.run.bounce, one.run.bounce));
  CHECK(same(many.run.roll, one.run.roll));
  CHECK(same(many.total, one.total));
  CHECK(same(many.side_at_rest, one.side_at_rest));
}

}  // namespace

TEST_CASE("drives side by side are the drives one by one, at every width", "[drives]") {
  Draws draws(81);
  const AeroModel models[] = {reference_aero(), smits_smith_aero(), linear_aero()};
  for (const WindProfile profile : {WindProfile::uniform, WindProfile::logarithmic, WindProfile::power}) {
    for (const AeroModel& aero : models) {
      Setting setting = default_setting();
      setting.aero = aero;
      setting.air = draws.air();
      setting.wind = draws.wind(profile);
      for (const Handed handed : {Handed::right, Handed::left}) {
        const std::vector<DriveInput> inputs = some_inputs(draws, 75);  // no multiple of any width
        for (const std::size_t lanes : widths()) {
          std::vector<Drive> many(inputs.size());
          drive_many(inputs, handed, setting, kFlightTolerance, many, lanes);
          for (std::size_t i = 0; i < inputs.size(); ++i) {
            INFO(lanes << " lanes, " << aero.id << ", " << text(setting.wind) << ": " << text(inputs[i].delivery));
            check_same(many[i], drive_from(inputs[i].delivery, handed, setting, kFlightTolerance, inputs[i].error));
          }
        }
      }
    }
  }
}

// There the error of the first steps is a thousandth of what is allowed, and its rounding shows: were the lengths of steps
// not rounded off, one drive in 10,000 would be off by up to 1e-7 m.
TEST_CASE("drives side by side take the same steps in winds that fall off towards the ground", "[drives]") {
  Draws draws(85);
  double worst = 0.0;
  for (int i = 0; i < 160; ++i) {
    Setting setting = default_setting();
    setting.air = draws.air();
    setting.wind = draws.wind(i % 2 == 0 ? WindProfile::logarithmic : WindProfile::power);
    const std::vector<DriveInput> inputs = some_inputs(draws, 256);
    std::vector<Drive> many(inputs.size());
    drive_many(inputs, Handed::right, setting, kFlightTolerance, many);
    for (std::size_t k = 0; k < inputs.size(); ++k) {
      const Drive one = drive_from(inputs[k].delivery, Handed::right, setting, kFlightTolerance, inputs[k].error);
      worst = std::max({worst, std::abs(many[k].flight.carry - one.flight.carry), std::abs(many[k].flight.side - one.flight.side),
                        std::abs(many[k].flight.apex - one.flight.apex), std::abs(many[k].total - one.total)});
    }
  }
  INFO(worst);
  CHECK(worst < 1e-9);
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
        check_same(many[i], drive_from(inputs[i].delivery, Handed::right, setting, kFlightTolerance, inputs[i].error));
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
    check_same(many[i], drive_from(inputs[i].delivery, Handed::right, setting, kFlightTolerance, inputs[i].error));
  }
}
