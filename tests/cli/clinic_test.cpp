// A folder of pupils on the command line: each as 'advise' answers it, pages, and what goes wrong.
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "folders.hpp"
#include "json.hpp"
#include "process.hpp"
#include "run.hpp"
#include "scratch_folder.hpp"

using namespace loftwright::test;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const fs::path kData = fs::path(LOFTWRIGHT_SOURCE_DIR) / "data";
const char* const kDraws = "512";

// Three of the clinic's pupils, one with a limit no drive can keep, and a file with mistakes.
struct Clinic : ScratchFolder {
  explicit Clinic(bool with_mistakes = true) {
    for (const char* name : {"abel", "dora", "kaye"}) copy(name);
    json beyond = parsed<json>(file_contents(kData / "clinic/bess.json"));
    beyond["limits"] = {{"apex_m", {95, 100}}};
    beyond["name"] = "=HYPERLINK(\"x\") <b>Bess</b>";
    write("in/bess.json", beyond.dump());
    write("in/words.json", R"({"format": "loftwright-columns/1"})");
    if (with_mistakes)
      write("in/broken.json", R"({"format": "loftwright-pupil/1", "delivery": {"club_speed_mph": 990}})");
  }
  void copy(const std::string& name) const {
    write("in/" + name + ".json", file_contents(kData / ("clinic/" + name + ".json")));
  }
  std::string in() const { return (path() / "in").string(); }
};

// RFC 4180.
std::vector<std::vector<std::string>> cells_of(const std::string& text) {
  std::vector<std::vector<std::string>> rows(1, {""});
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '"') {
      if (quoted && i + 1 < text.size() && text[i + 1] == '"')
        rows.back().back() += text[i++];
      else
        quoted = !quoted;
    } else if (!quoted && text[i] == ',') {
      rows.back().emplace_back();
    } else if (!quoted && text[i] == '\n') {
      rows.push_back({""});
    } else if (quoted || text[i] != '\r') {
      rows.back().back() += text[i];
    }
  }
  rows.pop_back();
  return rows;
}

json clinic_json_of(const Clinic& clinic, std::vector<std::string> more = {}, int code = 3) {
  std::vector<std::string> args{"clinic", clinic.in(), "--json", "--draws", kDraws};
  args.insert(args.end(), more.begin(), more.end());
  const Ran ran = run_args(args);
  INFO(ran.err);
  REQUIRE(ran.code == code);
  return parsed<json>(ran.out);
}

}  // namespace

TEST_CASE("each pupil of a clinic has the very numbers of advise") {
  const Clinic clinic;
  const json answer = clinic_json_of(clinic);
  REQUIRE(answer["pupils"].size() == 4);
  for (const json& row : answer["pupils"]) {
    const std::string file = row["file"];
    INFO(file);
    const Ran ran = run_args({"advise", clinic.in() + "/" + file, "--json", "--draws", kDraws, "--quiet"});
    const json alone = parsed<json>(ran.out);
    CHECK(row["name"] == alone["pupil"]["name"]);
    CHECK(row["feasible"] == alone["feasible"]);
    CHECK((ran.code == 1) == !row["feasible"]);
    if (!row["feasible"]) {
      for (const char* key : {"lever", "certainty", "loft_deg", "attack_deg", "gain_m", "gain_low_m", "fairway_share"})
        CHECK(row[key].is_null());
      CHECK(row["must_give"].size() == 1);
      continue;
    }
    const json& verdict = alone["verdict"];
    for (const char* key : {"lever", "certainty", "probability", "measure_first"}) CHECK(row[key] == verdict[key]);
    CHECK(row["goal"] == alone["goal"]);
    const json& choices = alone["choices"];
    const auto choice =
        std::find_if(choices.begin(), choices.end(), [&](const json& c) { return c["lever"] == row["leader"]; });
    REQUIRE(choice != choices.end());
    CHECK((row["lever"] == row["leader"] || row["lever"] == "either"));
    for (const char* key : {"loft_deg", "attack_deg", "gain_low_m", "gain_high_m", "fairway_share"})
      CHECK(row[key] == (*choice)[key]);
    const std::string strategy = row["leader"] == "leave"  ? "as_is"
                                 : row["leader"] == "both" ? "both"
                                                           : row["leader"].get<std::string>() + "_only";
    CHECK(row["gain_m"] == alone["strategies"][strategy]["gain_m"]);
  }
}

