#include "loftwright/files/pupil_file.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "findings.hpp"
#include "folders.hpp"
#include "json.hpp"
#include "loftwright/advise/advise.hpp"
#include "loftwright/files/check_file.hpp"
#include "pupils.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;
using nlohmann::json;

namespace {

struct ReadPupil {
  std::optional<Pupil> pupil;
  Findings findings;
};

ReadPupil reading(const json& document, const std::filesystem::path& folder = {}) {
  ReadPupil r;
  r.pupil = read_pupil(document.dump(), folder, Catalogue(), r.findings);
  return r;
}

Pupil good(const json& document) {
  ReadPupil r = reading(document);
  INFO(document.dump() << "\n" << told(r.findings));
  REQUIRE(r.pupil);
  CHECK(r.findings.empty());
  return *r.pupil;
}

json demo() { return parsed<json>(Catalogue::built_in("pupils/demo.json")); }

json least() {
  return parsed<json>(R"({"format": "loftwright-pupil/1", "club": {"loft_deg": 9.5},
                         "delivery": {"club_speed_mph": 80, "attack_deg": -4, "dynamic_loft_deg": 10}})");
}

json least_launch() {
  return parsed<json>(R"({"format": "loftwright-pupil/1", "club": {"loft_deg": 9.5},
                         "launch": {"ball_speed_mph": 118, "launch_deg": 11, "spin_rpm": 2800}})");
}

json with(json document, const std::string& pointer, const json& value) {
  document[json::json_pointer(pointer)] = value;
  return document;
}

json without(json document, const std::string& pointer) {
  const json::json_pointer at(pointer);
  document[at.parent_pointer()].erase(at.back());
  return document;
}

struct Mistake {
  json document;
  std::string place, message;
};

// But for the rounding of a decimal brought to SI by one product.
bool near(double a, double b) { return std::abs(a - b) <= 1e-15 * std::max(std::abs(a), std::abs(b)); }

std::string assumed(const Pupil& pupil) {
  std::string text;
  for (const std::string& sentence : pupil.assumed) text += sentence + "\n";
  return text;
}

}  // namespace

TEST_CASE("the demonstration's pupil is read as written") {
  const Pupil p = good(demo());
  CHECK(p.name == "Marlow Fenn (invented)");
  CHECK(p.handed == Handed::right);
  CHECK(p.goal == Goal::carry);
  CHECK(near(p.delivery.club_speed, 82.0 * kMph));
  CHECK(near(p.delivery.attack, -4.0 * kDeg));
  CHECK(near(p.delivery.dynamic_loft, 9.5 * kDeg));
  CHECK(p.delivery.path == 0.0);
  CHECK_FALSE(p.delivery_inferred);
  CHECK_FALSE(p.launch);
  REQUIRE(p.spread);
  CHECK(near(p.spread->club_speed, 2.0 * kMph));
  CHECK(near(p.spread->toe, 0.010));
  CHECK(near(p.club_loft, 9.5 * kDeg));
  CHECK(p.head == "modern-driver");
  CHECK(near(p.reach.attack.low, -5.0 * kDeg));
  CHECK(near(p.reach.attack.high, 2.0 * kDeg));
  CHECK(p.reach.follow == 0.85);
  CHECK(p.reach.speed_per_attack == 0.0);
  REQUIRE(p.limits.size() == 2);
  CHECK(p.limits[0].quantity == Limited::spin);
  CHECK(near(p.limits[0].allowed.low, 1500.0 * kRpm));
  CHECK(p.limits[1].quantity == Limited::landing_angle);
  CHECK(near(p.limits[1].allowed.low, 12.0 * kDeg));
  CHECK(p.limits[1].allowed.high == std::numeric_limits<double>::infinity());
  CHECK(near(p.conditions.temperature, 293.15));
  CHECK(p.conditions.humidity == 0.5);
  CHECK(p.conditions.wind.calm());
  CHECK(near(p.prices.driver, 3.0 * kYard));
  CHECK(near(p.prices.swing, 3.0 * kYard));

  REQUIRE(p.lofts.size() == 5);  // four on offer and the club in hand between them
  const double lofts[] = {9.0, 9.5, 10.5, 12.0, 13.5};
  for (std::size_t i = 0; i < 5; ++i) {
    INFO("loft " << lofts[i]);
    CHECK(near(p.lofts[i].low, lofts[i] * kDeg));
    CHECK(p.lofts[i].low == p.lofts[i].high);
    CHECK(p.lofts[i].in_hand == (lofts[i] == 9.5));
  }
}

TEST_CASE("the same pupil in other units is the same pupil") {
  const Pupil p = good(parsed<json>(R"~({"format": "loftwright-pupil/1", "handed": "right", "goal": "carry",
    "delivery": {"club_speed_kmh": 131.966208, "attack_rad": -0.06981317007977318, "dynamic_loft_deg": 9.5, "path_rad": 0,
                 "toe_in": 0.5, "high_cm": -0.3, "face_rad": 0.017453292519943295},
    "spread": {"club_speed_kn": 2},
    "club": {"loft_rad": 0.16580627893946132}, "lofts_on_offer_rad": {"from": 0.14, "to": 0.28},
    "conditions": {"altitude_ft": 1000, "temperature_f": 68, "pressure_inhg": 29, "humidity_pct": 50},
    "worthwhile_m": 2.7432, "arc": {"radius_in": 63, "plane_deg": 48}})~"));
  // Written to 16 digits: as near as two roundings allow.
  CHECK(std::abs(p.delivery.club_speed - 82.0 * kMph) < 1e-13);
  CHECK(std::abs(p.delivery.attack + 4.0 * kDeg) < 1e-16);
  CHECK(std::abs(p.delivery.face - 1.0 * kDeg) < 1e-17);
  CHECK(near(p.delivery.toe, 0.0127));
  CHECK(near(p.delivery.high, -0.003));
  CHECK(std::abs(p.club_loft - 9.5 * kDeg) < 1e-15);
  CHECK(std::abs(p.conditions.temperature - 293.15) < 1e-12);
  CHECK(near(p.conditions.altitude, 304.8));
  CHECK(near(*p.conditions.pressure, 29.0 * 3386.389));
  CHECK(near(p.prices.driver, 3.0 * kYard));
  CHECK(near(p.prices.swing, 3.0 * kYard));
  CHECK(near(p.arc.radius, 1.6002));
  CHECK(near(p.spread->club_speed, 2.0 * 1852.0 / 3600.0));
}

TEST_CASE("what a short file leaves open is taken and said, a sentence each") {
  const Pupil p = good(least());
  INFO(assumed(p));
  CHECK(p.assumed.size() == 15);
  CHECK(assumes(p, "The hand was not given: a right-hander taken."));
  CHECK(assumes(p, "The goal was not given: carry taken."));
  CHECK(assumes(p, "The ball was not given: the model \"reference\" taken."));
  CHECK(assumes(p, "The driver's head was not given: the model \"modern-driver\" taken."));
  CHECK(assumes(p, "Path, face, toe and high of the delivery not given: taken as zero."));
  CHECK(assumes(p, "Lofts on offer were not given: every loft from 8 to 16 deg taken."));
  CHECK(
      assumes(p,
              "The attack angles within reach were not given: -6 to 2 deg taken (2 below to 6 above the measured one, "
              "but for that no higher than 5; estimate)."));
  CHECK(assumes(p, "How far delivered loft follows the attack was not given: 0.85 taken (estimate)."));
  CHECK(assumes(p, "What a change of attack costs in club speed was not given: nothing taken."));
  CHECK(assumes(p, "Conditions were not given: sea level, 20 C (68 F), 50 % humidity, calm, medium turf taken."));
  CHECK(assumes(
      p,
      "The arc was not given in full: a plane of 50 deg and a radius of 1.6 m (5.25 ft) taken for set-up targets "
      "(estimate)."));
  CHECK(assumes(p, "What a change must gain to be worth it was not given: 3 yd (2.7 m) taken."));
  CHECK(assumes(p, "How many drives the delivery is the mean of was not given: 10 taken."));
  CHECK(assumes(p,
                "The spread from shot to shot was not given: that usual for a mid-handicap golfer taken (estimate; the "
                "skill was not given either)."));
  CHECK_FALSE(p.spread);
  CHECK(std::abs(p.reach.attack.low + 6.0 * kDeg) < 1e-15);
  CHECK(std::abs(p.reach.attack.high - 2.0 * kDeg) < 1e-15);
  REQUIRE(p.lofts.size() == 2);  // and the club in hand
  CHECK(near(p.lofts[0].low, 8.0 * kDeg));
  CHECK(near(p.lofts[0].high, 16.0 * kDeg));
  CHECK(p.lofts[1].in_hand);
  CHECK(near(p.lofts[1].nominal, 9.5 * kDeg));

  const Pupil some = good(with(with(least(), "/delivery/path_deg", 1), "/conditions", {{"temperature_c", 5}}));
  INFO(assumed(some));
  CHECK(assumes(some, "Face, toe and high of the delivery not given: taken as zero."));
  CHECK(assumes(some, "Conditions not given: sea level, 50 % humidity, calm and medium turf taken."));
}

