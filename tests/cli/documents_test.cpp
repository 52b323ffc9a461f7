// What a document shows of the program is what the program prints, and what it names is there.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <map>
#include <regex>

#include "folders.hpp"
#include "process.hpp"

using namespace loftwright::test;

namespace {

const std::filesystem::path kSource = LOFTWRIGHT_SOURCE_DIR;

std::vector<std::filesystem::path> documents() {
  std::vector<std::filesystem::path> out{kSource / "README.md", kSource / "DEVELOPERS.md", kSource / "data/README.md"};
  for (const auto& entry : std::filesystem::recursive_directory_iterator(kSource / "docs")) {
    if (entry.path().extension() == ".md") out.push_back(entry.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

// A folder of its own with a copy of the data, where a document's commands may write.
struct Shelf : ScratchFolder {
  Shelf() { std::filesystem::copy(kSource / "data", path() / "data", std::filesystem::copy_options::recursive); }
};

// A console block with the output of each of its commands, all run in `where` and counted.
std::string run_again(const std::string& block, const std::filesystem::path& where, std::size_t& count) {
  std::istringstream lines(block);
  std::string out;
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("$ loftwright ")) continue;  // output of before
    std::string typed = line;
    while (line.ends_with('\\') && std::getline(lines, line)) typed += "\n" + line;
    out += typed + "\n";
    typed.erase(0, std::string_view("$ loftwright ").size());
    for (std::size_t at; (at = typed.find("\\\n")) != std::string::npos;) typed.replace(at, 2, "");
    const Ran ran = run_process(words_of(typed), "", "", "", where);
    INFO(typed);
    CHECK(ran.code <= 1);  // 1: computed, and the answer is no
    out += ran.err + ran.out;
    ++count;
  }
  return out;
}

// Every match of a pattern's first group.
std::vector<std::string> found_in(const std::string& text, const char* pattern) {
  const std::regex regex(pattern);
  std::vector<std::string> out;
  for (std::sregex_iterator at(text.begin(), text.end(), regex), end; at != end; ++at) out.push_back((*at)[1]);
  return out;
}

// The document with the output of every console block as it is today.
std::string with_output(const std::string& document, const std::filesystem::path& where, std::size_t& count) {
  constexpr std::string_view kBegin = "```console\n", kEnd = "```\n";
  std::string out;
  std::size_t from = 0;
  for (std::size_t at; (at = document.find(kBegin, from)) != std::string::npos;) {
    at += kBegin.size();
    const std::size_t end = document.find(kEnd, at);
    REQUIRE(end != std::string::npos);
    out += document.substr(from, at - from) + run_again(document.substr(at, end - at), where, count);
    from = end;
  }
  return out + document.substr(from);
}

// A command within a sentence. Words that stand for the reader's own are given something to stand for; a command that
// is only named is asked for its help.
void run_named(std::string typed, const std::filesystem::path& where) {
  std::replace(typed.begin(), typed.end(), '\n', ' ');
  static const std::map<std::string, std::string> kStandIns{{"COMMAND", "demo"},
                                                            {"[OPTIONS]", "--quiet"},
                                                            {"FILE", "data/pupils/demo.json"},
                                                            {"FOLDER", "data/clinic"},
                                                            {"PUPIL.json", "data/pupils/demo.json"},
                                                            {"LIST.csv", "data/shots/tuning.csv"},
                                                            {"HEADS.csv", "data/academy/ivo-heads.csv"},
                                                            {"BEFORE.csv", "data/academy/tamsin-before.csv"},
                                                            {"AFTER.csv", "data/academy/tamsin-after.csv"},
                                                            {"BOOK.json", "data/books/demo.json"}};
  std::vector<std::string> args = words_of(typed.substr(0, typed.find(" > ")));
  for (std::string& arg : args) {
    if (const auto at = kStandIns.find(arg); at != kStandIns.end()) arg = at->second;
  }
  if (typed.find_first_of("-.") == std::string::npos) args.emplace_back("--help");
  const Ran ran = run_process(args, "", "", "", where);
  INFO("loftwright " << typed << "\n" << ran.err);
  CHECK(ran.code <= 1);
}

}  // namespace

TEST_CASE("documents show what the program prints") {
  const bool approve = std::getenv("LOFTWRIGHT_APPROVE");
  int with_blocks = 0, named = 0;
  for (const std::filesystem::path& path : documents()) {
    INFO(path << " is not what the program prints; if the change is meant, run the test with LOFTWRIGHT_APPROVE=1");
    const Shelf shelf;
    std::size_t run = 0;
    const std::string document = file_contents(path), now = with_output(document, shelf.path(), run);
    if (approve) std::ofstream(path, std::ios::binary) << now;
    CHECK((approve || document == now));
    CHECK(run == found_in(document, "(?:^|\n)(\\$ )").size());  // none stands where it would not be run
    with_blocks += run > 0;
    for (const std::string& typed : found_in(document, "`loftwright ([^`]*)`")) {
      run_named(typed, shelf.path());
      ++named;
    }
    for (const std::string& file : found_in(document, "```json\n(\\{[^`]*)```")) {
      const Ran ran = run_process({"check", shelf.write("shown.json", file).string()});
      INFO(file << ran.out);
      CHECK(ran.code == 0);
    }
  }
  CHECK(with_blocks >= 4);
  CHECK(named >= 20);
}

// "From `loftwright COMMAND`", and a block of text below it: a part of what the command prints.
TEST_CASE("what a document quotes of an answer stands in the answer") {
  int quoted = 0;
  for (const std::filesystem::path& path : documents()) {
    const std::string document = file_contents(path);
    const std::regex quote("From `loftwright ([^`]*)`[^\n]*\n\n```text\n([^`]*)```");
    for (std::sregex_iterator at(document.begin(), document.end(), quote), end; at != end; ++at) {
      const Shelf shelf;
      const std::string typed = (*at)[1], text = (*at)[2];
      const Ran ran = run_process(words_of(typed), "", "", "", shelf.path());
      INFO(path << ": loftwright " << typed << " prints\n" << ran.out << "quoted:\n" << text);
      CHECK(ran.out.find(text) != std::string::npos);
      ++quoted;
    }
  }
  CHECK(quoted >= 2);
}

TEST_CASE("links in documents lead somewhere") {
  for (const std::filesystem::path& path : documents()) {
    for (const std::string& link : found_in(file_contents(path), "\\]\\(([^)#]+)[^)]*\\)")) {
      INFO(path << ": " << link);
      CHECK(std::filesystem::exists(path.parent_path() / link));
    }
  }
}
