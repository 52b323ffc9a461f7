// What a document shows of the program is what the program prints.
#include <catch2/catch.hpp>
#include <cstdlib>

#include "process.hpp"

using namespace loftwright::test;

namespace {

// A console block with the output of each of its commands, all run in `where`.
std::string run_again(const std::string& block, const std::filesystem::path& where) {
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
  }
  return out;
}

// The document with the output of every console block as it is today.
std::string with_output(const std::string& document, const std::filesystem::path& where) {
  constexpr std::string_view kBegin = "```console\n", kEnd = "```\n";
  std::string out;
  std::size_t from = 0;
  for (std::size_t at; (at = document.find(kBegin, from)) != std::string::npos;) {
    at += kBegin.size();
    const std::size_t end = document.find(kEnd, at);
    REQUIRE(end != std::string::npos);
    out += document.substr(from, at - from) + run_again(document.substr(at, end - at), where);
    from = end;
  }
  return out + document.substr(from);
}

}  // namespace

TEST_CASE("documents show what the program prints") {
  for (const char* name : {"docs/book.md", "docs/shot-lists.md", "docs/tune.md"}) {
    const std::filesystem::path path = std::filesystem::path(LOFTWRIGHT_SOURCE_DIR) / name;
    const ScratchFolder folder;
    std::filesystem::copy(LOFTWRIGHT_SOURCE_DIR "/data", folder.path() / "data",
                          std::filesystem::copy_options::recursive);
    const std::string document = file_contents(path), now = with_output(document, folder.path());
    CHECK(document.find("\n$ loftwright ") != std::string::npos);
    if (std::getenv("LOFTWRIGHT_APPROVE")) std::ofstream(path, std::ios::binary) << now;
    INFO(path << " is not what the program prints; if the change is meant, run the test with LOFTWRIGHT_APPROVE=1");
    CHECK((std::getenv("LOFTWRIGHT_APPROVE") || document == now));
  }
}
