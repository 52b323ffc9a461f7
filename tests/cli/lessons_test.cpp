// From a promise kept with a session to what an academy's lessons do, and to the advice that takes it.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "cases.hpp"
#include "folders.hpp"
#include "json.hpp"
#include "process.hpp"
#include "run.hpp"

using namespace loftwright::test;

namespace {

const std::string kShippedData = LOFTWRIGHT_SOURCE_DIR "/data";

Json lessons_json_of(const Ran& ran) {
  INFO(ran.err);
  REQUIRE(ran.code <= 1);
  return parsed<Json>(ran.out);
}

// The demonstration's pupil, what advise promised of the swing, and a book for it.
struct Promised {
  ScratchFolder folder;
  std::string book = (folder.path() / "marlow.json").string();
  std::string advice =
      folder.write("advice.json", run_line("advise " + kShippedData + "/pupils/demo.json --json --draws 1024").out)
          .string();

  Ran add(const std::string& more,
          const std::string& swing = "--club-speed 82mph --attack -4deg --dynamic-loft 9.5deg") const {
    return run_line("book add " + book + " --loft 9.5deg " + swing + " " + more);
  }
};

// A folder with the books of the invented academy.
struct Shelves {
  ScratchFolder folder;
  Shelves() { std::filesystem::copy(kShippedData + "/academy/books", folder.path()); }
  Ran lessons(const std::string& more = "") const { return run_line("lessons " + folder.path().string() + " " + more); }
};

}  // namespace

TEST_CASE("a promise is kept as it was told, and under the reference conditions") {
  const Promised desk;
  const Ran ran = desk.add("--date 2026-01-10 --advice " + desk.advice);
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  CHECK(ran.out.find("Promised") != std::string::npos);
  const Json told = parsed<Json>(file_contents(desk.advice)),
             session = parsed<Json>(file_contents(desk.book))["sessions"][0];
  const Json &choice = told["choices"][0], &kept = session["promised"];
  for (const char* key : {"lever", "loft_deg", "attack_deg", "gain_m", "gain_low_m", "gain_high_m"}) {
    CAPTURE(key);
    CHECK(kept[key] == choice[key]);
  }
  // The promised delivery as strike has it, no wind, no hill.
  const Json strategy = told["strategies"][choice["lever"] == "both"   ? "both"
                                           : choice["lever"] == "loft" ? "loft_only"
                                                                       : "technique_only"];
  const Ran strike =
      run_line("strike --json --club-speed " + strategy["club_speed_mps"].dump() + "m/s --attack " +
               strategy["attack_deg"].dump() + "deg --dynamic-loft " + strategy["dynamic_loft_deg"].dump() + "deg");
  const double carry = parsed<Json>(strike.out)["flight"]["carry_m"];
  CHECK(kept["reference_gain_m"].get<double>() ==
        Approx(carry - session["reference"]["carry_m"].get<double>()).margin(1e-6));
  CHECK(run_line("check " + desk.book).code == 0);
}

TEST_CASE("advice on another swing, hand or head is not kept, and neither is the session") {
  const Promised desk;
  const auto refused = [&](const Ran& ran, const char* why) {
    INFO(ran.err);
    CHECK(ran.code == 3);
    CHECK(ran.err.find(why) != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(desk.book));
  };
  const std::string advice = " --advice " + desk.advice;
  refused(desk.add(advice, "--club-speed 82mph --attack 1deg --dynamic-loft 9.5deg"),
          "of another swing: attack -4.0 deg, and 1.0");
  refused(desk.add(advice, "--club-speed 100mph --attack -4deg --dynamic-loft 9.5deg"), "of another swing: club speed");
  refused(desk.add("--handed left" + advice), "of a right-handed pupil");
  refused(desk.add("--advice " + kShippedData + "/pupils/demo.json"), "loftwright-advise/2");
  const std::string no_draws =
      desk.folder.write("plain.json", run_line("advise " + kShippedData + "/pupils/demo.json --json --draws 0").out)
          .string();
  refused(desk.add("--advice " + no_draws), "the advice has no interval");
  Json broken = parsed<Json>(file_contents(desk.advice));
  broken["strategies"]["both"].erase("club_speed_mps");
  refused(desk.add("--advice " + desk.folder.write("broken.json", broken.dump()).string()),
          "/strategies/both/club_speed_mps: is missing");
  Json left = parsed<Json>(file_contents(desk.advice));
  left["choices"][0]["lever"] = "leave";
  const Ran nothing = desk.add("--advice " + desk.folder.write("left.json", left.dump()).string());
  CHECK(nothing.code == 0);
  CHECK(loftwright::test::on_one_line(nothing.err).find("nothing is promised") != std::string::npos);
  CHECK_FALSE(parsed<Json>(file_contents(desk.book))["sessions"][0].contains("promised"));
}

