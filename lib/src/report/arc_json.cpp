#include "loftwright/report/json.hpp"
#include "report/json_parts.hpp"

namespace loftwright {

std::string arc_json(const Arc& arc, const ArcAtBall& at_ball, Handed handed) {
  return text_of({{"format", "loftwright-arc/1"},
                  {"attack_deg", in("deg", at_ball.attack)},
                  {"path_deg", in("deg", at_ball.path)},
                  {"height_m", in("m", at_ball.height)},
                  {"low_point_m", in("m", arc.low_point)},
                  {"plane_deg", in("deg", arc.plane)},
                  {"radius_m", in("m", arc.radius)},
                  {"swing_direction_deg", in("deg", arc.swing_direction)},
                  {"handed", key_of(handed)}});
}

}  // namespace loftwright
