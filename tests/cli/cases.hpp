// What cases.json says, for whoever runs its command lines.
//     args: a line, or a list of words; @ is the case's own folder, which holds its `files`
//     pupil: changes (a merge patch, RFC 7386) to the demonstration pupil, written to pupil.json in that folder
//     process: true runs the real program instead of run() in-process
#pragma once

#include <catch2/catch.hpp>
#include <map>
#include <nlohmann/json.hpp>

#include "folders.hpp"
#include "json.hpp"
#include "process.hpp"

namespace loftwright::test {

inline Json command_cases() { return parsed<Json>(file_contents(LOFTWRIGHT_SOURCE_DIR "/tests/cli/cases.json")); }

inline std::string with_folder(std::string text, const std::string& folder) {
  for (std::size_t at; (at = text.find('@')) != std::string::npos;) text.replace(at, 1, folder);
  return text;
}

inline std::vector<std::string> args_of(const Json& one, const std::string& folder) {
  const Json& args = one.at("args");
  std::vector<std::string> out = args.is_array() ? args.get<std::vector<std::string>>() : words_of(args);
  for (std::string& word : out) word = with_folder(word, folder);
  return out;
}

inline std::string text_of(const Json& content) {
  return content.is_string() ? content.get<std::string>() : content.dump(2);
}

inline std::string input_of(const Json& one) { return one.contains("stdin") ? text_of(one["stdin"]) : ""; }

// By their names within the case's folder.
inline std::map<std::string, std::string> files_of(const Json& one) {
  std::map<std::string, std::string> out;
  const Json files = one.value("files", Json::object());
  for (const auto& [name, content] : files.items()) out[name] = text_of(content);
  if (one.contains("pupil")) {
    Json pupil = parsed<Json>(file_contents(LOFTWRIGHT_SOURCE_DIR "/data/pupils/demo.json"));
    pupil.merge_patch(one["pupil"]);
    out["pupil.json"] = pupil.dump(2);
  }
  return out;
}

inline void check_holds(const std::string& text, const Json& one, const char* key, const std::string& folder) {
  for (const std::string part : one.value(key, Json::array())) {
    INFO(key << " must hold: " << part);
    CHECK(on_one_line(text).find(on_one_line(with_folder(part, folder))) != std::string::npos);
  }
}

inline void check_does(const Ran& ran, const Json& one, const std::string& folder) {
  INFO("case: " << one.at("args").dump() << "\n--- out\n" << ran.out << "--- err\n" << ran.err << "---");
  CHECK(ran.code == one.at("exit"));
  check_holds(ran.out, one, "out", folder);
  check_holds(ran.err, one, "err", folder);
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

}  // namespace loftwright::test
