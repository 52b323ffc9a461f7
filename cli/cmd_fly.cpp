#include <ostream>

#include "commands.hpp"
#include "drive.hpp"
#include "loftwright/report/json.hpp"

namespace loftwright::cli {

int cmd_fly(const Session& session) {
  const Values& values = session.values;
  const Pupil pupil = circumstances_from(values);
  const Setting setting = setting_for(pupil, session.catalogue);
  const Launch launch{values.quantity("ball-speed"), values.quantity("launch"), values.quantity("azimuth"),
                      values.quantity("spin"), values.quantity("tilt")};
  validate(launch);
  const Drive drive = computed(drive_from(launch, setting));
  session.out << (session.json ? fly_json(drive, pupil, setting, session.units)
                               : drive_text(drive, pupil, setting, session.units));
  return kDone;
}

}  // namespace loftwright::cli
