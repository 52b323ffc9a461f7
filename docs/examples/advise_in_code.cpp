// Technique or loft, for a pupil made in code.
#include <cstdio>
#include <loftwright/loftwright.hpp>

using namespace loftwright;

int main() {
  const double mph = unit("mph").factor, deg = unit("deg").factor;
  Pupil pupil;
  pupil.delivery = {.club_speed = 82 * mph, .attack = -4 * deg, .dynamic_loft = 9.5 * deg};
  pupil.club_loft = 10.5 * deg;
  complete(pupil);  // what is usual takes the place of what was not given; pupil.assumed says what
  validate(pupil);  // throws InputError when a number is out of range or two do not go together

  const Advice advice = advise(pupil, setting_for(pupil, Catalogue()));
  std::printf("%s\n", verdict_sentence(advice, UnitSystem::yards).c_str());
  std::printf("%s\n", cautions(UnitSystem::yards).front().c_str());
}