TEST_CASE("the clinic's pupil is read as written") {
  const Pupil p = good(parsed<json>(Catalogue::built_in("pupils/clinic.json")));
  CHECK(p.handed == Handed::left);
  CHECK(p.skill == Skill::high_handicap);
  CHECK(p.measured_shots == 8);
  CHECK_FALSE(p.spread);
  CHECK(assumes(p,
                "The spread from shot to shot was not given: that usual for a high-handicap golfer taken (estimate)."));
  CHECK(assumes(p, "The effort of changing the attack was not given: 1 a degree taken, on the scale of the options."));
  REQUIRE(p.reach.options.size() == 2);
  CHECK(p.reach.options[0].name == "strike nearer the middle");
  CHECK(p.reach.options[0].effort == 3.0);
  CHECK(near(p.reach.options[0].change.toe, 0.004));
  CHECK(near(p.reach.options[0].change.high, 0.003));
  CHECK(p.reach.options[0].change.club_speed == 0.0);
  CHECK(near(p.reach.options[1].change.club_speed, 2.0 * kMph));
  CHECK(near(p.reach.effort_per_attack, 1.0 / kDeg));
  CHECK(near(p.conditions.wind.speed, 2.0));
}

TEST_CASE("spread: what is not given is what is usual, and quantities may go together") {
  json document = demo();
  document["skill"] = "low-handicap";
  document["spread"] =
      parsed<json>(R"({"club_speed_mph": 1, "attack_deg": 1, "toe_mm": 8, "high_mm": 7, "dynamic_loft_deg": 1,
    "correlations": [{"between": ["dynamic_loft", "attack"], "value": 0.6}, {"between": ["path", "face"], "value": -0.2}]})");
  document["reach"]["effort_per_attack_deg"] = 2;
  const Pupil p = good(document);
  REQUIRE(p.spread);
  CHECK(near(p.spread->club_speed, 1.0 * kMph));
  CHECK(p.spread->path == usual_spread(Skill::low_handicap, p.delivery.club_speed).path);
  CHECK(p.spread->face == usual_spread(Skill::low_handicap, p.delivery.club_speed).face);
  CHECK(assumes(p, "Spread of path and face was not given: that usual for a low-handicap golfer taken (estimate)."));
  REQUIRE(p.spread->correlations.size() == 2);
  CHECK(p.spread->correlations[0].first == 1);   // attack
  CHECK(p.spread->correlations[0].second == 4);  // dynamic loft
  CHECK(p.spread->correlations[0].value == 0.6);
  CHECK(spread_key(p.spread->correlations[1].first) == "path");
  CHECK(spread_key(p.spread->correlations[1].second) == "face");
  CHECK(near(p.reach.effort_per_attack, 2.0 / kDeg));
}

TEST_CASE("the reach taken ends 6 deg up from the measured attack or at 5 deg up, and holds the measured attack") {
  struct ReachCase {
    double attack, low, high;
  };
  for (const auto& [attack, low, high] : {ReachCase{-9.0, -10.0, -3.0},
                                          {-1.0, -3.0, 5.0},
                                          {-0.5, -2.5, 5.0},
                                          {5.0, 3.0, 5.0},
                                          {7.0, 5.0, 7.0},
                                          {-12.0, -12.0, -6.0},
                                          {12.0, 10.0, 12.0}}) {
    const ReadPupil r = reading(with(with(least(), "/delivery/attack_deg", attack), "/delivery/dynamic_loft_deg", 12));
    INFO("attack " << attack << "\n" << told(r.findings));
    REQUIRE(r.pupil);
    CHECK(std::abs(r.pupil->reach.attack.low - low * kDeg) < 1e-15);
    CHECK(std::abs(r.pupil->reach.attack.high - high * kDeg) < 1e-15);
  }
}

TEST_CASE("an attack that is hard to reach is doubted where it is read and where the answer is") {
  const auto given = [](double low, double high, double measured = -4.0) {
    const json document = with(with(demo(), "/delivery/attack_deg", measured), "/delivery/dynamic_loft_deg", 13.0);
    return reading(with(document, "/reach/attack_deg", {low, high}));
  };
  const auto doubts = [](const ReadPupil& r) {
    return std::count_if(r.findings.begin(), r.findings.end(),
                         [](const Finding& f) { return f.place == "/reach/attack_deg"; });
  };
  CHECK(doubts(given(-10, 2)) == 0);
  CHECK(doubts(given(-2, 6, 1)) == 0);
  const std::string up = "up to +6.5 deg is further up than drivers are commonly hit (up to +6 deg)",
                    much = "6.5 deg up from the measured attack is a change that few make (up to 6 deg, estimate)",
                    down = "7 deg down from the measured attack is a change that few make (up to 6 deg, estimate)";
  for (const auto& [r, message] : {std::pair{given(1, 6.5, 3), up}, {given(-5, 2.5), much}, {given(-11, -3), down}}) {
    INFO(told(r.findings));
    REQUIRE(r.pupil);
    CHECK(doubts(r) == 1);
    CHECK(tells(r.findings, Severity::warning, "/reach/attack_deg", message));
    CHECK(assumes(*r.pupil, "The attack within reach as given: " + message + "."));
  }
  CHECK(doubts(given(-4, 8)) == 2);
  CHECK(tells(given(-4, 10.5).findings, Severity::error, "/reach/attack_deg/1",
              "10.5 deg is out of range; allowed: -20 to 10 deg"));
  CHECK(given(-4, 10).pupil);
  // Who hits further up already may go on doing so.
  CHECK(given(8, 12, 12).pupil);
  CHECK(tells(given(8, 12.5, 12).findings, Severity::error, "/reach/attack_deg/1",
              "12.5 deg is out of range; allowed: -20 to 12 deg"));
}

