// What a pupil's page says and what it must not: pictures and layout are tested in a browser.
#include "loftwright/report/pages.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "json.hpp"
#include "loftwright/files/pupil_file.hpp"

using namespace loftwright;
using nlohmann::json;

namespace {

std::string page_of(const json& document) {
  Findings findings;
  const std::string text = document.dump(2);
  const std::optional<Pupil> pupil = read_pupil(text, {}, Catalogue(), findings);
  REQUIRE(pupil);
  const Setting setting = setting_for(*pupil, Catalogue());
  AdviseOptions options;
  options.draws = 512;
  options.shots = 16;
  return advice_page(advise(*pupil, setting, options), *pupil, setting, Catalogue(), UnitSystem::yards, text);
}

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

}  // namespace

TEST_CASE("the coach's notes are nowhere on the page, the pupil's text is", "[page]") {
  json document = test::parsed<json>(Catalogue::built_in("pupils/demo.json"));
  document["notes"] = "QUIET & mind the \"left\" knee";
  document["for_pupil"] = "Ten slow swings <a day> & rest";
  const std::string page = page_of(document);
  for (const char* part : {"QUIET", "knee", "Notes:"}) {
    INFO(part);
    CHECK(times(page, part) == 0);
  }
  CHECK(times(page, "Ten slow swings &lt;a day&gt; &amp; rest") >= 1);
  CHECK(times(page, "<p class=\"for-pupil\">") == 1);
  // The page can be made again from what stands in it: all but the notes.
  CHECK(times(page, "&quot;for_pupil&quot;") + times(page, "\"for_pupil\"") >= 1);

  document.erase("for_pupil");
  document.erase("notes");
  const std::string plain = page_of(document);
  CHECK(times(plain, "<p class=\"for-pupil\">") == 0);
}

TEST_CASE("the page's big numbers are named as the average drive's, the flights as well struck", "[page]") {
  const std::string page = page_of(test::parsed<json>(Catalogue::built_in("pupils/demo.json")));
  CHECK(times(page, "average carry now") == 1);
  CHECK(times(page, "Your drives from the side, well struck") >= 1);
  CHECK(times(page, "What each change adds to the average drive") >= 1);
}

TEST_CASE("the fairway that is drawn is the pupil's, and the scatter is said to be whose it is", "[page]") {
  json document = test::parsed<json>(Catalogue::built_in("pupils/demo.json"));
  document["fairway_yd"] = 50;
  document["spread"] = {{"club_speed_mph", 2}};
  const std::string own = page_of(document);
  CHECK(times(own, ">fairway 50 yd<") == 1);
  CHECK(times(own, "eight drives in ten, by your own scatter;") == 1);
  document.erase("fairway_yd");
  document.erase("spread");
  const std::string usual = page_of(document);
  CHECK(times(usual, ">fairway 35 yd<") == 1);
  CHECK(times(usual, "eight drives in ten, by the scatter usual for your skill;") == 1);
}
