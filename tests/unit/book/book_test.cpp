#include "loftwright/book/book.hpp"

#include <catch2/catch.hpp>

#include "books.hpp"
#include "loftwright/book/history.hpp"
#include "loftwright/files/columns_file.hpp"
#include "loftwright/files/shots_file.hpp"
#include "report/history_words.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

const Delivery kDown{82.0 * kMph, -4.0 * kDeg, 0.0, 0.0, 10.0 * kDeg, 0.0, 0.0};

BookedSession on(const std::string& date, double carry = 150.0) {
  BookedSession s;
  s.date = day(date);
  s.delivery = kDown;
  s.reference = {carry, carry + 20.0, "1"};
  return s;
}

Book book_of(const std::vector<BookedSession>& sessions) {
  Book book;
  for (const BookedSession& s : sessions) {
    ++book.version;
    add_session(book, s);
  }
  return book;
}

// Relative; 1e-12: rounding, 1e-4 and 1e-5: the digits of a number worked by hand.
bool near(double got, double wanted, double tolerance) {
  return std::abs(got - wanted) <= tolerance * std::abs(wanted);
}

std::vector<int> numbers(const Book& book) {
  std::vector<int> out;
  for (const BookedSession& s : book.sessions) out.push_back(s.number);
  return out;
}

ShotList list_of(const std::string& text) { return read_shots(text, built_in_columns()); }

const char* const kBoth =
    "Club Speed (mph), Attack (deg), Dynamic Loft (deg), Path (deg), Ball Speed (mph)\n"
    "82, -4, 10, 1, 117\n84, -2, 12, 3, 121\n83, -3, 11, 2, 119\n";

}  // namespace

TEST_CASE("the reference drive is the drive in still air at sea level") {
  const Drive drive = drive_from(kDown, Handed::right, default_setting());
  const ReferenceDrive reference =
      reference_drive(kDown, Handed::right, reference_setting("modern-driver", Catalogue()));
  CHECK(near(reference.carry, drive.flight.carry, 1e-12));
  CHECK(near(reference.total, drive.total, 1e-12));
  CHECK_FALSE(reference.program.empty());
}

TEST_CASE("a left-hander's mirrored delivery flies as far, and the hand matters off the toe") {
  Delivery d = kDown;
  d.path = 3.0 * kDeg;
  d.toe = 0.012;
  const auto carry = [](const Delivery& delivery, Handed handed) {
    return reference_drive(delivery, handed, reference_setting("modern-driver", Catalogue())).carry;
  };
  CHECK(carry(d, Handed::right) == carry(mirrored(d), Handed::left));
  CHECK(carry(d, Handed::right) != carry(d, Handed::left));
}

TEST_CASE("a reference drive of what cannot be is an error") {
  CHECK_THROWS_AS(reference_setting("no-such-head", Catalogue()), InputError);
  Delivery fast = kDown;
  fast.club_speed = 100.0;
  CHECK_THROWS_AS(reference_drive(fast, Handed::right, reference_setting("modern-driver", Catalogue())), InputError);
}

TEST_CASE("sessions stand by date, and a number is never given twice") {
  Book book = book_of({on("2026-02-01"), on("2026-01-01"), on("2026-02-01"), on("2026-03-01")});
  CHECK(numbers(book) == std::vector<int>{2, 1, 3, 4});
  ++book.version;
  remove_session(book, 4);
  ++book.version;
  CHECK(add_session(book, on("2025-12-31")).number == 6);
  CHECK(numbers(book) == std::vector<int>{6, 2, 1, 3});
}

TEST_CASE("taking out a session that is not there names those that are") {
  Book book = book_of({on("2026-02-01"), on("2026-01-01")});
  CHECK_THROWS_WITH(remove_session(book, 3), "there is no session 3; there are: 1, 2");
  Book empty;
  CHECK_THROWS_WITH(remove_session(empty, 3), "there is no session 3: the book is empty");
  CHECK(book.sessions.size() == 2);
}

