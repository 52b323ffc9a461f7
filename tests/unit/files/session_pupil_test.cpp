// A pupil made of a session of a book: what is taken from where.
#include "loftwright/files/session_pupil.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "books.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

BookedSession typed_session(const std::string& date, double attack_deg) {
  BookedSession s;
  s.date = day(date);
  s.delivery = {82 * kMph, attack_deg * kDeg, 0, 0, 11 * kDeg, 0, 0};
  s.loft = 10.5 * kDeg;
  s.reference = {140, 160, "1"};
  return s;
}

BookedSession listed_session(const std::string& date) {
  BookedSession s = typed_session(date, -1.5);
  s.delivery.path = 2 * kDeg;
  s.shots = BookedShots{"monday.csv", 14, 0, 0, {}};
  s.shots->readings = {{Reading::club_speed, {14, 82 * kMph, 0.9, 0.24}},
                       {Reading::attack, {12, -1.5 * kDeg, 1.1 * kDeg, 0.3 * kDeg}},
                       {Reading::path, {14, 2 * kDeg, 1.9 * kDeg, 0.5 * kDeg}},
                       {Reading::dynamic_loft, {14, 11 * kDeg, 1.4 * kDeg, 0.4 * kDeg}},
                       {Reading::carry, {14, 150, 6, 1.6}}};
  return s;
}

Book book_with(std::vector<BookedSession> sessions) {
  Book book;
  book.pupil = "Marlow Fenn (invented)";
  for (const BookedSession& s : sessions) {
    ++book.version;
    add_session(book, s);
  }
  return book;
}

SessionPupil taken(const Book& book, std::optional<int> number = {}, const std::string& file = "") {
  Findings warnings;
  return pupil_of(book, "book.json", session_of(book, number),
                  file.empty() ? std::nullopt : std::optional(PupilText{"pupil.json", file, "."}), Catalogue(),
                  warnings);
}

TakenFrom from(const SessionPupil& p, std::string_view key) {
  const auto at = std::find_if(p.taken.begin(), p.taken.end(), [&](const auto& part) { return part.key == key; });
  REQUIRE(at != p.taken.end());
  return at->from;
}

const std::string kPupilText =
    R"json({"format": "loftwright-pupil/1", "name": "Marlow Fenn (invented)", "goal": "total",
 "delivery": {"club_speed_mph": 90, "attack_rad": -0.07, "dynamic_loft_deg": 9, "path_deg": -3, "toe_mm": 4},
 "measured_shots": 40, "spread": {"attack_deg": 3, "face_deg": 2.2},
 "club": {"loft_deg": 10.5}, "lofts_on_offer_deg": [9, 12], "reach": {"attack_deg": [-6, 3]},
 "conditions": {"turf": "firm"}})json";

}  // namespace

TEST_CASE("a session of a list is a pupil: delivery, scatter, number, loft, and the book's hand and name") {
  Book book = book_with({typed_session("2026-01-10", -4), listed_session("2026-01-20")});
  book.handed = Handed::left;
  book.sessions[1].course = Course{"reference", {}};
  book.sessions[1].course->conditions.turf = "soft";
  book.sessions[1].course->conditions.temperature = 281.15;
  const SessionPupil p = taken(book);
  const BookedSession& s = book.sessions[1];
  CHECK(p.session == 2);
  CHECK(p.pupil.name == book.pupil);
  CHECK(p.pupil.handed == Handed::left);
  CHECK(p.pupil.delivery.club_speed == Approx(s.delivery.club_speed).epsilon(1e-11));
  CHECK(p.pupil.delivery.attack == Approx(s.delivery.attack).epsilon(1e-11));
  CHECK(p.pupil.delivery.path == Approx(s.delivery.path).epsilon(1e-11));
  CHECK(p.pupil.measured_shots == 12);  // the scarcest of what is needed
  CHECK(p.pupil.club_loft == Approx(10.5 * kDeg));
  REQUIRE(p.pupil.spread);
  CHECK(p.pupil.spread->attack == Approx(1.1 * kDeg));
  CHECK(p.pupil.spread->path == Approx(1.9 * kDeg));
  CHECK(p.pupil.spread->toe == usual_spread(Skill::mid_handicap, s.delivery.club_speed).toe);
  CHECK(p.pupil.conditions.turf == "soft");
  CHECK(p.pupil.conditions.temperature == Approx(281.15));
  for (const std::string_view key :
       {"delivery", "scatter", "measured_shots", "club_loft", "head", "ball", "conditions"})
    CHECK(from(p, key) == TakenFrom::session);
  for (const std::string_view key : {"name", "handed"}) CHECK(from(p, key) == TakenFrom::book);
  CHECK(from(p, "rest") == TakenFrom::usual);
  CHECK(p.notices.empty());
  CHECK(p.pupil.assumed[0] ==
        "From session 2 of 2026-01-20 in book.json (14 drives): delivery, scatter, number of drives, loft on the club, "
        "head, ball and conditions.");
  CHECK(p.pupil.assumed[1] == "From the book: name and hand.");
  CHECK(assumes(p.pupil, "A book keeps no correlations: what scatters is taken as independent."));
  CHECK(assumes(p.pupil, "Face, toe and high of the delivery not given: taken as zero."));
  // Its text is a pupil's file that gives the same pupil.
  Findings findings;
  const auto again = read_pupil(p.text, ".", Catalogue(), findings);
  REQUIRE(again);
  CHECK(again->delivery.attack == p.pupil.delivery.attack);
  CHECK(again->spread->path == p.pupil.spread->path);
  CHECK(again->conditions.temperature == p.pupil.conditions.temperature);
}

