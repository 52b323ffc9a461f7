// The "tuned" block of a pupil's file: read, written, and put into a file that loses nothing.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "findings.hpp"
#include "json.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/report/words.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;
using nlohmann::ordered_json;

namespace {

Tuning some_tuning() {
  Tuning t{};
  t.value = {0.8213, -0.1712, 1.0231, 0.9502, 1.0, 1.0, 1.0, 1.0};
  t.sd = {0.0083, 0.0411, 0.0201, 0.0302, 0.1168, 0.5, 0.2, 0.35};
  t.correlations = {{0, 1, 0.02}, {0, 2, 0.001}, {2, 3, 0.4567}};
  t.shots = 24;
  return t;
}

const std::string kFile = R"({"format": "loftwright-pupil/1", "club": {"loft_deg": 9.5},
  "delivery": {"club_speed_mph":   80, "attack_deg": -4.0, "dynamic_loft_deg": 1e1}
}
)";

struct Read {
  std::optional<Pupil> pupil;
  Findings findings;
};

Read read(const std::string& text) {
  Read r;
  r.pupil = read_pupil(text, ".", Catalogue(), r.findings);
  return r;
}

// The file with a tuned block, a member of it changed; null: left out.
Read read_with(const char* key, const ordered_json& value) {
  ordered_json pupil = parsed<ordered_json>(with_tuned(kFile, some_tuning()));
  if (value.is_null()) {
    pupil["tuned"].erase(key);
  } else {
    pupil["tuned"][key] = value;
  }
  return read(pupil.dump());
}

void check_same(const Tuning& read, const Tuning& written) {
  CHECK(read.value == written.value);
  CHECK(read.sd == written.sd);
  CHECK(read.shots == written.shots);
  REQUIRE(read.correlations.size() == 2);  // the third says nothing
  CHECK(read.correlations[0].value == 0.02);
  CHECK((read.correlations[1].first == 2 && read.correlations[1].second == 3));
  CHECK(read.correlations[1].value == 0.46);
}

}  // namespace

TEST_CASE("a tuned block written is the tuning read, and the rest of the file stays as it was typed") {
  const std::string text = with_tuned(kFile, some_tuning());
  const Read r = read(text);
  INFO(text << told(r.findings));
  REQUIRE(r.pupil);
  REQUIRE(r.pupil->tuned);
  check_same(*r.pupil->tuned, some_tuning());
  const std::size_t kept = kFile.rfind('0', kFile.rfind('}')) + 2;  // up to the brace after 1e1
  CHECK(text.substr(0, kept - 1) == kFile.substr(0, kept - 1));
  CHECK(text.ends_with("\n}\n"));
  CHECK(text.find(tuned_block(kFile, some_tuning()).substr(0, 10)) != std::string::npos);
  CHECK_FALSE(read(kFile).pupil->tuned);
}

TEST_CASE("the block can be pasted into the file as it is printed") {
  const std::string block = tuned_block(kFile, some_tuning());
  const std::string pasted = "{" + block + "," + kFile.substr(1);
  REQUIRE(read(pasted).pupil);
  check_same(*read(pasted).pupil->tuned, some_tuning());
}

TEST_CASE("a second tuning takes the place of the first") {
  Tuning later = some_tuning();
  later.value[Tunable::drag_scale] = 0.97;
  const std::string text = with_tuned(with_tuned(kFile, some_tuning()), later);
  const Read r = read(text);
  REQUIRE(r.pupil);
  CHECK(r.pupil->tuned->value[Tunable::drag_scale] == 0.97);
  CHECK(r.pupil->delivery.attack == read(kFile).pupil->delivery.attack);
}

