// Tuning against simulated truth, and what a tuned pupil's advice becomes.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <fstream>

#include "draws.hpp"
#include "folders.hpp"
#include "loftwright/files/columns_file.hpp"
#include "loftwright/files/pupil_file.hpp"
#include "pupils.hpp"
#include "simulated_shots.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// Players of 62 to 105 mph who hit up or down, of any skill and either hand, on devices that see more or less.
Session any_session(int number, Draws& draws) {
  Session s;
  s.pupil = plain_pupil();
  const double attack = draws.between(-6, 4);
  s.pupil.delivery = {draws.between(62, 105) * kMph,
                      attack * kDeg,
                      draws.between(-3, 3) * kDeg,
                      draws.between(-2, 2) * kDeg,
                      draws.between(9.5, 16) * kDeg,
                      0,
                      0};
  s.pupil.spread = usual_spread(static_cast<Skill>(number % 3), s.pupil.delivery.club_speed);
  s.pupil.handed = number % 5 == 0 ? Handed::left : Handed::right;
  s.setting = default_setting();
  s.shots = 12 + number % 40;
  s.strike_seen = number % 4 == 1;
  s.ball_seen = number % 8 != 2;
  return s;
}

ByTunable<double> true_values(const Session& s) {
  return {s.setting.head.restitution + s.truth.restitution,
          s.setting.head.tangential_restitution + s.truth.tangential_restitution,
          s.truth.drag_scale,
          s.truth.lift_scale,
          1.0 + s.truth.turf.tilt / s.setting.turf.tilt,
          s.truth.turf.tilt_speed,
          s.truth.turf.restitution,
          s.truth.turf.rolling};
}

TuneResult tuned(const Session& s, std::mt19937_64& random) {
  TuneOptions options;
  options.folds = 5;
  options.threads = 2;
  return tune(simulated(s, random), s.pupil, s.setting, options);
}

// The demonstration's pupil with a driver that gives back less, grips more, and a ball that drags and lifts more than
// modelled; and that session as a device would export it. data/shots/tuning.csv is this text.
Session demonstration() {
  Session s;
  s.pupil = load_pupil(LOFTWRIGHT_SOURCE_DIR "/data/pupils/demo.json", Catalogue());
  s.setting = setting_for(s.pupil, Catalogue());
  s.truth.restitution = -0.012;
  s.truth.tangential_restitution = 0.04;
  s.truth.drag_scale = 1.05;
  s.truth.lift_scale = 1.10;
  s.shots = 30;
  return s;
}

std::string as_exported(const ShotList& list) {
  struct Column {
    const char* head;
    Reading reading;
    const char* unit;
    int decimals;
  };
  constexpr Column kColumns[] = {{"Club Speed (mph)", Reading::club_speed, "mph", 1},
                                 {"Attack (deg)", Reading::attack, "deg", 1},
                                 {"Path (deg)", Reading::path, "deg", 1},
                                 {"Face (deg)", Reading::face, "deg", 1},
                                 {"Dynamic Loft (deg)", Reading::dynamic_loft, "deg", 1},
                                 {"Ball Speed (mph)", Reading::ball_speed, "mph", 1},
                                 {"Launch (deg)", Reading::launch, "deg", 1},
                                 {"Azimuth (deg)", Reading::azimuth, "deg", 1},
                                 {"Spin (rpm)", Reading::spin, "rpm", 0},
                                 {"Spin Axis (deg)", Reading::tilt, "deg", 1},
                                 {"Carry (yd)", Reading::carry, "yd", 1},
                                 {"Apex (ft)", Reading::apex, "ft", 1},
                                 {"Landing (deg)", Reading::landing, "deg", 1}};
  std::string out =
      "# Invented: simulated from the model (tests/acceptance/tune_test.cpp) for a head with 0.012 less restitution "
      "and 0.04 more\n"
      "# tangential restitution than \"modern-driver\", a ball with 5 % more drag and 10 % more lift than "
      "\"reference\", a strike\n"
      "# that scatters unseen, and the errors of a good device.\nShot";
  for (const Column& c : kColumns) out += fmt::format(", {}", c.head);
  for (std::size_t n = 0; n < list.shots.size(); ++n) {
    out += fmt::format("\n{}", n + 1);
    for (const Column& c : kColumns)
      out += fmt::format(", {:.{}f}", unit(c.unit).from_si(*list.shots[n].at(c.reading)), c.decimals);
  }
  return out + "\n";
}

