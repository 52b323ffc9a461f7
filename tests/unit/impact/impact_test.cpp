#include "loftwright/impact/impact.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "bad_values.hpp"
#include "core/traps.hpp"
#include "draws.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

// A head that does not turn, with restitution that does not fall with speed.
Head stubborn(double mass, double restitution, double tangential, double friction = 2.0) {
  Head head;
  head.mass = mass;
  head.inertia_normal = head.inertia_up = head.inertia_heel_toe = 1e12;
  head.restitution = restitution;
  head.restitution_slope = 0.0;
  head.tangential_restitution = tangential;
  head.friction = friction;
  return head;
}

Launch struck(const Delivery& d) { return strike_ball(d, Head{}, Ball{}).launch; }

const Delivery kSquare{45.0, 0.0, 0.0, 0.0, 13.0 * kDeg, 0.0, 0.0};

Delivery with(double Delivery::*field, double value) {
  Delivery d = kSquare;
  d.*field = value;
  return d;
}

}  // namespace

TEST_CASE("planar impact gives the worked number", "[impact]") {
  // Worked outside this project: rolling at separation, no head rotation, e 0.83, e_t 0, head 200 g, 40 m/s, loft 12
  // deg, level.
  const Delivery d{40.0, 0.0, 0.0, 0.0, 12.0 * kDeg, 0.0, 0.0};
  const ImpactOf<double> impact = strike_ball(d, stubborn(0.2, 0.83, 0.0), Ball{});
  CHECK(std::abs(impact.launch.ball_speed - 58.2710) <= 0.5e-4);  // half of the last printed digit, here and below
  CHECK(std::abs(impact.launch.launch / kDeg - 9.8070) <= 0.5e-4);
  CHECK(std::abs(impact.launch.spin / kRpm - 2495.1) <= 0.05);
  CHECK_FALSE(impact.sliding);
}

TEST_CASE("planar impact of a head that does not turn is Cross 2002's closed form", "[impact]") {
  // Normal: v_n = (1 + e) V cos L M / (M + m). Tangential: J_t (1/m + 1/M + r^2/I) = (1 + e_t) V sin L, spin r J_t / I.
  const Ball ball;
  for (const double loft : {1.0, 8.0, 15.0, 25.0}) {
    for (const double e_t : {-0.3, 0.0, 0.5}) {
      const Head head = stubborn(0.21, 0.8, e_t);
      const double V = 42.0, L = loft * kDeg;
      const double v_n = 1.8 * V * std::cos(L) * head.mass / (head.mass + ball.mass);
      const double J_t = (1.0 + e_t) * V * std::sin(L) /
                         (1.0 / ball.mass + 1.0 / head.mass + ball.radius * ball.radius / ball.inertia());
      const double v_t = J_t / ball.mass, w = ball.radius * J_t / ball.inertia();
      const auto impact = strike_ball(Delivery{V, 0.0, 0.0, 0.0, L, 0.0, 0.0}, head, ball);
      INFO("loft " << loft << " deg, e_t " << e_t);
      CHECK_FALSE(impact.sliding);
      // The ball is pushed along the normal, raised by the loft, and dragged down the face.
      CHECK(std::abs(impact.launch.launch - (L - std::atan2(v_t, v_n))) < 1e-13);
      CHECK(std::abs(impact.launch.ball_speed - std::hypot(v_n, v_t)) < 1e-11);
      CHECK(std::abs(impact.launch.spin - w) < 1e-9);
      CHECK(std::abs(impact.launch.tilt) < 1e-12);
    }
  }
}

TEST_CASE("a face with little friction slides: tangential impulse is mu times the normal one", "[impact]") {
  const Ball ball;
  const double mu = 0.05, V = 42.0, L = 20.0 * kDeg;
  const Head head = stubborn(0.21, 0.8, 0.0, mu);
  const auto impact = strike_ball(Delivery{V, 0.0, 0.0, 0.0, L, 0.0, 0.0}, head, ball);
  const double v_n = 1.8 * V * std::cos(L) * head.mass / (head.mass + ball.mass);
  CHECK(impact.sliding);
  CHECK(std::abs(impact.launch.launch - (L - std::atan(mu))) < 1e-13);
  CHECK(std::abs(impact.launch.ball_speed - v_n * std::sqrt(1.0 + mu * mu)) < 1e-11);
  CHECK(std::abs(impact.launch.spin - mu * v_n * ball.mass * ball.radius / ball.inertia()) < 1e-9);
}

