#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <filesystem>
#include <ostream>

#include "commands.hpp"
#include "core/text.hpp"
#include "drive.hpp"
#include "layout.hpp"
#include "loftwright/book/history.hpp"
#include "loftwright/files/advice_file.hpp"
#include "loftwright/files/book_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "loftwright/files/shots_file.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/pages.hpp"
#include "loftwright/report/words.hpp"
#include "page_file.hpp"
#include "report/history_words.hpp"
#include "shot_lists.hpp"

namespace loftwright::cli {

namespace {

using Sentences = std::vector<std::string>;

constexpr std::pair<std::string_view, double Delivery::*> kDeliveryOptions[] = {
    {"club-speed", &Delivery::club_speed},
    {"attack", &Delivery::attack},
    {"dynamic-loft", &Delivery::dynamic_loft},
    {"path", &Delivery::path},
    {"face", &Delivery::face},
    {"toe", &Delivery::toe},
    {"high", &Delivery::high}};

// Today where the user is: the library knows no clock.
Day today() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  return {std::chrono::year(local.tm_year + 1900), std::chrono::month(static_cast<unsigned>(local.tm_mon) + 1),
          std::chrono::day(static_cast<unsigned>(local.tm_mday))};
}

Day day_given(const Session& session) {
  const Day now = today();
  if (!session.values.given("date")) return now;
  const Day day = session.values.day("date");
  if (day > now) warn(session, fmt::format("--date: {} is after today, {}", text_of(day), text_of(now)));
  return day;
}

// The pupil's file beside a session, and where it disagrees with what is there.
std::optional<Pupil> pupil_given(const Session& session, Sentences& said) {
  if (!session.values.given("pupil")) return std::nullopt;
  const std::string file = session.values.text("pupil");
  Findings warnings;
  Pupil pupil = load_pupil(file, session.catalogue, &warnings);
  for (const Finding& f : warnings) said.push_back(fmt::format("{}: {}", file, words_of(f)));
  if (pupil.head_numbers)
    said.push_back(
        fmt::format("{}: a book keeps no numbers of a head; '{}' is taken for its carry and total", file, pupil.head));
  return pupil;
}

void check_hand(std::string_view option, Handed handed, const Book& book) {
  if (handed != book.handed)
    throw InputError(fmt::format("--{}: the pupil of this book plays {}-handed", option, key_of(book.handed)));
}

// Says or refuses what speaks against the pupil's file being of the pupil of this book.
void compare_pupil(const std::optional<Pupil>& pupil, const Book& book, Sentences& said) {
  if (!pupil) return;
  check_hand("pupil", pupil->handed, book);
  if (!pupil->name.empty() && pupil->name != book.pupil)
    said.push_back(fmt::format("this is the book of '{}', the pupil's file is of '{}'", book.pupil, pupil->name));
}

// Whose book it is: written into a new one, compared with an old one, so that no session lands in another pupil's book.
void settle_pupil(const Values& values, const std::optional<Pupil>& pupil, Book& book, Sentences& said) {
  const bool is_new = book.version == 1;
  if (is_new) {
    book.pupil = values.given("name")            ? values.text("name")
                 : pupil && !pupil->name.empty() ? pupil->name
                                                 : std::filesystem::path(values.positional()).stem().string();
    book.handed = values.given("handed") ? handed_from(values) : pupil ? pupil->handed : Handed::right;
  }
  if (values.given("name") && values.text("name") != book.pupil) {
    throw InputError(fmt::format("--name: this is the book of '{}', not of '{}'", book.pupil, values.text("name")));
  }
  if (values.given("handed")) check_hand("handed", handed_from(values), book);
  compare_pupil(pupil, book, said);
}

// The driver of the pupil's file, and what is typed of it in place of what that says.
void put_club(const Values& values, const std::optional<Pupil>& pupil, BookedSession& out, Sentences& said) {
  if (pupil) {
    out.head = pupil->head;
    out.loft = pupil->club_loft;
    out.sleeve.reset();
    if (!pupil->club_setting.empty()) out.sleeve = {pupil->club_setting, marked_loft(*pupil), pupil->club_face};
  }
  const bool head_typed = values.given("head"), loft_typed = values.given("loft");
  if (head_typed) out.head = values.text("head");
  if (loft_typed) out.loft = values.quantity("loft");
  constexpr double kSame = 1e-6;  // [rad] rounding of files
  const bool other_loft = loft_typed && !(pupil && std::abs(*out.loft - pupil->club_loft) <= kSame),
             other_head = head_typed && !(pupil && out.head == pupil->head);
  if (other_loft || other_head) out.sleeve.reset();  // another driver
  if (!pupil) return;
  if (other_loft)
    said.push_back(fmt::format("--loft is {:.4g} deg, the pupil's file says {:.4g} deg: {:.4g} deg is kept",
                               *out.loft / kDegree, pupil->club_loft / kDegree, *out.loft / kDegree));
  if (other_head)
    said.push_back(
        fmt::format("--head is '{}', the pupil's file says '{}': '{}' is kept", out.head, pupil->head, out.head));
}

// What the advice of --advice promised; none, and that is said, where it is to leave things.
std::optional<Promise> promise_given(const Session& session, const BookedSession& booked, Handed handed,
                                     const Setting& reference, Sentences& said) {
  const std::string file = session.values.text("advice");
  Findings findings;
  const auto advice = read_advice(read_text(file), findings);
  if (has_errors(findings)) throw FileError(file, findings);
  if (!advice) {
    said.push_back(fmt::format("{} advises to leave things: nothing is promised, and nothing of it is kept", file));
    return std::nullopt;
  }
  try {
    return promise_for(booked, handed, *advice, reference);
  } catch (const InputError& error) {
    throw InputError(fmt::format("{}: {}", file, error.what()));
  }
}

// Whether a club speed is another pupil's.
void doubt_speed(const Session& session, double now, double before, std::string_view whose, Sentences& said) {
  constexpr double kOtherPupil = 0.1;  // [-] of club speed from one session to the next (estimate)
  if (std::abs(now / before - 1.0) <= kOtherPupil) return;
  said.push_back(fmt::format("a club speed of {} is far from the {} of {}: is it the same pupil?",
                             quantity(Shown::speed, now, session.units), quantity(Shown::speed, before, session.units),
                             whose));
}

// The session that stands before another in the book; null for the first.
const BookedSession* session_before(const Book& book, const BookedSession& session) {
  const auto at = std::find_if(book.sessions.begin(), book.sessions.end(),
                               [&](const BookedSession& s) { return s.number == session.number; });
  return at == book.sessions.begin() || at == book.sessions.end() ? nullptr : &*(at - 1);
}

BookedSession session_given(const Session& session, const std::optional<Pupil>& pupil, Handed handed, Sentences& said) {
  const Values& values = session.values;
  BookedSession out;
  out.date = day_given(session);
  if (values.given("notes")) out.notes = values.text("notes");
  out.head = values.text("head");
  put_club(values, pupil, out, said);
  const Course usual = pupil ? Course{pupil->ball, pupil->conditions} : Course{};
  if (pupil || course_given(values)) out.course = course_from(values, usual);
  const Setting setting = setting_for(out.course.value_or(Course{}), out.head, session.catalogue);
  if (values.given("shots")) {
    const std::string file = values.text("shots");
    const ShotList list = list_from(session, file);
    for (const std::string& sentence : remarks(list, file)) said.push_back(sentence);
    const DeliveryBlock block = take_shots(out, file, list, odd_from(values), handed, setting);
    for (const std::string& sentence : remarks(block)) said.push_back(fmt::format("{}: {}", file, sentence));
  } else {
    out.delivery = delivery_from(values);
  }
  if (pupil) doubt_speed(session, out.delivery.club_speed, pupil->delivery.club_speed, "the pupil's file", said);
  const Setting reference = reference_setting(out.head, session.catalogue);
  out.reference = reference_drive(out.delivery, handed, reference);
  if (values.given("advice")) out.promised = promise_given(session, out, handed, reference, said);
  return out;
}

// Promised and kept now, reckoned by this program throughout; of advice to leave things nothing, whatever was there.
void put_promise(const Session& session, BookedSession& s, Handed handed, Sentences& said) {
  const Setting reference = reference_setting(s.head, session.catalogue);
  BookedSession now = s;
  now.reference = reference_drive(s.delivery, handed, reference);
  const bool had_one = s.promised.has_value();
  s.promised = promise_given(session, now, handed, reference, said);
  if (had_one && !s.promised) said.emplace_back("what was promised before is taken out");
}

// A session with what was given of it in place of what was there.
BookedSession corrected(const Session& session, BookedSession s, const std::optional<Pupil>& pupil, Handed handed,
                        Sentences& said) {
  const Values& values = session.values;
  const std::vector<std::string> clear = values.texts("clear");
  const auto cleared = [&](std::string_view what) {
    if (std::find(clear.begin(), clear.end(), what) == clear.end()) return false;
    const bool both =
        what == "course" ? course_given(values) : values.given(what) || (what == "loft" && values.given("pupil"));
    if (both) throw UsageError(fmt::format("--clear {}: it is given a new value too", what));
    return true;
  };
  if (values.given("date")) s.date = day_given(session);
  if (values.given("notes")) s.notes = values.text("notes");
  put_club(values, pupil, s, said);
  if (course_given(values)) s.course = course_from(values, s.course.value_or(Course{}));
  if (cleared("notes")) s.notes.clear();
  if (cleared("loft")) s.loft.reset(), s.sleeve.reset();
  if (cleared("course")) s.course.reset();
  for (const auto& [name, of] : kDeliveryOptions) {
    if (values.given(name)) s.delivery.*of = values.quantity(name);
  }
  if (s.course) setting_for(*s.course, s.head, session.catalogue);  // they must be there
  if (cleared("advice")) s.promised.reset();
  if (values.given("advice")) put_promise(session, s, handed, said);
  return s;
}

std::string title(const Book& book) { return wrapped(printable(book_title(book))); }

std::string notes_of(const std::vector<BookedSession>& sessions) {
  std::string out;
  for (const BookedSession& s : sessions) {
    if (!s.notes.empty())
      out += wrapped(printable(s.notes), fmt::format("  {:<3}  {}", s.number, text_of(s.date)) + "  ");
  }
  return out.empty() ? "" : "\n" + section("Notes", out);
}

std::string promises_of(const std::vector<BookedSession>& sessions, UnitSystem units) {
  std::string out;
  for (const BookedSession& s : sessions) {
    if (s.promised)
      out += wrapped(promise_words(*s.promised, units), fmt::format("  {:<3}  {}", s.number, text_of(s.date)) + "  ");
  }
  return out.empty() ? "" : "\n" + section("Promised", out);
}

// What the carry and total of every session hold for.
std::string same_conditions(const Session& session) {
  return "\n" + wrapped(same_conditions_words(session.catalogue, session.units));
}

void warn_all(const Session& session, const Sentences& sentences) {
  for (const std::string& sentence : sentences) warn(session, sentence);
}

// A change is answered by the book as it is now, for a program, or by what was done.
int answer_change(const Session& session, const LoadedBook& kept, const std::string& text) {
  warn_all(session, kept.warnings);
  session.out << (session.json ? book_text(kept.book) : text);
  session.kept = "the change is kept";
  return kDone;
}

LoadedBook book_given(const Session& session) {
  LoadedBook loaded = load_book(session.values.positional());
  warn_all(session, loaded.warnings);
  return loaded;
}

}  // namespace

