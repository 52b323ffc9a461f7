#include "report/page/drive_grid.hpp"

#include <algorithm>
#include <cmath>

#include "files/json_values.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/shot/drives.hpp"
#include "stats/quasi.hpp"

namespace loftwright {

namespace {

constexpr int kWidth = 4;  // nodes a cubic goes through

struct Weights {
  std::size_t first;
  std::array<double, kWidth> of;
};

Weights weights(const GridAxis& axis, double value) {
  const double at = (value - axis.low) / axis.step;
  const int first = std::clamp(static_cast<int>(std::floor(at)) - 1, 0, axis.count - kWidth);
  Weights w{static_cast<std::size_t>(first), {}};
  const double q = at - first;
  for (int m = 0; m < kWidth; ++m) {
    w.of[static_cast<std::size_t>(m)] = 1.0;
    for (int n = 0; n < kWidth; ++n) {
      if (n != m) w.of[static_cast<std::size_t>(m)] *= (q - n) / (m - n);
    }
  }
  return w;
}

// Calls with each node's point, loft running fastest.
template <class Visit>
void for_each_node(const GridAxes& axes, Visit visit) {
  for (int i = 0; i < axes[0].count; ++i) {
    for (int j = 0; j < axes[1].count; ++j) {
      for (int k = 0; k < axes[2].count; ++k) {
        visit(
            GridPoint{axes[0].low + axes[0].step * i, axes[1].low + axes[1].step * j, axes[2].low + axes[2].step * k});
      }
    }
  }
}

// The same range with other nodes.
GridAxes with_counts(const GridAxes& range, const std::array<int, 3>& counts) {
  GridAxes axes;
  for (std::size_t i = 0; i < axes.size(); ++i)
    axes[i] = {range[i].low, (range[i].high() - range[i].low) / (counts[i] - 1), counts[i]};
  return axes;
}

// What is stored of each quantity: its key, and the quantum it is rounded to, well below what the page shows.
struct Stored {
  std::string_view key;
  double quantum;
};
constexpr EnumArray<GridQuantity, Stored> kStored{{{{"carry_m", 0.005},
                                                    {"side_m", 0.005},
                                                    {"apex_m", 0.002},
                                                    {"apex_at_m", 0.01},
                                                    {"launch_deg", 0.001},
                                                    {"landing_deg", 0.002},
                                                    {"heading_deg", 0.005},
                                                    {"spin_rpm", 0.5},
                                                    {"ball_speed_mps", 0.002}}}};
constexpr double kRunQuantum = 0.04;  // [m]

// A few nodes carry what is smooth to a few centimetres; the run bends more, where a bounce begins to grip, and takes a
// closer mesh. Chosen by trial: see docs/decisions/0008-page.md.
constexpr std::array<int, 3> kFlightCounts{5, 9, 9};
constexpr std::array<double, 3> kRunSteps{2.0, 1.0, 0.8};  // [m/s, deg, deg] at most
constexpr double kBound = 0.45 * 0.9144;                   // [m] of the error in distance

double degrees(double radians) { return radians / kDegree; }

// Where the top of the flight is, from the highest of many points and its neighbours.
double apex_at(const Drive& drive, const Setting& setting) {
  constexpr int kPoints = 65;
  const FlightSetting in{&setting.ball, &setting.aero, setting.air, setting.wind, 1.0, 1.0};
  const std::vector<FlightPoint> path = trace(drive.launch, in, kPoints);
  const auto top = std::max_element(path.begin(), path.end(),
                                    [](const FlightPoint& a, const FlightPoint& b) { return a.at.y < b.at.y; });
  if (top == path.begin() || top + 1 == path.end()) return top->at.x;
  const double below = top[-1].at.y, high = top->at.y, above = top[1].at.y;
  const double part = 0.5 * (below - above) / (below - 2.0 * high + above);
  return top->at.x + part * (part > 0.0 ? top[1].at.x - top->at.x : top->at.x - top[-1].at.x);
}

std::vector<Drive> drives_at(const std::vector<GridPoint>& points, const Pupil& pupil, const Setting& setting) {
  std::vector<DriveInput> inputs;
  for (const GridPoint& point : points) inputs.push_back({DriveGrid::delivery_at(pupil, point)});
  return drive_many(inputs, pupil.handed, setting, kFlightTolerance);
}

double run_on(const Turf& turf, const Landing& landing, const Setting& setting) {
  const Run run =
      run_out(landing, {turf, &setting.ball, &setting.aero, setting.air, setting.drag_scale, setting.lift_scale});
  return run.bounce + run.roll;
}

// A window of at most `most` that holds [must_low, must_high] and as much of [low, high] as it can.
std::pair<double, double> window(double must_low, double must_high, double low, double high, double most) {
  const double room = std::max(0.0, most - (must_high - must_low)) / 2.0;
  return {std::max(low, must_low - room), std::min(high, must_high + room)};
}

// Slider steps: whole ones from the pupil's own value, so that it can be set exactly.
GridAxis around_value(double value, double low, double high, double step) {
  constexpr double kRounding = 1e-9;
  const int below = static_cast<int>(std::floor((value - low) / step + kRounding)),
            above = static_cast<int>(std::floor((high - value) / step + kRounding));
  return {value - below * step, step, below + above + 1};
}

}  // namespace

std::string_view key_of(GridQuantity quantity) { return kStored[quantity].key; }

GridTable::GridTable(const GridAxes& axes, double quantum, const std::vector<double>& values)
    : axes_(axes), quantum_(quantum) {
  for (const double v : values) numbers_.push_back(static_cast<int>(std::lround(v / quantum)));
}

double GridTable::at(const GridPoint& point) const {
  const Weights x = weights(axes_[0], point[0]), y = weights(axes_[1], point[1]), z = weights(axes_[2], point[2]);
  const auto rows = static_cast<std::size_t>(axes_[1].count), columns = static_cast<std::size_t>(axes_[2].count);
  double sum = 0.0;
  for (std::size_t i = 0; i < kWidth; ++i) {
    for (std::size_t j = 0; j < kWidth; ++j) {
      const std::size_t start = ((x.first + i) * rows + y.first + j) * columns + z.first;
      double line = 0.0;
      for (std::size_t k = 0; k < kWidth; ++k) line += z.of[k] * numbers_[start + k];
      sum += x.of[i] * y.of[j] * line;
    }
  }
  return sum * quantum_;
}

std::string GridTable::letters() const {
  // Differences, the sign moved to the last bit, five bits a letter, the sixth says that more follow.
  constexpr std::string_view kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  std::string out;
  int before = 0;
  for (const int number : numbers_) {
    const int change = number - before;
    before = number;
    unsigned rest = change < 0 ? static_cast<unsigned>(-change) * 2 - 1 : static_cast<unsigned>(change) * 2;
    while (rest >= 32) {
      out += kLetters[32 + rest % 32];
      rest /= 32;
    }
    out += kLetters[rest];
  }
  return out;
}

Delivery DriveGrid::delivery_at(const Pupil& pupil, const GridPoint& point) {
  const Technique technique{pupil.delivery, pupil.club_loft, pupil.reach.follow, 0.0};
  Delivery d = technique.delivery(point[2] * kDegree, point[1] * kDegree);
  d.club_speed = point[0];
  return d;
}

std::optional<DriveGrid> DriveGrid::over(const GridAxes& range, const Pupil& pupil, const Setting& setting,
                                         const std::vector<std::string>& ids, const std::vector<Turf>& turfs) {
  DriveGrid grid;
  grid.range_ = range;
  grid.turfs_ = ids;
  const GridAxes axes = with_counts(range, kFlightCounts);
  EnumArray<GridQuantity, std::vector<double>> flight;
  std::array<std::vector<double>, 3> landing;  // speed, angle, backspin [SI]
  std::vector<GridPoint> nodes;
  for_each_node(axes, [&](const GridPoint& point) { nodes.push_back(point); });
  for (const Drive& d : drives_at(nodes, pupil, setting)) {
    constexpr double kLeastLaunch = 0.5 * kDegree;  // [rad] below, carry turns a corner to zero
    if (d.flight.end != FlightEnd::landed || d.launch.launch < kLeastLaunch) return std::nullopt;
    const EnumArray<GridQuantity, double> values{d.flight.carry,
                                                 d.flight.side,
                                                 d.flight.apex,
                                                 apex_at(d, setting),
                                                 degrees(d.launch.launch),
                                                 degrees(d.flight.landing_angle),
                                                 degrees(d.flight.landing_heading),
                                                 unit("rpm").from_si(d.launch.spin),
                                                 d.launch.ball_speed};
    for (const GridQuantity q : kAllOf<GridQuantity>) flight[q].push_back(values[q]);
    landing[0].push_back(d.flight.landing_speed);
    landing[1].push_back(d.flight.landing_angle);
    landing[2].push_back(landing_backspin(d.launch, d.flight));
  }
  for (const GridQuantity q : kAllOf<GridQuantity>) grid.flight_.emplace_back(axes, kStored[q].quantum, flight[q]);

  // Landing is smooth, so the run law is laid out over a close mesh without another flight.
  constexpr double kFine = 1e-6;
  const std::array<GridTable, 3> land{GridTable(axes, kFine, landing[0]), GridTable(axes, kFine, landing[1]),
                                      GridTable(axes, 1e-3, landing[2])};
  std::array<int, 3> counts;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    counts[i] = std::max(kWidth, 1 + static_cast<int>(std::ceil((range[i].high() - range[i].low) / kRunSteps[i])));
  }
  const GridAxes close = with_counts(range, counts);
  std::vector<std::vector<double>> run(turfs.size());
  for_each_node(close, [&](const GridPoint& point) {
    const Landing ball{land[0].at(point), land[1].at(point), land[2].at(point)};
    for (std::size_t t = 0; t < turfs.size(); ++t) run[t].push_back(run_on(turfs[t], ball, setting));
  });
  for (const auto& values : run) grid.run_.emplace_back(close, kRunQuantum, values);
  grid.measure(pupil, setting, turfs);
  if (grid.error_.distance > kBound) return std::nullopt;
  return grid;
}

