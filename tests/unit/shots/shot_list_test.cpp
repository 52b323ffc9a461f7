#include "loftwright/shots/shot_list.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "loftwright/files/columns_file.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;
using Catch::Matchers::Contains;

namespace {

ShotList read(std::string_view text, const ReadOptions& options = {}) {
  static const ColumnMap words = built_in_columns();
  return read_shots(text, words, options);
}

void check_value(const Shot& shot, Reading reading, double expected, const char* unit_name) {
  INFO(info(reading).title);
  REQUIRE(shot.at(reading));
  CHECK(std::abs(unit(unit_name).from_si(*shot.at(reading)) - expected) < 1e-9);  // rounding there and back
}

bool noted(const ShotList& list, const std::string& what) {
  return std::any_of(list.notes.begin(), list.notes.end(),
                     [&](const Note& n) { return n.message.find(what) != std::string::npos; });
}

std::string all_notes(const ShotList& list) {
  std::string out;
  for (const Note& n : list.notes) out += std::to_string(n.line) + ": " + n.message + "\n";
  return out;
}

// One row under these heads must be set aside for this reason.
void check_set_aside(const std::string& heads, const std::string& row, const std::string& reason) {
  const ShotList list = read(heads + "\n" + row + "\n");
  INFO(heads << "\n" << row);
  REQUIRE(list.set_aside.size() == 1);
  CHECK(list.shots.empty());
  CHECK(list.set_aside[0].line == 2);
  CHECK_THAT(list.set_aside[0].reason, Contains(reason));
  CHECK_FALSE(list.set_aside[0].cells.empty());
}

void check_kept(const std::string& heads, const std::string& row) {
  const ShotList list = read(heads + "\n" + row + "\n");
  INFO(heads << "\n" << row << "\n" << (list.set_aside.empty() ? "" : list.set_aside[0].reason));
  CHECK(list.shots.size() == 1);
}

}  // namespace

TEST_CASE("a list with everything a device or a spreadsheet may do to it", "[shots]") {
  const ShotList list = read(
      "\xEF\xBB\xBF"
      "Invented practice hall;;\r\n"
      "Session: 4 November;;\r\n"
      "\r\n"
      "No;Date;Club;Club Speed;Attack Angle [deg];Ball Speed (mph);SPIN_RATE;Side;Carry;Remarks\r\n"
      "[-];;;[mph];;;[rpm];[yd];[yd];\r\n"
      "# warm-up left out\r\n"
      "1;04.11.2026;Driver;82,4;-4,0;118,5;3150;12,5 L;176,2;\"thin; \"\"ugly\"\"\"\r\n"
      "2;04.11.2026;Driver;83,1;-;119,0;2.980;3 R;181,0;\"two\r\nlines\"\r\n"
      ";;;;;;;;;\r\n"
      "3;04.11.2026;Driver;81,0;-3,2\r\n"
      "Average;;;82,2;-3,6;118,75;3065;4,75 L;178,6;\r\n");
  INFO(all_notes(list));
  REQUIRE(list.shots.size() == 3);
  const Shot& first = list.shots[0];
  CHECK(first.line == 7);
  CHECK(first.label == "1");
  CHECK(first.date == "04.11.2026");
  CHECK(first.club == "Driver");
  check_value(first, Reading::club_speed, 82.4, "mph");
  check_value(first, Reading::attack, -4.0, "deg");
  check_value(first, Reading::ball_speed, 118.5, "mph");
  check_value(first, Reading::spin, 3150, "rpm");
  check_value(first, Reading::side, -12.5, "yd");
  check_value(first, Reading::carry, 176.2, "yd");
  CHECK_FALSE(first.at(Reading::launch));
  CHECK_FALSE(list.shots[1].at(Reading::attack));
  check_value(list.shots[1], Reading::spin, 2980, "rpm");
  CHECK(list.shots[2].line == 11);  // the line end inside the quotes counts
  CHECK_FALSE(list.shots[2].at(Reading::carry));
  REQUIRE(list.set_aside.size() == 1);
  CHECK(list.set_aside[0].line == 12);
  CHECK(list.set_aside[0].reason == "'Average': a summary of other lines, not a shot");
  CHECK(list.unused == std::vector<std::string>{"Remarks"});
  CHECK(noted(list, "rows skipped above the heads in line 4: 2"));
  CHECK(noted(list, "comment lines skipped: 1"));
  CHECK(noted(list, "5 cells under 10 heads: the rest taken as missing"));
  CHECK(list.columns.size() == 6);
}

