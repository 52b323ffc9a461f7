// Which shots stand far out from the others of their kind.
#pragma once

#include <vector>

#include "loftwright/shots/shot_list.hpp"

namespace loftwright {

// Marks, in each shot, the readings in which it stands far out from these shots; what was marked before is forgotten.
void mark_odd(std::vector<Shot>& shots);

}  // namespace loftwright