TEST_CASE("from grip to slide nothing jumps", "[impact]") {
  Head slippery;  // at the default 0.40 a driver's face never lets go: it would take 70 deg of spin loft
  slippery.friction = 0.08;
  double low = 10.0 * kDeg, high = 59.0 * kDeg;  // grips at the one, slides at the other
  auto at = [&](double loft) { return strike_ball(with(&Delivery::dynamic_loft, loft), slippery, Ball{}); };
  REQUIRE_FALSE(at(low).sliding);
  REQUIRE(at(high).sliding);
  while (high - low > 1e-13) {
    const double middle = 0.5 * (low + high);
    (at(middle).sliding ? high : low) = middle;
  }
  const Launch grips = at(low).launch, slides = at(high).launch;
  INFO("slides from a dynamic loft of " << high / kDeg << " deg");
  CHECK(std::abs(grips.spin - slides.spin) < 1e-8);  // spin slope (500 rad/s per rad) times the bracket, and rounding
  CHECK(std::abs(grips.ball_speed - slides.ball_speed) < 1e-9);
  CHECK(std::abs(grips.launch - slides.launch) < 1e-11);
}

TEST_CASE("restitution falls with the speed of impact and is the rules' at their speed", "[impact]") {
  Head head = stubborn(0.2, 0.83, 0.0);
  head.restitution_slope = 0.002;
  const Ball ball;
  for (const double V : {30.0, 48.77, 55.0}) {
    const double e = 0.83 - 0.002 * (V - 48.77);
    const auto impact = strike_ball(Delivery{V, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0}, head, ball);
    INFO("club speed " << V << " m/s");
    CHECK(std::abs(impact.launch.ball_speed - (1.0 + e) * V * 0.2 / (0.2 + ball.mass)) < 1e-11);
  }
}

TEST_CASE("struck square in the middle the ball goes straight", "[impact]") {
  const Launch l = struck(kSquare);
  CHECK(std::abs(l.azimuth) < 1e-15);
  CHECK(std::abs(l.tilt) < 1e-13);
  CHECK(l.launch > 0.7 * kSquare.dynamic_loft);  // launch lies between attack and dynamic loft, near the loft
  CHECK(l.launch < kSquare.dynamic_loft);
}

TEST_CASE("off the toe the ball starts right and curves back left, off the heel the reverse", "[impact]") {
  for (const double toe : {0.008, 0.016, 0.024}) {
    INFO("toe " << toe * 1e3 << " mm");
    const Launch toed = struck(with(&Delivery::toe, toe)), heeled = struck(with(&Delivery::toe, -toe));
    CHECK(toed.azimuth > 0.0);  // bulge
    CHECK(toed.tilt < 0.0);     // gear effect: a draw
    CHECK(heeled.azimuth < 0.0);
    CHECK(heeled.tilt > 0.0);
    CHECK(toed.ball_speed < struck(kSquare).ball_speed);
  }
  // Without bulge only the turning face sends it right, and less, and draws it more.
  Head flat;
  flat.bulge = 1e9;
  const Launch toed = strike_ball(with(&Delivery::toe, 0.016), flat, Ball{}).launch;
  CHECK(toed.azimuth < 0.5 * struck(with(&Delivery::toe, 0.016)).azimuth);
  CHECK(toed.tilt < struck(with(&Delivery::toe, 0.016)).tilt);
  // Without depth the head turns, but its face does not move sideways: hardly any gear effect.
  Head shallow;
  shallow.depth = 0.0;
  shallow.bulge = 1e9;
  CHECK(std::abs(strike_ball(with(&Delivery::toe, 0.016), shallow, Ball{}).launch.tilt) < 0.05 * std::abs(toed.tilt));
}

TEST_CASE("high on the face launches higher with less spin, low launches lower with more", "[impact]") {
  const Launch middle = struck(kSquare);
  for (const double high : {0.005, 0.010, 0.015}) {
    INFO("high " << high * 1e3 << " mm");
    const Launch above = struck(with(&Delivery::high, high)), below = struck(with(&Delivery::high, -high));
    CHECK(above.launch > middle.launch);
    CHECK(above.spin < middle.spin);
    CHECK(below.launch < middle.launch);
    CHECK(below.spin > middle.spin);
    // Roll adds loft above and takes it off below; the mean of both shows what the turning head costs.
    CHECK(0.5 * (above.ball_speed + below.ball_speed) < middle.ball_speed);
  }
}

TEST_CASE("a face open to the path starts the ball near the face and curves it right", "[impact]") {
  Delivery d = kSquare;
  d.path = -2.0 * kDeg;
  d.face = 3.0 * kDeg;
  const Launch l = struck(d);
  CHECK(l.tilt > 0.0);
  const double share = (l.azimuth - d.path) / (d.face - d.path);  // 1: where the face points
  INFO("share of the face in the start direction: " << share);
  CHECK(share > 0.75);  // common practice: three quarters and more
  CHECK(share < 1.0);
}