TEST_CASE("heads with the unit in brackets, as last word, below, or none needed", "[shots]") {
  for (const char* head :
       {"Club Speed (mph)", "club_speed_mph", "CLUB SPEED [MPH]", "ClubSpeed (mph)", "clubhead-speed mph",
        "Swing Speed, mph", "Club Speed\xC2\xA0(mph)", "\"Club Speed (mph)\""}) {
    INFO(head);
    const ShotList list = read(std::string(head) + "\tLaunch\n82\t12\n");
    REQUIRE(list.shots.size() == 1);
    check_value(list.shots[0], Reading::club_speed, 82, "mph");
    check_value(list.shots[0], Reading::launch, 12, "deg");
    CHECK(noted(list, "column 'Launch' names no unit; taken as deg"));
  }
  check_value(read("Attack (\xB0)\n-4\n").shots.at(0), Reading::attack, -4, "deg");  // Latin-1
  check_value(read("Attack \xC2\xB0\n-4\n").shots.at(0), Reading::attack, -4, "deg");
  check_value(read("Low Point (\")\n-4\n").shots.at(0), Reading::low_point, -4, "in");
  check_value(read("Carry,Side\nyd,yd\n200,-3\n").shots.at(0), Reading::carry, 200, "yd");
  check_value(read("Carry,Smash\nyd,-\n200,1.45\n").shots.at(0), Reading::smash, 145, "%");
  // A head may repeat the row's unit, not contradict it.
  check_value(read("Carry (m),Side\nm,yd\n200,-3\n").shots.at(0), Reading::carry, 200, "m");
  CHECK_THROWS_WITH(read("Carry (m),Side\nyd,yd\n200,-3\n"),
                    Contains("line 2") && Contains("'Carry (m)' is said to be in yd"));
}

TEST_CASE("a column without a unit where several are in use blocks itself, with the remedy, and not the list",
          "[shots]") {
  const ShotList list = read("Club Speed,Attack,Ball Speed,Spin\n82,-4,118,2650\n83,-3,119,2700\n");
  REQUIRE(list.shots.size() == 2);
  CHECK(list.columns.size() == 2);
  CHECK_FALSE(list.shots[0].at(Reading::ball_speed));
  CHECK(list.unused == std::vector<std::string>{"Club Speed", "Ball Speed"});
  CHECK(noted(list,
              "column 'Ball Speed' is not read, for it names no unit of speed; say it with --map ball_speed_mph=\"Ball "
              "Speed\""));
  CHECK_THROWS_WITH(read("Club Speed,Carry\n82,170\n"),
                    Contains("column 'Club Speed' is not read, for it names no unit of speed; say it with --map "
                             "club_speed_mph=\"Club Speed\"") &&
                        Contains("column 'Carry' is not read, for it names no unit of length"));
  CHECK_THROWS_WITH(read("Club Speed,Attack\n82,-4\n", {.overrides = {column_override("club_speed", "Club Speed")}}),
                    Contains("column 'Club Speed' names no unit of speed"));
  CHECK_THROWS_WITH(read("Speed of things,Yards\n1,2\n"),
                    Contains("no column is recognised") && Contains("Speed of things, Yards"));
  CHECK_THROWS_WITH(read("Club Speed (yd)\n82\n"), Contains("no column is recognised"));
  CHECK_THROWS_WITH(read("\"Club Speed (mph)\n82\n"), Contains("line 1: a quoted cell"));
  CHECK_THROWS_WITH(read("# Club Speed (mph)\n"), Contains("nothing but comments"));
}

TEST_CASE("the first remedy for a missing unit reads the shots when it is given back", "[shots]") {
  struct Case {
    const char *heads, *rows, *remedy;
  };
  for (const auto& [heads, rows, remedy] : {Case{"Ball Speed;Spin", "118;2650\n121;2700\n", "ball_speed_mph"},
                                            Case{"Ball Speed;Spin", "52.7;2650\n54;2700\n", "ball_speed_mps"},
                                            Case{"Ball Speed;Spin", "235;2650\n240;2700\n", "ball_speed_kmh"},
                                            Case{"Ball Speed;Spin", "118,5;2650\n121,2;2700\n", "ball_speed_kmh"},
                                            Case{"Carry;Spin", "176;2650\n181;2700\n", "carry_yd"},
                                            Case{"Carry;Spin", "176,5;2650\n181,0;2700\n", "carry_m"},
                                            Case{"Low Point;Spin", "-4;2650\n-5;2700\n", "low_point_in"},
                                            Case{"Low Point;Spin", "-95;2650\n-120;2700\n", "low_point_mm"}}) {
    const std::string text = std::string(heads) + "\n" + rows;
    INFO(text);
    const ShotList without = read(text);
    const std::string head = std::string(heads).substr(0, std::string(heads).find(';'));
    INFO(all_notes(without));
    CHECK(noted(without, "say it with --map " + std::string(remedy) + "=\"" + head + "\""));
    const ShotList with = read(text, {.overrides = {column_override(remedy, head)}});
    CHECK(with.shots.size() == 2);
    CHECK(with.shots[0].at(column_override(remedy, head).reading));
  }
}

