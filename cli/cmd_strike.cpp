#include <ostream>

#include "commands.hpp"
#include "drive.hpp"
#include "layout.hpp"
#include "loftwright/io/json_out.hpp"

namespace loftwright::cli {

namespace {

std::string launch_text(const Drive& drive, UnitSystem units) {
  const Launch& launch = drive.launch;
  const auto show = [&](Shown what, double si, Sign sign = Sign::minus_only) { return quantity(what, si, units, sign); };
  return section("Launch", table({{"ball speed", show(Shown::speed, launch.ball_speed)},
                             {"smash factor", show(Shown::factor, drive.smash)},
                             {"spin loft", show(Shown::angle, drive.spin_loft)},
                             {"launch", show(Shown::angle, launch.launch)},
                             {"azimuth", show(Shown::angle, launch.azimuth, Sign::always)},
                             {"spin", show(Shown::spin, launch.spin)},
                             {"tilt of the spin axis", show(Shown::angle, launch.tilt, Sign::always)}}));
}

}  // namespace

int cmd_strike(const Session& session) {
  const Values& values = session.values;
  Pupil pupil = circumstances_from(values);
  pupil.head = values.text("head");
  pupil.handed = values.text("handed") == key_of(Handed::left) ? Handed::left : Handed::right;
  pupil.delivery = {values.quantity("club-speed"), values.quantity("attack"), values.quantity("path"), values.quantity("face"),
                    values.quantity("dynamic-loft"), values.quantity("toe"), values.quantity("high")};
  validate(pupil.delivery);
  const Setting setting = setting_for(pupil, session.catalogue);
  const Drive drive = computed(drive_from(pupil.delivery, pupil.handed, setting));
  if (session.json) {
    session.out << strike_json(drive, pupil, setting, session.units);
  } else {
    session.out << launch_text(drive, session.units) << "\n" << drive_text(drive, pupil, setting, session.units);
  }
  return kDone;
}

}  // namespace loftwright::cli
