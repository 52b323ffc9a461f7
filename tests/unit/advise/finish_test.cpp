// Where drives come to rest, and the ellipse around them.
#include "advise/finish.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "advise/scatter.hpp"
#include "loftwright/core/error.hpp"
#include "pupils.hpp"

using namespace loftwright;
using namespace loftwright::test;

TEST_CASE("without scatter every drive rests where the mean one does", "[advise]") {
  Pupil p = plain_pupil();
  p.spread = Spread{};
  const Setting setting = default_setting();
  const Drive mean = drive_from(p.delivery, p.handed, setting);
  for (const Finish& f : finishes(p, setting, p.delivery, {.count = 4})) {
    CHECK(
        f.along ==
        Approx(mean.total).margin(0.05));  // the draws' tolerance: a centimetre of flight, and what the run makes of it
    CHECK(f.side == Approx(mean.side_at_rest).margin(0.05));
  }
}

TEST_CASE("a face that wanders spreads drives across, a speed that wanders along", "[advise]") {
  Pupil p = plain_pupil();
  const Setting setting = default_setting();
  p.spread = Spread{};
  p.spread->face = 2.0 * kDeg;
  const FinishEllipse across = ellipse_of(finishes(p, setting, p.delivery), 0.8);
  CHECK(std::abs(std::cos(across.turn)) < 0.1);
  p.spread = Spread{};
  p.spread->club_speed = 2.0 * kMph;
  const FinishEllipse along = ellipse_of(finishes(p, setting, p.delivery), 0.8);
  CHECK(std::abs(std::cos(along.turn)) > 0.99);
  // The slope of total with club speed, by differences: the standard deviation must be slope times 2 mph.
  Delivery faster = p.delivery, slower = p.delivery;
  faster.club_speed += kMph;
  slower.club_speed -= kMph;
  const double sd = std::abs(drive_from(faster, p.handed, setting).total -
                             drive_from(slower, p.handed, setting).total);           // 2 mph apart
  CHECK(along.longer / std::sqrt(-2.0 * std::log(0.2)) == Approx(sd).epsilon(0.1));  // total bends a little over 2 mph
}

TEST_CASE("the ellipse holds its share of normal deviates, however they lean", "[advise]") {
  std::mt19937_64 random(5);
  std::normal_distribution<double> normal;
  std::vector<Finish> drives;
  for (int i = 0; i < 20000; ++i) {
    const double u = 12.0 * normal(random), v = 4.0 * normal(random);
    drives.push_back({170.0 + u * std::cos(0.5) - v * std::sin(0.5), 3.0 + u * std::sin(0.5) + v * std::cos(0.5)});
  }
  for (const double share : {0.5, 0.8, 0.95}) {
    const FinishEllipse e = ellipse_of(drives, share);
    int inside = 0;
    for (const Finish& f : drives) {
      const double a = f.along - e.centre.along, s = f.side - e.centre.side;
      const double u = (a * std::cos(e.turn) + s * std::sin(e.turn)) / e.longer,
                   v = (s * std::cos(e.turn) - a * std::sin(e.turn)) / e.shorter;
      inside += u * u + v * v <= 1.0;
    }
    CAPTURE(share);
    CHECK(inside / 20000.0 == Approx(share).margin(0.012));  // three standard errors of a share of 20,000
    CHECK(e.turn == Approx(0.5).margin(0.03));
  }
}

TEST_CASE("the usual spreads are those docs/pupil-file.md gives", "[advise]") {
  const double speed = 40.0;
  // share of club speed; deg of attack, path, face, dynamic loft; mm of toe and high
  const double table[][kSpreadQuantities] = {
      {0.015, 1.0, 1.5, 1.5, 1.2, 7, 6}, {0.02, 1.5, 2.5, 2.5, 1.7, 11, 8}, {0.03, 2.2, 3.5, 4.0, 2.4, 15, 10}};
  for (int i = 0; i < 3; ++i) {
    const Spread s = usual_spread(static_cast<Skill>(i), speed);
    const double found[] = {s.club_speed / speed,  s.attack / kDeg, s.path / kDeg, s.face / kDeg,
                            s.dynamic_loft / kDeg, s.toe * 1e3,     s.high * 1e3};
    for (int k = 0; k < kSpreadQuantities; ++k) {
      INFO("skill " << i << ", " << spread_key(k));
      CHECK(found[k] == Approx(table[i][k]));
    }
    CHECK(s.correlations.empty());
  }
}

