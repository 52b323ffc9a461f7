// The record of a pupil from the command line.
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "folders.hpp"
#include "json.hpp"
#include "process.hpp"
#include "run.hpp"

using namespace loftwright::test;

namespace {

// A book in a folder of its own, begun on the command line.
struct OneBook {
  ScratchFolder folder;
  std::string file = (folder.path() / "pupil.json").string();

  Ran add(const std::string& more) const {
    return run_line("book add " + file + " --club-speed 82mph --attack -4deg --dynamic-loft 10deg " + more);
  }
  Ran run(const std::string& action, const std::string& more = "") const {
    return run_line("book " + action + " " + file + " " + more);
  }
  Json json(const std::string& action, const std::string& more = "") const {
    const Ran ran = run(action, more + " --json");
    INFO(ran.err);
    REQUIRE(ran.code == 0);
    return parsed<Json>(ran.out);
  }
};

std::string date_now(const std::string& zone) {
  const Ran ran = [&] {
    const ScratchFolder folder;
    const std::string out = (folder.path() / "out").string();
    REQUIRE(std::system(("TZ=" + zone + " date +%F > " + shell_quoted(out)).c_str()) == 0);
    return Ran{0, file_contents(out), ""};
  }();
  return ran.out.substr(0, 10);
}

}  // namespace

TEST_CASE("the carry in a book is that of strike under the default conditions") {
  const OneBook book;
  REQUIRE(book.add("--date 2026-01-10 --temperature -5C --altitude 2000m --wind 20mph --wind-from ahead --turf firm")
              .code == 0);
  const Json kept = book.json("list")["sessions"][0];
  const Ran strike = run_line("strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg --json");
  const Json flight = parsed<Json>(strike.out)["flight"];
  CHECK(kept["reference"]["carry_m"] == flight["carry_m"]);
  CHECK(kept["reference"]["total_m"] == flight["total_m"]);
  CHECK(std::abs(kept["course"]["wind_mps"].get<double>() - 20 * 0.44704) < 1e-11);  // twelve digits are written
}

TEST_CASE("with --json every change is answered by the book as it then is on disk") {
  const OneBook book;
  const auto check_answer = [&](const Ran& ran, std::size_t sessions) {
    INFO(ran.err);
    CHECK(ran.code == 0);
    CHECK(ran.out == file_contents(book.file));
    CHECK(parsed<Json>(ran.out)["sessions"].size() == sessions);
  };
  check_answer(book.add("--date 2026-01-10 --json"), 1);
  check_answer(book.add("--date 2026-01-11 --json"), 2);
  check_answer(book.run("list", "--json"), 2);
  check_answer(book.run("export", "--json"), 2);
  check_answer(book.run("remove", "--session 1 --json"), 1);
  check_answer(book.run("undo", "--json"), 2);
  CHECK(book.json("list")["version"] == 4);
}

TEST_CASE("a book begun without a name has its file's, and takes no other pupil's session") {
  const OneBook book;
  CHECK(book.add("--date 2026-01-10").code == 0);
  CHECK(book.json("list")["pupil"] == "pupil");
  CHECK(book.json("list")["handed"] == "right");
  const std::string before = file_contents(book.file);
  const Ran other = book.add("--date 2026-01-11 --name Someone");
  CHECK(other.code == 3);
  CHECK(other.err.find("--name: this is the book of 'pupil', not of 'Someone'") != std::string::npos);
  const Ran left = book.add("--date 2026-01-11 --handed left");
  CHECK(left.code == 3);
  CHECK(left.err.find("--handed: the pupil of this book plays right-handed") != std::string::npos);
  CHECK(file_contents(book.file) == before);
  CHECK(book.add("--date 2026-01-11 --name pupil --handed right").code == 0);
}

TEST_CASE("a left-hander's book stays one") {
  const OneBook book;
  CHECK(book.add("--date 2026-01-10 --handed left --path -3deg --toe 12mm").code == 0);
  CHECK(book.add("--date 2026-01-11 --path -3deg --toe 12mm").code == 0);
  const Json sessions = book.json("list")["sessions"];
  const Json strike = parsed<Json>(
      run_line(
          "strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg --path -3deg --toe 12mm --handed left --json")
          .out);
  for (const Json& s : sessions) CHECK(s["reference"]["carry_m"] == strike["flight"]["carry_m"]);
}

