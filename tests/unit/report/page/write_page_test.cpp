#include "loftwright/report/pages.hpp"

#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <thread>

#include "loftwright/core/error.hpp"
#include "scratch_folder.hpp"

using namespace loftwright;
using namespace loftwright::test;
namespace fs = std::filesystem;

namespace {

std::string text_at(const fs::path& file) {
  std::ostringstream out;
  out << std::ifstream(file, std::ios::binary).rdbuf();
  return out.str();
}

}  // namespace

TEST_CASE("a page is written whole, over an old one, and leaves nothing beside it", "[page]") {
  const ScratchFolder folder;
  const fs::path file = folder.path() / "a page.html";
  write_page(file, "one");
  write_page(file, "two");
  CHECK(text_at(file) == "two");
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()) == 1);
}

TEST_CASE("through a link the page itself is replaced", "[page]") {
  const ScratchFolder folder;
  const fs::path page = folder.write("pages/real.html", "old"), link = folder.path() / "link.html";
  fs::create_symlink(page, link);
  write_page(link, "new");
  CHECK(fs::is_symlink(link));
  CHECK(text_at(page) == "new");
}

TEST_CASE("what stands beside a page, link, pipe or file, is neither written through nor waited for nor lost",
          "[page]") {
  const ScratchFolder folder;
  const fs::path page = folder.path() / "p.html", beside = folder.path() / "p.html.new",
                 other = folder.write("other", "text");
  fs::create_symlink(other, beside);
  write_page(page, "one");
  CHECK(fs::is_symlink(beside));
  CHECK(text_at(other) == "text");
  fs::remove(beside);
  REQUIRE(mkfifo(beside.c_str(), 0600) == 0);
  write_page(page, "two");
  CHECK(fs::is_fifo(beside));
  fs::remove(beside);
  folder.write("p.html.new", "mine");
  write_page(page, "three");
  CHECK(text_at(page) == "three");
  CHECK(text_at(beside) == "mine");
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()) == 3);
}

TEST_CASE("two writers of one page leave the page of one of them, whole", "[page]") {
  const ScratchFolder folder;
  const fs::path page = folder.path() / "p.html";
  const std::string texts[] = {std::string(3'000'000, 'a'), std::string(2'000'000, 'b')};
  for (int round = 0; round < 20; ++round) {
    std::thread other([&] { write_page(page, texts[0]); });
    write_page(page, texts[1]);
    other.join();
    const std::string seen = text_at(page);
    CHECK((seen == texts[0] || seen == texts[1]));
  }
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()) == 1);
}

TEST_CASE("a read-only page, a link to nothing, a link to itself and a name too long are refused", "[page]") {
  using Catch::Matchers::Contains;
  const ScratchFolder folder;
  const fs::path page = folder.write("p.html", "old"), link = folder.path() / "link.html",
                 loop = folder.path() / "loop.html";
  chmod(page.c_str(), 0444);
  CHECK_THROWS_AS(write_page(page, "new"), InputError);
  CHECK_THROWS_WITH(write_page(page, "new"), Contains("is read-only"));
  CHECK(text_at(page) == "old");
  fs::create_symlink(folder.path() / "drive" / "p.html", link);
  CHECK_THROWS_WITH(write_page(link, "new"), Contains("cannot be reached"));
  fs::create_symlink(loop, loop);
  CHECK_THROWS_WITH(write_page(loop, "new"), Contains("cannot be reached"));
  CHECK_THROWS_AS(write_page(loop / "p.html", "new"), InputError);
  CHECK_THROWS_AS(write_page(folder.path() / (std::string(300, 'a') + ".html"), "new"), InputError);
  const fs::path longest = folder.path() / (std::string(250, 'a') + ".html");
  write_page(longest, "new");
  CHECK(text_at(longest) == "new");
}

TEST_CASE("names that would lose something, and places that are none", "[page]") {
  using Catch::Matchers::Contains;
  const ScratchFolder folder;
  const fs::path pupil = folder.write("pupil.json", "{}");
  CHECK_THROWS_WITH(write_page(pupil, "page"), Contains("must end in .html"));
  CHECK(text_at(pupil) == "{}");
  CHECK_THROWS_WITH(write_page("-", "page"), Contains("must end in .html"));
  CHECK_THROWS_WITH(write_page(folder.path() / "no" / "page.html", "page"), Contains("there is no folder"));
  fs::create_directory(folder.path() / "folder.html");
  CHECK_THROWS_WITH(write_page(folder.path() / "folder.html", "page"), Contains("not a plain file"));
}
