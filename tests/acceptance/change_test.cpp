// Whether the intervals of a change's shares hold the truth as often as they say, where the truth is known: sessions
// drawn from deliveries that were chosen.
#include "loftwright/shots/change.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

constexpr Delivery kBefore{.club_speed = 78 * kMph, .attack = -3 * kDeg, .dynamic_loft = 12 * kDeg};
constexpr Delivery kAfter{.club_speed = 79 * kMph, .attack = 0.5 * kDeg, .dynamic_loft = 14 * kDeg};

Hitting session(const Delivery& mean, int shots, std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  Hitting out{{}, default_setting()};
  for (int i = 0; i < shots; ++i) {
    const double together = normal(random);
    Shot shot;
    shot.at(Reading::club_speed) = mean.club_speed + 1.3 * kMph * normal(random);
    shot.at(Reading::attack) = mean.attack + 1.2 * kDeg * together;
    shot.at(Reading::dynamic_loft) = mean.dynamic_loft + 1.2 * kDeg * (0.6 * together + 0.8 * normal(random));
    out.list.shots.push_back(shot);
  }
  return out;
}

}  // namespace

TEST_CASE("intervals of shares hold the truth about as often as they say", "[change]") {
  const auto truth = shares_of_change({kBefore, default_setting()}, {kAfter, default_setting()}, Handed::right);
  std::mt19937_64 random(20261125);
  constexpr int kRounds = 150;
  constexpr std::array kOf{Factor::club_speed, Factor::attack, Factor::loft};
  std::array<int, kOf.size()> held{};
  for (int round = 0; round < kRounds; ++round) {
    const Hitting before = session(kBefore, 10, random), after = session(kAfter, 12, random);
    ChangeOptions options;
    options.resamples = 400;
    options.seed = static_cast<std::uint64_t>(round);
    options.threads = 2;
    const Change change = explain_change(before, after, Handed::right, options).value();
    for (std::size_t i = 0; i < kOf.size(); ++i) {
      const Estimate& e = change.shares[static_cast<std::size_t>(kOf[i])];
      const double exact = truth[static_cast<std::size_t>(kOf[i])].carry;
      held[i] += e.low <= exact && exact <= e.high;
    }
  }
  // 95 % of 150 rounds, standard error 1.8 %: two and a half of them to either side.
  for (std::size_t i = 0; i < kOf.size(); ++i) {
    INFO(key_of(kOf[i]) << " held " << held[i] << " of " << kRounds);
    CHECK(held[i] >= 0.905 * kRounds);
    CHECK(held[i] <= 0.995 * kRounds);
  }
}
