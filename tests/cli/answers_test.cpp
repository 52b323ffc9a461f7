// What the answers mean: text, JSON and units agree with each other and with the model.
#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <locale>
#include <nlohmann/json.hpp>
#include <optional>

#include "folders.hpp"
#include "json.hpp"
#include "loftwright/core/units.hpp"
#include "process.hpp"
#include "run.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

Json answer(const std::string& line) {
  const Ran ran = run_line(line + " --json");
  INFO(line << "\n" << ran.err);
  REQUIRE(ran.code == 0);
  CHECK(ran.err.empty());
  return parsed<Json>(ran.out);
}

// Every number of two answers, leaf by leaf, to a part in 1e9: what 12 written digits and one unit conversion leave.
void check_same(const Json& a, const Json& b, const std::string& place = "") {
  INFO(place << ": " << a.dump() << " and " << b.dump());
  REQUIRE(a.type() == b.type());
  if (a.is_number()) {
    const double x = a, y = b;
    CHECK(std::abs(x - y) <= 1e-9 * std::max({1.0, std::abs(x), std::abs(y)}));
  } else if (a.is_structured()) {
    REQUIRE(a.size() == b.size());
    for (auto x = a.begin(), y = b.begin(); x != a.end(); ++x, ++y)
      check_same(*x, *y, place + "/" + (a.is_object() ? x.key() : ""));
  } else {
    CHECK(a == b);
  }
}

// The number that follows `label` at the beginning of a line.
double shown(const std::string& text, const std::string& label) {
  const std::size_t at = text.find("\n  " + label + " ");
  REQUIRE(at != std::string::npos);
  return std::stod(text.substr(at + 3 + label.size()));
}

const std::string kCompareSuvi = "compare " LOFTWRIGHT_SOURCE_DIR "/data/academy/suvi-before.csv " LOFTWRIGHT_SOURCE_DIR
                                 "/data/academy/suvi-after.csv";

// Turns every number it prints into something no reader of ours would take for one.
struct HostilePunctuation : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\1"; }
};

}  // namespace

TEST_CASE("below 10 C every answer says that the ball's own temperature is not in it, and no warmer one does") {
  const ScratchFolder folder;
  const std::string fly = "fly --ball-speed 118mph --launch 11deg --spin 2700rpm --temperature ",
                    strike = "strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg --temperature ",
                    page = (folder.path() / "page.html").string();
  for (const auto& [temperature, cold] : {std::pair{"9", true}, {"9.99", true}, {"10", false}, {"20", false}}) {
    Json pupil = parsed<Json>(file_contents(LOFTWRIGHT_SOURCE_DIR "/data/pupils/demo.json"));
    pupil["conditions"]["temperature_c"] = std::stod(temperature);
    const std::string advise = "advise " + folder.write("pupil.json", pupil.dump()).string() + " --draws 0";
    INFO(temperature);
    const auto said_in = [](const std::string& text) {
      return text.find("Below 10 C (50 F) a ball as cold as the air") != std::string::npos;
    };
    for (const std::string& line : {fly + temperature + "C", strike + temperature + "C", advise}) {
      CHECK(said_in(run_line(line).out) == cold);
      CHECK(answer(line)["conditions"]["notes"].size() == (cold ? 1u : 0u));
    }
    REQUIRE(run_line(advise + " --html " + page).code == 0);
    CHECK(said_in(file_contents(page)) == cold);
  }
}

TEST_CASE("a quantity means the same in every unit") {
  const Json mph = answer(
      "fly --ball-speed 118mph --launch 11deg --spin 2700rpm --altitude 1000m --temperature 59F --wind 10mph "
      "--wind-from 45deg");
  for (const char* line :
       {"fly --ball-speed 52.75072m/s --launch 0.19198621771937624rad --spin 45rev/s --altitude 3280.839895013123ft "
        "--temperature 15C --wind 4.4704m/s --wind-from 45deg",
        "fly --ball-speed 189.902592km/h --launch 11 --spin 2700 --altitude 1000 --temperature 288.15K --wind "
        "16.09344kph --wind-from -315deg",
        "fly --ball-speed 118 --launch 11° --spin 2700rpm --altitude 1000 --temperature 15 --wind 10 --wind-from 45"}) {
    Json other = answer(line);
    other["conditions"]["wind_from_deg"] = mph["conditions"]["wind_from_deg"];  // the bearing is kept as given
    check_same(mph, other);
  }
  check_same(answer("arc --low-point 4.7in --plane 50deg --radius 1.6m"),
             answer("arc --low-point 11.938cm --plane 50 --radius 160cm"));
}

