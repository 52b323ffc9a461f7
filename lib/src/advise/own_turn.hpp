// What the club in hand could do in place of a driver to be bought.
#pragma once

#include <optional>

#include "advise/model.hpp"

namespace loftwright {

// None: the answer buys no driver, or the club in hand cannot be turned. The answer's gain must be known.
std::optional<OwnTurn> own_turn(const DriveModel& model, const LoftChoice& own, const Strategy& answer,
                                const AdviseOptions& options);

}  // namespace loftwright
