// A shot list named in a pupil's file.
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "findings.hpp"
#include "json.hpp"
#include "loftwright/files/columns_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/files/shots_file.hpp"
#include "loftwright/shots/inference.hpp"
#include "pupils.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;
using nlohmann::json;

namespace {

const std::string kList =
    "Club Speed (mph),Attack,Dynamic "
    "Loft,Path\n80.1,-4.0,10.2,1\n81.0,-3.1,11.6,2\n79.4,-2.6,11.4,-1\n80.3,-3.7,10.4,0\n"
    "80.8,-2.2,12.1,3\n";

struct ReadShots {
  std::optional<Pupil> pupil;
  Findings findings;
};

// A pupil whose "shots" is this, beside these files.
ReadShots read_shots(const json& shots, const std::map<std::string, std::string>& files,
                     const json& more = json::object()) {
  const ScratchFolder folder;
  for (const auto& [name, content] : files) folder.write(name, content);
  json document{{"format", "loftwright-pupil/1"}, {"shots", shots}, {"club", {{"loft_deg", 10.5}}}};
  document.merge_patch(more);
  ReadShots out;
  out.pupil = read_pupil(document.dump(), folder.path(), Catalogue(), out.findings);
  // Where the files lie is the scratch folder's business.
  for (Finding& f : out.findings) {
    const std::string path = folder.path().string() + "/";
    for (std::size_t at; (at = f.message.find(path)) != std::string::npos;) f.message.erase(at, path.size());
  }
  return out;
}

}  // namespace

TEST_CASE("a pupil's delivery, scatter and number of drives come from the list") {
  const ReadShots r = read_shots("list.csv", {{"list.csv", kList}});
  INFO(told(r.findings));
  REQUIRE(r.pupil);
  CHECK(r.findings.empty() == false);  // units taken for the angles are said
  const DeliveryBlock block = delivery_block(read_shots(kList, built_in_columns())).value();
  const Pupil& p = *r.pupil;
  CHECK(p.delivery.club_speed == block.mean.club_speed);
  CHECK(p.delivery.attack == block.mean.attack);
  CHECK(p.delivery.dynamic_loft == block.mean.dynamic_loft);
  CHECK(std::abs(p.delivery.path - 1.0 * kDeg) < 1e-12);
  CHECK(p.delivery.face == 0.0);
  CHECK_FALSE(p.delivery_inferred);
  CHECK(p.measured_shots == 5);
  REQUIRE(p.spread);
  CHECK(p.spread->attack == block.spread->attack);
  CHECK(p.spread->path == block.spread->path);
  REQUIRE(p.spread->correlations.size() == block.spread->correlations.size());
  // What the list does not hold stays what is usual.
  const Spread usual = usual_spread(Skill::mid_handicap, p.delivery.club_speed);
  CHECK(p.spread->face == usual.face);
  CHECK(p.spread->toe == usual.toe);
  CHECK(assumes(p, "list.csv: no readings of face, toe and high: taken as zero."));
  CHECK(assumes(p,
                "Spread of face, toe and high was not given: that usual for a mid-handicap golfer taken (estimate; the "
                "skill was not given either)."));
  for (const std::string& sentence : p.assumed) {
    INFO(sentence);
    CHECK(sentence.find("How many drives") == std::string::npos);
  }
}

TEST_CASE("a spread beside the list goes before the list's, number by number") {
  const ReadShots r =
      read_shots("list.csv", {{"list.csv", kList}}, {{"spread", {{"attack_deg", 2.5}, {"toe_mm", 12}}}});
  INFO(told(r.findings));
  REQUIRE(r.pupil);
  const DeliveryBlock block = delivery_block(read_shots(kList, built_in_columns())).value();
  CHECK(std::abs(r.pupil->spread->attack - 2.5 * kDeg) < 1e-15);
  CHECK(std::abs(r.pupil->spread->toe - 0.012) < 1e-15);
  CHECK(r.pupil->spread->dynamic_loft == block.spread->dynamic_loft);
  CHECK(r.pupil->spread->correlations.size() == block.spread->correlations.size());
  const json pair{{"between", {"attack", "dynamic_loft"}}, {"value", 0.3}};
  const ReadShots own =
      read_shots("list.csv", {{"list.csv", kList}}, {{"spread", {{"correlations", json::array({pair})}}}});
  REQUIRE(own.pupil);
  REQUIRE(own.pupil->spread->correlations.size() == 1);
  CHECK(own.pupil->spread->correlations[0].value == 0.3);
}

