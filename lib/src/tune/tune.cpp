#include "loftwright/tune/tune.hpp"

#include <fmt/format.h>

#include <numeric>
#include <random>

#include "core/parallel.hpp"
#include "stats/distributions.hpp"
#include "stats/quasi.hpp"
#include "tune/fit.hpp"

namespace loftwright {

namespace {

using Chosen = std::vector<const Evidence*>;

struct Gathered {
  std::vector<Evidence> shots;
  std::vector<Note> notes;

  Chosen all() const {
    Chosen out;
    for (const Evidence& e : shots) out.push_back(&e);
    return out;
  }
};

Gathered gather(const Gatherer& model, const ShotList& list, Outliers odd) {
  Gathered out;
  for (const Shot* shot : counted(list, odd)) {
    try {
      if (auto evidence = model.gather(*shot)) {
        out.shots.push_back(std::move(*evidence));
      } else {
        out.notes.push_back(
            {shot->line,
             "says nothing of head or ball: neither a delivery with ball numbers nor ball numbers with a flight"});
      }
    } catch (const InputError& error) {
      out.notes.push_back({shot->line, error.what()});
    }
  }
  return out;
}

// What the pupil's spread in unmeasured parts is to be multiplied by: one, unless the shots scatter so little that
// chance would bring it less than once in a hundred; then by what makes them scatter as they do.
template <class GatherAt>
double room_for_scatter(const GatherAt& gather_at) {
  constexpr double kChance = 0.01;
  constexpr int kHalvings = 7;
  const auto too_wide = [&](double scale, double share) {
    const Scatter s = gather_at(scale);
    return s.freedom > 0.0 && s.chi_square < (share > 0.0 ? chi_squared_exceeded(s.freedom, 1.0 - share) : s.freedom);
  };
  if (!too_wide(1.0, kChance)) return 1.0;
  double low = 0.0, high = 1.0;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = 0.5 * (low + high);
    (too_wide(middle, 0.0) ? high : low) = middle;
  }
  return low;
}

// What each value is when the deviate is zero and how far one moves it: by sd, or by a factor of exp(sd).
struct Scale {
  ByTunable<double> middle, sd;
  Tunables low, high;  // deviates: what heads and tunings may have, within reach

