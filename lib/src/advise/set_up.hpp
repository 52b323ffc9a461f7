// What an attack asks for at address, on the pupil's arc.
#pragma once

#include <optional>

#include "loftwright/advise/advise.hpp"

namespace loftwright {

struct OnArc {
  double low_point;  // [m] ahead of the ball
  double path;       // [rad] as the player's hand has it, with the base line on the target
};
// Throws InputError for an attack, or in a flat plane a low point, beyond what the arc is reckoned for.
OnArc on_arc(const Pupil& pupil, double attack);

// None: that is no change, or beyond the arc.
std::optional<SetUp> set_up_for(const Pupil& pupil, double attack);

}  // namespace loftwright
