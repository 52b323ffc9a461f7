#include "loftwright/io/json_out.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>

#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;
using Json = nlohmann::ordered_json;

namespace {

std::vector<std::string> keys(const Json& object) {
  std::vector<std::string> out;
  for (const auto& [key, value] : object.items()) out.push_back(key);
  return out;
}

// The first keys, in this order; more may follow.
void check_begins(const Json& object, const std::vector<std::string>& wanted) {
  std::vector<std::string> found = keys(object);
  REQUIRE(found.size() >= wanted.size());
  found.resize(wanted.size());
  CHECK(found == wanted);
}

const std::vector<std::string> kLaunchKeys{"ball_speed_mps", "launch_deg", "azimuth_deg", "spin_rpm", "tilt_deg"};
const std::vector<std::string> kFlightKeys{"carry_m",  "side_m",   "apex_m", "landing_deg", "landing_speed_mps",
                                           "flight_s", "bounce_m", "roll_m", "total_m"};

}  // namespace

TEST_CASE("fly's keys, in order") {
  const Setting setting = default_setting();
  const Drive drive = drive_from(Launch{60, 12 * kDeg, 1 * kDeg, 2500 * kRpm, -3 * kDeg}, setting);
  const Json json = Json::parse(fly_json(drive, Pupil{}, setting, UnitSystem::yards));
  std::vector<std::string> wanted{"format", "launch"};
  wanted.insert(wanted.end(), kFlightKeys.begin(), kFlightKeys.end());
  check_begins(json, wanted);
  CHECK(json["format"] == "loftwright-fly/1");
  CHECK(keys(json["launch"]) == kLaunchKeys);
  CHECK(json["launch"]["launch_deg"] == 12.0);  // 12 digits: no 12.000000000000002
  CHECK(json["launch"]["spin_rpm"] == 2500.0);
  CHECK(std::abs(json["carry_m"].get<double>() - drive.flight.carry) < 1e-9);  // [m] 12 digits of 200 m
  CHECK(std::abs(json["total_m"].get<double>() - drive.total) < 1e-9);
  CHECK(!json["models"].contains("head"));
}

TEST_CASE("strike's keys, in order") {
  const Setting setting = default_setting();
  Pupil pupil = plain_pupil();
  pupil.delivery.toe = 0.012;
  const Drive drive = drive_from(pupil.delivery, pupil.handed, setting);
  const Json json = Json::parse(strike_json(drive, pupil, setting, UnitSystem::yards));
  check_begins(json, {"format", "launch", "smash", "spin_loft_deg", "flight"});
  CHECK(json["format"] == "loftwright-strike/2");
  CHECK(keys(json["launch"]) == kLaunchKeys);
  check_begins(json["flight"], kFlightKeys);
  CHECK(json["delivery"]["toe_mm"] == 12.0);
}

TEST_CASE("advise's keys, in order") {
  const Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  AdviseOptions options;
  options.draws = 256;
  const Advice advice = advise(pupil, setting, options);
  const Json json = Json::parse(advise_json(advice, pupil, setting, UnitSystem::yards));
  check_begins(json, {"format", "goal", "strategies", "verdict", "exchange_rates"});
  CHECK(json["format"] == "loftwright-advise/1");
  CHECK(json["goal"] == "carry");
  CHECK(keys(json["strategies"]) == std::vector<std::string>{"as_is", "loft_only", "technique_only", "both"});
  for (const auto& [name, strategy] : json["strategies"].items()) {
    INFO(name);
    check_begins(strategy, {"loft_deg", "attack_deg", "dynamic_loft_deg", "spin_loft_deg", "club_speed_mps", "launch", "flight",
                            "gain_m", "limits"});
    CHECK(keys(strategy["launch"]) == kLaunchKeys);
    check_begins(strategy["flight"], kFlightKeys);
  }
  CHECK(json["strategies"]["as_is"]["gain_m"] == 0.0);
  CHECK(json["strategies"]["as_is"]["loft_deg"] == 9.5);
  CHECK(keys(json["verdict"]) == std::vector<std::string>{"lever", "sentence"});
  CHECK(json["verdict"]["sentence"] == verdict_sentence(advice, pupil, UnitSystem::yards));
  check_begins(json["exchange_rates"],
               {"carry_m_per_attack_deg", "carry_m_per_attack_deg_loft_held", "carry_m_per_loft_deg", "carry_m_per_club_speed_mps",
                "carry_m_per_100rpm", "total_m_per_attack_deg", "total_m_per_attack_deg_loft_held", "total_m_per_loft_deg",
                "total_m_per_club_speed_mps", "total_m_per_100rpm", "attack_deg_in_club_speed_mps", "loft_deg_in_club_speed_mps"});
  const double attack_rate = json["exchange_rates"]["carry_m_per_attack_deg"];
  CHECK(std::abs(attack_rate - advice.rates.attack.carry * kDeg) < 1e-9);
  CHECK(std::abs(json["exchange_rates"]["carry_m_per_100rpm"].get<double>() - advice.rates.launch_spin.carry * 100 * kRpm) < 1e-9);
  const double in_speed = json["exchange_rates"]["attack_deg_in_club_speed_mps"];
  CHECK(std::abs(in_speed * json["exchange_rates"]["carry_m_per_club_speed_mps"].get<double>() - attack_rate) < 1e-9);
  CHECK(json["trade"].size() == advice.trade.size());
  const Json& sure = json["confidence"];
  CHECK(sure["draws"] == 256);
  CHECK(sure["seed"] == 1);
  const auto& both = advice.confidence->at(StrategyKind::both);
  REQUIRE(both);
  CHECK(std::abs(sure["strategies"]["both"]["gain"]["low_m"].get<double>() - both->gain.low) < 1e-9);
  CHECK(std::abs(sure["strategies"]["both"]["gain_shots"]["high_m"].get<double>() - both->gain_shots.high) < 1e-9);
  CHECK(sure["influences"].size() == advice.confidence->influences.size());
}