constexpr int kTunedPupils = 200;
constexpr Tunable kOfHeadAndBall[] = {Tunable::restitution, Tunable::tangential_restitution, Tunable::drag_scale,
                                      Tunable::lift_scale};

struct Many {
  ByTunable<int> held{};               // truths within the 80 % interval
  ByTunable<double> off{}, removed{};  // sums of standard deviates, means
  EnumArray<TuneVerdict, int> verdicts{};
  double chi_square = 0.0, freedom = 0.0;
};

Many over_many_pupils(std::uint64_t seed, bool run_seen) {
  std::mt19937_64 random(seed);
  Draws draws(seed + 1);
  Many out;
  for (int i = 0; i < kTunedPupils; ++i) {
    Session s = any_session(i, draws);
    s.truth = draw_head_and_ball({}, random);
    s.run_seen = run_seen;
    if (run_seen) draw_turf({}, s.setting.turf, random, s.truth);
    const TuneResult r = tuned(s, random);
    const ByTunable<double> truth = true_values(s);
    for (const Tunable k : kAllOf<Tunable>) {
      const TunedValue& v = r.values[k];
      out.held[k] += truth[k] >= v.low80 && truth[k] <= v.high80;
      out.off[k] += is_known_to_a_factor(k) ? std::log(v.value / truth[k]) / std::log1p(v.sd / v.value)
                                            : (v.value - truth[k]) / v.sd;
      out.removed[k] += v.removed / kTunedPupils;
    }
    ++out.verdicts[r.left_out.verdict];
    out.chi_square += r.chi_square;
    out.freedom += static_cast<double>(r.degrees_of_freedom);
  }
  return out;
}

// All up to `last` are found as surely as is said; those up to `last_told` are told of by the shots.
void check_found(const Many& many, Tunable last, Tunable last_told) {
  for (const Tunable k : kAllOf<Tunable>) {
    if (k > last) break;
    CAPTURE(title_of(k), many.held[k], many.off[k] / kTunedPupils, many.removed[k]);
    // Three binomial standard deviations of 200 trials at 80 %: 17.
    CHECK(std::abs(many.held[k] - 0.8 * kTunedPupils) <= 3.0 * std::sqrt(0.8 * 0.2 * kTunedPupils));
    // A mean of 200 standard deviates: four of its standard deviations.
    CHECK(std::abs(many.off[k] / kTunedPupils) < 4.0 / std::sqrt(kTunedPupils));
    if (k <= last_told) CHECK(many.removed[k] > 0.05);
  }
  // Chi-square over all readings of all pupils, each known to sqrt(2 / freedom); noise that was widened where chance
  // alone made the scatter large takes a little away.
  CAPTURE(many.chi_square, many.freedom);
  CHECK(std::abs(many.chi_square / many.freedom - 1.0) < 0.06);
}

}  // namespace