void DriveGrid::measure(const Pupil& pupil, const Setting& setting, const std::vector<Turf>& turfs) {
  const std::vector<double> places = sobol_points(kMeasured, range_.size(), 1);
  const auto worst = [](double& of, double difference) { of = std::max(of, std::abs(difference)); };
  std::vector<GridPoint> points(kMeasured);
  for (std::size_t n = 0; n < kMeasured; ++n) {
    GridPoint& p = points[n];
    for (std::size_t i = 0; i < p.size(); ++i)
      p[i] = range_[i].low + places[n * p.size() + i] * (range_[i].high() - range_[i].low);
  }
  const std::vector<Drive> drives = drives_at(points, pupil, setting);
  for (std::size_t n = 0; n < kMeasured; ++n) {
    const GridPoint& p = points[n];
    const Drive& d = drives[n];
    const double carry = at(GridQuantity::carry, p);
    worst(error_.distance, carry - d.flight.carry);
    for (std::size_t t = 0; t < turfs.size(); ++t) {
      const double exact = run_on(turfs[t], landing_of(d.launch, d.flight), setting);
      worst(error_.distance, carry + run(t, p) - d.flight.carry - exact);
    }
    worst(error_.apex, at(GridQuantity::apex, p) - d.flight.apex);
    worst(error_.angle, at(GridQuantity::launch, p) * kDegree - d.launch.launch);
    worst(error_.angle, at(GridQuantity::landing, p) * kDegree - d.flight.landing_angle);
    worst(error_.spin, unit("rpm").to_si(at(GridQuantity::spin, p)) - d.launch.spin);
  }
}

