// What is not known: each unknown moves what it should, by how much it should, and nothing else.
#include "advise/uncertainty.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "pupils.hpp"
#include "settings.hpp"
#include "stats/quasi.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

Uncertainty::Deviates only(Unknown unknown, double z) {
  Uncertainty::Deviates all{};
  all[unknown] = z;
  return all;
}

Pupil tuned_on(const std::string& turf) {
  Pupil p = plain_pupil();
  p.tuned = Tuning{{0.82, 0.1, 0.8, 1.2, 1.25, 0.8, 1.25, 0.8},
                   {0.01, 0.04, 0.04, 0.06, 0.125, 0.08, 0.125, 0.08},
                   {{6, 7, 0.6}, {2, 6, 0.5}},
                   30,
                   turf};
  return p;
}

constexpr double Delivery::*kDelivered[] = {&Delivery::club_speed, &Delivery::attack,       &Delivery::path,
                                            &Delivery::face,       &Delivery::dynamic_loft, &Delivery::toe,
                                            &Delivery::high};

// All numbers of how things are, in one row.
std::vector<double> row(const Circumstances& c) {
  std::vector<double> all;
  for (const auto field : kDelivered) all.push_back(c.deviation.*field);
  const auto& e = c.error;
  for (const double x :
       {e.drag_scale, e.lift_scale, e.restitution, e.tangential_restitution, c.follow, c.speed_per_attack, e.turf.tilt,
        e.turf.tilt_speed, e.turf.restitution, e.turf.rise, e.turf.friction, e.turf.rolling, e.turf.grass,
        e.head.inertia_up, e.head.depth, e.head.bulge}) {
    all.push_back(x);
  }
  return all;
}

Pupil pupil_of_nine() {
  Pupil p = plain_pupil();
  p.spread = Spread{.club_speed = 1.0,
                    .attack = 2.0 * kDeg,
                    .path = 3.0 * kDeg,
                    .face = 4.0 * kDeg,
                    .dynamic_loft = 2.5 * kDeg,
                    .toe = 0.010,
                    .high = 0.006,
                    .correlations = {}};
  p.measured_shots = 9;
  p.reach.speed_per_attack = -0.1 * kMph / kDeg;
  return p;
}

}  // namespace

TEST_CASE("where nothing is off, all is as measured and modelled", "[advise]") {
  const Pupil p = pupil_of_nine();
  const Setting setting = default_setting();
  const ErrorWidths widths;
  const Circumstances c = Uncertainty(p, setting, widths).at({});
  const ModelErrorOf<double> none{};
  CHECK(row(c) == row({{}, none, p.reach.follow, p.reach.speed_per_attack}));
}

TEST_CASE("each unknown moves one number, and each number is moved by one", "[advise]") {
  const Pupil p = pupil_of_nine();
  const Setting setting = default_setting();
  const ErrorWidths widths;
  const Uncertainty u(p, setting, widths);
  const std::vector<double> now = row(u.at({}));
  REQUIRE(now.size() == kCountOf<Unknown>);
  for (std::size_t i = 0; i < now.size(); ++i) {
    const auto unknown = static_cast<Unknown>(i);
    const std::vector<double> down = row(u.at(only(unknown, -1.0))), up = row(u.at(only(unknown, 1.0)));
    for (std::size_t k = 0; k < now.size(); ++k) {
      CAPTURE(i, k);
      const bool own = i == k;
      CHECK((down[k] != now[k]) == own);
      // Friction is never more than the turf's.
      CHECK((up[k] != now[k]) == (own && unknown != Unknown::turf_friction));
    }
  }
  // Carry is over before the turf has a say.
  for (std::size_t i = kUnknownsOfCarry; i < now.size(); ++i) {
    const Circumstances c = u.at(only(static_cast<Unknown>(i), 1.0));
    CHECK(c.error.drag_scale == 1.0);
    CHECK(c.follow == p.reach.follow);
  }
  CHECK(kUnknownsOfCarry == 13);
}

