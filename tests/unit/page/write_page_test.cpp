#include "loftwright/page/write_page.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

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
