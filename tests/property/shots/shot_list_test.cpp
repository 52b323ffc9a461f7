// Hostile and random shot lists: read or refused, never a crash, never a number out of range, never a row lost.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <set>

#include "loftwright/files/columns_file.hpp"
#include "loftwright/shots/shot_summary.hpp"
#include "shots/csv.hpp"

using namespace loftwright;

namespace {

using Random = std::mt19937_64;

std::size_t below(Random& random, std::size_t n) {
  return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
}

const std::string kList =
    "No;Club;Club Speed (mph);Attack [deg];Ball Speed;Launch;Spin Rate;Side;Carry\r\n"
    ";;mph;deg;mph;deg;rpm;yd;yd\r\n"
    "# comment\r\n"
    "1;Driver;82,4;-4,0;118,5;10,2;3150;12,5 L;176,2\r\n"
    "2;\"Driver \"\"old\"\"\";83,1;-;119,0;11,0;2.980;3 R;181,0\r\n"
    "Average;;82,75;-4,0;118,75;10,6;3065;4,75 L;178,6\r\n";

// What must hold for whatever comes back.
void check_list(const ShotList& list) {
  std::set<std::size_t> lines;
  for (const Shot& shot : list.shots) {
    CHECK(lines.insert(shot.line).second);
    bool any = false;
    for (const ReadingInfo& r : readings()) {
      const auto& value = shot.at(r.reading);
      if (!value) continue;
      any = true;
      INFO(r.key << " " << *value);
      CHECK(std::isfinite(*value));
      CHECK(*value >= r.low);
      CHECK(*value <= r.high);
    }
    CHECK(any);
  }
  for (const SetAside& row : list.set_aside) {
    CHECK(lines.insert(row.line).second);
    CHECK_FALSE(row.reason.empty());
    CHECK_FALSE(row.cells.empty());
  }
  for (const Note& note : list.notes) CHECK_FALSE(note.message.empty());
  if (!list.shots.empty()) {
    for (const ReadingSummary& r : summarise(list).readings) CHECK(std::isfinite(r.summary.sd));
  }
}

// True when the text was read; an InputError with a message is as good, anything else escapes and fails the test.
bool read_or_refuse(const std::string& text) {
  static const ColumnMap words = built_in_columns();
  INFO("text: " << text);
  try {
    check_list(read_shots(text, words));
    return true;
  } catch (const InputError& error) {
    CHECK_FALSE(std::string(error.what()).empty());
    return false;
  }
}

std::string mutated(Random& random, std::string text) {
  static const std::string kSpice = "\"\",;\t\r\n#-+.LR()[]0123456789e \xC2\xB0\xFF" + std::string(1, '\0');
  for (std::size_t n = 1 + below(random, 6); n > 0 && !text.empty(); --n) {
    const std::size_t at = below(random, text.size());
    switch (below(random, 5)) {
      case 0: text[at] = kSpice[below(random, kSpice.size())]; break;
      case 1: text.insert(at, 1, kSpice[below(random, kSpice.size())]); break;
      case 2: text.erase(at, 1 + below(random, 8)); break;
      case 3: text.insert(at, text.substr(below(random, text.size()), below(random, 40))); break;
      default: text.resize(at); break;
    }
  }
  return text;
}

std::string number(double value, char decimal) {
  std::string out = std::to_string(value);
  for (char& c : out) {
    if (c == '.') c = decimal;
  }
  return out;
}

}  // namespace

TEST_CASE("random bytes are refused or read, whatever they are", "[shots]") {
  Random random(1);
  for (int round = 0; round < 3000; ++round) {
    std::string text(below(random, 200), '\0');
    // All bytes, or only those that mean something in a table.
    const std::string alphabet = round % 2 ? "\",;\n\r#19.-L Carry(yd)Spin" : "";
    for (char& c : text)
      c = alphabet.empty() ? static_cast<char>(below(random, 256)) : alphabet[below(random, alphabet.size())];
    read_or_refuse(text);
    read_or_refuse("Carry (yd),Spin,Side (yd)\n" + text);
  }
}

TEST_CASE("a list damaged anywhere is refused or read", "[shots]") {
  Random random(2);
  int read = 0;
  for (int round = 0; round < 6000; ++round) read += read_or_refuse(mutated(random, kList)) ? 1 : 0;
  CHECK(read > 1000);  // otherwise the test would not reach past the reader
  CHECK(read < 5990);
}