TEST_CASE("every mistake in a pupil file is told with its place and what is allowed") {
  const std::string speeds = "club_speed_mps, club_speed_mph, club_speed_kmh, club_speed_fps or club_speed_kn";
  const Mistake cases[] = {
      {without(demo(), "/club"), "", "club is missing"},
      {without(demo(), "/club/loft_deg"), "/club", "loft is missing; write loft_rad or loft_deg"},
      {without(demo(), "/delivery/attack_deg"), "/delivery", "attack is missing; write attack_rad or attack_deg"},
      {without(demo(), "/format"), "", "format is missing; write \"format\": \"loftwright-pupil/1\""},
      {with(demo(), "/format", "loftwright-pupil/2"), "/format",
       "\"loftwright-pupil/2\" is newer than this program can read (\"loftwright-pupil/1\"): use a newer loftwright"},
      {with(demo(), "/format", "loftwright-head/1"), "/format",
       "is \"loftwright-head/1\"; \"loftwright-pupil/1\" is expected"},
      {without(demo(), "/delivery"), "",
       "delivery is missing; give \"delivery\" (club speed, attack, delivered loft), \"shots\" (a list of them), or "
       "\"launch\" (ball speed, launch, spin) when "
       "only ball numbers are known"},
      {with(without(demo(), "/delivery"), "/shots", "monday.csv"), "/shots", "monday.csv: there is no such file"},
      {with(demo(), "/delivery/club_speed_mps", 36), "/delivery",
       "club_speed is given in 2 units: club_speed_mps, club_speed_mph; give one"},
      {with(demo(), "/limits/spin_radps", {100, 200}), "/limits",
       "spin is given in 2 units: spin_radps, spin_rpm; give one"},
      {with(demo(), "/lofts_on_offer_rad", {0.2}), "",
       "lofts_on_offer is given in 2 units: lofts_on_offer_rad, lofts_on_offer_deg; give one"},
      {with(without(demo(), "/delivery/club_speed_mph"), "/delivery/club_speed_deg", 80), "/delivery/club_speed_deg",
       "\"club_speed_deg\" has a unit of angle; club_speed takes a unit of speed: write " + speeds},
      {with(without(demo(), "/delivery/club_speed_mph"), "/delivery/club_speed", 80), "/delivery/club_speed",
       "\"club_speed\" has no unit in its name; write " + speeds},
      {with(demo(), "/delivery/attack_deg", "NaN"), "/delivery/attack_deg",
       "is the text \"NaN\"; a number is expected"},
      {with(demo(), "/delivery/attack_deg", -25), "/delivery/attack_deg",
       "-25 deg is out of range; allowed: -20 to 20 deg"},
      {with(demo(), "/delivery/toe_mm", 60), "/delivery/toe_mm", "60 mm is out of range; allowed: -50 to 50 mm"},
      {with(demo(), "/delivery/club_speed_mph", 5), "/delivery/club_speed_mph",
       "5 mph is out of range; allowed: 20.2 to 161 mph"},
      {with(demo(), "/spread/attack_deg", -1), "/spread/attack_deg", "-1 deg is out of range; allowed: 0 to 15 deg"},
      {with(demo(), "/club/loft_deg", 2), "/club/loft_deg", "2 deg is out of range; allowed: 4 to 30 deg"},
      {with(demo(), "/lofts_on_offer_deg", json::array()), "/lofts_on_offer_deg",
       "is an empty list: give at least one number"},
      {with(demo(), "/lofts_on_offer_deg", {9, 45}), "/lofts_on_offer_deg/1",
       "45 deg is out of range; allowed: 4 to 30 deg"},
      {with(demo(), "/lofts_on_offer_deg", 12), "/lofts_on_offer_deg",
       "a list of lofts, or a range {\"from\": ..., \"to\": ...}, is expected"},
      {with(demo(), "/lofts_on_offer_deg", {{"from", 16}, {"to", 8}}), "/lofts_on_offer_deg",
       "the range is crossed: from 16 is above to 8"},
      {with(demo(), "/lofts_on_offer_deg", {{"from", 8}}), "/lofts_on_offer_deg", "to is missing"},
      {with(demo(), "/lofts_on_offer_deg", json(std::vector<double>(101, 9.0))), "/lofts_on_offer_deg",
       "has 101 lofts; allowed: at most 100"},
      {with(demo(), "/lofts_on_offer", {9}), "/lofts_on_offer",
       "\"lofts_on_offer\" has no unit in its name; write lofts_on_offer_rad or lofts_on_offer_deg"},
      {with(demo(), "/sleeve", {{"range_deg", {1, 2}}}), "/sleeve/range_deg",
       "must hold 0, the sleeve as the loft is marked"},
      {with(demo(), "/sleeve", {{"range_deg", {2, -2}}}), "/sleeve/range_deg",
       "the ends are crossed: 2 is above -2 (low comes first)"},
      {with(with(demo(), "/sleeve", {{"range_deg", {-4, 0}}}), "/lofts_on_offer_deg", {7}), "/sleeve",
       "takes the driver of 7 deg to lofts from 3 to 7 deg; allowed: 4 to 30 deg"},
      {with(demo(), "/reach/attack_deg", {3, -5}), "/reach/attack_deg",
       "the ends are crossed: 3 is above -5 (low comes first)"},
      {with(demo(), "/reach/attack_deg", {-3, 5}), "/reach/attack_deg",
       "-3 to 5 deg does not hold the measured attack of -4 deg"},
      {with(demo(), "/reach/follow", 1.4), "/reach/follow", "1.4 is out of range; allowed: 0 to 1.3"},
      {with(with(demo(), "/delivery/club_speed_mph", 30), "/reach/speed_per_attack_deg_mph", -2),
       "/reach/speed_per_attack_deg_mph",
       "takes the club speed to 18 mph at an attack of 2 deg; allowed: 20.13 mph to 161.1 mph"},
      {with(demo(), "/measured_shots", 2.5), "/measured_shots", "is 2.5; a whole number is expected"},
      {with(demo(), "/measured_shots", 0), "/measured_shots", "0 is out of range; allowed: 1 to 10000"},
      {with(demo(), "/skill", "pro"), "/skill",
       "\"pro\" is not one of the words allowed here: low-handicap, mid-handicap or high-handicap"},
      {with(demo(), "/spread/correlations", {{{"between", {"attack", "loft"}}, {"value", 0.5}}}),
       "/spread/correlations/0/between/1", "is none of club_speed, attack, path, face, dynamic_loft, toe and high"},
      {with(demo(), "/spread/correlations", {{{"between", {"attack", "attack"}}, {"value", 0.5}}}),
       "/spread/correlations/0/between", "names one quantity twice"},
      {with(demo(), "/spread/correlations",
            {{{"between", {"attack", "path"}}, {"value", 0.5}}, {{"between", {"path", "attack"}}, {"value", 0.5}}}),
       "/spread/correlations/1/between", "this pair stands twice in the list"},
      {with(demo(), "/spread/correlations", {{{"between", {"attack", "path"}}, {"value", 1.0}}}),
       "/spread/correlations/0/value", "1 is out of range; allowed: -0.99 to 0.99"},
      {with(demo(), "/spread/correlations",
            {{{"between", {"attack", "path"}}, {"value", 0.9}},
             {{"between", {"path", "face"}}, {"value", 0.9}},
             {{"between", {"attack", "face"}}, {"value", -0.9}}}),
       "/spread/correlations", "cannot all hold together (their matrix is not positive definite)"},
      {with(demo(), "/reach/options", {{{"name", "wait"}, {"effort", 1}}}), "/reach/options/0",
       "changes nothing; give a change of club_speed, path, face, dynamic_loft, toe or high"},
      {with(demo(), "/reach/options", {{{"name", ""}, {"effort", 1}, {"toe_mm", 1}}}), "/reach/options/0/name",
       "is empty"},
      {with(demo(), "/reach/options",
            {{{"name", "a"}, {"effort", 1}, {"toe_mm", 30}}, {{"name", "b"}, {"effort", 1}, {"toe_cm", 3}}}),
       "/reach/options", "together they take toe to between 0 and 60 mm; allowed: -50 to 50 mm"},
      {with(demo(), "/reach/options", json(std::vector<json>(6, {{"name", "a"}, {"effort", 1}, {"toe_mm", 1}}))),
       "/reach/options", "a list of at most 5 changes of technique is expected"},
      {with(demo(), "/limits/spin_rpm", {3500, 1500}), "/limits/spin_rpm",
       "the ends are crossed: 3500 is above 1500 (low comes first)"},
      {with(demo(), "/limits/spin_rpm", {nullptr, nullptr}), "/limits/spin_rpm",
       "both ends are null: give at least one, or leave the key out"},
      {with(demo(), "/limits/landing_mph", {1, 2}), "/limits/landing_mph",
       "\"landing_mph\" has a unit of speed; landing takes a unit of angle: write landing_rad or landing_deg"},
      {with(demo(), "/limits/landing_angle_deg", {1, 2}), "/limits/landing_angle_deg",
       "unknown key \"landing_angle_deg\"; the nearest known key is \"landing_deg\"; known here: spin_loft_(rad|deg), "
       "launch_(rad|deg), spin_(radps|rpm|rps), apex_(m|cm|mm|in|ft|yd), landing_(rad|deg), side_(m|cm|mm|in|ft|yd), "
       "carry_(m|cm|mm|in|ft|yd), face_to_path_(rad|deg)"},
      {with(demo(), "/conditions/temperature_c", 70), "/conditions/temperature_c",
       "70 C is out of range; allowed: -40 to 55 C"},
      {with(demo(), "/conditions/humidity_pct", 150), "/conditions/humidity_pct",
       "150 % is out of range; allowed: 0 to 100 %"},
      {with(demo(), "/conditions/wind_mph", 10), "/conditions",
       "wind_from is missing; write wind_from_rad or wind_from_deg"},
      {with(demo(), "/conditions/wind_profile", "log"), "/conditions/wind_profile",
       "\"log\" is not one of the words allowed here: uniform, logarithmic or power"},
      {with(demo(), "/conditions/turf", "frim"), "/conditions/turf",
       "there is no turf \"frim\"; the nearest is \"firm\"; there are: firm, medium, soft; or name a file that ends in "
       ".json"},
      {with(demo(), "/ball", "refrence"), "/ball",
       "there is no ball \"refrence\"; the nearest is \"reference\"; there are: ballistic-range, example-table, "
       "linear, reference, smits-smith-1994; or name a file that ends in .json"},
      {with(demo(), "/ball", "mine.json"), "/ball", "mine.json: there is no such file"},
      {with(demo(), "/club/head", 3), "/club/head", "is 3; text in double quotes is expected"},
      {with(demo(), "/club/head", {{"mass_g", 500}}), "/club/head/mass_g",
       "500 g is out of range; allowed: 100 to 400 g"},
      {with(demo(), "/handed", "both"), "/handed", "\"both\" is not one of the words allowed here: right or left"},
      {with(demo(), "/arc", {{"plane_deg", 10}}), "/arc/plane_deg", "10 deg is out of range; allowed: 20 to 80 deg"},
      {with(demo(), "/worthwhile_yd", -1), "/worthwhile_yd", "-1 yd is out of range; allowed: 0 to 54.6 yd"},
      {with(demo(), "/prices", {{"swing_yd", 0.4}}), "/prices/swing_yd",
       "0.4 yd is out of range; allowed: 0.5 to 54.6 yd"},
      {with(demo(), "/prices", {{"driver_m", 51}}), "/prices/driver_m",
       "51 m is out of range; allowed: 0.4572 to 50 m"},
      {with(demo(), "/prices", {{"sleeve_m", 1}, {"sleeve_yd", 1}}), "/prices",
       "sleeve is given in 2 units: sleeve_m, sleeve_yd; give one"},
      {with(demo(), "/prices", {{"swin_yd", 3}}), "/prices/swin_yd",
       "unknown key \"swin_yd\"; the nearest known key is \"swing_yd\""},
      {with(demo(), "/prices", 3), "/prices", "is 3; an object { ... } is expected"},
      {with(demo(), "/fairway_m", 4), "/fairway_m", "4 m is out of range; allowed: 5 to 150 m"},
      {with(demo(), "/for_pupil", 4), "/for_pupil", "is 4; text in double quotes is expected"},
      {with(demo(), "/limit", 1), "/limit", "unknown key \"limit\"; the nearest known key is \"limits\""},
      {with(demo(), "/delivery/attak_deg", 1), "/delivery/attak_deg",
       "unknown key \"attak_deg\"; the nearest known key is \"attack_deg\""},
      {with(least_launch(), "/launch/spin_rpm", 13000), "/launch",
       "the delivery behind it: attack is -35.7392 deg; allowed: -20 to 20 deg"},
      {json::array(), "", "is a list; an object { ... } is expected"},
  };
  for (const Mistake& c : cases) {
    const ReadPupil r = reading(c.document);
    INFO(c.document.dump() << "\n" << told(r.findings) << "expected at '" << c.place << "': " << c.message);
    CHECK_FALSE(r.pupil);
    CHECK(tells(r.findings, Severity::error, c.place, c.message));
    const auto is_error = [](const Finding& f) { return f.severity == Severity::error; };
    CHECK(std::count_if(r.findings.begin(), r.findings.end(), is_error) == 1);
  }
}