TEST_CASE("a broken file among the pupils is named, the others are answered, and the end is exit 3") {
  const Clinic clinic;
  const json answer = clinic_json_of(clinic);
  CHECK(answer["pupils"].size() == 4);
  REQUIRE(answer["failed"].size() == 1);
  CHECK(answer["failed"][0]["file"] == "broken.json");
  CHECK(answer["failed"][0]["findings"].dump().find("/delivery/club_speed_mph") != std::string::npos);
  REQUIRE(answer["left_out"].size() == 1);
  CHECK(answer["left_out"][0]["file"] == "words.json");

  const Ran screen = run_args({"clinic", clinic.in(), "--draws", kDraws});
  CHECK(screen.code == 3);
  CHECK(screen.out.find("Not answered") != std::string::npos);
  CHECK(screen.out.find("broken.json: /delivery/club_speed_mph") != std::string::npos);
  CHECK(screen.out.find("words.json (loftwright-columns/1)") != std::string::npos);
  CHECK(screen.out.find("Abel Thorne") != std::string::npos);
  CHECK(screen.out.find("what must give: apex") != std::string::npos);

  const Ran table = run_args({"clinic", clinic.in(), "--draws", kDraws, "--csv", "--quiet"});
  CHECK(table.code == 3);
  CHECK(table.err.find("broken.json: /delivery/club_speed_mph") != std::string::npos);
  CHECK(table.out.find("broken") == std::string::npos);

  CHECK(clinic_json_of(Clinic(false), {}, 0)["failed"].empty());
}

TEST_CASE("the same answer for any number of threads, and twice") {
  const Clinic clinic;
  const json one = clinic_json_of(clinic, {"--threads", "1"});
  CHECK(clinic_json_of(clinic, {"--threads", "3"}) == one);
  CHECK(clinic_json_of(clinic, {"--threads", "64"}) == one);
}

TEST_CASE("the table for a spreadsheet, which runs nothing in it") {
  const Clinic clinic(false);
  const Ran ran = run_args({"clinic", clinic.in(), "--draws", kDraws, "--csv", "--quiet"});
  CHECK(ran.code == 0);
  const auto rows = cells_of(ran.out);
  REQUIRE(rows.size() == 5);
  CHECK(rows[0][0] == "file");
  CHECK(rows[0][6] == "gain_yd");
  for (const auto& row : rows) CHECK(row.size() == rows[0].size());
  CHECK(rows[2][1].starts_with("'="));
  const json answer = clinic_json_of(clinic, {}, 0);
  CHECK(std::stod(rows[1][6]) == Approx(answer["pupils"][0]["gain_m"].get<double>() / 0.9144).epsilon(1e-11));
  CHECK(rows[2][6].empty());  // Bess has no answer
  const Ran metres = run_args({"clinic", clinic.in(), "--draws", kDraws, "--csv", "--quiet", "--units", "metres"});
  CHECK(cells_of(metres.out)[0][6] == "gain_m");
  CHECK(cells_of(metres.out)[1][6] == answer["pupils"][0]["gain_m"].dump());
}

TEST_CASE("a sheet and a table say the setting, and leave the place empty where there is none") {
  const ScratchFolder folder;
  folder.write("in/kaye.json", file_contents(kData / "clinic/kaye.json"));
  folder.write("in/tilda.json", file_contents(kData / "pupils/sleeve.json"));
  const std::string in = (folder.path() / "in").string();
  const Ran ran = run_args({"clinic", in, "--draws", kDraws, "--csv", "--quiet"});
  const auto rows = cells_of(ran.out);
  REQUIRE(rows.size() == 3);
  const auto cell = [&](std::size_t row, const std::string& head) {
    const auto at = std::find(rows[0].begin(), rows[0].end(), head);
    REQUIRE(at != rows[0].end());
    return rows[row][static_cast<std::size_t>(at - rows[0].begin())];
  };
  const json fit =
      parsed<json>(run_args({"clinic", in, "--json", "--draws", kDraws}).out)["pupils"][1]["fit"];  // files by name
  CHECK(fit["setting"] == "+2");
  CHECK(cell(1, "setting").empty());
  CHECK(cell(2, "setting") == "+2");
  CHECK(cell(2, "head_loft_deg") == fit["head_loft_deg"].dump());
  CHECK(cell(2, "in_hand") == "false");
  const std::string screen = run_args({"clinic", in, "--draws", kDraws}).out;
  INFO(screen);
  const auto has_column = [](const std::string& of) { return of.find("  loft  set  attack") != std::string::npos; };
  CHECK(has_column(screen));
  std::size_t begin = 0;
  for (std::size_t end; (end = screen.find('\n', begin)) != std::string::npos; begin = end + 1)
    CHECK(end - begin <= 80);
  CHECK_FALSE(has_column(run_args({"clinic", (kData / "clinic").string(), "--draws", "0"}).out));
}

