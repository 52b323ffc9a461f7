#include "loftwright/report/json.hpp"

#include "files/json_values.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>

#include "json.hpp"
#include "loftwright/report/advice_words.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

std::vector<std::string> keys(const OrderedJson& object) {
  std::vector<std::string> out;
  for (const auto& [key, value] : object.items()) out.push_back(key);
  return out;
}

// The first keys, in this order; more may follow.
void check_begins(const OrderedJson& object, const std::vector<std::string>& wanted) {
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
  const OrderedJson json = parsed<OrderedJson>(fly_json(drive, setting, UnitSystem::yards));
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
  Delivery delivery = plain_pupil().delivery;
  delivery.toe = 0.012;
  const Strike strike{.delivery = delivery, .setting = setting, .drive = drive_from(delivery, Handed::right, setting)};
  const OrderedJson json = parsed<OrderedJson>(strike_json(strike, UnitSystem::yards));
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
  const OrderedJson json = parsed<OrderedJson>(advise_json(advice, pupil, setting, UnitSystem::yards));
  check_begins(json, {"format", "goal", "strategies", "choices", "verdict", "exchange_rates"});
  CHECK(json["format"] == "loftwright-advise/2");
  CHECK(json["goal"] == "carry");
  CHECK(keys(json["strategies"]) == std::vector<std::string>{"as_is", "loft_only", "technique_only", "both"});
  for (const auto& [name, strategy] : json["strategies"].items()) {
    INFO(name);
    check_begins(strategy,
                 {"loft_deg", "attack_deg", "dynamic_loft_deg", "spin_loft_deg", "club_speed_mps", "launch", "flight",
                  "average", "gain_m", "centred_gain_m", "price_m", "limits", "feasible", "must_give"});
    CHECK(keys(strategy["average"]) == std::vector<std::string>{"carry_m", "total_m", "side_m", "fairway_share"});
    CHECK(strategy["must_give"] == OrderedJson::array());
    CHECK(keys(strategy["launch"]) == kLaunchKeys);
    check_begins(strategy["flight"], kFlightKeys);
  }
  CHECK(json["strategies"]["as_is"]["gain_m"] == 0.0);
  CHECK(json["strategies"]["as_is"]["loft_deg"] == 9.5);
  const Strategy& technique = advice.at(StrategyKind::technique_only);
  const OrderedJson& its = json["strategies"]["technique_only"];
  const auto same = [](const OrderedJson& number, double value) {
    return std::abs(number.get<double>() - value) < 1e-9;
  };
  CHECK(same(its["average"]["carry_m"], technique.average.carry));
  CHECK(same(its["average"]["side_m"], technique.average.side));
  CHECK(same(its["average"]["fairway_share"], technique.average.fairway_share));
  CHECK(same(its["gain_m"], its["average"]["carry_m"].get<double>() -
                                json["strategies"]["as_is"]["average"]["carry_m"].get<double>()));
  CHECK(same(its["centred_gain_m"],
             its["flight"]["carry_m"].get<double>() - json["strategies"]["as_is"]["flight"]["carry_m"].get<double>()));
  CHECK(same(its["price_m"], 3.0 * kYard));
  CHECK(same(json["pupil"]["fairway_m"], 35.0 * kYard));
  CHECK(same(json["pupil"]["prices"]["sleeve_m"], 0.5 * kYard));
  check_begins(json["exchange_rates"],
               {"carry_m_per_attack_deg", "carry_m_per_attack_deg_loft_held", "carry_m_per_loft_deg",
                "carry_m_per_club_speed_mps", "carry_m_per_100rpm", "total_m_per_attack_deg",
                "total_m_per_attack_deg_loft_held", "total_m_per_loft_deg", "total_m_per_club_speed_mps",
                "total_m_per_100rpm", "attack_deg_in_club_speed_mps", "loft_deg_in_club_speed_mps"});
  const double attack_rate = json["exchange_rates"]["carry_m_per_attack_deg"];
  CHECK(std::abs(attack_rate - advice.rates.attack.carry * kDeg) < 1e-9);
  CHECK(std::abs(json["exchange_rates"]["carry_m_per_100rpm"].get<double>() -
                 advice.rates.launch_spin.carry * 100 * kRpm) < 1e-9);
  const double in_speed = json["exchange_rates"]["attack_deg_in_club_speed_mps"];
  CHECK(std::abs(in_speed * json["exchange_rates"]["carry_m_per_club_speed_mps"].get<double>() - attack_rate) < 1e-9);
  CHECK(json["trade"].size() == advice.trade.size());
  const OrderedJson& sure = json["confidence"];
  CHECK(sure["draws"] == 256);
  CHECK(sure["seed"] == 1);
  const auto& both = advice.confidence->at(StrategyKind::both);
  REQUIRE(both);
  CHECK(std::abs(sure["strategies"]["both"]["gain"]["low_m"].get<double>() - both->gain.low) < 1e-9);
  CHECK(std::abs(sure["strategies"]["both"]["drive_gain"]["high_m"].get<double>() - both->drive_gain.high) < 1e-9);
  CHECK(std::abs(sure["strategies"]["both"]["drives_gaining"].get<double>() - both->drives_gaining) < 1e-9);
  CHECK(keys(sure["measuring"]) == std::vector<std::string>{"ten_more_shots_m", "tuned_ball_m", "trial_lesson_m",
                                                            "measured_run_m", "everything_m"});
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
  const OrderedJson json = parsed<OrderedJson>(advise_json(advice, pupil, setting, UnitSystem::yards));
  CHECK(json["feasible"] == false);
  CHECK(json["confidence"].is_null());
  const OrderedJson& both = json["strategies"]["both"];
  check_begins(both["limits"][0], {"quantity", "value", "low", "high", "slack", "unit", "active", "broken"});
  CHECK(both["limits"][0]["quantity"] == "spin");
  CHECK(both["limits"][0]["unit"] == "rpm");
  CHECK(both["limits"][0]["high"] == 1600.0);
  CHECK(both["limits"][1]["quantity"] == "landing");
  CHECK(both["limits"][1]["low"] == 50.0);
  CHECK(both["limits"][1]["high"].is_null());
  REQUIRE(both["must_give"].size() >= 1);
  for (const OrderedJson& limit : both["must_give"]) {
    CHECK(limit["slack"].get<double>() < 0.0);
    CHECK(keys(limit) == keys(both["limits"][0]));
  }
  // What cannot be had has a loft, an attack and a price, and no gain.
  REQUIRE(json["choices"].size() == advice.choices.size());
  for (const OrderedJson& c : json["choices"]) {
    CHECK(c["feasible"] == false);
    for (const char* key : {"gain_m", "gain_low_m", "gain_high_m", "net_gain_m", "best_probability", "drives_gaining",
                            "drive_gain_low_m", "drive_gain_high_m", "fairway_share"}) {
      INFO(key);
      CHECK(c[key].is_null());
    }
    for (const char* key : {"loft_deg", "attack_deg", "price_m"}) CHECK(c[key].is_number());
  }
  CHECK(json["verdict"]["runner_up"].is_null());
}

