// Head, ball and turf tuned to a player's measured shots: tune_to_shots PUPIL.json SHOTS.csv
#include <cstdio>
#include <loftwright/loftwright.hpp>

using namespace loftwright;

int main(int argc, char** argv) {
  if (argc != 3) return std::fprintf(stderr, "usage: tune_to_shots PUPIL.json SHOTS.csv\n"), 2;
  try {
    const Catalogue catalogue;
    Pupil pupil = load_pupil(argv[1], catalogue);
    const ShotList shots = load_shots(argv[2], built_in_columns());

    const TuneResult result = tune(shots, pupil, setting_for(pupil, catalogue));
    std::printf("%zu shots, %zu set aside\n", shots.shots.size(), shots.set_aside.size());
    for (const TunedValue& v : result.values) {
      if (!v.identified) continue;  // the shots say too little of it
      std::printf("%s: %.3f, and was %.3f; eight times in ten between %.3f and %.3f\n",
                  std::string(title_of(v.tunable)).c_str(), v.value, v.prior, v.low80, v.high80);
    }
    std::printf("shots left out of the fit: predicted to %.2f of what is expected, and to %.2f untuned\n",
                result.left_out.tuned, result.left_out.untuned);
    pupil.tuned = result.tuning();  // from now on advice is for this head, ball and turf
  } catch (const InputError& error) {
    return std::fprintf(stderr, "%s\n", error.what()), 3;
  }
}
