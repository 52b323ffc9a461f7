// Academies simulated by the test's own hand: a coach whose pupils' follow and speed cost are known, sessions whose
// means are measured with error.
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <random>

#include "books.hpp"
#include "loftwright/book/lessons.hpp"
#include "simulated_shots.hpp"

namespace loftwright::test {

// What is true of a coach's pupils: means and standard deviations between them, and from day to day. [SI]
struct Coach {
  double follow = 0.85, follow_between = 0.1;
  double speed_cost = 0.0, speed_between = 0.05 / kDeg;  // [m/s per rad]
  double loft_by_day = 0.5 * kDeg, speed_by_day = 0.3, attack_by_session = 2.0 * kDeg;
};

// As the prior of lessons has it.
inline Coach any_coach(std::mt19937_64& random) {
  const LessonsOptions o;
  const double half_follow = o.widths.follow_above / std::sqrt(12.0),
               half_speed = o.widths.speed_per_attack / std::sqrt(2.0);
  Coach c;
  c.follow = kUsualFollow + half_follow * deviate(random);
  c.follow_between = half_follow * std::abs(deviate(random));
  c.speed_cost = half_speed * deviate(random);
  c.speed_between = half_speed * std::abs(deviate(random));
  c.loft_by_day = o.loft_by_day * std::abs(deviate(random));
  c.speed_by_day = o.speed_by_day * std::abs(deviate(random));
  c.attack_by_session = o.attack_by_session * std::abs(deviate(random));
  return c;
}

// The mean of some shots, as a list would give it: shots that scatter, loft going with attack by a correlation, and
// what the device adds to all of them.
inline BookedSession measured_session(const Delivery& swing, int shots, std::mt19937_64& random) {
  constexpr double kTogether = 0.5;
  const Spread spread = usual_spread(Skill::mid_handicap, swing.club_speed);
  std::vector<double> attack, loft, speed;
  for (int i = 0; i < shots; ++i) {
    const double z = deviate(random);
    attack.push_back(swing.attack + spread.attack * z);
    loft.push_back(swing.dynamic_loft +
                   spread.dynamic_loft * (kTogether * z + std::sqrt(1.0 - kTogether * kTogether) * deviate(random)));
    speed.push_back(swing.club_speed + spread.club_speed * deviate(random));
  }
  const DayError day;
  BookedSession s;
  s.loft = 10.5 * kDeg;
  s.shots = BookedShots{"simulated", static_cast<std::size_t>(shots), 0, 0, {}};
  const auto keep = [&](Reading reading, const std::vector<double>& values, double off) {
    Summary summary = summarise(values);
    summary.mean += off;
    s.shots->readings.push_back({reading, summary});
    return summary.mean;
  };
  s.delivery.club_speed = keep(Reading::club_speed, speed, day.club_speed * swing.club_speed * deviate(random));
  s.delivery.attack = keep(Reading::attack, attack, day.attack * deviate(random));
  s.delivery.dynamic_loft = keep(Reading::dynamic_loft, loft, day.dynamic_loft * deviate(random));
  s.shots->loft_with_attack = kTogether;
  s.shots->speed_with_attack = 0.0;
  s.reference = {150.0, 180.0, "0.0.0"};
  return s;
}

inline std::vector<NamedBook> academy(const Coach& coach, int pupils, std::mt19937_64& random) {
  std::vector<NamedBook> out;
  for (int p = 0; p < pupils; ++p) {
    Book book;
    book.pupil = fmt::format("Pupil {} (invented)", p);
    const double follow = coach.follow + coach.follow_between * deviate(random),
                 cost = coach.speed_cost + coach.speed_between * deviate(random);
    const int sessions = 2 + p % 4;
    for (int i = 0; i < sessions; ++i) {
      const double change = coach.attack_by_session * deviate(random);
      const Delivery swing{38.0 + cost * change + coach.speed_by_day * deviate(random),
                           -2.0 * kDeg + change,
                           0.0,
                           0.0,
                           13.0 * kDeg + follow * change + coach.loft_by_day * deviate(random),
                           0.0,
                           0.0};
      ++book.version;
      BookedSession s = measured_session(swing, 10 + p % 8, random);
      s.date = day(fmt::format("2026-{:02}-01", i + 1));
      add_session(book, std::move(s));
    }
    out.push_back({fmt::format("pupil-{}.json", p), std::move(book)});
  }
  return out;
}

// For books without promises: nobody asks.
inline ReferenceDrive no_drive(const Delivery&, Handed, const std::string&) { throw InputError("not to be asked"); }

}  // namespace loftwright::test