TEST_CASE("what a shell would work out in a head stands in single quotes", "[shots]") {
  CHECK(map_words({0, "Ball Speed", Reading::ball_speed, &unit("mph")}) == "ball_speed_mph=\"Ball Speed\"");
  CHECK(map_words({0, "Low Point (\")", Reading::low_point, &unit("in"), true}) == "-low_point_in='Low Point (\")'");
  CHECK(map_words({0, "it's $HOME", Reading::smash}) == "smash='it'\\''s $HOME'");
}

TEST_CASE("backspin is taken where there is no other spin, and that is said", "[shots]") {
  const ShotList alone = read("Back Spin (rpm),Launch\n2650,12\n");
  check_value(alone.shots.at(0), Reading::spin, 2650, "rpm");
  CHECK(noted(alone, "column 'Back Spin (rpm)' is taken as spin, for want of a better one"));
  for (const char* heads : {"Backspin,Total Spin,Launch", "Total Spin,Backspin,Launch"}) {
    const bool first = std::string(heads).starts_with("Back");
    const ShotList both = read(std::string(heads) + "\n" + (first ? "2600,2650,12" : "2650,2600,12") + "\n");
    check_value(both.shots.at(0), Reading::spin, 2650, "rpm");
    CHECK(both.unused == std::vector<std::string>{"Backspin"});
    CHECK_FALSE(noted(both, "for want of"));
  }
}

TEST_CASE("heads as devices cut them short", "[shots]") {
  const std::pair<const char*, Reading> cases[] = {{"Backspin", Reading::spin},
                                                   {"Dyn Loft", Reading::dynamic_loft},
                                                   {"Dyn. Loft (deg)", Reading::dynamic_loft},
                                                   {"V. Launch", Reading::launch},
                                                   {"Vert. Launch Angle [deg]", Reading::launch},
                                                   {"VLA", Reading::launch},
                                                   {"Launch V", Reading::launch},
                                                   {"H. Launch", Reading::azimuth},
                                                   {"HLA (deg)", Reading::azimuth},
                                                   {"Launch Dir.", Reading::azimuth},
                                                   {"Descent", Reading::landing},
                                                   {"Descent Ang.", Reading::landing},
                                                   {"Att. Angle", Reading::attack},
                                                   {"Ball Spd. (mph)", Reading::ball_speed},
                                                   {"Club Spd (mph)", Reading::club_speed},
                                                   {"Carry Dist. (yd)", Reading::carry},
                                                   {"Peak Ht. (ft)", Reading::apex},
                                                   {"Tot. Spin", Reading::spin},
                                                   {"Club Face", Reading::face}};
  for (const auto& [head, reading] : cases) {
    INFO(head);
    const ShotList list = read(std::string(head) + ",Smash\n10,1.45\n");
    REQUIRE(!list.columns.empty());
    CHECK(list.columns.front().reading == reading);
  }
}

TEST_CASE("the user's own pairs are learnt once", "[shots]") {
  const std::string text = "Speed A (km/h);Angle;Side (yd);Backspin;Low\n132;-4;10;2500;-95\n";
  const std::vector<ColumnOverride> pairs{column_override("club_speed", "Speed A (km/h)"),
                                          column_override("attack_deg", "Angle"), column_override("-side", "Side (yd)"),
                                          column_override("spin", "Backspin"), column_override("-low_point_mm", "Low")};
  const ColumnMap once = learnt(built_in_columns(), pairs);
  const ShotList by_pairs = read(text, {.overrides = pairs}), by_words = read_shots(text, once);
  REQUIRE(by_words.shots.size() == 1);
  CHECK(by_words.shots[0].values == by_pairs.shots.at(0).values);
  check_value(by_words.shots[0], Reading::side, -10, "yd");
  check_value(by_words.shots[0], Reading::club_speed, 132, "km/h");
  check_value(by_words.shots[0], Reading::low_point, 95, "mm");
  // Kept in a file and read again it is the same.
  Findings findings;
  const auto again = read_columns(columns_text(once), findings);
  REQUIRE(again);
  CHECK(findings.empty());
  CHECK(columns_text(*again) == columns_text(once));
  CHECK(read_shots(text, *again).shots.at(0).values == by_pairs.shots[0].values);
  // A head that stood for something else no longer does.
  const ShotList moved =
      read_shots("Carry (yd)\n200\n", learnt(built_in_columns(), {column_override("total", "Carry (yd)")}));
  check_value(moved.shots.at(0), Reading::total, 200, "yd");
}

