// Plain words: every claim of every explanation is held against drives computed afresh, over pupils of all sorts.
#include "loftwright/advise/explain.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>

#include "loftwright/report/advice_words.hpp"
#include "loftwright/report/words.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// The pupil's drive with another loft, attack, launch or spin, reckoned from the delivery alone.
struct Changed {
  double loft = 0.0, attack = 0.0, launch = 0.0, spin = 0.0;
};
Drive drive_with(const Pupil& p, const Setting& setting, const Changed& c) {
  Delivery d = p.delivery;
  d.attack += c.attack;
  d.club_speed += p.reach.speed_per_attack * c.attack;
  d.dynamic_loft += c.loft + p.reach.follow * c.attack;
  Launch launch = drive_from(d, p.handed, setting, 1e-11).launch;
  launch.launch += c.launch;
  launch.spin += c.spin;
  return drive_from(launch, setting, 1e-11);
}

double goal_of(const Pupil& p, const Drive& d) { return p.goal == Goal::carry ? d.flight.carry : d.total; }

// Central difference of the goal along a change.
double slope(const Pupil& p, const Setting& s, const Changed& up) {
  const Changed down{-up.loft, -up.attack, -up.launch, -up.spin};
  return goal_of(p, drive_with(p, s, up)) - goal_of(p, drive_with(p, s, down));
}

}  // namespace

