#include "files/json_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "core/nearest.hpp"
#include "findings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// The only finding of a text that is no JSON.
Finding mistake(std::string_view text) {
  Findings findings;
  const bool parsed = parse_json(text, findings).has_value();
  INFO("text: " << text.substr(0, 200) << "\n" << told(findings));
  CHECK_FALSE(parsed);
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].severity == Severity::error);
  return findings[0];
}

Findings reading(std::string_view text, const ReadMembers& read) {
  Findings findings;
  const std::optional<Json> document = parse_json(text, findings);
  INFO(told(findings));
  REQUIRE(document);
  read_object(*document, "", findings, read);
  return findings;
}

void read_speed(ObjectReader& reader) {
  reader.quantity("club_speed", Dimension::speed, {9.0, 72.0, "m/s"}, Need::required);
}

struct Case {
  std::string text, place, message;
};

}  // namespace

TEST_CASE("a syntax error is placed by line and column and said plainly") {
  const Case cases[] = {
      {"{\n  \"a\": 1,\n}", "line 2, column 9", "trailing comma: nothing follows it before '}'"},
      {"[1, 2,\n]", "line 1, column 6", "trailing comma: nothing follows it before ']'"},
      {"{\"a\": NaN}", "line 1, column 7", "NaN is not a number that can be used: every number must be finite"},
      {"{\"a\": nan}", "line 1, column 7", "nan is not a number that can be used: every number must be finite"},
      {"{\"a\": Infinity}", "line 1, column 7",
       "Infinity is not a number that can be used: every number must be finite"},
      {"{\"a\": -Infinity}", "line 1, column 7",
       "-Infinity is not a number that can be used: every number must be finite"},
      {"{\"a\": 1e999}", "line 1, column 7", "number overflow: 1e999 is too large to be a number"},
      {"{\"a\": -1e999}", "line 1, column 7", "number overflow: -1e999 is too large to be a number"},
      {"{\"a\": 9,5}", "line 1, column 8",
       "a number after a comma where a key is expected: decimals are written with a point (9.5)"},
      {"{\"a\": 1\n \"b\": 2}", "line 2, column 2", "unexpected text in double quotes; expected '}'"},
      {"{\"a\": 1", "line 1, column 8", "the file ends too soon: a closing '}' or ']' is missing"},
      {"{\"a", "line 1, column 2", "this text is not closed by a double quote on its line"},
      {"{\"a\": \"b\\\"c\n}", "line 1, column 7", "this text is not closed by a double quote on its line"},
      {"{\"a\": \"\\d\"}", "line 1, column 9", "invalid string: forbidden character after backslash"},
      {"{\"\xC3\xA9\": x}", "line 1, column 7", "x needs double quotes"},
      {"{a: 1}", "line 1, column 2", "a needs double quotes"},
      {"{'a': 1}", "line 1, column 2", "text stands in double quotes, not single ones"},
      {"{\"a\": True}", "line 1, column 7", "True: write true, false or null in small letters"},
      {"{\"a\": +1}", "line 1, column 7", "+1: a number begins with a digit or '-'"},
      {"{\"a\": .5}", "line 1, column 7", ".5: a number begins with a digit or '-'"},
      {"// note\n{}", "line 1, column 1", "comments are not part of JSON: put them into \"notes\""},
      {"{\n  \"a\": \"b\",\n  // note\n  \"c\": 1\n}", "line 3, column 3",
       "comments are not part of JSON: put them into \"notes\""},
      {"{\"a\": 1,\n# \"note\nmissing closing quote\n}", "line 2, column 1",
       "comments are not part of JSON: put them into \"notes\""},
      {"{} {}", "line 1, column 4", "unexpected '{'; expected end of the file"},
      {" \n ", "line 1, column 1", "nothing but space: a JSON object { ... } is expected"},
      {"", "line 1, column 1", "nothing but space: a JSON object { ... } is expected"},
      {"\xFF\xFE{\0}\0", "line 1, column 1", "not UTF-8 text: save the file as UTF-8"},
      {"{\"a\": \"caf\xE9\"}", "line 1, column 7", "not UTF-8 text: save the file as UTF-8"},
  };
  for (const Case& c : cases) {
    const Finding found = mistake(c.text);
    INFO("text: " << c.text);
    CHECK(found.place == c.place);
    CHECK(found.message == c.message);
  }
}