TEST_CASE("a broken book is named and the rest is answered, what is no book is left out") {
  const Shelves shelves;
  const Json whole = lessons_json_of(shelves.lessons("--json --quiet"));
  CHECK(whole["follow"]["pupils"] == 12);
  shelves.folder.write("broken.json", "{\"format\": \"loftwright-book/1\", \"version\": 3");
  shelves.folder.write("newer.json", "{\"format\": \"loftwright-book/9\"}");
  shelves.folder.write("pupil.json", file_contents(kShippedData + "/pupils/demo.json"));
  shelves.folder.write("notes.txt", "no book");
  const Ran ran = shelves.lessons("--json");
  CHECK(ran.code == 3);
  CHECK(ran.err.find("broken.json") != std::string::npos);
  CHECK(ran.err.find("newer.json") != std::string::npos);
  CHECK(ran.err.find("left out, for it is no book: pupil.json") != std::string::npos);
  const Json answer = parsed<Json>(ran.out);
  CHECK(answer["follow"] == whole["follow"]);
  CHECK(answer["failed"].size() == 2);
  CHECK(answer["failed"][0]["file"] == "broken.json");
  CHECK(answer["left_out"] == Json::array({"pupil.json"}));
}

TEST_CASE("the file of an academy is read again as it was, and advise takes it where the pupil's file is silent") {
  const Shelves shelves;
  const std::string file = (shelves.folder.path() / "academy.json").string();
  const Json answer = lessons_json_of(shelves.lessons("--json --quiet --into " + file));
  const Json kept = parsed<Json>(file_contents(file));
  for (const char* key : {"follow", "speed_per_attack_mps_per_deg", "reached_share", "calibration"})
    CHECK(kept[key] == answer[key]);
  CHECK(run_line("check " + file).code == 0);
  CHECK(shelves.lessons("--into " + file).code == 3);  // it is there already
  CHECK(shelves.lessons("--into " + file + " --overwrite").code == 0);

  Json pupil = parsed<Json>(file_contents(kShippedData + "/pupils/demo.json"));
  pupil["reach"].erase("follow");
  pupil["reach"].erase("speed_per_attack_deg_mph");
  const std::string open = shelves.folder.write("open.pupil", pupil.dump()).string();
  const auto advice = [&](const std::string& of, const std::string& more) {
    return lessons_json_of(run_line("advise " + of + " --json --draws 2048 " + more));
  };
  const Json usual = advice(open, ""), own = advice(open, "--academy " + file);
  CHECK(usual["reached"].is_null());
  CHECK(own["reached"]["share"] == kept["reached_share"]["mean"]);
  CHECK(own["assumed"].dump().find("as the lessons of 12 pupils of") != std::string::npos);
  CHECK(usual["strategies"]["both"]["gain_m"] != own["strategies"]["both"]["gain_m"]);
  const auto taken = [](const Json& a, const char* assumption) {
    for (const Json& i : a["confidence"]["influences"]) {
      if (i["assumption"] == assumption) return i["taken"].get<double>();
    }
    return -99.0;
  };
  CHECK(taken(own, "follow") == Approx(kept["follow"]["mean"].get<double>()));
  CHECK(taken(own, "speed_cost") == Approx(kept["speed_per_attack_mps_per_deg"]["mean"].get<double>()));
  // The pupil's own stand, and the rule is the same: only `reached` differs.
  Json demo = advice(kShippedData + "/pupils/demo.json", ""),
       with = advice(kShippedData + "/pupils/demo.json", "--academy " + file);
  with["reached"] = nullptr;
  CHECK(demo == with);
  Json bad = kept;
  bad["follow"]["sd"] = -1;
  const Ran refused =
      run_line("advise " + open + " --academy " + shelves.folder.write("bad.json", bad.dump()).string());
  CHECK(refused.code == 3);
  CHECK(refused.err.find("/follow/sd") != std::string::npos);
}