TEST_CASE("without --date the day is today where the user is") {
  for (const std::string zone : {"Pacific/Kiritimati", "Etc/GMT+12"}) {  // 26 hours apart: never the same day
    const ScratchFolder folder;
    const std::string file = (folder.path() / "pupil.json").string();
    const std::string before = date_now(zone);
    const Ran ran =
        run_process({"book", "add", file, "--club-speed", "82", "--attack", "0", "--dynamic-loft", "12", "--json"}, "",
                    "TZ=" + zone);
    const std::string after = date_now(zone);
    REQUIRE(ran.code == 0);
    const std::string kept = parsed<Json>(ran.out)["sessions"][0]["date"];
    INFO(zone << ": " << before << " to " << after << ", kept " << kept);
    CHECK((kept == before || kept == after));
  }
}

TEST_CASE("a day that is still to come is kept with a warning") {
  const OneBook book;
  const Ran ran = book.add("--date 2100-12-31");
  CHECK(ran.code == 0);
  CHECK(ran.err.find("warning: --date: 2100-12-31 is after today") != std::string::npos);
  CHECK(book.add("--date 2100-12-31 --quiet").err.empty());
}

TEST_CASE("what a user types is printed safely or not kept at all") {
  const OneBook book;
  for (const std::string bad : {"bell\x07", "clear \x1B[2J",
                                "csi \xC2\x9B"
                                "2J",
                                "not UTF-8 \xFF"}) {
    const Ran ran = run_args(
        {"book", "add", book.file, "--club-speed", "82", "--attack", "0", "--dynamic-loft", "12", "--notes", bad});
    INFO(ran.err);
    CHECK(ran.code == 3);
    CHECK(ran.err.find('\x1B') == std::string::npos);
    CHECK_FALSE(std::filesystem::exists(book.file));
  }
  const Ran odd = run_args({"book", "add", book.file, "--club-speed", "82", "--attack", "0", "--dynamic-loft", "12",
                            "--name", "Ä \"x\" <b>", "--notes", "one\ntwo\tthree"});
  CHECK(odd.code == 0);
  const Ran list = book.run("list");
  CHECK(list.out.find("Ä \"x\" <b>, right-handed") != std::string::npos);
  CHECK(list.out.find("one two three") != std::string::npos);
  // A path is typed too.
  const Ran path = run_args({"book", "list", "no\x1B[2J.json"});
  CHECK(path.code == 3);
  CHECK(path.err.find('\x1B') == std::string::npos);
}

TEST_CASE("a damaged book is read in its previous version, with a warning on the error stream") {
  const OneBook book;
  REQUIRE(book.add("--date 2026-01-10").code == 0);
  REQUIRE(book.add("--date 2026-01-11").code == 0);
  const std::string whole = file_contents(book.file);
  std::ofstream(book.file, std::ios::binary) << whole.substr(0, whole.size() / 2);
  for (const char* action : {"list", "history", "export"}) {
    const Ran ran = book.run(action);
    INFO(action << "\n" << ran.err);
    CHECK(ran.code == 0);
    CHECK(ran.err.starts_with("warning: "));
    CHECK(ran.err.find("damaged") != std::string::npos);
    CHECK(ran.out.find("2026-01-10") != std::string::npos);
    CHECK(ran.out.find("2026-01-11") == std::string::npos);
    CHECK(book.run(action, "--quiet").err.empty());
  }
  const Ran added = book.add("--date 2026-01-12");
  CHECK(added.code == 0);
  CHECK(added.err.find("damaged") != std::string::npos);
  CHECK(book.json("list")["sessions"].size() == 2);
}

