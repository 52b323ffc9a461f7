#include "loftwright/shots/shot_summary.hpp"

#include <fmt/format.h>

#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "draws.hpp"
#include "loftwright/files/columns_file.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

ShotList read_list(std::string_view text) {
  static const ColumnMap words = built_in_columns();
  return read_shots(text, words);
}

const ReadingSummary& of(const ShotSummary& summary, Reading reading) {
  for (const ReadingSummary& r : summary.readings) {
    if (r.reading == reading) return r;
  }
  throw std::logic_error("no such reading");
}

// Whether Gauss finds only positive pivots.
bool positive_definite(std::array<std::array<double, 7>, 7> m) {
  for (std::size_t k = 0; k < 7; ++k) {
    if (m[k][k] <= 0.0) return false;
    for (std::size_t i = k + 1; i < 7; ++i) {
      for (std::size_t j = k + 1; j < 7; ++j) m[i][j] -= m[i][k] * m[k][j] / m[k][k];
    }
  }
  return true;
}

}  // namespace

TEST_CASE("middle, scatter and togetherness of a hand-worked list", "[shots]") {
  const ShotSummary summary =
      summarise(read_list("Attack,Launch,Spin\n-2,10,\n-3,9,2500\n-4,8,2600\n-5,7,\n-6,6,2700\n"));
  REQUIRE(summary.readings.size() == 3);
  const ReadingSummary& attack = of(summary, Reading::attack);
  CHECK(attack.summary.count == 5);
  CHECK(std::abs(attack.summary.mean - -4 * kDeg) < 1e-12);
  CHECK(std::abs(attack.summary.sd - std::sqrt(2.5) * kDeg) < 1e-12);
  CHECK(std::abs(attack.summary.standard_error - std::sqrt(0.5) * kDeg) < 1e-12);
  CHECK(std::abs(attack.median - -4 * kDeg) < 1e-12);
  CHECK(of(summary, Reading::spin).summary.count == 3);
  // In the order of Reading: attack, launch, spin.
  REQUIRE(summary.correlations[0][1]);
  CHECK(std::abs(*summary.correlations[0][1] - 1.0) < 1e-12);
  CHECK(*summary.correlations[0][1] == *summary.correlations[1][0]);
  CHECK_FALSE(summary.correlations[0][2]);  // three pairs say too little
}

TEST_CASE("odd shots are counted or left out", "[shots]") {
  std::string text = "Carry (yd)\n";
  for (int i = 0; i < 12; ++i) text += std::to_string(170 + i % 5) + "\n";
  const ShotList list = read_list(text + "60\n");
  CHECK(counted(list, Outliers::keep).size() == 13);
  CHECK(counted(list, Outliers::leave_out).size() == 12);
  CHECK(summarise(list, Outliers::leave_out).readings[0].summary.sd < 0.1 * summarise(list).readings[0].summary.sd);
}

TEST_CASE("the delivery block of a pupil file", "[shots]") {
  const auto block = delivery_block(
      read_list("Club Speed (mph),Attack,Dynamic Loft,Face,Toe (mm)\n80,-4,10,1,5 heel\n82,-2,12,,3 toe\n84,-3,,3,\n"));
  REQUIRE(block);
  CHECK(std::abs(block->mean.club_speed - 82 * kMph) < 1e-12);
  CHECK(std::abs(block->mean.attack - -3 * kDeg) < 1e-12);
  CHECK(std::abs(block->mean.dynamic_loft - 11 * kDeg) < 1e-12);
  CHECK(std::abs(block->mean.face - 2 * kDeg) < 1e-12);
  CHECK(std::abs(block->mean.toe - -0.001) < 1e-12);
  REQUIRE(block->spread);
  CHECK(std::abs(block->spread->club_speed - 2 * kMph) < 1e-12);
  CHECK(std::abs(block->spread->attack - 1 * kDeg) < 1e-12);
  CHECK(std::abs(block->spread->toe - 0.008 / std::sqrt(2.0)) < 1e-12);
  CHECK(block->spread->path == 0.0);
  CHECK(block->count == 2);
  CHECK(block->taken_as_zero == std::vector{Reading::path, Reading::high});

  CHECK_FALSE(delivery_block(read_list("Club Speed (mph),Attack\n80,-4\n")));
  const auto single = delivery_block(read_list("Club Speed (mph),Attack,Dynamic Loft\n80,-4,10\n"));
  REQUIRE(single);
  CHECK_FALSE(single->spread);
}