TEST_CASE("one shot is a delivery without a scatter of its own") {
  const ReadShots r = read_shots("list.csv", {{"list.csv", "Club Speed (mph),Attack,Dynamic Loft\n80,-4,10\n"}});
  REQUIRE(r.pupil);
  CHECK(r.pupil->measured_shots == 1);
  CHECK_FALSE(r.pupil->spread);
  CHECK(assumes(*r.pupil,
                "The spread from shot to shot was not given: that usual for a mid-handicap golfer taken (estimate; the "
                "skill was not given either)."));
}

TEST_CASE("a list of ball numbers is worked back, for either hand") {
  const std::string balls =
      "Ball Speed (mph),Launch,Spin,Azimuth,Tilt\n118,11,2700,2,5\n119,10,2800,1,3\n117,12,2600,3,8\n";
  std::string mirrored =
      "Ball Speed (mph),Launch,Spin,Azimuth,Tilt\n118,11,2700,-2,-5\n119,10,2800,-1,-3\n117,12,2600,-3,-8\n";
  const ReadShots right = read_shots("list.csv", {{"list.csv", balls}}),
                  left = read_shots("list.csv", {{"list.csv", mirrored}}, {{"handed", "left"}});
  INFO(told(right.findings) << told(left.findings));
  REQUIRE(right.pupil);
  REQUIRE(left.pupil);
  CHECK(right.pupil->delivery_inferred);
  CHECK(assumes(*right.pupil,
                "list.csv: only ball numbers were measured: the delivery was worked out from them, for strikes at the "
                "centre of the face."));
  CHECK(right.pupil->delivery.path != 0.0);
  CHECK(std::abs(right.pupil->delivery.path + left.pupil->delivery.path) < 1e-9);
  CHECK(std::abs(right.pupil->delivery.attack - left.pupil->delivery.attack) < 1e-9);
}

TEST_CASE("how the list is to be read can be said") {
  const std::string odd_list =
      "Which;Tempo;Angle (deg);Dynamic Loft\nDriver;36,1;-4,0;10,2\nWedge;30,0;-6,5;30,2\nDriver;36,5;-3,0;11,0\n";
  const json how{{"file", "l.csv"},         {"map", {{"club_speed_mps", "Tempo"}, {"attack", "Angle (deg)"}}},
                 {"decimal", "comma"},      {"club", "driver"},
                 {"columns", "words.json"}, {"odd", "leave-out"}};
  json words = parsed<json>(Catalogue::built_in("shots/columns.json"));
  words["club"] = {"which"};
  const ReadShots r = read_shots(how, {{"l.csv", odd_list}, {"words.json", words.dump()}});
  INFO(told(r.findings));
  REQUIRE(r.pupil);
  CHECK(std::abs(r.pupil->delivery.club_speed - 36.3) < 1e-12);
  CHECK(std::abs(r.pupil->delivery.attack - -3.5 * kDeg) < 1e-12);
  CHECK(r.pupil->measured_shots == 2);
  CHECK(tells(r.findings, Severity::warning, "/shots", "l.csv, line 3 set aside: club 'Wedge', not 'driver'"));
}

