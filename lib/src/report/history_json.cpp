#include "loftwright/report/json.hpp"
#include "report/history_words.hpp"
#include "report/json_parts.hpp"

namespace loftwright {

namespace {

OrderedJson steps_of(const Book& book, const std::vector<DriverStep>& steps) {
  OrderedJson out = OrderedJson::array();
  const auto share = [](const Share& s) -> OrderedJson {
    return {{"carry_m", in("m", s.carry)}, {"total_m", in("m", s.total)}};
  };
  const auto shares = [&](const DriverStep& step, const Shares& of) {
    return by_factor(step.club_known, [&](Factor f) { return share(of[f]); });
  };
  for (const DriverStep& step : steps) {
    OrderedJson otherwise = OrderedJson::array();
    for (std::size_t k = 0; step.known && k < kOtherFollows.size(); ++k)
      otherwise.push_back({{"follow", kOtherFollows[k]}, {"shares", shares(step, step.shares_otherwise[k])}});
    out.push_back({{"from_session", book.sessions[step.session - 1].number},
                   {"to_session", book.sessions[step.session].number},
                   {"change", step.known ? share(step.change) : OrderedJson(nullptr)},
                   {"shares", step.known ? shares(step, step.shares) : OrderedJson(nullptr)},
                   {"follow", kUsualFollow},
                   {"shares_otherwise", otherwise}});
  }
  return out;
}

}  // namespace

std::string history_json(const Book& book, const Catalogue& catalogue, UnitSystem units) {
  const History h = history(book);
  OrderedJson sessions = OrderedJson::array(), slope = nullptr, best = nullptr;
  for (const BookedSession& s : book.sessions) {
    sessions.push_back({{"session", s.number},
                        {"driver", h.driver[sessions.size()] + 1},
                        {"date", text_of(s.date)},
                        {"carry_m", in("m", s.reference.carry)},
                        {"total_m", in("m", s.reference.total)},
                        {"program", s.reference.program},
                        {"measured_carry_m", nullptr}});
    if (const auto carry = measured_carry(s)) sessions.back()["measured_carry_m"] = in("m", *carry);
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
                             {"driver_steps", steps_of(book, driver_steps_of(book, catalogue))},
                             {"sentence", trend_sentence(h, units)}});
}

}  // namespace loftwright
