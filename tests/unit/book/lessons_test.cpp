// What counts of a book, what a promise is held against, and what advise takes of an academy.
#include "loftwright/book/lessons.hpp"

#include <catch2/catch.hpp>

#include "academies.hpp"
#include "loftwright/pupil/complete.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// A drive that says of a delivery what is easily checked by hand: 4 m a m/s, 2 m a degree of attack.
ReferenceDrive plain_drive(const Delivery& d, Handed, const std::string&) {
  const double carry = 4.0 * d.club_speed + 2.0 * d.attack / kDeg;
  return {carry, carry + 20.0, "0.0.0"};
}

BookedSession session_of(const char* date, double attack_deg, double loft_deg, double driver_deg = 10.5) {
  BookedSession s;
  s.date = day(date);
  s.loft = driver_deg * kDeg;
  s.delivery = {38.0, attack_deg * kDeg, 0.0, 0.0, loft_deg * kDeg, 0.0, 0.0};
  s.reference = plain_drive(s.delivery, Handed::right, s.head);
  return s;
}

Book book_with(std::vector<BookedSession> sessions) {
  Book book;
  book.pupil = "Marlow Fenn (invented)";
  for (BookedSession& s : sessions) {
    ++book.version;
    add_session(book, std::move(s));
  }
  return book;
}

Promise promised(Lever lever, double gain, double loft_deg = 10.5) {
  const double of_loft = lever == Lever::technique ? 0.0 : lever == Lever::loft ? gain : 4.0;
  return {lever, Goal::carry, loft_deg * kDeg, 2.0 * kDeg, gain + 1.0, gain - 3.0, gain + 6.0, gain, of_loft};
}

Lessons of(const Book& book) { return lessons({{"book.json", book}}, plain_drive); }

}  // namespace

TEST_CASE("without books the literature comes back, and advise draws as it did", "[lessons]") {
  const Academy a = lessons({}, no_drive).academy;
  CHECK(a.follow.mean == Approx(0.85));
  CHECK(a.speed_per_attack.mean == Approx(0.0).margin(1e-9));
  CHECK_FALSE(a.reached_share);
  Pupil pupil = plain_pupil();
  pupil.assumed = {std::string(taken_sentence(Datum::follow)), std::string(taken_sentence(Datum::speed_per_attack)),
                   "x"};
  ErrorWidths widths;
  take_academy({"academy.json", a}, pupil, widths);
  CHECK(widths.follow_below == Approx(ErrorWidths{}.follow_below).epsilon(5e-3));
  CHECK(widths.speed_per_attack == Approx(ErrorWidths{}.speed_per_attack).epsilon(5e-3));
  CHECK(pupil.assumed.size() == 3);
  CHECK(pupil.assumed[1].find("0 pupils of academy.json") != std::string::npos);
}

TEST_CASE("what the pupil's own file gives stands", "[lessons]") {
  Academy a = lessons({}, no_drive).academy;
  a.follow = {.mean = 0.6, .sd = 0.05, .between_sd = 0.1, .groups = 30};
  a.speed_per_attack = {.mean = -0.1 / kDeg, .sd = 0.01 / kDeg, .between_sd = 0.02 / kDeg, .groups = 30};
  Pupil pupil = plain_pupil();
  pupil.reach.follow = 0.9;
  pupil.assumed = {std::string(taken_sentence(Datum::speed_per_attack))};
  ErrorWidths widths;
  take_academy({"academy.json", a}, pupil, widths);
  CHECK(pupil.reach.follow == 0.9);
  CHECK(widths.follow_below == ErrorWidths{}.follow_below);
  CHECK(pupil.reach.speed_per_attack == -0.1 / kDeg);
  CHECK(widths.speed_per_attack == Approx(std::hypot(0.01, 0.02) / kDeg));
  // A triangle between ends at the root of six of its standard deviation.
  pupil.assumed = {std::string(taken_sentence(Datum::follow))};
  take_academy({"academy.json", a}, pupil, widths);
  CHECK(pupil.reach.follow == 0.6);
  CHECK(widths.follow_above == Approx(std::sqrt(6.0) * std::hypot(0.05, 0.1)));
}