TEST_CASE("clinic and rack take of an academy what advise takes, pupil by pupil, and say so") {
  const Shelves shelves;
  const std::string file = (shelves.folder.path() / "academy.json").string();
  REQUIRE(shelves.lessons("--quiet --into " + file).code == 0);
  const ScratchFolder pupils;  // one whose file leaves both open, one whose file gives both
  Json open = parsed<Json>(file_contents(kShippedData + "/clinic/abel.json"));
  open["reach"].erase("follow");
  open["reach"].erase("speed_per_attack_deg_mph");
  pupils.write("abel.json", open.dump());
  pupils.write("kaye.json", file_contents(kShippedData + "/clinic/kaye.json"));
  const std::string folder = pupils.path().string(), by = " --quiet --json --draws 1024 --academy " + file;

  const Json clinic = lessons_json_of(run_line("clinic " + folder + by));
  CHECK(clinic["academy"]["file"] == file);
  REQUIRE(clinic["pupils"].size() == 2);
  for (const Json& row : clinic["pupils"]) {
    const Json alone = lessons_json_of(run_line("advise " + folder + "/" + row["file"].get<std::string>() + by));
    INFO(row["file"]);
    CHECK(row["lever"] == alone["verdict"]["lever"]);
    CHECK(row["probability"] == alone["verdict"]["probability"]);
    CHECK(row["reached_gain_m"] == alone["reached"]["gain_m"]);
    for (const char* key : {"share", "low", "high", "pupils"})
      CHECK(clinic["academy"]["reached"][key] == alone["reached"][key]);
    CHECK(row["from_academy"].size() == (row["file"] == "abel.json" ? 2 : 0));
    for (const Json& taken : row["from_academy"])
      CHECK(std::find(alone["assumed"].begin(), alone["assumed"].end(), taken) != alone["assumed"].end());
  }
  const Json plain = lessons_json_of(run_line("clinic " + folder + " --quiet --json --draws 1024"));
  CHECK(plain["academy"].is_null());
  CHECK(plain["pupils"][0]["reached_gain_m"].is_null());
  CHECK(plain["pupils"][0]["probability"] != clinic["pupils"][0]["probability"]);
  CHECK(plain["pupils"][1]["probability"] == clinic["pupils"][1]["probability"]);

  const std::string pages = (pupils.path() / "pages").string();
  const Ran screen = run_line("clinic " + folder + " --quiet --draws 1024 --academy " + file + " --html " + pages);
  const std::string text = on_one_line(screen.out);
  CHECK(text.find("From the academy's lessons") != std::string::npos);
  CHECK(text.find("show. So for Abel Thorne; the other files give it.") != std::string::npos);
  CHECK(text.find("The verdicts weigh every swing as if it were learnt in full.") != std::string::npos);
  CHECK(file_contents(pages + "/abel.html").find("as the lessons of 12 pupils of") != std::string::npos);
  CHECK(file_contents(pages + "/abel.html").find("Of what a change of swing was promised to gain") !=
        std::string::npos);
  CHECK(file_contents(pages + "/index.html").find("lessons of 12 pupils of") != std::string::npos);

  const std::string lofts = "rack " + folder + " --lofts 9,12,15 --places 2 --after-advice";
  const Json rack = lessons_json_of(run_line(lofts + by)),
             before = lessons_json_of(run_line(lofts + " --json --draws 1024"));
  CHECK(rack["academy"]["file"] == file);
  CHECK(before["academy"].is_null());
  CHECK(rack["pupils"][0]["from_academy"].size() == 2);
  CHECK(rack["pupils"][0]["attack_deg"] == clinic["pupils"][0]["attack_deg"]);
  CHECK(rack["pupils"][1] == before["pupils"][1]);
  const Ran said = run_line(lofts + " --quiet --draws 1024 --academy " + file);
  CHECK(on_one_line(said.out).find("show. So for Abel Thorne; the other files give it.") != std::string::npos);
}