TEST_CASE("the invented list is simulated from a known head and ball, and tuning finds these", "[tune]") {
  const Session s = demonstration();
  std::mt19937_64 random(2);
  const std::string wanted = as_exported(simulated(s, random)), file = LOFTWRIGHT_SOURCE_DIR "/data/shots/tuning.csv";
  if (std::getenv("LOFTWRIGHT_APPROVE")) std::ofstream(file, std::ios::binary) << wanted;
  const std::string text = read_text(file);
  CHECK(text == wanted);
  const ShotList list = read_shots(text, built_in_columns());
  CHECK(list.shots.size() == 30);
  CHECK(list.set_aside.empty());
  const TuneResult r = tune(list, s.pupil, s.setting);
  for (const Tunable k : kOfHeadAndBall) {
    CAPTURE(title_of(k), r.values[k].value, r.values[k].sd, true_values(s)[k]);
    CHECK(r.values[k].low95 <= true_values(s)[k]);
    CHECK(r.values[k].high95 >= true_values(s)[k]);
  }
  CHECK(r.left_out.verdict == TuneVerdict::better);
}

TEST_CASE("the truth lies in the tuned 80 % interval about 80 % of the time", "[tune]") {
  const Many many = over_many_pupils(20261125, false);
  check_found(many, Tunable::lift_scale, Tunable::lift_scale);
  const auto& [held, off, removed, verdicts, chi_square, freedom] = many;
  CHECK(verdicts[TuneVerdict::better] > kTunedPupils / 2);   // tuning is worth having for most
  CHECK(verdicts[TuneVerdict::worse] <= kTunedPupils / 20);  // and said to be worse for hardly any
  WARN("truth held: restitution " << held.values[0] << ", tangential " << held.values[1] << ", drag " << held.values[2]
                                  << ", lift " << held.values[3] << " of 200; doubt removed " << removed.values[0]
                                  << " " << removed.values[1] << " " << removed.values[2] << " " << removed.values[3]
                                  << "; better " << verdicts[TuneVerdict::better] << ", no better "
                                  << verdicts[TuneVerdict::no_better] << ", worse " << verdicts[TuneVerdict::worse]
                                  << "; chi-square " << chi_square << " of " << freedom);
}

TEST_CASE("with totals the turf is found as surely as it is said to be, and the others still are", "[tune]") {
  const Many many = over_many_pupils(20261201, true);
  check_found(many, Tunable::rolling_scale, Tunable::tilt_speed_scale);  // of the rest one run says little
  const auto& [held, off, removed, verdicts, chi_square, freedom] = many;
  WARN("with runs, truth held: tilt " << held.values[4] << ", tilt speed " << held.values[5] << ", bounce "
                                      << held.values[6] << ", rolling " << held.values[7] << " (others "
                                      << held.values[0] << " " << held.values[1] << " " << held.values[2] << " "
                                      << held.values[3] << ") of 200; removed " << removed.values[4] << " "
                                      << removed.values[5] << " " << removed.values[6] << " " << removed.values[7]
                                      << "; better " << verdicts[TuneVerdict::better] << ", worse "
                                      << verdicts[TuneVerdict::worse] << "; chi-square " << chi_square << " of "
                                      << freedom);
}