TEST_CASE("undo on a damaged book says what it found and did, and the second time that there is nothing to take back") {
  const OneBook book;
  for (const char* day : {"2026-01-10", "2026-01-11", "2026-01-12"})
    REQUIRE(book.add(std::string("--date ") + day).code == 0);
  const std::string cut = file_contents(book.file).substr(0, 700);
  std::ofstream(book.file, std::ios::binary) << cut;
  const Ran undone = book.run("undo");
  CHECK(undone.code == 0);
  CHECK(undone.out.find("Nothing was taken back") != std::string::npos);
  CHECK(undone.out.find("2 sessions") != std::string::npos);
  CHECK(undone.out.find("is taken back") == std::string::npos);
  CHECK(undone.err.find("is damaged") != std::string::npos);
  CHECK(file_contents(book.file + ".damaged") == cut);
  const Ran again = book.run("undo");
  CHECK(again.code == 3);
  CHECK(again.err.find("nothing can be undone") != std::string::npos);
  CHECK(book.json("list")["sessions"].size() == 2);
  CHECK(parsed<Json>(book.add("--date 2026-01-12 --json").out)["sessions"][2]["session"] ==
        5);  // 3 was lost, 4 brought 2 back
}

TEST_CASE("a refused session leaves no file behind") {
  for (const char* more : {"--shots no-such.csv", "--club-speed 82 --attack 0 --dynamic-loft 12 --head no-such-head"}) {
    const OneBook book;
    CHECK(book.run("add", more).code == 3);
    CHECK(std::filesystem::is_empty(book.folder.path()));
  }
}

