#include "loftwright/book/history.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "io/json_values.hpp"

namespace loftwright {

History history(const Book& book) {
  History out;
  std::vector<double> order, carry;
  for (const BookedSession& s : book.sessions) {
    order.push_back(static_cast<double>(order.size() + 1));
    carry.push_back(s.reference.carry);
    if (s.reference.program != book.sessions.front().reference.program) out.one_program = false;
  }
  if (carry.empty()) return out;
  out.carry = trend(order, carry);
  out.best = static_cast<std::size_t>(std::max_element(carry.begin(), carry.end()) - carry.begin());
  return out;
}

std::string trend_sentence(const History& history, UnitSystem units) {
  if (!history.best) return "No sessions yet.";
  if (!history.carry) return "One session: a trend takes a second one, and how sure it is a third.";
  const Trend& t = *history.carry;
  const auto shown = [&](double slope) { return quantity(Shown::gain, slope, units, Sign::always); };
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

std::string history_json(const Book& book, UnitSystem units) {
  const History h = history(book);
  OrderedJson sessions = OrderedJson::array(), slope = nullptr, best = nullptr;
  for (const BookedSession& s : book.sessions) {
    sessions.push_back({{"session", s.number},
                        {"date", text_of(s.date)},
                        {"carry_m", in("m", s.reference.carry)},
                        {"total_m", in("m", s.reference.total)},
                        {"program", s.reference.program}});
  }
  if (h.carry) {
    const auto doubt = [&](double value) { return h.carry->has_doubt() ? in("m", value) : OrderedJson(nullptr); };
    slope = {{"carry_m_per_session", in("m", h.carry->slope)},
             {"standard_error_m", doubt(h.carry->standard_error)},
             {"low_m", doubt(h.carry->low)},
             {"high_m", doubt(h.carry->high)}};
  }
  if (h.best) best = sessions[*h.best];
  return text_of(OrderedJson{{"format", "loftwright-book-history/1"},
                             {"pupil", book.pupil},
                             {"version", book.version},
                             {"sessions", sessions},
                             {"trend", slope},
                             {"best", best},
                             {"one_program", h.one_program},
                             {"sentence", trend_sentence(h, units)}});
}

}  // namespace loftwright
