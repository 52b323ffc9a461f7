#include "shots/csv.hpp"

#include <catch2/catch.hpp>

using namespace loftwright;
using Catch::Matchers::Contains;
using Cells = std::vector<std::string>;

namespace {

std::vector<CsvRecord> read_all(std::string_view text, char delimiter = ',') {
  CsvReader reader(text, delimiter);
  std::vector<CsvRecord> out;
  while (auto record = reader.next()) out.push_back(*record);
  return out;
}

void check_error(std::string_view text, const std::string& message) {
  INFO(text);
  CHECK_THROWS_WITH(read_all(text), Contains(message));
}

}  // namespace

TEST_CASE("records end in LF, CRLF, CR or the text", "[shots]") {
  const auto records = read_all("a,b\nc,d\r\ne,f\rg,h");
  REQUIRE(records.size() == 4);
  CHECK(records[0].cells == Cells{"a", "b"});
  CHECK(records[1].cells == Cells{"c", "d"});
  CHECK(records[2].cells == Cells{"e", "f"});
  CHECK(records[3].cells == Cells{"g", "h"});
  for (std::size_t i = 0; i < 4; ++i) CHECK(records[i].line == i + 1);
}

TEST_CASE("quoted cells hold delimiters, quotes and line ends", "[shots]") {
  // RFC 4180, sections 2.6 and 2.7: the examples' forms.
  const auto records = read_all("\"aaa\",\"b \r\nb\nb\",\"c\"\"c\"\nzzz,\"y,y\", \" x \" \nlast");
  REQUIRE(records.size() == 3);
  CHECK(records[0].cells == Cells{"aaa", "b \r\nb\nb", "c\"c"});
  CHECK(records[1].cells == Cells{"zzz", "y,y", " x "});
  CHECK(records[1].line == 4);  // the lines inside the quotes count
  CHECK(records[2].line == 5);
}

TEST_CASE("a quote inside an unquoted cell is an ordinary character", "[shots]") {
  CHECK(read_all("Low Point (\"),5'10\"\n")[0].cells == Cells{"Low Point (\")", "5'10\""});
}

TEST_CASE("spaces around cells go, empty cells stay", "[shots]") {
  CHECK(read_all("  a\t, ,b c ,,\n")[0].cells == Cells{"a", "", "b c", "", ""});
  CHECK(read_all("a\t\tb", '\t')[0].cells == Cells{"a", "", "b"});
}

TEST_CASE("blank lines, rows of nothing and comments are skipped", "[shots]") {
  CsvReader reader("\n  \n# made on a rainy day\na,b\n,,\n\"\",\n#\nc,d\n", ',');
  CHECK(reader.next()->cells == Cells{"a", "b"});
  const auto second = reader.next();
  CHECK(second->cells == Cells{"c", "d"});
  CHECK(second->line == 8);
  CHECK_FALSE(reader.next());
  CHECK(reader.comments() == 2);
}

TEST_CASE("a column or a number may be called #", "[shots]") {
  const auto records = read_all("#,Carry\n#1,200\n\"# 2\",210\n");
  REQUIRE(records.size() == 3);
  CHECK(records[0].cells == Cells{"#", "Carry"});
  CHECK(records[1].cells == Cells{"#1", "200"});
  CHECK(records[2].cells == Cells{"# 2", "210"});
}

TEST_CASE("what could have lost something is an error with its line", "[shots]") {
  check_error("a,b\nc,\"d\ne,f\ng,h", "line 2: a quoted cell begins here and is not closed");
  check_error("a\n\n\"b\" c,d", "line 3: text after a closing quote");
  check_error("a\n\"b\nb\"c,d", "line 3: text after a closing quote");
  check_error("a\n" + std::string(600, ','), "line 2: more than 512 cells");
  CHECK(read_all(std::string(511, ',') + "x").front().cells.size() == 512);
}

TEST_CASE("UTF-16 as spreadsheets write it, either byte first", "[shots]") {
  // RFC 2781, section 2: 0x12345 is the pair D808 DF45; and an e acute, a line end, a tab, a euro sign.
  const std::u16string text = u"\ufeffAttack (\u00b0)\t\u20ac\r\n\xd808\xdf45\t2";
  std::string low, high;
  for (const char16_t unit : text) {
    for (const int shift : {0, 8}) low += static_cast<char>(unit >> shift & 0xff);
    for (const int shift : {8, 0}) high += static_cast<char>(unit >> shift & 0xff);
  }
  const std::string wanted = "Attack (\u00b0)\t\u20ac\r\n\U00012345\t2";
  CHECK(csv_text(low) == wanted);
  CHECK(csv_text(high) == wanted);
  // What is cut or half shows as the character that stands for none; nothing else is lost.
  CHECK(csv_text(std::string_view("\xFF\xFE\x08\xD8"
                                  "a\0b",
                                  7)) == "\ufffda\ufffd");
  CHECK(csv_text(std::string_view("\xFF\xFE\x45\xDF"
                                  "a\0",
                                  6)) == "\ufffda");
  CHECK_THROWS_WITH(csv_text("\xFF\xFE"), Contains("is empty"));
  CHECK_THROWS_WITH(csv_text(std::string_view("\xFF\xFE\0\0a\0\0\0", 8)), Contains("NUL"));
}

TEST_CASE("a spreadsheet's workbook is known, and how to save it as text is said", "[shots]") {
  for (const std::string& begins :
       {std::string("PK\x03\x04\x14\0\x06\0", 8), std::string("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1\0\0", 10)}) {
    CHECK_THROWS_WITH(csv_text(begins), Contains("workbook") && Contains("save it as CSV"));
  }
}

TEST_CASE("encodings", "[shots]") {
  CHECK(csv_text("\xEF\xBB\xBF"
                 "a,b") == "a,b");
  CHECK(csv_text("Attack (\xC2\xB0)") == "Attack (\xC2\xB0)");
  CHECK(csv_text("Attack (\xB0)") == "Attack (\xC2\xB0)");  // Latin-1
  for (const char* bad : {"\xC0\xAF", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\xE2\x82", "\xF0\x80\x80\x80", "\x80"}) {
    INFO("overlong, surrogate, too large, cut short");
    CHECK(csv_text(bad).size() == 2 * std::string_view(bad).size());  // each byte became a two-byte character
  }
  for (const char* good : {"\xE2\x82\xAC", "\xF0\x9F\x8F\x8C", "\xC3\xA9"}) CHECK(csv_text(good) == good);
  CHECK_THROWS_WITH(csv_text(std::string_view("a\nb\0c", 5)), Contains("line 2: a NUL byte"));
  CHECK_THROWS_WITH(csv_text(""), Contains("is empty"));
  CHECK_THROWS_WITH(csv_text("\xEF\xBB\xBF \r\n"), Contains("is empty"));
  CHECK_THROWS_WITH(csv_text(std::string(kMostCsvBytes + 1, 'x')), Contains("allowed: 8388608"));
}