TEST_CASE("more spin loft, more spin, and more loft, higher and slower", "[impact]") {
  double spin = 0.0, speed = 1e9, launch = -1.0;
  for (double loft = 4.0; loft < 30.0; loft += 1.0) {
    const Launch l = struck(with(&Delivery::dynamic_loft, loft * kDeg));
    INFO("dynamic loft " << loft << " deg");
    CHECK(l.spin > spin);
    CHECK(l.ball_speed < speed);
    CHECK(l.launch > launch);
    spin = l.spin, speed = l.ball_speed, launch = l.launch;
  }
}

TEST_CASE("the greatest smash is that of a point mass on the axis, and no strike beats it", "[impact]") {
  const Head head;
  const Ball ball;
  for (const double V : {20.0, 36.0, 55.0}) {
    const double e = head.restitution - head.restitution_slope * (V - head.restitution_speed);
    INFO("club speed " << V << " m/s");
    CHECK(std::abs(greatest_smash(head, ball, V) - (1.0 + e) / (1.0 + ball.mass / head.mass)) < 1e-14 * 4);
  }
  Draws draws(8);
  for (int i = 0; i < 2000; ++i) {
    const Delivery d = draws.delivery();
    INFO(text(d));
    CHECK(struck(d).ball_speed / d.club_speed <= greatest_smash(head, ball, d.club_speed) * (1.0 + 1e-14));
  }
}

TEST_CASE("the delivery behind a launch is the one that gave it", "[impact]") {
  Draws draws(9);
  for (int i = 0; i < 500; ++i) {
    Delivery d = draws.delivery();
    d.toe = d.high = 0.0;  // five launch numbers tell five of the seven
    const ImpactOf<double> impact = strike_ball(d, Head{}, Ball{});
    REQUIRE_FALSE(impact.sliding);
    INFO(text(d) << " -> " << text(impact.launch));
    Delivery back;
    REQUIRE_NOTHROW(back = delivery_behind(impact.launch, Head{}, Ball{}));
    // Newton stops at a miss of 1e-9 of (1 m/s, 0.01 rad, 10 rad/s); the angles follow spin at 1e-2 rad per 10 rad/s.
    CHECK(std::abs(back.club_speed - d.club_speed) < 1e-7);
    CHECK(std::abs(back.attack - d.attack) < 1e-8);
    CHECK(std::abs(back.path - d.path) < 1e-8);
    CHECK(std::abs(back.face - d.face) < 1e-8);
    CHECK(std::abs(back.dynamic_loft - d.dynamic_loft) < 1e-8);
    CHECK(back.toe == 0.0);
    CHECK(back.high == 0.0);
  }
}

TEST_CASE("a launch that no driver gives is refused with the reason", "[impact]") {
  const WithoutTraps here;
  CHECK_THROWS_WITH(delivery_behind({60.0, 10.0 * kDeg, 0.0, 14000.0 * kRpm, 0.0}, Head{}, Ball{}),
                    Catch::Contains("do not fit together") || Catch::Contains("allowed"));
  CHECK_THROWS_AS(delivery_behind({std::nan(""), 0.2, 0.0, 250.0, 0.0}, Head{}, Ball{}), InputError);
}

TEST_CASE("a launch out of range is refused by name", "[impact]") {
  const auto use = [](const Launch& l) { validate(l); };
  const Launch good{60.0, 0.2, 0.0, 250.0, 0.0};
  check_field(good, &Launch::ball_speed, "ball speed", 1.0, 110.0, use);
  check_field(good, &Launch::launch, "launch", -20.0 * kDeg, 80.0 * kDeg, use);
  check_field(good, &Launch::azimuth, "launch direction", -60.0 * kDeg, 60.0 * kDeg, use);
  check_field(good, &Launch::spin, "spin", 0.0, 15000.0 * kRpm, use);
  check_field(good, &Launch::tilt, "spin axis", -kPi, kPi, use);
}

TEST_CASE("a mirrored launch swaps right and left and nothing else", "[impact]") {
  const Launch l{60.0, 0.2, 0.03, 250.0, -0.1}, m = mirrored(l);
  CHECK(m.ball_speed == l.ball_speed);
  CHECK(m.launch == l.launch);
  CHECK(m.azimuth == -l.azimuth);
  CHECK(m.spin == l.spin);
  CHECK(m.tilt == -l.tilt);
}