  double value(Tunable k, double deviate) const {
    return is_known_to_a_factor(k) ? middle[k] * std::exp(sd[k] * deviate) : middle[k] + sd[k] * deviate;
  }
  // Standard deviation of a value that is known to `share` of the prior's.
  double spread(Tunable k, double value, double share) const {
    return is_known_to_a_factor(k) ? value * std::expm1(sd[k] * share) : sd[k] * share;
  }
};

Scale scale_for(const Setting& setting, const ErrorWidths& w) {
  const Head& head = setting.head;
  const ByTunable<double> widths{w.restitution, w.tangential_restitution, w.drag_scale,       w.lift_scale,
                                 w.turf_tilt,   w.turf_tilt_speed,        w.turf_restitution, w.turf_rolling};
  Scale s{{head.restitution, head.tangential_restitution, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0}, widths, {}, {}};
  s.sd[Tunable::tilt_scale] = tilt_share(setting.turf, w);
  for (const Tunable k : kAllOf<Tunable>) {
    check_range("prior width", widths[k], 1e-6, 1.0, "");
    const Eigen::Index i = row_of(k);
    const Interval& range = kTunableRange[k];
    if (is_known_to_a_factor(k)) {
      s.sd[k] = setting.turf.width * std::log1p(widths[k]);  // 0: a turf that is known exactly stays as it is
      const double within = std::max(s.sd[k], 1e-6);
      s.low[i] = std::max(-kTuneReach, std::log(range.low) / within);
      s.high[i] = std::min(kTuneReach, std::log(range.high) / within);
    } else if (is_of_turf(k)) {
      const double within = std::max(s.sd[k], 1e-6);
      s.low[i] = std::max(-kTuneReach, (range.low - s.middle[k]) / within);
      s.high[i] = std::min(kTuneReach, (range.high - s.middle[k]) / within);
    } else {
      s.low[i] = (std::max(range.low, s.middle[k] - kTuneReach * s.sd[k]) - s.middle[k]) / s.sd[k];
      s.high[i] = (std::min(range.high, s.middle[k] + kTuneReach * s.sd[k]) - s.middle[k]) / s.sd[k];
    }
  }
  return s;
}

ByTunable<TunedValue> values_of(const Fit& fit, const Scale& s) {
  const double z80 = normal_quantile(0.9), z95 = normal_quantile(0.975);
  ByTunable<TunedValue> out;
  for (const Tunable k : kAllOf<Tunable>) {
    const Eigen::Index i = row_of(k);
    const double share = std::sqrt(fit.covariance(i, i)), value = s.value(k, fit.at[i]);
    const auto off = [&](double z) { return s.value(k, fit.at[i] + z * share); };
    out[k] = {k,
              s.middle[k],
              s.spread(k, s.middle[k], 1.0),
              value,
              s.spread(k, value, share),
              off(-z80),
              off(z80),
              off(-z95),
              off(z95),
              1.0 - share,
              1.0 - share >= kLeastRemoved,
              fit.at_end[k]};
  }
  return out;
}

ByTunable<ByTunable<double>> correlation_of(const TunablesSquared& covariance) {
  ByTunable<ByTunable<double>> out;
  for (const Tunable i : kAllOf<Tunable>) {
    for (const Tunable j : kAllOf<Tunable>) {
      const Eigen::Index a = row_of(i), b = row_of(j);
      out[i][j] = i == j ? 1.0 : covariance(a, b) / std::sqrt(covariance(a, a) * covariance(b, b));
    }
  }
  return out;
}

// How irregularly a ball runs is an estimate, and says nothing of the strike.
ShotList without_totals(ShotList list) {
  for (Shot& shot : list.shots) shot.at(Reading::total).reset();
  return list;
}

// A drive by the pupil's mean swing, as a device that sees the whole of it would: what its run says, and how surely.
std::optional<RunWorth> worth_of_runs(const Gatherer& model, const Pupil& pupil, const Setting& setting, const Fit& fit,
                                      double tolerance) {
  const Drive drive = drive_from(pupil.delivery, pupil.handed, setting, tolerance);
  if (drive.flight.end != FlightEnd::landed) return std::nullopt;
  Shot shot;
  for (const auto& part : kLaunchParts<double>) shot.at(part.reading) = drive.launch.*part.value;
  shot.at(Reading::carry) = drive.flight.carry;
  shot.at(Reading::total) = drive.flight.carry + drive.run.bounce + drive.run.roll;
  const Evidence e = *model.gather(shot);
  const Eigen::Index row = e.measured.size() - 1;
  constexpr Eigen::Index kRest = row_of(Tunable::tilt_scale), kTurf = static_cast<Eigen::Index>(kTunables) - kRest;
  const auto slope_at = [&](const Tunables& at) -> Tunables {
    return model.residual_and_slope(e, at).slope.row(row).transpose();
  };
  Tunables turf = slope_at(Tunables::Zero()), rest = turf, tuned_at = fit.at;
  turf.head<kRest>().setZero();
  rest.tail<kTurf>().setZero();
  // What is left of the uncertainty is of the turf that was found: on another the run bends otherwise.
  tuned_at.head<kRest>().setZero();
  Tunables tuned = slope_at(tuned_at);
  tuned.head<kRest>().setZero();

  const double prior = turf.squaredNorm(), more = fit.widened.back();
  const double own = e.own(row, row) + more * more,
               shared = e.shared.row(row).squaredNorm() + rest.dot(fit.covariance * rest);
  if (!(prior > 0.0)) return std::nullopt;
  RunWorth out{
      std::sqrt(prior), std::sqrt(tuned.dot(fit.covariance * tuned)), std::sqrt(shared / (shared + prior)), {}};
  // 1 / (1 / prior + 1 / (own / n + shared)) is a quarter of the prior.
  const double shots = own / (prior / 3.0 - shared);
  constexpr double kMost = 10000.0;  // nobody measures more
  if (shots > 0.0 && shots <= kMost) out.to_halve = static_cast<int>(std::ceil(shots));
  return out;
}

// Residuals of every shot, in the order of the shots.
using Residuals = std::vector<Rows>;

Misses misses_in(std::size_t reading, const std::vector<Evidence>& shots, const Residuals& residuals) {
  double sum = 0.0, squares = 0.0, count = 0.0;
  for (std::size_t n = 0; n < shots.size(); ++n) {
    for (std::size_t i = 0; i < shots[n].readings.size(); ++i) {
      if (shots[n].readings[i] != reading) continue;
      const double r = residuals[n][static_cast<Eigen::Index>(i)];
      sum += r;
      squares += r * r;
      ++count;
    }
  }
  return count > 0.0 ? Misses{sum / count, std::sqrt(squares / count)} : Misses{};
}

// Which part each shot is left out with.
std::vector<int> parts_of(std::size_t shots, int folds, std::uint64_t seed) {
  std::vector<std::size_t> order(shots);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::mt19937_64 random(seed);
  for (std::size_t i = shots; i-- > 1;) std::swap(order[i], order[random() % (i + 1)]);
  std::vector<int> part(shots);
  for (std::size_t i = 0; i < shots; ++i) part[order[i]] = static_cast<int>(i % static_cast<std::size_t>(folds));
  return part;
}

// Mean over a shot's readings of the squared residual in units of what is expected.
double miss_of(const Evidence& e, const Rows& residual, const ByTuneReading<double>& widened) {
  double sum = 0.0;
  for (std::size_t i = 0; i < e.readings.size(); ++i) {
    const double z = residual[static_cast<Eigen::Index>(i)] / expected_sd(e, i, widened);
    sum += z * z;
  }
  return sum / static_cast<double>(e.readings.size());
}

LeftOut judge(const std::vector<Evidence>& shots, const Residuals& untuned, const Residuals& tuned,
              const ByTuneReading<double>& widened, int folds) {
  LeftOut out;
  out.folds = folds;
  std::vector<double> differences;
  for (std::size_t n = 0; n < shots.size(); ++n) {
    const double before = miss_of(shots[n], untuned[n], widened), after = miss_of(shots[n], tuned[n], widened);
    out.untuned += before / static_cast<double>(shots.size());
    out.tuned += after / static_cast<double>(shots.size());
    differences.push_back(before - after);
  }
  out.untuned = std::sqrt(out.untuned);
  out.tuned = std::sqrt(out.tuned);
  const Summary d = summarise(differences);
  const double half = students_t_exceeded(static_cast<double>(d.count - 1), 0.025) * d.standard_error;
  out.difference = d.mean;
  out.low = d.mean - half;
  out.high = d.mean + half;
  out.verdict = out.low > 0.0 ? TuneVerdict::better : out.high < 0.0 ? TuneVerdict::worse : TuneVerdict::no_better;
  return out;
}

// Parts of the delivery that stood at the pupil's means in some shot.
std::vector<Reading> hidden_in(const std::vector<Evidence>& shots) {
  std::vector<Reading> out;
  for (std::size_t k = 0; k < kDeliverySources; ++k) {
    if (std::any_of(shots.begin(), shots.end(), [&](const Evidence& e) { return e.hidden[k]; })) {
      out.push_back(kDeliveryParts[k].reading);
    }
  }
  return out;
}

}  // namespace

