// What loft to deliver at each club speed, for a level blow, and how far it goes.
#include <cstdio>
#include <loftwright/loftwright.hpp>

using namespace loftwright;

int main() {
  const double mph = unit("mph").factor, deg = unit("deg").factor;
  const Pupil like;  // its goal, limits, hand and conditions; its swing is not looked at
  const ChartAxes axes{.club_speeds = axis("club speed", 70 * mph, 100 * mph, 10 * mph), .attacks = {0.0}};
  AdviseOptions options;
  options.threads = 2;  // the answer is the same for any number

  const Chart table = chart(like, setting_for(like, Catalogue()), axes, options);
  std::printf("club speed      loft  carry\n");
  for (const ChartCell& cell : table.cells) {
    std::printf("%3.0f mph     %4.1f deg  %s\n", cell.club_speed / mph, cell.loft / deg,
                quantity(Shown::distance, cell.drive.flight.carry, UnitSystem::yards).c_str());
  }
}
