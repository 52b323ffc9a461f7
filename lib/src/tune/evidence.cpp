#include "tune/evidence.hpp"

#include <cmath>

#include "loftwright/shots/inference.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kImpactReadings = 3;  // of kTuneReadings come from the delivery, the others from the flight
constexpr std::size_t kRunReading = kTuneReadingCount - 1;
constexpr int kShiftSource = kSources - 1;
// Where the parts of kLaunchParts stand in kTuneReadings, and back.
constexpr std::size_t kNotFitted = kTuneReadingCount;
constexpr std::array<std::size_t, kLaunchSources> kRowOfLaunchPart{0, 1, kNotFitted, 2, kNotFitted};

LaunchVector vector_of(const Launch& launch) {
  LaunchVector out;
  for (int i = 0; i < kLaunchSources; ++i) out[i] = launch.*kLaunchParts<double>[i].value;
  return out;
}

DeviceError error_of(Reading reading, double value, const TuneOptions& options) {
  DeviceError e = options.device[reading];
  if (e.of_reading) e = {e.noise * std::abs(value), e.systematic * std::abs(value)};
  return e;
}

// Carry is fitted to on its own: its error counts once.
std::optional<double> measured_in(const Shot& shot, std::size_t reading) {
  const auto value = shot.at(kTuneReadings[reading]);
  if (reading != kRunReading || !value) return value;
  const auto carry = shot.at(Reading::carry);
  return carry ? std::optional(*value - *carry) : std::nullopt;
}

bool is_direction(Reading reading) { return reading == Reading::path || reading == Reading::face; }

}  // namespace

Gatherer::Gatherer(const Pupil& pupil, const Setting& setting, const TuneOptions& options, double hidden_scale)
    : setting_(setting),
      options_(options),
      handed_(pupil.handed),
      means_(pupil.delivery),
      spread_(pupil.spread ? *pupil.spread : usual_spread(pupil.skill, pupil.delivery.club_speed)),
      hidden_scale_(hidden_scale) {}

std::optional<Evidence> Gatherer::gather(const Shot& shot) const {
  Evidence e;
  e.odd = !shot.odd.empty();
  e.delivery = delivery_of(shot);
  for (std::size_t k = 0; e.delivery && k < kDeliverySources; ++k) {
    const DeliveryPart& part = kDeliveryParts[k];
    e.hidden[k] = !shot.at(part.reading);
    if (e.hidden[k]) (*e.delivery).*part.value = means_.*part.value;
  }
  for (std::size_t k = 0; k < kLaunchSources; ++k) {
    const auto& part = kLaunchParts<double>[k];
    e.known[k] = shot.at(part.reading).has_value();
    e.launch.*part.value = shot.at(part.reading).value_or(0.0);
  }
  const bool strikes = e.delivery.has_value(), can_fly = strikes || launch_of(shot);
  for (std::size_t r = 0; r < kTuneReadingCount; ++r) {
    const bool of_flight = r >= kImpactReadings;
    if (!measured_in(shot, r) || !(of_flight ? can_fly : strikes)) continue;
    e.readings.push_back(r);
    e.flies = e.flies || of_flight;
  }
  if (e.readings.empty()) return std::nullopt;
  if (e.delivery) validate(*e.delivery);
  e.measured.resize(static_cast<Eigen::Index>(e.readings.size()));
  for (std::size_t i = 0; i < e.readings.size(); ++i) {
    e.measured[static_cast<Eigen::Index>(i)] = *measured_in(shot, e.readings[i]);
  }
  add_errors(e);
  return e;
}

template <class T, class All>
ByTuneReading<All> Gatherer::predicted(const Evidence& e, const ModelErrorOf<T>& aloft,
                                       const ModelErrorOf<All>& error) const {
  ByTuneReading<All> out{};
  LaunchOf<T> launch;
  if (e.delivery) {
    const Delivery& d = *e.delivery;
    const DeliveryOf<T> delivery{d.club_speed, d.attack, d.path, d.face, d.dynamic_loft, d.toe, d.high};
    launch = impact_from(delivery, handed_, setting_.head, setting_.ball, aloft).launch;
  }
  for (std::size_t k = 0; k < kLaunchSources; ++k) {
    const auto part = kLaunchParts<T>[k].value;
    const auto plain = kLaunchParts<double>[k].value;
    launch.*part = launch.*part + e.shift.*plain;
    if (kRowOfLaunchPart[k] != kNotFitted) out[kRowOfLaunchPart[k]] = All(launch.*part);
    if (e.known[k]) launch.*part = T(e.launch.*plain);
  }
  if (!e.flies) return out;
  const FlightOf<T> flight = flight_from(launch, setting_, options_.tolerance, aloft);
  out[3] = All(flight.carry);
  out[4] = All(flight.apex);
  out[5] = All(flight.landing_angle);
  if (e.readings.back() != kRunReading) return out;
  const auto [speed, angle, backspin] = landing_of(launch, flight);
  const RunOf<All> run = run_from(LandingOf<All>{All(speed), All(angle), All(backspin)}, setting_, error);
  out[kRunReading] = run.bounce + run.roll;
  return out;
}