TEST_CASE("the page of a book stays small whatever its notes are, and the latest notes stand on it") {
  const OneBook book;
  const std::string loud(9990, '"');
  for (int day = 0; day < 45; ++day) {
    const Ran ran = run_args({"book", "add", book.file, "--club-speed", "82", "--attack", "-4", "--dynamic-loft", "10",
                              "--date", fmt::format("2026-0{}-{:02}", 1 + day / 25, 1 + day % 25), "--notes",
                              fmt::format("note {} ", day + 1) + loud});
    REQUIRE(ran.code == 0);
  }
  const std::string page = (book.folder.path() / "page.html").string();
  REQUIRE(book.run("history", "--html " + page).code == 0);
  const std::string html = file_contents(page);
  CHECK(html.size() < 400'000);
  CHECK(html.find("note 45 ") != std::string::npos);
  CHECK(html.find("note 41 ") != std::string::npos);
  CHECK(html.find("sessions before these are too long to stand here") != std::string::npos);
  CHECK(html.find("The input of this page is too long to stand here") != std::string::npos);
}

TEST_CASE("the page of the longest book stays small") {
  const OneBook book;
  REQUIRE(book.add("--date 1990-01-01 --loft 9deg").code == 0);
  Json whole = parsed<Json>(file_contents(book.file));
  const Json first = whole["sessions"][0];
  whole["sessions"] = Json::array();
  for (int i = 0; i < 5000; ++i) {
    Json s = first;
    s["session"] = i + 1;
    s["date"] = fmt::format("{}-{:02}-{:02}", 1990 + i / 336, 1 + i / 28 % 12, 1 + i % 28);
    s["club"]["loft_deg"] = 9 + i % 7;
    s["reference"]["carry_m"] = 130.0 + i % 41;
    s["delivery"]["attack_deg"] = -4.0 + i % 13;
    whole["sessions"].push_back(s);
  }
  whole["version"] = 5000;
  std::ofstream(book.file, std::ios::binary) << whole.dump();
  const std::string page = (book.folder.path() / "page.html").string();
  REQUIRE(book.run("history", "--html " + page).code == 0);
  CHECK(file_contents(page).size() < 400'000);
}

TEST_CASE("another program that writes is named, and a reader does not mind it") {
  const OneBook book;
  REQUIRE(book.add("--date 2026-01-10").code == 0);
  const int lock = open((book.file + ".lock").c_str(), O_RDONLY | O_CREAT, 0600);
  REQUIRE(flock(lock, LOCK_EX) == 0);
  const Ran ran = run_process({"book", "remove", book.file, "--session", "1"});
  CHECK(ran.code == 3);
  CHECK(ran.err.find("is being changed by another program") != std::string::npos);
  CHECK(run_process({"book", "list", book.file}).code == 0);
  close(lock);
  CHECK(run_process({"book", "remove", book.file, "--session", "1"}).code == 0);
}

TEST_CASE("a disk that is full is reported with exit 4, and the book stays as it was") {
  const OneBook book;
  REQUIRE(book.add("--date 2026-01-10").code == 0);
  REQUIRE(book.add("--date 2026-01-11").code == 0);
  const std::string before = file_contents(book.file);
  // In sh a block is 512 bytes: smaller than a book of three sessions. Without the trap the signal would end the
  // program.
  const Ran ran = run_process({"book", "add", book.file, "--club-speed", "82", "--attack", "0", "--dynamic-loft", "12"},
                              "", "trap '' XFSZ; ulimit -f 1;");
  CHECK(ran.code == 4);
  CHECK(ran.err.find("could not be written: File too large") != std::string::npos);
  CHECK(ran.err.find("internal") == std::string::npos);
  CHECK(file_contents(book.file) == before);
  // Killed by that signal in the middle of a write: likewise.
  CHECK(run_process({"book", "add", book.file, "--club-speed", "82", "--attack", "0", "--dynamic-loft", "12"}, "",
                    "ulimit -f 1;")
            .code != 0);
  CHECK(file_contents(book.file) == before);
  CHECK(book.add("--date 2026-01-12").code == 0);
}

TEST_CASE("a shot list that has only ball numbers is worked back, and says so") {
  const OneBook book;
  const Json launch =
      parsed<Json>(run_line("strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg --json").out)["launch"];
  const auto csv =
      book.folder.write("shots.csv", "Ball Speed (m/s),Launch (deg),Spin (rpm)\n" + launch["ball_speed_mps"].dump() +
                                         "," + launch["launch_deg"].dump() + "," + launch["spin_rpm"].dump() + "\n");
  const Ran ran = run_line("book add " + book.file + " --date 2026-01-10 --shots " + csv.string());
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  CHECK(ran.err.find("only ball numbers were measured") != std::string::npos);
  const Json kept = book.json("list")["sessions"][0];
  CHECK(kept["delivery_inferred"] == true);
  CHECK(std::abs(kept["delivery"]["club_speed_mps"].get<double>() - 82 * 0.44704) <
        1e-5);  // twelve digits in, through an iteration
  CHECK(kept["shots"]["readings"][0]["sd"] == nullptr);
}

TEST_CASE("a book from which every session was taken out is still one") {
  const OneBook book;
  REQUIRE(book.add("--date 2026-01-10").code == 0);
  REQUIRE(book.run("remove", "--session 1").code == 0);
  CHECK(book.run("list").out == "pupil, right-handed: 0 sessions\n");
  CHECK(book.run("history").out.find("No sessions yet.") != std::string::npos);
  CHECK(book.json("history")["best"] == nullptr);
  CHECK(book.run("export").out.find("\r\n") + 2 == book.run("export").out.size());
  CHECK(book.run("undo").code == 0);
  CHECK(book.json("list")["sessions"].size() == 1);
}

TEST_CASE("a session added twice is noticed, and kept all the same") {
  const OneBook book;
  CHECK(book.add("--date 2026-01-10").err.empty());
  const Ran again = book.add("--date 2026-01-10");
  CHECK(again.code == 0);
  CHECK(again.err.find("session 2 has the very same numbers as session 1 of 2026-01-10") != std::string::npos);
  const std::string list = " --shots " LOFTWRIGHT_SOURCE_DIR "/data/shots/lesson.csv --date ";
  CHECK(run_line("book add " + book.file + list + "2026-01-17").err.find("very same") == std::string::npos);
  CHECK(run_line("book add " + book.file + list + "2026-01-24")
            .err.find("session 4 has the very same numbers as session 3 of 2026-01-17") != std::string::npos);
  CHECK(book.json("list")["sessions"].size() == 4);
}

TEST_CASE("days are to scale in the pictures of a book, and another driver is marked") {
  const OneBook book;
  for (const char* more : {"--date 2026-01-01 --loft 10.5deg", "--date 2026-01-11 --loft 10.5deg",
                           "--date 2026-03-02 --loft 12deg", "--date 2026-04-11 --loft 12deg"}) {
    REQUIRE(book.add(more).code == 0);
  }
  const std::string page = (book.folder.path() / "page.html").string();
  REQUIRE(book.run("history", "--html " + page).code == 0);
  const std::string html = file_contents(page);
  const std::size_t picture = html.find("id=\"progress\"");
  REQUIRE(picture != std::string::npos);
  const auto number_after = [&](std::string_view what, std::size_t& at) {
    at = html.find(what, at);
    REQUIRE(at != std::string::npos);
    at += what.size();
    return std::stod(html.substr(at, 20));
  };
  std::size_t at = picture;
  const double x0 = number_after("data-x0=\"", at), per_day = number_after("data-x-per-day=\"", at);
  for (const int days : {0, 10, 60, 100})
    CHECK(std::abs(number_after("cx=\"", at) - x0 - per_day * days) < 0.02);  // two decimals are drawn
  CHECK(html.find(">other driver</text>") != std::string::npos);
}

TEST_CASE("a corrected session keeps its number, has its carry computed anew, and is undone as any change") {
  const OneBook book;
  REQUIRE(book.add("--date 2026-01-10 --loft 10.5deg --notes first").code == 0);
  REQUIRE(book.add("--date 2026-01-20 --loft 10.5deg").code == 0);
  const Json before = book.json("list");
  const Ran ran =
      book.run("edit", "--session 1 --attack -2deg --date 2026-02-01 --loft 12deg --clear notes --turf firm");
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  CHECK(on_one_line(ran.out).find("Session 1 in the book of pupil is corrected, and its carry and total are computed "
                                  "anew") != std::string::npos);
  const Json after = book.json("list");
  REQUIRE(after["sessions"].size() == 2);
  const Json& s = after["sessions"][1];
  CHECK(after["sessions"][0] == before["sessions"][1]);
  CHECK(s["session"] == 1);
  CHECK(s["date"] == "2026-02-01");
  CHECK(s["notes"] == "");
  CHECK(s["club"]["loft_deg"] == 12.0);
  CHECK(s["course"]["turf"] == "firm");
  CHECK(s["delivery"]["club_speed_mps"] == before["sessions"][0]["delivery"]["club_speed_mps"]);
  const Json strike =
      parsed<Json>(run_line("strike --club-speed 82mph --attack -2deg --dynamic-loft 10deg --json").out);
  CHECK(s["reference"]["carry_m"] == strike["flight"]["carry_m"]);
  REQUIRE(book.run("undo").code == 0);
  CHECK(book.json("list")["sessions"] == before["sessions"]);
  const std::string kept = file_contents(book.file);
  for (const std::string bad :
       {"--session 1", "--session 1 --loft 10.5deg", "--session 9 --loft 12deg", "--session 1 --clear loft --loft 9deg",
        "--session 1 --head none", "--session 1 --turf none"}) {
    INFO(bad);
    CHECK(book.run("edit", bad).code >= 2);
    CHECK(file_contents(book.file) == kept);
  }
}

TEST_CASE("what a list measured is not typed over") {
  const OneBook book;
  const std::string list =
      book.folder
          .write("s.csv", "Club Speed (mph),Attack (deg),Dynamic Loft (deg),Carry (yd)\n82,-4,10,170\n83,-3,11,172\n")
          .string();
  REQUIRE(book.run("add", "--date 2026-01-10 --shots " + list).code == 0);
  const Ran ran = book.run("edit", "--session 1 --attack -3deg");
  CHECK(ran.code == 3);
  CHECK(ran.err.find("the delivery of session 1 is the mean of " + list) != std::string::npos);
  CHECK(book.run("edit", "--session 1 --loft 10.5deg --head measured-2020").code == 0);
  CHECK(book.json("history")["sessions"][0]["measured_carry_m"].get<double>() == Approx(171 * 0.9144));
}

TEST_CASE("a session of today from a list and a pupil's file, in one command") {
  const OneBook book;
  const std::string pupil =
      book.folder
          .write("marlow.json",
                 R"({"format": "loftwright-pupil/1", "name": "Marlow", "handed": "left", "club": {"loft_deg": 11},
 "delivery": {"club_speed_mph": 82, "attack_deg": -4, "dynamic_loft_deg": 10},
 "conditions": {"turf": "firm", "temperature_c": 9}})")
          .string();
  const std::string list =
      book.folder
          .write("s.csv",
                 "Club Speed (mph),Attack (deg),Dynamic Loft (deg),Path (deg),Face (deg),Toe (mm),High (mm)\n"
                 "82,-4,10,1,0,2,3\n83,-3,11,2,1,4,5\n")
          .string();
  const Ran ran = book.run("add", "--date 2026-01-10 --shots " + list + " --pupil " + pupil);
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  CHECK(ran.err.empty());
  const Json kept = book.json("list");
  CHECK(kept["pupil"] == "Marlow");
  CHECK(kept["handed"] == "left");
  const Json& s = kept["sessions"][0];
  CHECK(s["club"]["loft_deg"] == 11.0);
  CHECK(s["course"]["turf"] == "firm");
  CHECK(s["course"]["temperature_c"] == 9.0);
  CHECK(s["shots"]["counted"] == 2);
  const Ran odd = book.run("add",
                           "--date 2026-01-20 --loft 9deg --head measured-2020 --turf soft --club-speed 95mph "
                           "--attack -3deg --dynamic-loft 11deg --pupil " +
                               pupil);
  INFO(odd.err);
  REQUIRE(odd.code == 0);
  const std::string flat = on_one_line(odd.err);
  INFO(flat);
  for (const std::string said : {"--loft is 9 deg, the pupil's file says 11 deg", "--head is 'measured-2020'",
                                 "is it the same pupil?", "session 2 is on another driver"}) {
    INFO(said);
    CHECK(flat.find(said) != std::string::npos);
  }
  CHECK(book.json("list")["sessions"][1]["course"]["turf"] == "soft");
  CHECK(book.json("list")["sessions"][1]["course"]["temperature_c"] == 9.0);
  const std::string right = book.folder
                                .write("right.json", R"({"format": "loftwright-pupil/1", "club": {"loft_deg": 11},
 "delivery": {"club_speed_mph": 82, "attack_deg": -4, "dynamic_loft_deg": 10}})")
                                .string();
  const Ran hand = book.add("--date 2026-01-30 --pupil " + right);
  CHECK(hand.code == 3);
  CHECK(hand.err.find("--pupil: the pupil of this book plays left-handed") != std::string::npos);
}

