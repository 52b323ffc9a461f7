// Files as texts in memory keep the promises of loftwright/core/disk.hpp, as far as there is something to promise.
#include "disk_memory.hpp"

#include <catch2/catch.hpp>

#include "core/disk.hpp"
#include "loftwright/core/error.hpp"

using namespace loftwright;
using Catch::Contains;
using desk::put_files;
using desk::written_files;

namespace {

using Names = std::vector<std::string>;

const desk::Texts kSome{{"pupil.json", "{}"},
                        {"lists/before.csv", "a,b"},
                        {"lists/spring/may.csv", "c"},
                        {"empty/", ""},
                        {"nothing.csv", ""}};

}  // namespace

TEST_CASE("in memory a name stands for a file, a folder or nothing") {
  put_files(kSome);
  for (const char* file : {"pupil.json", "./pupil.json", "lists/../pupil.json", "lists//before.csv",
                           "lists/spring/may.csv", "nothing.csv"}) {
    INFO(file);
    CHECK(kind_of(file) == FileKind::file);
    CHECK(is_there(file));
  }
  for (const char* folder : {".", "lists", "lists/", "lists/spring", "empty", "empty/", "./lists"}) {
    INFO(folder);
    CHECK(kind_of(folder) == FileKind::folder);
  }
  for (const char* nothing :
       {"", "pupil", "pupil.json/", "pupil.json/x", "list", "lists/before", "..", "../pupil.json", "/pupil.json"}) {
    INFO(nothing);
    CHECK(kind_of(nothing) == FileKind::none);
    CHECK_FALSE(is_there(nothing));
  }
}

TEST_CASE("in memory a name too long for a disk is refused as a disk refuses it") {
  put_files({});
  const std::string longest(255, 'x');
  CHECK_FALSE(is_there(longest));
  CHECK(kind_of(longest + "x") == FileKind::untold);
  CHECK_FALSE(seems_there(longest + "x"));
  CHECK_THROWS_WITH(is_there(longest + "x"), Contains("File name too long"));
}

TEST_CASE("in memory a folder lists what is in it, in order, and each name once") {
  put_files(kSome);
  CHECK(list_folder(".") == Names{"empty", "lists", "nothing.csv", "pupil.json"});
  CHECK(list_folder("lists") == Names{"before.csv", "spring"});
  CHECK(list_folder("lists", 1) == Names{"before.csv"});
  CHECK(list_folder("empty").empty());
  put_files({{"all/ivo.json", ""}, {"all/ivo/list.csv", ""}, {"all/ivo-2.json", ""}});
  CHECK(list_folder("all") == Names{"ivo", "ivo-2.json", "ivo.json"});
  put_files(kSome);
  CHECK_THROWS_AS(list_folder("none"), InputError);
  CHECK_THROWS_AS(list_folder("pupil.json"), InputError);
  make_folder("pages/");
  CHECK(kind_of("pages") == FileKind::folder);
  CHECK(list_folder("pages").empty());
  make_folder("lists");  // is there
  CHECK(list_folder("lists") == Names{"before.csv", "spring"});
  CHECK_THROWS_AS(make_folder("pupil.json"), InputError);
  CHECK_THROWS_AS(make_folder("none/pages"), InputError);
}

TEST_CASE("in memory a file is read from its beginning") {
  put_files(kSome);
  CHECK(read_file("lists/before.csv", 100) == "a,b");
  CHECK(read_file("./lists/before.csv", 2) == "a,");
  CHECK(read_file("nothing.csv", 2).empty());
  CHECK_THROWS_AS(read_file("none.csv", 2), InputError);
  CHECK_THROWS_AS(read_file("lists", 2), InputError);
}

TEST_CASE("in memory what is written is there, and is told apart from what was there before") {
  put_files(kSome);
  CHECK(written_files().empty());
  replace_file("pupil.json", "{\"new\": 1}", "pupil.json", {});
  replace_file("./lists/after.csv", std::string("b\0b", 3), "pupil.json", {});
  CHECK(read_file("pupil.json", 100) == "{\"new\": 1}");
  CHECK(written_files() == desk::Texts{{"lists/after.csv", std::string("b\0b", 3)}, {"pupil.json", "{\"new\": 1}"}});
  put_files(kSome);
  CHECK(written_files().empty());
  CHECK(read_file("pupil.json", 100) == "{}");
  CHECK_FALSE(is_there("lists/after.csv"));
}

TEST_CASE("in memory nothing is written where no file can be") {
  put_files(kSome);
  CHECK_THROWS_WITH(check_replaceable("lists"), Contains("is not a plain file"));
  CHECK_THROWS_AS(replace_file("lists", "x", "lists", {}), InputError);
  CHECK_THROWS_WITH(replace_file("none/x.json", "x", "x.json", {}), Contains("none/x.json could not be written"));
  CHECK_THROWS_WITH(WriteLock("none/book.json"), Contains("there is no folder none; make it first"));
  CHECK_NOTHROW(WriteLock("lists/book.json"));
  CHECK_NOTHROW(WriteLock("book.json"));
  CHECK(written_files().empty());
}

TEST_CASE("in memory two names of one file are one, and a file has no other names") {
  put_files(kSome);
  CHECK(is_same_file("pupil.json", "./lists/../pupil.json"));
  CHECK_FALSE(is_same_file("pupil.json", "nothing.csv"));
  CHECK_FALSE(is_same_file("none", "none"));
  CHECK_FALSE(has_second_name("pupil.json"));
  CHECK(through_links("lists/before.csv") == "lists/before.csv");
}
