#include "page/html.hpp"

#include <catch2/catch.hpp>

using namespace loftwright;

TEST_CASE("what could be markup is escaped, once", "[page]") {
  CHECK(escaped("a < b & \"c\" > 'd'") == "a &lt; b &amp; &quot;c&quot; &gt; &#39;d&#39;");
  CHECK(escaped("&lt;") == "&amp;lt;");
  CHECK(escaped(std::string("a\0b\x1b\x7f\tc\nd", 9)) == "a b   c\nd");
  CHECK(escaped("Zoë €") == "Zoë €");
}

TEST_CASE("what a user typed cannot turn the text around it", "[page]") {
  CHECK(typed("<b>\u202e") == "<bdi>&lt;b&gt;\u202e</bdi>");
}

TEST_CASE("JSON inside a script element cannot end it", "[page]") {
  CHECK(in_script(R"({"a":"</script><!--"})") == R"({"a":"\u003c/script>\u003c!--"})");
}

TEST_CASE("a table has a caption, heads with their scope, and one head for a word above its unit", "[page]") {
  const std::string html = html_table({"Carry & more", {{"", "carry"}, {"", "yd"}, {"as is", "139"}}, 2, {"A <note>."}});
  for (const char* part : {"<caption>Carry &amp; more</caption>", "<td></td><th scope=\"col\">carry yd</th>",
                           "<tr><th scope=\"row\">as is</th><td>139</td></tr>", "A &lt;note&gt;."}) {
    INFO(part << " in " << html);
    CHECK(html.find(part) != std::string::npos);
  }
  CHECK(html_table({"Empty", {}, 1, {"never told"}}).empty());
  CHECK(bullets({}).empty());
}