template <class T>
ModelErrorOf<T> Gatherer::error_at(const ByTunable<T>& at) const {
  const ErrorWidths& w = options_.widths;
  const auto times = [&](double share, const T& by) {
    return exponential(setting_.turf.width * std::log1p(share) * by);
  };
  return {.drag_scale = 1.0 + w.drag_scale * at[Tunable::drag_scale],
          .lift_scale = 1.0 + w.lift_scale * at[Tunable::lift_scale],
          .restitution = w.restitution * at[Tunable::restitution],
          .tangential_restitution = w.tangential_restitution * at[Tunable::tangential_restitution],
          .turf = {.tilt = setting_.turf.tilt * tilt_share(setting_.turf, w) * at[Tunable::tilt_scale],
                   .restitution = times(w.turf_restitution, at[Tunable::bounce_scale]),
                   .rolling = times(w.turf_rolling, at[Tunable::rolling_scale]),
                   .tilt_speed = times(w.turf_tilt_speed, at[Tunable::tilt_speed_scale])}};
}

Rows Gatherer::residual(const Evidence& e, const Tunables& at) const {
  ByTunable<double> values;
  for (const Tunable t : kAllOf<Tunable>) values[t] = at[row_of(t)];
  const auto error = error_at(values);
  const auto p = predicted(e, error, error);
  Rows out = e.measured;
  for (Eigen::Index i = 0; i < out.size(); ++i) out[i] -= p[e.readings[static_cast<std::size_t>(i)]];
  return out;
}

Residual Gatherer::residual_and_slope(const Evidence& e, const Tunables& at) const {
  using Eight = Dual<kTunables>;
  using Four = Dual<kTunablesAloft>;
  ByTunable<Eight> variables;
  ByTunable<Four> aloft;
  for (const Tunable t : kAllOf<Tunable>) {
    const double x = at[row_of(t)];
    variables[t] = Eight::variable(x, index_of(t));
    aloft[t] = is_of_turf(t) ? Four(x) : Four::variable(x, index_of(t));
  }
  const auto p = predicted(e, error_at(aloft), error_at(variables));
  Residual out{e.measured, RowsByTunables(e.measured.size(), kTunables)};
  for (Eigen::Index i = 0; i < out.value.size(); ++i) {
    const Eight& x = p[e.readings[static_cast<std::size_t>(i)]];
    out.value[i] -= x.v;
    for (std::size_t k = 0; k < kTunables; ++k) out.slope(i, static_cast<Eigen::Index>(k)) = -x.d[k];
  }
  return out;
}

