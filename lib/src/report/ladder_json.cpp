#include "report/json_parts.hpp"
#include "report/ladder_words.hpp"
#include "report/parts.hpp"

namespace loftwright {

OrderedJson ladder_of(const Ladder& ladder) {
  OrderedJson out = OrderedJson::array();
  for (std::size_t i = 0; i < ladder.steps.size(); ++i) {
    const LadderStep& s = ladder.steps[i];
    const LadderStep& before = i == 0 ? ladder.now : ladder.steps[i - 1];
    OrderedJson broken = OrderedJson::array();
    for (const Limited limited : s.broken) broken.push_back(key_of(limited));
    const auto at_address = [&](std::string_view unit, double StepSetUp::*of) {
      return s.set_up ? in(unit, (*s.set_up).*of) : OrderedJson(nullptr);
    };
    out.push_back({{"attack_deg", in("deg", s.delivery.attack)},
                   {"dynamic_loft_deg", in("deg", s.delivery.dynamic_loft)},
                   {"low_point_m", at_address("m", &StepSetUp::low_point)},
                   {"ball_forward_m", at_address("m", &StepSetUp::ball_forward)},
                   {"swing_direction_deg", at_address("deg", &StepSetUp::swing_direction)},
                   {"launch_deg", in("deg", s.drive.launch.launch)},
                   {"spin_rpm", in("rpm", s.drive.launch.spin)},
                   {"carry_m", in("m", s.average.carry)},
                   {"total_m", in("m", s.average.total)},
                   {"reached_when", reached_words(s, before, ladder)},
                   {"club_loft_deg", in("deg", s.club_loft)},
                   {"new_club", s.new_club},
                   {"fit", fit_of(s.fit, s.fit ? fit_words(*s.fit) : "")},
                   {"delivery", delivery_of(s.delivery)},
                   {"gain_m", in("m", s.gain)},
                   {"fairway_share", in("", s.average.fairway_share)},
                   {"well_struck_carry_m", in("m", s.drive.flight.carry)},
                   {"well_struck_total_m", in("m", s.drive.total)},
                   {"sign_attack_deg", in("deg", s.sign_attack)},
                   {"sign_by_chance", in("", s.sign_by_chance)},
                   {"drives_to_tell", s.drives_to_tell ? OrderedJson(*s.drives_to_tell) : OrderedJson(nullptr)},
                   {"broken", broken}});
  }
  return out;
}

}  // namespace loftwright
