#include <catch2/catch.hpp>
#include <filesystem>

#include "loftwright/core/error.hpp"
#include "loftwright/report/pages.hpp"
#include "scratch_folder.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("no two pages of a clinic have one name, nor the summary's") {
  const std::vector<std::string> files{"Abel.json", "abel.JSON", "abel.json", "index.json", "INDEX.json", "a b.json"};
  CHECK(clinic_page_names(files) == std::vector<std::string>{"Abel.html", "abel-2.html", "abel-3.html", "index-2.html",
                                                             "INDEX-3.html", "a b.html"});
  CHECK(clinic_page_names({}).empty());
  CHECK(clinic_page_names({"a.json", "a-2.json", "A.json"}) ==
        std::vector<std::string>{"a.html", "a-2.html", "A-3.html"});
}

TEST_CASE("a folder for pages is made, and what is not ours in it is not written over") {
  const ScratchFolder folder;
  const auto pages = folder.path() / "pages";
  prepare_page_folder(pages, {"a.html"});
  CHECK(std::filesystem::is_directory(pages));
  folder.write("pages/a.html", "<html><head><meta name=\"generator\" content=\"loftwright 0.1.0\"></head></html>");
  folder.write("pages/mine.html", "<html>");
  CHECK_NOTHROW(prepare_page_folder(pages, {"a.html", "b.html"}));
  CHECK_THROWS_WITH(prepare_page_folder(pages, {"a.html", "mine.html"}), Catch::Contains("no page of ours"));
  CHECK_THROWS_AS(prepare_page_folder(folder.path() / "none/pages", {}), InputError);
  CHECK_THROWS_AS(prepare_page_folder(pages / "a.html", {}), InputError);
}
