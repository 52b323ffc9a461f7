#include <ostream>

#include "commands.hpp"
#include "drive.hpp"
#include "loftwright/report/json.hpp"

namespace loftwright::cli {

int cmd_fly(const Session& session) {
  const Values& values = session.values;
  const Setting setting = setting_for(course_from(values), Setting{}.head_id, session.catalogue);
  const Launch launch{values.quantity("ball-speed"), values.quantity("launch"), values.quantity("azimuth"),
                      values.quantity("spin"), values.quantity("tilt")};
  validate(launch);
  const Drive drive = computed(drive_from(launch, setting));
  session.out << (session.json ? fly_json(drive, setting, session.units) : drive_text(drive, setting, session.units));
  return kDone;
}

}  // namespace loftwright::cli