TEST_CASE("a tuned pupil's setting is the tuned head and ball, and says so") {
  const Pupil pupil = *read(with_tuned(kFile, some_tuning())).pupil;
  const Setting setting = setting_for(pupil, Catalogue()), plain = setting_for(*read(kFile).pupil, Catalogue());
  CHECK(setting.head.restitution == 0.8213);
  CHECK(setting.head.tangential_restitution == -0.1712);
  CHECK(setting.drag_scale == 1.0231);
  CHECK(setting.lift_scale == 0.9502);
  CHECK(setting.head.mass == plain.head.mass);
  CHECK(setting.tuned == Tuned::head_and_ball);
  CHECK(plain.tuned == Tuned::nothing);
  CHECK(plain.drag_scale == 1.0);
  CHECK(plain.lift_scale == 1.0);
  CHECK_THAT(conditions_words(setting, UnitSystem::yards),
             Catch::EndsWith("Head and ball tuned to the player's shots."));
  CHECK_THAT(conditions_words(plain, UnitSystem::yards), !Catch::Contains("tuned"));
}

TEST_CASE("mistakes in a tuned block are said where they stand") {
  struct Case {
    const char* key;
    ordered_json value;
    const char* place;
    const char* message;
  };
  for (const Case& c : std::initializer_list<Case>{
           {"drag_scale", nullptr, "/tuned", "drag_scale is missing"},
           {"lift_scale_sd", nullptr, "/tuned", "lift_scale_sd is missing"},
           {"drag_scale", 3, "/tuned/drag_scale", "3 is out of range; allowed: 0.5 to 2"},
           {"restitution", 1.2, "/tuned/restitution", "1.2 is out of range; allowed: 0.5 to 0.9"},
           {"lift_scale_sd", -0.1, "/tuned/lift_scale_sd", "-0.1 is out of range; allowed: 0 to 1"},
           {"lift", 1, "/tuned/lift", "unknown key"},
           {"ball", "linear", "/tuned/ball",
            "was tuned with \"linear\", but the file's ball is \"reference\": tune again, or take \"tuned\" out"},
           {"head", "old", "/tuned/head", "was tuned with \"old\", but the file's head is \"modern-driver\""},
           {"correlations", ordered_json::array({{{"between", {"drag_scale", "lift"}}, {"value", 0.5}}}),
            "/tuned/correlations/0/between/1",
            "is none of restitution, tangential_restitution, drag_scale, lift_scale, tilt_scale, tilt_speed_scale, "
            "bounce_scale and rolling_scale"}}) {
    const Read r = read_with(c.key, c.value);
    INFO(c.place << ": " << c.message << "\n" << told(r.findings));
    CHECK_FALSE(r.pupil);
    CHECK(std::any_of(r.findings.begin(), r.findings.end(), [&](const Finding& f) {
      return f.severity == Severity::error && f.place == c.place && f.message.find(c.message) != std::string::npos;
    }));
  }
}

TEST_CASE("a head given in numbers is not named in the block") {
  const std::string own = R"({"format": "loftwright-pupil/1", "club": {"loft_deg": 9.5, "head": {"mass_g": 200}},
  "delivery": {"club_speed_mph": 80, "attack_deg": -4, "dynamic_loft_deg": 10}, "ball": "linear"})";
  const std::string text = with_tuned(own, some_tuning());
  const Read r = read(text);
  INFO(text << told(r.findings));
  REQUIRE(r.pupil);
  CHECK_FALSE(parsed<ordered_json>(text)["tuned"].contains("head"));
  CHECK(parsed<ordered_json>(text)["tuned"]["ball"] == "linear");
}

TEST_CASE("a text is written whole over a file that was there") {
  const ScratchFolder folder;
  const auto file = folder.write("pupil.json", "old");
  write_text(file, "new", file);
  CHECK(read_text(file) == "new");
  write_text(folder.path() / "other.json", "fresh", file);
  CHECK(read_text(folder.path() / "other.json") == "fresh");
  CHECK_FALSE(std::filesystem::exists(file.string() + ".new"));
  CHECK_THROWS_WITH(write_text(folder.path() / "no" / "such.json", "x", file), Catch::Contains("could not be written"));
}

TEST_CASE("what is no pupil's file gets no block") {
  CHECK_THROWS_AS(with_tuned("{", some_tuning()), FileError);
  CHECK_THROWS_AS(tuned_block(R"({"format": "loftwright-ball/1"})", some_tuning()), FileError);
}
