// One drive from the reference ball and head, as another program would ask for it.
#include <cstdio>

#include "loftwright/core/units.hpp"
#include "loftwright/files/catalogue.hpp"

int main() {
  const double mph = loftwright::unit("mph").factor, deg = loftwright::unit("deg").factor;
  const loftwright::Delivery delivery{.club_speed = 82 * mph, .attack = -4 * deg, .dynamic_loft = 10 * deg};
  const loftwright::Setting setting = loftwright::setting_for(loftwright::Pupil{}, loftwright::Catalogue());
  const loftwright::Drive drive = loftwright::drive_from(delivery, loftwright::Handed::right, setting);
  std::printf("carry_m %.12g,\n", drive.flight.carry);
}