int cmd_book_add(const Session& session) {
  Sentences said;
  BookedSession added;
  const std::optional<Pupil> pupil = pupil_given(session, said);
  const LoadedBook kept = change_book(session.values.positional(), WhenMissing::begin, [&](Book& book) {
    settle_pupil(session.values, pupil, book, said);
    added = add_session(book, session_given(session, pupil, book.handed, said));
    if (const BookedSession* before = session_before(book, added); before && !pupil) {
      doubt_speed(session, added.delivery.club_speed, before->delivery.club_speed,
                  fmt::format("session {} before it", before->number), said);
    }
    if (const std::string sentence = other_driver_words(book, added.number); !sentence.empty())
      said.push_back(sentence);
    if (const BookedSession* twin = same_session(book, added)) {
      said.push_back(
          fmt::format("session {} has the very same numbers as session {} of {}: if it is the same one again, "
                      "'loftwright book undo {}' takes "
                      "it out",
                      added.number, twin->number, text_of(twin->date), session.values.positional()));
    }
  });
  warn_all(session, said);
  return answer_change(session, kept,
                       wrapped(printable(fmt::format("Kept in the book of {}, which now has {}:", kept.book.pupil,
                                                     how_many(kept.book.sessions.size(), "session")))) +
                           "\n" + table(sessions_table({added}, session.units).rows) + notes_of({added}) +
                           promises_of({added}, session.units) + same_conditions(session));
}

