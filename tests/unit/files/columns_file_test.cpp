#include "loftwright/files/columns_file.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "findings.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/files/check_file.hpp"
#include "loftwright/files/pupil_file.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// One mistake put into a small good file must be told, at its place.
void check_told(const std::string& members, const std::string& place, const std::string& message) {
  const std::string text = R"({"format": "loftwright-columns/1", )" + members + "}";
  Findings findings;
  CHECK_FALSE(read_columns(text, findings));
  INFO(text << "\n" << told(findings));
  CHECK(tells(findings, Severity::error, place, message));
}

}  // namespace

TEST_CASE("the program's own words are read, for every reading", "[shots]") {
  const ColumnMap map = built_in_columns();
  for (const ReadingInfo& r : readings()) {
    INFO(r.key);
    CHECK_FALSE(map.readings[r.reading].heads.empty());
  }
  const ReadingWords& side = map.readings[Reading::side];
  CHECK(side.plus == std::vector<std::string>{"right", "r"});
  CHECK(side.minus == std::vector<std::string>{"left", "l"});
  CHECK_FALSE(side.unit_if_missing);
  CHECK(map.readings[Reading::attack].unit_if_missing == &unit("deg"));
  CHECK(map.label.front() == "shot");
  CHECK_FALSE(map.club.empty());
  CHECK_FALSE(map.date.empty());
  CHECK_FALSE(map.missing.empty());
  CHECK_FALSE(map.summary.empty());
}

TEST_CASE("words are folded, a file may hold few", "[shots]") {
  Findings findings;
  const auto map = read_columns(
      R"({"format": "loftwright-columns/1", "readings": {"carry": {"heads": ["Flug_Weite", "CARRY-m."]}}})", findings);
  REQUIRE(map);
  CHECK(findings.empty());
  CHECK(map->readings[Reading::carry].heads == std::vector<std::string>{"flug weite", "carry m"});
  CHECK(map->readings[Reading::total].heads.empty());
}

TEST_CASE("every mistake in a file of words is told", "[shots]") {
  const std::string list = "a list of 1 to 100 words is expected",
                    word = "a word of 1 to 100 letters in double quotes is expected";
  check_told(R"("label": ["x"])", "", "readings is missing");
  check_told(R"("readings": {"carry": {}})", "/readings/carry", "heads is missing");
  check_told(R"("readings": {"carry": {"heads": []}})", "/readings/carry/heads", list);
  check_told(R"("readings": {"carry": {"heads": "carry"}})", "/readings/carry/heads", list);
  check_told(R"("readings": {"carry": {"heads": ["carry", 3]}})", "/readings/carry/heads/1", word);
  check_told(R"("readings": {"carry": {"heads": ["-"]}})", "/readings/carry/heads/0", word);
  check_told(R"("readings": {"carry": {"heads": [")" + std::string(101, 'x') + R"("]}})", "/readings/carry/heads/0",
             word);
  check_told(R"("readings": {"carry": {"heads": ["carry"], "unit": "mph"}})", "/readings/carry/unit",
             "\"mph\" is no unit of length");
  check_told(R"("readings": {"carry": {"heads": ["carry"], "unit": "ells"}})", "/readings/carry/unit",
             "\"ells\" is no unit of length");
  check_told(R"("readings": {"side": {"heads": ["side"], "plus": ["R"], "minus": ["L", "r"]}})", "/readings/side/minus",
             "\"r\" stands for both signs");
  check_told(R"("readings": {"carry": {"heads": ["far"]}, "total": {"heads": ["F a r"]}})", "/readings/total/heads",
             "\"far\" stands for carry already");
  check_told(R"("readings": {"carry": {"heads": ["far"], "second": ["Far"]}})", "/readings/carry/second",
             "\"far\" stands for carry already");
  check_told(R"("readings": {"carry": {"reversed": ["far"]}, "total": {"heads": ["far"]}})", "/readings/total/heads",
             "\"far\" stands for carry already");
  check_told(R"("readings": {"cary": {"heads": ["carry"]}})", "/readings/cary",
             "unknown key \"cary\"; the nearest known key is \"carry\"");

  Findings findings;
  CHECK_FALSE(read_columns(R"({"format": "loftwright-columns/9", "readings": {}})", findings));
  CHECK(findings.at(0).message.find("newer than this program can read") != std::string::npos);
  findings.clear();
  CHECK_FALSE(read_columns(R"({"format": "loftwright-columns/1", "readings": {},})", findings));
  CHECK(findings.at(0).place.find("line 1") != std::string::npos);
}

TEST_CASE("files of words are loaded, and checked like any other", "[shots]") {
  const ScratchFolder folder;
  const auto good = folder.write("words.json", std::string(Catalogue::built_in("shots/columns.json")));
  CHECK(load_columns(good).label == built_in_columns().label);
  CHECK(check_file(good, Catalogue()).empty());
  const auto bad = folder.write("bad.json", R"({"format": "loftwright-columns/1", "readings": 3})");
  CHECK_THROWS_AS(load_columns(bad), FileError);
  CHECK(has_errors(check_file(bad, Catalogue())));
  CHECK_THROWS_AS(load_columns(folder.path() / "none.json"), InputError);
}