// A part that nobody measured scatters as the pupil does. Five points along each (Gauss-Hermite, exact for a launch
// that is a polynomial of the fourth degree in it) give the mean that brings, which first order misses: off-centre
// strikes are slow whichever side they fall on; and the covariance. A part measured with noise is the other way round:
// the model's mean over what is read is lower than at what was. What two parts do only together is left out.
void Gatherer::add_scatter(Evidence& e, Eigen::Matrix<double, kLaunchSources, kLaunchSources>& scatter) const {
  struct Point {
    double deviate, weight;  // [-] of a standard normal
  };
  static const double near = std::sqrt(5.0 - std::sqrt(10.0)), far = std::sqrt(5.0 + std::sqrt(10.0));
  static const double near_weight = (7.0 + 2.0 * std::sqrt(10.0)) / 60.0,
                      far_weight = (7.0 - 2.0 * std::sqrt(10.0)) / 60.0;
  static const Point kPoints[] = {
      {0.0, 8.0 / 15.0}, {near, near_weight}, {-near, near_weight}, {far, far_weight}, {-far, far_weight}};
  const auto launch_at = [&](const Delivery& d) {
    return vector_of(impact_from(d, handed_, setting_.head, setting_.ball).launch);
  };
  const LaunchVector middle = launch_at(*e.delivery);
  LaunchVector shift = LaunchVector::Zero();
  for (std::size_t k = 0; k < kDeliverySources; ++k) {
    const DeliveryPart& part = kDeliveryParts[k];
    const double sd = e.hidden[k] ? hidden_scale_ * spread_.*part.spread
                                  : error_of(part.reading, (*e.delivery).*part.value, options_).noise;
    LaunchVector mean = LaunchVector::Zero();
    Eigen::Matrix<double, kLaunchSources, kLaunchSources> squares = decltype(squares)::Zero();
    for (const Point& p : kPoints) {
      Delivery there = *e.delivery;
      there.*part.value += p.deviate * sd;
      const LaunchVector off = launch_at(there) - middle;
      mean += p.weight * off;
      squares += p.weight * off * off.transpose();
    }
    if (e.hidden[k]) scatter += squares - mean * mean.transpose();  // that of noise is among the errors of measurement
    shift += e.hidden[k] ? mean : LaunchVector(-mean);
  }
  for (int k = 0; k < kLaunchSources; ++k) e.shift.*kLaunchParts<double>[k].value = shift[k];
}

// The launch that the delivery gives, and its slopes along each part of it.
Gatherer::LaunchSlopes Gatherer::launch_slopes(const Evidence& e) const {
  using Eight = Dual<kTunables>;  // seven vary; a width of its own would be compiled for this alone
  static_assert(kDeliverySources <= kTunables);
  constexpr Eight DeliveryOf<Eight>::*kParts[kDeliverySources] = {
      &DeliveryOf<Eight>::club_speed,   &DeliveryOf<Eight>::attack, &DeliveryOf<Eight>::path, &DeliveryOf<Eight>::face,
      &DeliveryOf<Eight>::dynamic_loft, &DeliveryOf<Eight>::toe,    &DeliveryOf<Eight>::high};
  DeliveryOf<Eight> delivery;
  for (std::size_t k = 0; k < kDeliverySources; ++k) {
    delivery.*kParts[k] = Eight::variable((*e.delivery).*kDeliveryParts[k].value, k);
  }
  const LaunchOf<Eight> launch = impact_from(delivery, handed_, setting_.head, setting_.ball).launch;
  LaunchSlopes out;
  for (int j = 0; j < kLaunchSources; ++j) {
    const Eight& part = launch.*kLaunchParts<Eight>[j].value;
    out.launch[j] = part.v;
    for (int k = 0; k < kDeliverySources; ++k) out.slopes(j, k) = part.d[static_cast<std::size_t>(k)];
  }
  return out;
}

// Slopes of carry, apex, landing angle and run along each part of a launch. Throws InputError when the ball does not
// fly.
Gatherer::FlightSlopes Gatherer::flight_slopes(const Launch& from) const {
  using Five = Dual<kLaunchSources>;
  validate(from);
  LaunchOf<Five> launch;
  for (std::size_t j = 0; j < kLaunchSources; ++j) {
    launch.*kLaunchParts<Five>[j].value = Five::variable(from.*kLaunchParts<double>[j].value, j);
  }
  const DriveOf<Five> drive = drive_from(launch, setting_, options_.tolerance);
  const FlightOf<Five>& flight = drive.flight;
  const Five run = drive.run.bounce + drive.run.roll;
  if (flight.end != FlightEnd::landed) throw InputError(std::string(sentence(flight.end)));
  const Five* parts[kFlightSources] = {&flight.carry, &flight.apex, &flight.landing_angle, &run};
  FlightSlopes out;
  out.run = run.v;
  for (int i = 0; i < kFlightSources; ++i) {
    for (int j = 0; j < kLaunchSources; ++j) out.by_launch(i, j) = parts[i]->d[static_cast<std::size_t>(j)];
  }
  return out;
}