TEST_CASE("no spin and spin beyond any driver's are set aside, odd spin is kept and marked", "[shots]") {
  const std::string heads = "Ball Speed (mph),Launch,Spin,Carry (yd)\n";
  const ShotList list = read(
      heads + "118,11,2500,180\n118,11,0,181\n118,11,14890,120\n118,11,2450,179\n118,11,2600,182\n118,11,7400,150\n");
  INFO(all_notes(list));
  REQUIRE(list.shots.size() == 5);
  CHECK_FALSE(list.shots[1].at(Reading::spin));
  CHECK(list.shots[1].at(Reading::carry));
  CHECK(noted(list, "spin 0 set aside in 1 shot, line 3: no strike leaves a ball without spin"));
  REQUIRE(list.set_aside.size() == 1);
  CHECK(list.set_aside[0].line == 4);
  CHECK_THAT(list.set_aside[0].reason,
             Contains("spin 14890 rpm is more than a driver gives with ball speed 118 mph: at most some 10000 rpm"));
  CHECK(list.shots[4].odd == std::vector<Reading>{Reading::spin});
  CHECK(list.shots[0].odd.empty());
  check_kept("Spin", "9990");
  check_set_aside("Spin", "10010", "spin 10010 rpm is more than a driver gives: at most some 10000 rpm");
  check_set_aside("Spin", "0", "no readings");
  check_kept("Ball Speed (mph),Spin", "118,9990");
  check_kept("Dynamic Loft,Attack,Spin", "45,-5,12000");  // a spin loft that gives it
  check_kept("Ball Speed (mph),Spin", "20,9000");         // hardly a strike: nothing is said
}

TEST_CASE("the user's own pairs", "[shots]") {
  const auto with = [](std::vector<ColumnOverride> overrides) {
    return ReadOptions{.overrides = std::move(overrides)};
  };
  const std::string text = "Speed A,Angle (deg),Side (yd),Spin Rate\n82,-4,10,2500\n";
  const ShotList list =
      read(text, with({column_override("club_speed_mph", "speed a"), column_override("attack", "Angle (deg)"),
                       column_override("-side", "Side (yd)")}));
  check_value(list.shots.at(0), Reading::club_speed, 82, "mph");
  check_value(list.shots[0], Reading::attack, -4, "deg");
  check_value(list.shots[0], Reading::side, -10, "yd");
  check_value(list.shots[0], Reading::spin, 2500, "rpm");
  CHECK(list.unused.empty());

  // A pair goes before a head that would match, and its unit before the head's.
  const ShotList other = read("Carry (yd),Carry Two (m)\n200,190\n", with({column_override("carry", "Carry Two (m)")}));
  check_value(other.shots.at(0), Reading::carry, 190, "m");
  CHECK(other.unused == std::vector<std::string>{"Carry (yd)"});
  check_value(read("Ball Speed (mph)\n60\n", with({column_override("ball_speed_mps", "Ball Speed (mph)")})).shots.at(0),
              Reading::ball_speed, 60, "m/s");
  check_value(
      read("Ball Speed,Spin\nmph,rpm\n60,2500\n", with({column_override("ball_speed_mps", "Ball Speed")})).shots.at(0),
      Reading::ball_speed, 60, "m/s");

  CHECK_THROWS_WITH(read(text, with({column_override("carry_yd", "Nowhere")})),
                    Contains("no column is headed 'Nowhere'; there are: Speed A, Angle (deg)"));
  CHECK_THROWS_WITH(
      read(text, with({column_override("attack_deg", "Speed A"), column_override("attack_deg", "Angle (deg)")})),
      Contains("attack is mapped twice"));
  CHECK_THROWS_WITH(
      read(text, with({column_override("attack_deg", "Speed A"), column_override("path_deg", "Speed A")})),
      Contains("mapped to both attack and path"));
  CHECK_THROWS_WITH(column_override("speed", "x"),
                    Contains("'speed' is not a reading of a shot; there are: club_speed"));
  CHECK_THROWS_WITH(column_override("carry_mph", "x"), Contains("'mph' is not a unit of length"));
  CHECK_THROWS_WITH(read("Carry (m),carry distance (yd)\n200,190\n"),
                    Contains("both hold carry") && Contains("--map carry="));
}