TEST_CASE("a promise is kept with a session that is in the book, replaced, and taken out") {
  const Promised desk;
  REQUIRE(desk.add("--date 2026-01-10").code == 0);
  const auto promised = [&] {
    const Json session = parsed<Json>(file_contents(desk.book))["sessions"][0];
    return session.contains("promised") ? session["promised"] : Json(nullptr);
  };
  const auto edit = [&](const std::string& more) {
    return run_line("book edit " + desk.book + " --session 1 " + more);
  };
  const auto refused = [&](const Ran& ran, const char* why, int code = 3) {
    INFO(ran.err);
    CHECK(ran.code == code);
    CHECK(on_one_line(ran.err).find(why) != std::string::npos);
  };
  refused(edit("--clear advice"), "is so already");
  const Ran kept = edit("--advice " + desk.advice);
  INFO(kept.err);
  REQUIRE(kept.code == 0);
  CHECK(kept.out.find("Promised") != std::string::npos);
  {
    const Promised other;  // as 'book add' has it
    REQUIRE(other.add("--date 2026-01-10 --advice " + other.advice).code == 0);
    CHECK(parsed<Json>(file_contents(other.book))["sessions"][0]["promised"] == promised());
  }
  refused(edit("--advice " + desk.advice), "is so already");
  refused(edit("--advice " + desk.advice + " --clear advice"), "it is given a new value too", 2);
  // A swing corrected after the promise was made of the old one.
  refused(edit("--attack -3deg"), "keeps what was promised of its swing as noted until now");
  refused(edit("--head measured-2020"), "keeps what was promised of its head as noted until now");
  CHECK(edit("--notes more").code == 0);
  CHECK(!promised().is_null());
  refused(edit("--attack 2deg --advice " + desk.advice), "of another swing");
  const Json before = promised();
  REQUIRE(edit("--attack -3.5deg --advice " + desk.advice).code == 0);
  CHECK(promised()["gain_m"] == before["gain_m"]);
  CHECK(promised()["reference_gain_m"] != before["reference_gain_m"]);  // from another swing

  Json left = parsed<Json>(file_contents(desk.advice));
  left["choices"][0]["lever"] = "leave";
  const Ran leave = edit("--advice " + desk.folder.write("left.json", left.dump()).string());
  CHECK(leave.code == 0);
  CHECK(on_one_line(leave.err).find("what was promised before is taken out") != std::string::npos);
  CHECK(promised().is_null());
  CHECK(run_line("book undo " + desk.book).code == 0);
  CHECK(!promised().is_null());
  CHECK(edit("--clear advice --attack -4deg").code == 0);
  CHECK(promised().is_null());
  CHECK(run_line("check " + desk.book).code == 0);
}

TEST_CASE("a folder without books, or none at all, is an error") {
  const ScratchFolder folder;
  CHECK(run_line("lessons " + folder.path().string()).code == 3);
  const Ran none = run_line("lessons " + (folder.path() / "nowhere").string());
  CHECK(none.code == 3);
  CHECK(none.err.find("there is no such folder") != std::string::npos);
  const Ran file = run_line("lessons " + folder.write("a.json", "{}").string());
  CHECK(file.code == 3);
}