TEST_CASE("a page for each pupil as advise writes it, and one that links to all") {
  const Clinic clinic;
  const fs::path out = clinic.path() / "out";
  const Ran ran = run_args({"clinic", clinic.in(), "--draws", kDraws, "--html", out.string()});
  CHECK(ran.code == 3);
  CHECK(ran.out.find("Pages written") != std::string::npos);
  const std::string index = file_contents(out / "index.html");
  for (const char* name : {"abel", "bess", "dora", "kaye"}) {
    INFO(name);
    CHECK(index.find("href=\"" + std::string(name) + ".html\"") != std::string::npos);
    const fs::path alone = clinic.path() / "alone.html";
    run_args({"advise", clinic.in() + "/" + name + ".json", "--draws", kDraws, "--quiet", "--html", alone.string()});
    CHECK(file_contents(alone) == file_contents(out / (std::string(name) + ".html")));
  }
  CHECK(index.find("broken.json") != std::string::npos);
  CHECK(index.find("href=\"broken") == std::string::npos);
  CHECK(index.find("<b>Bess</b>") == std::string::npos);
  CHECK(std::distance(fs::directory_iterator(out), fs::directory_iterator()) == 5);
  // Again, over pages of ours; one that is not ours is left as it is, and so is everything else.
  CHECK(run_args({"clinic", clinic.in(), "--draws", "0", "--html", out.string()}).code == 3);
  clinic.write("out/dora.html", "<p>the user's own</p>");
  const std::string before = file_contents(out / "abel.html");
  const Ran refused = run_args({"clinic", clinic.in(), "--draws", kDraws, "--html", out.string()});
  CHECK(refused.code == 3);
  CHECK(refused.out.empty());
  CHECK(refused.err.find("dora.html is there and is no page of ours") != std::string::npos);
  CHECK(file_contents(out / "dora.html") == "<p>the user's own</p>");
  CHECK(file_contents(out / "abel.html") == before);
}

TEST_CASE("pages that cannot be written are refused before any work") {
  const Clinic clinic;
  const auto refused = [&](const std::string& to, const std::string& said) {
    const Ran ran = run_args({"clinic", clinic.in(), "--draws", kDraws, "--html", to});
    CHECK(ran.code == 3);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, Catch::Contains(said));
  };
  refused((clinic.path() / "no/such").string(), "cannot be made");
  refused(clinic.write("file", "x").string(), "cannot be made");
  fs::create_directories(clinic.path() / "taken/index.html");
  refused((clinic.path() / "taken").string(), "index.html");
}

TEST_CASE("pupils beyond help alone are exit 1") {
  const Clinic clinic(false);
  for (const char* name : {"abel", "dora", "kaye"}) fs::remove(fs::path(clinic.in()) / (std::string(name) + ".json"));
  const json answer = clinic_json_of(clinic, {}, 1);
  CHECK(answer["pupils"].size() == 1);
  CHECK(answer["summary"][0].get<std::string>().find("nothing within reach") != std::string::npos);
}

TEST_CASE("a rack on the command line keeps its promises") {
  const Clinic clinic;
  const auto rack = [&](const std::string& places, const std::string& lofts = "9,10.5,12deg,13.5,15") {
    const Ran ran = run_args({"rack", clinic.in(), "--json", "--lofts", lofts, "--places", places});
    INFO(ran.err);
    REQUIRE(ran.code == 3);  // broken.json
    return parsed<json>(ran.out);
  };
  double before = 1e300;
  for (int places = 1; places <= 5; ++places) {
    const json answer = rack(std::to_string(places));
    CHECK(answer["exact"] == true);
    CHECK(answer["chosen_deg"].size() == static_cast<std::size_t>(places));
    CHECK(answer["lofts_deg"].size() == 5);
    CHECK(answer["gain_m"].size() == 4);
    CHECK(answer["failed"].size() == 1);
    CHECK(answer["next"].size() == static_cast<std::size_t>(5 - places));
    CHECK(answer["by_places"][places - 1]["chosen_deg"] == answer["chosen_deg"]);
    const double lost = answer["lost_m"];
    CHECK(lost <= before);
    double sum = 0.0;
    for (const json& pupil : answer["pupils"]) sum += pupil["lost_m"].get<double>();
    CHECK(sum == Approx(lost).margin(1e-9));
    if (!answer["next"].empty()) {
      const json more = rack(std::to_string(places + 1));
      CHECK(more["lost_m"].get<double>() <= lost - answer["next"][0]["saves_m"].get<double>() + 1e-9);
    }
    before = lost;
  }
  CHECK(rack("2", "15,9,12,10.5,13.5") == rack("2"));  // in whatever order they are typed
  const Ran page = run_args(
      {"rack", clinic.in(), "--lofts", "9,12,15", "--places", "2", "--html", (clinic.path() / "rack.html").string()});
  CHECK(page.code == 3);
  CHECK(page.out.starts_with("Two lofts, "));
  CHECK(file_contents(clinic.path() / "rack.html").find("Where buying stops paying") != std::string::npos);
}

TEST_CASE("a rack for nobody names what is wrong with every file") {
  const ScratchFolder folder;
  folder.write("x.json", R"({"format": "loftwright-pupil/1", "colour": "red"})");
  const Ran ran = run_args({"rack", folder.path().string(), "--lofts", "9,12", "--places", "1"});
  CHECK(ran.code == 3);
  CHECK(ran.out.empty());
  CHECK(ran.err.find("x.json: ") != std::string::npos);
  CHECK(ran.err.find("colour") != std::string::npos);
}
