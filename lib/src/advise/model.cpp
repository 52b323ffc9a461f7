#include "advise/model.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "loftwright/shot/drives.hpp"

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

DriveModel::DriveModel(const Pupil& pupil, const Setting& setting, const AdviseOptions& options, std::atomic<int>& flights)
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
}

DriveModel DriveModel::under(const Circumstances& circumstances) const {
  DriveModel other = *this;
  other.circumstances_ = circumstances;
  return other;
}

DriveModel DriveModel::over(std::vector<Circumstances> sample) const {
  DriveModel other = *this;
  other.sample_ = std::move(sample);
  return other;
}

template <class T>
DriveOf<T> DriveModel::drive(const DeliveryOf<T>& delivery, const ModelErrorOf<double>& e, double tolerance) const {
  flights_->fetch_add(1, std::memory_order_relaxed);
  return drive_from(delivery, pupil_.handed, setting_, tolerance, error_in<T>(e));
}

template <class T>
Point DriveModel::evaluate(const LoftChoice& club, const T& loft, const T& attack) const {
  const DeliveryOf<T> d = delivery(club, loft, attack);
  const DriveOf<T> drive = this->drive(d, circumstances_.error, options_.tolerance);
  const auto goal_of_drive = [&](const DriveOf<T>& x) { return pupil_.goal == Goal::carry ? x.flight.carry : x.total; };
  T goal = goal_of_drive(drive);
  if (!sample_.empty()) {
    goal = T(0.0);
    for (const Circumstances& c : sample_) {
      goal = goal + goal_of_drive(this->drive(delivery(club, loft, attack, c), c.error, options_.draw_tolerance));
    }
    goal = goal / static_cast<double>(sample_.size());
  }
  return point(loft, attack, goal, d, drive);
}

template <class T>
Point DriveModel::point(const T& loft, const T& attack, const T& goal, const DeliveryOf<T>& d, const DriveOf<T>& drive) const {
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

Point DriveModel::value(const LoftChoice& club, double loft, double attack) const {
  return evaluate(club, loft, attack);
}

std::vector<Point> DriveModel::values(const LoftChoice& club, std::span<const std::array<double, 2>> places) const {
  flights_->fetch_add(static_cast<int>(places.size()), std::memory_order_relaxed);
  std::vector<DriveInput> inputs;
  inputs.reserve(places.size());
  for (const auto& [loft, attack] : places) inputs.push_back({delivery(club, loft, attack), circumstances_.error});
  const std::vector<Drive> drives = drive_many(inputs, pupil_.handed, setting_, options_.tolerance);
  std::vector<Point> points;
  points.reserve(places.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    points.push_back(point(places[i][0], places[i][1], goal_of(drives[i]), inputs[i].delivery, drives[i]));
  }
  return points;
}

Point DriveModel::gradient(const LoftChoice& club, double loft, double attack) const {
  return evaluate(club, Two::variable(loft, 0), Two::variable(attack, 1));
}

Drive DriveModel::drive(const Delivery& delivery, double tolerance) const {
  flights_->fetch_add(1, std::memory_order_relaxed);
  return drive_from(delivery, pupil_.handed, setting_, tolerance);
}

std::vector<double> DriveModel::goals(const LoftChoice& club, double loft, double attack,
                                      std::span<const Circumstances> circumstances) const {
  flights_->fetch_add(static_cast<int>(circumstances.size()), std::memory_order_relaxed);
  std::vector<DriveInput> inputs;
  inputs.reserve(circumstances.size());
  for (const Circumstances& c : circumstances) inputs.push_back({delivery(club, loft, attack, c), c.error});
  std::vector<double> goals;
  goals.reserve(inputs.size());
  for (const Drive& drive : drive_many(inputs, pupil_.handed, setting_, options_.draw_tolerance)) goals.push_back(goal_of(drive));
  return goals;
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
  return {.attack = rate(1), .attack_loft_held = loft_held, .loft = rate(0), .club_speed = rate(2), .launch_spin = rate(3),
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