TEST_CASE("a mean of nine is off by a third of the scatter, a drive by all of it", "[advise]") {
  const Pupil p = pupil_of_nine();
  const Setting setting = default_setting();
  const ErrorWidths widths;
  const Uncertainty u(p, setting, widths);
  const double sd[] = {1.0, 2.0 * kDeg, 3.0 * kDeg, 4.0 * kDeg, 2.5 * kDeg, 0.010, 0.006};
  for (std::size_t j = 0; j < 7; ++j) {
    CAPTURE(j);
    CHECK(u.at(only(measured_part(j), 1.5)).deviation.*kDelivered[j] == Approx(0.5 * sd[j]));
    Scatter::Deviates shot{};
    shot[j] = -2.0;
    CHECK(u.at({}, shot).deviation.*kDelivered[j] == Approx(-2.0 * sd[j]));
    CHECK(u.at(only(measured_part(j), 1.5), shot).deviation.*kDelivered[j] == Approx(-1.5 * sd[j]));
  }
  // What scatters together is measured together.
  Pupil together = p;
  together.spread->correlations = {{1, 4, 0.6}};
  const Circumstances c = Uncertainty(together, setting, widths).at(only(Unknown::measured_attack, 3.0));
  CHECK(c.deviation.attack == Approx(2.0 * kDeg));
  CHECK(c.deviation.dynamic_loft == Approx(0.6 * 2.5 * kDeg));
  CHECK(c.deviation.face == 0.0);
}

TEST_CASE("drag, lift, restitutions and the cost of speed are as wide as the widths say", "[advise]") {
  const Pupil p = pupil_of_nine();
  const Setting setting = default_setting();
  ErrorWidths w;
  w.drag_scale = 0.04;
  w.lift_scale = 0.07;
  w.restitution = 0.02;
  w.tangential_restitution = 0.06;
  w.speed_per_attack = 0.2 * kMph / kDeg;
  const Uncertainty u(p, setting, w);
  for (const double z : {-2.0, 0.5}) {
    CHECK(u.at(only(Unknown::drag, z)).error.drag_scale == Approx(1.0 + 0.04 * z));
    CHECK(u.at(only(Unknown::lift, z)).error.lift_scale == Approx(1.0 + 0.07 * z));
    CHECK(u.at(only(Unknown::restitution, z)).error.restitution == Approx(0.02 * z));
    CHECK(u.at(only(Unknown::tangential_restitution, z)).error.tangential_restitution == Approx(0.06 * z));
    CHECK(u.at(only(Unknown::speed_cost, z)).speed_per_attack == Approx((-0.1 + 0.2 * z) * kMph / kDeg));
  }
}

TEST_CASE("a tuned head and ball are as uncertain as the tuning was, together", "[advise]") {
  Pupil p = pupil_of_nine();
  const Setting setting = default_setting();
  const ErrorWidths widths;
  p.tuned = Tuning{{0.82, 0.1, 0.8, 1.2}, {0.01, 0.04, 0.04, 0.06}, {{0, 2, 0.8}}, 30};
  const Uncertainty u(p, setting, widths);
  const Circumstances head = u.at(only(Unknown::restitution, 1.0)), ball = u.at(only(Unknown::drag, 1.0));
  CHECK(head.error.restitution == Approx(0.01));
  CHECK(head.error.drag_scale == Approx(1.0 + 0.8 * 0.05));  // 0.04 of 0.8, eight tenths of it together with the head's
  CHECK(ball.error.drag_scale == Approx(1.0 + 0.6 * 0.05));
  CHECK(ball.error.restitution == 0.0);
  CHECK(u.at(only(Unknown::tangential_restitution, 1.0)).error.tangential_restitution == Approx(0.04));
  CHECK(u.at(only(Unknown::lift, 1.0)).error.lift_scale == Approx(1.0 + 0.06 / 1.2));
}

TEST_CASE("follow stays within its range, as likely below as above, seldom near an end", "[advise]") {
  Pupil p = pupil_of_nine();
  const Setting setting = default_setting();
  const ErrorWidths widths;
  const struct {
    double follow, low, high;
  } cases[] = {
      {0.85, 0.45, 1.25}, {0.2, 0.0, 0.6}, {0.0, 0.0, 0.4}, {1.2, 0.8, kMostFollow}, {kMostFollow, 0.9, kMostFollow}};
  for (const auto& [follow, low, high] : cases) {
    p.reach.follow = follow;
    const Uncertainty u(p, setting, widths);
    CAPTURE(follow);
    double last = low - 1e-12;
    std::size_t near_ends = 0;
    constexpr int kPoints = 2000;
    for (int i = 0; i < kPoints; ++i) {
      const double quantile = (i + 0.5) / kPoints,
                   drawn = u.at(only(Unknown::follow, normal_quantile(quantile))).follow;
      CHECK(drawn >= last);
      CHECK(drawn <= high + 1e-12);
      CHECK((quantile < 0.5 ? drawn <= follow : drawn >= follow));
      last = drawn;
      near_ends += drawn < low + 0.5 * (follow - low) || drawn > high - 0.5 * (high - follow);
    }
    CHECK(u.at(only(Unknown::follow, -8.0)).follow == Approx(low).margin(1e-6));
    CHECK(u.at(only(Unknown::follow, 8.0)).follow == Approx(high).margin(1e-6));
    CHECK(u.at({}).follow == follow);
    // Triangles: beyond half the way to an end lies a quarter of that side.
    if (low < follow && follow < high) CHECK(static_cast<double>(near_ends) == Approx(0.25 * kPoints).margin(2));
  }
}