TEST_CASE("a NUL byte does not end a file: nothing behind it is lost unseen") {
  using namespace std::string_view_literals;
  for (const std::string_view text : {"{\n \"a\": 1}\0"sv, "{\n \"a\": 1\0}"sv, "{\n \"a\": 1}\0{\"a\": 2}"sv}) {
    const Finding found = mistake(text);
    CHECK(found.place == fmt::format("line 2, column {}", text.find('\0') - 1));
    CHECK(found.message == "a NUL byte; a file of JSON is plain text in UTF-8");
  }
  CHECK(mistake("\xFE\xFF\0{\0}"sv).message == "not UTF-8 text: save the file as UTF-8");
}

TEST_CASE("a byte order mark is no error") {
  Findings findings;
  CHECK(parse_json("\xEF\xBB\xBF{}", findings));
  CHECK(findings.empty());
}

TEST_CASE("nesting beyond the limit is found at once, without building a tree") {
  const std::string deepest = std::string(kDeepestNesting, '[') + std::string(kDeepestNesting, ']');
  Findings findings;
  CHECK(parse_json(deepest, findings));
  CHECK(findings.empty());
  CHECK(mistake(fmt::format("[{}]", deepest)).message == "nested deeper than 64 levels");

  const std::string flood(100u << 20, '[');
  const Finding found = mistake(flood);
  CHECK(found.place == "line 1, column 65");
  CHECK(found.message == "nested deeper than 64 levels");
  INFO("brackets inside text are no nesting");
  CHECK(parse_json(fmt::format(R"(["{0}\"{0}"])", std::string(100, '[')), findings));
}

TEST_CASE("a key that stands twice is an error with its place, and the rest is still read") {
  Findings findings;
  const auto document = parse_json(R"({"a": {"b": [0, {"c/d": 1, "c/d": 2}]}, "a": 3})", findings);
  INFO(told(findings));
  CHECK(document);
  REQUIRE(findings.size() == 2);
  CHECK(tells(findings, Severity::error, "/a/b/1/c~1d", "this key stands twice in the same object"));
  CHECK(tells(findings, Severity::error, "/a", "this key stands twice in the same object"));
}

TEST_CASE("a quantity is read in every unit of its dimension, and its range is told in the unit typed") {
  for (const Unit& unit : units()) {
    if (unit.dimension != Dimension::speed) continue;
    INFO("unit " << unit.symbol);
    const double typed = 40.0 / unit.factor;
    std::optional<TypedQuantity> found;
    const Findings findings =
        reading(fmt::format("{{\"club_speed_{}\": {}}}", unit.suffix, typed), [&](ObjectReader& reader) {
          found = reader.quantity("club_speed", Dimension::speed, {9.0, 72.0, "m/s"}, Need::required);
        });
    INFO(told(findings));
    CHECK(findings.empty());
    REQUIRE(found);
    CHECK(std::abs(found->si - 40.0) < 1e-14);  // a product of two roundings
    CHECK(found->unit == &unit);
  }
  const Findings findings = reading(R"({"club_speed_mph": 200})", read_speed);
  INFO(told(findings));
  CHECK(findings.size() == 1);
  CHECK(tells(findings, Severity::error, "/club_speed_mph", "200 mph is out of range; allowed: 20.2 to 161 mph"));
}

TEST_CASE("the printed ends of a range are themselves allowed") {
  for (const char* text :
       {R"({"club_speed_mph": 20.2})", R"({"club_speed_mph": 161})", R"({"club_speed_mps": 9})",
        R"({"club_speed_mps": 72})", R"({"club_speed_kmh": 32.4})", R"({"club_speed_kmh": 259.2})"}) {
    const Findings findings = reading(text, read_speed);
    INFO(text << "\n" << told(findings));
    CHECK(findings.empty());
  }
}

TEST_CASE("every way to get a key wrong has its own message") {
  const Case cases[] = {
      {R"({})", "",
       "club_speed is missing; write club_speed_mps, club_speed_mph, club_speed_kmh, club_speed_fps or club_speed_kn"},
      {R"({"club_speed_mph": 80, "club_speed_mps": 36})", "",
       "club_speed is given in 2 units: club_speed_mps, club_speed_mph; give one"},
      {R"({"club_speed": 80})", "/club_speed",
       "\"club_speed\" has no unit in its name; write club_speed_mps, club_speed_mph, club_speed_kmh, club_speed_fps "
       "or club_speed_kn"},
      {R"({"club_speed_deg": 80})", "/club_speed_deg",
       "\"club_speed_deg\" has a unit of angle; club_speed takes a unit of speed: write club_speed_mps, "
       "club_speed_mph, "
       "club_speed_kmh, club_speed_fps or club_speed_kn"},
      {R"({"club_speed_mhp": 80})", "/club_speed_mhp",
       "\"club_speed_mhp\": no unit has the suffix \"mhp\"; write club_speed_mps, club_speed_mph, club_speed_kmh, "
       "club_speed_fps or club_speed_kn"},
      {R"({"club_speed_mph": "80"})", "/club_speed_mph", "is the text \"80\"; a number is expected"},
      {R"({"club_speed_mph": null})", "/club_speed_mph", "is null; a number is expected"},
      {R"({"club_speed_mph": [80]})", "/club_speed_mph", "is a list; a number is expected"},
  };
  for (const Case& c : cases) {
    const Findings findings = reading(c.text, read_speed);
    INFO(c.text << "\n" << told(findings));
    CHECK(findings.size() == 1);
    CHECK(tells(findings, Severity::error, c.place, c.message));
  }
}

TEST_CASE("an unknown key names the nearest known one, in all its units") {
  const auto read = [](ObjectReader& reader) {
    reader.quantity("wind", Dimension::speed, {0.0, 30.0, "m/s"}, Need::optional);
    reader.quantity("wind_from", Dimension::angle, {-360.0, 360.0, "deg"}, Need::optional);
    reader.text("turf", Need::optional);
  };
  Findings findings = reading(R"({"wind_form_deg": 1, "tirf": "firm", "zzzzzzzzzzzz": 0, "wind_from_mph": 2})", read);
  INFO(told(findings));
  CHECK(findings.size() == 4);
  CHECK(tells(findings, Severity::error, "/wind_form_deg",
              "unknown key \"wind_form_deg\"; the nearest known key is \"wind_from_deg\""));
  CHECK(tells(findings, Severity::error, "/tirf", "unknown key \"tirf\"; the nearest known key is \"turf\""));
  CHECK(tells(findings, Severity::error, "/zzzzzzzzzzzz",
              "unknown key \"zzzzzzzzzzzz\"; the nearest known key is \"wind_mps\"; known here: "
              "wind_(mps|mph|kmh|fps|kn), wind_from_(rad|deg), turf"));
  CHECK(tells(
      findings, Severity::error, "/wind_from_mph",
      "\"wind_from_mph\" has a unit of speed; wind_from takes a unit of angle: write wind_from_rad or wind_from_deg"));
}

TEST_CASE("a flood of mistakes is cut short") {
  std::string text = "{";
  for (int i = 0; i < 5000; ++i) text += "\"key" + std::to_string(i) + "\": 0, ";
  text += fmt::format("\"{}\": 0}}", std::string(1u << 20, 'k'));
  const Findings findings = reading(text, [](ObjectReader& reader) { reader.text("name", Need::optional); });
  CHECK(findings.size() == 21);
  CHECK(findings.back().message == "and 4981 more unknown keys");
  for (const Finding& f : findings) CHECK(f.message.size() < 300);
}

TEST_CASE("intervals: ends in order, open only where that is allowed") {
  std::optional<TypedInterval> found;
  const auto read_as = [&](Ends ends) {
    return [&found, ends](ObjectReader& reader) {
      found = reader.interval("spin", Dimension::spin, {0.0, 15000.0, "rpm"}, ends, Need::required);
    };
  };
  CHECK(reading(R"({"spin_rpm": [1500, 3000]})", read_as(Ends::closed)).empty());
  REQUIRE(found);
  CHECK(std::abs(found->si.low - 50.0 * kPi) < 1e-12);  // 1500 rpm, to rounding
  CHECK(std::abs(found->si.high - 100.0 * kPi) < 1e-12);
  CHECK(reading(R"({"spin_rpm": [null, 3000]})", read_as(Ends::may_be_open)).empty());
  REQUIRE(found);
  CHECK(found->si.low == -std::numeric_limits<double>::infinity());

  struct IntervalCase {
    std::string text;
    Ends ends;
    std::string place, message;
  };
  const IntervalCase cases[] = {
      {R"({"spin_rpm": [3000, 1500]})", Ends::closed, "/spin_rpm",
       "the ends are crossed: 3000 is above 1500 (low comes first)"},
      {R"({"spin_rpm": [null, null]})", Ends::may_be_open, "/spin_rpm",
       "both ends are null: give at least one, or leave the key out"},
      {R"({"spin_rpm": [null, 3000]})", Ends::closed, "/spin_rpm/0", "is null; a number is expected"},
      {R"({"spin_rpm": [1500, 20000]})", Ends::closed, "/spin_rpm/1",
       "20000 rpm is out of range; allowed: 0 to 15000 rpm"},
      {R"({"spin_rpm": [1500]})", Ends::closed, "/spin_rpm", "is a list of 1; [low, high] is expected"},
      {R"({"spin_rpm": 1500})", Ends::may_be_open, "/spin_rpm",
       "is 1500; [low, high], either of them null when open is expected"},
  };
  for (const IntervalCase& c : cases) {
    const Findings findings = reading(c.text, read_as(c.ends));
    INFO(c.text << "\n" << told(findings));
    CHECK(findings.size() == 1);
    CHECK_FALSE(found);
    CHECK(tells(findings, Severity::error, c.place, c.message));
  }
}

TEST_CASE("words and texts") {
  const auto read = [](ObjectReader& reader) {
    reader.word<int>("goal", {{"carry", 1}, {"total", 2}}, Need::optional);
    reader.text("name", Need::optional);
  };
  CHECK(reading(R"({"goal": "total", "name": "Ad\u00e8le\nsecond line"})", read).empty());
  const Case cases[] = {
      {R"({"goal": "distance"})", "/goal", "\"distance\" is not one of the words allowed here: carry or total"},
      {R"({"goal": 3})", "/goal", "is 3; text in double quotes is expected"},
      {R"({"name": "a\u001b[2Jb"})", "/name",
       "holds control characters; only printable text, tabs and line ends are allowed"},
  };
  for (const Case& c : cases) {
    const Findings findings = reading(c.text, read);
    INFO(c.text << "\n" << told(findings));
    CHECK(findings.size() == 1);
    CHECK(tells(findings, Severity::error, c.place, c.message));
  }
}

TEST_CASE("a text of the file is shown safely: escaped, shortened between characters") {
  CHECK(in_quotes("a\x1b\"b") == "\"a\\u001b\\\"b\"");
  const std::string shown = in_quotes(std::string(39, 'a') + "\xC3\xA9" + std::string(50, 'b'));
  CHECK(shown == fmt::format("\"{}...\"", std::string(39, 'a')));
}

TEST_CASE("a format of another kind or a newer version is told apart") {
  const auto told_of = [](std::string_view text) {
    Findings findings;
    CHECK_FALSE(format_is(*parse_json(text, findings), "loftwright-ball/1", findings));
    REQUIRE(findings.size() == 1);
    return findings[0];
  };
  CHECK(told_of(R"({"format": "loftwright-ball/2"})").message ==
        "\"loftwright-ball/2\" is newer than this program can read (\"loftwright-ball/1\"): use a newer loftwright");
  CHECK(told_of(R"({"format": "loftwright-head/1"})").message ==
        "is \"loftwright-head/1\"; \"loftwright-ball/1\" is expected");
  CHECK(told_of(R"({"format": "loftwright-ball/0"})").place == "/format");
  CHECK(told_of(R"({"format": 1})").message == "is 1; \"loftwright-ball/1\" is expected");
  CHECK(told_of(R"({})").message == "format is missing; write \"format\": \"loftwright-ball/1\"");
  CHECK(told_of(R"([])").message == "is a list; an object { ... } is expected");
}

TEST_CASE("edit distance: textbook values") {
  CHECK(edit_distance("kitten", "sitting") == 3);  // the standard example (Wagner & Fischer 1974's distance)
  CHECK(edit_distance("intention", "execution") == 5);
  CHECK(edit_distance("", "abc") == 3);
  CHECK(edit_distance("ca", "ac") == 1);  // a swap is one slip
  const std::vector<std::string> known{"attack_deg", "path_deg", "face_deg"};
  CHECK(nearest("fase_deg", known) == "face_deg");
  CHECK(nearest("x", {}).empty());
}

TEST_CASE("the nearest word is the one that has the whole word among its parts, but for its plural") {
  const std::vector<std::string> options{"--toe", "--dynamic-loft", "--club-speed", "--seed"};
  CHECK(nearest("--loft", options) == "--dynamic-loft");
  CHECK(nearest("--club", options) == "--club-speed");
  CHECK(nearest("--sped", options) == "--seed");
  CHECK(nearest("--speed", options) == "--club-speed");
  CHECK(nearest("loft", std::vector<std::string>{"lofts", "club_loft_deg"}) == "lofts");
  CHECK(nearest("club_loft", std::vector<std::string>{"lofts", "club_loft_deg"}) == "club_loft_deg");
  CHECK(nearest("lub_lof", std::vector<std::string>{"lofts", "club_loft_deg"}) == "lofts");  // part of a part is none
  CHECK(nearest("--", options) == "--toe");
  CHECK(may_be_meant("loft", "dynamic_loft_deg"));
  CHECK(may_be_meant("atack_deg", "attack_deg"));
  CHECK_FALSE(may_be_meant("--club-speed", "--seed"));
  CHECK_FALSE(may_be_meant("", "path_deg"));
}

TEST_CASE("the nearest word is the first at the least distance: where counting stops early, no word is missed") {
  std::mt19937 draw(7);
  const auto word = [&] {
    std::string letters(draw() % 12, 'a');
    for (char& c : letters) c = "abc"[draw() % 3];
    return letters;
  };
  for (int trial = 0; trial < 2000; ++trial) {
    const std::string typed = word();
    const std::vector<std::string> known{word(), word(), word(), word(), word()};
    const auto nearer = [&](const std::string& a, const std::string& b) {
      return edit_distance(typed, a) < edit_distance(typed, b);
    };
    INFO(typed);
    CHECK(nearest(typed, known) == *std::min_element(known.begin(), known.end(), nearer));
  }
}

TEST_CASE("a file error lists every error on a line of its own, and no warning") {
  const FileError error(
      "pupil.json",
      {{Severity::error, "/a", "first"}, {Severity::warning, "/b", "doubt"}, {Severity::error, "", "second"}});
  CHECK(std::string(error.what()) == "pupil.json cannot be used:\n  /a: first\n  second");
  CHECK(error.findings.size() == 3);
  CHECK_FALSE(has_errors({{Severity::warning, "", "doubt"}}));
}

TEST_CASE("a file with very many errors tells the first fifty and how many there are beside them") {
  Findings many;
  for (int i = 0; i < 53; ++i) many.push_back({Severity::error, fmt::format("/{}", i), "wrong"});
  const FileError error("book.json", many);
  const std::string said = error.what();
  CHECK(said.find("/49: wrong\n  and 3 more") != std::string::npos);
  CHECK(said.find("/50") == std::string::npos);
  CHECK(error.findings.size() == 53);
  many.resize(50);
  CHECK(std::string(FileError("book.json", many).what()).ends_with("/49: wrong"));
}
