#include "loftwright/files/book_file.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "books.hpp"
#include "files/json_text.hpp"
#include "findings.hpp"
#include "json.hpp"
#include "loftwright/files/catalogue.hpp"
#include "shots/csv.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

Json demo_book() { return parsed<Json>(Catalogue::built_in("books/demo.json")); }

// What reading says about the demonstration book after a change of one place.
Findings changed(const std::string& place, const Json& value) {
  Json document = demo_book();
  document[Json::json_pointer(place)] = value;
  Findings findings;
  read_book(document.dump(), findings);
  return findings;
}

Book round_trip(const Book& book) {
  Findings findings;
  const auto out = read_book(book_text(book), findings);
  INFO(told(findings));
  REQUIRE(out);
  return *out;
}

}  // namespace

TEST_CASE("a book comes back from its text as it was, whatever it holds") {
  Draws draws(20260314);
  for (int i = 0; i < 200; ++i) {
    const Book book = any_book(draws, i % 7);
    Book kept = book;
    kept.version = std::max(1, kept.version);
    const std::string text = book_text(kept);
    const Book read = round_trip(kept);
    INFO(text);
    CHECK(book_text(read) == text);
    REQUIRE(read.sessions.size() == book.sessions.size());
    for (std::size_t k = 0; k < book.sessions.size(); ++k) {
      const BookedSession &a = book.sessions[k], &b = read.sessions[k];
      CHECK(a.notes == b.notes);
      CHECK(a.date == b.date);
      CHECK(a.number == b.number);
      CHECK(a.loft.has_value() == b.loft.has_value());
      CHECK(a.course.has_value() == b.course.has_value());
      // Twelve digits are written.
      CHECK(std::abs(a.delivery.attack - b.delivery.attack) <= 1e-11 * std::abs(a.delivery.attack));
      CHECK(std::abs(a.reference.carry - b.reference.carry) <= 1e-11 * a.reference.carry);
      REQUIRE(a.shots.has_value() == b.shots.has_value());
      if (!a.shots) continue;
      CHECK(b.shots->left_out == 2);
      REQUIRE(b.shots->readings.size() == 2);
      const Summary &mean = a.shots->readings[0].summary, &back = b.shots->readings[0].summary;
      CHECK(std::abs(mean.mean - back.mean) <= 1e-11 * mean.mean);
      CHECK(std::abs(back.standard_error - mean.sd / std::sqrt(12.0)) <= 1e-11 * mean.sd);
      CHECK_FALSE(b.shots->readings[1].summary.has_spread());
    }
  }
}

TEST_CASE("the demonstration book is one, and is kept as the program writes it") {
  Findings findings;
  const std::string_view text = Catalogue::built_in("books/demo.json");
  const auto book = read_book(text, findings);
  INFO(told(findings));
  REQUIRE(book);
  CHECK(book_text(*book) == text);
}