TEST_CASE("one reading tells every mistake") {
  json document = demo();
  document["delivery"]["attack_deg"] = 90;
  document["club"]["loft_deg"] = "9.5";
  document["ball"] = "none";
  document["limits"]["spin_rpm"] = {3, 2};
  document["color"] = "red";
  const ReadPupil r = reading(document);
  INFO(told(r.findings));
  CHECK_FALSE(r.pupil);
  CHECK(r.findings.size() == 5);
}

TEST_CASE("text that is no JSON is placed by line and column") {
  struct TextCase {
    std::string text, place, message;
  };
  const std::string demo_text(Catalogue::built_in("pupils/demo.json"));
  const auto replaced = [&](const std::string& from, const std::string& to) {
    std::string text = demo_text;
    return text.replace(text.find(from), from.size(), to);
  };
  const TextCase cases[] = {
      {replaced("\"ball\": \"reference\"", "\"ball\": \"reference\","), "line 14, column 22",
       "trailing comma: nothing follows it before '}'"},
      {replaced("-4", "NaN"), "line 7, column 52", "NaN is not a number that can be used: every number must be finite"},
      {replaced("-4", "-Infinity"), "line 7, column 52",
       "-Infinity is not a number that can be used: every number must be finite"},
      {replaced("-4", "1e999"), "line 7, column 52", "number overflow: 1e999 is too large to be a number"},
      {std::string(100, '['), "line 1, column 65", "nested deeper than 64 levels"},
      {demo_text.substr(0, demo_text.size() - 3), "line 14, column 22",
       "the file ends too soon: a closing '}' or ']' is missing"},
  };
  for (const TextCase& c : cases) {
    Findings findings;
    INFO("expected at " << c.place << ": " << c.message);
    CHECK_FALSE(read_pupil(c.text, {}, Catalogue(), findings));
    INFO(told(findings));
    CHECK(findings.size() == 1);
    CHECK(tells(findings, Severity::error, c.place, c.message));
  }
  Findings findings;
  CHECK_FALSE(read_pupil(replaced("\"ball\":", "\"ball\": \"linear\", \"ball\":"), {}, Catalogue(), findings));
  CHECK(tells(findings, Severity::error, "/ball", "this key stands twice in the same object"));
}

TEST_CASE("the ends of every allowed range are allowed, and so is what is made of them") {
  struct End {
    const char* pointer;
    double low, high;
  };
  const End ends[] = {{"/delivery/club_speed_mps", 9, 72},    {"/delivery/attack_deg", -20, 20},
                      {"/delivery/path_deg", -30, 30},        {"/delivery/face_deg", -30, 30},
                      {"/delivery/dynamic_loft_deg", -5, 60}, {"/delivery/toe_mm", -50, 50},
                      {"/delivery/high_mm", -30, 30},         {"/club/loft_deg", 4, 30},
                      {"/conditions/temperature_c", -40, 55}, {"/conditions/pressure_hpa", 500, 1100},
                      {"/conditions/altitude_m", -500, 5500}, {"/conditions/humidity_pct", 0, 100},
                      {"/conditions/wind_height_m", 1, 100}};
  json base = without(with(least(), "/conditions", json::object()), "/delivery/club_speed_mph");
  base["delivery"]["club_speed_mps"] = 36;
  for (const End& end : ends) {
    for (const double value : {end.low, end.high}) {
      const ReadPupil r = reading(with(base, end.pointer, value));
      INFO(end.pointer << " = " << value << "\n" << told(r.findings));
      REQUIRE(r.pupil);
      CHECK_NOTHROW(validate(r.pupil->delivery));
      CHECK_NOTHROW(setting_for(*r.pupil, Catalogue()));
      for (const double beyond : {end.low - 1e-6 * std::max(1.0, std::abs(end.low)), end.high + 1e-6 * end.high}) {
        CHECK_FALSE(reading(with(base, end.pointer, beyond)).pupil);
      }
    }
  }
}

TEST_CASE("a delivery behind ball numbers alone gives that launch back") {
  const Pupil p = good(least_launch());
  INFO(assumed(p));
  CHECK(p.delivery_inferred);
  REQUIRE(p.launch);
  CHECK(assumes(
      p,
      "Only ball numbers were given: club speed, attack, delivered loft, path and face were worked out from them, for "
      "a strike at the centre of the face."));
  CHECK(assumes(p, "Launch direction and spin axis of the launch not given: taken as zero."));
  const Launch back = strike_ball(p.delivery, Head{}, Ball{}).launch;
  CHECK(std::abs(back.ball_speed - 118.0 * kMph) < 1e-7);  // Newton stops at 1e-9 of scaled misses
  CHECK(std::abs(back.launch - 11.0 * kDeg) < 1e-9);
  CHECK(std::abs(back.spin - 2800.0 * kRpm) < 1e-6);
}

