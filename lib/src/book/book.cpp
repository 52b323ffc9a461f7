#include "loftwright/book/book.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/shots/inference.hpp"
#include "loftwright/version.hpp"

namespace loftwright {

namespace {

std::size_t place_of(const Book& book, int number) {
  const auto at = std::find_if(book.sessions.begin(), book.sessions.end(),
                               [&](const BookedSession& s) { return s.number == number; });
  if (at != book.sessions.end()) return static_cast<std::size_t>(at - book.sessions.begin());
  std::vector<int> numbers;
  for (const BookedSession& s : book.sessions) numbers.push_back(s.number);
  std::sort(numbers.begin(), numbers.end());
  throw InputError(numbers.empty()
                       ? fmt::format("there is no session {}: the book is empty", number)
                       : fmt::format("there is no session {}; there are: {}", number, fmt::join(numbers, ", ")));
}

// To the twelve digits that a file keeps.
bool same_delivery(const Delivery& a, const Delivery& b) {
  return std::all_of(kDeliveryQuantities.begin(), kDeliveryQuantities.end(), [&](const DeliveryQuantity& part) {
    const double x = a.*part.value, y = b.*part.value;
    return std::abs(x - y) <= 1e-9 * std::max(std::abs(x), 1.0);
  });
}

// To what a file rounds.
bool same_promise(const std::optional<Promise>& a, const std::optional<Promise>& b) {
  if (!a || !b) return !a && !b;
  constexpr double kRounding = 1e-8;  // [rad], [m]
  const auto same = [&](double Promise::*member) { return std::abs(*a.*member - *b.*member) < kRounding; };
  return a->lever == b->lever && a->goal == b->goal && same(&Promise::loft) && same(&Promise::attack) &&
         same(&Promise::gain) && same(&Promise::gain_low) && same(&Promise::gain_high) &&
         same(&Promise::reference_gain) && same(&Promise::reference_loft_gain);
}

bool same_course(const std::optional<Course>& a, const std::optional<Course>& b) {
  if (!a || !b) return a.has_value() == b.has_value();
  const Conditions &x = a->conditions, &y = b->conditions;
  return a->ball == b->ball && x.turf == y.turf && x.altitude == y.altitude && x.pressure == y.pressure &&
         x.temperature == y.temperature && x.humidity == y.humidity && x.wind.speed == y.wind.speed &&
         x.wind.from == y.wind.from && x.wind.height == y.wind.height && x.wind.profile == y.wind.profile;
}

}  // namespace

ReferenceDrive reference_drive(const Delivery& delivery, Handed handed, const Setting& setting) {
  validate(delivery);
  const Drive drive = drive_from(delivery, handed, setting);
  if (drive.flight.end == FlightEnd::not_finite) throw InputError(std::string(sentence(drive.flight.end)));
  return {drive.flight.carry, drive.total, std::string(kVersion)};
}

DeliveryBlock take_shots(BookedSession& session, const std::string& file, const ShotList& list, Outliers odd,
                         Handed handed, const Setting& setting) {
  const std::optional<DeliveryBlock> block = delivery_block(list, setting, handed, odd);
  const std::vector<const Shot*> shots = counted(list, odd);
  if (shots.empty()) throw InputError(fmt::format("{} holds no shot that can be counted", file));
  if (!block) {
    throw InputError(
        fmt::format("{}: a session needs club speed, attack and delivered loft, or ball speed, launch and spin", file));
  }
  session.delivery = block->mean;
  session.delivery_inferred = block->inferred;
  session.shots = {file, shots.size(), list.set_aside.size(), list.shots.size() - shots.size(), {}};
  for (const ReadingSummary& r : summarise(list, odd).readings)
    session.shots->readings.push_back({r.reading, r.summary});
  if (block->inferred || !block->spread || block->count < kLeastForCorrelation) return *block;
  const auto with_attack = [&](Quantity quantity) {
    double found = 0.0;  // pairs that are not named are independent
    for (const Spread::Correlation& c : block->spread->correlations) {
      const std::string_view first = spread_key(c.first), second = spread_key(c.second),
                             attack = about(Quantity::attack).key, other = about(quantity).key;
      if ((first == attack && second == other) || (first == other && second == attack)) found = c.value;
    }
    return found;
  };
  session.shots->loft_with_attack = with_attack(Quantity::dynamic_loft);
  session.shots->speed_with_attack = with_attack(Quantity::club_speed);
  return *block;
}

const BookedSession& add_session(Book& book, BookedSession session) {
  if (book.sessions.size() >= kMostSessions) {
    throw InputError(fmt::format("a book holds at most {} sessions: begin another", kMostSessions));
  }
  session.number = book.version;
  const auto later = [](const BookedSession& a, const BookedSession& b) { return a.date < b.date; };
  return *book.sessions.insert(std::upper_bound(book.sessions.begin(), book.sessions.end(), session, later),
                               std::move(session));
}

const BookedSession* same_session(const Book& book, const BookedSession& session) {
  const auto at = std::find_if(book.sessions.begin(), book.sessions.end(), [&](const BookedSession& other) {
    if (other.number == session.number || other.shots.has_value() != session.shots.has_value()) return false;
    if (!session.shots && other.date != session.date) return false;
    if (session.shots && other.shots->counted != session.shots->counted) return false;
    return same_delivery(other.delivery, session.delivery);
  });
  return at == book.sessions.end() ? nullptr : &*at;
}

const BookedSession& session_of(const Book& book, std::optional<int> number) {
  if (!number && !book.sessions.empty()) return book.sessions.back();
  if (!number) throw InputError("there is no session: the book is empty");
  return book.sessions[place_of(book, *number)];
}

const BookedSession& edit_session(Book& book, BookedSession corrected, const Setting& reference) {
  const std::size_t place = place_of(book, corrected.number);
  const BookedSession& now = book.sessions[place];
  const bool other_head = corrected.head != now.head, other_delivery = !same_delivery(corrected.delivery, now.delivery);
  if (now.shots && other_delivery) {
    throw InputError(
        fmt::format("the delivery of session {} is the mean of {}: take the session out and add the list again",
                    now.number, now.shots->file));
  }
  if (now.delivery_inferred && other_head) {
    throw InputError(fmt::format(
        "the delivery of session {} was worked back from ball numbers with the head '{}': with another head take the "
        "session out and add the list again",
        now.number, now.head));
  }
  const auto ball_of = [](const BookedSession& s) { return s.course ? s.course->ball : Course{}.ball; };
  if (now.delivery_inferred && ball_of(corrected) != ball_of(now)) {
    throw InputError(fmt::format(
        "the delivery of session {} was worked back from ball numbers with the ball '{}': with another ball take the "
        "session out and add the list again",
        now.number, ball_of(now)));
  }
  if ((other_head || other_delivery) && now.promised && same_promise(corrected.promised, now.promised)) {
    throw InputError(
        fmt::format("session {} keeps what was promised of its {} as noted until now: keep advice on the corrected one "
                    "with it, or clear the advice",
                    now.number, other_delivery ? "swing" : "head"));
  }
  const bool other_day = corrected.date != now.date;
  if (!other_head && !other_delivery && !other_day && corrected.notes == now.notes && corrected.loft == now.loft &&
      corrected.sleeve.has_value() == now.sleeve.has_value() && same_course(corrected.course, now.course) &&
      same_promise(corrected.promised, now.promised))
    throw InputError(fmt::format("session {} is so already: there is nothing to correct", now.number));
  if (other_head || other_delivery) corrected.reference = reference_drive(corrected.delivery, book.handed, reference);
  const int number = corrected.number;
  book.sessions[place] = std::move(corrected);
  std::sort(book.sessions.begin(), book.sessions.end(), [](const BookedSession& a, const BookedSession& b) {
    return a.date != b.date ? a.date < b.date : a.number < b.number;
  });
  return book.sessions[place_of(book, number)];
}

void remove_session(Book& book, int number) {
  book.sessions.erase(book.sessions.begin() + static_cast<std::ptrdiff_t>(place_of(book, number)));
}

}  // namespace loftwright