// Standard deviations of each source in this shot: its own, and what all shots share.
Gatherer::SourceErrors Gatherer::source_errors(const Evidence& e, double run) const {
  SourceErrors out;
  const auto set = [&](std::size_t source, const DeviceError& error) {
    out.own[static_cast<Eigen::Index>(source)] = error.noise;
    out.shared[static_cast<Eigen::Index>(source)] = error.systematic;
  };
  for (std::size_t k = 0; e.delivery && k < kDeliverySources; ++k) {
    const DeliveryPart& part = kDeliveryParts[k];
    const double mean = is_direction(part.reading) ? options_.hidden_direction : options_.hidden_strike;
    set(k, e.hidden[k] ? DeviceError{0.0, mean} : error_of(part.reading, (*e.delivery).*part.value, options_));
  }
  for (std::size_t k = 0; k < kLaunchSources; ++k) {
    const auto& part = kLaunchParts<double>[k];
    if (e.known[k]) set(kDeliverySources + k, error_of(part.reading, e.launch.*part.value, options_));
  }
  for (std::size_t i = 0; i < e.readings.size(); ++i) {
    const std::size_t r = e.readings[i];
    if (r < kImpactReadings) continue;
    DeviceError error = error_of(kTuneReadings[r], e.measured[static_cast<Eigen::Index>(i)], options_);
    // Of the computed run: a share of the measured one would make short runs count for more.
    if (r == kRunReading) error.noise = std::hypot(error.noise, options_.run_scatter * run);
    set(kDeliverySources + kLaunchSources + r - kImpactReadings, error);
  }
  out.shared[kShiftSource] = options_.hidden_shift;
  return out;
}

// How every error of measurement, and what was not measured, shows in the residuals: to first order, at the prior.
void Gatherer::add_errors(Evidence& e) const {
  Eigen::Matrix<double, kLaunchSources, kLaunchSources> scatter = decltype(scatter)::Zero();
  FlightSlopes flown;
  LaunchSlopes struck;
  if (e.delivery) {
    add_scatter(e, scatter);
    struck = launch_slopes(e);
  }
  if (e.flies) {
    Launch from = e.launch;
    for (std::size_t j = 0; j < kLaunchSources; ++j) {
      const auto part = kLaunchParts<double>[j].value;
      if (!e.known[j]) from.*part = struck.launch[static_cast<Eigen::Index>(j)] + e.shift.*part;
    }
    flown = flight_slopes(from);
  }

  // A launch computed too high makes the residual too low, wherever it was not replaced by the measured one; one
  // measured too high makes its own residual too high and those of the flight too low.
  using AllRows = Eigen::Matrix<double, kTuneReadingCount, kLaunchSources>;
  AllRows by_computed = AllRows::Zero(), by_measured = AllRows::Zero();
  for (std::size_t j = 0; j < kLaunchSources; ++j) {
    const auto column = static_cast<Eigen::Index>(j);
    if (kRowOfLaunchPart[j] != kNotFitted) {
      by_computed(static_cast<Eigen::Index>(kRowOfLaunchPart[j]), column) = -1.0;
      by_measured(static_cast<Eigen::Index>(kRowOfLaunchPart[j]), column) = 1.0;
    }
    (e.known[j] ? by_measured : by_computed).bottomRows<kFlightSources>().col(column) = -flown.by_launch.col(column);
  }
  Eigen::Matrix<double, kTuneReadingCount, kSources> by_source = decltype(by_source)::Zero();
  by_source.leftCols<kDeliverySources>() = by_computed * struck.slopes;
  by_source.middleCols<kLaunchSources>(kDeliverySources) = by_measured;
  by_source.block<kFlightSources, kFlightSources>(kImpactReadings, kDeliverySources + kLaunchSources).setIdentity();
  by_source.col(kShiftSource) = by_computed * vector_of(e.shift);

  const SourceErrors errors = source_errors(e, flown.run);
  const Eigen::Matrix<double, kTuneReadingCount, kSources> noise = by_source * errors.own.asDiagonal();
  // Lazy, here and in mean_residual.cpp: so small a product does not pay for blocks, which take long to compile.
  const Eigen::Matrix<double, kTuneReadingCount, kTuneReadingCount> own =
      noise.lazyProduct(noise.transpose()) + by_computed * scatter * by_computed.transpose();
  const auto rows = e.measured.size();
  e.own.resize(rows, rows);
  e.shared.resize(rows, kSources);
  for (Eigen::Index i = 0; i < rows; ++i) {
    const auto r = static_cast<Eigen::Index>(e.readings[static_cast<std::size_t>(i)]);
    e.shared.row(i) = by_source.row(r) * errors.shared.asDiagonal();
    for (Eigen::Index j = 0; j < rows; ++j) {
      e.own(i, j) = own(r, static_cast<Eigen::Index>(e.readings[static_cast<std::size_t>(j)]));
    }
  }
}

}  // namespace loftwright
