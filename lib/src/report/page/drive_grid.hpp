// A pupil's drive over club speed, attack and loft as tables a page can carry: what the sliders read. The face, the
// path and the strike point stay as they are; loft delivered follows attack as swing/technique.hpp says.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "loftwright/advise/advise.hpp"
#include "loftwright/files/catalogue.hpp"
#include "loftwright/report/words.hpp"

namespace loftwright {

// Even nodes. The coordinates are m/s, deg and deg: what the page shows, save for a factor.
struct GridAxis {
  double low = 0.0;
  double step = 1.0;
  int count = 4;
  double high() const { return low + step * (count - 1); }
};
using GridAxes = std::array<GridAxis, 3>;  // club speed [m/s], attack [deg], club loft [deg]
using GridPoint = std::array<double, 3>;

// Values at the nodes, loft running fastest, as whole numbers of a quantum; between them a cubic through the four
// nearest nodes each way. grid.js does the same.
class GridTable {
 public:
  GridTable(const GridAxes& axes, double quantum, const std::vector<double>& values);
  double at(const GridPoint& point) const;
  const GridAxes& axes() const { return axes_; }
  double quantum() const { return quantum_; }
  // The numbers as letters: differences from one to the next, small ones a letter each.
  std::string letters() const;

 private:
  GridAxes axes_;
  double quantum_;
  std::vector<int> numbers_;
};

// What the tables hold of a flight; in m, deg, rpm and m/s. Smooth, so that few nodes do.
enum class GridQuantity { carry, side, apex, apex_at, launch, landing, heading, spin, ball_speed };
template <>
inline constexpr std::size_t kCountOf<GridQuantity> = 9;
std::string_view key_of(GridQuantity quantity);  // "carry_m", ...

class DriveGrid {
 public:
  // Around the pupil's own swing, the reach and the lofts on offer. The range shrinks towards the pupil's swing until
  // every drive inside rises and the error keeps its bound; none when that is not to be had.
  static std::optional<DriveGrid> around(const Pupil& pupil, const Setting& setting, const Advice& advice,
                                         const Catalogue& catalogue, UnitSystem units);

  double at(GridQuantity quantity, const GridPoint& point) const;
  double run(std::size_t turf, const GridPoint& point) const;  // [m] bounce and roll
  const GridAxes& range() const { return range_; }
  const std::vector<std::string>& turfs() const { return turfs_; }  // ids, the pupil's own among them

  // The engine's own drive at a point: what the tables stand for.
  static Delivery delivery_at(const Pupil& pupil, const GridPoint& point);

  // Largest distances from the engine, measured at kMeasured points spread evenly inside.
  static constexpr std::size_t kMeasured = 400;
  struct Error {
    double distance = 0.0;  // [m] carry and, on any turf, total
    double apex = 0.0;      // [m]
    double angle = 0.0;     // [rad] launch and landing
    double spin = 0.0;      // [rad/s]
  };
  const Error& error() const { return error_; }

  std::string json(const Pupil& pupil, const Advice& advice, UnitSystem units) const;

 private:
  DriveGrid() = default;
  static std::optional<DriveGrid> over(const GridAxes& range, const Pupil& pupil, const Setting& setting,
                                       const std::vector<std::string>& ids, const std::vector<Turf>& turfs);
  void measure(const Pupil& pupil, const Setting& setting, const std::vector<Turf>& turfs);

  GridAxes range_;
  std::vector<std::string> turfs_;
  std::vector<GridTable> flight_;  // in the order of GridQuantity
  std::vector<GridTable> run_;     // one a turf
  Error error_;
};

}  // namespace loftwright