TEST_CASE("a left-hander's ball numbers are the mirror image of a right-hander's") {
  json right = least_launch();
  right["handed"] = "right";
  right["launch"].update({{"azimuth_deg", 2}, {"tilt_deg", 6}});
  json left = right;
  left["handed"] = "left";
  left["launch"].update({{"azimuth_deg", -2}, {"tilt_deg", -6}});
  const Pupil r = good(right), l = good(left);
  CHECK(r.delivery.path != 0.0);
  CHECK(l.delivery.path == -r.delivery.path);
  CHECK(l.delivery.face == -r.delivery.face);
  CHECK(l.delivery.club_speed == r.delivery.club_speed);
  CHECK(l.delivery.attack == r.delivery.attack);
  CHECK(l.delivery.dynamic_loft == r.delivery.dynamic_loft);
  CHECK(near(l.launch->azimuth, -2.0 * kDeg));  // as measured

  // And the drive that follows from it leaves as measured.
  const Drive drive = drive_from(l.delivery, Handed::left, default_setting());
  CHECK(std::abs(drive.launch.azimuth + 2.0 * kDeg) < 1e-9);
  CHECK(std::abs(drive.launch.tilt + 6.0 * kDeg) < 1e-9);
}

TEST_CASE("a ball speed the club speed does not allow is refused, a very low one is doubted") {
  json both = least();
  both["launch"] = {
      {"ball_speed_mph", 116}, {"launch_deg", 9}, {"spin_rpm", 3000}, {"azimuth_deg", 0}, {"tilt_deg", 0}};
  const Pupil p = good(both);
  CHECK_FALSE(p.delivery_inferred);
  REQUIRE(p.launch);
  CHECK(near(p.launch->ball_speed, 116.0 * kMph));
  CHECK(near(p.delivery.club_speed, 80.0 * kMph));

  const double most = 1.01 * greatest_smash(Head{}, Ball{}, 80.0 * kMph);
  INFO("greatest smash with 1 %: " << most);
  CHECK(reading(with(both, "/launch/ball_speed_mph", 80.0 * most - 0.01)).pupil);
  CHECK_FALSE(reading(with(both, "/launch/ball_speed_mph", 80.0 * most + 0.01)).pupil);
  CHECK(std::abs(most - 1.531) < 0.0005);  // so that the message below is right in its last digit
  const ReadPupil high = reading(with(both, "/launch/ball_speed_mph", 150));
  INFO(told(high.findings));
  CHECK(tells(high.findings, Severity::error, "/launch/ball_speed_mph",
              "a ball speed of 150 mph from a club speed of 80 mph is a speed ratio of 1.875; this head and ball "
              "allow at most "
              "1.531, 1 % for measurement included"));
  const ReadPupil low = reading(with(both, "/launch/ball_speed_mph", 76));
  INFO(told(low.findings));
  CHECK(low.pupil);
  CHECK(tells(low.findings, Severity::warning, "/launch/ball_speed_mph",
              "a ball speed of 76 mph from a club speed of 80 mph is a speed ratio of 0.950: very low for a driver; "
              "look at both "
              "again"));
}

TEST_CASE("the club in hand is always among the lofts, once") {
  const auto lofts = [](const json& offer, const json& sleeve = nullptr) {
    json document = with(least(), "/lofts_on_offer_deg", offer);
    if (!sleeve.is_null()) document["sleeve"] = sleeve;
    const Pupil p = good(document);
    CHECK(std::count_if(p.lofts.begin(), p.lofts.end(), [](const LoftChoice& c) { return c.in_hand; }) == 1);
    return p.lofts;
  };
  SECTION("on the list, marked by a hair of difference") {
    const auto c = lofts({12, 9.505});
    REQUIRE(c.size() == 2);
    CHECK(c[0].in_hand);
    CHECK(near(c[0].nominal, 9.505 * kDeg));
  }
  SECTION("not on the list: added in its place") {
    const auto c = lofts({9, 9.52, 12});
    REQUIRE(c.size() == 4);
    CHECK(c[1].in_hand);
    CHECK(near(c[1].low, 9.5 * kDeg));
  }
  SECTION("in a range: beside it, for the range's lofts are other drivers and cost what drivers cost") {
    const auto c = lofts({{"from", 8}, {"to", 18}});
    REQUIRE(c.size() == 2);
    CHECK(c[0].low == Approx(8.0 * kDeg));
    CHECK_FALSE(c[0].in_hand);
    CHECK(c[1].in_hand);
    CHECK(near(c[1].low, 9.5 * kDeg));
    CHECK(c[1].low == c[1].high);
    const Pupil p = good(with(least(), "/lofts_on_offer_deg", {{"from", 8}, {"to", 18}}));
    AdviseOptions options;
    options.draws = 0;
    options.shots = 8;
    CHECK(advise(p, setting_for(p, Catalogue()), options).at(StrategyKind::loft_only).price == p.prices.driver);
  }
  SECTION("outside a range: added beside it") {
    const auto c = lofts({{"from", 10}, {"to", 18}});
    REQUIRE(c.size() == 2);
    CHECK(c[0].in_hand);
    CHECK(c[0].low == c[0].high);
    CHECK_FALSE(c[1].in_hand);
  }
  SECTION("a sleeve widens every driver listed and the one in hand") {
    const auto c = lofts({9.5, 12}, {{"range_deg", {-1.5, 2}}, {"face_per_loft", -1.0}});
    REQUIRE(c.size() == 2);
    for (const LoftChoice& choice : c) {
      CHECK(std::abs(choice.low - (choice.nominal - 1.5 * kDeg)) < 1e-15);
      CHECK(std::abs(choice.high - (choice.nominal + 2.0 * kDeg)) < 1e-15);
      CHECK(choice.face_per_loft == -1.0);
    }
  }
  SECTION("with a sleeve the club in hand stands beside a range as a range of its own") {
    const auto c = lofts({{"from", 8}, {"to", 18}}, {{"range_deg", {-2, 2}}, {"face_per_loft", -1.0}});
    REQUIRE(c.size() == 2);
    CHECK(c[0].in_hand);
    CHECK(near(c[0].nominal, 9.5 * kDeg));
    CHECK(c[0].face_per_loft == -1.0);
    CHECK(near(c[1].high, 18.0 * kDeg));
    CHECK(c[1].face_per_loft == 0.0);
  }
}

TEST_CASE("a sleeve's settings are choices of every head, the one as marked among them") {
  const auto document = [](const json& sleeve) {
    return with(with(least(), "/lofts_on_offer_deg", {12}), "/sleeve", sleeve);
  };
  const json named = {{{"name", "-1"}, {"loft_deg", -1}, {"face_deg", 0.7}},
                      {{"name", "+1"}, {"loft_deg", 1}},
                      {{"name", "0"}, {"loft_deg", 0}, {"face_deg", 0}}};
  const auto check = [](const LoftChoice& c, double head, double turn, const std::string& name, double face) {
    CAPTURE(head, name);
    CHECK(c.setting == name);
    CHECK(c.low == c.high);
    CHECK(c.low == Approx((head + turn) * kDeg));
    CHECK(c.nominal == Approx(head * kDeg));
    CHECK(c.face == Approx(face * kDeg).margin(1e-12));
    CHECK(c.in_hand == (head == 9.5));
    CHECK(c.has_sleeve);
    CHECK(c.face_per_loft == 0.0);
  };
  for (const bool with_range : {false, true}) {
    json sleeve = {{"settings", named}, {"face_per_loft", -0.5}};
    if (with_range) sleeve["range_deg"] = {-1, 1.5};
    const Pupil p = good(document(sleeve));
    REQUIRE(p.lofts.size() == 6);
    check(p.lofts[0], 9.5, -1, "-1", 0.7);
    check(p.lofts[1], 9.5, 0, "0", 0.0);
    check(p.lofts[2], 9.5, 1, "+1", -0.5);  // by face_per_loft
    check(p.lofts[3], 12, -1, "-1", 0.7);
    check(p.lofts[4], 12, 0, "0", 0.0);
    check(p.lofts[5], 12, 1, "+1", -0.5);
    CHECK_FALSE(assumes(p, "How the sleeve turns the face was not given: taken not to."));
  }
  const Pupil unnamed = good(document({{"settings", {{{"name", "+1"}, {"loft_deg", 1}}}}}));
  REQUIRE(unnamed.lofts.size() == 4);
  check(unnamed.lofts[0], 9.5, 0, "", 0.0);
  check(unnamed.lofts[1], 9.5, 1, "+1", 0.0);
  CHECK(assumes(unnamed, "How the sleeve turns the face was not given: taken not to."));
  const Pupil beside = good(with(document({{"settings", named}}), "/lofts_on_offer_deg", {{"from", 8}, {"to", 18}}));
  CHECK(beside.lofts.size() == 4);  // a range of lofts needs no sleeve
}

