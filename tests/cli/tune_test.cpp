// Tuning from the command line: what is written, where, and what is left alone.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "folders.hpp"
#include "json.hpp"
#include "process.hpp"
#include "run.hpp"

using namespace loftwright::test;

namespace {

const std::string kShipped = LOFTWRIGHT_SOURCE_DIR "/data";

struct Tuner {
  ScratchFolder folder;
  std::string pupil = folder.write("marlow.json", file_contents(kShipped + "/pupils/demo.json")).string();
  std::string other = (folder.path() / "tuned.json").string();

  Ran tune(const std::string& more = "", const std::string& list = kShipped + "/shots/tuning.csv") const {
    return run_line("tune " + pupil + " --shots " + list + " --folds 3 --quiet " + more);
  }
};

Json json_of(const Ran& ran) {
  INFO(ran.err);
  REQUIRE(ran.code <= 1);
  return parsed<Json>(ran.out);
}

}  // namespace

TEST_CASE("a tuned copy is the file with the block that is printed, and the file itself is left alone") {
  const Tuner desk;
  const std::string before = file_contents(desk.pupil);
  const Ran ran = desk.tune("--into " + desk.other);
  INFO(ran.err);
  CHECK(ran.code == 0);
  CHECK(file_contents(desk.pupil) == before);
  const Json copy = parsed<Json>(file_contents(desk.other));
  const Json answer = json_of(desk.tune("--json"));
  CHECK(copy["tuned"] == answer["tuned"]);
  CHECK(ran.out.find("\"drag_scale\": " + copy["tuned"]["drag_scale"].dump()) != std::string::npos);
  Json without = copy;
  without.erase("tuned");
  CHECK(without == parsed<Json>(before));
}

TEST_CASE("advice on a tuned file stands on it") {
  const Tuner desk;
  REQUIRE(desk.tune("--into " + desk.other).code == 0);
  const Json plain = json_of(run_line("advise " + desk.pupil + " --json --quiet --draws 256")),
             tuned = json_of(run_line("advise " + desk.other + " --json --quiet --draws 256"));
  CHECK(plain["pupil"]["tuned"] == false);
  CHECK(tuned["pupil"]["tuned"] == true);
  const auto carry = [](const Json& advice) {
    return advice["strategies"]["as_is"]["flight"]["carry_m"].get<double>();
  };
  CHECK(carry(tuned) > carry(plain) + 3.0);  // more lift: the list was simulated so
}

TEST_CASE("a file that is there is written over only when asked") {
  const Tuner desk;
  const std::string before = file_contents(desk.pupil);
  const Ran refused = desk.tune("--into " + desk.pupil);
  CHECK(refused.code == 3);
  CHECK(refused.out.empty());
  CHECK(file_contents(desk.pupil) == before);
  CHECK(desk.tune("--into " + desk.pupil + " --overwrite").code == 0);
  const std::string once = file_contents(desk.pupil);
  CHECK(once != before);
  // Tuned again, the same shots do not count twice.
  CHECK(desk.tune("--into " + desk.pupil + " --overwrite").code == 0);
  CHECK(parsed<Json>(file_contents(desk.pupil)) == parsed<Json>(once));
}

TEST_CASE("nothing is written where it could not be read, nor when tuning does not help") {
  const Tuner desk;
  Json own = parsed<Json>(file_contents(desk.pupil));
  own["ball"] = "mine.json";
  desk.folder.write("marlow.json", own.dump());
  Json ball = parsed<Json>(file_contents(kShipped + "/balls/reference.json"));
  ball["id"] = "mine";
  desk.folder.write("mine.json", ball.dump());
  std::filesystem::create_directory(desk.folder.path() / "elsewhere");
  const std::string away = (desk.folder.path() / "elsewhere" / "tuned.json").string();
  const Ran ran = desk.tune("--into " + away);
  CHECK(ran.code == 3);
  CHECK(ran.err.find("are not found from there") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(away));
  CHECK(desk.tune("--into " + desk.other).code == 0);

  const std::string academy = kShipped + "/academy/ivo";
  const std::string none = (desk.folder.path() / "none.json").string();
  const Ran no = run_line("tune " + academy + ".json --shots " + academy + "-before.csv --quiet --into " + none);
  CHECK(no.code == 1);
  CHECK(no.err.find("was not written") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(none));
}

TEST_CASE("the answer is the same for any number of cores, and the seed moves only the split") {
  const Tuner desk;
  const Json one = json_of(desk.tune("--json --threads 1"));
  CHECK(json_of(desk.tune("--json --threads 7")) == one);
  const Json other = json_of(desk.tune("--json --seed 5"));
  CHECK(other["parameters"] == one["parameters"]);
  CHECK(other["left_out"]["tuned"] != one["left_out"]["tuned"]);
}