TEST_CASE("every mistake in a book is told with its place") {
  const auto error = [](const std::string& place, const Json& value, const std::string& at,
                        const std::string& message) {
    const Findings findings = changed(place, value);
    INFO(place << " = " << value.dump() << "\nwanted '" << at << "': " << message << "\n" << told(findings));
    CHECK(tells(findings, Severity::error, at, message));
  };
  const auto same = [&](const std::string& place, const Json& value, const std::string& message) {
    error(place, value, place, message);
  };
  same("/format", "loftwright-book/2",
       "\"loftwright-book/2\" is newer than this program can read (\"loftwright-book/1\"): use a newer loftwright");
  same("/format", "loftwright-pupil/1", "is \"loftwright-pupil/1\"; \"loftwright-book/1\" is expected");
  same("/version", 0, "0 is out of range; allowed: 1 to 1000000000");
  same("/version", 5.5, "is 5.5; a whole number is expected");
  same("/pupil", std::string(201, 'x'), "has 201 bytes; allowed: at most 200");
  same("/pupil", "two\nlines", "holds tabs or line ends; one line is expected");
  same("/handed", "both", "\"both\" is not one of the words allowed here: right or left");
  same("/sessions", 3, "a list of at most 5000 is expected");
  error("/sessions/0/session", 2, "/sessions/1/session", "another session has the number 2 too");
  same("/sessions/0/session", 99, "is 99; at most the book's version, 5, is expected");
  same("/sessions/0/date", "14.3.2026", "is \"14.3.2026\"; a day as YYYY-MM-DD is expected");
  same("/sessions/0/date", "2026-02-30", "there is no day 2026-02-30");
  same("/sessions/0/notes", "bell\x07",
       "holds control characters; only printable text, tabs and line ends are allowed");
  same("/sessions/0/notes", "csi\xC2\x9B",
       "holds control characters; only printable text, tabs and line ends are allowed");
  same("/sessions/0/notes", std::string(10001, 'x'), "has 10001 bytes; allowed: at most 10000");
  same("/sessions/0/club/loft_deg", 31, "31 deg is out of range; allowed: 4 to 30 deg");
  same("/sessions/0/club/loft", 9,
       "unknown key \"loft\"; the nearest known key is \"loft_deg\"; known here: loft_deg, head, setting");
  same("/sessions/0/delivery/attack_deg", nullptr, "is null; a number is expected");
  same("/sessions/0/delivery/club_speed_mps", 8, "8 m/s is out of range; allowed: 9 to 72 m/s");
  same("/sessions/0/delivery_inferred", "yes", "true or false is expected");
  same("/sessions/0/reference/carry_m", -1, "-1 m is out of range; allowed: 0 to 1000 m");
  same("/sessions/1/course/wind_profile", "gusty",
       "\"gusty\" is not one of the words allowed here: uniform, logarithmic or power");
  same("/sessions/1/course/pressure_pa", 3, "3 Pa is out of range; allowed: 50000 to 110000 Pa");
  same("/sessions/3/shots/counted", -1, "-1 is out of range; allowed: 0 to 1000000000");
  same("/sessions/3/shots/readings/0/reading", "club", "\"club\" is no reading");
  same("/sessions/3/shots/readings/0/unit", "mph", "\"m/s\" is expected");
  same("/sessions/3/shots/readings/0/mean", 100, "100 m/s is out of range; allowed: 9 to 72 m/s");
  same("/sessions/3/shots/readings/0/sd", -1, "-1 m/s is out of range; allowed: 0 to 63 m/s");
}

TEST_CASE("what could not be read again is not written") {
  Draws draws(1);
  Book book = any_book(draws, 1);
  CHECK_NOTHROW(book_text(book));
  book.pupil = "two\nlines";
  CHECK_THROWS_WITH(book_text(book), Catch::Contains("/pupil"));
  book.pupil = "\xFF not UTF-8";
  CHECK_THROWS_AS(book_text(book), InputError);
  book.pupil = "escape \x1B[2J";
  CHECK_THROWS_AS(book_text(book), InputError);
  book.pupil = "";
  book.sessions[0].notes = std::string(kLongestNotes + 1, 'x');
  CHECK_THROWS_AS(book_text(book), InputError);
}

TEST_CASE("a table has a row a session, quoted as RFC 4180 asks") {
  Draws draws(7);
  Book book = any_book(draws, 2);
  book.sessions[0].notes = "two lines:\nhe said \"again\", twice";
  book.sessions[1].notes = "plain";
  const std::string csv = book_csv(book);
  INFO(csv);
  CHECK(csv.starts_with("session,date,carry_m,total_m,"));
  CHECK(csv.find(",\"two lines:\nhe said \"\"again\"\", twice\",,\r\n") != std::string::npos);  // neither with a sleeve
  CHECK(csv.ends_with(",plain,,\r\n"));
  CsvReader reader(csv, ',');
  const auto heads = reader.next().value();
  const auto notes = std::find(heads.cells.begin(), heads.cells.end(), "notes") - heads.cells.begin();
  for (std::size_t i = 0; i < 2; ++i) {
    const auto row = reader.next().value();
    REQUIRE(row.cells.size() == heads.cells.size());
    CHECK(row.cells.at(static_cast<std::size_t>(notes)) == book.sessions[i].notes);
    CHECK(row.cells[0] == std::to_string(book.sessions[i].number));
    CHECK(row.cells[1] == text_of(book.sessions[i].date));
    CHECK(std::abs(*parse_number(row.cells[2]) - book.sessions[i].reference.carry) < 1e-8);
  }
  CHECK_FALSE(reader.next());
}