TEST_CASE("a tuned turf makes advice on the total surer, and leaves carry alone", "[tune]") {
  Session s;
  s.pupil = plain_pupil();
  s.pupil.goal = Goal::total;
  s.pupil.spread = usual_spread(s.pupil.skill, s.pupil.delivery.club_speed);
  s.setting = default_setting();
  s.truth.turf.tilt = -2.0 * kDeg;
  s.truth.turf.tilt_speed = 1.3;
  s.truth.turf.restitution = 0.9;
  s.shots = 30;
  s.run_seen = true;
  std::mt19937_64 random(20261202);
  const Tuning tuning = tuned(s, random).tuning();
  AdviseOptions options;
  options.draws = 4096;

  // Head and ball as in both, so that the turf alone makes the difference.
  const auto advice = [&](Goal goal, bool turf) {
    Pupil pupil = s.pupil;
    pupil.goal = goal;
    pupil.tuned = tuning;
    if (!turf) pupil.tuned->turf.clear();
    Setting setting = s.setting;
    setting.head.restitution = tuning.value[Tunable::restitution];
    setting.head.tangential_restitution = tuning.value[Tunable::tangential_restitution];
    setting.drag_scale = tuning.value[Tunable::drag_scale];
    setting.lift_scale = tuning.value[Tunable::lift_scale];
    const TurfErrorOf<double> found{.tilt = (tuning.value[Tunable::tilt_scale] - 1.0) * setting.turf.tilt,
                                    .restitution = tuning.value[Tunable::bounce_scale],
                                    .rolling = tuning.value[Tunable::rolling_scale],
                                    .tilt_speed = tuning.value[Tunable::tilt_speed_scale]};
    if (turf) setting.turf = turf_under(setting.turf, found);
    return advise(pupil, setting, options);
  };
  const auto width = [](const Advice& a) {
    const Interval80& i = a.confidence->at(StrategyKind::both)->gain;
    return i.high - i.low;
  };
  const Advice modelled = advice(Goal::total, false), found = advice(Goal::total, true);
  CAPTURE(width(modelled), width(found));
  CHECK(width(found) < 0.95 * width(modelled));
  const Drive truth = drive_from(s.pupil.delivery, s.pupil.handed, s.setting, kTightFlightTolerance, s.truth);
  const auto run = [](const Drive& drive) { return drive.total - drive.flight.carry; };
  CAPTURE(run(truth), run(modelled.at(StrategyKind::as_is).drive), run(found.at(StrategyKind::as_is).drive));
  CHECK(std::abs(run(found.at(StrategyKind::as_is).drive) - run(truth)) <
        std::abs(run(modelled.at(StrategyKind::as_is).drive) - run(truth)));

  const Advice carry = advice(Goal::carry, false), same = advice(Goal::carry, true);
  CHECK(width(carry) == width(same));
  CHECK(carry.at(StrategyKind::both).goal == same.at(StrategyKind::both).goal);
}

TEST_CASE("many shots do not make tuning surer of what is not so", "[tune]") {
  // Errors in the measured delivery bend what a fit sees of how residuals go with the swing; with hundreds of shots a
  // bend of a tenth of a standard deviation would stand out.
  constexpr int kFewPupils = 40;
  std::mt19937_64 random(20261127);
  Draws draws(20261128);
  ByTunable<double> off{};
  for (int i = 0; i < kFewPupils; ++i) {
    Session s = any_session(4 * i + 1, draws);
    s.shots = 200;
    s.truth = draw_head_and_ball({}, random);
    TuneOptions options;
    options.folds = 2;
    options.threads = 2;
    const TuneResult r = tune(simulated(s, random), s.pupil, s.setting, options);
    for (const Tunable k : kOfHeadAndBall)
      off[k] += (r.values[k].value - true_values(s)[k]) / r.values[k].sd / kFewPupils;
  }
  for (const Tunable k : kOfHeadAndBall) {
    CAPTURE(title_of(k), off[k]);
    CHECK(std::abs(off[k]) < 4.0 / std::sqrt(kFewPupils));
  }
}

TEST_CASE("where head and ball are as modelled tuning seldom claims to help, and says so when it does not", "[tune]") {
  std::mt19937_64 random(20261129);
  Draws draws(20261130);
  int better = 0;
  constexpr int kFewPupils = 60;
  for (int i = 0; i < kFewPupils; ++i) {
    Session s = any_session(i, draws);
    for (DeviceError& e : s.device)
      e.systematic = 0.0;  // a device's own offset is rightly predicted better once it is known
    better += tuned(s, random).left_out.verdict == TuneVerdict::better;
  }
  CAPTURE(better);
  CHECK(better <= kFewPupils / 5);
}