TEST_CASE("a turf's shares are times and over, its width stretches them all", "[advise]") {
  const Pupil p = pupil_of_nine();
  ErrorWidths w;
  w.turf_tilt = 2.0 * kDeg;
  w.turf_restitution = 0.2;
  w.turf_rolling = 0.5;
  w.turf_grass = 1.0;
  w.turf_tilt_speed = 0.3;
  w.turf_rise_below = 0.4;
  w.turf_rise_above = 0.1;
  w.turf_friction_below = 0.6;
  for (const double width : {1.0, 2.0}) {
    Setting setting = default_setting();
    setting.turf.width = width;
    const Uncertainty u(p, setting, w);
    const auto at = [&](Unknown unknown, double z) { return u.at(only(unknown, z)).error.turf; };
    for (const double z : {-1.0, 0.5, 2.0}) {
      CAPTURE(width, z);
      CHECK(at(Unknown::turf_tilt, z).tilt == Approx(2.0 * kDeg * width * z));
      CHECK(at(Unknown::turf_restitution, z).restitution == Approx(std::pow(1.2, width * z)));
      CHECK(at(Unknown::turf_rolling, z).rolling == Approx(std::pow(1.5, width * z)));
      CHECK(at(Unknown::turf_grass, z).grass == Approx(std::pow(2.0, width * z)));
      CHECK(at(Unknown::turf_tilt_speed, z).tilt_speed == Approx(std::pow(1.3, width * z)));
    }
    CHECK(at(Unknown::turf_rise, -9.0).rise == Approx(-0.4 * width));
    CHECK(at(Unknown::turf_rise, 9.0).rise == Approx(0.1 * width));
    CHECK(at(Unknown::turf_friction, -9.0).friction == Approx(-0.6 * width));
    CHECK(at(Unknown::turf_friction, 9.0).friction == 0.0);
    CHECK(at(Unknown::turf_friction, 0.3).friction == 0.0);
  }
}

TEST_CASE("a head's shape is as uncertain as its kind, and known where it was measured", "[advise]") {
  const Pupil p = pupil_of_nine();
  ErrorWidths w;
  w.head.inertia_up = 0.2;
  w.head.depth = 0.003;
  w.head.bulge = 0.25;
  for (const double width : {0.0, 1.0, 0.5}) {
    Setting setting = default_setting();
    setting.head.width = width;
    const Uncertainty u(p, setting, w);
    for (const double z : {-1.0, 2.0}) {
      CAPTURE(width, z);
      CHECK(u.at(only(Unknown::head_inertia, z)).error.head.inertia_up == Approx(std::pow(1.2, width * z)));
      CHECK(u.at(only(Unknown::head_depth, z)).error.head.depth == Approx(0.003 * width * z));
      CHECK(u.at(only(Unknown::head_bulge, z)).error.head.bulge == Approx(std::pow(1.25, width * z)));
    }
  }
}

TEST_CASE("every unknown that moves yards belongs to one assumption, and what is one number has a value", "[advise]") {
  const Pupil p = pupil_of_nine();
  const Setting setting = default_setting();
  const ErrorWidths widths;
  const Uncertainty u(p, setting, widths);
  std::multiset<Unknown> all;
  for (const Assumption a : kAllOf<Assumption>) {
    const std::vector<Unknown> group = unknowns_of(a);
    all.insert(group.begin(), group.end());
    CAPTURE(key_of(a));
    CHECK(has_value(a) == (group.size() == 1));
  }
  CHECK(all.size() == kUnknownsOfTotal);  // a head's shape turns drives aside, and is no cause of a gain
  CHECK(std::set<Unknown>(all.begin(), all.end()).size() == kUnknownsOfTotal);
  CHECK(index_of(*all.rbegin()) == kUnknownsOfTotal - 1);
  const Circumstances now = u.at({});
  const struct {
    Assumption assumption;
    Unknown unknown;
    double taken, moved;  // at one standard deviation
  } values[] = {
      {Assumption::measured_club_speed, Unknown::measured_club_speed, 82 * kMph, 82 * kMph + 1.0 / 3.0},
      {Assumption::measured_attack, Unknown::measured_attack, -4 * kDeg, (-4 + 2.0 / 3.0) * kDeg},
      {Assumption::measured_dynamic_loft, Unknown::measured_dynamic_loft, 9.5 * kDeg, (9.5 + 2.5 / 3.0) * kDeg},
      {Assumption::drag, Unknown::drag, 1.0, 1.03},
      {Assumption::lift, Unknown::lift, 1.0, 1.06},
      {Assumption::restitution, Unknown::restitution, 0.0, 0.010},
      {Assumption::tangential_restitution, Unknown::tangential_restitution, 0.0, 0.05},
      {Assumption::speed_cost, Unknown::speed_cost, -0.1 * kMph / kDeg, 0.05 * kMph / kDeg}};
  for (const auto& v : values) {
    CAPTURE(key_of(v.assumption));
    CHECK(u.value_of(v.assumption, now) == Approx(v.taken).margin(1e-12));
    CHECK(u.value_of(v.assumption, u.at(only(v.unknown, 1.0))) == Approx(v.moved).margin(1e-12));
  }
  CHECK(u.value_of(Assumption::follow, now) == 0.85);
}