std::optional<DriveGrid> DriveGrid::around(const Pupil& pupil, const Setting& setting, const Advice& advice,
                                           const Catalogue& catalogue, UnitSystem units) {
  const auto extent = [&](auto of) {
    double low = of(advice.at(StrategyKind::as_is)), high = low;
    for (const Strategy& s : advice.strategies) {
      low = std::min(low, of(s));
      high = std::max(high, of(s));
    }
    return std::pair(low, high);
  };
  double least_loft = pupil.club_loft, most_loft = pupil.club_loft;
  for (const LoftChoice& c : pupil.lofts) {
    least_loft = std::min(least_loft, c.low);
    most_loft = std::max(most_loft, c.high);
  }
  const Delivery& now = pupil.delivery;
  const double speed_step = units == UnitSystem::yards ? unit("mph").to_si(0.5) : 0.2,
               angle_step = 0.5;  // [m/s, deg] of the sliders
  const auto [slowest, fastest] = extent([](const Strategy& s) { return s.delivery.club_speed; });
  const auto [least_attack, most_attack] = extent([](const Strategy& s) { return degrees(s.attack); });
  const auto [low_loft, high_loft] = extent([](const Strategy& s) { return degrees(s.loft); });
  constexpr double kAside = 1.0;  // [deg] beyond reach and offer, to see what lies there
  constexpr Range speeds = about(Quantity::club_speed).allowed, attacks = about(Quantity::attack).allowed,
                  lofts = about(Quantity::loft).allowed;
  const auto speed = window(slowest, fastest, speeds.low, speeds.high, 10.8);
  const auto attack = window(least_attack, most_attack, std::max(attacks.low, degrees(pupil.reach.attack.low) - kAside),
                             std::min(attacks.high, degrees(pupil.reach.attack.high) + kAside), 16.0);
  const auto loft = window(low_loft, high_loft, std::max(lofts.low, degrees(least_loft) - kAside),
                           std::min(lofts.high, degrees(most_loft) + 3.0 * kAside), 12.0);

  std::vector<std::string> ids;
  for (const ModelInfo& info : catalogue.list(ModelKind::turf)) ids.push_back(info.id);
  if (std::find(ids.begin(), ids.end(), pupil.conditions.turf) == ids.end())
    ids.insert(ids.begin(), pupil.conditions.turf);
  std::vector<Turf> turfs;
  for (const std::string& id : ids) turfs.push_back(id == pupil.conditions.turf ? setting.turf : catalogue.turf(id));

  constexpr int kTries = 5;
  double part = 1.0;
  for (int i = 0; i < kTries; ++i, part *= 0.8) {
    const auto about = [&](double value, std::pair<double, double> ends, double step) {
      return around_value(value, value - part * (value - ends.first), value + part * (ends.second - value), step);
    };
    const GridAxes range{about(now.club_speed, speed, speed_step), about(degrees(now.attack), attack, angle_step),
                         about(degrees(pupil.club_loft), loft, angle_step)};
    if (std::any_of(range.begin(), range.end(), [](const GridAxis& a) { return a.count < 2; })) continue;
    if (auto grid = over(range, pupil, setting, ids, turfs)) return grid;
  }
  return std::nullopt;
}