TEST_CASE("every mistake with a list in a pupil's file is told with its place") {
  struct Case {
    json shots;
    std::string list, place, message;
    json more = json::object();
  };
  const Case cases[] = {
      {"none.csv", kList, "/shots", "none.csv: there is no such file"},
      {3, kList, "/shots", "is 3; an object { ... } is expected"},
      {json::object(), kList, "/shots", "file is missing"},
      {{{"file", "list.csv"}, {"clb", "Driver"}},
       kList,
       "/shots/clb",
       "unknown key \"clb\"; the nearest known key is \"club\""},
      {{{"file", "list.csv"}, {"club", "Driver"}}, kList, "/shots", "list.csv: there is no column that names the club"},
      {{{"file", "list.csv"}, {"decimal", "dot"}},
       kList,
       "/shots/decimal",
       "\"dot\" is not one of the words allowed here: point or comma"},
      {{{"file", "list.csv"}, {"odd", "drop"}},
       kList,
       "/shots/odd",
       "\"drop\" is not one of the words allowed here: keep or leave-out"},
      {{{"file", "list.csv"}, {"map", "attack"}},
       kList,
       "/shots/map",
       "an object is expected, as in {\"attack\": \"Angle (deg)\"}"},
      {{{"file", "list.csv"}, {"map", {{"attack", 3}}}},
       kList,
       "/shots/map/attack",
       "the head of a column in double quotes is expected"},
      {{{"file", "list.csv"}, {"map", {{"attack_mph", "Attack"}}}},
       kList,
       "/shots/map/attack_mph",
       "'attack_mph': 'mph' is not a unit of angle"},
      {{{"file", "list.csv"}, {"map", {{"attack", "Angle"}}}},
       kList,
       "/shots",
       "list.csv: no column is headed 'Angle'; there are: Club Speed (mph), Attack, Dynamic Loft, Path"},
      {{{"file", "list.csv"}, {"columns", "none.json"}}, kList, "/shots", "none.json: there is no such file"},
      {"list.csv", "Club Speed (mph),Attack\n80,-4\n", "/shots",
       "list.csv: a delivery needs club speed, attack and delivered loft, or ball speed, launch and spin"},
      {"list.csv", "Club Speed (mph),Attack,Dynamic Loft\n800,-4,10\n", "/shots",
       "list.csv: no row is a shot; 1 set aside, the first of them line 2: club speed 800 mph is outside 20.2 to 161"},
      {"list.csv", "Club Speed (mph),Attack,Dynamic Loft\n", "/shots",
       "list.csv: there are heads but no shots below them"},
      {"list.csv", "Club Speed (mph),Attack,Dynamic Loft\n80,-4,10\n81,\"-3,11\n", "/shots", "list.csv: line 3"},
      {"list.csv",
       kList,
       "/delivery",
       "\"shots\" says that already: leave one of the two out",
       {{"delivery", {{"club_speed_mph", 80}, {"attack_deg", -4}, {"dynamic_loft_deg", 10}}}}},
      {"list.csv",
       kList,
       "/measured_shots",
       "\"shots\" says that already: leave one of the two out",
       {{"measured_shots", 5}}},
      {"list.csv",
       kList,
       "/reach/attack_deg",
       "2 to 3 deg does not hold the measured attack of -3.12 deg",
       {{"reach", {{"attack_deg", {2, 3}}}}}},
      {"list.csv", "Club Speed (mph),Attack,Dynamic Loft\n30,-4,10\n140,-4,10\n", "/shots",
       "the club speed of these shots scatters by 34.8 m/s; allowed: at most 10"},
  };
  for (const Case& c : cases) {
    const ReadShots r = read_shots(c.shots, {{"list.csv", c.list}}, c.more);
    INFO(c.shots.dump() << " " << c.more.dump() << "\n"
                        << c.list << told(r.findings) << "expected at '" << c.place << "': " << c.message);
    CHECK_FALSE(r.pupil);
    const auto is_it = [&](const Finding& f) {
      return f.severity == Severity::error && f.place == c.place && f.message.find(c.message) == 0;
    };
    CHECK(std::count_if(r.findings.begin(), r.findings.end(), is_it) == 1);
    const auto is_error = [](const Finding& f) { return f.severity == Severity::error; };
    CHECK(std::count_if(r.findings.begin(), r.findings.end(), is_error) == 1);
  }
}

TEST_CASE("what is unusual in the mean or the scatter of a list is doubted") {
  const ReadShots r =
      read_shots("list.csv", {{"list.csv", "Club Speed (mph),Attack,Dynamic Loft\n80,-15,10\n82,-4,11\n81,-14,9\n"}});
  INFO(told(r.findings));
  REQUIRE(r.pupil);
  CHECK(tells(r.findings, Severity::warning, "/shots",
              "attack of -11 deg in the mean of these shots: unusual with a driver (-10 to +8 deg are usual)"));
  CHECK(tells(r.findings, Severity::warning, "/shots",
              "the attack of these shots scatters by 6.08 deg: that is much (up to 4 is usual)"));
}