TEST_CASE("a negative value may follow its option or an equals sign") {
  const Json spaced = answer("strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg --toe -5");
  check_same(spaced, answer("strike --club-speed=82mph --attack=-4deg --dynamic-loft=10deg --toe=-5mm"));
  CHECK(spaced["delivery"]["attack_deg"] == -4.0);
  CHECK(answer("strike --club-speed 82mph --attack -.5deg --dynamic-loft 10deg")["delivery"]["attack_deg"] == -0.5);
}

TEST_CASE("the words for the wind are bearings") {
  const std::string still = "fly --ball-speed 150mph --launch 14deg --spin 2700rpm",
                    line = still + " --wind 10mph --wind-from ";
  check_same(answer(line + "ahead"), answer(line + "0"));
  check_same(answer(line + "right"), answer(line + "90deg"));
  check_same(answer(line + "behind"), answer(line + "180deg"));
  check_same(answer(line + "left"), answer(line + "-90"));
  const double calm = answer(still)["carry_m"];
  CHECK(answer(line + "ahead")["carry_m"].get<double>() < calm);
  CHECK(answer(line + "behind")["carry_m"].get<double>() > calm);
  CHECK(answer(line + "right")["side_m"].get<double>() < 0.0);
  CHECK(answer(line + "left")["side_m"].get<double>() > 0.0);
}

TEST_CASE("strike flies the launch it prints") {
  const Json strike = answer(
      "strike --club-speed 93mph --attack 2deg --dynamic-loft 14deg --path 2deg --face -1deg --toe 8mm --high 4mm "
      "--turf firm");
  const Json& l = strike["launch"];
  const auto typed = [&](const char* key) { return l[key].dump(); };
  const Json fly = answer("fly --ball-speed " + typed("ball_speed_mps") + "m/s --launch " + typed("launch_deg") +
                          " --spin " + typed("spin_rpm") + " --azimuth " + typed("azimuth_deg") + " --tilt " +
                          typed("tilt_deg") + " --turf firm");
  for (const auto& [key, value] : strike["flight"].items()) {
    INFO(key);
    if (value.is_number())
      CHECK(std::abs(value.get<double>() - fly[key].get<double>()) < 1e-6);  // 12 digits of the launch
  }
  CHECK(std::abs(l["ball_speed_mps"].get<double>() / 93 / 0.44704 - strike["smash"].get<double>()) < 1e-9);
}

TEST_CASE("a left-hander is the mirror image, with signs still those of the course") {
  const Json right =
      answer("strike --club-speed 90mph --attack 1deg --dynamic-loft 14deg --path 3deg --face 1deg --toe 10mm");
  const Json left = answer(
      "strike --club-speed 90mph --attack 1deg --dynamic-loft 14deg --path -3deg --face -1deg --toe 10mm --handed "
      "left");
  CHECK(right["flight"]["carry_m"] == left["flight"]["carry_m"]);
  CHECK(right["flight"]["side_m"].get<double>() == -left["flight"]["side_m"].get<double>());
  CHECK(right["launch"]["tilt_deg"].get<double>() == -left["launch"]["tilt_deg"].get<double>());
  const Json arc = answer("arc --low-point 4in --plane 50deg --radius 1.6m --swing-direction 2deg");
  const Json mirrored = answer("arc --low-point 4in --plane 50deg --radius 1.6m --swing-direction -2deg --handed left");
  CHECK(arc["attack_deg"] == mirrored["attack_deg"]);
  CHECK(arc["path_deg"].get<double>() == -mirrored["path_deg"].get<double>());
}

