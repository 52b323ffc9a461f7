#include "loftwright/shots/inference.hpp"

#include <cmath>

#include "shots/parts.hpp"

namespace loftwright {

namespace {

bool has(const Shot& shot, Reading a, Reading b) { return shot.at(a) && shot.at(b); }

// Fills one shot; throws InputError where the model has no answer, with what was filled so far in place.
class Filler {
 public:
  Filler(const Setting& setting, Handed handed, ByReading<std::size_t>& computed)
      : setting_(setting), handed_(handed), computed_(computed) {}

  void fill(Shot& shot) {
    const bool had_delivery = delivery_of(shot).has_value();
    if (had_delivery) fill_launch(shot);
    if (const auto launch = launch_of(shot)) {
      fill_flight(shot, *launch);
      if (!had_delivery) fill_delivery(shot, *launch);
    }
    if (const auto delivery = delivery_of(shot)) put(shot, Reading::spin_loft, spin_loft(*delivery));
    if (has(shot, Reading::ball_speed, Reading::club_speed)) {
      put(shot, Reading::smash, *shot.at(Reading::ball_speed) / *shot.at(Reading::club_speed));
    }
  }

 private:
  void put(Shot& shot, Reading reading, double value) {
    if (shot.at(reading)) return;
    shot.at(reading) = value;
    ++computed_[reading];
  }

  void fill_launch(Shot& shot) {
    if (launch_of(shot) && has(shot, Reading::azimuth, Reading::tilt)) return;
    const bool directed = has(shot, Reading::path, Reading::face);
    const Launch launch = launch_from(*delivery_of(shot), handed_, setting_.head, setting_.ball);
    for (const auto& part : kLaunchParts<double>) {
      if (part.needed || directed) put(shot, part.reading, launch.*part.value);
    }
  }

  void fill_flight(Shot& shot, const Launch& launch) {
    validate(launch);
    const Drive drive = drive_from(launch, setting_);
    const bool directed = has(shot, Reading::azimuth, Reading::tilt);
    for (const auto& part : kFlightParts<double>) {
      if (part.reading != Reading::side || directed) put(shot, part.reading, drive.flight.*part.value);
    }
    // On a measured carry the computed run is added, so that the two stay together.
    put(shot, Reading::total, *shot.at(Reading::carry) + (drive.total - drive.flight.carry));
  }

  Delivery worked_out(const Launch& launch) const {
    try {
      return delivery_from(launch, handed_, setting_.head, setting_.ball);
    } catch (const InputError&) {
      throw InputError("no delivery is worked out: no strike at the centre of the face starts a ball like this");
    }
  }

  void fill_delivery(Shot& shot, const Launch& launch) {
    const bool directed = has(shot, Reading::azimuth, Reading::tilt);
    const Delivery delivery = worked_out(launch);
    for (const DeliveryPart& part : kDeliveryParts) {
      const bool direction = part.reading == Reading::path || part.reading == Reading::face;
      if (part.needed || (direction && directed)) put(shot, part.reading, delivery.*part.value);
    }
  }

  const Setting& setting_;
  Handed handed_;
  ByReading<std::size_t>& computed_;
};

// Differences of one kind over the shots, as they come in.
struct Differences {
  ByReading<std::vector<double>> of;

