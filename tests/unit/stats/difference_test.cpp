#include "loftwright/stats/detail/difference.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

using namespace loftwright;

namespace {

// Hours of sleep gained under two drugs: Student, Biometrika 6 (1908) 1 (data from memory).
const std::vector<double> kSleep1{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
const std::vector<double> kSleep2{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};

Summary spread_of(double sd, std::size_t count) { return {count, 0.0, sd, sd / std::sqrt(static_cast<double>(count))}; }

}  // namespace

// Welch's test of Student's data as R's documentation of t.test prints it (from memory):
// t = -1.8608, df = 17.776, p-value = 0.07939, 95 percent interval -3.3654832 .. 0.2054832 for the first less the
// second.
TEST_CASE("Welch's test of Student's sleep data", "[stats]") {
  const WelchTest test = welch(summarise(kSleep2), summarise(kSleep1));
  CHECK(std::abs(test.difference - -1.58) < 1e-12);  // rounding
  CHECK(std::abs(test.t - -1.8608) < 5e-5);          // half a unit of the last printed digit, and so below
  CHECK(std::abs(test.degrees_of_freedom - 17.776) < 5e-4);
  CHECK(std::abs(test.p - 0.07939) < 5e-6);
  CHECK(std::abs(test.low - -3.3654832) < 5e-8);
  CHECK(std::abs(test.high - 0.2054832) < 5e-8);
}

// Efron & Tibshirani, An Introduction to the Bootstrap, 1993, table 2.1: survival of treated and control mice. They
// give the difference of means as 30.63 with standard error 28.93 (from memory; the data give 28.936).
TEST_CASE("standard error of the mouse data's difference", "[stats]") {
  const std::vector<double> treated{94, 197, 16, 38, 99, 141, 23}, control{52, 104, 146, 10, 51, 30, 40, 27, 46};
  const WelchTest test = welch(summarise(control), summarise(treated));
  CHECK(std::abs(test.difference - 30.63) < 0.005 + 1e-9);
  CHECK(std::abs(test.standard_error - 28.93) < 0.01);  // theirs is cut, not rounded
}

TEST_CASE("Welch's test turns with the samples and narrows with confidence", "[stats]") {
  const Summary a = summarise(kSleep1), b = summarise(kSleep2);
  const WelchTest ab = welch(a, b), ba = welch(b, a), narrow = welch(a, b, 0.8);
  CHECK(ab.difference == -ba.difference);
  CHECK(ab.low == -ba.high);
  CHECK(ab.p == ba.p);
  CHECK(narrow.low > ab.low);
  CHECK(narrow.high < ab.high);
  // The interval at confidence 1 - p ends at zero.
  CHECK(std::abs(welch(a, b, 1.0 - ab.p).low) < 1e-9);
}

TEST_CASE("what cannot be tested is refused", "[stats]") {
  const Summary one = summarise(std::vector{1.0}), flat = summarise(std::vector{2.0, 2.0}), ok = summarise(kSleep1);
  CHECK_THROWS_AS(welch(one, ok), InputError);
  CHECK_THROWS_AS(welch(ok, Summary{}), InputError);
  CHECK_THROWS_AS(welch(flat, flat), InputError);
  CHECK_NOTHROW(welch(flat, ok));
  CHECK_THROWS_AS(welch(ok, ok, 1.0), InputError);
  CHECK_THROWS_AS(welch_power(1.0, one, ok), InputError);
  CHECK_THROWS_AS(hedges_g(flat, flat), InputError);
  CHECK_THROWS_AS(bootstrap_difference(std::vector{1.0}, kSleep1), InputError);
  CHECK_THROWS_AS(bootstrap_difference(kSleep1, kSleep2, {.resamples = 10}), InputError);
  CHECK_THROWS_AS(holm(std::vector{0.5, 1.5}), InputError);
}

TEST_CASE("Hedges' g is the standardised difference, made smaller for small samples", "[stats]") {
  const Summary a = summarise(std::vector<double>{1, 2, 3}), b = summarise(std::vector<double>{3, 4, 5});
  // d = 2, four degrees of freedom: J = gamma(2) / (sqrt(2) gamma(3/2)) = 1 / (sqrt(2) sqrt(pi) / 2)
  CHECK(std::abs(hedges_g(a, b) - 2.0 * 2.0 / std::sqrt(2.0 * std::acos(-1.0))) < 1e-14);  // rounding
  CHECK(hedges_g(b, a) == -hedges_g(a, b));
}

// Cohen, Statistical Power Analysis for the Behavioral Sciences, 2nd ed. 1988, table 2.4.1 (from memory): 64 a group
// find a difference of half a standard deviation 80 % of the time at the two-sided 5 % level, 26 one of 0.8.
TEST_CASE("Cohen's sample sizes", "[stats]") {
  const auto needed = [](double difference) {
    return *values_needed(difference, spread_of(1.0, 2), spread_of(1.0, 2)).each + 2;
  };
  CHECK(needed(0.5) == 64);
  CHECK(needed(0.8) == 26);
}

TEST_CASE("power is the level of the test for no difference, and grows", "[stats]") {
  const Summary a = spread_of(1.0, 10), b = spread_of(2.5, 7);
  CHECK(std::abs(welch_power(0.0, a, b, 0.95) - 0.05) < 1e-9);
  double last = 0.0;
  for (double difference = 0.0; difference < 1e6; difference = 1.7 * difference + 0.1) {
    const double power = welch_power(difference, a, b);
    INFO("difference " << difference << ", power " << power << " after " << last);
    CHECK(power >= last);
    CHECK(power <= 1.0);
    CHECK(power == welch_power(-difference, a, b));
    last = power;
  }
  CHECK(last > 1.0 - 1e-12);
  // Across the change of form far out, where one degree of freedom makes doubt last longest.
  const Summary two = spread_of(1.0, 2), still = spread_of(0.0, 2);
  const double here = welch_power(9999.0 / std::sqrt(2.0), two, still, 0.9999);
  CHECK(std::abs(here - welch_power(10001.0 / std::sqrt(2.0), two, still, 0.9999)) < 1e-4);
  CHECK(std::abs(here - 0.8837) < 0.01);  // 2 Phi(9999/6366) - 1
}

TEST_CASE("the power promised is the power had", "[stats]") {
  // Simulated experiments of unequal scatter: no outside numbers needed, only the test itself.
  const Summary a = spread_of(3.0, 12), b = spread_of(5.0, 18);
  const double promised = welch_power(4.0, a, b);
  std::mt19937_64 random(11);
  std::normal_distribution<double> before(0.0, 3.0), after(4.0, 5.0);
  int found = 0;
  constexpr int kRounds = 20000;
  for (int round = 0; round < kRounds; ++round) {
    std::vector<double> x(a.count), y(b.count);
    for (double& v : x) v = before(random);
    for (double& v : y) v = after(random);
    if (welch(summarise(x), summarise(y)).p < 0.05) ++found;
  }
  INFO("promised " << promised << ", had " << static_cast<double>(found) / kRounds);
  CHECK(std::abs(static_cast<double>(found) / kRounds - promised) < 0.011);  // 3 standard errors of 20 000 trials
}

TEST_CASE("how many more values: enough, and one fewer is not", "[stats]") {
  Summary a = spread_of(3.0, 12), b = spread_of(5.0, 9);
  const MoreValues more = values_needed(3.0, a, b);
  REQUIRE(more.after.has_value());
  REQUIRE(more.each.has_value());
  CHECK(*more.after >= *more.each);
  const auto power = [&](std::size_t added_before, std::size_t added_after) {
    return welch_power(3.0, spread_of(3.0, a.count + added_before), spread_of(5.0, b.count + added_after));
  };
  CHECK(power(0, *more.after) >= 0.8);
  CHECK(power(0, *more.after - 1) < 0.8);
  CHECK(power(*more.each, *more.each) >= 0.8);
  CHECK(power(*more.each - 1, *more.each - 1) < 0.8);

  CHECK(*values_needed(100.0, a, b).after == 0);
  CHECK_FALSE(values_needed(2.0, a, b).after.has_value());  // the sample before alone leaves too much doubt
  CHECK(values_needed(2.0, a, b).each.has_value());
  CHECK_FALSE(values_needed(0.0, a, b).each.has_value());
}

TEST_CASE("Holm's correction, worked by hand", "[stats]") {
  // Sorted: 0.005*4, 0.01*3, 0.03*2, 0.04*1, each at least the one before.
  const std::vector<double> expected{0.03, 0.06, 0.06, 0.02};
  const std::vector<double> adjusted = holm(std::vector{0.01, 0.04, 0.03, 0.005});
  for (std::size_t i = 0; i < expected.size(); ++i) CHECK(std::abs(adjusted[i] - expected[i]) < 1e-15);
  CHECK(holm(std::vector{0.9, 0.8}) == std::vector{1.0, 1.0});
  CHECK(holm({}).empty());
}

TEST_CASE("a bootstrap repeats with its seed and moves with another", "[stats]") {
  const BootstrapInterval a = bootstrap_difference(kSleep1, kSleep2, {.seed = 5});
  const BootstrapInterval b = bootstrap_difference(kSleep1, kSleep2, {.seed = 5});
  const BootstrapInterval c = bootstrap_difference(kSleep1, kSleep2, {.seed = 6});
  CHECK(a.low == b.low);
  CHECK(a.high == b.high);
  CHECK(a.low != c.low);
  CHECK(a.low < a.high);
}

TEST_CASE("a bootstrap of one in four, worked by hand", "[stats]") {
  // The resampled mean is binomial: 0 in 0.3164 of all, 0.25 in 0.4219, 0.5 in 0.2109. Bias: Phi^-1(0.3164 + 0.4219 /
  // 2) = 0.0686; acceleration 0.0962; so at 70 % the ends are cut at 0.207 and 0.904, where percentiles are at 0.15 and
  // 0.85.
  const std::vector<double> never{0, 0}, once{0, 0, 0, 1};
  const BootstrapInterval i = bootstrap_difference(never, once, {.confidence = 0.7, .resamples = 400000});
  CHECK(i.low == 0.0);
  CHECK(i.high == 0.5);
  CHECK(i.percentile_low == 0.0);
  CHECK(i.percentile_high == 0.5);
  // At 82 % the upper cut is 0.955 with the acceleration, 0.930 without; up to 0.5 lie 0.9492.
  CHECK(bootstrap_difference(never, once, {.confidence = 0.82, .resamples = 400000}).high == 0.75);
  // Up to 0.5 lie 0.9492 of all, five standard errors of their count more than 0.9475 and less than 0.951.
  CHECK(bootstrap_difference(never, once, {.confidence = 0.895, .resamples = 400000}).percentile_high == 0.5);
  CHECK(bootstrap_difference(never, once, {.confidence = 0.902, .resamples = 400000}).percentile_high == 0.75);
  // The other way round everything is mirrored.
  const BootstrapInterval m = bootstrap_difference(once, never, {.confidence = 0.82, .resamples = 400000});
  CHECK(m.low == -0.75);
  CHECK(m.high == 0.0);
}

TEST_CASE("a bootstrap interval holds the truth about as often as it says", "[stats]") {
  // Skew samples, where the t interval is at its weakest. 400 rounds: standard error 1.1 %.
  std::mt19937_64 random(3);
  std::exponential_distribution<double> before(1.0), after(0.5);
  int held = 0;
  constexpr int kRounds = 400;
  for (int round = 0; round < kRounds; ++round) {
    std::vector<double> x(40), y(40);
    for (double& v : x) v = before(random);
    for (double& v : y) v = after(random);
    const BootstrapInterval interval =
        bootstrap_difference(x, y, {.resamples = 1000, .seed = static_cast<unsigned>(round)});
    if (interval.low <= 1.0 && 1.0 <= interval.high) ++held;
  }
  INFO("held " << held << " of " << kRounds);
  CHECK(held >=
        0.91 * kRounds);  // 95 % less the 1 to 2 % a bootstrap of 40 skew values is known to fall short, less 2 se
  CHECK(held <= 0.985 * kRounds);
}

TEST_CASE("a resample repeats with its seed and number, and every value is drawn as often", "[stats]") {
  CHECK(resample(20, 1, 2) == resample(20, 1, 2));
  CHECK(resample(20, 1, 2) != resample(20, 1, 3));
  CHECK(resample(20, 1, 2) != resample(20, 2, 2));
  CHECK(resample(1, 5, 0) == std::vector<std::size_t>{0});
  std::vector<int> drawn(10);
  for (std::uint64_t number = 0; number < 1000; ++number) {
    for (const std::size_t i : resample(10, 1, number)) ++drawn.at(i);
  }
  for (const int times : drawn) CHECK(std::abs(times - 1000) < 5 * 30);  // binomial: standard deviation 30
}

TEST_CASE("the tail to cut off shrinks for small samples", "[stats]") {
  CHECK(std::abs(expanded_tail(0.95, 1000000, 1000000) - 0.025) < 1e-6);
  CHECK(expanded_tail(0.95, 10, 12) < 0.025);
  CHECK(expanded_tail(0.95, 5, 12) < expanded_tail(0.95, 10, 12));
  CHECK(expanded_tail(0.95, 1, 12) == 0.0);
  CHECK_THROWS_WITH(expanded_tail(0.2, 10, 10), Catch::Matchers::Contains("confidence"));
}

TEST_CASE("the tail to cut off, by Student's t from a table", "[stats]") {
  // t tables, two-sided 95 %: 2.228139 with 10 degrees of freedom, 2.178813 with 12; 80 %: 1.372184 with 10.
  const auto below = [](double z) { return 0.5 * std::erfc(z / std::sqrt(2.0)); };
  CHECK(expanded_tail(0.95, 6, 6) == Approx(below(2.228139 * std::sqrt(6.0 / 5.0))).epsilon(1e-5));
  CHECK(expanded_tail(0.95, 9, 5) == Approx(below(2.178813 * std::sqrt(5.0 / 4.0))).epsilon(1e-5));
  CHECK(expanded_tail(0.95, 5, 9) == Approx(expanded_tail(0.95, 9, 5)));
  CHECK(expanded_tail(0.8, 6, 6) == Approx(below(1.372184 * std::sqrt(6.0 / 5.0))).epsilon(1e-5));
  CHECK(expanded_tail(0.95, 2, 2) > 0.0);
  CHECK(expanded_tail(0.95, 12, 1) == 0.0);
}

TEST_CASE("Hedges' g of samples of two sizes, by hand", "[stats]") {
  // Sums of squares: of {0, 2, 4} 8 with 2 degrees of freedom; of {5, 6, 7, 8, 9}: 10 with 4. Pooled variance 18 / 6.
  // J(6) = gamma(3) / (sqrt(3) gamma(5/2)), gamma(5/2) = 3 sqrt(pi) / 4.
  const Summary a = summarise(std::vector<double>{0, 2, 4}), b = summarise(std::vector<double>{5, 6, 7, 8, 9});
  const double j = 2.0 / (std::sqrt(3.0) * 0.75 * std::sqrt(std::acos(-1.0)));
  CHECK(hedges_g(a, b) == Approx(5.0 / std::sqrt(3.0) * j).epsilon(1e-13));
}

TEST_CASE("an interval is as wide as Student's t says", "[stats]") {
  // Two samples of six, each of variance 1: standard error sqrt(1 / 3), ten degrees of freedom; t from a
  // table: 2.228139, 1.372184.
  const Summary a{6, 10.0, 1.0, 1.0 / std::sqrt(6.0)}, b{6, 12.0, 1.0, 1.0 / std::sqrt(6.0)};
  const WelchTest t = welch(a, b), narrow = welch(a, b, 0.8);
  CHECK(t.standard_error == Approx(std::sqrt(1.0 / 3.0)));
  CHECK(t.degrees_of_freedom == Approx(10.0));
  CHECK(t.low == Approx(2.0 - 2.228139 * std::sqrt(1.0 / 3.0)).margin(1e-6));
  CHECK(t.high == Approx(2.0 + 2.228139 * std::sqrt(1.0 / 3.0)).margin(1e-6));
  CHECK(narrow.high == Approx(2.0 + 1.372184 * std::sqrt(1.0 / 3.0)).margin(1e-6));
  CHECK(welch(a, a).p == 1.0);
}

TEST_CASE("what is asked of a comparison is refused at either end of what is allowed", "[stats]") {
  const Summary a = summarise(kSleep1), b = summarise(kSleep2);
  for (const double low : {0.49, 0.99995}) {
    const std::string said =
        low < 0.9 ? "confidence is 0.49; allowed: 0.5 to 0.9999" : "confidence is 0.99995; allowed: 0.5 to 0.9999";
    CHECK_THROWS_WITH(welch(a, b, low), said);
    CHECK_THROWS_WITH(welch_power(1.0, a, b, low), said);
    CHECK_THROWS_WITH(bootstrap_difference(kSleep1, kSleep2, {.confidence = low}), said);
  }
  CHECK_THROWS_WITH(values_needed(1.0, a, b, 0.95, 0.04), "power is 0.04; allowed: 0.05 to 0.999");
  CHECK_THROWS_WITH(values_needed(1.0, a, b, 0.95, 0.9995), "power is 0.9995; allowed: 0.05 to 0.999");
  CHECK_THROWS_WITH(holm(std::vector{-0.1}), "p is -0.1; allowed: 0 to 1");
  CHECK_THROWS_WITH(holm(std::vector{1.05}), "p is 1.05; allowed: 0 to 1");
  CHECK(holm(std::vector{0.0, 1.0}) == std::vector{0.0, 1.0});
  CHECK_NOTHROW(welch(a, b, 0.5));
  CHECK_NOTHROW(welch(a, b, 0.9999));
  CHECK_THROWS_AS(bootstrap_difference(kSleep1, kSleep2, {.resamples = 99}), InputError);
  CHECK_NOTHROW(bootstrap_difference(kSleep1, kSleep2, {.resamples = 100}));
  CHECK_THROWS_AS(bootstrap_difference(kSleep1, kSleep2, {.resamples = 10'000'001}), InputError);
}

TEST_CASE("a bootstrap's ends agree with theory where theory is known", "[stats]") {
  // Many values, hardly skew: percentiles are the difference and 1.959964 standard errors, those of resamples, whose
  // variance is (n - 1) / n of the sample's.
  std::vector<double> before, after;
  for (int i = 0; i < 200; ++i) before.push_back(std::sin(i)), after.push_back(3.0 + 2.0 * std::cos(1.7 * i));
  const Summary a = summarise(before), b = summarise(after);
  const double se = std::sqrt(199.0 / 200.0 * (a.sd * a.sd + b.sd * b.sd) / 200.0), middle = b.mean - a.mean;
  const BootstrapInterval i = bootstrap_difference(before, after, {.resamples = 100000});
  const double near = 0.04 * se;  // five standard errors of a 2.5 % point of 100,000 draws
  CHECK(i.percentile_low == Approx(middle - 1.959964 * se).margin(near));
  CHECK(i.percentile_high == Approx(middle + 1.959964 * se).margin(near));
  CHECK(i.low == Approx(middle - 1.959964 * se).margin(2.0 * near));
  CHECK(i.high == Approx(middle + 1.959964 * se).margin(2.0 * near));
}

TEST_CASE("samples alike need no acceleration, however skew they are", "[stats]") {
  const std::vector<double> skew{0.1, 0.25, 0.43, 0.7, 1.1, 1.9, 4.0, 9.0};
  const BootstrapInterval i = bootstrap_difference(skew, skew, {.resamples = 400000});
  // The difference's standard error is 1.4; one end of 400,000 draws is known to 0.006 and its bias correction to as
  // much.
  CHECK(std::abs(i.low - i.percentile_low) < 0.02);
  CHECK(std::abs(i.high - i.percentile_high) < 0.02);
}