TEST_CASE("shots with several clubs are told apart", "[shots]") {
  const std::string text = "Club,Carry (yd)\nDriver,200\nIron 7,140\ndriver,210\n";
  const ShotList all = read(text);
  CHECK(all.shots.size() == 3);
  CHECK(noted(all, "shots with 3 clubs ('Driver' 1, 'Iron 7' 1, 'driver' 1)"));
  const ShotList one = read(text, {.club = "DRIVER"});
  CHECK(one.shots.size() == 2);
  REQUIRE(one.set_aside.size() == 1);
  CHECK(one.set_aside[0].reason == "club 'Iron 7', not 'DRIVER'");
  CHECK_THROWS_WITH(read("Carry (yd)\n200\n", {.club = "driver"}), Contains("no column that names the club"));
}

TEST_CASE("rows of the wrong length", "[shots]") {
  check_set_aside("Carry (yd),Side (yd)", "200,3,7", "3 cells under 2 heads");
  check_kept("Carry (yd),Side (yd)", "200,3,,");
  check_kept("Carry (yd),Side (yd)", "200");
  check_set_aside("Carry (yd),Side (yd),Remarks", ",,good", "no readings");
}

TEST_CASE("shots that cannot be are set aside with the reason", "[shots]") {
  // Beyond physics.
  check_set_aside("Club Speed (mph)", "300", "club speed 300 mph is outside 20.2 to 161");
  check_set_aside("Club Speed (mph)", "-90", "it would fit with the other sign of club speed");
  check_set_aside("Spin", "-2500", "other sign of spin");
  check_set_aside("Spin", "16000", "spin 16000 rpm is outside 0 to 15000");
  check_set_aside("Attack", "35", "attack 35 deg is outside -20 to 20");
  check_set_aside("Toe (in)", "12", "it would fit if toe were in mm");
  check_set_aside("Smash", "1.62", "speed ratio 1.62 is outside 0.7 to 1.56");
  // Unit slips: 65 m/s under a head that says mph.
  check_set_aside("Club Speed (mph),Ball Speed (mph)", "98,65",
                  "ball speed 65 mph is 0.66 times club speed 98 mph; a strike gives 0.70 to 1.56; it would fit if "
                  "ball speed were in m/s");
  check_set_aside("Club Speed (mph),Ball Speed (mph)", "44,145", "it would fit if club speed were in m/s");
  check_set_aside("Club Speed (mph),Ball Speed (mph)", "98,160", "a strike gives 0.70 to 1.56");
  check_set_aside("Club Speed (mph),Ball Speed (mph),Smash", "98,140,1.30", "speed ratio 1.30 does not go with");
  check_set_aside("Ball Speed (mph),Carry (yd)", "60,230",
                  "carry 230 yd is too far for ball speed 60 mph; it would fit if ball speed were in m/s");
  check_set_aside("Ball Speed (mph),Carry (yd)", "130,620",
                  "carry 620 yd is outside 0 to 492; it would fit if carry were in ft");
  check_set_aside("Ball Speed (mph),Carry (yd)", "130,390", "too far for ball speed 130 mph");
  check_set_aside("Carry (yd),Total (yd)", "200,150", "total 150 yd does not go with carry 200 yd");
  check_set_aside("Carry (yd),Total (yd)", "200,400", "total 400 yd does not go with");
  check_set_aside("Ball Speed (mph),Apex (m)", "70,70", "apex 70 m is higher than ball speed 70 mph can rise");
  // Sign slips.
  check_set_aside("Attack,Dynamic Loft,Spin Loft", "4,10,14", "it would fit with the other sign of attack");
  check_set_aside("Attack,Dynamic Loft,Spin Loft", "-4,10,30", "spin loft 30 deg does not go with");
  check_set_aside("Attack,Low Point (in)", "-4,-5",
                  "low point -5 in behind the ball: the club falls until its low point");
  check_set_aside("Launch Direction,Spin Axis,Carry (m),Side (m)", "6,10,180,-30",
                  "it would fit with the other sign of side");
  check_set_aside("Attack,Dynamic Loft,Launch Angle", "-4,10,25",
                  "launch 25 deg is not between attack -4 deg and delivered loft 10 deg");
}

