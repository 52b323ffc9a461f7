#include "loftwright/advise/chart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>

#include "advise/search.hpp"
#include "core/parallel.hpp"

namespace loftwright {

namespace {

void check_axis(Quantity quantity, const std::vector<double>& values) {
  const std::string_view name = about(quantity).title;
  if (values.empty()) throw InputError(fmt::format("chart: no {} given", name));
  for (std::size_t i = 0; i < values.size(); ++i) {
    check(quantity, values[i], fmt::format("chart: {}", name));
    if (i > 0 && values[i] <= values[i - 1])
      throw InputError(fmt::format("chart: each {} must be above the one before", name));
  }
}

void check(const ChartAxes& axes) {
  check_axis(Quantity::club_speed, axes.club_speeds);
  check_axis(Quantity::attack, axes.attacks);
  check(Quantity::loft, axes.loft.low, "chart: least loft");
  check_range("chart: most loft", axes.loft.high / kDegree, axes.loft.low / kDegree, about(Quantity::loft).allowed.high,
              "deg");
  check_range("chart: cells", static_cast<double>(axes.club_speeds.size() * axes.attacks.size()), 1.0,
              static_cast<double>(kMostChartCells), "");
}

// The best loft for one speed and attack is advise's "loft only" of a player who delivers what stands on the club.
ChartCell cell_at(const Pupil& like, const Setting& setting, double club_speed, double attack, const Interval& loft,
                  const AdviseOptions& options, std::atomic<int>& flights) {
  Pupil player = like;
  player.club_loft = 0.5 * (loft.low + loft.high);
  player.delivery = {club_speed, attack, 0.0, 0.0, player.club_loft, 0.0, 0.0};
  player.spread = Spread{};
  const LoftChoice club{.low = loft.low, .high = loft.high, .nominal = player.club_loft};
  const auto best_for = [&](Goal goal, const Setting& in) {
    Pupil of_goal = player;
    of_goal.goal = goal;
    return search(DriveModel(of_goal, in, options, flights), std::array{Way{club, {attack, attack}}}, options);
  };
  const Found for_carry = best_for(Goal::carry, setting), for_total = best_for(Goal::total, setting);
  const Found& found = like.goal == Goal::carry ? for_carry : for_total;

  const DriveModel model(player, setting, options, flights);
  const double at = found.point.loft;
  const double slope = model.gradient(club, at, attack).d_goal[0];
  constexpr double kNear = 0.005 * kDegree;
  ChartCell cell{.club_speed = club_speed,
                 .attack = attack,
                 .loft = at,
                 .loft_for_carry = for_carry.point.loft,
                 .loft_for_total = for_total.point.loft,
                 .window = {},
                 .second_loft = std::nullopt,
                 .at_loft_end = (at < loft.low + kNear && slope < 0.0) || (at > loft.high - kNear && slope > 0.0),
                 .feasible = found.feasible(),
                 .must_give = {},
                 .drive = model.drive(model.delivery(club, at, attack), options.tight_tolerance)};
  if (!found.feasible()) cell.must_give = player.limits[model.ends()[found.must_give.front()].limit].quantity;

  player.spread = like.spread ? *like.spread : usual_spread(like.skill, club_speed);
  constexpr std::size_t kShots = 32;
  cell.window =
      window_of(DriveModel(player, setting, options, flights).with_shots(kShots), club, loft.low, loft.high, attack);
  player.spread = Spread{};
  if (options.second_air && options.second_air->id != setting.aero.id && !like.tuned) {
    Setting other = setting;
    other.aero = *options.second_air;
    const double second = best_for(like.goal, other).point.loft;
    if (std::abs(second - at) > kSameLoft) cell.second_loft = second;
  }
  return cell;
}

}  // namespace

std::vector<double> axis(std::string_view what, double low, double high, double step) {
  constexpr double kMostSteps = 100.0;
  if (!(high >= low)) throw InputError(fmt::format("{}: the end lies before the beginning", what));
  const double steps = high > low && step > 0.0 ? (high - low) / step : 0.0;
  if (!(step > 0.0) || steps > kMostSteps + 1e-3)
    throw InputError(fmt::format("{}: at most {:.0f} steps are possible", what, kMostSteps));
  const auto whole = static_cast<std::size_t>(std::lround(steps));
  if (std::abs(steps - static_cast<double>(whole)) > 1e-3) {
    throw InputError(
        fmt::format("{}: the steps do not end at the last value; choose a step that divides the range", what));
  }
  std::vector<double> values;
  for (std::size_t i = 0; i <= whole; ++i) {
    values.push_back(i == 0 ? low : i == whole ? high : low + step * static_cast<double>(i));
  }
  return values;
}

Chart chart(const Pupil& like, const Setting& setting, const ChartAxes& axes, const AdviseOptions& options,
            const std::function<void(std::size_t)>& progress) {
  check(axes);
  Chart out{like.goal, axes, like.limits, std::vector<ChartCell>(axes.attacks.size() * axes.club_speeds.size()), 0};
  std::atomic<int> flights = 0;
  std::atomic<std::size_t> done = 0;
  const std::size_t speeds = axes.club_speeds.size();
  parallel_for(out.cells.size(), options.threads, [&](std::size_t i) {
    out.cells[i] =
        cell_at(like, setting, axes.club_speeds[i % speeds], axes.attacks[i / speeds], axes.loft, options, flights);
    const std::size_t so_far = ++done;
    if (progress) progress(so_far);
  });
  out.flights = flights;
  return out;
}

}  // namespace loftwright