TEST_CASE("a limit is written in its unit, an open end as null") {
  Pupil pupil = plain_pupil();
  pupil.limits = {{Limited::spin, {1500 * kRpm, 1600 * kRpm}},
                  {Limited::landing_angle, {50 * kDeg, std::numeric_limits<double>::infinity()}}};
  const Setting setting = default_setting();
  AdviseOptions options;
  options.draws = 0;
  const Advice advice = advise(pupil, setting, options);
  REQUIRE(!advice.feasible);  // a drive with so little spin cannot come down so steeply
  const Json json = Json::parse(advise_json(advice, pupil, setting, UnitSystem::yards));
  CHECK(json["feasible"] == false);
  CHECK(json["confidence"].is_null());
  const Json& both = json["strategies"]["both"];
  check_begins(both["limits"][0], {"quantity", "value", "low", "high", "slack", "unit", "active", "broken"});
  CHECK(both["limits"][0]["quantity"] == "spin");
  CHECK(both["limits"][0]["unit"] == "rpm");
  CHECK(both["limits"][0]["high"] == 1600.0);
  CHECK(both["limits"][1]["quantity"] == "landing");
  CHECK(both["limits"][1]["low"] == 50.0);
  CHECK(both["limits"][1]["high"].is_null());
  CHECK(both["must_give"]["slack"].get<double>() < 0.0);
}

TEST_CASE("an assumption is written in its unit") {
  Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  AdviseOptions options;
  options.draws = 0;
  Advice advice = advise(pupil, setting, options);
  advice.confidence.emplace();
  advice.confidence->influences = {{Assumption::speed_cost, 0.1, 0.2, -0.2 * kMph / kDeg, 0.1 * kMph / kDeg, Lever::loft},
                                   {Assumption::measured_attack, 0.1, 0.2, -4 * kDeg, std::nullopt, Lever::loft}};
  const Json json = Json::parse(advise_json(advice, pupil, setting, UnitSystem::yards))["confidence"];
  CHECK(json["influences"][0]["unit"] == "m/s per deg");
  CHECK(std::abs(json["influences"][0]["taken"].get<double>() + 0.2 * kMph) < 1e-12);
  CHECK(std::abs(json["influences"][0]["flips_at"].get<double>() - 0.1 * kMph) < 1e-12);
  CHECK(json["influences"][0]["becomes"] == "loft");
  CHECK(json["influences"][1]["unit"] == "deg");
  CHECK(json["influences"][1]["taken"] == -4.0);
  CHECK(json["influences"][1]["flips_at"].is_null());
  CHECK(json["influences"][1]["becomes"].is_null());
}

TEST_CASE("a number that is not finite is an error of ours, never an output") {
  const Setting setting = default_setting();
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    Drive drive = drive_from(Launch{60, 12 * kDeg, 0, 2500 * kRpm, 0}, setting);
    drive.flight.apex = bad;
    CHECK_THROWS_AS(fly_json(drive, Pupil{}, setting, UnitSystem::yards), std::logic_error);
  }
}

TEST_CASE("there is no -0 and every text ends its line") {
  const ArcAtBall at{-0.0, -1e-30, 0.0};
  const std::string text = arc_json(Arc{-0.1, 50 * kDeg, 1.6, -0.0}, at, Handed::left);
  CHECK(text.find("-0.0") == std::string::npos);
  CHECK(text.back() == '\n');
  const Json json = Json::parse(text);
  check_begins(json, {"format", "attack_deg", "path_deg", "height_m", "low_point_m", "plane_deg", "radius_m"});
  CHECK(json["handed"] == "left");
}

TEST_CASE("findings are counted, and bytes that are no text do no harm") {
  const Json json = Json::parse(check_json("caf\xe9.json", {{Severity::error, "/a", "x"}, {Severity::warning, "", "y"}}));
  CHECK(json["format"] == "loftwright-check/1");
  CHECK(json["usable"] == false);
  CHECK(json["errors"] == 1);
  CHECK(json["warnings"] == 1);
  CHECK(json["findings"][1]["severity"] == "warning");
  CHECK(Json::parse(check_json("a", {}))["usable"] == true);
}
