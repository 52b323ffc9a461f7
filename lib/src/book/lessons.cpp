#include "loftwright/book/lessons.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/text.hpp"
#include "loftwright/book/history.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/pupil/complete.hpp"

namespace loftwright {

namespace {

// Errors of a session's means, and how they go together. [SI]
struct MeanErrors {
  double attack, dynamic_loft, club_speed;     // variances
  double loft_with_attack, speed_with_attack;  // covariances
};

// The scatter of one reading over the shots, and how many they are: as kept, else as usual.
struct Scatter {
  double sd;
  double count;
};

Scatter scatter_of(const BookedSession& s, Reading reading, double usual) {
  if (s.shots) {
    for (const BookedShots::Reading& r : s.shots->readings) {
      if (r.reading != reading || r.summary.count == 0) continue;
      return {r.summary.has_spread() ? r.summary.sd : usual, static_cast<double>(r.summary.count)};
    }
  }
  return {usual, static_cast<double>(Pupil{}.measured_shots)};
}

MeanErrors errors_of(const BookedSession& s, const DayError& day) {
  const Spread usual = usual_spread(Skill::mid_handicap, s.delivery.club_speed);
  const Scatter attack = scatter_of(s, Reading::attack, usual.attack),
                loft = scatter_of(s, Reading::dynamic_loft, usual.dynamic_loft),
                speed = scatter_of(s, Reading::club_speed, usual.club_speed);
  const auto of_mean = [](const Scatter& one) { return one.sd * one.sd / one.count; };
  const auto together = [&](const Scatter& other, const std::optional<double>& correlation) {
    return correlation.value_or(0.0) * std::sqrt(of_mean(attack) * of_mean(other));
  };
  const double speed_off = day.club_speed * s.delivery.club_speed;
  return {of_mean(attack) + day.attack * day.attack, of_mean(loft) + day.dynamic_loft * day.dynamic_loft,
          of_mean(speed) + speed_off * speed_off, together(loft, s.shots ? s.shots->loft_with_attack : std::nullopt),
          together(speed, s.shots ? s.shots->speed_with_attack : std::nullopt)};
}

// Sessions of one pupil with one driver, as points of attack and something else.
using Series = std::vector<SeriesPoint>;
struct PupilSeries {
  std::vector<Series> loft, speed;  // a series for each driver that came twice
};

PupilSeries series_of(const Book& book, const LessonsOptions& options, PupilLessons& said) {
  const History drivers = history(book);
  PupilSeries out;
  const std::size_t count =
      drivers.driver.empty() ? 0 : *std::max_element(drivers.driver.begin(), drivers.driver.end()) + 1;
  for (std::size_t driver = 0; driver < count; ++driver) {
    Series loft, speed;
    for (std::size_t i = 0; i < book.sessions.size(); ++i) {
      const BookedSession& s = book.sessions[i];
      if (drivers.driver[i] != driver || s.delivery_inferred) continue;
      const MeanErrors e = errors_of(s, options.day);
      loft.push_back({s.delivery.attack, s.delivery.dynamic_loft, e.attack, e.dynamic_loft, e.loft_with_attack});
      speed.push_back({s.delivery.attack, s.delivery.club_speed, e.attack, e.club_speed, e.speed_with_attack});
    }
    if (loft.size() < 2) continue;
    said.pairs += loft.size() - 1;
    const double moved = loft.back().x - loft.front().x;
    if (std::abs(moved) > std::abs(said.attack_moved)) said.attack_moved = moved;
    out.loft.push_back(std::move(loft));
    out.speed.push_back(std::move(speed));
  }
  return out;
}

// Half of the literature's variance is of the pupils' mean, half between them.
PoolPrior prior_of(double mean, double sd, double by_session, double by_day) {
  const double half = sd / std::sqrt(2.0);
  return {mean, half, half, {by_session, by_day}};
}

// How far a pupil's follow lies from what is taken: Uncertainty draws it as likely below as above and falling to
// nothing at either end, evenly (a triangle), whose standard deviation is an end over the root of six.
double follow_sd(const ErrorWidths& w) { return 0.5 * (w.follow_below + w.follow_above) / std::sqrt(6.0); }

Pooled pooled_slope(const std::vector<std::vector<Series>>& pupils, const PoolPrior& prior, int threads) {
  return pool(
      prior, pupils.size(),
      [&](std::size_t pupil, std::span<const double> spreads, std::span<const double> slopes, std::span<double> logs) {
        std::fill(logs.begin(), logs.end(), 0.0);
        for (const Series& s : pupils[pupil]) add_slope_log_likelihoods(s, spreads[0], spreads[1], slopes, logs);
      },
      threads);
}

double goal_of(const ReferenceDrive& drive, Goal goal) { return goal == Goal::carry ? drive.carry : drive.total; }

// The variance of a session's reference drive that the errors of its means make, by central differences.
double drive_variance(const BookedSession& s, Handed handed, Goal goal, const ReferenceDriveOf& drive_of,
                      const DayError& day) {
  const MeanErrors e = errors_of(s, day);
  const auto slope = [&](Quantity quantity, double step) {
    const DeliveryQuantity& q = *std::find_if(kDeliveryQuantities.begin(), kDeliveryQuantities.end(),
                                              [&](const DeliveryQuantity& row) { return row.quantity == quantity; });
    const Range& range = about(q.quantity).allowed;
    const Unit& in_file = unit(range.unit);
    Delivery below = s.delivery, above = s.delivery;
    below.*q.value = std::max(s.delivery.*q.value - step, in_file.to_si(range.low));
    above.*q.value = std::min(s.delivery.*q.value + step, in_file.to_si(range.high));
    const auto goal_at = [&](const Delivery& d) { return goal_of(drive_of(d, handed, s.head), goal); };
    return (goal_at(above) - goal_at(below)) / (above.*q.value - below.*q.value);
  };
  const double attack = slope(Quantity::attack, 0.25 * kDegree), loft = slope(Quantity::dynamic_loft, 0.25 * kDegree),
               speed = slope(Quantity::club_speed, 0.2);
  const double variance = attack * attack * e.attack + loft * loft * e.dynamic_loft + speed * speed * e.club_speed +
                          2.0 * attack * (loft * e.loft_with_attack + speed * e.speed_with_attack);
  return std::max(variance, 0.0);
}

// A promise, its outcome, and what the errors of both sessions leave open.
struct Outcome {
  Reckoning reckoning;
  std::size_t from, to;  // sessions, by index
  double var_from, var_to;
};

bool plays_promised(const BookedSession& s, const BookedSession& at, const Promise& p) {
  constexpr double kSameDriver = 0.3 * kDegree;  // [rad] the loft on offer nearest to the one promised (estimate)
  if (p.lever == Lever::technique)
    return s.head == at.head && (!s.loft || !at.loft || std::abs(*s.loft - *at.loft) < 1e-6);
  return s.loft && std::abs(*s.loft - p.loft) <= kSameDriver;
}

std::vector<Outcome> outcomes_of(const Book& book, const ReferenceDriveOf& drive_of, const DayError& day) {
  std::vector<Outcome> out;
  for (std::size_t i = 0; i < book.sessions.size(); ++i) {
    const BookedSession& from = book.sessions[i];
    if (!from.promised) continue;
    std::optional<std::size_t> last;
    for (std::size_t j = i + 1; j < book.sessions.size(); ++j) {
      if (plays_promised(book.sessions[j], from, *from.promised)) last = j;
      if (book.sessions[j].promised) break;
    }
    if (!last) continue;
    const BookedSession& to = book.sessions[*last];
    const Promise& p = *from.promised;
    const auto variance = [&](const BookedSession& s) { return drive_variance(s, book.handed, p.goal, drive_of, day); };
    out.push_back({{book.pupil, from.number, to.number, p.lever, p.reference_gain, p.reference_loft_gain,
                    p.reference_gain + p.gain_low - p.gain, p.reference_gain + p.gain_high - p.gain,
                    goal_of(to.reference, p.goal) - goal_of(from.reference, p.goal)},
                   i,
                   *last,
                   variance(from),
                   variance(to)});
  }
  return out;
}

// What the change of swing was to bring, and what came of it.
double of_swing(const Outcome& o) { return o.reckoning.predicted - o.reckoning.predicted_loft; }
double came(const Outcome& o) { return o.reckoning.reached - o.reckoning.predicted_loft; }

bool counts(const Outcome& o) { return o.reckoning.lever != Lever::loft && of_swing(o) >= kLeastPromise; }

// Of one pupil's promises in their order, each beginning where the one before ends or later: what was reached is the
// share of the promise, off by the error of the later session and, as far as the promise did not know of it, of the
// earlier; a session that ends one promise and begins the next errs in both.
double reached_log_likelihood(const std::vector<Outcome>& outcomes, double share) {
  // Cholesky of a tridiagonal covariance, row by row.
  double out = 0.0, diagonal = 0.0, residual = 0.0;  // of the row before
  const double kept = 1.0 - share;
  for (std::size_t i = 0; i < outcomes.size(); ++i) {
    const Outcome& o = outcomes[i];
    const bool joined = i > 0 && outcomes[i - 1].to == o.from;
    const double below = joined ? -kept * o.var_from / diagonal : 0.0;
    const double variance = o.var_to + kept * kept * o.var_from - below * below;
    const double off = (came(o) - share * of_swing(o) - below * residual) / std::sqrt(variance);
    out -= 0.5 * off * off + 0.5 * std::log(variance);
    diagonal = std::sqrt(variance);
    residual = off;
  }
  return out;
}

}  // namespace

Lessons lessons(const std::vector<NamedBook>& books, const ReferenceDriveOf& drive_of, const LessonsOptions& options) {
  Lessons out;
  std::vector<std::vector<Series>> loft, speed;
  std::vector<std::vector<Outcome>> reached;
  for (const NamedBook& named : books) {
    const Book& book = named.book;
    PupilLessons said{.file = named.file, .pupil = book.pupil, .sessions = book.sessions.size()};
    for (const BookedSession& s : book.sessions) {
      said.inferred += s.delivery_inferred;
      said.promises += s.promised.has_value();
    }
    PupilSeries series = series_of(book, options, said);
    if (!series.loft.empty()) {
      loft.push_back(std::move(series.loft));
      speed.push_back(std::move(series.speed));
    }
    std::vector<Outcome> outcomes = outcomes_of(book, drive_of, options.day);
    said.outcomes = outcomes.size();
    for (const Outcome& o : outcomes) out.academy.calibration.push_back(o.reckoning);
    outcomes.erase(std::remove_if(outcomes.begin(), outcomes.end(), [](const Outcome& o) { return !counts(o); }),
                   outcomes.end());
    if (!outcomes.empty()) reached.push_back(std::move(outcomes));
    out.pupils.push_back(std::move(said));
  }
  const ErrorWidths& w = options.widths;
  out.academy.follow = pooled_slope(
      loft, prior_of(kUsualFollow, follow_sd(w), options.attack_by_session, options.loft_by_day), options.threads);
  out.academy.speed_per_attack = pooled_slope(
      speed, prior_of(Reach{}.speed_per_attack, w.speed_per_attack, options.attack_by_session, options.speed_by_day),
      options.threads);
  if (!reached.empty()) {
    out.academy.reached_share = pool(
        {options.reached, options.reached_sd, options.reached_between}, reached.size(),
        [&](std::size_t pupil, std::span<const double>, std::span<const double> shares, std::span<double> logs) {
          for (std::size_t i = 0; i < shares.size(); ++i) logs[i] = reached_log_likelihood(reached[pupil], shares[i]);
        },
        options.threads);
  }
  return out;
}

std::vector<std::string> take_academy(const NamedAcademy& from, Pupil& pupil, ErrorWidths& widths) {
  // What was left open is told by its sentence, which another takes the place of.
  const auto left_open = [&](std::string_view sentence) {
    const auto at = std::find(pupil.assumed.begin(), pupil.assumed.end(), sentence);
    if (at == pupil.assumed.end()) return false;
    pupil.assumed.erase(at);
    return true;
  };
  const auto pupils = [&](const Pooled& p) { return fmt::format("{} of {}", how_many(p.groups, "pupil"), from.file); };
  std::vector<std::string> taken;
  if (left_open(taken_sentence(Datum::follow))) {
    const Pooled& p = from.academy.follow;
    pupil.reach.follow = std::clamp(p.mean, 0.0, kMostFollow);
    widths.follow_below = widths.follow_above = std::sqrt(6.0) * p.new_group_sd();
    taken.push_back(fmt::format(
        "How far delivered loft follows the attack was not given: {:.2f} +- {:.2f} taken, as the lessons of {} show.",
        pupil.reach.follow, p.new_group_sd(), pupils(p)));
  }
  if (left_open(taken_sentence(Datum::speed_per_attack))) {
    const Pooled& p = from.academy.speed_per_attack;
    constexpr double kMphPerDegree = 0.44704 / kDegree;
    pupil.reach.speed_per_attack = p.mean;
    widths.speed_per_attack = p.new_group_sd();
    taken.push_back(
        fmt::format("What a change of attack costs in club speed was not given: {:+.2f} +- {:.2f} mph a degree taken, "
                    "as the lessons of {} show.",
                    p.mean / kMphPerDegree, p.new_group_sd() / kMphPerDegree, pupils(p)));
  }
  pupil.assumed.insert(pupil.assumed.end(), taken.begin(), taken.end());
  return taken;
}

std::optional<ReachedShare> reached_share_of(const Academy& academy) {
  if (!academy.reached_share) return std::nullopt;
  const Pooled& r = *academy.reached_share;
  return ReachedShare{r.mean, r.low, r.high, r.groups};
}

}  // namespace loftwright