TEST_CASE("sessions with one driver make a series, inferred ones do not count", "[lessons]") {
  const auto sessions = [] {
    return std::vector{session_of("2026-01-01", -4, 10), session_of("2026-02-01", -3, 11),
                       session_of("2026-03-01", -1, 14, 12), session_of("2026-04-01", 0, 15, 12),
                       session_of("2026-05-01", 1, 16, 12)};
  };
  const PupilLessons all = of(book_with(sessions())).pupils.front();
  CHECK(all.sessions == 5);
  CHECK(all.pairs == 3);  // two of the second driver, one of the first
  CHECK(all.attack_moved == Approx(2.0 * kDeg));
  auto one_inferred = sessions();
  one_inferred[3].delivery_inferred = true;
  const PupilLessons fewer = of(book_with(one_inferred)).pupils.front();
  CHECK(fewer.pairs == 2);
  CHECK(fewer.inferred == 1);
  CHECK(of(book_with({session_of("2026-01-01", -4, 10)})).academy.follow.groups == 0);
}

TEST_CASE("a promise is held against the last session before the next, with the driver it named", "[lessons]") {
  std::vector<BookedSession> s{session_of("2026-01-01", -4, 10), session_of("2026-02-01", -3, 11),
                               session_of("2026-03-01", -2, 12), session_of("2026-04-01", 1, 14)};
  s[0].promised = promised(Lever::technique, 10.0);
  SECTION("to the end") {
    const Lessons l = of(book_with(s));
    REQUIRE(l.academy.calibration.size() == 1);
    const Reckoning& r = l.academy.calibration[0];
    CHECK(r.reached_session == 4);
    CHECK(r.reached == Approx(10.0));  // five degrees
    CHECK(r.predicted == 10.0);
    CHECK(r.predicted_low == Approx(6.0));  // as far below as it was told: 7 of 11
    CHECK(r.predicted_high == Approx(15.0));
    REQUIRE(l.academy.reached_share);
    CHECK(l.academy.reached_share->mean == Approx(1.0).margin(0.02));
  }
  SECTION("the next promise ends it, and begins its own") {
    s[2].promised = promised(Lever::technique, 6.0);
    const Lessons l = of(book_with(s));
    REQUIRE(l.academy.calibration.size() == 2);
    CHECK(l.academy.calibration[0].reached_session == 3);
    CHECK(l.academy.calibration[0].reached == Approx(4.0));
    CHECK(l.academy.calibration[1].reached == Approx(6.0));
    CHECK(l.academy.reached_share->groups == 1);
  }
  SECTION("another driver that was not promised says nothing") {
    for (int i : {1, 2, 3}) s[static_cast<std::size_t>(i)].loft = 12 * kDeg;
    CHECK(of(book_with(s)).academy.calibration.empty());
    s[0].promised = promised(Lever::both, 10.0, 12.0);
    const Lessons l = of(book_with(s));
    REQUIRE(l.academy.calibration.size() == 1);
    CHECK(l.academy.calibration[0].predicted_loft == 4.0);
    CHECK(l.academy.reached_share->mean == Approx(1.0).margin(0.02));  // 10 of 10, 6 of the swing's 6
  }
  SECTION("a driver alone stands in the calibration, not in the share that lessons reach") {
    s[3].loft = 12 * kDeg;
    s[0].promised = promised(Lever::loft, 10.0, 12.0);
    const Lessons l = of(book_with(s));
    CHECK(l.academy.calibration.size() == 1);
    CHECK_FALSE(l.academy.reached_share);
  }
}

TEST_CASE("the share reached falls with what falls short", "[lessons]") {
  std::vector<NamedBook> books;
  for (int p = 0; p < 12; ++p) {
    std::vector<BookedSession> s{session_of("2026-01-01", -4, 10), session_of("2026-02-01", -1, 12)};
    s[0].promised = promised(Lever::technique, 12.0);
    books.push_back({"a.json", book_with(s)});
  }
  const Pooled p = *lessons(books, plain_drive).academy.reached_share;
  CHECK(p.groups == 12);
  CHECK(p.mean == Approx(0.5).margin(0.1));  // 6 m of 12, a little of the prior's 1 in it
  CHECK(p.high < 0.8);
}