ByReading<DeviceError> good_device() {
  ByReading<DeviceError> out{};
  const auto set = [&](Reading reading, const DeviceError& error) { out[reading] = error; };
  set(Reading::club_speed, {0.007, 0.007, true});
  set(Reading::attack, {0.5 * kDegree, 0.4 * kDegree});
  set(Reading::path, {0.5 * kDegree, 0.4 * kDegree});
  set(Reading::face, {0.6 * kDegree, 0.5 * kDegree});
  set(Reading::dynamic_loft, {0.6 * kDegree, 0.5 * kDegree});
  set(Reading::toe, {0.003, 0.002});
  set(Reading::high, {0.003, 0.002});
  set(Reading::ball_speed, {0.004, 0.003, true});
  set(Reading::launch, {0.25 * kDegree, 0.2 * kDegree});
  set(Reading::azimuth, {0.4 * kDegree, 0.3 * kDegree});
  set(Reading::spin, {0.03, 0.02, true});
  set(Reading::tilt, {1.5 * kDegree, 1.0 * kDegree});
  set(Reading::carry, {0.010, 0.008, true});
  set(Reading::total, {2.7, 1.5});
  set(Reading::apex, {0.025, 0.02, true});
  set(Reading::landing, {0.8 * kDegree, 0.6 * kDegree});
  return out;
}

std::string_view key_of(TuneVerdict verdict) {
  constexpr EnumArray<TuneVerdict, std::string_view> keys{"better", "no_better", "worse"};
  return keys[verdict];
}

Tuning TuneResult::tuning() const {
  Tuning out{};
  out.shots = static_cast<int>(shots);
  if (with_run > 0) out.turf = turf;
  for (const Tunable i : kAllOf<Tunable>) {
    out.value[i] = values[i].value;
    out.sd[i] = values[i].sd;
    for (const Tunable j : kAllOf<Tunable>) {
      if (j <= i) continue;
      out.correlations.push_back({static_cast<int>(i), static_cast<int>(j), correlation[i][j]});
    }
  }
  return out;
}