double DriveGrid::at(GridQuantity quantity, const GridPoint& point) const {
  return flight_[index_of(quantity)].at(point);
}

double DriveGrid::run(std::size_t turf, const GridPoint& point) const { return run_[turf].at(point); }

std::string DriveGrid::json(const Pupil& pupil, const Advice& advice, UnitSystem units) const {
  const auto axes_of = [](const GridAxes& axes) {
    OrderedJson out = OrderedJson::array();
    for (const GridAxis& a : axes)
      out.push_back({{"low", in("", a.low)}, {"step", in("", a.step)}, {"count", a.count}});
    return out;
  };
  const auto table_of = [](const GridTable& t) {
    return OrderedJson{{"quantum", t.quantum()}, {"letters", t.letters()}};
  };
  OrderedJson flight, run, strategies;
  for (const GridQuantity q : kAllOf<GridQuantity>) flight[std::string(key_of(q))] = table_of(flight_[index_of(q)]);
  for (std::size_t t = 0; t < run_.size(); ++t) run[turfs_[t]] = table_of(run_[t]);
  for (const Strategy& s : advice.strategies) {
    if (!s.feasible) continue;
    strategies[std::string(key_of(s.kind))] = {in("", s.delivery.club_speed), in("deg", s.attack), in("deg", s.loft)};
  }
  const Technique technique{pupil.delivery, pupil.club_loft, pupil.reach.follow, 0.0};
  const OrderedJson out{
      {"units", units == UnitSystem::yards ? "yards" : "metres"},
      {"goal", key_of(advice.goal)},
      {"turf", pupil.conditions.turf},
      {"range", axes_of(range_)},
      {"now", {in("", pupil.delivery.club_speed), in("deg", pupil.delivery.attack), in("deg", pupil.club_loft)}},
      {"strategies", strategies},
      {"delivered", {{"added_deg", in("deg", technique.added_loft())}, {"follow", in("", technique.follow)}}},
      {"flight_axes", axes_of(flight_.front().axes())},
      {"flight", flight},
      {"run_axes", axes_of(run_.front().axes())},
      {"run_m", run}};
  return out.dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
}

}  // namespace loftwright
