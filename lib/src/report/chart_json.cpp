#include "loftwright/report/json.hpp"
#include "loftwright/report/words.hpp"
#include "report/json_parts.hpp"

namespace loftwright {

namespace {
using Json = OrderedJson;
}

std::string chart_json(const Chart& chart, const Setting& setting, UnitSystem units) {
  Json cells = Json::array(), limits = Json::array();
  for (const ChartCell& c : chart.cells) {
    cells.push_back({{"club_speed_mps", in("m/s", c.club_speed)},
                     {"attack_deg", in("deg", c.attack)},
                     {"loft_deg", in("deg", c.loft)},
                     {"loft_for_carry_deg", in("deg", c.loft_for_carry)},
                     {"loft_for_total_deg", in("deg", c.loft_for_total)},
                     {"window_low_deg", in("deg", c.window.low)},
                     {"window_high_deg", in("deg", c.window.high)},
                     {"second_loft_deg", c.second_loft ? in("deg", *c.second_loft) : Json(nullptr)},
                     {"ball_speed_mps", in("m/s", c.drive.launch.ball_speed)},
                     {"launch_deg", in("deg", c.drive.launch.launch)},
                     {"spin_rpm", in("rpm", c.drive.launch.spin)},
                     {"carry_m", in("m", c.drive.flight.carry)},
                     {"total_m", in("m", c.drive.total)},
                     {"apex_m", in("m", c.drive.flight.apex)},
                     {"landing_deg", in("deg", c.drive.flight.landing_angle)},
                     {"at_loft_end", c.at_loft_end},
                     {"feasible", c.feasible},
                     {"must_give", c.feasible ? Json(nullptr) : Json(key_of(c.must_give))}});
  }
  for (const Limit& limit : chart.limits) limits.push_back(limit_words(limit.quantity, limit.allowed, units));
  Json out{{"format", "loftwright-chart/1"},
           {"goal", key_of(chart.goal)},
           {"loft_low_deg", in("deg", chart.axes.loft.low)},
           {"loft_high_deg", in("deg", chart.axes.loft.high)},
           {"limits", limits},
           {"cells", cells},
           {"flights", chart.flights},
           {"cautions", cautions(units)}};
  add_circumstances(out, setting);
  return text_of(out);
}

}  // namespace loftwright
