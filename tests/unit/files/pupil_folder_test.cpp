#include "loftwright/files/pupil_folder.hpp"

#include <catch2/catch.hpp>
#include <filesystem>

#include "loftwright/files/check_file.hpp"
#include "scratch_folder.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

constexpr const char* kPupil =
    R"({"format": "loftwright-pupil/1", "delivery": {"club_speed_mph": 82, "attack_deg": -4, "dynamic_loft_deg": 9.5},
        "club": {"loft_deg": 9.5}})";

}  // namespace

TEST_CASE("a folder's pupils, by name, other kinds are named and left out") {
  const ScratchFolder folder;
  folder.write("b.json", kPupil);
  folder.write("a.json", kPupil);
  folder.write("Big.JSON", kPupil);
  folder.write("broken.json", "{\"format\": ");
  folder.write("newer.json", R"({"format": "loftwright-pupil/9"})");
  folder.write("nameless.json", "{}");
  folder.write("empty.json", "");
  folder.write("words.json", R"({"format": "loftwright-columns/1"})");
  folder.write("other.json", R"({"format": "geo/3"})");
  folder.write("._a.json", "\x05\x16");
  folder.write("list.csv", "1,2");
  folder.write("deeper/c.json", kPupil);
  const PupilFolder found = pupil_folder(folder.path());
  CHECK(found.files == std::vector<std::string>{"Big.JSON", "a.json", "b.json", "broken.json", "empty.json",
                                                "nameless.json", "newer.json"});
  REQUIRE(found.left_out.size() == 2);
  CHECK(found.left_out[0].file == "other.json");
  CHECK(found.left_out[0].format == "geo/3");
  CHECK(found.left_out[1].file == "words.json");

  const Catalogue catalogue;
  const Entrant entrant = entrant_of(found, 1, catalogue);
  CHECK(entrant.pupil.club_loft == Approx(9.5 * kDegree));
  CHECK(entrant.text == kPupil);
  for (const std::size_t i : {3, 4, 5, 6}) CHECK_THROWS_AS(entrant_of(found, i, catalogue), InputError);
  try {
    entrant_of(found, 5, catalogue);
  } catch (const FileError& error) {
    CHECK(has_errors(error.findings));
  }
}

TEST_CASE("a folder that is none, or has no pupil, is refused") {
  const ScratchFolder folder;
  CHECK_THROWS_WITH(pupil_folder(folder.path() / "nowhere"), Catch::Contains("there is no such folder"));
  CHECK_THROWS_WITH(pupil_folder(folder.path()), Catch::Contains("there is no pupil's file"));
  const auto file = folder.write("words.json", R"({"format": "loftwright-columns/1"})");
  CHECK_THROWS_WITH(pupil_folder(file), Catch::Contains("is no folder"));
  CHECK_THROWS_WITH(pupil_folder(folder.path()), Catch::Contains("something else"));
}

TEST_CASE("the format a text names") {
  CHECK(format_named(kPupil) == "loftwright-pupil/1");
  CHECK(format_named("{\"format\": 3}").empty());
  CHECK(format_named("[]").empty());
  CHECK(format_named("nonsense").empty());
  CHECK(format_named("").empty());
}