TEST_CASE("a contradiction needs every reading it is about", "[shots]") {
  const std::vector<std::pair<std::string, std::vector<std::string>>> contradictions{
      {"Club Speed (mph),Ball Speed (mph)", {"98", "65"}},
      {"Ball Speed (mph),Carry (yd)", {"60", "230"}},
      {"Carry (yd),Total (yd)", {"200", "150"}},
      {"Ball Speed (mph),Apex (m)", {"70", "70"}},
      {"Attack,Dynamic Loft,Spin Loft", {"4", "10", "14"}},
      {"Attack,Low Point (in)", {"-4", "-5"}},
      {"Launch Direction,Spin Axis,Carry (m),Side (m)", {"6", "10", "180", "-30"}},
      {"Attack,Dynamic Loft,Launch Angle", {"-4", "10", "25"}},
  };
  for (const auto& [heads, cells] : contradictions) {
    for (std::size_t missing = 0; missing < cells.size(); ++missing) {
      std::string row;
      for (std::size_t i = 0; i < cells.size(); ++i) row += (i ? "," : "") + (i == missing ? "" : cells[i]);
      check_kept(heads, row);
    }
  }
}

TEST_CASE("what every check allows, to its edge", "[shots]") {
  const auto edge = [](const std::string& heads, const std::string& kept, const std::string& aside) {
    check_kept(heads, kept);
    INFO(heads << "\n" << aside);
    CHECK(read(heads + "\n" + aside + "\n").set_aside.size() == 1);
  };
  edge("Club Speed (m/s),Ball Speed (m/s)", "40,62.39", "40,62.41");              // smash 1.56
  edge("Club Speed (m/s),Ball Speed (m/s)", "40,28.01", "40,27.99");              // 0.70
  edge("Club Speed (m/s),Ball Speed (m/s),Smash", "40,56,1.499", "40,56,1.501");  // 1.4 and 0.1
  edge("Ball Speed (m/s),Carry (m)", "50,224.9", "50,225.1");                     // 4.5 s
  edge("Carry (m),Total (m)", "200,180.1", "200,179.9");                          // 20 m back
  edge("Carry (m),Total (m)", "200,349.9", "200,350.1");                          // 150 m on
  edge("Ball Speed (m/s),Apex (m)", "31.3155,59.9", "31.3155,60.1");              // v^2 / 2g = 50 m, and a fifth
  edge("Attack,Dynamic Loft,Spin Loft", "-4,10,21.9", "-4,10,22.1");              // 8 deg
  edge("Attack,Dynamic Loft,Spin Loft", "2.1,10,11.8", "2.1,10,12.1");            // 4 deg, and a sign that mends it
  edge("Attack,Dynamic Loft,Launch Angle", "-4,10,17.9", "-4,10,18.1");           // 8 deg above
  edge("Attack,Dynamic Loft,Launch Angle", "-4,10,-11.9", "-4,10,-12.1");         // 8 deg below
  edge("Attack,Low Point (m)", "1.9,0.3", "2.1,0.3");
  edge("Attack,Low Point (m)", "5,0.049", "5,0.051");
  edge("Launch Direction,Spin Axis,Carry (m),Side (m)", "6,10,180,-11.9", "6,10,180,-12.1");
  edge("Launch Direction,Spin Axis,Carry (m),Side (m)", "6,2.9,180,-30", "6,3.1,180,-30");
  edge("Launch Direction,Spin Axis,Carry (m),Side (m)", "-3.8,-10,180,30", "-3.9,-10,180,30");  // 12 m at the start
}

