#include "report/page/html.hpp"

#include <catch2/catch.hpp>

using namespace loftwright;

TEST_CASE("what could be markup is escaped, once", "[page]") {
  CHECK(escaped("a < b & \"c\" > 'd'") == "a &lt; b &amp; &quot;c&quot; &gt; &#39;d&#39;");
  CHECK(escaped("&lt;") == "&amp;lt;");
  CHECK(escaped(std::string("a\0b\x1b\x7f\tc\nd", 9)) == "a b   c\nd");
  CHECK(escaped("Zoë €") == "Zoë €");
}

TEST_CASE("what a user typed cannot turn the text around it", "[page]") {
  CHECK(typed("<b>\u202e") == "<bdi>&lt;b&gt;</bdi>");
  // Every explicit formatting character of UAX #9, table 1 and section 2.6; letters that run leftwards are kept.
  CHECK(escaped("a\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069b שלום \u200d\u2010") ==
        "ab שלום \u200d\u2010");
}

TEST_CASE("what a user typed without end is cut between two characters, counted as it will stand on the page",
          "[page]") {
  CHECK(fitting("a<é", 1) == "a");
  CHECK(fitting("a<é", 4) == "a");
  CHECK(fitting("a<é", 5) == "a<");
  CHECK(fitting("a<é", 6) == "a<");
  CHECK(fitting("a<é", 7) == "a<é");
  CHECK(fitting("", 0).empty());
  for (const char* one : {"\"", "é", "x"}) {
    std::string text;
    for (int i = 0; i < 20000; ++i) text += one;
    const std::string shown = typed(text);
    CHECK(shown.size() < kLongestTyped + 20);
    CHECK(shown.size() > kLongestTyped);
    CHECK(shown.ends_with(" …</bdi>"));
  }
}

TEST_CASE("JSON inside a script element cannot end it", "[page]") {
  CHECK(in_script(R"({"a":"</script><!--"})") == R"({"a":"\u003c/script>\u003c!--"})");
}

TEST_CASE("a table has a caption, heads with their scope, and one head for a word above its unit", "[page]") {
  const std::string html =
      html_table({"Carry & more", {{"", "carry"}, {"", "yd"}, {"as is", "139"}}, 2, {"A <note>."}});
  for (const char* part : {"<caption>Carry &amp; more</caption>", "<td></td><th scope=\"col\">carry yd</th>",
                           "<tr><th scope=\"row\">as is</th><td>139</td></tr>", "A &lt;note&gt;."}) {
    INFO(part << " in " << html);
    CHECK(html.find(part) != std::string::npos);
  }
  CHECK(html_table({"Empty", {}, 1, {"never told"}}).empty());
  CHECK(bullets({}).empty());
}