int cmd_book_list(const Session& session) {
  const Book book = book_given(session).book;
  if (session.json) {
    session.out << book_text(book);
    return kDone;
  }
  session.out << title(book);
  if (book.sessions.empty()) return kDone;
  session.out << "\n"
              << table(sessions_table(book.sessions, session.units).rows) << notes_of(book.sessions)
              << promises_of(book.sessions, session.units) << same_conditions(session);
  return kDone;
}

int cmd_book_history(const Session& session) {
  const PageFile page(session);
  const Book book = book_given(session).book;
  if (session.json) {
    session.out << history_json(book, session.catalogue, session.units);
  } else {
    session.out << title(book) << "\n";
    const std::vector<DriverStep> steps = driver_steps_of(book, session.catalogue);
    if (!book.sessions.empty()) session.out << laid_out(history_table(book, session.units)) << "\n";
    for (const std::string& sentence : history_sentences(book, session.units)) session.out << wrapped(sentence);
    for (const std::string& sentence : driver_step_sentences(book, steps, session.units))
      session.out << wrapped(sentence);
    const std::string apart = laid_out(driver_steps_table(book, steps, session.units));
    if (!apart.empty()) session.out << "\n" << apart;
    if (!book.sessions.empty())
      session.out << same_conditions(session) << "\n" << wrapped(cautions(session.units).front());
  }
  if (page.wanted()) page.write(history_page(book, session.catalogue, session.units));
  return kDone;
}