TEST_CASE("correlations that cannot hold together are refused", "[advise]") {
  Pupil p = plain_pupil();
  p.spread = usual_spread(Skill::mid_handicap, p.delivery.club_speed);
  p.spread->correlations = {{0, 1, 0.9}, {1, 2, 0.9}, {0, 2, -0.9}};
  CHECK_THROWS_AS(finishes(p, default_setting(), p.delivery), InputError);
}

TEST_CASE("the ellipse of four drives, by hand", "[advise]") {
  // Four drives a and b either side of (200, 5) along two axes at right angles: variances 2 a^2 / 3 and 2 b^2 / 3.
  const double a = 9.0, b = 3.0;
  for (const double turn : {0.0, 0.4, -0.7, 1.2}) {
    std::vector<Finish> drives;
    for (const auto& [u, v] : {std::pair{a, 0.0}, {-a, 0.0}, {0.0, b}, {0.0, -b}}) {
      drives.push_back(
          {200.0 + u * std::cos(turn) - v * std::sin(turn), 5.0 + u * std::sin(turn) + v * std::cos(turn)});
    }
    // Half of a two-dimensional normal lies within sqrt(2 ln 2) standard deviations.
    const double reach = std::sqrt(2.0 * std::log(2.0));
    const FinishEllipse e = ellipse_of(drives, 0.5);
    CAPTURE(turn);
    CHECK(e.centre.along == Approx(200.0));
    CHECK(e.centre.side == Approx(5.0));
    CHECK(e.longer == Approx(reach * a * std::sqrt(2.0 / 3.0)));
    CHECK(e.shorter == Approx(reach * b * std::sqrt(2.0 / 3.0)));
    CHECK(e.turn == Approx(turn));
  }
  const FinishEllipse line = ellipse_of({{100.0, 0.0}, {110.0, 0.0}}, 0.5);  // two drives: a line
  CHECK(line.longer > 0.0);
  CHECK(line.shorter == Approx(0.0).margin(1e-9));
}

TEST_CASE("deviates become deviations as their correlations say", "[advise]") {
  Pupil p = plain_pupil();
  p.spread = Spread{.club_speed = 2.0,
                    .attack = 0.03,
                    .path = 0.05,
                    .face = 0.0,
                    .dynamic_loft = 0.02,
                    .toe = 0.01,
                    .high = 0.0,
                    .correlations = {{0, 1, 0.6}, {4, 1, -0.4}}};
  const Scatter scatter(p);
  // One deviate alone moves its own quantity and what is correlated with it: of a pair, the second by rho of the
  // first's deviate and sqrt(1 - rho^2) of its own.
  Scatter::Deviates z{};
  z[0] = 1.5;
  Delivery d = scatter.at(z);
  CHECK(d.club_speed == Approx(3.0));
  CHECK(d.attack == Approx(0.03 * 0.6 * 1.5));
  CHECK(d.path == 0.0);
  CHECK(d.dynamic_loft == Approx(0.0).margin(1e-15));
  z = {};
  z[1] = -1.0;
  d = scatter.at(z);
  CHECK(d.club_speed == 0.0);
  CHECK(d.attack == Approx(-0.03 * 0.8));
  CHECK(d.dynamic_loft == Approx(-0.02 * (-0.4 / 0.8)));
  z = {};
  z[2] = 2.0;
  z[5] = 1.0;
  d = scatter.at(z);
  CHECK(d.path == Approx(0.1));
  CHECK(d.toe == Approx(0.01));
  CHECK(d.attack == 0.0);
}