TEST_CASE("correlations of a delivery are drawn towards zero as far as chance made them", "[shots]") {
  // Worked by hand: five shots, r of attack and dynamic loft 0.8 (covariance 2.0, both variances 2.5), speed against
  // either 0 by construction. One pair of three is not zero: chance (0 + 2) / 4 + (1 - 0.64)^2 / 4 over 0.64.
  const auto block = delivery_block(
      read_list("Club Speed (mph),Attack,Dynamic Loft\n81,-5,10\n79,-4,12\n79.25,-3,11\n80.5,-2,14\n80.25,-1,13\n"));
  REQUIRE(block);
  REQUIRE(block->spread);
  const auto& all = block->spread->correlations;
  REQUIRE(all.size() == 3);
  const double chance = (2.0 * 1.0 + 0.36 * 0.36) / 4.0 / 0.64;
  CHECK(all[0].first == 0);
  CHECK(all[0].second == 1);
  CHECK(std::abs(all[0].value) < 1e-12);
  CHECK(std::abs(all[1].value) < 1e-12);
  CHECK(all[2].first == 1);
  CHECK(all[2].second == 4);
  CHECK(std::abs(all[2].value - 0.8 * (1.0 - chance)) < 1e-12);
}

TEST_CASE("correlations of many equal-minded shots stay, but never quite one", "[shots]") {
  std::string text = "Club Speed (mph),Attack,Dynamic Loft\n";
  for (int i = 0; i < 40; ++i) text += fmt::format("{},{},{}\n", 80 + i % 3, -4 + 0.1 * i, 10 + 0.1 * i);
  const auto block = delivery_block(read_list(text));
  REQUIRE(block->spread->correlations.size() == 3);
  CHECK(block->spread->correlations[2].value > 0.9);
  CHECK(block->spread->correlations[2].value <= 0.99);
}

TEST_CASE("a delivery's correlations are possible together, however few the shots", "[shots]") {
  Draws draws(7);
  for (int trial = 0; trial < 300; ++trial) {
    std::string text = "Club Speed (mph),Attack,Path,Face,Dynamic Loft,Toe (mm),High (mm)\n";
    const int shots = 4 + trial % 6;
    for (int i = 0; i < shots; ++i) {
      const double same = draws.between(-1, 1);
      text += fmt::format("{:.2f},{:.2f},{:.2f},{:.2f},{:.2f},{:.1f},{:.1f}\n", 80 + same + draws.between(-.1, .1),
                          -3 + same, draws.between(-2, 2), draws.between(-2, 2), 12 - same, draws.between(-9, 9),
                          draws.between(-9, 9));
    }
    const auto block = delivery_block(read_list(text));
    INFO(text);
    REQUIRE(block->spread->correlations.size() == 21);
    std::array<std::array<double, 7>, 7> together{};
    for (std::size_t i = 0; i < 7; ++i) together[i][i] = 1.0;
    for (const auto& c : block->spread->correlations) {
      const auto i = static_cast<std::size_t>(c.first), j = static_cast<std::size_t>(c.second);
      together[i][j] = together[j][i] = std::round(c.value * 1000) / 1000;  // as pasted
      CHECK(std::abs(c.value) <= 0.99);
    }
    CHECK(positive_definite(together));
  }
}

TEST_CASE("what clearly goes together, the strongest first", "[shots]") {
  std::string text = "Attack,Launch,Spin,Carry (yd)\n";
  for (int i = 0; i < 12; ++i) {
    text += fmt::format("{:.1f},{:.1f},{},{}\n", -4 + 0.3 * i, 8 + 0.3 * i, 3000 - 40 * i + 90 * (i % 3),
                        170 + (i * 7) % 5);
  }
  const auto pairs = strong_correlations(summarise(read_list(text)));
  REQUIRE(pairs.size() == 3);
  CHECK(pairs[0].first == Reading::attack);
  CHECK(pairs[0].second == Reading::launch);
  CHECK(pairs[0].correlation > 0.9999);
  CHECK(pairs[1].correlation < -kStrongCorrelation);
  CHECK(pairs[2].second == Reading::spin);
  // 0.8 in five shots is what chance makes of nothing one time in ten.
  CHECK(strong_correlations(summarise(read_list("Attack,Launch\n-5,10\n-4,12\n-3,11\n-2,14\n-1,13\n"))).empty());
}