TEST_CASE("the three ways into an arc agree") {
  const Json forward = answer("arc --low-point -4.7in --plane 50deg --radius 1.6m --swing-direction 1deg");
  const auto typed = [&](const char* key) { return forward[key].dump(); };
  check_same(forward,
             answer("arc --attack " + typed("attack_deg") + " --plane 50deg --radius 1.6m --swing-direction 1deg"));
  const Json back = answer("arc --attack " + typed("attack_deg") + " --path " + typed("path_deg") +
                           " --low-point -4.7in --swing-direction 1deg");
  CHECK(std::abs(back["plane_deg"].get<double>() - 50.0) < 1e-6);  // 12 digits, through a square root of a difference
  CHECK(std::abs(back["radius_m"].get<double>() - 1.6) < 1e-8);
}

TEST_CASE("an arc gives the worked numbers") {
  // Computed by an independent script from the equations of the model page: plane 50 deg, radius 1.6 m, attack +3 deg
  // -> path 2.52 deg left of the swing direction, 10.9 cm past the low point, 2.9 mm above it. Half a unit of the last
  // digit.
  const Json arc = answer("arc --attack 3deg --plane 50deg --radius 1.6m");
  CHECK(std::abs(arc["path_deg"].get<double>() + 2.52) < 0.005);
  CHECK(std::abs(arc["low_point_m"].get<double>() + 0.109) < 0.0005);
  CHECK(std::abs(arc["height_m"].get<double>() - 0.0029) < 0.00005);
}

TEST_CASE("the screen shows the numbers of the JSON, in either system of units") {
  const std::string line = "fly --ball-speed 118mph --launch 11deg --spin 2700rpm --tilt 8deg --turf soft";
  const Json json = answer(line);
  const double yard = unit("yd").factor, foot = unit("ft").factor, mph = unit("mph").factor;
  const std::string yards = run_line(line).out, metres = run_line(line + " --units metres").out;
  // Half a unit of the last digit shown.
  CHECK(std::abs(shown(yards, "carry") - json["carry_m"].get<double>() / yard) <= 0.5);
  CHECK(std::abs(shown(metres, "carry") - json["carry_m"].get<double>()) <= 0.5);
  CHECK(std::abs(shown(yards, "total") - json["total_m"].get<double>() / yard) <= 0.5);
  CHECK(std::abs(shown(yards, "apex") - json["apex_m"].get<double>() / foot) <= 0.5);
  CHECK(std::abs(shown(yards, "descent angle") - json["landing_deg"].get<double>()) <= 0.05);
  CHECK(std::abs(shown(yards, "landing speed") - json["landing_speed_mps"].get<double>() / mph) <= 0.05);
  CHECK(std::abs(shown(metres, "landing speed") - json["landing_speed_mps"].get<double>()) <= 0.05);
  CHECK(std::abs(shown(yards, "time in the air") - json["flight_s"].get<double>()) <= 0.05);
  CHECK(std::abs(shown(metres, "side at landing") - json["side_m"].get<double>()) <= 0.5);
}

TEST_CASE("advise on the screen shows the four strategies of the JSON") {
  const Json json = answer("demo");
  const std::string text = run_line("demo").out;
  for (const auto& [key, title] :
       {std::pair{"as_is", "as is"}, {"loft_only", "loft"}, {"technique_only", "technique"}, {"both", "both"}}) {
    const Json& s = json["strategies"][key];
    const std::size_t at = text.find("\n  " + std::string(title));
    REQUIRE(at != std::string::npos);
    std::string row =
        text.substr(at + 3 + std::string(title).size(), text.find('\n', at + 1) - at - 3 - std::string(title).size());
    std::replace(row.begin(), row.end(), '*', ' ');
    INFO(title << ": " << row << "\n" << s.dump());
    std::istringstream cells(row);
    double loft, attack, launch, spin, carry, total, held, gain = 0.0;
    REQUIRE((cells >> loft >> attack >> launch >> spin >> carry >> total >> held));
    if (std::string(key) != "as_is") REQUIRE((cells >> gain));
    const double yard = unit("yd").factor;
    CHECK(std::abs(loft - s["loft_deg"].get<double>()) <= 0.0501);
    CHECK(std::abs(attack - s["attack_deg"].get<double>()) <= 0.0501);
    CHECK(std::abs(launch - s["launch"]["launch_deg"].get<double>()) <= 0.0501);
    CHECK(std::abs(spin - s["launch"]["spin_rpm"].get<double>()) <= 5.01);
    CHECK(std::abs(carry - s["average"]["carry_m"].get<double>() / yard) <= 0.501);
    CHECK(std::abs(total - s["average"]["total_m"].get<double>() / yard) <= 0.501);
    CHECK(std::abs(held - 100.0 * s["average"]["fairway_share"].get<double>()) <= 0.501);
    CHECK(std::abs(gain - s["gain_m"].get<double>() / yard) <= 0.0501);
  }
}

