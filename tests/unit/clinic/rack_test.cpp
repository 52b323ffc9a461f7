#include "loftwright/clinic/rack.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

using Losses = std::vector<std::vector<double>>;

double lost_with(const Losses& losses, unsigned long chosen) {
  double sum = 0.0;
  for (const auto& row : losses) {
    double least = 1e300;
    for (std::size_t j = 0; j < row.size(); ++j) {
      if (chosen >> j & 1) least = std::min(least, row[j]);
    }
    sum += least;
  }
  return sum;
}

// Every set of so many lofts, by the next larger number with as many bits (Gosper).
double least_lost(const Losses& losses, std::size_t places) {
  const std::size_t lofts = losses.front().size();
  double least = 1e300;
  unsigned long set = (1UL << places) - 1;
  while (set < 1UL << lofts) {
    least = std::min(least, lost_with(losses, set));
    const unsigned long lowest = set & (~set + 1), ripple = set + lowest;
    set = ripple | (((set ^ ripple) >> 2) / lowest);
  }
  return least;
}

unsigned long set_of(const std::vector<std::size_t>& chosen) {
  unsigned long set = 0;
  for (const std::size_t j : chosen) set |= 1UL << j;
  return set;
}

// Nothing to go by: harder than what golfers make.
Losses random_losses(std::mt19937& random, std::size_t pupils, std::size_t lofts) {
  Losses out(pupils, std::vector<double>(lofts));
  for (auto& row : out) {
    for (double& x : row) x = uniform(random, 0, 20);
  }
  return out;
}

// Each pupil has a best loft somewhere along the list and loses with the square of the distance, as golfers do.
Losses golfers_losses(std::mt19937& random, std::size_t pupils, std::size_t lofts) {
  Losses out;
  for (std::size_t i = 0; i < pupils; ++i) {
    const double best = uniform(random, -1, static_cast<double>(lofts)), bend = uniform(random, 0.1, 2);
    out.emplace_back();
    for (std::size_t j = 0; j < lofts; ++j)
      out.back().push_back(bend * (static_cast<double>(j) - best) * (static_cast<double>(j) - best));
  }
  return out;
}

void is_best(const Losses& losses, std::size_t places) {
  const RackOfSize found = best_rack(losses, places);
  CAPTURE(losses.size(), losses.front().size(), places);
  REQUIRE(found.chosen.size() == places);
  CHECK(std::is_sorted(found.chosen.begin(), found.chosen.end()));
  CHECK(found.lost == Approx(lost_with(losses, set_of(found.chosen))).epsilon(1e-12));
  CHECK(found.lost == Approx(least_lost(losses, places)).epsilon(1e-12).margin(1e-12));  // rounding of sums
}

LoftCurve curve_of(std::vector<double> gain, std::vector<bool> usable, double best_gain) {
  LoftCurve curve;
  curve.gain = std::move(gain);
  curve.usable = std::move(usable);
  curve.best_gain = best_gain;
  return curve;
}

std::vector<double> degrees_of(std::vector<double> degrees) {
  for (double& d : degrees) d *= kDeg;
  return degrees;
}

}  // namespace

TEST_CASE("a rack loses as little as the best of all sets of so many lofts") {
  std::mt19937 random(26);
  for (std::size_t lofts = 1; lofts <= 10; ++lofts) {
    for (std::size_t places = 1; places <= lofts; ++places) {
      for (const std::size_t pupils : {1, 2, 7, 23}) {
        is_best(random_losses(random, pupils, lofts), places);
        is_best(golfers_losses(random, pupils, lofts), places);
      }
    }
  }
}

TEST_CASE("twenty lofts and eight places against all 125 970 sets") {
  std::mt19937 random(8);
  for (const std::size_t pupils : {12, 40}) {
    is_best(golfers_losses(random, pupils, 20), 8);
    is_best(random_losses(random, pupils, 20), 8);
  }
  for (const std::size_t places : {1, 2, 5, 19, 20}) is_best(golfers_losses(random, 12, 20), places);
}

