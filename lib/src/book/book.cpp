#include "loftwright/book/book.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/shots/inference.hpp"
#include "loftwright/version.hpp"

namespace loftwright {

ReferenceDrive reference_drive(const Delivery& delivery, Handed handed, const Setting& setting) {
  validate(delivery);
  const Drive drive = drive_from(delivery, handed, setting);
  if (drive.flight.end == FlightEnd::not_finite) throw InputError(std::string(sentence(drive.flight.end)));
  return {drive.flight.carry, drive.total, std::string(kVersion)};
}

DeliveryBlock take_shots(BookedSession& session, const std::string& file, const ShotList& list, OddShots odd,
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
  const auto same = [](double a, double b) {
    return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), 1.0);
  };  // 12 digits in a file
  const auto at = std::find_if(book.sessions.begin(), book.sessions.end(), [&](const BookedSession& other) {
    if (other.number == session.number || other.shots.has_value() != session.shots.has_value()) return false;
    if (!session.shots && other.date != session.date) return false;
    if (session.shots && other.shots->counted != session.shots->counted) return false;
    const Delivery &a = other.delivery, &b = session.delivery;
    return same(a.club_speed, b.club_speed) && same(a.attack, b.attack) && same(a.dynamic_loft, b.dynamic_loft) &&
           same(a.path, b.path) && same(a.face, b.face) && same(a.toe, b.toe) && same(a.high, b.high);
  });
  return at == book.sessions.end() ? nullptr : &*at;
}

void remove_session(Book& book, int number) {
  const auto at = std::find_if(book.sessions.begin(), book.sessions.end(),
                               [&](const BookedSession& s) { return s.number == number; });
  if (at == book.sessions.end()) {
    std::vector<int> numbers;
    for (const BookedSession& s : book.sessions) numbers.push_back(s.number);
    std::sort(numbers.begin(), numbers.end());
    throw InputError(numbers.empty()
                         ? fmt::format("there is no session {}: the book is empty", number)
                         : fmt::format("there is no session {}; there are: {}", number, fmt::join(numbers, ", ")));
  }
  book.sessions.erase(at);
}

}  // namespace loftwright
