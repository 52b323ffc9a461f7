// One drive, from how the clubhead meets the ball to where the ball stops.
#include <cstdio>
#include <loftwright/loftwright.hpp>

using namespace loftwright;

int main() {
  const double mph = unit("mph").factor, deg = unit("deg").factor, yd = unit("yd").factor;

  // Head, ball, turf and weather: those of a pupil of whom nothing is said.
  const Setting setting = setting_for(Pupil{}, Catalogue());
  const Delivery delivery{.club_speed = 82 * mph, .attack = -4 * deg, .dynamic_loft = 9.5 * deg};

  const Drive drive = drive_from(delivery, Handed::right, setting);
  std::printf("launch %.1f deg, spin %.0f rpm\n", drive.launch.launch / deg, drive.launch.spin / unit("rpm").factor);
  std::printf("carry %.0f yd, total %.0f yd, %s\n", drive.flight.carry / yd, drive.total / yd,
              side_words(drive.side_at_rest, UnitSystem::yards).c_str());
}