int cmd_book_edit(const Session& session) {
  const std::string& file = session.values.positional();
  const int number = static_cast<int>(session.values.integer("session"));
  BookedSession before, after;
  Sentences said;
  const std::optional<Pupil> pupil = pupil_given(session, said);
  const LoadedBook kept = change_book(file, WhenMissing::refuse, [&](Book& book) {
    before = session_of(book, number);
    compare_pupil(pupil, book, said);
    BookedSession wanted = corrected(session, before, pupil, book.handed, said);
    const Setting reference = reference_setting(wanted.head, session.catalogue);
    after = edit_session(book, std::move(wanted), reference);
  });
  warn_all(session, said);
  const bool anew = after.reference.carry != before.reference.carry || after.reference.total != before.reference.total;
  return answer_change(session, kept,
                       wrapped(printable(fmt::format(
                           "Session {} in the book of {} is corrected{}; 'loftwright book undo {}' takes that "
                           "back:",
                           number, kept.book.pupil, anew ? ", and its carry and total are computed anew" : "", file))) +
                           "\n" + table(sessions_table({after}, session.units).rows) + notes_of({after}) +
                           promises_of({after}, session.units) + same_conditions(session));
}

int cmd_book_remove(const Session& session) {
  const std::string& file = session.values.positional();
  const int number = static_cast<int>(session.values.integer("session"));
  const LoadedBook kept = change_book(file, WhenMissing::refuse, [&](Book& book) { remove_session(book, number); });
  return answer_change(
      session, kept,
      wrapped(printable(
          fmt::format("Session {} is taken out; the book of {} has {} left. 'loftwright book undo {}' brings it back.",
                      number, kept.book.pupil, how_many(kept.book.sessions.size(), "session"), file))));
}

int cmd_book_undo(const Session& session) {
  const LoadedBook kept = undo_change(session.values.positional());
  const std::string done = kept.restored ? wrapped(
                                               "Nothing was taken back: the file was damaged or missing, and the book "
                                               "is now as it was before its last change.")
                                         : "The last change is taken back; undoing again would bring it back.\n";
  return answer_change(session, kept, done + title(kept.book));
}

int cmd_book_export(const Session& session) {
  const Book book = book_given(session).book;
  session.out << (session.json ? book_text(book)
                               : book_csv(book, session.values.given("units") ? session.units : UnitSystem::metres));
  return kDone;
}

}  // namespace loftwright::cli