namespace {

// How many shots have a reading, and what is to be expected of its misses.
void expect(const std::vector<Evidence>& shots, std::size_t which, TunedReading& reading) {
  double squares = 0.0;
  for (const Evidence& e : shots) {
    for (std::size_t i = 0; i < e.readings.size(); ++i) {
      if (e.readings[i] != which) continue;
      ++reading.count;
      squares += std::pow(expected_sd(e, i, {}), 2);
    }
  }
  if (reading.count > 0) reading.expected = std::sqrt(squares / static_cast<double>(reading.count));
}

}  // namespace

TuneResult tune(const ShotList& list, const Pupil& pupil, const Setting& setting, const TuneOptions& options) {
  check_range("folds", options.folds, 2.0, 1e9, "");
  const Scale scale = scale_for(setting, options.widths);
  const Gatherer as_spread(pupil, setting, options);
  Gathered gathered = gather(as_spread, list, options.odd);
  const std::vector<Evidence>& shots = gathered.shots;
  if (shots.size() < kLeastForTuning) {
    throw InputError(fmt::format(
        "{} of {} shots can be tuned to; at least {} are needed, each with club speed, attack, delivered loft and "
        "a ball number, or with ball speed, launch, spin and a carry, apex or descent angle",
        shots.size(), list.shots.size(), kLeastForTuning));
  }
  long gathered_times = 1;
  TuneResult out;
  out.hidden = hidden_in(shots);
  if (!out.hidden.empty()) {
    const ShotList flights = without_totals(list);
    out.hidden_scale = room_for_scatter([&](double hidden_scale) {
      const Gatherer model(pupil, setting, options, hidden_scale);
      ++gathered_times;
      const Gathered of_flights = gather(model, flights, options.odd);
      return scatter_of(model, of_flights.all());
    });
  }
  const Gatherer model(pupil, setting, options, out.hidden_scale);
  if (out.hidden_scale < 1.0) gathered = gather(model, list, options.odd);

  // Task 0 is the fit to all shots; task i the one without part i - 1.
  const int folds = static_cast<int>(std::min<std::size_t>(static_cast<std::size_t>(options.folds), shots.size()));
  const std::vector<int> part = parts_of(shots.size(), folds, options.seed);
  std::vector<Fit> fits(static_cast<std::size_t>(folds) + 1);
  parallel_for(fits.size(), options.threads, [&](std::size_t task) {
    Chosen chosen;
    for (std::size_t n = 0; n < shots.size(); ++n) {
      if (task == 0 || part[n] != static_cast<int>(task) - 1) chosen.push_back(&shots[n]);
    }
    fits[task] = fit(model, chosen, scale.low, scale.high);
  });
  const Fit& whole = fits.front();

  Residuals untuned, tuned, left_out;
  for (std::size_t n = 0; n < shots.size(); ++n) {
    untuned.push_back(model.residual(shots[n], Tunables::Zero()));
    tuned.push_back(model.residual(shots[n], whole.at));
    left_out.push_back(model.residual(shots[n], fits[static_cast<std::size_t>(part[n]) + 1].at));
  }

  out.shots = shots.size();
  out.turf = pupil.conditions.turf;
  out.run = worth_of_runs(model, pupil, setting, whole, options.tolerance);
  out.notes = std::move(gathered.notes);
  out.values = values_of(whole, scale);
  out.correlation = correlation_of(whole.covariance);
  out.chi_square = whole.chi_square;
  for (std::size_t r = 0; r < kTuneReadingCount; ++r) {
    TunedReading reading{kTuneReadings[r],
                         0,
                         misses_in(r, shots, untuned),
                         misses_in(r, shots, tuned),
                         0.0,
                         whole.widened[r],
                         misses_in(r, shots, untuned),
                         misses_in(r, shots, left_out)};
    expect(shots, r, reading);
    if (reading.count == 0) continue;
    out.degrees_of_freedom += reading.count;
    out.readings.push_back(reading);
  }
  for (const Evidence& e : shots) {
    out.with_strike += e.readings.front() < 3;
    out.with_flight += e.flies;
    out.with_run += e.readings.back() == kTuneReadingCount - 1;
    out.odd += e.odd;
  }
  out.chi_square_p = chi_squared_above(static_cast<double>(out.degrees_of_freedom), out.chi_square);
  out.left_out = judge(shots, untuned, left_out, whole.widened, folds);
  out.drives =
      (2 * gathered_times + 3) * static_cast<long>(shots.size());  // with the residuals of scatter, and three more
  for (const Fit& f : fits) out.drives += f.drives;
  return out;
}

}  // namespace loftwright
