#include <fmt/format.h>

#include <ostream>

#include "commands.hpp"
#include "drive.hpp"
#include "layout.hpp"
#include "loftwright/report/json.hpp"
#include "report/shot_words.hpp"

namespace loftwright::cli {

namespace {

std::string launch_text(const Drive& drive, UnitSystem units) {
  const Launch& launch = drive.launch;
  const auto show = [&](Shown what, double si, Sign sign = Sign::minus_only) {
    return quantity(what, si, units, sign);
  };
  return section("Launch", table({{"ball speed", show(Shown::speed, launch.ball_speed)},
                                  {"speed ratio", show(Shown::factor, drive.smash)},
                                  {"spin loft", show(Shown::angle, drive.spin_loft)},
                                  {"launch", show(Shown::angle, launch.launch)},
                                  {"launch direction", show(Shown::angle, launch.azimuth, Sign::always)},
                                  {"spin", show(Shown::spin, launch.spin)},
                                  {"spin axis", show(Shown::angle, launch.tilt, Sign::always)}}));
}

Strike strike_from(const Values& values, const Catalogue& catalogue) {
  Strike s{.delivery = delivery_from(values),
           .handed = handed_from(values),
           .setting = setting_for(course_from(values), values.text("head"), catalogue)};
  if (values.given("club-loft")) s.club_loft = values.quantity("club-loft");
  s.drive = computed(drive_from(s.delivery, s.handed, s.setting));
  return s;
}

DriveCase case_of(const Strike& s) { return {s.delivery, s.setting, s.club_loft}; }

Versus versus_of(const Strike& before, const Strike& after, double follow) {
  if (before.handed != after.handed) throw UsageError("--versus: 'handed' cannot change between the two strikes");
  SharesOfChange change(case_of(before), case_of(after), before.handed);
  return {after,
          follow,
          change.club_known(),
          change.by_who(follow),
          {change.by_who(kOtherFollows[0]), change.by_who(kOtherFollows[1])},
          change.loft_held()};
}

std::string versus_text(const Strike& before, const Versus& after, UnitSystem units) {
  const auto row = [&](std::string what, Shown shown, double a, double b) -> std::vector<std::string> {
    return {std::move(what), quantity(shown, a, units), quantity(shown, b, units)};
  };
  const Drive &a = before.drive, &b = after.strike.drive;
  std::string out = section(
      "Two strikes", table({{"", "first", "second"},
                            row("ball speed", Shown::speed, a.launch.ball_speed, b.launch.ball_speed),
                            row("speed ratio", Shown::factor, a.smash, b.smash),
                            row("spin loft", Shown::angle, a.spin_loft, b.spin_loft),
                            row("launch", Shown::angle, a.launch.launch, b.launch.launch),
                            row("spin", Shown::spin, a.launch.spin, b.launch.spin),
                            row("carry", Shown::distance, a.flight.carry, b.flight.carry),
                            row("total", Shown::distance, a.total, b.total),
                            {"side at rest", side_words(a.side_at_rest, units), side_words(b.side_at_rest, units)}}));
  std::vector<std::vector<std::string>> rows{{"", "carry", "total"}};
  for (const double follow : kOtherFollows) rows.front().push_back(fmt::format("carry at {:g}", follow));
  const auto gain = [&](double si) { return quantity(Shown::gain, si, units, Sign::always); };
  for (const Factor f : kAllOf<Factor>) {
    const Share& s = after.shares[f];
    if (s.carry == 0.0 && s.total == 0.0) continue;
    rows.push_back({std::string(title_of(f, after.club_known)), gain(s.carry), gain(s.total)});
    for (const Shares& otherwise : after.shares_otherwise) rows.back().push_back(gain(otherwise[f].carry));
  }
  rows.push_back({"whole change", gain(b.flight.carry - a.flight.carry), gain(b.total - a.total)});
  out += "\n" + section("Who did what", table(rows));
  out += wrapped(
      "Each change is counted as the average of what it does in every order of making the changes in which the hands "
      "come after the "
      "swing, so the parts add up to the whole. " +
      who_words(after.follow, after.club_known));
  out += "\n";
  out += wrapped(conditions_words(before.setting, units), "First: ");
  out += wrapped(conditions_words(after.strike.setting, units), "Second: ");
  return out;
}

}  // namespace

int cmd_strike(const Session& session) {
  const Strike strike = strike_from(session.values, session.catalogue);
  if (session.values.given("versus")) {
    const Values& values = session.values;
    const Versus versus =
        versus_of(strike, strike_from(values.with("versus", values.text("versus")), session.catalogue),
                  values.quantity("follow") / kDegree);
    session.out << (session.json ? strike_json(strike, session.units, &versus)
                                 : versus_text(strike, versus, session.units));
  } else if (session.json) {
    session.out << strike_json(strike, session.units);
  } else {
    session.out << launch_text(strike.drive, session.units) << "\n"
                << drive_text(strike.drive, strike.setting, session.units);
  }
  return kDone;
}

}  // namespace loftwright::cli
