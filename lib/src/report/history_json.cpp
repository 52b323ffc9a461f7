#include "files/json_values.hpp"
#include "loftwright/report/json.hpp"
#include "report/history_words.hpp"

namespace loftwright {

std::string history_json(const Book& book, UnitSystem units) {
  const History h = history(book);
  OrderedJson sessions = OrderedJson::array(), slope = nullptr, best = nullptr;
  for (const BookedSession& s : book.sessions) {
    sessions.push_back({{"session", s.number},
                        {"driver", h.driver[sessions.size()] + 1},
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
