// The same for a pupil's file, with every mistake in it by place: advise_on_file PUPIL.json
#include <cstdio>
#include <loftwright/loftwright.hpp>

using namespace loftwright;

int main(int argc, char** argv) {
  if (argc != 2) return std::fprintf(stderr, "usage: advise_on_file PUPIL.json\n"), 2;
  try {
    const Catalogue catalogue;
    const Pupil pupil = load_pupil(argv[1], catalogue);
    const Advice advice = advise(pupil, setting_for(pupil, catalogue));
    std::printf("%s\n", verdict_sentence(advice, UnitSystem::metres).c_str());
    for (const std::string& sentence : explanation(advice, UnitSystem::metres)) std::printf("- %s\n", sentence.c_str());
    std::printf("%s\n", cautions(UnitSystem::metres).front().c_str());
  } catch (const InputError& error) {  // where, what, and what is allowed: a line each
    return std::fprintf(stderr, "%s\n", error.what()), 3;
  }
}
