#include "loftwright/report/pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <vector>

#include "core/text.hpp"
#include "loftwright/book/history.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/files/book_file.hpp"
#include "loftwright/report/json.hpp"
#include "loftwright/report/words.hpp"
#include "report/history_words.hpp"
#include "report/page/html.hpp"
#include "report/page/sheet.hpp"
#include "report/page/svg.hpp"

namespace loftwright {

namespace {

constexpr double kHistoryLeft = 40.0, kHistoryRight = kPictureWidth - 14.0;
constexpr std::size_t kMostMarks = 80;  // more would touch

double day_of(const BookedSession& session, const Book& book) {  // [days] since the first session
  return static_cast<double>(
      (std::chrono::sys_days(session.date) - std::chrono::sys_days(book.sessions.front().date)).count());
}

// Days to scale, with some room before the first and after the last.
Axis over_days(const Book& book) {
  const double days = day_of(book.sessions.back(), book), room = std::max(0.06 * days, 0.5);
  return {-room, days + room, kHistoryLeft, kHistoryRight};
}

// Days beneath the first, the last and as many between as there is room for.
void label_days(Drawing& d, const Book& book, const Axis& across, double y) {
  const std::size_t count = book.sessions.size();
  const std::size_t every = std::max<std::size_t>(1, (count + 3) / 4);
  const auto label = [&](std::size_t i) {
    const Align align = count > 1 && i == 0 ? Align::start : count > 1 && i + 1 == count ? Align::end : Align::middle;
    const double x = i == 0 && count > 1           ? kHistoryLeft
                     : i + 1 == count && count > 1 ? kHistoryRight
                                                   : across.at(day_of(book.sessions[i], book));
    d.label_if_free({x, y}, text_of(book.sessions[i].date), "small", align);
  };
  label(0);
  if (count > 1) label(count - 1);
  for (std::size_t i = every; i + 1 < count; i += every) label(i);
}

// One quantity over the sessions, between even ticks.
template <class Value>
void draw_row(Drawing& d, const Book& book, const Axis& across, double top, double bottom, Shown what, UnitSystem units,
              std::string_view look, Mark mark, Value value) {
  const std::string symbol(unit_shown(what, units));
  std::vector<double> values;
  for (const BookedSession& s : book.sessions) values.push_back(unit(symbol).from_si(value(s)));
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  const double margin = std::max(0.1 * (*high - *low), 0.5);
  const Axis up{*low - margin, *high + margin, bottom, top};
  for (const double t : even_ticks(up.low, up.high, bottom - top > 100.0 ? 5 : 3)) {
    d.line({kHistoryLeft, up.at(t)}, {kHistoryRight, up.at(t)}, "grid");
    d.label({kHistoryLeft - 5.0, up.at(t) + 4.0}, short_number(t), "small", Align::end);
  }
  std::vector<Spot> spots;
  for (std::size_t i = 0; i < values.size(); ++i)
    spots.push_back({across.at(day_of(book.sessions[i], book)), up.at(values[i])});
  if (spots.size() > kMostMarks) {
    d.polyline(spots, "s-as_is way thin");
    return;
  }
  d.polyline(spots, fmt::format("{} way", look));
  for (const Spot& s : spots) d.mark(mark, s, fmt::format("{} mark", look));
}

constexpr std::size_t kMostDrivers = 20;  // and changes of them: more would be a thicket

std::vector<std::size_t> changes_of(const History& history) {
  std::vector<std::size_t> out;
  for (std::size_t i = 1; i < history.driver.size(); ++i) {
    if (changes_driver(history, i)) out.push_back(i);
  }
  return out.size() <= kMostDrivers ? out : std::vector<std::size_t>{};
}

// What the trend says of every session, a line a driver. `spots`: the sessions themselves.
void draw_fit(Drawing& d, const History& history, const std::vector<Spot>& spots, const Axis& up) {
  if (!history.carry || history.carry->intercepts.size() > kMostDrivers) return;
  constexpr std::size_t kMostSpots = 200;
  const std::size_t every = (spots.size() + kMostSpots - 1) / kMostSpots;
  for (std::size_t driver = 0; driver < history.carry->intercepts.size(); ++driver) {
    std::vector<Spot> fit;
    Spot last{};
    for (std::size_t i = 0; i < spots.size(); ++i) {
      if (history.driver[i] != driver) continue;
      last = {spots[i].x, up.at(history.carry->intercepts[driver] + history.carry->slope * static_cast<double>(i + 1))};
      if (fit.empty() || i % every == 0) fit.push_back(last);
    }
    if (fit.back().x != last.x) fit.push_back(last);
    if (fit.size() > 1) d.polyline(fit, "s-loft_only way");
  }
}

std::string progress_picture(const Book& book, UnitSystem units) {
  constexpr double kTop = 14.0, kBottom = 210.0;
  const Axis across = over_days(book);
  const History h = history(book);
  const std::string far(unit_shown(Shown::distance, units));
  std::string told;
  for (const BookedSession& s : {book.sessions.front(), book.sessions.back()}) {
    told += fmt::format("{}: carry {}. ", text_of(s.date), quantity(Shown::distance, s.reference.carry, units));
  }
  Drawing d("progress", kPictureWidth, kBottom + 24.0, "Carry, session by session", told + trend_sentence(h, units));
  double low = book.sessions.front().reference.carry, high = low;
  for (const BookedSession& s : book.sessions) {
    low = std::min(low, s.reference.carry);
    high = std::max(high, s.reference.carry);
  }
  const double margin = std::max(0.12 * (high - low), unit(far).to_si(2.0));
  const Axis up{low - margin, high + margin, kBottom, kTop};
  d.datum("x0", across.at(0.0));
  d.datum("x-per-day", across.per_unit());
  d.datum("y0", up.at(0.0));
  d.datum("y-per-m", -up.per_unit());
  for (const double t : even_ticks(unit(far).from_si(up.low), unit(far).from_si(up.high), 6)) {
    const double y = up.at(unit(far).to_si(t));
    d.line({kHistoryLeft, y}, {kHistoryRight, y}, "grid");
    d.label({kHistoryLeft - 5.0, y + 4.0}, short_number(t), "small", Align::end);
  }
  d.label({2.0, kTop - 3.0}, far, "small");
  d.line({kHistoryLeft, kBottom}, {kHistoryRight, kBottom}, "ground");
  label_days(d, book, across, kBottom + 16.0);
  const std::size_t count = book.sessions.size();
  std::vector<Spot> spots;
  for (std::size_t i = 0; i < count; ++i)
    spots.push_back({across.at(day_of(book.sessions[i], book)), up.at(book.sessions[i].reference.carry)});
  const bool many = count > kMostMarks;
  if (many) d.polyline(spots, "s-as_is way thin");
  draw_fit(d, h, spots, up);
  for (const Spot& s : spots) {
    if (many) break;
    d.mark(Mark::circle, s, "s-both mark");
    d.keep_clear(s, 7.0, 7.0);
  }
  for (const std::size_t i : changes_of(h)) {
    const double x = 0.5 * (spots[i - 1].x + spots[i].x);
    d.line({x, kTop}, {x, kBottom}, "grid");
    const bool right = x < 0.5 * (kHistoryLeft + kHistoryRight);
    d.label_if_free({x + (right ? 4.0 : -4.0), kBottom - 6.0}, "other driver", "small",
                    right ? Align::start : Align::end);
  }
  // The latest, the best and the first have their number; of a few sessions each one that finds room.
  constexpr std::size_t kFew = 16;
  std::vector<std::size_t> numbered{count - 1, *h.best, 0};
  for (std::size_t i = 0; i < count && count <= kFew; ++i) numbered.push_back(i);
  std::vector<bool> done(count, false);
  for (const std::size_t i : numbered) {
    if (done[i]) continue;
    done[i] = true;
    d.label_if_free({spots[i].x, spots[i].y - 11.0}, number(Shown::distance, book.sessions[i].reference.carry, units),
                    "on-paper", Align::middle);
  }
  return "<figure>\n" + d.text() + "<p class=\"note\">Carry in " + far +
         ", the model's for each session's delivery under the same conditions; days are to scale. Dashed: the same "
         "gain from each session to the next, as "
         "near to all of them as can be" +
         (h.driver.empty() || *std::max_element(h.driver.begin(), h.driver.end()) == 0 ? ""
                                                                                       : ", a line for each driver") +
         ".</p>\n</figure>\n";
}

std::string delivery_picture(const Book& book, UnitSystem units) {
  constexpr double kRow = 84.0;
  const Axis across = over_days(book);
  Drawing d("delivery", kPictureWidth, 3.0 * kRow + 24.0, "Club speed, attack and delivered loft, session by session",
            fmt::format("From {}, {} and {} to {}, {} and {}.",
                        quantity(Shown::speed, book.sessions.front().delivery.club_speed, units),
                        quantity(Shown::angle, book.sessions.front().delivery.attack, units, Sign::always),
                        quantity(Shown::angle, book.sessions.front().delivery.dynamic_loft, units),
                        quantity(Shown::speed, book.sessions.back().delivery.club_speed, units),
                        quantity(Shown::angle, book.sessions.back().delivery.attack, units, Sign::always),
                        quantity(Shown::angle, book.sessions.back().delivery.dynamic_loft, units)));
  double top = 0.0;
  const auto row = [&](std::string_view title, Shown what, std::string_view look, Mark mark, double Delivery::*which) {
    d.label({kHistoryLeft, top + 13.0}, fmt::format("{}, {}", title, unit_shown(what, units)), "");
    draw_row(d, book, across, top + 20.0, top + kRow - 4.0, what, units, look, mark,
             [&](const BookedSession& s) { return s.delivery.*which; });
    top += kRow;
  };
  row("club speed", Shown::speed, "s-both", Mark::circle, &Delivery::club_speed);
  row("attack", Shown::angle, "s-technique_only", Mark::triangle, &Delivery::attack);
  row("delivered loft", Shown::angle, "s-loft_only", Mark::square, &Delivery::dynamic_loft);
  d.line({kHistoryLeft, top}, {kHistoryRight, top}, "ground");
  label_days(d, book, across, top + 16.0);
  return "<figure>\n" + d.text() + "</figure>\n";
}

std::string big_numbers(const Book& book, UnitSystem units) {
  const std::string far(unit_shown(Shown::distance, units));
  const BookedSession &first = book.sessions.front(), &last = book.sessions.back();
  const auto shown = [&](const BookedSession& s) { return number(Shown::distance, s.reference.carry, units); };
  std::string out = big_number("carry at first", shown(first), far, text_of(first.date));
  if (book.sessions.size() > 1) {
    out += big_number("carry now", shown(last), far, text_of(last.date));
    const double change = last.reference.carry - first.reference.carry;
    const History h = history(book);
    double on_one_driver = 0.0;
    bool changed = false;
    for (std::size_t i = 1; i < book.sessions.size(); ++i) {
      if (changes_driver(h, i)) {
        changed = true;
      } else {
        on_one_driver += book.sessions[i].reference.carry - book.sessions[i - 1].reference.carry;
      }
    }
    out += big_number("change", number(Shown::gain, change, units, Sign::always), far,
                      changed ? fmt::format("{} without the steps to another driver",
                                            quantity(Shown::gain, on_one_driver, units, Sign::always))
                              : "");
  }
  return big_numbers_of(out);
}

// As many as a page has room for, the latest first to have it.
std::string notes_of(const std::vector<BookedSession>& sessions) {
  constexpr std::size_t kMostMarkup = 60'000;  // [bytes]
  std::vector<std::string> shown;
  std::size_t used = 0, left_out = 0;
  for (auto s = sessions.rbegin(); s != sessions.rend(); ++s) {
    if (s->notes.empty()) continue;
    std::string note = fmt::format("{}, {}: {}", s->number, text_of(s->date), s->notes);
    used += typed(note).size();
    used <= kMostMarkup ? shown.push_back(std::move(note)) : void(++left_out);
  }
  std::reverse(shown.begin(), shown.end());
  if (left_out == 0) return bullets(shown);
  return bullets(shown) +
         paragraph(
             fmt::format("The notes of {} before these are too long to stand here; 'loftwright book list' shows them.",
                         how_many(left_out, "session")),
             "note");
}

std::string coach_part(const Book& book, const Catalogue& catalogue, UnitSystem units) {
  constexpr std::size_t kListed = 40;
  const std::size_t listed = std::min(kListed, book.sessions.size());
  const std::vector<BookedSession> latest(book.sessions.end() - static_cast<std::ptrdiff_t>(listed),
                                          book.sessions.end());
  TextTable table = sessions_table(latest, units);
  table.title = listed == book.sessions.size()
                    ? "Every session"
                    : fmt::format("The latest {} of {} sessions", listed, book.sessions.size());
  return html_table(table) + html_table(driver_steps_table(book, driver_steps_of(book, catalogue), units)) +
         under("Notes", notes_of(latest)) + paragraph(same_conditions_words(catalogue, units)) +
         input_again(book_text(book), "book.json", "loftwright book history book.json --html page.html");
}

}  // namespace

std::string history_page(const Book& book, const Catalogue& catalogue, UnitSystem units) {
  Sheet sheet;
  sheet.title = "Progress: " + book.pupil;
  sheet.body =
      fmt::format("<header>\n<h1>Your progress</h1>\n<p class=\"who\">{}</p>\n</header>\n", typed(book_title(book)));
  const std::vector<std::string> sentences = history_sentences(book, units);
  sheet.body += paragraph(sentences.front(), "verdict");
  if (!book.sessions.empty()) {
    sheet.body += big_numbers(book, units);
    for (std::size_t i = 1; i < sentences.size(); ++i) sheet.body += paragraph(sentences[i]);
    for (const std::string& sentence : driver_step_sentences(book, driver_steps_of(book, catalogue), units))
      sheet.body += paragraph(sentence);
    sheet.body += "<div class=\"pair\">\n" +
                  part("progress-part", "How far it carries", progress_picture(book, units)) +
                  part("delivery-part", "How you deliver the club", delivery_picture(book, units)) + "</div>\n";
    sheet.body += part("care", "Take care", bullets(cautions(units)));
    sheet.body += part("coach", "For the coach", coach_part(book, catalogue, units), "coach");
  }
  sheet.data = answer_element(history_json(book, catalogue, units));
  return whole_page(sheet);
}

}  // namespace loftwright
