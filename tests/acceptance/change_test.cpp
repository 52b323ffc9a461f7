// What made a change: against common practice, and whether the intervals of its shares hold the truth as often as they
// say, where the truth is known: sessions drawn from deliveries that were chosen.
#include "loftwright/shots/detail/change.hpp"

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

// Common practice: a player who hits far down on it with little loft gets, six lessons on, faster, up on it and to more
// loft, and most of the yards come of the swing and its speed.
TEST_CASE("common practice: from hitting down to hitting up, swing and speed have the most of the gain", "[change]") {
  const Delivery down{.club_speed = 98 * kMph, .attack = -8 * kDeg, .dynamic_loft = 7 * kDeg},
      up{.club_speed = 103 * kMph, .attack = 3 * kDeg, .dynamic_loft = 13 * kDeg};
  const Setting in = default_setting();
  const double gain = drive_from(up, Handed::right, in).flight.carry - drive_from(down, Handed::right, in).flight.carry;
  CHECK(gain > 40 * kYard);
  const auto share = [](const Shares& shares, Factor f) { return shares[f].carry; };
  // The club as it was, its loft not known, and another driver of 1.5 deg more.
  for (const auto& [before, after] : {std::pair{std::optional(10 * kDeg), std::optional(10 * kDeg)},
                                      std::pair{std::optional<double>(), std::optional<double>()},
                                      std::pair{std::optional(9 * kDeg), std::optional(10.5 * kDeg)}}) {
    SharesOfChange change({down, in, before}, {up, in, after}, Handed::right);
    const Shares shares = change.by_who();
    double sum = 0.0;
    for (const Factor f : kAllOf<Factor>) {
      CAPTURE(key_of(f), shares[f].carry / kYard);
      sum += shares[f].carry;
      if (f == Factor::swing || f == Factor::speed) {
        CHECK(shares[f].carry > 0.0);
      } else {
        CHECK(shares[f].carry < std::min(share(shares, Factor::swing), share(shares, Factor::speed)));
      }
    }
    CHECK(std::abs(sum - gain) < 1e-3);
    CHECK(change.club_known() == before.has_value());
  }
}

TEST_CASE("intervals of shares hold the truth about as often as they say", "[change]") {
  SharesOfChange true_change({kBefore, default_setting()}, {kAfter, default_setting()}, Handed::right);
  const Shares truth = true_change.by_who();
  const HeldShares truth_held = true_change.loft_held();
  std::mt19937_64 random(20261125);
  constexpr int kRounds = 150;
  constexpr std::array kOf{Factor::speed, Factor::swing, Factor::hands};
  constexpr std::array kHeldOf{HeldFactor::club_speed, HeldFactor::attack, HeldFactor::loft};
  std::array<int, kOf.size() + kHeldOf.size()> held{};
  for (int round = 0; round < kRounds; ++round) {
    const Hitting before = session(kBefore, 10, random), after = session(kAfter, 12, random);
    ChangeOptions options;
    options.resamples = 400;
    options.seed = static_cast<std::uint64_t>(round);
    options.threads = 2;
    const Change change = explain_change(before, after, Handed::right, options).value();
    const auto holds = [](const Estimate& e, const Share& exact) {
      return e.low <= exact.carry && exact.carry <= e.high;
    };
    for (std::size_t i = 0; i < kOf.size(); ++i) {
      const Factor who = kOf[i];
      const HeldFactor what = kHeldOf[i];
      held[i] += holds(change.shares[who], truth[who]);
      held[kOf.size() + i] += holds(change.shares_loft_held[what], truth_held[what]);
    }
  }
  // 95 % of 150 rounds, standard error 1.8 %: two and a half of them to either side.
  for (std::size_t i = 0; i < held.size(); ++i) {
    INFO((i < kOf.size() ? key_of(kOf[i]) : key_of(kHeldOf[i - kOf.size()]))
         << " held " << held[i] << " of " << kRounds);
    CHECK(held[i] >= 0.905 * kRounds);
    CHECK(held[i] <= 0.995 * kRounds);
  }
}
