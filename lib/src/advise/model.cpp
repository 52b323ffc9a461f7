#include "advise/model.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "advise/scatter.hpp"
#include "stats/quasi.hpp"

namespace loftwright {

namespace {

using Two = Dual<2>;
using Five = Dual<5>;

std::array<double, 2> slope_of(double) { return {}; }
std::array<double, 2> slope_of(const Two& x) { return x.d; }

template <class T>
T limited_value(Limited quantity, const DeliveryOf<T>& delivery, const DriveOf<T>& drive) {
  switch (quantity) {
    case Limited::spin_loft: return drive.spin_loft;
    case Limited::launch: return drive.launch.launch;
    case Limited::spin: return drive.launch.spin;
    case Limited::apex: return drive.flight.apex;
    case Limited::landing_angle: return drive.flight.landing_angle;
    case Limited::side: return drive.side_at_rest;
    case Limited::carry: return drive.flight.carry;
    case Limited::face_to_path: return delivery.face - delivery.path;
  }
  return T(0.0);
}

}  // namespace

double Point::worst() const {
  double most = 0.0;
  for (const double e : excess) most = std::max(most, e);
  return most;
}

DriveModel::DriveModel(const Pupil& pupil, const Setting& setting, const AdviseOptions& options,
                       std::atomic<int>& flights)
    : pupil_(pupil),
      setting_(setting),
      options_(options),
      flights_(&flights),
      circumstances_{.follow = pupil.reach.follow, .speed_per_attack = pupil.reach.speed_per_attack} {
  for (std::size_t i = 0; i < pupil.limits.size(); ++i) {
    const Interval& allowed = pupil.limits[i].allowed;
    if (std::isfinite(allowed.low)) ends_.push_back({i, allowed.low, false});
    if (std::isfinite(allowed.high)) ends_.push_back({i, allowed.high, true});
  }
  const Scatter scatter(pupil);
  if (!scatter.any()) return;
  const auto count = static_cast<std::size_t>(std::max(1, options.shots));
  const std::vector<double> points = sobol_points(count, kSpreadQuantities, options.seed);
  for (std::size_t n = 0; n < count; ++n) {
    Scatter::Deviates z;
    for (std::size_t i = 0; i < z.size(); ++i) z[i] = normal_quantile(points[n * z.size() + i]);
    shots_.push_back(scatter.at(z));
  }
}

DriveModel DriveModel::under(const Circumstances& circumstances) const {
  DriveModel other = *this;
  other.circumstances_ = circumstances;
  return other;
}

DriveModel DriveModel::with_shots(std::size_t count) const {
  DriveModel other = *this;
  if (other.shots_.size() > count) other.shots_.resize(count);
  return other;
}

template <class T>
DriveOf<T> DriveModel::drive(const DeliveryOf<T>& delivery, const ModelErrorOf<double>& e, double tolerance) const {
  flights_->fetch_add(1, std::memory_order_relaxed);
  return drive_from(delivery, pupil_.handed, setting_, tolerance, error_in<T>(e));
}

std::vector<Drive> DriveModel::fly(const std::vector<DriveInput>& inputs, double tolerance) const {
  flights_->fetch_add(static_cast<int>(inputs.size()), std::memory_order_relaxed);
  return drive_many(inputs, pupil_.handed, setting_, tolerance);
}

std::vector<double> DriveModel::average_goals(const LoftChoice& club, std::span<const Place> places) const {
  std::vector<DriveInput> inputs;
  inputs.reserve(places.size() * shots_.size());
  for (const auto& [loft, attack] : places) {
    const Delivery mean = delivery(club, loft, attack);
    for (const Delivery& deviation : shots_) inputs.push_back({mean + deviation, circumstances_.error});
  }
  const std::vector<Drive> drives = fly(inputs, options_.draw_tolerance);
  std::vector<double> goals(places.size(), 0.0);
  for (std::size_t i = 0; i < drives.size(); ++i) goals[i / shots_.size()] += goal_of(drives[i]);
  for (double& g : goals) g /= static_cast<double>(shots_.size());
  return goals;
}

// Limits exactly, with their slopes; the goal exactly where the player does not scatter, else the average of drives
// side by side and its slopes by central differences: of the same drives, so that what they scatter by cancels.
template <class T>
Point DriveModel::evaluate(const LoftChoice& club, const T& loft, const T& attack) const {
  constexpr bool kSlopes = !std::is_same_v<T, double>;
  if (!shots_.empty() && ends_.empty() && !kSlopes) {
    Point p{value_of(loft), value_of(attack), 0.0, {}, {}, {}};
    p.goal = average_goals(club, std::array<Place, 1>{{{p.loft, p.attack}}})[0];
    return p;
  }
  const DeliveryOf<T> d = delivery(club, loft, attack);
  Point p;
  if (shots_.empty() || !ends_.empty()) {
    const DriveOf<T> drive = this->drive(d, circumstances_.error, options_.tolerance);
    p = point(loft, attack, pupil_.goal == Goal::carry ? drive.flight.carry : drive.total, d, drive);
  } else {
    p = {value_of(loft), value_of(attack), 0.0, {}, {}, {}};
  }
  if (shots_.empty()) return p;
  if constexpr (kSlopes) {
    constexpr double kStep = 0.25 * kDegree;  // [rad] averages are even over much more
    const double l = p.loft, a = p.attack;
    const std::vector<double> g = average_goals(club, std::array{Place{l, a}, Place{l + kStep, a}, Place{l - kStep, a},
                                                                 Place{l, a + kStep}, Place{l, a - kStep}});
    p.goal = g[0];
    p.d_goal = {(g[1] - g[2]) / (2.0 * kStep), (g[3] - g[4]) / (2.0 * kStep)};
  } else {
    p.goal = average_goals(club, std::array<Place, 1>{{{p.loft, p.attack}}})[0];
  }
  return p;
}

template <class T>
Point DriveModel::point(const T& loft, const T& attack, const T& goal, const DeliveryOf<T>& d,
                        const DriveOf<T>& drive) const {
  Point p{value_of(loft), value_of(attack), value_of(goal), slope_of(goal), {}, {}};
  p.excess.reserve(ends_.size());
  p.d_excess.reserve(ends_.size());
  for (const End& end : ends_) {
    const Limited quantity = pupil_.limits[end.limit].quantity;
    const T over = (limited_value(quantity, d, drive) - end.bound) * ((end.upper ? 1.0 : -1.0) / scale_of(quantity));
    p.excess.push_back(value_of(over));
    p.d_excess.push_back(slope_of(over));
  }
  return p;
}

LoftChoice club_in_hand(const Pupil& pupil) {
  const auto first = [&](const auto& of) { return std::find_if(pupil.lofts.begin(), pupil.lofts.end(), of); };
  const auto as_played = [&](const LoftChoice& c) { return is_as_played(pupil, c); };
  auto at = first([&](const LoftChoice& c) { return as_played(c) && c.setting == pupil.club_setting; });
  if (at == pupil.lofts.end()) at = first(as_played);
  if (at == pupil.lofts.end()) at = first([](const LoftChoice& c) { return c.in_hand; });
  LoftChoice own = *at;
  own.low = own.high = pupil.club_loft;
  own.face = pupil.club_face;
  return own;
}

bool is_as_played(const Pupil& pupil, const LoftChoice& club, double loft) {
  return club.in_hand && same_angle(loft, pupil.club_loft) && same_angle(club.face, pupil.club_face);
}

std::optional<ClubFit> fit_of(const Pupil& pupil, const LoftChoice& club, double loft) {
  if (is_as_played(pupil, club, loft)) return std::nullopt;
  const bool one_head = club.in_hand || club.has_sleeve;
  return ClubFit{one_head ? club.nominal : loft,          club.setting, loft,
                 face_turn(club, loft) - pupil.club_face, club.in_hand, club.has_sleeve,
                 club.in_hand ? pupil.club_setting : ""};
}

AverageDrive average_of(std::span<const Drive> drives, double fairway) {
  AverageDrive out;
  const auto n = static_cast<double>(drives.size());
  for (const Drive& d : drives) {
    out.carry += d.flight.carry / n;
    out.total += d.total / n;
    out.side += d.side_at_rest / n;
  }
  for (const Drive& d : drives) out.fairway_share += (std::abs(d.side_at_rest - out.side) <= 0.5 * fairway) / n;
  return out;
}

Point DriveModel::value(const LoftChoice& club, double loft, double attack) const {
  return evaluate(club, loft, attack);
}

std::vector<Point> DriveModel::centred(const LoftChoice& club, std::span<const Place> places) const {
  std::vector<DriveInput> inputs;
  inputs.reserve(places.size());
  for (const auto& [loft, attack] : places) inputs.push_back({delivery(club, loft, attack), circumstances_.error});
  const std::vector<Drive> drives = fly(inputs, options_.draw_tolerance);
  std::vector<Point> points;
  points.reserve(places.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    points.push_back(point(places[i][0], places[i][1], goal_of(drives[i]), inputs[i].delivery, drives[i]));
  }
  return points;
}

std::vector<Point> DriveModel::values(const LoftChoice& club, std::span<const Place> places) const {
  std::vector<Point> points;
  if (shots_.empty() || !ends_.empty()) {
    points = centred(club, places);
  } else {
    for (const auto& [loft, attack] : places) points.push_back({loft, attack, 0.0, {}, {}, {}});
  }
  if (shots_.empty()) return points;
  const std::vector<double> goals = average_goals(club, places);
  for (std::size_t i = 0; i < points.size(); ++i) points[i].goal = goals[i];
  return points;
}

Point DriveModel::gradient(const LoftChoice& club, double loft, double attack) const {
  return evaluate(club, Two::variable(loft, 0), Two::variable(attack, 1));
}

Drive DriveModel::drive(const Delivery& delivery, double tolerance) const {
  flights_->fetch_add(1, std::memory_order_relaxed);
  return drive_from(delivery, pupil_.handed, setting_, tolerance);
}

AverageDrive DriveModel::average(const LoftChoice& club, double loft, double attack) const {
  const Delivery mean = delivery(club, loft, attack);
  std::vector<DriveInput> inputs;
  for (const Delivery& deviation : shots_) inputs.push_back({mean + deviation, circumstances_.error});
  if (inputs.empty()) inputs.push_back({mean, circumstances_.error});
  return average_of(fly(inputs, options_.draw_tolerance), pupil_.fairway);
}

void DriveModel::drives(const LoftChoice& club, double loft, double attack,
                        std::span<const Circumstances> circumstances, std::span<Drive> out) const {
  std::vector<DriveInput> inputs;
  inputs.reserve(circumstances.size());
  for (const Circumstances& c : circumstances) inputs.push_back({delivery(club, loft, attack, c), c.error});
  flights_->fetch_add(static_cast<int>(inputs.size()), std::memory_order_relaxed);
  drive_many(inputs, pupil_.handed, setting_, options_.draw_tolerance, out);
}

double DriveModel::goal_of(const AverageDrive& drive) const {
  return pupil_.goal == Goal::carry ? drive.carry : drive.total;
}

double DriveModel::goal_of(const Drive& drive) const {
  return pupil_.goal == Goal::carry ? drive.flight.carry : drive.total;
}

ExchangeRates DriveModel::rates(const LoftChoice& club, double loft, double attack) const {
  flights_->fetch_add(1, std::memory_order_relaxed);
  DeliveryOf<Five> d = delivery(club, Five::variable(loft, 0), Five::variable(attack, 1));
  d.club_speed = d.club_speed + Five::variable(0.0, 2);
  const bool left = pupil_.handed == Handed::left;
  LaunchOf<Five> launch = strike_ball(left ? mirrored(d) : d, head_in<Five>(setting_.head), setting_.ball).launch;
  launch.spin = launch.spin + Five::variable(0.0, 3);
  launch.launch = launch.launch + Five::variable(0.0, 4);
  const DriveOf<Five> drive = drive_from(left ? mirrored(launch) : launch, setting_, options_.tight_tolerance);
  const auto rate = [&](std::size_t i) {
    return Rate{drive.flight.carry.d[i], drive.total.d[i], drive.launch.launch.d[i], drive.launch.spin.d[i]};
  };
  DeliveryOf<Two> held = delivery(club, Two(loft), Two(attack));
  held.attack = Two::variable(attack, 0);
  const DriveOf<Two> other = this->drive(held, ModelErrorOf<double>{}, options_.tight_tolerance);
  const Rate loft_held{other.flight.carry.d[0], other.total.d[0], other.launch.launch.d[0], other.launch.spin.d[0]};
  return {.attack = rate(1),
          .attack_loft_held = loft_held,
          .loft = rate(0),
          .club_speed = rate(2),
          .launch_spin = rate(3),
          .launch_angle = rate(4)};
}

std::vector<LimitState> DriveModel::limit_states(const Delivery& delivery, const Drive& drive) const {
  std::vector<LimitState> states;
  for (const Limit& limit : pupil_.limits) {
    LimitState s{limit.quantity, limited_value(limit.quantity, delivery, drive), limit.allowed, 0.0, false, false};
    s.slack = std::min(s.value - s.allowed.low, s.allowed.high - s.value);
    const double grain = kLimitSlack * scale_of(limit.quantity);
    s.broken = s.slack < -grain;
    s.active = !s.broken && s.slack < grain;
    states.push_back(s);
  }
  return states;
}

}  // namespace loftwright
