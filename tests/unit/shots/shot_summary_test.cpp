#include "loftwright/shots/shot_summary.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "loftwright/io/columns_file.hpp"
#include "settings.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

ShotList read(std::string_view text) {
  static const ColumnMap words = built_in_columns();
  return read_shots(text, words);
}

const ReadingSummary& of(const ShotSummary& summary, Reading reading) {
  for (const ReadingSummary& r : summary.readings) {
    if (r.reading == reading) return r;
  }
  throw std::logic_error("no such reading");
}

}  // namespace

TEST_CASE("middle, scatter and togetherness of a hand-worked list", "[shots]") {
  const ShotSummary summary = summarise(read("Attack,Launch,Spin\n-2,10,\n-3,9,2500\n-4,8,2600\n-5,7,\n-6,6,2700\n"));
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
  const ShotList list = read(text + "60\n");
  CHECK(counted(list, OddShots::keep).size() == 13);
  CHECK(counted(list, OddShots::leave_out).size() == 12);
  CHECK(summarise(list, OddShots::leave_out).readings[0].summary.sd < 0.1 * summarise(list).readings[0].summary.sd);
}

TEST_CASE("the delivery block of a pupil file", "[shots]") {
  const auto block = delivery_block(
      read("Club Speed (mph),Attack,Dynamic Loft,Face,Toe (mm)\n80,-4,10,1,5 heel\n82,-2,12,,3 toe\n84,-3,,3,\n"));
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

  CHECK_FALSE(delivery_block(read("Club Speed (mph),Attack\n80,-4\n")));
  const auto single = delivery_block(read("Club Speed (mph),Attack,Dynamic Loft\n80,-4,10\n"));
  REQUIRE(single);
  CHECK_FALSE(single->spread);
}