TEST_CASE("a shot list gives the mean delivery, means and spreads") {
  BookedSession s;
  const auto said = remarks(take_shots(s, "list.csv", list_of(kBoth), Outliers::keep, Handed::right,
                                       reference_setting("modern-driver", Catalogue())));
  CHECK(near(s.delivery.club_speed, 83.0 * kMph, 1e-12));
  CHECK(near(s.delivery.attack, -3.0 * kDeg, 1e-12));
  CHECK(near(s.delivery.path, 2.0 * kDeg, 1e-12));
  CHECK(s.delivery.toe == 0.0);
  CHECK_FALSE(s.delivery_inferred);
  REQUIRE(said.size() == 1);
  CHECK(said[0] == "no readings of face, toe and high: taken as zero");
  REQUIRE(s.shots);
  CHECK(s.shots->file == "list.csv");
  CHECK(s.shots->counted == 3);
  REQUIRE(s.shots->readings.size() == 5);
  const auto& ball_speed = s.shots->readings.back();
  CHECK(ball_speed.reading == Reading::ball_speed);
  CHECK(ball_speed.summary.count == 3);
  CHECK(near(ball_speed.summary.mean, 119.0 * kMph, 1e-12));
  CHECK(near(ball_speed.summary.sd, 2.0 * kMph, 1e-12));  // of 117, 119, 121
}

TEST_CASE("a list of ball numbers gives the delivery behind them") {
  const Setting setting = reference_setting("modern-driver", Catalogue());
  const Drive drive = drive_from(kDown, Handed::right, setting);
  std::string text = "Ball Speed (m/s), Launch (deg), Spin (rpm)\n";
  for (int i = 0; i < 3; ++i) {
    text += fmt::format("{:.10f}, {:.10f}, {:.10f}\n", drive.launch.ball_speed, drive.launch.launch / kDeg,
                        drive.launch.spin / kRpm);
  }
  BookedSession s;
  const auto said = remarks(take_shots(s, "list.csv", list_of(text), Outliers::keep, Handed::right, setting));
  CHECK(s.delivery_inferred);
  REQUIRE_FALSE(said.empty());
  CHECK(said[0].find("worked out") != std::string::npos);
  // Ten digits in, through an iteration that stops at 1e-10 or better.
  CHECK(std::abs(s.delivery.club_speed - kDown.club_speed) < 1e-6);
  CHECK(std::abs(s.delivery.attack - kDown.attack) < 1e-6);
  CHECK(std::abs(s.delivery.dynamic_loft - kDown.dynamic_loft) < 1e-6);
  CHECK(s.shots->readings.size() == 3);  // as measured: what was worked out is not among them
}

TEST_CASE("rows set aside and outliers left out are counted") {
  std::string text = "Club Speed (mph), Attack (deg), Dynamic Loft (deg)\n900, 0, 12\n";
  for (int i = 0; i < 10; ++i) text += fmt::format("{}, {}, {}\n", 82.0 + 0.1 * i, -1.0 + 0.1 * i, 12.0 + 0.1 * i);
  text += "60, -0.5, 12.5\n";
  BookedSession s;
  take_shots(s, "list.csv", list_of(text), Outliers::leave_out, Handed::right,
             reference_setting("modern-driver", Catalogue()));
  CHECK(s.shots->counted == 10);
  CHECK(s.shots->set_aside == 1);
  CHECK(s.shots->left_out == 1);
  take_shots(s, "list.csv", list_of(text), Outliers::keep, Handed::right,
             reference_setting("modern-driver", Catalogue()));
  CHECK(s.shots->counted == 11);
  CHECK(s.shots->left_out == 0);
}

TEST_CASE("a shot list that says too little is refused") {
  BookedSession s;
  const Setting setting = reference_setting("modern-driver", Catalogue());
  const auto take = [&](const std::string& text) {
    take_shots(s, "list.csv", list_of(text), Outliers::keep, Handed::right, setting);
  };
  CHECK_THROWS_WITH(take("Club Speed (mph), Attack (deg)\n82, -4\n"),
                    Catch::Contains("a session needs club speed, attack and delivered loft"));
  CHECK_THROWS_WITH(take("Club Speed (mph), Attack (deg), Dynamic Loft (deg)\n900, -4, 10\n"),
                    "list.csv holds no shot that can be counted");
}

TEST_CASE("history finds the slope, its uncertainty and the best session") {
  // By hand: x = 1..5, y = 150 + {0, 4, 2, 6, 8}; Sxy/Sxx = 18/10; residuals {-0.4, 1.8, -2, 0.2, 0.4}: squares sum
  // to 7.6; se = sqrt(7.6/3/10) = 0.50332; t(0.975, 3) = 3.18245 (tables).
  const History h = history(book_of({on("2026-01-01", 150), on("2026-01-02", 154), on("2026-01-03", 152),
                                     on("2026-01-04", 156), on("2026-01-05", 158)}));
  REQUIRE(h.carry);
  CHECK(near(h.carry->slope, 1.8, 1e-12));
  CHECK(near(h.carry->standard_error, 0.50332, 1e-5));
  CHECK(near(h.carry->low, 1.8 - 3.18245 * 0.50332, 1e-4));
  CHECK(h.best == 4u);
  CHECK(h.one_program);
  CHECK(trend_sentence(h, UnitSystem::metres) == "Carry is rising: +1.8 m a session, 95 % interval +0.2 to +3.4 m.");
}