TEST_CASE("the same question gives the same bytes") {
  CHECK(run_line("demo --json").out == run_line("demo --json").out);
  CHECK(run_line("demo --json").out == run_line("--json --quiet demo").out);
}

TEST_CASE("a hostile locale changes nothing") {
  const std::vector<std::string> lines{"demo",
                                       "demo --json",
                                       "fly --ball-speed 118.5mph --launch 11.5deg --spin 2700rpm",
                                       "fly --ball-speed 118.5mph --launch 11.5deg --spin 2700rpm --json",
                                       "strike --club-speed 1e2 --attack -4.5deg --dynamic-loft 10.5deg --units metres",
                                       kCompareSuvi + " --odd leave-out",
                                       kCompareSuvi + " --odd leave-out --json",
                                       "shots " LOFTWRIGHT_SOURCE_DIR "/data/academy/suvi-before.csv"};
  const auto answers = [&] {
    std::vector<Ran> out;
    for (const std::string& line : lines) out.push_back(run_line(line));
    std::optional<Desk> desk(std::in_place);
    for (const auto& command : loftwright::cli::commands()) {
      out.push_back(run_args(example_of(command, desk->data)));
      out.back().out = desk->without_folder(out.back().out);
      if (changes_book(command)) desk.emplace();
    }
    return out;
  };
  const std::vector<Ran> before = answers();
  const std::locale old = std::locale::global(std::locale(std::locale::classic(), new HostilePunctuation));
  for (const char* name :
       {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8"}) {  // C functions too, where such a locale is installed
    if (std::setlocale(LC_ALL, name)) break;
  }
  const std::vector<Ran> after = answers();
  std::locale::global(old);
  std::setlocale(LC_ALL, "C");
  for (std::size_t i = 0; i < before.size(); ++i) {
    CHECK(before[i].code == 0);
    CHECK(before[i].out == after[i].out);
  }
}

TEST_CASE("answers read well on 80 columns") {
  for (const std::string& line : std::initializer_list<std::string>{
           "",
           "demo",
           "demo --units metres",
           "demo --draws 0",
           "advise " LOFTWRIGHT_SOURCE_DIR "/data/pupils/clinic.json",
           "fly --ball-speed 118 --launch 11 --spin 2700 --wind 10 --wind-from 33.3deg",
           "strike --club-speed 82 --attack -4 --dynamic-loft 9",
           "arc --low-point -4.7 --plane 50 --radius 1.6",
           "demo --help",
           "fly --help",
           "strike --help",
           "advise --help",
           "arc --help",
           "check --help",
           "book",
           "book add --help",
           "book list --help",
           "book history --help",
           "book remove --help",
           "book undo --help",
           "book export --help",
           "book list " LOFTWRIGHT_SOURCE_DIR "/data/books/demo.json",
           "book history " LOFTWRIGHT_SOURCE_DIR "/data/books/demo.json",
           "book list --units metres " LOFTWRIGHT_SOURCE_DIR "/data/books/demo.json",
           "shots --help",
           "compare --help",
           "shots " LOFTWRIGHT_SOURCE_DIR "/data/academy/suvi-before.csv",
           "shots --units metres --handed left " LOFTWRIGHT_SOURCE_DIR "/data/academy/ivo-before.csv",
           "shots --club driver " LOFTWRIGHT_SOURCE_DIR "/data/academy/brannoch-before.csv",
           kCompareSuvi,
           kCompareSuvi + " --units metres --goal total --changed \"temperature=5C wind=9mph wind-from=33.3deg\"",
           kCompareSuvi + " --predicted 100yd --odd leave-out --pupil " LOFTWRIGHT_SOURCE_DIR
                          "/data/academy/suvi.json"}) {
    const Ran ran = run_line(line);
    std::istringstream lines(ran.out + ran.err);
    for (std::string text; std::getline(lines, text);) {
      INFO(line << ": " << text);
      CHECK(text.size() <= 80);
      CHECK((text.empty() || text.back() != ' '));
    }
  }
}

TEST_CASE("what shots pastes is what a pupil's file takes, and what its \"shots\" would give") {
  const std::string list = LOFTWRIGHT_SOURCE_DIR "/data/academy/suvi-before.csv";
  const ScratchFolder folder;
  const std::string rest = ", \"club\": {\"loft_deg\": 10.5}}", begin = "{\"format\": \"loftwright-pupil/1\", ";
  folder.write("list.csv", file_contents(list));
  const std::string pasted =
      folder.write("pasted.json", begin + run_line("shots " + list + " --paste").out + rest).string();
  const std::string named = folder.write("named.json", begin + "\"shots\": \"list.csv\"" + rest).string();
  const Ran check = run_line("check " + pasted);
  INFO(check.out << file_contents(pasted));
  CHECK(check.code == 0);
  CHECK(check.out.find("0 errors, 0 warnings") != std::string::npos);
  const Json a = parsed<Json>(run_line("advise --json --draws 256 " + pasted).out),
             b = parsed<Json>(run_line("advise --json --quiet --draws 256 " + named).out);
  for (const auto& [key, value] : b["pupil"]["delivery"].items()) {
    INFO(key);
    // Two decimals in mph and deg, one in mm: half a unit of the last.
    CHECK(std::abs(a["pupil"]["delivery"][key].get<double>() - value.get<double>()) <= 0.0501);
  }
  CHECK(std::abs(a["strategies"]["both"]["gain_m"].get<double>() - b["strategies"]["both"]["gain_m"].get<double>()) <
        0.1);
  const auto chance = [](const Json& answer) { return answer["confidence"]["both_over_loft"].get<double>(); };
  CHECK(std::abs(chance(a) - chance(b)) < 0.02);  // scatter and correlations arrive too: a few of 256 draws apart
}

TEST_CASE("compare on the screen shows the numbers of the JSON") {
  const Ran screen = run_line(kCompareSuvi + " --quiet --odd leave-out");
  const Json json = parsed<Json>(run_line(kCompareSuvi + " --quiet --odd leave-out --json").out);
  CHECK(screen.out.find(json["verdict"]["sentence"].get<std::string>().substr(0, 40)) != std::string::npos);
  const double yard = unit("yd").factor;
  const Json& change = json["change"];
  double sum = 0.0;
  for (const auto& [who, share] : change["shares"].items()) sum += share.is_null() ? 0.0 : share["m"].get<double>();
  CHECK(std::abs(sum - change["modelled"]["m"].get<double>()) < 1e-9);
  CHECK(std::abs(shown(screen.out, "all by the model") - sum / yard) <= 0.0501);
  CHECK(std::abs(shown(screen.out, "measured beyond that") - change["unexplained"]["m"].get<double>() / yard) <=
        0.0501);
  for (const Json& r : json["readings"]) {
    if (r["reading"] != "carry") continue;
    CHECK(std::abs(shown(screen.out, "carry              yd") - r["before"]["mean"].get<double>() / yard) <= 0.501);
    const double measured = r["difference"];
    CHECK(std::abs(measured - sum - change["unexplained"]["m"].get<double>()) < 1e-9);
  }
}

TEST_CASE("a comparison draws by its seed, on any number of threads") {
  const std::string line = kCompareSuvi + " --quiet --json";
  CHECK(run_line(line).out == run_line(line + " --threads 1").out);
  CHECK(run_line(line).out != run_line(line + " --seed 2").out);
}

TEST_CASE("what is predicted is what advise predicts") {
  const std::string pupil = LOFTWRIGHT_SOURCE_DIR "/data/academy/suvi.json";
  const Json compared = parsed<Json>(run_line(kCompareSuvi + " --quiet --json --odd leave-out --pupil " + pupil).out);
  const Json advised = parsed<Json>(run_line("advise --quiet --json " + pupil).out);
  CHECK(compared["goal"] == "total");
  CHECK(std::abs(compared["worthwhile_m"].get<double>() - 5 * 0.9144) < 1e-9);
  REQUIRE(compared["reached"].size() == 2);  // the best loft alone gains less than is worth a change
  for (const Json& r : compared["reached"]) {
    CHECK(r["predicted_m"] == advised["strategies"][r["by"].get<std::string>()]["gain_m"]);
  }
  CHECK(compared["after"]["conditions"] == advised["conditions"]);
}

TEST_CASE("outliers are marked and kept, and the mean is shown with them and without") {
  const ScratchFolder folder;
  std::string text = "Ball Speed (mph),Launch,Spin\n";
  for (int i = 0; i < 9; ++i) text += fmt::format("118,11,{}\n", 2450 + 10 * i);
  const std::string list = folder.write("list.csv", text + "118,11,7010\n").string();
  const Ran kept = run_line("shots " + list), left = run_line("shots " + list + " --odd leave-out");
  CHECK(kept.code == 0);
  // By hand: nine from 2450 to 2530 make 2490 on the average, with 7010 it is 2942.
  CHECK(kept.out.find("the mean of spin is 2940 rpm with this shot, 2490 rpm without") != std::string::npos);
  CHECK(left.out.find("the mean of spin is 2940 rpm with this shot, 2490 rpm without") != std::string::npos);
  CHECK(shown(kept.out, "spin        rpm     10") == 2940);
}

TEST_CASE("words for columns are learnt once, kept in a file, and never over another's") {
  const ScratchFolder folder;
  const std::string list = folder.write("list.csv", "Vb;Vc (mph);Up\n118;82;-4\n119;83;-3\n").string(),
                    words = (folder.path() / "mine.json").string();
  const std::string pairs = " --map ball_speed_mph=Vb --map \"club_speed=Vc (mph)\" --map attack=Up";
  const Ran taught = run_line("shots " + list + pairs + " --learn " + words + " --quiet");
  INFO(taught.err);
  REQUIRE(taught.code == 0);
  CHECK(run_line("shots " + list + " --columns " + words).out.find("Vb") != std::string::npos);
  CHECK(parsed<Json>(run_line("shots " + list + " --json --columns " + words).out)["readings"] ==
        parsed<Json>(run_line("shots " + list + " --json" + pairs).out)["readings"]);
  CHECK(run_line("check " + words).code == 0);
  const std::string before = file_contents(words);
  const Ran again = run_line("shots " + list + pairs + " --learn " + words);
  CHECK(again.code == 3);
  CHECK(again.err.find("is there already") != std::string::npos);
  CHECK(file_contents(words) == before);
  CHECK(run_line("shots " + list + " --map -attack=Up --columns " + words + " --learn " + words).code ==
        0);  // its own is brought up to date
  CHECK(file_contents(words).find("\"reversed\"") != std::string::npos);
  CHECK(run_line("shots " + list + " --learn " + words).code == 2);
}

TEST_CASE("the page of a comparison carries the pupil's name, and lists that cannot be compared are said") {
  const ScratchFolder folder;
  const std::string data = LOFTWRIGHT_SOURCE_DIR "/data/academy/", page = (folder.path() / "page.html").string();
  run_line(kCompareSuvi + " --quiet --pupil " + data + "suvi.json --html " + page);
  CHECK(file_contents(page).find("<p class=\"who\"><bdi>Suvi Aldane") != std::string::npos);
  const Ran twice = run_line("compare " + data + "suvi-before.csv " + data + "suvi-before.csv --quiet --html " + page);
  CHECK(twice.code == 1);
  CHECK(twice.out.find("Both lists hold the very same shots") != std::string::npos);
  CHECK(file_contents(page).find("Both lists hold the very same shots") != std::string::npos);
  const Ran others = run_line("compare " + data + "tamsin-before.csv " + data + "suvi-before.csv --quiet");
  const std::string said = on_one_line(others.out);
  CHECK(said.find("Club speed is 54 % higher in the second list: no player changes so much") != std::string::npos);
  CHECK(said.find("Not compared: path, face, toe, high, launch direction, spin axis, side and apex (0 readings before, "
                  "16 after; at least two of each are needed).") != std::string::npos);
}
