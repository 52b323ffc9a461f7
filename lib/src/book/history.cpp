#include "loftwright/book/history.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace loftwright {

namespace {

struct Driver {
  std::string head;
  std::optional<double> loft;
  std::optional<std::string> setting;
};
using Drivers = std::vector<Driver>;

// The number of a session's driver among those there were, which a new one joins. `before`: those of the sessions
// before.
std::size_t driver_of(const BookedSession& s, Drivers& drivers, const std::vector<std::size_t>& before) {
  constexpr double kSame = 1e-6;  // [rad] rounding of a file
  const std::optional<std::string> setting = s.sleeve ? std::optional(s.sleeve->name) : std::nullopt;
  const auto fits = [&](std::size_t d) {
    const Driver& other = drivers[d];
    return other.head == s.head && (!s.loft || !other.loft || std::abs(*s.loft - *other.loft) < kSame) &&
           (!setting || !other.setting || *setting == *other.setting);
  };
  // The latest that fits: without a loft it is the one in use.
  for (std::size_t i = before.size(); i-- > 0;) {
    const std::size_t d = before[i];
    if (!fits(d)) continue;
    if (!drivers[d].loft) drivers[d].loft = s.loft;
    if (!drivers[d].setting) drivers[d].setting = setting;
    return d;
  }
  drivers.push_back({s.head, s.loft, setting});
  return drivers.size() - 1;
}

}  // namespace

bool changes_driver(const History& history, std::size_t index) {
  return index > 0 && history.driver[index] != history.driver[index - 1];
}

History history(const Book& book) {
  History out;
  std::vector<double> order, carry;
  Drivers drivers;
  for (const BookedSession& s : book.sessions) {
    out.driver.push_back(driver_of(s, drivers, out.driver));
    order.push_back(static_cast<double>(order.size() + 1));
    carry.push_back(s.reference.carry);
    if (s.reference.program != book.sessions.front().reference.program) out.one_program = false;
  }
  for (const Driver& d : drivers) out.loft.push_back(d.loft);
  if (carry.empty()) return out;
  out.carry = trend(order, carry, out.driver);
  out.best = static_cast<std::size_t>(std::max_element(carry.begin(), carry.end()) - carry.begin());
  return out;
}

std::vector<DriverStep> driver_steps(const Book& book, const History& history,
                                     const std::function<std::optional<Setting>(const std::string& head)>& reference) {
  std::vector<std::size_t> changes;
  for (std::size_t i = 1; i < book.sessions.size(); ++i) {
    if (changes_driver(history, i)) changes.push_back(i);
  }
  if (changes.size() > kMostDriverSteps)
    changes.erase(changes.begin(), changes.end() - static_cast<std::ptrdiff_t>(kMostDriverSteps));
  std::vector<DriverStep> out;
  for (const std::size_t i : changes) {
    const BookedSession &before = book.sessions[i - 1], &after = book.sessions[i];
    DriverStep& step = out.emplace_back();
    step.session = i;
    const std::optional<Setting> from = reference(before.head), to = reference(after.head);
    step.known = from && to;
    if (!step.known) continue;
    const auto face = [](const BookedSession& s) { return s.sleeve ? std::optional(s.sleeve->face) : std::nullopt; };
    SharesOfChange change({before.delivery, *from, history.loft[history.driver[i - 1]], face(before)},
                          {after.delivery, *to, history.loft[history.driver[i]], face(after)}, book.handed);
    step.club_known = change.club_known();
    step.shares = change.by_who();
    for (std::size_t k = 0; k < kOtherFollows.size(); ++k) step.shares_otherwise[k] = change.by_who(kOtherFollows[k]);
    for (const Factor f : kAllOf<Factor>) {
      step.change.carry += step.shares[f].carry;
      step.change.total += step.shares[f].total;
    }
  }
  return out;
}

}  // namespace loftwright