TEST_CASE("history says no more than the sessions allow") {
  const auto sentence = [](const std::vector<BookedSession>& sessions) {
    return trend_sentence(history(book_of(sessions)), UnitSystem::metres);
  };
  CHECK(sentence({}) == "No sessions yet.");
  CHECK(sentence({on("2026-01-01")}) == "One session: a trend takes a second one, and how sure it is a third.");
  CHECK(sentence({on("2026-01-01", 150), on("2026-01-02", 148)}) ==
        "Carry changed by -2.0 m from the first session to the second; how sure that is takes a third.");
  CHECK(sentence({on("2026-01-01", 150), on("2026-01-02", 154), on("2026-01-03", 150)})
            .starts_with("No trend of carry that can be told"));
  CHECK(sentence({on("2026-01-01", 150), on("2026-01-02", 145), on("2026-01-03", 140)})
            .starts_with("Carry is falling: -5.0 m a session"));
  std::vector<BookedSession> two{on("2026-01-01"), on("2026-01-02")};
  two[1].reference.program = "2";
  CHECK_FALSE(history(book_of(two)).one_program);
  // Order is by day, whatever the order of adding; of equals the first is best.
  const History h = history(book_of({on("2026-01-02", 160), on("2026-01-01", 150), on("2026-01-03", 160)}));
  CHECK(h.best == 1u);
  CHECK(near(h.carry->slope, 5.0, 1e-12));
}

TEST_CASE("a change of driver is marked and is no progress") {
  const auto with = [](const std::string& date, double carry, double loft_deg,
                       const std::string& head = "modern-driver") {
    BookedSession s = on(date, carry);
    if (loft_deg > 0.0) s.loft = loft_deg * kDeg;
    s.head = head;
    return s;
  };
  // Two yards a session, and ten for the driver of 12 deg: a single line would find 4.
  const Book book = book_of({with("2026-01-10", 150, 10.5), with("2026-01-31", 152, 10.5), with("2026-02-21", 164, 12),
                             with("2026-03-14", 166, 0), with("2026-03-28", 168, 12)});
  const History h = history(book);
  CHECK(h.driver == std::vector<std::size_t>{0, 0, 1, 1, 1});  // without a loft it is the one in use
  REQUIRE(h.carry);
  CHECK(h.carry->slope == Approx(2.0));
  CHECK(h.carry->has_doubt());
  CHECK(changes_driver(h, 2));
  CHECK_FALSE(changes_driver(h, 3));
  const auto said = history_sentences(book, UnitSystem::metres);
  CHECK(said[0].starts_with("Carry is rising: +2.0 m a session"));
  CHECK(std::count_if(said.begin(), said.end(),
                      [](const std::string& s) { return s.find("another driver") != std::string::npos; }) == 1);
  CHECK(said[2] ==
        "From session 3 of 2026-02-21 on another driver (modern-driver, 12.0 deg; before: modern-driver, 10.5 deg): "
        "the step to it is left out of what a session brings.");
  CHECK(history_table(book, UnitSystem::metres).rows[4].back() == "other driver, +12.0 m");
  CHECK(history_table(book, UnitSystem::metres).rows[3].back() == "+2.0 m");
  // Back to the first driver is back on its line; another head is another driver, whatever its loft.
  CHECK(history(book_of({with("2026-01-10", 150, 10.5), with("2026-01-31", 164, 12), with("2026-02-21", 154, 10.5),
                         with("2026-03-14", 155, 10.5, "other")}))
            .driver == std::vector<std::size_t>{0, 1, 0, 2});
  CHECK(history(book_of({with("2026-01-10", 150, 0), with("2026-01-31", 152, 10.5), with("2026-02-21", 164, 12)}))
            .driver == std::vector<std::size_t>{0, 0, 1});
  // Many changes are counted, not told one by one.
  std::vector<BookedSession> many;
  for (int i = 0; i < 20; ++i) many.push_back(with(fmt::format("2026-03-{:02}", i + 1), 150 + i, 9 + i % 4));
  const auto few_words = history_sentences(book_of(many), UnitSystem::metres);
  CHECK(few_words.size() == 3);
  CHECK(few_words[2] ==
        "The driver was changed 19 times: the steps between drivers are left out of what a session brings.");
  // Nothing to hold against each other.
  const Book all_new =
      book_of({with("2026-01-10", 150, 9), with("2026-01-31", 164, 10.5), with("2026-02-21", 164, 12)});
  CHECK_FALSE(history(all_new).carry);
  CHECK(trend_sentence(history(all_new), UnitSystem::metres).starts_with("Every session had another driver"));
  const Book three = book_of({with("2026-01-10", 150, 9), with("2026-01-31", 153, 9), with("2026-02-21", 164, 12)});
  CHECK(trend_sentence(history(three), UnitSystem::metres) ==
        "Carry changed by +3.0 m a session with the same driver; how sure that is takes another session with it.");
}