TEST_CASE("shots that only look odd are kept", "[shots]") {
  check_kept("Club Speed (mph),Ball Speed (mph)", "98,75");  // off the heel
  check_kept("Ball Speed (mph),Carry (yd)", "165,310");      // fast, downwind
  check_kept("Ball Speed (mph),Carry (yd)", "100,0");        // topped
  check_kept("Carry (yd),Total (yd)", "200,195");            // spun back
  check_kept("Attack,Dynamic Loft,Spin Loft", "-4,10,14");
  check_kept("Attack,Dynamic Loft,Spin Loft", "-4,10,20");                   // far off, but no sign would mend it
  check_kept("Ball Speed (mph),Apex (m)", "70,45");                          // energy allows 49.9 m
  check_kept("Attack,Dynamic Loft,Spin Loft,Path,Face", "-4,10,17.2,0,10");  // face to path adds to spin loft
  check_kept("Attack,Low Point (in)", "-4,5");
  check_kept("Attack,Low Point (in)", "1,1");                                    // near the low point error decides
  check_kept("Launch Direction,Spin Axis,Carry (m),Side (m)", "6,-15,180,-30");  // started right, curved left
  check_kept("Attack,Dynamic Loft,Launch Angle", "-4,10,14");                    // high on the face
}

TEST_CASE("a slip of a whole column is laid at its door, with the remedy that mends it", "[shots]") {
  std::string text = "Club Speed (mph),Ball Speed (mph),Low Point (in),Attack\n";
  for (int i = 0; i < 6; ++i) text += std::to_string(95 + i) + "," + std::to_string(62 + i) + ",4,-3\n";
  const ShotList slipped = read(text);
  INFO(all_notes(slipped));
  CHECK(slipped.shots.empty());
  CHECK(slipped.set_aside.size() == 6);
  CHECK(noted(slipped,
              "6 of 6 shots would fit if ball speed were in m/s; if so, read it with --map=ball_speed_mps=\"Ball Speed "
              "(mph)\""));
  const ShotList mended = read(text, {.overrides = {column_override("ball_speed_mps", "Ball Speed (mph)")}});
  CHECK(mended.shots.size() == 6);

  text = "Low Point (in),Attack\n";
  for (int i = 0; i < 6; ++i) text += std::to_string(4 + i) + ",3." + std::to_string(i) + "\n";
  const ShotList reversed = read(text);
  CHECK(noted(reversed,
              "6 of 6 shots would fit with the other sign of low point; if so, read it with --map=-low_point_in=\"Low "
              "Point (in)\""));
  CHECK(read(text, {.overrides = {column_override("-low_point_in", "Low Point (in)")}}).shots.size() == 6);

  // One slip in ten is the shot's, not the column's.
  text = "Club Speed (mph),Ball Speed (mph)\n95,62\n";
  for (int i = 0; i < 9; ++i) text += "95,138\n";
  CHECK_FALSE(noted(read(text), "would fit"));
}

TEST_CASE("a column whose middle no driver has is noted", "[shots]") {
  CHECK(noted(read("Club Speed (mph)\n38\n39\n40\n"),
              "club speed 39 mph in the middle; with a driver 50 to 125 is usual; it would be usual in m/s"));
  CHECK(noted(read("Spin,Decimal\n2.650,1\n2.700,1\n", {.decimal = '.'}),
              "spin 2.675 rpm in the middle; with a driver 800 to 6500 is usual"));
  CHECK(noted(read("Landing Angle\n1\n2\n"), "descent angle 1.5 deg in the middle; with a driver 8 to 60 is usual"));
  CHECK(read("Club Speed (mph)\n68\n69\n").notes.empty());
}

TEST_CASE("two columns that go opposite ways are noted", "[shots]") {
  std::string text = "Launch Direction,Side (yd)\n";
  for (int i = -6; i < 6; ++i) text += std::to_string(i) + "," + std::to_string(-3 * i + (i % 2)) + "\n";
  CHECK(noted(read(text), "launch direction and side go opposite ways"));
}

TEST_CASE("outliers are marked, not dropped", "[shots]") {
  std::string text = "Club Speed (mph),Carry (yd)\n";
  for (int i = 0; i < 12; ++i) text += std::to_string(80 + i % 4) + "," + std::to_string(170 + i % 5) + "\n";
  text += "81,95\n";
  const ShotList list = read(text);
  REQUIRE(list.shots.size() == 13);
  for (std::size_t i = 0; i < 12; ++i) CHECK(list.shots[i].odd.empty());
  CHECK(list.shots[12].odd == std::vector{Reading::carry});
}

