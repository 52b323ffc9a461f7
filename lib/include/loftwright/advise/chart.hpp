/// @file
/// A table for the wall: for each club speed and attack the loft to deliver, and what it gives. Struck at the face
/// centre, path and face square; a player who delivers the loft that stands on the club reads it as that.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "loftwright/advise/advise.hpp"

namespace loftwright {

/// What a chart is over.
struct ChartAxes {
  std::vector<double> club_speeds;  ///< [m/s] 9 .. 72, rising
  std::vector<double> attacks;      ///< [rad] -20 .. +20 deg, rising
  Interval loft{low_of(about(Quantity::loft).allowed),
                high_of(about(Quantity::loft).allowed)};  ///< [rad] delivered; both ends within 4 .. 30 deg
};
inline constexpr std::size_t kMostChartCells = 10000;  ///< [-] club speeds times attacks

/// Values from `low` to `high` in steps of `step`, both ends among them. Throws InputError naming `what` when the steps
/// do not end at `high` (to a thousandth of a step), or when there would be more than 101.
std::vector<double> axis(std::string_view what, double low, double high, double step);

/// The loft for one club speed and attack.
struct ChartCell {
  double club_speed;                  ///< [m/s]
  double attack;                      ///< [rad]
  double loft;                        ///< [rad] delivered, for the longest goal
  double loft_for_carry;              ///< [rad] side by side, for the longest carry ...
  double loft_for_total;              ///< [rad] ... and the longest total
  LoftWindow window;                  ///< of the average drive, with the scatter of `like`
  std::optional<double> second_loft;  ///< [rad] with AdviseOptions::second_air, where it lies more than kSameLoft away
  bool at_loft_end;                   ///< more or less loft than allowed would go further
  bool feasible;                      ///< every limit met
  Limited must_give{};  ///< infeasible: the limit that must give; loft and drive are then where it gives least
  Drive drive;          ///< at tight tolerance
};

/// A cell for each club speed and attack.
struct Chart {
  Goal goal;                     ///< what the lofts are the longest of
  ChartAxes axes;                ///< as they were asked for
  std::vector<Limit> limits;     ///< of the pupil: every cell keeps them
  std::vector<ChartCell> cells;  ///< row after row: attacks[i], club_speeds[j] at i * club_speeds.size() + j
  int flights = 0;               ///< spent on all of it

  /// By the places of attack and club speed on the axes, from 0.
  const ChartCell& at(std::size_t attack, std::size_t club_speed) const {
    return cells[attack * axes.club_speeds.size() + club_speed];
  }
};

/// `like` gives goal, limits, hand and conditions; its swing and clubs are not looked at. `progress`, when given, is
/// told from any thread how many cells are done. The answer is the same for any number of options.threads. Throws
/// InputError: axes empty, out of range or not rising, more than kMostChartCells cells.
Chart chart(const Pupil& like, const Setting& setting, const ChartAxes& axes, const AdviseOptions& options = {},
            const std::function<void(std::size_t)>& progress = {});

}  // namespace loftwright