TEST_CASE("mistakes in a sleeve's settings are named") {
  const auto said = [](const json& sleeve, const std::string& place, const std::string& message) {
    const ReadPupil r = reading(with(least(), "/sleeve", sleeve));
    INFO(told(r.findings));
    CHECK_FALSE(r.pupil);
    CHECK(tells(r.findings, Severity::error, place, message));
  };
  const auto one = [](const json& setting) { return json{{"settings", json::array({setting})}}; };
  said({{"settings", json::array()}}, "/sleeve/settings", "a list of 1 to 24 settings is expected");
  said({{"settings", 3}}, "/sleeve/settings", "a list of 1 to 24 settings is expected");
  said({{"settings", json(25, json{{"name", "A"}, {"loft_deg", 1}})}}, "/sleeve/settings",
       "a list of 1 to 24 settings is expected");
  said({{"settings", {{{"name", "+1"}, {"loft_deg", 1}}, {{"name", "+1"}, {"loft_deg", 2}}}}},
       "/sleeve/settings/1/name", "\"+1\" is the name of two settings");
  said(one({{"name", "+7"}, {"loft_deg", 7}}), "/sleeve/settings/0/loft_deg",
       "7 deg is out of range; allowed: -6 to 6 deg");
  said(one({{"name", "+1"}, {"loft_deg", 1}, {"face_deg", 7}}), "/sleeve/settings/0/face_deg",
       "7 deg is out of range; allowed: -6 to 6 deg");
  said(one({{"name", ""}, {"loft_deg", 1}}), "/sleeve/settings/0/name", "is empty");
  said(one({{"name", "one notch towards the heel side"}, {"loft_deg", 1}}), "/sleeve/settings/0/name",
       "is too long: at most 24 letters");
  said(one({{"name", "a\nb"}, {"loft_deg", 1}}), "/sleeve/settings/0/name", "holds a character that is not seen");
  said(one({{"name", "+1"}}), "/sleeve/settings/0", "loft is missing; write loft_rad or loft_deg");
  said(one({{"loft_deg", 1}}), "/sleeve/settings/0", "name is missing");
  said(one({{"name", "-6"}, {"loft_deg", -6}}), "/sleeve",
       "takes the driver of 9.5 deg to lofts from 3.5 to 3.5 deg; allowed: 4 to 30 deg");
  json steep = one({{"name", "+3"}, {"loft_deg", 3}});
  steep["face_per_loft"] = -3;
  said(steep, "/sleeve/settings/0", "face_per_loft turns the face by -9 deg; allowed: -6 to 6 deg");
  json outside = one({{"name", "+2"}, {"loft_deg", 2}});
  outside["range_deg"] = {-1, 1};
  said(outside, "/sleeve/settings/0/loft_deg", "2 deg lies outside the sleeve's range, -1 to 1 deg");
}

TEST_CASE("the club in hand is played as its setting has it, and what is not said of it is told") {
  const json settings = {{{"name", "-1"}, {"loft_deg", -1}, {"face_deg", 0.7}},
                         {{"name", "0"}, {"loft_deg", 0}, {"face_deg", 0}},
                         {{"name", "+1"}, {"loft_deg", 1}, {"face_deg", -0.7}}};
  const json document = with(with(least(), "/lofts_on_offer_deg", {12}), "/sleeve", {{"settings", settings}});
  const std::string taken = "How the sleeve of the club in hand is set was not given: taken as marked (0).";
  const Pupil as_marked = good(document), turned = good(with(document, "/club/setting", "+1"));
  CHECK(assumes(as_marked, taken));
  CHECK(as_marked.club_setting.empty());
  CHECK(as_marked.club_face == 0.0);
  CHECK(near(as_marked.club_loft, 9.5 * kDeg));
  CHECK_FALSE(assumes(turned, taken));
  CHECK(turned.club_setting == "+1");
  CHECK(near(turned.club_loft, 10.5 * kDeg));
  CHECK(near(turned.club_face, -0.7 * kDeg));
  for (const Pupil& p : {as_marked, turned}) {  // what there is does not hang on where it is
    CHECK(near(marked_loft(p), 9.5 * kDeg));
    REQUIRE(p.lofts.size() == 6);
    CHECK(near(p.lofts[0].low, 8.5 * kDeg));
    CHECK(near(p.lofts[2].face, -0.7 * kDeg));
    CHECK(p.lofts[2].in_hand);
  }
  json unnamed = document;
  unnamed["sleeve"]["settings"].erase(1);
  CHECK(assumes(good(unnamed), "How the sleeve of the club in hand is set was not given: taken as marked."));
  // Nothing is told where there is nothing to set.
  const Pupil range = good(with(least(), "/sleeve", {{"range_deg", {-1, 1}}, {"face_per_loft", -1}}));
  for (const Pupil& p : {good(least()), range}) {
    for (const std::string& sentence : p.assumed) CHECK(sentence.find("is set was not given") == std::string::npos);
  }
  const ReadPupil steep = reading(with(with(document, "/club/setting", "+1"), "/delivery/dynamic_loft_deg", 22));
  INFO(told(steep.findings));
  CHECK(steep.pupil);  // 12.5 deg more than marked, 11.5 more than it is played with
  CHECK(steep.findings.empty());
}

TEST_CASE("a setting in hand that there is not is an error that names those there are") {
  const auto said = [](const json& document, const std::string& message) {
    const ReadPupil r = reading(document);
    INFO(told(r.findings));
    CHECK_FALSE(r.pupil);
    CHECK(tells(r.findings, Severity::error, "/club/setting", message));
    CHECK(std::count_if(r.findings.begin(), r.findings.end(),
                        [](const Finding& f) { return f.severity == Severity::error; }) == 1);
  };
  const json two = {{"settings", {{{"name", "0"}, {"loft_deg", 0}}, {{"name", "+1"}, {"loft_deg", 1}}}}};
  const std::string none = "names a setting, and there is no sleeve with settings; give sleeve.settings";
  said(with(with(least(), "/sleeve", two), "/club/setting", "+2"),
       "the sleeve has no setting \"+2\"; there are: \"0\", \"+1\"");
  said(with(with(least(), "/sleeve", two), "/club/setting", ""),
       "the sleeve has no setting \"\"; there are: \"0\", \"+1\"");
  said(with(with(least(), "/sleeve", two), "/club/setting", 1), "is 1; text in double quotes is expected");
  said(with(least(), "/club/setting", "+1"), none);
  said(with(with(least(), "/sleeve", {{"range_deg", {-1, 1}}}), "/club/setting", "+1"), none);
}

TEST_CASE("a loft listed twice is kept once and doubted") {
  const ReadPupil r = reading(with(demo(), "/lofts_on_offer_deg", {9, 12, 9}));
  INFO(told(r.findings));
  REQUIRE(r.pupil);
  CHECK(r.pupil->lofts.size() == 3);
  CHECK(tells(r.findings, Severity::warning, "/lofts_on_offer_deg", "9 deg stands twice in the list"));
}

TEST_CASE("reach, limits, wind and arc in full") {
  json document = demo();
  document["reach"]["speed_per_attack_deg_mph"] = -0.5;
  document["limits"] = parsed<json>(R"({"spin_loft_deg": [null, 16], "launch_deg": [8, 16], "spin_rpm": [1800, 3500],
    "apex_yd": [10, null], "landing_deg": [25, null], "side_yd": [-20, 20], "carry_yd": [150, null],
    "face_to_path_deg": [-3, 3]})");
  document["conditions"].update(parsed<json>(
      R"({"wind_mph": 10, "wind_from_deg": 90, "wind_height_m": 2, "wind_profile": "power", "pressure_hpa": 1001})"));
  document["arc"] = {{"plane_deg", 47}, {"radius_m", 1.5}};
  document["worthwhile_yd"] = 5;
  document["goal"] = "total";
  const Pupil p = good(document);
  CHECK(near(p.reach.speed_per_attack, -0.5 * kMph / kDeg));
  REQUIRE(p.limits.size() == 8);
  const Limited order[] = {Limited::spin_loft,     Limited::launch, Limited::spin,  Limited::apex,
                           Limited::landing_angle, Limited::side,   Limited::carry, Limited::face_to_path};
  for (std::size_t i = 0; i < 8; ++i) CHECK(p.limits[i].quantity == order[i]);
  CHECK(p.limits[0].allowed.low == -std::numeric_limits<double>::infinity());
  CHECK(near(p.limits[0].allowed.high, 16.0 * kDeg));
  CHECK(near(p.limits[5].allowed.low, -20.0 * kYard));
  CHECK(near(p.limits[6].allowed.low, 150.0 * kYard));
  CHECK(near(p.conditions.wind.speed, 10.0 * kMph));
  CHECK(near(p.conditions.wind.from, 90.0 * kDeg));
  CHECK(p.conditions.wind.height == 2.0);
  CHECK(p.conditions.wind.profile == WindProfile::power);
  CHECK(near(*p.conditions.pressure, 100100.0));
  CHECK(near(p.arc.plane, 47.0 * kDeg));
  CHECK(p.arc.radius == 1.5);
  CHECK(near(p.prices.driver, 5.0 * kYard));
  CHECK(near(p.prices.swing, 5.0 * kYard));
  CHECK(p.goal == Goal::total);
}