TEST_CASE("a turn of the sleeve is marked as a driver of its own, and its loft is the club's share") {
  const auto with = [](const std::string& date, double carry, const std::string& setting, double loft_deg,
                       double face_deg = 0.0) {
    BookedSession s = on(date, carry);
    s.loft = loft_deg * kDeg;
    if (!setting.empty()) s.sleeve = BookedSleeve{setting, 9.5 * kDeg, face_deg * kDeg};
    return s;
  };
  Book book = book_of({with("2026-01-10", 150, "0", 9.5), with("2026-01-31", 156, "+1", 10.5, -0.7),
                       with("2026-02-21", 157, "+1", 10.5, -0.7), with("2026-03-14", 158, "closed", 9.5, -1.5)});
  CHECK(history(book).driver == std::vector<std::size_t>{0, 1, 1, 2});  // closed turns the face alone
  const auto said = history_sentences(book, UnitSystem::metres);
  const std::string first =
      "From session 2 of 2026-01-31 on another setting of the driver (modern-driver, 9.5 deg set to +1, which makes "
      "10.5 deg; before: modern-driver, 9.5 deg set to 0): the step to it is left out of what a session brings.";
  CHECK(std::count(said.begin(), said.end(), first) == 1);
  // The sleeve's degree of loft and its turn of the face are the club's, not the hands' and the face's.
  const auto reference = [](const std::string&) { return std::optional(default_setting()); };
  for (const Handed handed : {Handed::right, Handed::left}) {
    book.handed = handed;
    Delivery& turned = book.sessions[1].delivery;
    turned = book.sessions[0].delivery;
    turned.dynamic_loft += 1.0 * kDeg;
    turned.face += (handed == Handed::left ? 0.7 : -0.7) * kDeg;
    const std::vector<DriverStep> steps = driver_steps(book, history(book), reference);
    REQUIRE_FALSE(steps.empty());
    CHECK(steps[0].club_known);
    CHECK(steps[0].shares[Factor::club].carry == Approx(steps[0].change.carry));
    CHECK(std::abs(steps[0].shares[Factor::hands].carry) < 1e-9);  // rounding
    CHECK(std::abs(steps[0].shares[Factor::face].carry) < 1e-9);
  }
  book.sessions[0].sleeve.reset();  // nobody said how it was set: by its loft it may be the last one
  CHECK(history(book).driver == std::vector<std::size_t>{0, 1, 1, 0});

  // Then the turn of the face is the pupil's, as far as anyone knows.
  const std::vector<DriverStep> steps = driver_steps(book, history(book), reference);
  REQUIRE_FALSE(steps.empty());
  CHECK(std::abs(steps[0].shares[Factor::face].carry) > 1e-3);
}

TEST_CASE("a session that is there already is found by its numbers") {
  BookedSession typed = on("2026-01-10"), listed = on("2026-01-10");
  listed.shots = BookedShots{"monday.csv", 12, 0, 0, {}};
  Book book = book_of({typed, listed});
  const auto twin_of = [&](BookedSession s, const std::string& date) {
    s.date = day(date);
    ++book.version;
    s = add_session(book, s);
    const BookedSession* twin = same_session(book, s);
    const int number = twin ? twin->number : 0;
    remove_session(book, s.number);
    return number;
  };
  CHECK(twin_of(typed, "2026-01-10") == 1);
  CHECK(twin_of(typed, "2026-01-11") == 0);  // whoever types 82 and -4 may well do so twice
  listed.shots->file = "a copy of monday.csv";
  CHECK(twin_of(listed, "2026-02-11") == 2);  // a list's mean has its digits
  listed.delivery.attack *= 1.0 + 1e-13;      // those that a file keeps
  CHECK(twin_of(listed, "2026-01-10") == 2);
  listed.delivery.attack *= 1.0 + 1e-6;
  CHECK(twin_of(listed, "2026-01-10") == 0);
}

