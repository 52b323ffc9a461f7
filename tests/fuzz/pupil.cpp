// A pupil's file, and the advice on it: loose flights and no draws, so that there are many. A fuzzer advises one pupil
// in `advised_in`, told by the file's own bytes: what it finds is found again. Replayed files are all advised on.
#include <algorithm>
#include <functional>

#include "loftwright/files/pupil_file.hpp"
#include "loftwright/report/advice_words.hpp"
#include "loftwright/report/json.hpp"
#include "report/advice_tables.hpp"
#include "target.hpp"

using namespace loftwright;
using namespace loftwright::fuzz;

namespace {

std::size_t advised_in = 1;

AdviseOptions cheap() {
  AdviseOptions options;
  options.tolerance = 1e-4;
  options.tight_tolerance = 1e-5;
  options.stop = 1e-3;
  options.draws = 0;
  return options;
}

// What is printed of it refuses a number that is not finite, by std::logic_error.
void check_advice(const Pupil& pupil) {
  const Setting setting = setting_for(pupil, Catalogue());
  const Advice advice = advise(pupil, setting, cheap());
  must(!key_of(advice.verdict.lever).empty() && !verdict_sentence(advice, UnitSystem::yards).empty(),
       "there is a verdict");
  must(advice.feasible || !advice.at(StrategyKind::both).must_give.empty(),
       "what cannot be has a limit that must give");
  for (const Strategy& s : advice.strategies) {
    must(s.drive.flight.end == FlightEnd::landed || s.drive.flight.end == FlightEnd::never_rose,
         "a drive ends on the ground");
    const auto holds = [&](const LoftChoice& c) { return s.loft >= c.low - 1e-9 && s.loft <= c.high + 1e-9; };
    must(std::any_of(pupil.lofts.begin(), pupil.lofts.end(), holds), "a loft is one on offer");
  }
  for (const UnitSystem units : {UnitSystem::yards, UnitSystem::metres}) {
    advise_json(advice, pupil, setting, units);
    explanation(advice, units);
    rates_table(advice, units);
    trade_table(advice, units);
    strategies_table(advice, units);
    effort_sentences(advice, pupil, units);
    holding_sentences(advice, units);
    set_up_sentences(advice, units);
  }
}

void check_tuned(std::string_view text) {
  constexpr ByTunable<double> kValue{0.8, 0.1, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0},
      kDoubt{0.01, 0.05, 0.03, 0.06, 0.1, 0.5, 0.2, 0.35};
  const std::string tuned = with_tuned(text, Tuning{kValue, kDoubt, {}, 12});
  Findings findings;
  const auto again = read_pupil(tuned, "", Catalogue(), findings);
  must(again && again->tuned && again->tuned->value == kValue, "a file that can be used can be tuned");
}

}  // namespace

// Called by the fuzzer alone.
extern "C" int LLVMFuzzerInitialize(int*, char***);
extern "C" int LLVMFuzzerInitialize(int*, char***) {
  advised_in = 32;
  return 0;
}

LOFTWRIGHT_FUZZ_TARGET(pupil)(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = text_of(data, size);
  Findings findings;
  const auto pupil = read_pupil(text, "", Catalogue(), findings);
  must(pupil.has_value() != has_errors(findings), "a pupil is read, or an error says why not");
  if (!pupil) return 0;
  check_tuned(text);
  if (std::hash<std::string_view>{}(text) % advised_in != 0) return 0;
  try {
    check_advice(*pupil);
  } catch (const InputError& error) {
    must(*error.what() != '\0', "an error says something");
  }
  return 0;
}
