#include "loftwright/report/json.hpp"
#include "loftwright/report/words.hpp"
#include "report/json_parts.hpp"

namespace loftwright {

namespace {

using Json = OrderedJson;

}  // namespace

std::string fly_json(const Drive& drive, const Setting& setting, UnitSystem units) {
  Json out{{"format", "loftwright-fly/1"}, {"launch", launch_of(drive.launch)}};
  out.update(flight_of(drive));
  out["notes"] = drive_notes(drive, setting.aero, units);
  add_circumstances(out, setting);
  out["models"].erase("head");
  return text_of(out);
}

namespace {

Json shares_of(const Shares& shares, bool club_known) {
  return by_factor(club_known, [&](Factor i) -> Json {
    return {{"carry_m", in("m", shares[i].carry)}, {"total_m", in("m", shares[i].total)}};
  });
}

Json strike_of(const Strike& strike, UnitSystem units) {
  const Drive& drive = strike.drive;
  Json out{{"format", "loftwright-strike/2"},
           {"launch", launch_of(drive.launch)},
           {"smash", in("", drive.smash)},
           {"spin_loft_deg", in("deg", drive.spin_loft)},
           {"flight", flight_of(drive)},
           {"delivery", delivery_of(strike.delivery)},
           {"club_loft_deg", club_loft_of(strike.club_loft)},
           {"handed", key_of(strike.handed)},
           {"sliding", drive.sliding},
           {"notes", drive_notes(drive, strike.setting.aero, units)}};
  add_circumstances(out, strike.setting);
  return out;
}

}  // namespace

std::string strike_json(const Strike& strike, UnitSystem units, const Versus* versus) {
  Json out = strike_of(strike, units);
  if (versus) {
    Json otherwise = Json::array(), held = Json::array();
    for (std::size_t i = 0; i < kOtherFollows.size(); ++i) {
      otherwise.push_back(
          {{"follow", kOtherFollows[i]}, {"shares", shares_of(versus->shares_otherwise[i], versus->club_known)}});
    }
    for (const HeldFactor factor : kAllOf<HeldFactor>) {
      const Share& s = versus->shares_loft_held[factor];
      held.push_back({{"factor", key_of(factor)}, {"carry_m", in("m", s.carry)}, {"total_m", in("m", s.total)}});
    }
    out["versus"] = strike_of(versus->strike, units);
    out["versus"].erase("format");
    out["change"] = {{"carry_m", in("m", versus->strike.drive.flight.carry - strike.drive.flight.carry)},
                     {"total_m", in("m", versus->strike.drive.total - strike.drive.total)}};
    out["follow"] = in("", versus->follow);
    out["shares"] = shares_of(versus->shares, versus->club_known);
    out["shares_otherwise"] = otherwise;
    out["shares_loft_held"] = held;
  }
  return text_of(out);
}

}  // namespace loftwright