TEST_CASE("a session is corrected in its place, with its number") {
  const Setting setting = reference_setting("modern-driver", Catalogue());
  Book book = book_of({on("2026-01-10"), on("2026-01-20"), on("2026-01-30")});
  BookedSession s = session_of(book, 2);
  s.date = day("2026-02-10");
  s.loft = 12 * kDeg;
  s.notes = "the 12 deg driver it was";
  const BookedSession kept = edit_session(book, s, setting);
  CHECK(numbers(book) == std::vector<int>{1, 3, 2});  // by day
  CHECK(kept.number == 2);
  CHECK(session_of(book, {}).number == 2);
  CHECK(kept.reference.carry == 150.0);  // nothing that it hangs on has changed
  CHECK(kept.reference.program == "1");
  s = kept;
  s.delivery.attack = -2 * kDeg;
  const BookedSession other = edit_session(book, s, setting);
  const ReferenceDrive anew = reference_drive(other.delivery, Handed::right, setting);
  CHECK(other.reference.carry == anew.carry);
  CHECK(other.reference.total == anew.total);
  CHECK(other.reference.program == anew.program);
  // Two of one day stand by number.
  s = session_of(book, 3);
  s.date = day("2026-01-10");
  edit_session(book, s, setting);
  CHECK(numbers(book) == std::vector<int>{1, 3, 2});
  s = session_of(book, 1);
  s.course = Course{};
  edit_session(book, s, setting);
  CHECK_THROWS_WITH(edit_session(book, s, setting), "session 1 is so already: there is nothing to correct");
  s.course->conditions.wind.speed = 3.0;
  CHECK(edit_session(book, s, setting).course->conditions.wind.speed == 3.0);
  s.number = 9;
  CHECK_THROWS_WITH(edit_session(book, s, setting), Catch::Contains("there is no session 9; there are: 1, 2, 3"));
  CHECK_THROWS_WITH(session_of(Book{}, {}), "there is no session: the book is empty");
}

TEST_CASE("what only new shots can correct is refused, and nothing is changed") {
  const Setting setting = reference_setting("modern-driver", Catalogue());
  BookedSession listed = on("2026-01-10"), inferred = on("2026-01-20");
  listed.shots = BookedShots{"monday.csv", 12, 0, 0, {}};
  inferred.shots = BookedShots{"ball.csv", 12, 0, 0, {}};
  inferred.delivery_inferred = true;
  Book book = book_of({listed, inferred});
  BookedSession s = session_of(book, 1);
  s.delivery.attack += 0.1 * kDeg;
  CHECK_THROWS_WITH(edit_session(book, s, setting), Catch::Contains("is the mean of monday.csv"));
  s = session_of(book, 2);
  s.head = "other";
  CHECK_THROWS_WITH(edit_session(book, s, setting), Catch::Contains("worked back from ball numbers with the head"));
  s = session_of(book, 2);
  s.course = Course{.ball = "other", .conditions = {}};
  CHECK_THROWS_WITH(edit_session(book, s, setting), Catch::Contains("worked back from ball numbers with the ball"));
  CHECK(session_of(book, 1).delivery.attack == kDown.attack);
  // The loft as marked is a note for both; another head of a measured delivery another drive.
  for (const int number : {1, 2}) {
    s = session_of(book, number);
    s.loft = 10.5 * kDeg;
    CHECK(edit_session(book, s, setting).reference.carry == 150.0);
  }
  s = session_of(book, 1);
  s.head = "other";
  CHECK(edit_session(book, s, setting).reference.carry != 150.0);
}

