// What the verdict leans on, by the surfaces of the gains: the worth of knowing more, and which assumption turns it.
#pragma once

#include <span>
#include <vector>

#include "advise/surface.hpp"
#include "advise/uncertainty.hpp"

namespace loftwright {

// A feasible choice by its surface; leave has none.
struct Contender {
  Lever lever;
  double price;
  const GainSurface* gain;  // null: leave

  double net_given(std::span<const std::size_t> group, std::span<const double> at, double shrink = 1.0) const {
    return gain ? gain->given(group, at, shrink) - price : 0.0;
  }
  double mean() const { return gain ? gain->mean() - price : 0.0; }
};

// What choosing again would gain on average once each thing were measured.
Measuring measuring(const std::vector<Contender>& contenders, const Verdict& verdict, const SurfacePoints& points,
                    const Pupil& pupil);

// Every assumption's share in what is uncertain between the leader and the runner-up, the greatest first; of the first
// few, where another lever would lead. `dimensions`: how many unknowns the surfaces have.
std::vector<Influence> influences(const std::vector<Contender>& contenders, const Verdict& verdict,
                                  const Uncertainty& uncertainty, std::size_t dimensions);

}  // namespace loftwright
