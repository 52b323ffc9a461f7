// What a book says, as text for people: what the screen and the page both lay out.
#pragma once

#include <string>
#include <vector>

#include "loftwright/book/history.hpp"
#include "loftwright/files/catalogue.hpp"
#include "report/text_table.hpp"

namespace loftwright {

// Rising, falling, or not to be told from chance yet; with what a session brings and its 95 % interval.
std::string trend_sentence(const History& history, UnitSystem units);

// The trend, the best session so far, and what to be careful about: a sentence each.
std::vector<std::string> history_sentences(const Book& book, UnitSystem units);

// The steps to another driver, taken apart with the heads of the catalogue.
std::vector<DriverStep> driver_steps_of(const Book& book, const Catalogue& catalogue);
// What of each step was the swing's and what the club's; nothing where there are too many to tell one by one.
std::vector<std::string> driver_step_sentences(const Book& book, const std::vector<DriverStep>& steps,
                                               UnitSystem units);
// Who made each step, of carry. Empty without steps.
TextTable driver_steps_table(const Book& book, const std::vector<DriverStep>& steps, UnitSystem units);

// [m] as measured on the day, the mean of the session's list; none: it was not.
std::optional<double> measured_carry(const BookedSession& session);

// That a session is on another driver than the one before it; empty when it is not.
std::string other_driver_words(const Book& book, int number);

// "Marlow Fenn (invented), right-handed: 5 sessions, 2026-01-10 to 2026-03-28"
std::string book_title(const Book& book);

// "technique, attack +1.0 deg with 10.5 deg of loft: +18.0 yd of carry, 8 in 10 +12.0 to +25.0 yd"
std::string promise_words(const Promise& promise, UnitSystem units);

// What the carry and total of every session hold for.
std::string same_conditions_words(const Catalogue& catalogue, UnitSystem units);

// Carry and total, session by session; and the delivery of each. Empty without sessions.
TextTable history_table(const Book& book, UnitSystem units);
TextTable sessions_table(const std::vector<BookedSession>& sessions, UnitSystem units);

}  // namespace loftwright