TEST_CASE("a step to another driver is taken apart as strike takes two strikes apart") {
  const auto with = [](const std::string& date, double attack_deg, double dynamic_deg, double loft_deg, double mph,
                       const std::string& head = "modern-driver") {
    BookedSession s = on(date);
    s.delivery = {mph * kMph, attack_deg * kDeg, 0, 0, dynamic_deg * kDeg, 0, 0};
    if (loft_deg > 0.0) s.loft = loft_deg * kDeg;
    s.head = head;
    return s;
  };
  const Setting setting = default_setting();
  Setting small = setting;
  small.head.restitution -= 0.05;
  const auto heads = [&](const std::string& head) -> std::optional<Setting> {
    return head == "gone" ? std::nullopt : std::optional(head == "dead" ? small : setting);
  };
  const Book book = book_of({with("2026-01-10", -4, 9.5, 9.5, 82), with("2026-01-20", -3.5, 9.9, 0, 82),
                             with("2026-02-10", -1, 15, 12, 83), with("2026-03-10", -1, 15, 12, 83, "dead"),
                             with("2026-04-10", -1, 15, 12, 83, "gone")});
  const History h = history(book);
  CHECK(h.loft == std::vector<std::optional<double>>{9.5 * kDeg, 12 * kDeg, 12 * kDeg, 12 * kDeg});
  const auto steps = driver_steps(book, h, heads);
  REQUIRE(steps.size() == 3);

  CHECK(steps[0].session == 2);
  CHECK(steps[0].club_known);  // the loft in use, where a session does not say it
  SharesOfChange change({book.sessions[1].delivery, setting, 9.5 * kDeg},
                        {book.sessions[2].delivery, setting, 12 * kDeg}, Handed::right);
  const Shares who = change.by_who();
  double sum = 0.0;
  for (const Factor f : kAllOf<Factor>) {
    CHECK(steps[0].shares[f].carry == who[f].carry);
    sum += steps[0].shares[f].carry;
  }
  CHECK(steps[0].shares[Factor::swing].carry > 1.0);
  CHECK(steps[0].shares[Factor::club].carry > 1.0);
  CHECK(steps[0].shares[Factor::conditions].carry == 0.0);
  const double whole = drive_from(book.sessions[2].delivery, Handed::right, setting).flight.carry -
                       drive_from(book.sessions[1].delivery, Handed::right, setting).flight.carry;
  CHECK(steps[0].change.carry == Approx(whole).epsilon(1e-9));
  CHECK(steps[0].change.carry == Approx(sum));
  CHECK(steps[0].shares_otherwise[0][Factor::swing].carry < steps[0].shares[Factor::swing].carry);

  // Another head and nothing else: all of it is the head's.
  CHECK(steps[1].shares[Factor::conditions].carry == Approx(steps[1].change.carry).epsilon(1e-9));
  CHECK(steps[1].change.carry < -3.0);
  CHECK_FALSE(steps[2].known);

  const auto said = driver_step_sentences(book, steps, UnitSystem::metres);
  REQUIRE(said.size() == 3);
  CHECK(said[0].starts_with("Who made the step to session 3, +"));
  CHECK(said[0].find("swing +") != std::string::npos);
  CHECK(said[1].find("by the model: head -") != std::string::npos);
  CHECK(said[2].find("cannot be told") != std::string::npos);
  const TextTable table = driver_steps_table(book, steps, UnitSystem::metres);
  REQUIRE(table.rows.size() == 3);
  CHECK(table.rows[1][0] == "2 to 3");
}

TEST_CASE("of many changes of driver the latest are taken apart") {
  std::vector<BookedSession> many;
  for (int i = 0; i < 27; ++i) {
    many.push_back(on(fmt::format("2026-03-{:02}", i + 1)));
    many.back().loft = (9 + i % 2) * kDeg;
  }
  const Book book = book_of(many);
  const auto steps = driver_steps(book, history(book), [](const std::string&) { return default_setting(); });
  REQUIRE(steps.size() == kMostDriverSteps);
  CHECK(steps.back().session == 26);
  CHECK(driver_step_sentences(book, steps, UnitSystem::metres).empty());
}

TEST_CASE("measured carry has a column of its own") {
  BookedSession typed = on("2026-01-10"), listed = on("2026-01-20", 155.0);
  listed.shots = BookedShots{"monday.csv", 12, 0, 0, {{Reading::carry, {12, 171.0, 6.0, 1.7}}}};
  const TextTable table = history_table(book_of({typed, listed}), UnitSystem::metres);
  CHECK(table.rows[0] == std::vector<std::string>{"", "", "model's", "model's", "model's carry", "measured"});
  CHECK(table.rows[2].back() == "-");
  CHECK(table.rows[3] == std::vector<std::string>{"2", "2026-01-20", "155 m", "175 m", "+5.0 m", "171 m"});
  CHECK(history_table(book_of({typed}), UnitSystem::metres).rows[0].back() == "model's carry");
}
