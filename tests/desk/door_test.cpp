// The one door natively: command lines answered over texts in memory as cases.json says, and calls as bytes.
#include "door.hpp"
#include "folders.hpp"

#include <filesystem>
#include <stdexcept>

#include "cases.hpp"
#include "json.hpp"

using namespace loftwright;
using namespace loftwright::test;
namespace fs = std::filesystem;

namespace {

// The files of data/, by the names they have from the source's folder.
desk::Texts shipped() {
  desk::Texts files;
  const fs::path source = LOFTWRIGHT_SOURCE_DIR;
  for (const auto& entry : fs::recursive_directory_iterator(source / "data")) {
    if (entry.is_regular_file()) files[entry.path().lexically_relative(source).string()] = file_contents(entry.path());
  }
  return files;
}

}  // namespace

TEST_CASE("command lines do over texts in memory what cases.json says") {
  const Json cases = command_cases();
  REQUIRE(cases.size() > 300);
  const desk::Texts data = shipped();
  for (const Json& one : cases) {
    desk::Call call{args_of(one, "case"), input_of(one), data};
    call.files["case/"] = "";
    for (const auto& [name, text] : files_of(one)) call.files["case/" + name] = text;
    const auto [code, out, err, files] = desk::answer(call);
    check_does({code, out, err}, one, "case");
  }
}

TEST_CASE("one call answers with numbers and a page") {
  const desk::Answer answer = desk::answer({{"advise", "pupil.json", "--draws", "0", "--json", "--html", "page.html"},
                                            "",
                                            {{"pupil.json", shipped().at("data/pupils/demo.json")}}});
  INFO(answer.err);
  CHECK(answer.code == 0);
  CHECK(parsed<Json>(answer.out).contains("format"));
  REQUIRE(answer.files.size() == 1);
  CHECK(answer.files.at("page.html").starts_with("<!"));
}

TEST_CASE("a call and its answer as bytes") {
  using namespace std::string_literals;
  const std::string bytes = "\2\0\0\0\5\0\0\0check\1\0\0\0-\2\0\0\0{}\1\0\0\0f\3\0\0\0a\0b"s;
  const desk::Call call = desk::call_from(bytes);
  CHECK(call.args == std::vector<std::string>{"check", "-"});
  CHECK(call.input == "{}");
  CHECK(call.files == desk::Texts{{"f", "a\0b"s}});
  const std::size_t without_file = bytes.size() - 12;
  CHECK(desk::call_from(bytes.substr(0, without_file)).files.empty());
  for (std::size_t size = 0; size < bytes.size(); ++size) {
    INFO(size << " bytes of " << bytes.size());
    if (size != without_file)
      CHECK_THROWS_AS(desk::call_from(std::string_view(bytes).substr(0, size)), std::out_of_range);
  }
  CHECK(desk::bytes_of({258, "o", "", {{"f", "a\0b"s}}}) == "\2\1\0\0\1\0\0\0o\0\0\0\0\1\0\0\0f\3\0\0\0a\0b"s);
}
