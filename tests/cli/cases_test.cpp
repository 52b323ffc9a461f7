// Command lines from cases.json: what is typed, the exit code, what must stand on either stream.
//     args: a line, or a list of words; @ is the case's own folder, which holds its `files`
//     pupil: changes (a merge patch, RFC 7386) to the demonstration pupil, written to pupil.json in that folder
//     process: true runs the real program instead of run() in-process
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "process.hpp"
#include "run.hpp"

using namespace loftwright::test;
using Json = nlohmann::ordered_json;

namespace {

std::string with_folder(std::string text, const std::string& folder) {
  for (std::size_t at; (at = text.find('@')) != std::string::npos;) text.replace(at, 1, folder);
  return text;
}

std::vector<std::string> args_of(const Json& args, const std::string& folder) {
  std::vector<std::string> out;
  if (args.is_array()) {
    for (const std::string word : args) out.push_back(with_folder(word, folder));
    return out;
  }
  for (const std::string& word : words_of(args)) out.push_back(with_folder(word, folder));
  return out;
}

std::string file_text(const Json& content) { return content.is_string() ? content.get<std::string>() : content.dump(2); }

// Line ends and columns of blanks as single spaces: where a line breaks is not what these cases are about.
std::string on_one_line(const std::string& text) {
  std::istringstream words(text);
  std::string out;
  for (std::string word; words >> word;) out += (out.empty() ? "" : " ") + word;
  return out;
}

void check_holds(const std::string& text, const Json& one_case, const char* key, const std::string& folder) {
  for (const std::string part : one_case.value(key, Json::array())) {
    INFO(key << " must hold: " << part);
    CHECK(on_one_line(text).find(on_one_line(with_folder(part, folder))) != std::string::npos);
  }
}

}  // namespace

TEST_CASE("command lines do what cases.json says") {
  std::ifstream file(LOFTWRIGHT_SOURCE_DIR "/tests/cli/cases.json");
  const Json cases = Json::parse(file);
  REQUIRE(cases.size() > 40);
  const Json demo = Json::parse(file_contents(LOFTWRIGHT_SOURCE_DIR "/data/pupils/demo.json"));
  for (const Json& one : cases) {
    const ScratchFolder folder;
    const std::string at = folder.path().string();
    const Json files = one.value("files", Json::object());
    for (const auto& [name, content] : files.items()) folder.write(name, file_text(content));
    if (one.contains("pupil")) {
      Json pupil = demo;
      pupil.merge_patch(one["pupil"]);
      folder.write("pupil.json", pupil.dump(2));
    }
    const std::vector<std::string> args = args_of(one.at("args"), at);
    const std::string input = one.contains("stdin") ? file_text(one["stdin"]) : "";
    const Ran ran = one.value("process", false) ? run_process(args, input) : run_args(args, input);
    INFO("case: " << one.at("args").dump() << "\n--- out\n" << ran.out << "--- err\n" << ran.err << "---");
    CHECK(ran.code == one.at("exit"));
    check_holds(ran.out, one, "out", at);
    check_holds(ran.err, one, "err", at);
    for (const std::string part : one.value("never", Json::array())) {
      INFO("must not stand anywhere: " << part);
      CHECK((ran.out + ran.err).find(part) == std::string::npos);
    }
    // What holds for every line: errors say something and print no answer; nothing is ever not a number.
    if (ran.code == 2 || ran.code == 4) CHECK(ran.out.empty());
    if (ran.code == 2 || ran.code == 4) CHECK(ran.err.starts_with("loftwright"));
    for (const char* never : {"nan", "inf ", "-0 ", "-0.0 "}) {
      INFO("in the answer: " << never);
      CHECK(ran.out.find(never) == std::string::npos);
    }
  }
}