TEST_CASE("choices and verdict, key by key") {
  const Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  AdviseOptions options;
  options.draws = 1024;
  Advice advice = loftwright::advise(pupil, setting, options);
  const auto written = [&] { return parsed<OrderedJson>(advise_json(advice, pupil, setting, UnitSystem::yards)); };
  OrderedJson json = written();
  REQUIRE(json["choices"].size() == 4);
  for (std::size_t i = 0; i < 4; ++i) {
    const OrderedJson& c = json["choices"][i];
    const Choice& told = advice.choices[i];
    CHECK(keys(c) == std::vector<std::string>{"lever", "feasible", "loft_deg", "attack_deg", "gain_m", "gain_low_m",
                                              "gain_high_m", "price_m", "net_gain_m", "best_probability",
                                              "drives_gaining", "drive_gain_low_m", "drive_gain_high_m",
                                              "fairway_share", "fit"});
    INFO(c.dump());
    const auto near = [&](const char* key, double value) { CHECK(c[key].get<double>() == Approx(value).margin(1e-9)); };
    CHECK(c["lever"] == std::string(key_of(told.lever)));
    CHECK(c["feasible"] == true);
    near("loft_deg", told.loft / kDeg);
    near("attack_deg", told.attack / kDeg);
    near("gain_m", told.gain);
    near("price_m", told.price);
    near("net_gain_m", told.net_gain);
    near("net_gain_m", c["gain_m"].get<double>() - c["price_m"].get<double>());
    near("best_probability", told.best_probability);
    const Strategy& s = advice.at(strategy_of(told.lever));
    near("fairway_share", s.average.fairway_share);
    near("gain_m", s.gain);
    if (i > 0) CHECK(json["choices"][i - 1]["net_gain_m"].get<double>() >= c["net_gain_m"].get<double>());
    if (told.lever == Lever::leave) {
      for (const char* key : {"gain_m", "gain_low_m", "gain_high_m", "price_m", "net_gain_m", "drives_gaining",
                              "drive_gain_low_m", "drive_gain_high_m"}) {
        near(key, 0.0);
      }
      continue;
    }
    const StrategyConfidence& judged = *advice.confidence->at(s.kind);
    near("gain_low_m", judged.gain.low);
    near("gain_high_m", judged.gain.high);
    near("drives_gaining", judged.drives_gaining);
    near("drive_gain_low_m", judged.drive_gain.low);
    near("drive_gain_high_m", judged.drive_gain.high);
  }

  const OrderedJson& v = json["verdict"];
  CHECK(keys(v) == std::vector<std::string>{"lever", "certainty", "probability", "regret_m", "runner_up", "first_step",
                                            "measure_first", "sentence"});
  CHECK(v["lever"] == std::string(key_of(advice.verdict.lever)));
  CHECK(v["certainty"] == std::string(key_of(advice.verdict.certainty)));
  CHECK(v["probability"].get<double>() == Approx(advice.verdict.probability));
  CHECK(v["regret_m"].get<double>() == Approx(advice.verdict.regret).margin(1e-9));
  CHECK(v["sentence"] == verdict_sentence(advice, UnitSystem::yards));
  advice.verdict.runner_up = Lever::leave;
  advice.verdict.first_step = Lever::technique;
  advice.verdict.measure_first = Measure::measured_run;
  json = written();
  CHECK(json["verdict"]["runner_up"] == "leave");
  CHECK(json["verdict"]["first_step"] == "technique");
  CHECK(json["verdict"]["measure_first"] == "measured_run");
  advice.verdict.runner_up.reset();
  advice.verdict.first_step.reset();
  advice.verdict.measure_first.reset();
  json = written();
  for (const char* key : {"runner_up", "first_step", "measure_first"}) CHECK(json["verdict"][key].is_null());

  // Without draws nothing is said of how sure.
  options.draws = 0;
  advice = loftwright::advise(pupil, setting, options);
  json = written();
  for (const OrderedJson& c : json["choices"]) {
    if (c["lever"] == "leave") continue;
    CHECK(c["gain_m"].is_number());
    for (const char* key : {"gain_low_m", "drives_gaining", "drive_gain_high_m"}) CHECK(c[key].is_null());
  }
}