TEST_CASE("a tuned pupil's advice stands on the tuned head and ball, and is surer", "[tune]") {
  Pupil pupil = plain_pupil();
  Setting setting = default_setting();
  AdviseOptions options;
  options.draws = 4096;
  const Advice untuned = advise(pupil, setting, options);

  Tuning tuning{};
  tuning.value = {0.815, -0.15, 1.04, 0.95};
  SECTION("as modelled, as unsure as any model: nothing changes, to the last bit") {
    tuning.value = {setting.head.restitution, setting.head.tangential_restitution, 1.0, 1.0};
    tuning.sd = {options.widths.restitution, options.widths.tangential_restitution, options.widths.drag_scale,
                 options.widths.lift_scale};
    pupil.tuned = tuning;
    const Advice same = advise(pupil, setting, options);
    for (const StrategyKind k : kAllOf<StrategyKind>) {
      CHECK(same.strategies[k].goal == untuned.strategies[k].goal);
      if (k == StrategyKind::as_is) continue;
      CHECK(same.confidence->strategies[k]->gain.low == untuned.confidence->strategies[k]->gain.low);
      CHECK(same.confidence->strategies[k]->gain.high == untuned.confidence->strategies[k]->gain.high);
    }
  }
  SECTION("the means are those of that head and ball") {
    tuning.sd = {0.004, 0.02, 0.01, 0.02};
    pupil.tuned = tuning;
    Setting tuned_setting = setting;
    tuned_setting.head.restitution = 0.815;
    tuned_setting.head.tangential_restitution = -0.15;
    tuned_setting.drag_scale = 1.04;
    tuned_setting.lift_scale = 0.95;
    const Advice a = advise(pupil, tuned_setting, options);
    ModelErrorOf<double> off;
    off.restitution = 0.815 - 0.83;
    off.tangential_restitution = 0.05;
    off.drag_scale = 1.04;
    off.lift_scale = 0.95;
    const Drive wanted = drive_from(pupil.delivery, pupil.handed, setting, kTightFlightTolerance, off);
    CHECK(a.strategies[StrategyKind::as_is].drive.flight.carry == Approx(wanted.flight.carry).epsilon(1e-12));
    CHECK(a.strategies[StrategyKind::as_is].goal < untuned.strategies[StrategyKind::as_is].goal - 3.0);
    // Less uncertainty of head and ball: every interval of the average gain is narrower, single drives scatter as they
    // did.
    for (const StrategyKind k : {StrategyKind::loft_only, StrategyKind::technique_only, StrategyKind::both}) {
      CAPTURE(k);
      const auto width = [](const Interval80& i) { return i.high - i.low; };
      CHECK(width(a.confidence->strategies[k]->gain) < width(untuned.confidence->strategies[k]->gain));
      CHECK(width(a.confidence->strategies[k]->drive_gain) ==
            Approx(width(untuned.confidence->strategies[k]->drive_gain)).epsilon(0.25));
    }
  }
  SECTION("doubts that go together are drawn together") {
    // Drag and lift that rise together hardly change carry; that go against each other change it most.
    tuning.sd = {0.0, 0.0, 0.03, 0.06};
    const auto width_with = [&](double correlation) {
      tuning.correlations = {{2, 3, correlation}};
      pupil.tuned = tuning;
      const Advice a = advise(pupil, setting, options);
      const Interval80& i = a.confidence->at(StrategyKind::both)->gain;
      return i.high - i.low;
    };
    const double together = width_with(0.9), apart = width_with(0.0), against = width_with(-0.9);
    CAPTURE(together, apart, against);
    CHECK(together != apart);
    CHECK((together - apart) * (apart - against) > 0.0);
  }
  SECTION("impossible numbers are refused") {
    tuning.sd = {0.01, 0.05, -0.03, 0.06};
    pupil.tuned = tuning;
    CHECK_THROWS_WITH(advise(pupil, setting, options), Catch::Contains("tuned drag, standard deviation"));
    tuning.sd[Tunable::drag_scale] = 0.03;
    tuning.correlations = {{0, 1, 0.9}, {1, 2, 0.9}, {0, 2, -0.9}};
    pupil.tuned = tuning;
    CHECK_THROWS_WITH(advise(pupil, setting, options),
                      Catch::Contains("tuned: these correlations cannot all hold together"));
  }
}
