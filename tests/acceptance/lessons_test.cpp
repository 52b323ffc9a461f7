// What lessons say of a coach, against simulated truth.
#include <catch2/catch.hpp>

#include "academies.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

constexpr int kAcademies = 400;  // 76 to 84 % is then two standard deviations of a share of 80 % either way

struct Held {
  int mean = 0, between = 0;
  double off = 0.0, square = 0.0;  // standard deviates of the mean

  void add(double truth, double spread, const Pooled& p) {
    mean += truth >= p.low && truth <= p.high;
    between += spread >= p.between_low && spread <= p.between_high;
    const double z = (truth - p.mean) / p.sd;
    off += z / kAcademies;
    square += z * z / kAcademies;
  }
};

void check_held(const char* what, const Held& h) {
  CAPTURE(what, h.mean, h.between, h.off, h.square);
  CHECK(h.mean >= 0.76 * kAcademies);
  CHECK(h.mean <= 0.84 * kAcademies);
  CHECK(h.between >= 0.76 * kAcademies);
  CHECK(h.between <= 0.84 * kAcademies);
  CHECK(std::abs(h.off) < 4.0 / std::sqrt(kAcademies));  // four standard errors of so many standard deviates
  WARN(what << ": truth held " << h.mean << " of " << kAcademies << ", spread between pupils " << h.between
            << ", mean deviate " << h.off << ", mean square " << h.square);
}

Lessons found(const Coach& coach, int pupils, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  LessonsOptions options;
  options.threads = 2;
  return lessons(academy(coach, pupils, random), no_drive, options);
}

}  // namespace

TEST_CASE("pooled follow and speed cost hold the truth as often as they say", "[lessons]") {
  std::mt19937_64 random(20261126);
  Held follow, speed;
  LessonsOptions options;
  options.threads = 2;
  for (int i = 0; i < kAcademies; ++i) {
    const Coach coach = any_coach(random);
    const Academy a = lessons(academy(coach, 4 + i % 8, random), no_drive, options).academy;
    follow.add(coach.follow, coach.follow_between, a.follow);
    speed.add(coach.speed_cost, coach.speed_between, a.speed_per_attack);
  }
  check_held("follow", follow);
  check_held("speed cost", speed);
}

TEST_CASE("three pupils hardly move what the literature says, thirty put their own in its place", "[lessons]") {
  Coach coach;
  coach.follow = 0.5;  // three standard deviations of the literature's mean below it
  coach.speed_cost = -0.12 / kDeg;
  double few = 0.0, many = 0.0, few_speed = 0.0, many_speed = 0.0;
  constexpr int kTimes = 12;
  for (std::uint64_t i = 0; i < kTimes; ++i) {
    const Academy three = found(coach, 3, 100 + i).academy, thirty = found(coach, 30, 200 + i).academy;
    few += three.follow.mean / kTimes;
    many += thirty.follow.mean / kTimes;
    few_speed += three.speed_per_attack.mean * kDeg / kTimes;
    many_speed += thirty.speed_per_attack.mean * kDeg / kTimes;
  }
  const auto way = [](double from, double to, double at) { return (at - from) / (to - from); };
  CAPTURE(few, many, few_speed, many_speed);
  CHECK(way(kUsualFollow, coach.follow, few) < 1.0 / 3.0);
  CHECK(way(kUsualFollow, coach.follow, many) > 0.75);
  CHECK(way(0.0, coach.speed_cost * kDeg, few_speed) < 1.0 / 3.0);
  CHECK(way(0.0, coach.speed_cost * kDeg, many_speed) > 0.75);
  WARN("follow of 0.50: three pupils " << few << ", thirty " << many
                                       << "; speed cost of -0.12 m/s a degree: " << few_speed << ", " << many_speed);
}

TEST_CASE("the spread between pupils is recovered", "[lessons]") {
  for (const double spread : {0.0, 0.2}) {
    Coach coach;
    coach.follow_between = spread;
    coach.attack_by_session = 4.0 * kDeg;
    double mean = 0.0;
    constexpr int kTimes = 6;
    for (std::uint64_t i = 0; i < kTimes; ++i) mean += found(coach, 50, 300 + i).academy.follow.between_sd / kTimes;
    CAPTURE(spread, mean);
    // Root of the mean square of what is believed: a spread of nothing is never quite believed.
    CHECK(mean > 0.85 * spread);
    CHECK(mean < spread + 0.06);
  }
}

TEST_CASE("follow is not attenuated by what is measured badly", "[lessons]") {
  // Small changes of attack, as large as the errors of a session's mean: a plain regression would find half of it.
  Coach coach;
  coach.follow_between = 0.02;
  coach.attack_by_session = 0.5 * kDeg;
  coach.loft_by_day = 0.1 * kDeg;
  LessonsOptions wide;  // the literature held back, or it would hide a bias
  wide.widths.follow_below = wide.widths.follow_above = 3.0;
  wide.threads = 2;
  std::mt19937_64 random(5);
  double mean = 0.0, sd = 0.0;
  constexpr int kTimes = 12;
  for (int i = 0; i < kTimes; ++i) {
    const Pooled p = lessons(academy(coach, 60, random), no_drive, wide).academy.follow;
    mean += p.mean / kTimes;
    sd += p.sd / kTimes;
  }
  CAPTURE(mean, sd);
  CHECK(std::abs(mean - coach.follow) < 4.0 * sd / std::sqrt(kTimes));
}
