// What only a process of its own can show: the environment, pipes, a full disk.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "process.hpp"

using namespace loftwright::test;

namespace {
const std::vector<std::string> kFly{"fly", "--ball-speed", "118mph", "--launch", "11deg", "--spin", "2700rpm"};
}

TEST_CASE("process and in-process write the same bytes") {
  CHECK(run_process(kFly).out == run_args(kFly).out);
  CHECK(run_process({"demo"}).out == run_args({"demo"}).out);
}

TEST_CASE("exit codes reach the shell") {
  CHECK(run_process({"--version"}).code == 0);
  CHECK(run_process({}).code == 2);
  CHECK(run_process({"fly", "--nonsense"}).code == 2);
  CHECK(run_process({"advise", "no-such-file.json"}).code == 3);
}

TEST_CASE("a full disk is reported, not swallowed") {
  const Ran ran = run_process(kFly, "", "", "/dev/full");
  CHECK(ran.code == 4);
  CHECK(ran.err.find("could not be written") != std::string::npos);
}

TEST_CASE("LOFTWRIGHT_DATA stands in for --data, and --data wins") {
  const ScratchFolder folder;
  // A turf of a kind no built-in has: nothing rolls.
  folder.write(
      "turf/bog.json",
      R"({"format": "loftwright-turf/1", "id": "bog", "title": "Bog", "source": "none", "status": "estimate", "note": "for this test only",)"
      R"( "tilt_scale": 1.2, "restitution_scale": 0.3, "friction": 0.5, "rolling": 0.9})");
  std::vector<std::string> args = kFly;
  args.insert(args.end(), {"--turf", "bog"});
  const std::string set = "LOFTWRIGHT_DATA=" + shell_quoted(folder.path().string());
  const Ran by_environment = run_process(args, "", set);
  INFO(by_environment.err);
  CHECK(by_environment.code == 0);
  CHECK(run_process(args).code == 3);
  std::vector<std::string> with_option = args;
  with_option.insert(with_option.end(), {"--data", folder.path().string()});
  CHECK(run_process(with_option).out == by_environment.out);
  CHECK(run_process(with_option, "", "LOFTWRIGHT_DATA=/nowhere").out == by_environment.out);
  CHECK(run_process(args, "", "LOFTWRIGHT_DATA=/nowhere").code == 3);
}

TEST_CASE("a pupil comes through a pipe") {
  const std::string pupil = file_contents(LOFTWRIGHT_SOURCE_DIR "/data/pupils/demo.json");
  const Ran piped = run_process({"advise", "-"}, pupil);
  CHECK(piped.code == 0);
  CHECK(piped.out == run_process({"advise", "data/pupils/demo.json"}).out);
}
