// The verdict's rules, and where a verdict turns, against docs/verdict.md applied by hand.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "loftwright/advise/advise.hpp"

using namespace loftwright;

namespace {

constexpr double kNone = -std::numeric_limits<double>::infinity();

// A steady step between two words at each of some quantiles: below the first, between, ..., above the last.
struct Steps {
  std::vector<double> ends;
  std::vector<Lever> words;
  Lever operator()(double quantile) const {
    const auto at = std::upper_bound(ends.begin(), ends.end(), quantile) - ends.begin();
    return words[static_cast<std::size_t>(at)];
  }
};

// docs/verdict.md, "The rules", word by word, on gains of each in turn.
Ruling by_the_page(const std::vector<Gains>& draws, double w) {
  const auto part = [&](auto&& holds) {
    std::size_t n = 0;
    for (const Gains& g : draws) n += holds(g) ? 1 : 0;
    return static_cast<double>(n) / static_cast<double>(draws.size());
  };
  const double loft = part([&](const Gains& g) { return g.loft >= w; }), technique = part([&](const Gains& g) { return g.technique >= w; }),
               both = part([&](const Gains& g) { return g.both >= w; });
  const double beyond = part([&](const Gains& g) { return g.both >= w + g.loft && g.both >= w + g.technique; });
  if (both >= 0.9 && beyond >= 0.8) return {Lever::both, beyond};
  if (loft >= 0.9 && technique >= 0.9) {
    const double longer = part([](const Gains& g) { return g.technique > g.loft; });
    if (longer >= 0.8) return {Lever::technique, longer};
    if (longer <= 0.2) return {Lever::loft, 1.0 - longer};
    return {Lever::either, part([&](const Gains& g) { return g.loft >= w && g.technique >= w; })};
  }
  if (technique >= 0.9) return {Lever::technique, technique};
  if (loft >= 0.9) return {Lever::loft, loft};
  if (both >= 0.9) return {Lever::both, both};
  return {Lever::leave, part([&](const Gains& g) { return g.loft < w && g.technique < w && g.both < w; })};
}

}  // namespace

TEST_CASE("the rules rule as docs/verdict.md has them, whatever the draws", "[advise]") {
  std::mt19937_64 random(8);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> uniform(0.0, 1.0);
  int given[5] = {};
  for (int i = 0; i < 4000; ++i) {
    const double w = 0.5 * static_cast<double>(i % 8);
    // Middles near what would clear, so that every rule is met from both sides.
    const double loft = w + 2.5 * uniform(random), technique = w + 2.5 * uniform(random),
                 both = std::max(loft, technique) + w * uniform(random) + 2.0 * uniform(random) - 1.0;
    std::vector<Gains> draws;
    for (int k = 0; k < 50; ++k) {
      const double shared = normal(random);
      draws.push_back({i % 7 == 1 ? kNone : loft + shared + 0.3 * normal(random), i % 7 == 2 ? kNone : technique + shared + 0.3 * normal(random),
                       i % 7 == 3 ? kNone : both + shared + 0.3 * normal(random)});
    }
    const Ruling said = rule(draws, w), right = by_the_page(draws, w);
    CAPTURE(i, w, loft, technique, both, key_of(said.lever), key_of(right.lever));
    CHECK(said.lever == right.lever);
    CHECK(said.probability == Approx(right.probability).margin(1e-12));
    ++given[static_cast<int>(right.lever)];
  }
  for (int k = 0; k < 5; ++k) {
    CAPTURE(k);
    CHECK(given[k] > 50);
  }
}

TEST_CASE("a turn is found to 0.002 wherever it is within two standard deviations, and not beyond", "[advise]") {
  for (int i = 1; i < 1000; ++i) {
    const double at = 0.001 * i + 1e-5;
    const bool above = at > 0.5;
    const Steps one = above ? Steps{{at}, {Lever::loft, Lever::technique}} : Steps{{at}, {Lever::technique, Lever::loft}};
    const auto turn = nearest_turn(one, Lever::loft);
    CAPTURE(at);
    // 2.28 % of a normal lie beyond two standard deviations, on either side.
    if (at < 0.0227 || at > 0.9773) {
      CHECK_FALSE(turn);
      continue;
    }
    if (std::abs(at - 0.0228) < 1e-4 || std::abs(at - 0.9772) < 1e-4) continue;
    REQUIRE(turn);
    CHECK(std::abs(turn->quantile - at) <= 0.002);
    CHECK(one(turn->quantile) == Lever::technique);
    CHECK(turn->becomes == Lever::technique);
  }
}

TEST_CASE("of turns either side the nearer is told", "[advise]") {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> part(0.03, 0.97);
  for (int i = 0; i < 2000; ++i) {
    const double below = std::min(0.49, 0.5 * part(random)), above = std::max(0.51, 0.5 + 0.5 * part(random));
    const double to_below = 0.5 - below, to_above = above - 0.5;
    if (std::max(to_below, to_above) > 0.47 || std::abs(to_below - to_above) < 0.005) continue;
    const auto turn = nearest_turn(Steps{{below, above}, {Lever::leave, Lever::loft, Lever::both}}, Lever::loft);
    CAPTURE(below, above);
    REQUIRE(turn);
    CHECK(turn->becomes == (to_below < to_above ? Lever::leave : Lever::both));
    CHECK(std::abs(turn->quantile - (to_below < to_above ? below : above)) <= 0.002);
  }
}

TEST_CASE("what a verdict turns to is what stands at the turn, not further out", "[advise]") {
  for (int i = 0; i < 80; ++i) {
    const double first = 0.51 + 0.005 * i;
    CAPTURE(first);
    const auto up = nearest_turn(Steps{{first, first + 0.02}, {Lever::loft, Lever::either, Lever::technique}}, Lever::loft);
    REQUIRE(up);
    CHECK(std::abs(up->quantile - first) <= 0.002);
    CHECK(up->becomes == Lever::either);
    const auto down = nearest_turn(Steps{{0.98 - first, 1.0 - first}, {Lever::technique, Lever::either, Lever::loft}}, Lever::loft);
    REQUIRE(down);
    CHECK(std::abs(down->quantile - (1.0 - first)) <= 0.002);
    CHECK(down->becomes == Lever::either);
  }
}
