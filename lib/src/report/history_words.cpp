#include "report/history_words.hpp"

#include <fmt/format.h>

#include "loftwright/report/words.hpp"

namespace loftwright {

namespace {

std::string driver_words(const BookedSession& s) {
  return s.loft ? fmt::format("{}, {}", s.head, quantity(Shown::angle, *s.loft, UnitSystem::yards)) : s.head;
}

std::vector<std::string> driver_sentences(const Book& book, const History& h) {
  constexpr std::size_t kMost = 3;  // told one by one
  std::vector<std::string> out;
  std::size_t changes = 0;
  for (std::size_t i = 1; i < book.sessions.size(); ++i) {
    if (!changes_driver(h, i) || ++changes > kMost) continue;
    const BookedSession &s = book.sessions[i], &before = book.sessions[i - 1];
    out.push_back(
        fmt::format("From session {} of {} on another driver ({}; before: {}): the step to it is left out of what a "
                    "session brings.",
                    s.number, text_of(s.date), driver_words(s), driver_words(before)));
  }
  if (changes <= kMost) return out;
  return {fmt::format(
      "The driver was changed {} times: the steps between drivers are left out of what a session brings.", changes)};
}

}  // namespace

std::string trend_sentence(const History& history, UnitSystem units) {
  if (!history.best) return "No sessions yet.";
  const std::size_t sessions = history.driver.size();
  if (!history.carry && sessions > 1)
    return "Every session had another driver: a trend takes two with the same one, and how sure it is a third.";
  if (!history.carry) return "One session: a trend takes a second one, and how sure it is a third.";
  const Trend& t = *history.carry;
  const auto shown = [&](double slope) { return quantity(Shown::gain, slope, units, Sign::always); };
  if (!t.has_doubt() && sessions > 2) {
    return fmt::format(
        "Carry changed by {} a session with the same driver; how sure that is takes another session with it.",
        shown(t.slope));
  }
  if (!t.has_doubt()) {
    return fmt::format("Carry changed by {} from the first session to the second; how sure that is takes a third.",
                       shown(t.slope));
  }
  const std::string interval = fmt::format("{} a session, 95 % interval {} to {}", shown(t.slope),
                                           number(Shown::gain, t.low, units, Sign::always), shown(t.high));
  if (t.low > 0.0) return fmt::format("Carry is rising: {}.", interval);
  if (t.high < 0.0) return fmt::format("Carry is falling: {}.", interval);
  return fmt::format("No trend of carry that can be told from chance yet: {}.", interval);
}

std::vector<std::string> history_sentences(const Book& book, UnitSystem units) {
  const History h = history(book);
  std::vector<std::string> out{trend_sentence(h, units)};
  if (!h.best) return out;
  const BookedSession& best = book.sessions[*h.best];
  out.push_back(fmt::format("Best so far: session {} of {}, carry {}.", best.number, text_of(best.date),
                            quantity(Shown::distance, best.reference.carry, units)));
  for (std::string& sentence : driver_sentences(book, h)) out.push_back(std::move(sentence));
  if (!h.one_program) {
    out.emplace_back(
        "Not every carry was computed by the same version of this program: part of a difference may be the program's.");
  }
  return out;
}

std::string counted_sessions(std::size_t count) { return fmt::format("{} session{}", count, count == 1 ? "" : "s"); }

std::string book_title(const Book& book) {
  std::string text =
      fmt::format("{}, {}-handed: {}", book.pupil, key_of(book.handed), counted_sessions(book.sessions.size()));
  if (book.sessions.empty()) return text;
  return text + fmt::format(", {} to {}", text_of(book.sessions.front().date), text_of(book.sessions.back().date));
}

std::string same_conditions_words(const Catalogue& catalogue, UnitSystem units) {
  return "Carry and total are the model's for each delivery under the same conditions. " +
         conditions_words(setting_for(Course{}, Setting{}.head_id, catalogue), units);
}

TextTable history_table(const Book& book, UnitSystem units) {
  TextTable table;
  if (book.sessions.empty()) return table;
  table.rows = {{"no", "date", "carry", "total", "carry since the one before"}};
  const History h = history(book);
  for (std::size_t i = 0; i < book.sessions.size(); ++i) {
    const BookedSession& s = book.sessions[i];
    const auto since = [&] {
      return quantity(Shown::gain, s.reference.carry - book.sessions[i - 1].reference.carry, units, Sign::always);
    };
    table.rows.push_back({std::to_string(s.number), text_of(s.date),
                          quantity(Shown::distance, s.reference.carry, units),
                          quantity(Shown::distance, s.reference.total, units),
                          i == 0 ? "" : (changes_driver(h, i) ? "other driver, " : "") + since()});
  }
  return table;
}

TextTable sessions_table(const std::vector<BookedSession>& sessions, UnitSystem units) {
  TextTable table;
  if (sessions.empty()) return table;
  table.heads = 2;
  table.rows = {{"", "", "club", "club", "", "delivered", "", "", ""},
                {"no", "date", "loft", "speed", "attack", "loft", "shots", "carry", "total"}};
  for (const BookedSession& s : sessions) {
    table.rows.push_back(
        {std::to_string(s.number), text_of(s.date), s.loft ? quantity(Shown::angle, *s.loft, units) : "-",
         quantity(Shown::speed, s.delivery.club_speed, units),
         quantity(Shown::angle, s.delivery.attack, units, Sign::always),
         quantity(Shown::angle, s.delivery.dynamic_loft, units), s.shots ? std::to_string(s.shots->counted) : "-",
         quantity(Shown::distance, s.reference.carry, units), quantity(Shown::distance, s.reference.total, units)});
  }
  return table;
}

}  // namespace loftwright