TEST_CASE("a list cut at any byte is refused or read", "[shots]") {
  for (std::size_t length = 0; length <= kList.size(); ++length) read_or_refuse(kList.substr(0, length));
}

TEST_CASE("every row of a table comes back, as a shot or set aside", "[shots]") {
  static const ColumnMap words = built_in_columns();
  Random random(3);
  const std::vector<std::string> cells{"200", "-3",    "12 L", "abc", "9999", "", "-", "1.5", "\"quoted\nline\"",
                                       "R R", "Total", "#"};
  for (int round = 0; round < 500; ++round) {
    std::string text = "Carry (yd),Side (yd),Spin\n";
    const std::size_t rows = 1 + below(random, 20);
    for (std::size_t row = 0; row < rows; ++row) {
      text += "7";  // no row is blank
      for (std::size_t i = below(random, 4); i > 0; --i) text += "," + cells[below(random, cells.size())];
      text += '\n';
    }
    INFO(text);
    const ShotList list = read_shots(text, words);
    CHECK(list.shots.size() + list.set_aside.size() == rows);
    check_list(list);
  }
}

TEST_CASE("delimiter, decimal sign, line end and quotes make no difference", "[shots]") {
  static const ColumnMap words = built_in_columns();
  Random random(4);
  for (int round = 0; round < 200; ++round) {
    std::vector<std::vector<double>> rows(1 + below(random, 12));
    for (auto& row : rows) {
      row = {std::uniform_real_distribution<>(70, 110)(random), std::uniform_real_distribution<>(-8, 8)(random),
             std::uniform_real_distribution<>(1500, 4500)(random)};
    }
    struct Style {
      std::string delimiter, line_end;
      char decimal;
      bool quoted;
    };
    std::optional<ShotList> first;
    for (const Style& style :
         {Style{",", "\n", '.', false}, Style{";", "\r\n", ',', false}, Style{"\t", "\r", ',', true},
          Style{",", "\r\n", ',', true}, Style{";", "\n", '.', true}}) {
      const std::string quote = style.quoted ? "\"" : "";
      std::string text =
          "\xEF\xBB\xBF"
          "Club Speed (mph)" +
          style.delimiter + "Attack" + style.delimiter + "Spin" + style.line_end;
      for (const auto& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
          text += (i ? style.delimiter : "") + quote + number(row[i], style.decimal) + quote;
        }
        text += style.line_end;
      }
      INFO(text);
      const ShotList list = read_shots(text, words);
      REQUIRE(list.shots.size() == rows.size());
      if (!first) first = list;
      for (std::size_t i = 0; i < rows.size(); ++i) {
        CHECK(list.shots[i].values == first->shots[i].values);
        CHECK(std::abs(unit("mph").from_si(*list.shots[i].at(Reading::club_speed)) - rows[i][0]) <
              1e-6);  // to_string's 6 digits
      }
    }
  }
}

TEST_CASE("what is written quoted is read back", "[shots]") {
  Random random(5);
  const std::string alphabet = "ab,;\t\"\n\r# 1\xC3\xA9";
  for (int round = 0; round < 2000; ++round) {
    const char delimiter = ",;\t"[below(random, 3)];
    std::vector<std::vector<std::string>> rows(1 + below(random, 5));
    std::string text;
    for (auto& row : rows) {
      row.resize(1 + below(random, 5));
      for (std::size_t i = 0; i < row.size(); ++i) {
        for (std::size_t n = below(random, 6); n > 0; --n) row[i] += alphabet[below(random, alphabet.size())];
        if (i == 0) row[i] += 'x';  // no row is blank
        std::string quoted;
        for (const char c : row[i]) quoted += c == '"' ? "\"\"" : std::string(1, c);
        text += (i ? std::string(1, delimiter) : "") + '"' + quoted + '"';
      }
      text += '\n';
    }
    INFO(text);
    CsvReader reader(text, delimiter);
    for (const auto& row : rows) {
      const auto record = reader.next();
      REQUIRE(record);
      CHECK(record->cells == row);
    }
    CHECK_FALSE(reader.next());
  }
}