TEST_CASE("an assumption is written in its unit") {
  Pupil pupil = plain_pupil();
  const Setting setting = default_setting();
  AdviseOptions options;
  options.draws = 0;
  Advice advice = advise(pupil, setting, options);
  advice.confidence.emplace();
  advice.confidence->influences = {
      {Assumption::speed_cost, 0.1, 0.2, -0.2 * kMph / kDeg, 0.1 * kMph / kDeg, Lever::loft},
      {Assumption::measured_attack, 0.1, 0.2, -4 * kDeg, std::nullopt, Lever::loft}};
  const OrderedJson json = parsed<OrderedJson>(advise_json(advice, pupil, setting, UnitSystem::yards))["confidence"];
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
    CHECK_THROWS_AS(fly_json(drive, setting, UnitSystem::yards), std::logic_error);
  }
}

TEST_CASE("there is no -0 and every text ends its line") {
  const ArcAtBall at{-0.0, -1e-30, 0.0};
  const std::string text = arc_json(Arc{-0.1, 50 * kDeg, 1.6, -0.0}, at, Handed::left);
  CHECK(text.find("-0.0") == std::string::npos);
  CHECK(text.back() == '\n');
  const OrderedJson json = parsed<OrderedJson>(text);
  check_begins(json, {"format", "attack_deg", "path_deg", "height_m", "low_point_m", "plane_deg", "radius_m"});
  CHECK(json["handed"] == "left");
}

TEST_CASE("findings are counted, and bytes that are no text do no harm") {
  const OrderedJson json =
      parsed<OrderedJson>(check_json("caf\xe9.json", {{Severity::error, "/a", "x"}, {Severity::warning, "", "y"}}));
  CHECK(json["format"] == "loftwright-check/1");
  CHECK(json["usable"] == false);
  CHECK(json["errors"] == 1);
  CHECK(json["warnings"] == 1);
  CHECK(json["findings"][1]["severity"] == "warning");
  CHECK(parsed<OrderedJson>(check_json("a", {}))["usable"] == true);
}

TEST_CASE("no number has more than twelve digits, and each is the number it was", "[json]") {
  // The library's own way of writing gives the first 17 digits.
  const OrderedJson json{{"a", in("", 13.0180043607)},
                         {"b", in("", 0.0211407111977)},
                         {"c", in("", -1.5e-300)},
                         {"seed", 18446744073709551615u},
                         {"text", "13.018004360700001 \\\" 14.058714738800001"},
                         {"d", 10.0}};
  CHECK(json.dump().find("13.018004360700001,") != std::string::npos);
  const std::string text = text_of(json), line = dumped(json);
  for (const char* part : {"13.0180043607", "0.0211407111977", "-1.5e-300", "18446744073709551615", "10.0",
                           "\"13.018004360700001 \\\\\\\" 14.058714738800001\""}) {
    INFO(part << " in " << text);
    CHECK(text.find(part) != std::string::npos);
    CHECK(line.find(part) != std::string::npos);
  }
  CHECK(parsed<OrderedJson>(text) == json);
  CHECK(parsed<OrderedJson>(line) == json);
  std::uint64_t state = 20261126;
  for (int i = 0; i < 20000; ++i) {
    state = state * 6364136223846793005u + 1442695040888963407u;
    const OrderedJson value = in("", std::ldexp(static_cast<double>(state >> 11), -40 - i % 40));
    const std::string written = dumped(value);
    CHECK(parsed<OrderedJson>(written) == value);
    CHECK(std::count_if(written.begin(),
                        written.begin() + static_cast<std::ptrdiff_t>(std::min(written.find('e'), written.size())),
                        [](char c) { return c >= '0' && c <= '9'; }) <= 18);  // zeros before the first digit among them
  }
}
