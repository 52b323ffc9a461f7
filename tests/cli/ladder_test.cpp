// A lesson ladder from the command line, each step held against the commands arc and strike.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "draws.hpp"
#include "json.hpp"
#include "process.hpp"
#include "run.hpp"

using namespace loftwright::test;

namespace {

Json answer_of(const std::string& line) {
  const Ran ran = run_line(line + " --json --quiet");
  INFO(line << "\n" << ran.err);
  REQUIRE(ran.code <= 1);
  return parsed<Json>(ran.out);
}

// Answers have twelve digits, and so have the numbers that are typed again.
void check_step_same(const Json& a, const Json& b) { CHECK(a.get<double>() == Approx(b.get<double>()).margin(2e-8)); }

std::string pupil_text(Draws& draws, bool left, double path) {
  const double attack = draws.between(-6, 1), loft = draws.between(9, 12);
  return fmt::format(
      R"({{"format": "loftwright-pupil/1", "handed": "{}",
 "delivery": {{"club_speed_mph": {:.3f}, "attack_deg": {:.3f}, "dynamic_loft_deg": {:.3f}, "path_deg": {:.3f}, "face_deg": 1, "toe_mm": 5, "high_mm": -3}},
 "club": {{"loft_deg": {:.3f}}}, "lofts_on_offer_deg": [9, 10.5, 12, 13.5],
 "reach": {{"attack_deg": [{:.3f}, {:.3f}], "follow": {:.3f}, "speed_per_attack_deg_mph": -0.1}},
 "arc": {{"plane_deg": {:.3f}, "radius_m": {:.3f}}}}})",
      left ? "left" : "right", draws.between(65, 105), attack, loft + draws.between(-1, 2), path, loft, attack - 1,
      attack + 6, draws.between(0.5, 1.0), draws.between(40, 60), draws.between(1.3, 1.8));
}

}  // namespace

TEST_CASE("arc and strike say of each step of a ladder what it says") {
  Draws draws(9);
  const ScratchFolder folder;
  int steps = 0, lefts = 0;
  for (int n = 0; n < 16; ++n) {
    const bool left = n % 2;
    const double path = std::round(1000.0 * draws.between(-4, 4)) / 1000.0;
    const std::string text = pupil_text(draws, left, path);
    const Json pupil = parsed<Json>(text);
    const std::string file = folder.write("pupil.json", text).string();
    const Json answer = answer_of("advise " + file + " --ladder --draws 0");
    const std::string lever = answer["verdict"]["lever"];
    INFO(text << "\n" << lever);
    CHECK(answer["ladder"].empty() == (lever == "leave" || lever == "loft"));
    for (const Json& step : answer["ladder"]) {
      const Json arc = answer_of(
          fmt::format("arc --low-point {}m --plane {}deg --radius {}m --swing-direction {}deg --handed {}",
                      step["low_point_m"].dump(), pupil["arc"]["plane_deg"].dump(), pupil["arc"]["radius_m"].dump(),
                      step["swing_direction_deg"].dump(), left ? "left" : "right"));
      check_step_same(arc["attack_deg"], step["attack_deg"]);
      check_step_same(arc["path_deg"], Json(path));
      const Json& d = step["delivery"];
      const Json strike = answer_of(fmt::format(
          "strike --club-speed {}m/s --attack {}deg --dynamic-loft {}deg --path {}deg --face {}deg --toe {}mm --high "
          "{}mm --handed {}",
          d["club_speed_mps"].dump(), step["attack_deg"].dump(), step["dynamic_loft_deg"].dump(), d["path_deg"].dump(),
          d["face_deg"].dump(), d["toe_mm"].dump(), d["high_mm"].dump(), left ? "left" : "right"));
      check_step_same(strike["launch"]["launch_deg"], step["launch_deg"]);
      CHECK(strike["launch"]["spin_rpm"].get<double>() == Approx(step["spin_rpm"].get<double>()).epsilon(1e-9));
      CHECK(strike["flight"]["carry_m"].get<double>() ==
            Approx(step["well_struck_carry_m"].get<double>()).margin(2e-3));  // two tolerances of a flight
      CHECK(strike["flight"]["total_m"].get<double>() ==
            Approx(step["well_struck_total_m"].get<double>()).margin(5e-3));
      ++steps;
      lefts += left;
    }
    if (answer["ladder"].empty()) continue;
    const Json& last = answer["ladder"].back();
    const Json& target = answer["strategies"][lever == "both" ? "both" : "technique_only"];
    CHECK(last["attack_deg"] == target["attack_deg"]);
    CHECK(last["club_loft_deg"] == target["loft_deg"]);
    CHECK(last["carry_m"] == target["average"]["carry_m"]);
    CHECK(last["total_m"] == target["average"]["total_m"]);
    double before = answer["strategies"]["as_is"]["attack_deg"];
    for (const Json& step : answer["ladder"]) {
      CHECK(std::abs(step["attack_deg"].get<double>() - before) <= 1.5 + 1e-9);
      before = step["attack_deg"];
    }
  }
  CHECK(steps > 20);
  CHECK(lefts > 5);
}