TEST_CASE("correlations of a spread or of a tuning that cannot hold together are refused", "[advise]") {
  Pupil p = pupil_of_nine();
  const Setting setting = default_setting();
  const ErrorWidths widths;
  p.spread->correlations = {{0, 1, 0.9}, {1, 2, 0.9}, {0, 2, -0.9}};
  CHECK_THROWS_WITH(Uncertainty(p, setting, widths),
                    Catch::Contains("spread: these correlations cannot all hold together"));
  p.spread->correlations = {};
  p.tuned = Tuning{{0.8, 0.1, 1.0, 1.0}, {0.01, 0.01, 0.01, 0.01}, {{0, 1, 0.9}, {1, 2, 0.9}, {0, 2, -0.9}}, 10};
  CHECK_THROWS_WITH(Uncertainty(p, setting, widths),
                    Catch::Contains("tuned: these correlations cannot all hold together"));
}

TEST_CASE("the turf is as uncertain as it was tuned, together, whatever the turf's width", "[advise]") {
  const Pupil p = tuned_on(Conditions{}.turf);
  CHECK(has_tuned_turf(p));
  Setting setting = default_setting();
  setting.turf.width = 1.5;
  const ErrorWidths widths;
  const Uncertainty u(p, setting, widths);
  for (const double z : {-2.0, 1.0}) {
    // Times or over 1.1, whatever was modelled. Bounce shares half of its deviate with drag; the rest is its own.
    const double rest = std::sqrt(1.0 - 0.25);
    CHECK(u.at(only(Unknown::turf_restitution, z)).error.turf.restitution == Approx(std::pow(1.1, rest * z)));
    CHECK(u.at(only(Unknown::drag, z)).error.turf.restitution == Approx(std::pow(1.1, 0.5 * z)));
    CHECK(u.at(only(Unknown::turf_restitution, z)).error.turf.rolling == Approx(std::pow(1.1, 0.6 / rest * z)));
    CHECK(u.at(only(Unknown::turf_rolling, z)).error.turf.restitution == 1.0);
    CHECK(u.at(only(Unknown::turf_tilt, z)).error.turf.tilt == Approx(0.1 * setting.turf.tilt * z));
    CHECK(u.at(only(Unknown::turf_tilt_speed, z)).error.turf.tilt_speed == Approx(std::pow(1.1, z)));
    CHECK(u.at(only(Unknown::turf_grass, z)).error.turf.grass ==
          Approx(std::pow(1.0 + widths.turf_grass, 1.5 * z)));  // nobody tuned that
  }
}

TEST_CASE("on another turf, or where no run was measured, it is as uncertain as any turf's", "[advise]") {
  const ErrorWidths widths;
  for (const char* turf : {"firm", ""}) {
    const Pupil p = tuned_on(turf);
    CAPTURE(turf);
    CHECK_FALSE(has_tuned_turf(p));
    for (const double width : {1.0, 1.5}) {
      Setting setting = default_setting();
      setting.turf.width = width;
      const Uncertainty u(p, setting, widths);
      for (const double z : {-2.0, 1.0}) {
        CHECK(u.at(only(Unknown::turf_restitution, z)).error.turf.restitution == Approx(std::pow(1.20, width * z)));
        CHECK(u.at(only(Unknown::turf_rolling, z)).error.turf.rolling == Approx(std::pow(1.35, width * z)));
        CHECK(u.at(only(Unknown::turf_tilt, z)).error.turf.tilt == Approx(2.5 * kDeg * width * z));
        CHECK(u.at(only(Unknown::turf_tilt_speed, z)).error.turf.tilt_speed == Approx(std::pow(1.50, width * z)));
        CHECK(u.at(only(Unknown::drag, z)).error.turf.restitution == 1.0);
        CHECK(u.at(only(Unknown::drag, z)).error.drag_scale == Approx(1.0 + 0.05 * z));
      }
    }
  }
}
