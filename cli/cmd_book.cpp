#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <filesystem>
#include <ostream>

#include "commands.hpp"
#include "drive.hpp"
#include "layout.hpp"
#include "loftwright/book/history.hpp"
#include "loftwright/files/book_file.hpp"
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

// Whose book it is: written into a new one, compared with an old one, so that no session lands in another pupil's book.
void settle_pupil(const Values& values, Book& book) {
  const bool is_new = book.version == 1;
  if (is_new) {
    book.pupil =
        values.given("name") ? values.text("name") : std::filesystem::path(values.positional()).stem().string();
    book.handed = values.given("handed") ? handed_from(values) : Handed::right;
  }
  if (values.given("name") && values.text("name") != book.pupil) {
    throw InputError(fmt::format("--name: this is the book of '{}', not of '{}'", book.pupil, values.text("name")));
  }
  if (values.given("handed") && handed_from(values) != book.handed) {
    throw InputError(fmt::format("--handed: the pupil of this book plays {}-handed", key_of(book.handed)));
  }
}

BookedSession session_given(const Session& session, Handed handed, Sentences& said) {
  const Values& values = session.values;
  BookedSession out;
  out.date = day_given(session);
  if (values.given("notes")) out.notes = values.text("notes");
  if (values.given("loft")) out.loft = values.quantity("loft");
  out.head = values.text("head");
  const Course course = course_from(values);
  const Setting setting = setting_for(course, out.head, session.catalogue);
  if (course_given(values)) out.course = course;
  if (values.given("shots")) {
    const std::string file = values.text("shots");
    const ShotList list = list_from(session, file);
    said = remarks(list, file);
    const DeliveryBlock block = take_shots(out, file, list, odd_from(values), handed, setting);
    for (const std::string& sentence : remarks(block)) said.push_back(fmt::format("{}: {}", file, sentence));
  } else {
    out.delivery = delivery_from(values);
  }
  out.reference = reference_drive(out.delivery, handed, reference_setting(out.head, session.catalogue));
  return out;
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
  const LoadedBook kept = change_book(session.values.positional(), WhenMissing::begin, [&](Book& book) {
    settle_pupil(session.values, book);
    added = add_session(book, session_given(session, book.handed, said));
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
                                                     counted_sessions(kept.book.sessions.size())))) +
                           "\n" + table(sessions_table({added}, session.units).rows) + notes_of({added}) +
                           same_conditions(session));
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
              << same_conditions(session);
  return kDone;
}

int cmd_book_history(const Session& session) {
  const PageFile page(session);
  const Book book = book_given(session).book;
  if (session.json) {
    session.out << history_json(book, session.units);
  } else {
    session.out << title(book) << "\n";
    if (!book.sessions.empty()) session.out << table(history_table(book, session.units).rows) << "\n";
    for (const std::string& sentence : history_sentences(book, session.units)) session.out << wrapped(sentence);
    if (!book.sessions.empty())
      session.out << same_conditions(session) << "\n" << wrapped(cautions(session.units).front());
  }
  if (page.wanted()) page.write(history_page(book, session.catalogue, session.units));
  return kDone;
}

int cmd_book_remove(const Session& session) {
  const std::string& file = session.values.positional();
  const int number = static_cast<int>(session.values.integer("session"));
  const LoadedBook kept = change_book(file, WhenMissing::refuse, [&](Book& book) { remove_session(book, number); });
  return answer_change(
      session, kept,
      wrapped(printable(
          fmt::format("Session {} is taken out; the book of {} has {} left. 'loftwright book undo {}' brings it back.",
                      number, kept.book.pupil, counted_sessions(kept.book.sessions.size()), file))));
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