TEST_CASE("a pupil's file beside it gives everything but what the session measured") {
  const Book book = book_with({typed_session("2026-01-10", -4), listed_session("2026-01-20")});
  const SessionPupil p = taken(book, 2, kPupilText);
  CHECK(p.pupil.goal == Goal::total);
  CHECK(p.pupil.delivery.club_speed == Approx(82 * kMph));
  CHECK(p.pupil.delivery.attack == Approx(-1.5 * kDeg));
  CHECK(p.pupil.delivery.path == Approx(2 * kDeg));
  CHECK(p.pupil.delivery.toe == Approx(4e-3));  // not measured in the session
  CHECK(p.pupil.measured_shots == 12);
  CHECK(p.pupil.spread->attack == Approx(1.1 * kDeg));
  CHECK(p.pupil.spread->face == Approx(2.2 * kDeg));
  CHECK(p.pupil.conditions.turf == "firm");
  CHECK(p.pupil.reach.attack.high == Approx(3 * kDeg));
  CHECK(from(p, "conditions") == TakenFrom::pupil_file);
  CHECK(from(p, "club_loft") == TakenFrom::session);
  CHECK(from(p, "handed") == TakenFrom::book);
  CHECK(p.notices.empty());
  const SessionPupil typed = taken(book, 1, kPupilText);
  CHECK(typed.pupil.delivery.path == Approx(-3 * kDeg));  // zero as typed: nobody measured it
  CHECK(typed.pupil.spread->attack == Approx(3 * kDeg));
  CHECK(from(typed, "scatter") == TakenFrom::pupil_file);
  CHECK(typed.pupil.measured_shots == 10);  // the file's 40 are of its own delivery
  // It needs no delivery of its own.
  CHECK(taken(book, 2, R"({"format": "loftwright-pupil/1", "club": {"loft_deg": 10.5}})").pupil.club_loft ==
        Approx(10.5 * kDeg));
}

TEST_CASE("where book and file disagree it is said, and no hand is guessed") {
  const Book book = book_with({listed_session("2026-01-20")});
  const SessionPupil p =
      taken(book, 1,
            R"({"format": "loftwright-pupil/1", "name": "Someone", "club": {"loft_deg": 9, "head": "measured-2020"}})");
  REQUIRE(p.notices.size() == 3);
  CHECK(p.notices[0] == "the book is of 'Marlow Fenn (invented)', the pupil's file of 'Someone'");
  CHECK(p.notices[1].find("10.5 deg on the driver, the pupil's file says 9 deg") != std::string::npos);
  CHECK(p.pupil.club_loft == Approx(10.5 * kDeg));
  CHECK(std::count_if(p.pupil.lofts.begin(), p.pupil.lofts.end(), [](const LoftChoice& c) { return c.in_hand; }) == 1);
  CHECK_THROWS_WITH(taken(book, 1, R"({"format": "loftwright-pupil/1", "handed": "left", "club": {"loft_deg": 10.5}})"),
                    "the book is of a right-handed pupil, the pupil's file of a left-handed one");
  CHECK_THROWS_AS(taken(book, 1, R"({"format": "loftwright-book/1"})"), FileError);
  CHECK_THROWS_AS(taken(book, 1, "{"), FileError);
  CHECK_THROWS_WITH(taken(book, 1, R"({"format": "loftwright-pupil/1", "reach": {"attack_deg": [-6, -3]}})"),
                    Catch::Contains("session 1 of book.json, with pupil.json"));
}

TEST_CASE("a session that does not say its loft has that of the last before it on the same head, or none") {
  BookedSession open = listed_session("2026-01-20"), other = listed_session("2026-01-30");
  open.loft.reset();
  other.loft.reset();
  other.head = "measured-2020";
  const Book book = book_with({typed_session("2026-01-10", -4), open, other});
  const SessionPupil p = taken(book, 2);
  CHECK(p.pupil.club_loft == Approx(10.5 * kDeg));
  CHECK(from(p, "club_loft") == TakenFrom::book);
  CHECK_THROWS_WITH(taken(book, 3),
                    Catch::Contains("session 3 of book.json does not say the loft on the driver: give it with "
                                    "'loftwright book edit book.json --session 3 --loft ANGLE'"));
  CHECK(from(taken(book, 2, kPupilText), "club_loft") == TakenFrom::pupil_file);
}

