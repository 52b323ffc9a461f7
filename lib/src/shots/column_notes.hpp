// What looks odd about whole columns of a shot list: a unit or a sign that does not fit most shots, a middle no driver
// has, columns that go opposite ways, several clubs.
#pragma once

#include <utility>
#include <vector>

#include "shots/plausible.hpp"

namespace loftwright {

// What happened while the rows were read.
struct RowCounts {
  ByReading<std::size_t> seen{};                    // shots with a reading, kept or set aside
  ByReading<std::size_t> derived{};                 // shots whose reading was computed from others
  std::vector<std::size_t> without_spin;            // lines of shots whose spin is given as 0
  std::vector<std::pair<Slip, std::size_t>> slips;  // shots set aside that another unit or sign would fix

  void count(const Slip& slip);
};

void note_columns(ShotList& list, const RowCounts& counts, const UnitsUsed& units);
void note_clubs(ShotList& list);  // that there are several

}  // namespace loftwright