TEST_CASE("a club speed far from the session's before is doubted, and kept") {
  const OneBook book;
  REQUIRE(book.add("--date 2026-01-10").code == 0);
  CHECK(book.run("add", "--date 2026-01-20 --club-speed 86mph --attack -4deg --dynamic-loft 10deg").err.empty());
  const Ran other = book.run("add", "--date 2026-01-30 --club-speed 104mph --attack -4deg --dynamic-loft 10deg");
  CHECK(other.code == 0);
  CHECK(on_one_line(other.err).find(
            "a club speed of 104.0 mph is far from the 86.0 mph of session 2 before it: is it the same pupil?") !=
        std::string::npos);
  CHECK(book.json("list")["sessions"].size() == 3);
}

TEST_CASE("a session keeps the setting its pupil's file says, and advice on it starts from there") {
  const OneBook book;
  const std::string begin = R"({"format": "loftwright-pupil/1", "name": "Marlow",
 "delivery": {"club_speed_mph": 82, "attack_deg": -4, "dynamic_loft_deg": 10}, "lofts_on_offer_deg": [9.5, 12],
 "sleeve": {"settings": [{"name": "0", "loft_deg": 0, "face_deg": 0}, {"name": "+1", "loft_deg": 1, "face_deg": -0.7}]},
 "club": {"loft_deg": 9.5, "setting": ")";
  const std::string at_one = book.folder.write("one.json", begin + "+1\"}}").string(),
                    at_none = book.folder.write("none.json", begin + "0\"}}").string();
  const std::string swing = " --club-speed 82mph --attack -4deg --dynamic-loft 10deg --pupil ";
  REQUIRE(book.run("add", "--date 2026-01-10" + swing + at_one).code == 0);
  const Json club = {{"loft_deg", 10.5}, {"head", "modern-driver"}};
  const auto kept = [&](std::size_t i) { return book.json("list")["sessions"][i]["club"]; };
  CHECK(kept(0)["loft_deg"] == 10.5);
  CHECK(kept(0)["setting"] == Json{{"name", "+1"}, {"head_loft_deg", 9.5}, {"face_deg", -0.7}});

  const Ran advised = run_line("advise " + at_none + " --book " + book.file + " --draws 0 --json");
  INFO(advised.err);
  REQUIRE(advised.code == 0);
  CHECK(on_one_line(advised.err).find("set to \"+1\", the pupil's file has it set to \"0\"") != std::string::npos);
  const Json as_is = parsed<Json>(advised.out);
  CHECK(as_is["pupil"]["club"] == Json{{"head_loft_deg", 9.5}, {"setting", "+1"}, {"loft_deg", 10.5}});
  CHECK(as_is["strategies"]["as_is"]["loft_deg"] == 10.5);

  // Another loft typed is another driver, in a new session and in one that is corrected.
  CHECK(book.run("add", "--date 2026-01-20 --loft 12deg" + swing + at_one).code == 0);
  CHECK_FALSE(kept(1).contains("setting"));
  const Ran turned = book.run("add", "--date 2026-01-30" + swing + at_none);
  CHECK(turned.code == 0);
  CHECK(kept(2)["setting"]["name"] == "0");
  CHECK(book.run("edit", "--session 1 --loft 10.5deg").code == 0);  // the same loft, and nothing of a sleeve
  CHECK(kept(0) == club);

  // The pupil's file puts a setting in, and with it its driver and nothing else; what is typed beside it is the driver.
  Json before = book.json("list")["sessions"][0];
  before["club"] = book.json("list")["sessions"][2]["club"];
  CHECK(book.run("edit", "--session 1 --pupil " + at_none).code == 0);
  CHECK(book.json("list")["sessions"][0] == before);
  const Ran typed = book.run("edit", "--session 1 --loft 12deg --pupil " + at_one);
  CHECK(on_one_line(typed.err).find("--loft is 12 deg, the pupil's file says 10.5 deg: 12 deg is kept") !=
        std::string::npos);
  CHECK(kept(0) == Json{{"loft_deg", 12}, {"head", "modern-driver"}});
  const Ran both = book.run("edit", "--session 1 --clear loft --pupil " + at_one);
  CHECK(both.code == 2);
  CHECK(both.err.find("--clear loft: it is given a new value too") != std::string::npos);
  CHECK(kept(0) == Json{{"loft_deg", 12}, {"head", "modern-driver"}});
  const std::string left =
      book.folder.write("left.json", R"({"handed": "left", )" + begin.substr(1) + "0\"}}").string();
  CHECK(book.run("edit", "--session 1 --pupil " + left).code == 3);
}

TEST_CASE("advice on a book is advice on the pupil's file that says the same, and JSON says what came from where") {
  const OneBook book;
  REQUIRE(book.add("--date 2026-01-10 --loft 10.5deg --path 1deg --handed left --turf firm --name Marlow").code == 0);
  const std::string file =
      book.folder
          .write("same.json",
                 R"({"format": "loftwright-pupil/1", "name": "Marlow", "handed": "left", "club": {"loft_deg": 10.5},
 "delivery": {"club_speed_mps": 36.65728, "attack_deg": -4, "dynamic_loft_deg": 10, "path_deg": 1}, "conditions": {"turf": "firm"}})")
          .string();
  Json from_book = parsed<Json>(run_line("advise --book " + book.file + " --draws 256 --json").out);
  Json from_file = parsed<Json>(run_line("advise " + file + " --draws 256 --json").out);
  CHECK(from_book["taken"]["book"] == book.file);
  CHECK(from_book["taken"]["session"] == 1);
  CHECK(from_book["taken"]["pupil_file"] == nullptr);
  CHECK(from_book["taken"]["from"]["delivery"] == "session");
  CHECK(from_book["taken"]["from"]["scatter"] == "usual");
  CHECK(from_book["taken"]["from"]["handed"] == "book");
  from_book.erase("taken");
  for (Json* answer : {&from_book, &from_file}) answer->erase("assumed");
  CHECK(from_book == from_file);
}
