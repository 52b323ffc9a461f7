// The model's answer beside what was measured, head by head.
#pragma once

#include <vector>

#include "loftwright/shots/heads.hpp"

namespace loftwright {

// Fills in `modelled` of every head and says whether the model has another one first. `heads` are in the order of
// out.heads, with the readings that were compared. Where a head has no delivery, nothing is filled in, and that is
// noted.
void add_model(const std::vector<HeadShots>& heads, const Setting& setting, Handed handed, HeadsAnswer& out);

}  // namespace loftwright