TEST_CASE("every claim holds, is told within 200 words, and carries its own numbers", "[explain]") {
  std::mt19937 random(99);
  const Setting setting = default_setting();
  int told[32] = {};
  std::size_t most_words = 0;
  for (int i = 0; i < 200; ++i) {
    Pupil p = random_pupil(random);
    p.goal = i % 2 ? Goal::total : Goal::carry;
    if (i % 10 == 0) {  // the rare one who launches too high
      p.delivery.club_speed = 110 * kMph;
      p.delivery.dynamic_loft = 26 * kDeg;
    }
    AdviseOptions options;
    const bool drawn = i % 4 == 0;  // else a player who does not scatter: his average drive is the one he has
    options.draws = drawn ? 512 : 0;
    if (!drawn) p.spread = Spread{};
    const Advice a = advise(p, setting, options);
    CAPTURE(i, p.delivery.club_speed / kMph, p.delivery.attack / kDeg, p.delivery.dynamic_loft / kDeg,
            static_cast<int>(p.goal));
    const Drive now = drive_with(p, setting, {});
    for (const Claim& c : explain(a)) {
      const std::string sentence = claim_sentence(c, p.goal, UnitSystem::yards);
      CAPTURE(sentence);
      ++told[static_cast<int>(c.kind)];
      const auto says = [&](Shown what, double si) {
        return sentence.find(number(what, si, UnitSystem::yards)) != std::string::npos;
      };
      const double h = 0.01 * kDeg;
      switch (c.kind) {
        case ClaimKind::now:
          // [m] averages are computed in lanes; a lob whose spin ratio passes 0.5 is off by 6 mm there
          CHECK(c.distance == Approx(drawn ? a.at(StrategyKind::as_is).goal : goal_of(p, now)).margin(1e-2));
          CHECK(says(Shown::angle, now.launch.launch));
          CHECK(says(Shown::distance, c.distance));
          break;
        case ClaimKind::too_low:
        case ClaimKind::too_high: {
          const double sign = c.kind == ClaimKind::too_low ? 1.0 : -1.0;
          CHECK(sign * slope(p, setting, {.launch = h}) > 0.0);
          CHECK(sign * (a.at(StrategyKind::both).drive.launch.launch - now.launch.launch) ==
                Approx(c.launch).margin(1e-6));
          CHECK(says(Shown::angle, c.launch));
          break;
        }
        case ClaimKind::too_little_spin:
        case ClaimKind::too_much_spin: {
          const double per_hundred = 50.0 * slope(p, setting, {.spin = kRpm});  // over two rpm
          CHECK((c.kind == ClaimKind::too_little_spin ? per_hundred : -per_hundred) ==
                Approx(c.distance).epsilon(0.02).margin(0.01));
          CHECK(says(Shown::gain, c.distance));
          break;
        }
        case ClaimKind::loft_helps:
        case ClaimKind::loft_hurts:
        case ClaimKind::up_helps:
        case ClaimKind::up_hurts: {
          const bool loft = c.kind == ClaimKind::loft_helps || c.kind == ClaimKind::loft_hurts;
          const bool helps = c.kind == ClaimKind::loft_helps || c.kind == ClaimKind::up_helps;
          const Changed up = loft ? Changed{.loft = h} : Changed{.attack = h},
                        down = loft ? Changed{.loft = -h} : Changed{.attack = -h};
          const double per_degree = slope(p, setting, up) / 0.02;
          CHECK((helps ? per_degree : -per_degree) == Approx(c.distance).epsilon(0.02).margin(0.01));
          const Drive above = drive_with(p, setting, up), below = drive_with(p, setting, down);
          CHECK((above.launch.launch - below.launch.launch) / 0.02 == Approx(c.launch).epsilon(0.01).margin(1e-5));
          CHECK((above.launch.spin - below.launch.spin) / 0.02 == Approx(c.spin).epsilon(0.01).margin(0.1));
          CHECK(says(Shown::gain, c.distance));
          CHECK((sentence.find("further") != std::string::npos) == helps);
          CHECK((sentence.find("higher") != std::string::npos) == (c.launch >= 0.0));
          CHECK((sentence.find("turns more") != std::string::npos) == (c.spin >= 0.0));
          break;
        }
        case ClaimKind::loft_gain:
        case ClaimKind::technique_gain:
        case ClaimKind::both_gain: {
          const Drive then =
              drive_with(p, setting, {.loft = c.loft - p.club_loft, .attack = c.attack - p.delivery.attack});
          const StrategyKind kind = c.kind == ClaimKind::loft_gain        ? StrategyKind::loft_only
                                    : c.kind == ClaimKind::technique_gain ? StrategyKind::technique_only
                                                                          : StrategyKind::both;
          // [m] lanes, twice
          CHECK((drawn ? a.at(kind).gain : goal_of(p, then) - goal_of(p, now)) == Approx(c.distance).margin(1e-2));
          if (c.kind == ClaimKind::both_gain) {  // news only when it is a yard more than the better one buys
            CHECK(c.distance >=
                  std::max(a.at(StrategyKind::loft_only).gain, a.at(StrategyKind::technique_only).gain) + kYard);
          }
          CHECK(says(Shown::gain, c.distance));
          break;
        }
        case ClaimKind::loft_no_gain: CHECK(a.at(StrategyKind::loft_only).gain < kYard); break;
        case ClaimKind::technique_no_gain: CHECK(a.at(StrategyKind::technique_only).gain < kYard); break;
        case ClaimKind::sure:
          CHECK(a.verdict.leader != Lever::leave);
          CHECK(c.low < c.high);
          CHECK(says(Shown::distance, c.low));
          // The interval is that of the drive it names: not of both where one lever is advised.
          CHECK(says(Shown::angle, c.loft));
          CHECK(says(Shown::angle, c.attack));
          CHECK((c.loft == p.club_loft) == (a.verdict.leader == Lever::technique));
          CHECK((c.attack == p.delivery.attack) == (a.verdict.leader == Lever::loft));
          CHECK(says(Shown::distance, c.high));
          break;
      }
    }
    std::size_t words = 0;
    for (const std::string& sentence : explanation(a, UnitSystem::metres)) {
      std::istringstream in(sentence);
      for (std::string word; in >> word;) ++words;
    }
    CHECK(words <= 200);
    most_words = std::max(most_words, words);
  }
  for (int k = 0; k <= static_cast<int>(ClaimKind::sure); ++k) {
    CAPTURE(k);
    CHECK(told[k] > 0);  // every sort of sentence was put to the test
  }
  WARN("at most " << most_words << " words");
}