TEST_CASE("a delivery worked back from ball numbers stays one, with the usual scatter") {
  BookedSession s = listed_session("2026-01-20");
  s.delivery_inferred = true;
  const SessionPupil p = taken(book_with({s}));
  CHECK(p.pupil.delivery_inferred);
  CHECK_FALSE(p.pupil.spread);
  CHECK(from(p, "scatter") == TakenFrom::usual);
  CHECK(p.pupil.measured_shots == 14);
  CHECK(std::any_of(p.pupil.assumed.begin(), p.pupil.assumed.end(), [](const std::string& sentence) {
    return sentence.starts_with("Only ball numbers were measured in the session");
  }));
}

TEST_CASE("a session keeps how its sleeve was set, and is advised on as it was hit") {
  const std::string sleeve =
      R"( "sleeve": {"settings": [{"name": "0", "loft_deg": 0, "face_deg": 0}, {"name": "+1", "loft_deg": 1, "face_deg": -0.7}]}})";
  const std::string begin = R"({"format": "loftwright-pupil/1", "club": {"loft_deg": 9.5)";
  const auto file = [&](const std::string& setting) { return begin + setting + "}," + sleeve; };
  BookedSession set = listed_session("2026-01-20");  // with 10.5 deg
  set.sleeve = BookedSleeve{"+1", 9.5 * kDeg, -0.7 * kDeg};
  const Book book = book_with({set}), plain = book_with({listed_session("2026-01-20")});

  SECTION("the file's sleeve is at the session's setting") {
    for (const std::string& said : {file(""), file(R"(, "setting": "+1")")}) {
      const SessionPupil p = taken(book, 1, said);
      CHECK(p.notices.empty());
      CHECK(p.pupil.club_setting == "+1");
      CHECK(marked_loft(p.pupil) == Approx(9.5 * kDeg));
      CHECK(p.pupil.club_loft == Approx(10.5 * kDeg));
      CHECK(p.pupil.club_face == Approx(-0.7 * kDeg));
      CHECK(from(p, "club_loft") == TakenFrom::session);
    }
  }
  SECTION("what has been turned since is told, and the session holds") {
    const SessionPupil p = taken(book, 1, file(R"(, "setting": "0")"));
    REQUIRE(p.notices.size() == 1);
    CHECK(p.notices[0] ==
          "the session was hit with a 9.5 deg driver set to \"+1\", the pupil's file has it set to \"0\": that of the "
          "session is taken");
    CHECK(p.pupil.club_setting == "+1");
  }
  SECTION("a setting that the file does not know is its error") {
    Book other = book;
    other.sessions[0].sleeve->name = "+2";
    CHECK_THROWS_WITH(taken(other, 1, file("")), Catch::Contains("the sleeve has no setting \"+2\""));
  }
  SECTION("a setting that makes another loft in the file is told") {
    Book other = book;
    other.sessions[0].loft = 11 * kDeg;
    const SessionPupil p = taken(other, 1, file(""));
    REQUIRE(p.notices.size() == 1);
    CHECK(p.notices[0].find("which made 11 deg; the pupil's file says otherwise") != std::string::npos);
  }
  SECTION("without a sleeve in a file it is a driver of the loft it was played with") {
    for (const std::string& said : {std::string(), std::string(R"({"format": "loftwright-pupil/1"})")}) {
      const SessionPupil p = taken(book, 1, said);
      CHECK(p.pupil.club_setting.empty());
      CHECK(p.pupil.club_loft == Approx(10.5 * kDeg));
      REQUIRE(p.notices.size() == 1);
      CHECK(p.notices[0].find("a 9.5 deg driver set to \"+1\", and no pupil's file says") != std::string::npos);
    }
  }
  SECTION("a session that does not say agrees with the file's setting by its loft") {
    const SessionPupil p = taken(plain, 1, file(R"(, "setting": "+1")"));
    CHECK(p.notices.empty());
    CHECK(p.pupil.club_setting == "+1");
    CHECK(p.pupil.club_loft == Approx(10.5 * kDeg));
  }
  SECTION("or was hit as marked") {
    Book marked = plain;
    marked.sessions[0].loft = 9.5 * kDeg;
    const SessionPupil p = taken(marked, 1, file(R"(, "setting": "+1")"));
    REQUIRE(p.notices.size() == 1);
    CHECK(p.notices[0].find("9.5 deg on the driver, as it is marked, the pupil's file has it set to \"+1\"") !=
          std::string::npos);
    CHECK(p.pupil.club_setting.empty());
    CHECK(p.pupil.club_loft == Approx(9.5 * kDeg));
  }
}