TEST_CASE("worthwhile prices driver and swing, prices each alone, and nothing is free") {
  const auto prices = [](const json& more) {
    json document = least();
    document.update(more);
    return good(document).prices;
  };
  const auto check = [](const Prices& p, double driver_yd, double sleeve_yd, double swing_yd) {
    CAPTURE(p.driver / kYard, p.sleeve / kYard, p.swing / kYard);
    CHECK(p.driver == Approx(driver_yd * kYard));
    CHECK(p.sleeve == Approx(sleeve_yd * kYard));
    CHECK(p.swing == Approx(swing_yd * kYard));
  };
  check(prices(json::object()), 3.0, 0.5, 3.0);
  check(prices({{"worthwhile_yd", 5}}), 5.0, 0.5, 5.0);
  check(prices({{"worthwhile_yd", 0}}), 0.5, 0.5, 0.5);
  check(prices({{"worthwhile_yd", 0.3}}), 0.5, 0.5, 0.5);
  check(prices({{"prices", {{"driver_yd", 8}}}}), 8.0, 0.5, 3.0);
  check(prices({{"prices", {{"sleeve_yd", 1}}}}), 3.0, 1.0, 3.0);
  check(prices({{"prices", {{"swing_yd", 1.5}}}}), 3.0, 0.5, 1.5);
  check(prices({{"worthwhile_yd", 5}, {"prices", {{"swing_m", 0.9144}, {"sleeve_ft", 6}}}}), 5.0, 2.0, 1.0);
  check(prices({{"prices", {{"driver_m", 50}, {"swing_yd", 0.5}}}}), 50.0 / kYard, 0.5, 0.5);
}

TEST_CASE("what a change must gain is assumed only where it was not said") {
  const auto said = [](const json& more) {
    json document = least();
    document.update(more);
    return assumed(good(document));
  };
  const std::string all = "What a change must gain to be worth it was not given: 3 yd (2.7 m) taken.",
                    driver = "What a change must gain to be worth it was not given for a driver: 3 yd (2.7 m) taken.",
                    technique =
                        "What a change must gain to be worth it was not given for technique: 3 yd (2.7 m) taken.";
  const auto only = [&](const json& more, const std::string& sentence) {
    const std::string text = said(more);
    INFO(text);
    for (const std::string& one : {all, driver, technique})
      CHECK((text.find(one) != std::string::npos) == (one == sentence));
  };
  only(json::object(), all);
  only({{"prices", {{"sleeve_yd", 1}}}}, all);
  only({{"prices", {{"swing_yd", 1}}}}, driver);
  only({{"prices", {{"driver_yd", 1}}}}, technique);
  only({{"prices", {{"driver_yd", 1}, {"swing_yd", 1}}}}, "");
  only({{"worthwhile_yd", 0}}, "");
}

TEST_CASE("a fairway is as wide as said, or 35 yd, and that is assumed") {
  const std::string sentence = "The fairway's width was not given: 35 yd (32 m) taken (common practice).";
  const Pupil plain = good(least()), wide = good(with(least(), "/fairway_yd", 50));
  CHECK(plain.fairway == Approx(35.0 * kYard));
  CHECK(assumes(plain, sentence));
  CHECK(wide.fairway == Approx(50.0 * kYard));
  CHECK_FALSE(assumes(wide, sentence));
  CHECK(good(with(least(), "/fairway_m", 5)).fairway == 5.0);
  CHECK(good(with(least(), "/fairway_m", 150)).fairway == 150.0);
}

TEST_CASE("notes are the coach's, for_pupil is the pupil's, and a page's copy has no notes") {
  json document = least();
  CHECK(good(document).notes.empty());
  CHECK(good(document).for_pupil.empty());
  document["notes"] = "sore back";
  document["for_pupil"] = "ten swings a day";
  const Pupil p = good(document);
  CHECK(p.notes == "sore back");
  CHECK(p.for_pupil == "ten swings a day");

  const std::string text = R"({"format": "loftwright-pupil/1", "name": "A", "notes": "sore back", "for_pupil": "swing",
    "zebra": {"notes": 1.50}, "apple": 0.1})",
                    kept = without_notes(text);
  INFO(kept);
  CHECK(kept.find("sore back") == std::string::npos);
  const auto ordered = parsed<nlohmann::ordered_json>(kept);
  std::vector<std::string> keys;
  for (const auto& [key, value] : ordered.items()) keys.push_back(key);
  CHECK(keys == std::vector<std::string>{"format", "name", "for_pupil", "zebra", "apple"});  // in the file's order
  CHECK(ordered["apple"] == 0.1);
  // Nothing to hide: byte for byte as it came.
  const std::string without = "{ \"format\":  \"loftwright-pupil/1\" }\n\n";
  CHECK(without_notes(without) == without);
}

TEST_CASE("what is possible but unlikely is doubted, not refused") {
  json launched = least_launch();
  launched["launch"].update({{"ball_speed_mph", 60}, {"spin_rpm", 1200}});
  const Mistake cases[] = {
      {with(demo(), "/delivery/club_speed_mph", 45), "/delivery/club_speed_mph",
       "club_speed of 45 mph: unusual with a driver (50 to 125 mph are usual)"},
      {with(demo(), "/delivery/club_speed_mph", 130), "/delivery/club_speed_mph",
       "club_speed of 130 mph: unusual with a driver (50 to 125 mph are usual)"},
      {without(with(demo(), "/delivery/attack_deg", -11), "/reach/attack_deg"), "/delivery/attack_deg",
       "attack of -11 deg: unusual with a driver (-10 to +8 deg are usual)"},
      {without(with(demo(), "/delivery/attack_deg", 9), "/reach/attack_deg"), "/delivery/attack_deg",
       "attack of 9 deg: unusual with a driver (-10 to +8 deg are usual)"},
      {with(demo(), "/delivery/dynamic_loft_deg", 22), "/delivery/dynamic_loft_deg",
       "dynamic_loft of 22 deg: more than 12 deg from the club's loft of 9.5 deg; look at both again"},
      {with(demo(), "/delivery/dynamic_loft_deg", -4.5), "/delivery/dynamic_loft_deg",
       "dynamic_loft of -4.5 deg: below the attack angle, so the ball would leave with topspin"},
      {with(demo(), "/club/loft_deg", 6), "/club/loft_deg", "a driver of 6 deg is unusual (7 to 20 deg are usual)"},
      {with(demo(), "/club/loft_deg", 21), "/club/loft_deg", "a driver of 21 deg is unusual (7 to 20 deg are usual)"},
      {with(demo(), "/spread/path_deg", 7), "/spread/path_deg",
       "a standard deviation of 7 deg is large (up to 6 deg is usual)"},
      {with(demo(), "/spread/toe_mm", 0), "/spread/toe_mm", "a spread of zero: nobody repeats a swing exactly"},
      {with(with(demo(), "/conditions/altitude_m", 1600), "/conditions/pressure_hpa", 1013), "/conditions/pressure_hpa",
       "1013 hPa does not fit an altitude of 1600 m (about 835.2 hPa there); give the station's pressure, not the one "
       "reduced to "
       "sea level"},
      {launched, "/launch",
       "club_speed of 40.54 mph behind this launch: unusual with a driver (50 to 125 mph are usual)"},
  };
  for (const Mistake& c : cases) {
    const ReadPupil r = reading(c.document);
    INFO(c.document.dump() << "\n" << told(r.findings) << "expected at '" << c.place << "': " << c.message);
    CHECK(r.pupil);
    CHECK_FALSE(has_errors(r.findings));
    CHECK(tells(r.findings, Severity::warning, c.place, c.message));
  }
}