TEST_CASE("readings that follow from others are computed and said to be", "[shots]") {
  const ShotList list = read("Ball Speed (mph),Smash,Attack,Spin Loft\n118,1.44,-4,14\n");
  REQUIRE(list.shots.size() == 1);
  check_value(list.shots[0], Reading::club_speed, 118 / 1.44, "mph");
  check_value(list.shots[0], Reading::dynamic_loft, 10, "deg");
  CHECK(noted(list, "club speed of 1 shot computed from ball speed and speed ratio"));
  CHECK(noted(list, "delivered loft of 1 shot computed from attack and spin loft"));
  check_value(read("Club Speed (mph),Smash\n82,1.45\n").shots.at(0), Reading::ball_speed, 82 * 1.45, "mph");

  // With face and path the angle is the one in space: the loft found gives the spin loft back.
  const Shot turned = read("Attack,Spin Loft,Face,Path\n-4,18,6,-2\n").shots.at(0);
  const Delivery delivery{.club_speed = 40,
                          .attack = *turned.at(Reading::attack),
                          .path = *turned.at(Reading::path),
                          .face = *turned.at(Reading::face),
                          .dynamic_loft = *turned.at(Reading::dynamic_loft)};
  CHECK(std::abs(spin_loft(delivery) - 18 * kDeg) < 1e-12);
  // A face turned further than the spin loft leaves no loft to find.
  CHECK_FALSE(read("Attack,Spin Loft,Face,Path\n0,5,10,0\n").shots.at(0).at(Reading::dynamic_loft));
}

TEST_CASE("a list of heads alone is an empty list", "[shots]") {
  const ShotList list = read("Club Speed (mph),Carry (yd)\n");
  CHECK(list.shots.empty());
  CHECK(list.set_aside.empty());
}

TEST_CASE("too many rows", "[shots]") {
  std::string text = "Carry (yd)\n";
  for (int i = 0; i < 20001; ++i) text += "200\n";
  CHECK_THROWS_WITH(read(text), Contains("line 20002: more than 20000 rows"));
}

TEST_CASE("ranges of the readings are those of the model", "[shots]") {
  // The table repeats what validate() knows; here the two are held together, at both ends.
  const auto check_end = [](Reading reading, double value, double outward, auto put) {
    INFO(info(reading).key << " at " << value);
    const double step = 1e-9 * std::max(1.0, std::abs(value));
    CHECK_NOTHROW(put(value - outward * step));
    CHECK_THROWS_AS(put(value + outward * step), InputError);
  };
  const auto check_both = [&](Reading reading, auto put) {
    check_end(reading, info(reading).low, -1.0, put);
    check_end(reading, info(reading).high, 1.0, put);
  };
  const auto in_delivery = [](double Delivery::*member) {
    return [member](double value) {
      Delivery d{.club_speed = 40.0};
      d.*member = value;
      validate(d);
    };
  };
  check_both(Reading::club_speed, in_delivery(&Delivery::club_speed));
  check_both(Reading::attack, in_delivery(&Delivery::attack));
  check_both(Reading::path, in_delivery(&Delivery::path));
  check_both(Reading::face, in_delivery(&Delivery::face));
  check_both(Reading::dynamic_loft, in_delivery(&Delivery::dynamic_loft));
  check_both(Reading::toe, in_delivery(&Delivery::toe));
  check_both(Reading::high, in_delivery(&Delivery::high));
  const auto in_launch = [](double Launch::*member) {
    return [member](double value) {
      Launch l{.ball_speed = 60.0, .launch = 0.2, .azimuth = 0.0, .spin = 260.0, .tilt = 0.0};
      l.*member = value;
      validate(l);
    };
  };
  check_both(Reading::ball_speed, in_launch(&Launch::ball_speed));
  check_both(Reading::launch, in_launch(&Launch::launch));
  check_both(Reading::azimuth, in_launch(&Launch::azimuth));
  check_both(Reading::spin, in_launch(&Launch::spin));
  check_both(Reading::tilt, in_launch(&Launch::tilt));
}

TEST_CASE("every reading is in the table, in order, with words for its column", "[shots]") {
  const ColumnMap words = built_in_columns();
  for (const Reading reading : kAllOf<Reading>) {
    const ReadingInfo& r = info(reading);
    INFO(r.key);
    CHECK(r.reading == reading);
    CHECK(find_reading(r.key) == r.reading);
    CHECK_FALSE(words.readings[reading].heads.empty());
    CHECK(r.low < r.high);
    CHECK(r.usual_low >= r.low);
    CHECK(r.usual_high <= r.high);
    if (r.reading != Reading::smash) CHECK(unit(r.unit).dimension == r.dimension);
    const Unit* fallback = words.readings[reading].unit_if_missing;
    CHECK((!fallback || fallback->dimension == r.dimension));
  }
  CHECK_FALSE(find_reading("nonsense"));
}
