// The version stands once, in CMakeLists.txt. The Debian package and the configuration of CMake are held to it in
// tests/install.
#include <catch2/catch.hpp>
#include <regex>

#include "folders.hpp"
#include "process.hpp"

using namespace loftwright::test;

TEST_CASE("everything that says the version says the same") {
  const auto first = [](const std::string& text, const char* pattern) {
    std::smatch found;
    return std::regex_search(text, found, std::regex(pattern)) ? found[1].str() : "none";
  };
  const std::filesystem::path source = LOFTWRIGHT_SOURCE_DIR;
  const ScratchFolder folder;
  const Ran added = run_process({"book", "add", "book.json", "--date", "2026-01-10", "--club-speed", "82mph",
                                 "--attack", "0deg", "--dynamic-loft", "12deg"},
                                "", "", "", folder.path());
  REQUIRE(added.code == 0);
  REQUIRE(run_process({"demo", "--draws", "0", "--html", "page.html"}, "", "", "", folder.path()).code == 0);
  const std::string version = first(file_contents(source / "CMakeLists.txt"), "project\\(loftwright VERSION ([0-9.]+)");
  CHECK(run_process({"--version"}).out == fmt::format("loftwright {}\n", version));
  CHECK(first(file_contents(LOFTWRIGHT_BINARY_DIR "/cli/manual/loftwright.1"),
              "^\\.TH LOFTWRIGHT 1 \"\" \"loftwright ([0-9.]+)\"") == version);
  CHECK(first(file_contents(source / "docs/CHANGES.md"), "\n## ([0-9.]+)") == version);
  CHECK(first(file_contents(folder.path() / "page.html"), "Made by loftwright ([0-9]+\\.[0-9]+\\.[0-9]+)") == version);
  CHECK(first(file_contents(folder.path() / "book.json"), "\"program\": \"([0-9.]+)\"") == version);
}