  void add(const Shot& shot, Reading reading, double computed) {
    if (shot.at(reading)) of[reading].push_back(*shot.at(reading) - computed);
  }
};

// Root of the summed squares of (derivative times standard deviation).
template <std::size_t N>
double width_of(const Dual<N>& value, const std::array<double, N>& sd) {
  double sum = 0.0;
  for (std::size_t i = 0; i < N; ++i) sum += value.d[i] * value.d[i] * sd[i] * sd[i];
  return std::sqrt(sum);
}

// A mean of plain structs, member by member.
template <class S, class Parts>
S mean_of(const std::vector<S>& all, const Parts& parts) {
  S mean;
  for (const S& one : all) {
    for (const auto& part : parts) mean.*part.value += one.*part.value / static_cast<double>(all.size());
  }
  return mean;
}

void impact_widths(const std::vector<const Shot*>& shots, const std::vector<Delivery>& deliveries,
                   const Setting& setting, Handed handed, const ModelWidth& width, ByReading<double>& out) {
  using Four = Dual<4>;
  if (deliveries.empty()) return;
  const Delivery mean = mean_of(deliveries, kDeliveryParts);
  const ModelErrorOf<Four> error{.restitution = Four::variable(0.0, 0),
                                 .tangential_restitution = Four::variable(0.0, 1)};
  const DeliveryOf<Four> delivery{mean.club_speed,
                                  mean.attack,
                                  mean.path,
                                  mean.face,
                                  mean.dynamic_loft,
                                  Four::variable(mean.toe, 2),
                                  Four::variable(mean.high, 3)};
  const LaunchOf<Four> launch = impact_from(delivery, handed, setting.head, setting.ball, error).launch;
  const std::array<double, 4> sd{width.restitution, width.tangential_restitution,
                                 values_of(shots, Reading::toe).empty() ? width.toe : 0.0,
                                 values_of(shots, Reading::high).empty() ? width.high : 0.0};
  for (const auto& part : kLaunchParts<Four>) out[part.reading] = width_of(launch.*part.value, sd);
}

void flight_widths(const std::vector<Launch>& launches, const Setting& setting, const ModelWidth& width,
                   ByReading<double>& out) {
  using Two = Dual<2>;
  if (launches.empty()) return;
  const Launch mean = mean_of(launches, kLaunchParts<double>);
  const ModelErrorOf<Two> error{.drag_scale = Two::variable(1.0, 0), .lift_scale = Two::variable(1.0, 1)};
  const LaunchOf<Two> launch{mean.ball_speed, mean.launch, mean.azimuth, mean.spin, mean.tilt};
  const FlightOf<Two> flight = flight_from(launch, setting, kFlightTolerance, error);
  for (const auto& part : kFlightParts<Two>) {
    out[part.reading] = width_of(flight.*part.value, {width.drag_scale, width.lift_scale});
  }
}

}  // namespace

Launch launch_from(const Delivery& delivery, Handed handed, const Head& head, const Ball& ball) {
  validate(delivery);
  return impact_from(delivery, handed, head, ball).launch;
}

Delivery delivery_from(const Launch& launch, Handed handed, const Head& head, const Ball& ball) {
  if (handed == Handed::right) return delivery_behind(launch, head, ball);
  return mirrored(delivery_behind(mirrored(launch), head, ball));
}

std::optional<Launch> launch_of(const Shot& shot) {
  Launch launch;
  for (const auto& part : kLaunchParts<double>) {
    if (part.needed && !shot.at(part.reading)) return std::nullopt;
    launch.*part.value = shot.at(part.reading).value_or(0.0);
  }
  return launch;
}

std::optional<Delivery> delivery_of(const Shot& shot) {
  Delivery delivery;
  for (const DeliveryPart& part : kDeliveryParts) {
    if (part.needed && !shot.at(part.reading)) return std::nullopt;
    delivery.*part.value = shot.at(part.reading).value_or(0.0);
  }
  return delivery;
}

Completed complete(const ShotList& list, const Setting& setting, Handed handed) {
  Completed out{list, {}, {}};
  Filler filler(setting, handed, out.computed);
  for (Shot& shot : out.list.shots) {
    try {
      filler.fill(shot);
    } catch (const InputError& error) {
      out.notes.push_back({shot.line, error.what()});
    }
  }
  return out;
}

ShotList only_computed(const Completed& completed, const ShotList& measured) {
  ShotList out = completed.list;
  for (std::size_t i = 0; i < out.shots.size(); ++i) {
    for (const Reading r : kAllOf<Reading>) {
      if (measured.shots[i].at(r)) out.shots[i].at(r).reset();
    }
  }
  return out;
}

std::optional<DeliveryBlock> delivery_block(const ShotList& list, const Setting& setting, Handed handed, Outliers odd) {
  if (auto block = delivery_block(list, odd)) return block;
  auto block = delivery_block(complete(list, setting, handed).list, odd);
  if (!block) return block;
  block->inferred = true;
  for (const DeliveryPart& part : kDeliveryParts) {
    if (part.needed && values_of(counted(list, odd), part.reading).empty()) block->worked_out.push_back(part.reading);
  }
  return block;
}

Consistency consistency(const ShotList& list, const Setting& setting, Handed handed, Outliers odd,
                        const ModelWidth& width) {
  Consistency out;
  Differences differences;
  std::vector<const Shot*> struck;
  std::vector<Delivery> deliveries;
  std::vector<Launch> launches;
  for (const Shot* shot : counted(list, odd)) {
    try {
      const auto launch = launch_of(*shot);
      if (const auto delivery = delivery_of(*shot); launch && delivery) {
        const Launch computed = launch_from(*delivery, handed, setting.head, setting.ball);
        const bool directed = has(*shot, Reading::path, Reading::face);
        for (const auto& part : kLaunchParts<double>) {
          if (part.needed || directed) differences.add(*shot, part.reading, computed.*part.value);
        }
        struck.push_back(shot);
        deliveries.push_back(*delivery);
      }
      if (launch) {
        validate(*launch);
        const Flight computed = drive_from(*launch, setting).flight;
        for (const auto& part : kFlightParts<double>) {
          if (part.reading == Reading::side && !has(*shot, Reading::azimuth, Reading::tilt)) continue;
          differences.add(*shot, part.reading, computed.*part.value);
        }
        launches.push_back(*launch);
      }
    } catch (const InputError& error) {
      out.notes.push_back({shot->line, error.what()});
    }
  }
  ByReading<double> widths{};
  impact_widths(struck, deliveries, setting, handed, width, widths);
  flight_widths(launches, setting, width, widths);
  for (const ReadingInfo& r : readings()) {
    const Summary difference = summarise(differences.of[r.reading]);
    if (difference.count == 0) continue;
    const double model = widths[r.reading];
    out.rows.push_back({r.reading, difference, model,
                        std::abs(difference.mean) <= 2.0 * std::hypot(difference.standard_error, model)});
  }
  return out;
}

}  // namespace loftwright