TEST_CASE("a head of the pupil's own: its numbers, the rest from the default") {
  const Pupil p = good(with(demo(), "/club/head", {{"mass_g", 198}, {"depth_mm", 38}}));
  REQUIRE(p.head_numbers);
  CHECK(near(p.head_numbers->mass, 0.198));
  CHECK(near(p.head_numbers->depth, 0.038));
  CHECK(p.head_numbers->friction == Head{}.friction);
  CHECK(p.head_numbers->width == 1.0);
  CHECK(good(with(demo(), "/club/head", {{"mass_g", 198}, {"width", 0}})).head_numbers->width == 0.0);
  CHECK(assumes(
      p,
      "Of the head, inertia_normal, inertia_up, inertia_heel_toe, bulge, roll, restitution, restitution_speed, "
      "restitution_slope_s_per_m, tangential_restitution and friction were not given: those of \"modern-driver\" "
      "taken."));
  const Setting s = setting_for(p, Catalogue());
  CHECK(near(s.head.mass, 0.198));
  CHECK(s.head_id.empty());
  CHECK(good(with(demo(), "/club/head", "measured-2020")).head == "measured-2020");
}

TEST_CASE("the setting is what the pupil's file asks for") {
  json document = demo();
  document["ball"] = "linear";
  document["club"]["head"] = "measured-2020";
  document["conditions"] = {{"turf", "soft"},    {"altitude_m", 1000}, {"temperature_c", 8.5},
                            {"humidity_pct", 0}, {"wind_mps", 3},      {"wind_from_deg", 180}};
  const Pupil p = good(document);
  const Setting s = setting_for(p, Catalogue());
  CHECK(s.aero.id == "linear");
  CHECK(near(s.head.mass, 0.204));
  CHECK(s.turf.rolling == 0.33);
  CHECK(s.wind.speed == 3.0);
  CHECK(s.course.ball == "linear");
  CHECK(s.head_id == "measured-2020");
  CHECK(s.course.conditions.turf == "soft");
  CHECK(s.course.conditions.altitude == 1000.0);
  // ISO 2533 at 1000 m: 8.5 C and 1.1116 kg/m3, dry; CIPM-2007 against the ideal gas there differs by less than 0.1 %.
  CHECK(std::abs(s.air.density / 1.1116 - 1.0) < 1e-3);
  document["conditions"]["pressure_hpa"] = 950;
  const double denser = setting_for(good(document), Catalogue()).air.density;
  CHECK(std::abs(denser / s.air.density - 950.0 / 898.7456) <
        1e-4);  // 1000 m: 898.7456 hPa; compressibility hardly moves
}

TEST_CASE("files named in a pupil file are looked for beside it") {
  const ScratchFolder folder;
  std::string turf(Catalogue::built_in("turf/firm.json"));
  turf.replace(turf.find("\"firm\""), 6, "\"our-course\"").replace(turf.find("0.15"), 4, "0.07");
  folder.write("course/turf.json", turf);
  const auto file = folder.write("pupils/p.json", with(demo(), "/conditions/turf", "../course/turf.json").dump());
  Findings warnings;
  const Pupil p = load_pupil(file, Catalogue(), &warnings);
  CHECK(warnings.empty());
  CHECK(p.conditions.turf == (folder.path() / "course/turf.json").string());
  CHECK(setting_for(p, Catalogue()).turf.rolling == 0.07);

  folder.write("course/turf.json", turf.replace(turf.find("0.07"), 4, "7.00"));
  try {
    load_pupil(file, Catalogue());
    FAIL("no FileError");
  } catch (const FileError& e) {
    CHECK(e.what() == file.string() +
                          " cannot be used:\n  /conditions/turf: " + (folder.path() / "course/turf.json").string() +
                          " cannot be used: /rolling: 7 is out of range; allowed: 0.02 to 1");
  }
}

TEST_CASE("warnings of a good file are handed on") {
  const ScratchFolder folder;
  Findings warnings;
  load_pupil(folder.write("p.json", with(demo(), "/club/loft_deg", 6).dump()), Catalogue(), &warnings);
  CHECK(warnings.size() == 1);
}

TEST_CASE("a file that cannot be read says why") {
  const ScratchFolder folder;
  const auto path = [&](const std::string& name) { return (folder.path() / name).string(); };
  CHECK_THROWS_WITH(read_text(folder.path()), folder.path().string() + " is a folder; a file is expected");
  CHECK_THROWS_WITH(read_text(path("none.json")), path("none.json") + ": there is no such file");
  CHECK_THROWS_WITH(read_text(folder.write("empty.json", "")), path("empty.json") + " is empty");
  CHECK_THROWS_WITH(read_text(folder.write("big", std::string(1001, 'x')), 1000),
                    path("big") + " is too large; allowed: at most 1000 bytes");
  CHECK(read_text(folder.write("fits", std::string(1000, 'x')), 1000).size() == 1000);
  CHECK_THROWS_WITH(load_pupil(folder.write("flood.json", std::string(100u << 20, '[')), Catalogue()),
                    path("flood.json") + " is too large; allowed: at most 8388608 bytes");
  CHECK_THROWS_AS(load_pupil(folder.path(), Catalogue()), InputError);
  CHECK_THROWS_AS(check_file(path("empty.json"), Catalogue()), InputError);
}

TEST_CASE("check knows each of our files by its format") {
  const ScratchFolder folder;
  const Catalogue catalogue;
  for (const char* name : {"pupils/demo.json", "balls/reference.json", "heads/modern-driver.json", "turf/firm.json",
                           "aero/reference.json", "aero/example-table.json", "shots/columns.json", "books/demo.json"}) {
    const Findings findings = check_file(std::filesystem::path(LOFTWRIGHT_SOURCE_DIR) / "data" / name, catalogue);
    INFO(name << "\n" << told(findings));
    CHECK(findings.empty());
  }
  struct FileCase {
    std::string text, place, message;
  };
  const std::string known =
      "known formats: loftwright-pupil/1, loftwright-ball/1, loftwright-head/1, loftwright-turf/2, "
      "loftwright-aero/1, loftwright-columns/1, loftwright-book/1, loftwright-academy/1";
  std::string ball(Catalogue::built_in("balls/reference.json"));
  ball.replace(ball.rfind("\"reference\""), 11, "\"refrence\"");
  const FileCase cases[] = {
      {"{}", "", "\"format\" is missing or no text; " + known},
      {"[]", "", "\"format\" is missing or no text; " + known},
      {R"({"format": "something/1"})", "/format",
       "\"something/1\" is the format of no file that is read here; " + known},
      {R"({"format": "loftwright-head/9"})", "/format",
       "\"loftwright-head/9\" is newer than this program can read (\"loftwright-head/1\"): use a newer loftwright"},
      {"{", "line 1, column 2", "the file ends too soon: a closing '}' or ']' is missing"},
      {ball, "/aero",
       "there is no aerodynamic model \"refrence\"; the nearest is \"reference\"; there are: ballistic-range, "
       "example-table, "
       "linear, reference, smits-smith-1994; or name a file that ends in .json"},
      {with(demo(), "/goal", "far").dump(), "/goal", "\"far\" is not one of the words allowed here: carry or total"},
  };
  for (const FileCase& c : cases) {
    const Findings findings = check_file(folder.write("file.json", c.text), catalogue);
    INFO(c.text << "\n" << told(findings) << "expected: " << c.message);
    CHECK(findings.size() == 1);
    CHECK(tells(findings, Severity::error, c.place, c.message));
  }
}

TEST_CASE("random damage to a pupil file is told, never thrown") {
  const std::string text(Catalogue::built_in("pupils/demo.json"));
  unsigned state = 1;
  const auto next = [&](unsigned below) { return (state = state * 1664525u + 1013904223u) / 65536u % below; };
  for (int i = 0; i < 2000; ++i) {
    std::string damaged = text;
    for (unsigned n = 1 + next(3); n > 0; --n)
      damaged[next(static_cast<unsigned>(text.size()))] = static_cast<char>(next(256));
    Findings findings;
    INFO("round " << i << "\n" << damaged);
    std::optional<Pupil> pupil;
    CHECK_NOTHROW(pupil = read_pupil(damaged, {}, Catalogue(), findings));
    CHECK(pupil.has_value() == !has_errors(findings));
  }
}
