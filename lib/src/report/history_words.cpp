#include "report/history_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "loftwright/report/words.hpp"
#include "report/shot_words.hpp"

namespace loftwright {

namespace {

std::string driver_words(const BookedSession& s) {
  if (!s.loft) return s.head;
  const auto degrees = [](double loft) { return quantity(Shown::angle, loft, UnitSystem::yards); };
  const std::string loft = degrees(*s.loft);
  if (!s.sleeve) return fmt::format("{}, {}", s.head, loft);
  const std::string marked = degrees(s.sleeve->head_loft);
  return fmt::format("{}, {} set to {}{}", s.head, marked, s.sleeve->name,
                     marked == loft ? "" : fmt::format(", which makes {}", loft));
}

// A turn of the sleeve counts as a driver of its own: it changes what the club delivers.
std::string_view change_words(const BookedSession& s, const BookedSession& before) {
  const auto marked = [](const BookedSession& of) { return of.sleeve ? std::optional(of.sleeve->head_loft) : of.loft; };
  constexpr double kSame = 1e-6;  // [rad] rounding of a file
  const bool turned = (s.sleeve || before.sleeve) && s.head == before.head && marked(s) && marked(before) &&
                      std::abs(*marked(s) - *marked(before)) < kSame;
  return turned ? "another setting of the driver" : "another driver";
}

constexpr std::size_t kMostTold = 3;  // changes of driver, one by one

// Of a step between drivers under the same conditions, what is left of them is the head.
std::string factor_words(Factor factor, bool club_known) {
  return factor == Factor::conditions ? "head" : std::string(title_of(factor, club_known));
}

std::vector<std::string> driver_sentences(const Book& book, const History& h) {
  constexpr std::size_t kMost = kMostTold;
  std::vector<std::string> out;
  std::size_t changes = 0;
  for (std::size_t i = 1; i < book.sessions.size(); ++i) {
    if (!changes_driver(h, i) || ++changes > kMost) continue;
    const BookedSession &s = book.sessions[i], &before = book.sessions[i - 1];
    out.push_back(
        fmt::format("From session {} of {} on {} ({}; before: {}): the step to it is left out of what a session "
                    "brings.",
                    s.number, text_of(s.date), change_words(s, before), driver_words(s), driver_words(before)));
  }
  if (changes <= kMost) return out;
  return {fmt::format(
      "The driver was changed {} times: the steps between drivers are left out of what a session brings.", changes)};
}

}  // namespace

std::vector<DriverStep> driver_steps_of(const Book& book, const Catalogue& catalogue) {
  return driver_steps(book, history(book), [&](const std::string& head) -> std::optional<Setting> {
    try {
      return reference_setting(head, catalogue);
    } catch (const InputError&) {  // a head's file may be gone by now
      return std::nullopt;
    }
  });
}

std::vector<std::string> driver_step_sentences(const Book& book, const std::vector<DriverStep>& steps,
                                               UnitSystem units) {
  std::vector<std::string> out;
  if (steps.size() > kMostTold) return out;
  const auto shown = [&](double si) { return quantity(Shown::gain, si, units, Sign::always); };
  for (const DriverStep& step : steps) {
    const int number = book.sessions[step.session].number;
    if (!step.known) {
      out.push_back(fmt::format(
          "Who made the step to session {} cannot be told: the head before or after it is not to be had any more.",
          number));
      continue;
    }
    std::vector<Factor> made;
    for (const Factor f : kAllOf<Factor>) {
      if (!reads_as_zero(Shown::gain, step.shares[f].carry, units)) made.push_back(f);
    }
    std::stable_sort(made.begin(), made.end(), [&](Factor a, Factor b) {
      return std::abs(step.shares[a].carry) > std::abs(step.shares[b].carry);
    });
    std::vector<std::string> parts;
    for (const Factor f : made)
      parts.push_back(fmt::format("{} {}", factor_words(f, step.club_known), shown(step.shares[f].carry)));
    out.push_back(fmt::format("Who made the step to session {}, {} of carry by the model: {}.", number,
                              shown(step.change.carry), parts.empty() ? "nothing changed" : listed(parts)));
  }
  return out;
}

TextTable driver_steps_table(const Book& book, const std::vector<DriverStep>& steps, UnitSystem units) {
  TextTable table{
      fmt::format("Who made the step to another driver: carry in {}", unit_shown(Shown::gain, units)), {}, 1, {}};
  if (std::none_of(steps.begin(), steps.end(), [](const DriverStep& s) { return s.known; })) return {};
  const bool club_known =
      std::all_of(steps.begin(), steps.end(), [](const DriverStep& s) { return !s.known || s.club_known; });
  std::vector<Factor> factors;
  for (const Factor f : kAllOf<Factor>) {
    const bool any = std::any_of(steps.begin(), steps.end(),
                                 [&](const DriverStep& s) { return s.known && s.shares[f].carry != 0.0; });
    if (any) factors.push_back(f);
  }
  table.rows.push_back({"step", "all"});
  for (const Factor f : factors) {
    table.rows.front().push_back(f == Factor::strike  ? "strike"
                                 : f == Factor::face  ? "face"
                                 : f == Factor::speed ? "speed"
                                                      : factor_words(f, club_known));
  }
  for (const DriverStep& s : steps) {
    if (!s.known) continue;
    std::vector<std::string> row{
        fmt::format("{} to {}", book.sessions[s.session - 1].number, book.sessions[s.session].number),
        number(Shown::gain, s.change.carry, units, Sign::always)};
    for (const Factor f : factors)
      row.push_back(f == Factor::club && !s.club_known ? "-"
                                                       : number(Shown::gain, s.shares[f].carry, units, Sign::always));
    table.rows.push_back(std::move(row));
  }
  const bool sleeves = std::any_of(steps.begin(), steps.end(), [&](const DriverStep& s) {
    return book.sessions[s.session - 1].sleeve && book.sessions[s.session].sleeve;
  });
  std::string follows;
  for (std::size_t k = 0; k < kOtherFollows.size(); ++k) {
    std::vector<std::string> swings;
    for (const DriverStep& s : steps) {
      if (s.known)
        swings.push_back(number(Shown::gain, s.shares_otherwise[k][Factor::swing].carry, units, Sign::always));
    }
    follows += fmt::format("{}with {:g}: {}", k == 0 ? "" : ", ", kOtherFollows[k], listed(swings));
  }
  table.notes.push_back(
      fmt::format("Under the same conditions, so the swing's part is the pupil's own and the club's and the head's the "
                  "driver's. Swing: attack, path, and the loft that follows the attack, {:.3g} deg a degree (an "
                  "assumption; the swing's part {}). {}.",
                  kUsualFollow, follows,
                  !club_known ? "Hands or club: the rest of the delivered loft; the loft on both drivers would tell "
                                "them apart"
                  : sleeves   ? "Club: the loft on it, and how its sleeve turns the face. Hands: the rest of the "
                                "delivered loft"
                              : "Club: the loft on it. Hands: the rest of the delivered loft"));
  return table;
}

std::string other_driver_words(const Book& book, int number) {
  const History h = history(book);
  for (std::size_t i = 1; i < book.sessions.size(); ++i) {
    const BookedSession &s = book.sessions[i], &before = book.sessions[i - 1];
    if (s.number != number || !changes_driver(h, i)) continue;
    return fmt::format(
        "session {} is on {} ({}) than session {} before it ({}): the step to it is left out of what a session brings",
        s.number, change_words(s, before), driver_words(s), before.number, driver_words(before));
  }
  return "";
}

std::optional<double> measured_carry(const BookedSession& session) {
  if (!session.shots) return std::nullopt;
  for (const BookedShots::Reading& r : session.shots->readings) {
    if (r.reading == Reading::carry) return r.summary.mean;
  }
  return std::nullopt;
}

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

std::string book_title(const Book& book) {
  std::string text =
      fmt::format("{}, {}-handed: {}", book.pupil, key_of(book.handed), how_many(book.sessions.size(), "session"));
  if (book.sessions.empty()) return text;
  return text + fmt::format(", {} to {}", text_of(book.sessions.front().date), text_of(book.sessions.back().date));
}

std::string promise_words(const Promise& p, UnitSystem units) {
  const auto gain = [&](double metres) { return number(Shown::gain, metres, units, Sign::always); };
  return fmt::format("{}, attack {} with {} of loft: {} of {}, 8 in 10 {} to {}", key_of(p.lever),
                     quantity(Shown::angle, p.attack, units, Sign::always), quantity(Shown::angle, p.loft, units),
                     quantity(Shown::gain, p.gain, units, Sign::always), key_of(p.goal), gain(p.gain_low),
                     gain(p.gain_high));
}

std::string same_conditions_words(const Catalogue& catalogue, UnitSystem units) {
  return "Carry and total are the model's for each delivery under the same conditions. " +
         conditions_words(setting_for(Course{}, Setting{}.head_id, catalogue), units);
}

TextTable history_table(const Book& book, UnitSystem units) {
  TextTable table;
  if (book.sessions.empty()) return table;
  const bool measured = std::any_of(book.sessions.begin(), book.sessions.end(),
                                    [](const BookedSession& s) { return measured_carry(s).has_value(); });
  table.heads = 2;
  table.rows = {{"", "", "model's", "model's"}, {"no", "date", "carry", "total"}};
  table.rows[0].emplace_back("model's carry");
  table.rows[1].emplace_back("since the one before");
  if (measured) {
    table.rows[0].emplace_back("measured");
    table.rows[1].emplace_back("carry");
    table.notes.emplace_back(
        "Measured carry is the mean of the session's list, in the air and on the ground of its day: it is held against "
        "no other session.");
  }
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
    if (!measured) continue;
    const std::optional<double> carry = measured_carry(s);
    table.rows.back().push_back(carry ? quantity(Shown::distance, *carry, units) : "-");
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