TEST_CASE("of golfers' racks few are looked at") {
  std::mt19937 random(200);
  const Losses losses = golfers_losses(random, 200, 20);
  long looked_at = 0;
  for (std::size_t places = 1; places <= 20; ++places) best_rack(losses, places, &looked_at);
  CHECK(looked_at < 50'000);  // of the 1 048 575 racks that there are; 34,512 as measured
}

TEST_CASE("of racks that lose the same, always the same one") {
  const Losses same(5, std::vector<double>(6, 2.0));
  const RackOfSize one = best_rack(same, 3), again = best_rack(same, 3);
  CHECK(one.chosen == again.chosen);
  CHECK(one.lost == 10.0);
}

TEST_CASE("a loft that breaks a limit serves nobody, and no rack is better for it") {
  const LoftCurve curve = curve_of({3.0, 5.0, -2.0}, {true, false, true}, 4.0);
  CHECK(losses_of(curve) == std::vector<double>{1.0, 6.0, 6.0});  // as the worst that breaks none
  const LoftCurve fine = curve_of({3.0, 5.0}, {true, false}, 4.0);
  CHECK(losses_of(fine) == std::vector<double>{1.0, 4.0});  // as the club in hand, which is worse
  const LoftCurve own_is_best = curve_of({-3.0, -1.0}, {true, true}, -1.0);
  CHECK(losses_of(own_is_best) == std::vector<double>{2.0, 0.0});
}

TEST_CASE("a rack, what comes next, and who takes what") {
  const std::vector<double> lofts = degrees_of({9, 10.5, 12, 13.5});
  const std::vector<LoftCurve> curves{curve_of({1, 3, 4, 3}, {true, true, true, true}, 4.2),
                                      curve_of({0, -2, -5, -9}, {true, true, true, true}, 0.0),
                                      curve_of({2, 6, 9, 11}, {true, true, false, false}, 7.0)};
  const Rack rack = choose_rack(lofts, curves, 2);
  CHECK(rack.best.chosen == std::vector<std::size_t>{0, 1});  // 3.2 + 0 + 5 with 9 alone; 10.5 saves 2 and 4
  CHECK(rack.best.lost == Approx(1.2 + 0.0 + 1.0));
  REQUIRE(rack.next.size() == 2);
  CHECK(rack.next[0].loft == 2);
  CHECK(rack.next[0].saves == Approx(1.0));
  CHECK(rack.next[1].saves == 0.0);
  REQUIRE(rack.by_size.size() == 4);
  CHECK(rack.by_size[1].chosen == rack.best.chosen);
  REQUIRE(rack.uses.size() == 3);
  CHECK(rack.uses[0].loft == 1U);
  CHECK(rack.uses[0].gain == 3.0);
  CHECK(rack.uses[1].loft == 0U);
  CHECK(rack.uses[2].lost == Approx(1.0));

  const Rack steep = choose_rack(lofts, {curves[2]}, 1);
  CHECK(steep.best.chosen == std::vector<std::size_t>{1});
  const std::vector<LoftCurve> without{curve_of({1, 3, 4, 3}, {true, true, true, true}, 4.2),
                                       curve_of({1, 1, 1, 1}, {true, false, false, false}, 1.0)};
  const Rack one = choose_rack(lofts, without, 1);
  CHECK(one.best.chosen == std::vector<std::size_t>{2});
  CHECK_FALSE(one.uses[1].loft);
  CHECK(one.uses[1].gain == 0.0);
}

TEST_CASE("each further loft never makes a rack worse, and the next saves no more than the one before") {
  std::mt19937 random(4);
  for (int turn = 0; turn < 20; ++turn) {
    const std::size_t lofts = 2 + random() % 9;
    std::vector<double> list;
    for (std::size_t j = 0; j < lofts; ++j) list.push_back((9 + 0.5 * static_cast<double>(j)) * kDeg);
    std::vector<LoftCurve> curves;
    for (int i = 0; i < 15; ++i) {
      LoftCurve c;
      c.best_gain = -100.0;
      for (std::size_t j = 0; j < lofts; ++j) {
        c.gain.push_back(uniform(random, -10, 10));
        c.usable.push_back(j == 0 || uniform(random, 0, 1) < 0.8);
        if (c.usable.back()) c.best_gain = std::max(c.best_gain, c.gain.back());
      }
      curves.push_back(c);
    }
    const Rack rack = choose_rack(list, curves, static_cast<int>(1 + random() % lofts));
    for (std::size_t s = 1; s < rack.by_size.size(); ++s)
      CHECK(rack.by_size[s].lost <= rack.by_size[s - 1].lost + 1e-9);
    CHECK(rack.by_size.back().lost == Approx(0.0).margin(1e-9));  // their best lofts are all of the list
    double left = rack.best.lost, before = 1e300;
    for (const RackNext& n : rack.next) {
      CHECK(n.saves >= 0.0);
      CHECK(n.saves <= before + 1e-9);
      before = n.saves;
      left -= n.saves;
    }
    CHECK(left == Approx(0.0).margin(1e-9));
    double lost = 0.0;
    for (const RackUse& use : rack.uses) lost += use.lost;
    CHECK(lost == Approx(rack.best.lost).margin(1e-9));
  }
}

TEST_CASE("what cannot be a rack is refused with what is allowed") {
  CHECK_THROWS_WITH(check_rack({}, 1), Catch::Contains("lofts"));
  CHECK_THROWS_WITH(check_rack(std::vector<double>(21, 0.2), 1), Catch::Contains("20"));
  CHECK_THROWS_WITH(check_rack(degrees_of({2}), 1), Catch::Contains("4"));
  CHECK_THROWS_WITH(check_rack(degrees_of({10, 10.05}), 1), Catch::Contains("10.00 and 10.05 deg"));
  CHECK_THROWS_WITH(check_rack(degrees_of({12, 9}), 1), Catch::Contains("above the one before"));
  CHECK_THROWS_WITH(check_rack(degrees_of({9, 12}), 3), Catch::Contains("places"));
  CHECK_THROWS_AS(check_rack(degrees_of({9, 12}), 0), InputError);
  CHECK_NOTHROW(check_rack(degrees_of({9, 12}), 2));
  CHECK_THROWS_WITH(choose_rack(degrees_of({9, 12}), {}, 1), Catch::Contains("no pupil"));
  CHECK_THROWS_AS(best_rack({{1.0, 2.0}, {1.0}}, 1), std::invalid_argument);
  CHECK_THROWS_AS(best_rack({{1.0, 2.0}}, 3), InputError);
}
