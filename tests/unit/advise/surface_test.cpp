// The surface gains are read off, against quadratics written out by hand: terms, shares of variance, what is expected
// when some is known. Its terms are Hermite's polynomials, orthonormal under standard normal coordinates (from memory:
// Abramowitz & Stegun, Handbook of Mathematical Functions, 22.2).
#include "advise/surface.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <numeric>
#include <random>

#include "stats/quasi.hpp"
#include "truth.hpp"

using namespace loftwright;
using namespace loftwright::test;

namespace {

using Values = std::vector<float>;
using Place = std::vector<double>;

SurfacePoints even_points(std::size_t count, std::size_t dimensions) {
  const std::vector<double> sobol = sobol_points(count, dimensions, 3);
  SurfacePoints points(count, dimensions);
  for (std::size_t n = 0; n < count; ++n) {
    for (std::size_t i = 0; i < dimensions; ++i) {
      points.of(n / SurfacePoints::kBlock, i)[n % SurfacePoints::kBlock] =
          static_cast<float>(normal_quantile(sobol[n * dimensions + i]));
    }
  }
  return points;
}

Place place(const SurfacePoints& points, std::size_t n) {
  Place t(points.dimensions());
  for (std::size_t i = 0; i < t.size(); ++i)
    t[i] = static_cast<double>(points.of(n / SurfacePoints::kBlock, i)[n % SurfacePoints::kBlock]);
  return t;
}

Values values_of(const SurfacePoints& points, const std::function<double(const Place&)>& f) {
  Values values;
  for (std::size_t n = 0; n < points.count(); ++n) values.push_back(static_cast<float>(f(place(points, n))));
  return values;
}

struct Fitted {
  GainSurface surface;
  Values at_points;
};

Fitted fitted(const SurfacePoints& points, const Values& values, int threads = 1) {
  std::vector<Values> at_points;
  const std::vector<Values> all{values};
  std::vector<GainSurface> surfaces = GainSurface::fit(points, all, threads, at_points);
  return {std::move(surfaces.at(0)), std::move(at_points.at(0))};
}

// A quadratic of d coordinates by its terms.
struct Quadratic {
  double mean = 0.0;
  std::vector<double> linear, squared;
  std::vector<std::vector<double>> product;  // [i][j], i < j

  explicit Quadratic(std::size_t d) : linear(d), squared(d), product(d, std::vector<double>(d)) {}
  double operator()(const Place& t) const {
    double y = mean;
    for (std::size_t i = 0; i < t.size(); ++i) {
      y += linear[i] * t[i] + squared[i] * (t[i] * t[i] - 1.0) / std::sqrt(2.0);
      for (std::size_t j = i + 1; j < t.size(); ++j) y += product[i][j] * t[i] * t[j];
    }
    return y;
  }
};

Quadratic random_quadratic(std::size_t d, std::mt19937& random) {
  std::normal_distribution<double> normal;
  Quadratic q(d);
  q.mean = 10.0 * normal(random);
  for (std::size_t i = 0; i < d; ++i) {
    q.linear[i] = normal(random);
    q.squared[i] = normal(random);
    for (std::size_t j = i + 1; j < d; ++j) q.product[i][j] = normal(random);
  }
  return q;
}

void check_terms(const GainSurface& s, const Quadratic& q, double margin) {
  CHECK(s.mean() == Approx(q.mean).margin(margin));
  for (std::size_t i = 0; i < s.dimensions(); ++i) {
    CAPTURE(i);
    CHECK(s.linear(i) == Approx(q.linear[i]).margin(margin));
    CHECK(s.squared(i) == Approx(q.squared[i]).margin(margin));
    for (std::size_t j = i + 1; j < s.dimensions(); ++j) {
      CAPTURE(j);
      CHECK(s.product(i, j) == Approx(q.product[i][j]).margin(margin));
    }
  }
}

}  // namespace

TEST_CASE("a quadratic is found again, term by term and value by value", "[advise]") {
  std::mt19937 random(1);
  for (const std::size_t d : {1u, 2u, 5u, 9u}) {
    const SurfacePoints points = even_points(8192, d);
    const Quadratic q = random_quadratic(d, random);
    const Values values = values_of(points, q);
    const Fitted f = fitted(points, values);
    CAPTURE(d);
    REQUIRE(f.surface.dimensions() == d);
    check_terms(f.surface, q, 2e-3);  // values are floats of some ten, sums of eight thousand; four steps of the solver
    for (std::size_t n = 0; n < values.size(); n += 97) CHECK(f.at_points[n] == Approx(values[n]).margin(0.02));
    CHECK(f.surface.misfit() < 5e-3);
  }
}

TEST_CASE("each term alone is itself, and has a variance of one", "[advise]") {
  constexpr std::size_t kD = 4;
  const SurfacePoints points = even_points(16384, kD);
  const auto alone = [&](const std::function<void(Quadratic&)>& set) {
    Quadratic q(kD);
    set(q);
    const Values values = values_of(points, q);
    const Fitted f = fitted(points, values);
    check_terms(f.surface, q, 1e-3);
    CHECK(f.surface.variance() == Approx(1.0).margin(2e-3));
    double square = 0.0;  // and so have the values: the term is of unit length
    for (const float v : values) square += static_cast<double>(v) * v / static_cast<double>(values.size());
    CHECK(square == Approx(1.0).margin(0.02));  // sixteen thousand points of a heavy-tailed square
  };
  for (std::size_t i = 0; i < kD; ++i) {
    alone([i](Quadratic& q) { q.linear[i] = 1.0; });
    alone([i](Quadratic& q) { q.squared[i] = 1.0; });
    for (std::size_t j = i + 1; j < kD; ++j) alone([i, j](Quadratic& q) { q.product[i][j] = 1.0; });
  }
}

TEST_CASE("shares of the variance are squares of terms", "[advise]") {
  const SurfacePoints points = even_points(8192, 3);
  Quadratic q(3);
  q.mean = 100.0;  // no part of the variance
  q.linear = {3.0, 1.0, 0.0};
  q.squared = {0.0, 2.0, 1.0};
  q.product[0][1] = 2.0;
  q.product[1][2] = 1.0;
  const GainSurface s = fitted(points, values_of(points, q)).surface;
  // 9 + 1 + 4 + 1 + 4 + 1 = 20.
  CHECK(s.variance() == Approx(20.0).epsilon(1e-3));
  const auto share = [&](std::vector<std::size_t> group, double alone, double total) {
    CAPTURE(group);
    CHECK(s.share(group).alone == Approx(alone).margin(1e-3));
    CHECK(s.share(group).total == Approx(total).margin(1e-3));
  };
  share({}, 0.0, 0.0);
  share({0}, 9.0 / 20, 13.0 / 20);
  share({1}, 5.0 / 20, 10.0 / 20);
  share({2}, 1.0 / 20, 2.0 / 20);
  share({0, 1}, 18.0 / 20, 19.0 / 20);
  share({0, 2}, 10.0 / 20, 15.0 / 20);
  share({2, 1}, 7.0 / 20, 11.0 / 20);
  share({0, 1, 2}, 1.0, 1.0);
  const GainSurface flat = fitted(points, Values(8192, 7.0f)).surface;
  CHECK(flat.mean() == Approx(7.0).margin(1e-4));
  CHECK(flat.share(std::vector<std::size_t>{0}).total <= 1.0);  // of rounding, if of anything
}

TEST_CASE("a share's first-order part is what knowing a coordinate takes off the variance", "[advise]") {
  // Sobol's definition: the variance of what is expected once the group is known, over the whole variance.
  std::mt19937 random(4);
  const SurfacePoints points = even_points(8192, 4);
  const Quadratic q = random_quadratic(4, random);
  const GainSurface s = fitted(points, values_of(points, q)).surface;
  for (std::size_t i = 0; i < 4; ++i) {
    const std::vector<std::size_t> group{i};
    const auto given = [&](double z) { return s.given(group, std::vector{z}); };
    const double mean = mean_over_normal(given),
                 square = mean_over_normal([&](double z) { return given(z) * given(z); });
    CHECK(mean == Approx(s.mean()).margin(2e-3));
    CHECK((square - mean * mean) / s.variance() == Approx(s.share(group).alone).margin(2e-3));
  }
}

TEST_CASE("shares stay between nothing and all and add up, whatever the values", "[advise]") {
  std::mt19937 random(5);
  std::normal_distribution<double> normal;
  for (int i = 0; i < 40; ++i) {
    const std::size_t d = 1 + static_cast<std::size_t>(i) % 8;
    const SurfacePoints points = even_points(512, d);
    Quadratic q = random_quadratic(d, random);
    if (i % 3 == 0) q = Quadratic(d);  // noise alone
    const GainSurface s =
        fitted(points, values_of(points, [&](const Place& t) { return q(t) + 10.0 * normal(random) + std::exp(t[0]); }))
            .surface;
    if (s.variance() == 0.0) {  // nothing is told from the noise
      for (std::size_t k = 0; k < d; ++k) CHECK(s.share(std::vector{k}).total == 0.0);
      continue;
    }
    double alone = 0.0;
    for (std::size_t k = 0; k < d; ++k) {
      const GainSurface::Share share = s.share(std::vector{k});
      CAPTURE(i, d, k, share.alone, share.total);
      CHECK(share.alone >= 0.0);
      CHECK(share.alone <= share.total);
      CHECK(share.total <= 1.0 + 1e-12);
      alone += share.alone;
      // What a group has no part in is the others' alone.
      std::vector<std::size_t> others;
      for (std::size_t j = 0; j < d; ++j) {
        if (j != k) others.push_back(j);
      }
      CHECK(share.total + s.share(others).alone ==
            Approx(s.variance() > 0.0 ? 1.0 : 0.0).margin(1e-9));  // noise alone leaves none
    }
    CHECK(alone <= 1.0 + 1e-12);
  }
}

TEST_CASE("what is expected when some is known is the mean over the rest", "[advise]") {
  std::mt19937 random(6);
  const SurfacePoints points = even_points(8192, 3);
  const Quadratic q = random_quadratic(3, random);
  const GainSurface s = fitted(points, values_of(points, q)).surface;
  const std::vector<std::size_t> none, first{0}, all{2, 0, 1};
  CHECK(s.given(none, {}) == s.mean());
  for (const double z : {-2.0, -0.5, 0.0, 1.3}) {
    CAPTURE(z);
    // The others' own terms average out.
    const double by_hand = q.mean + q.linear[0] * z + q.squared[0] * (z * z - 1.0) / std::sqrt(2.0);
    CHECK(s.given(first, std::vector{z}) == Approx(by_hand).margin(5e-3));
    CHECK(s.given(all, std::vector{0.7, z, -1.1}) == Approx(q({z, -1.1, 0.7})).margin(0.01));
    // Known to a part of its width: the rest of it stays open.
    for (const double shrink : {0.0, 0.4, 0.9, 1.0}) {
      CAPTURE(shrink);
      const double open = std::sqrt(1.0 - shrink * shrink);
      const double mean = mean_over_normal([&](double rest) {
        const double t = shrink * z + open * rest;
        return q.mean + q.linear[0] * t + q.squared[0] * (t * t - 1.0) / std::sqrt(2.0);
      });
      CHECK(s.given(first, std::vector{z}, shrink) == Approx(mean).margin(5e-3));
      const std::vector<std::size_t> two{0, 1};
      const double together = mean_over_normal(
          [&](double rest0) {
            return mean_over_normal(
                [&](double rest1) {
                  return s.given(two, std::vector{shrink * z + open * rest0, shrink * 0.7 + open * rest1});
                },
                100);
          },
          100);
      CHECK(s.given(two, std::vector{z, 0.7}, shrink) == Approx(together).margin(0.1));  // a hundred points of a square
    }
  }
}

TEST_CASE("the difference of two surfaces is the surface of the difference", "[advise]") {
  std::mt19937 random(7);
  const SurfacePoints points = even_points(4096, 3);
  const Quadratic a = random_quadratic(3, random), b = random_quadratic(3, random);
  const GainSurface difference =
      fitted(points, values_of(points, a)).surface.minus(fitted(points, values_of(points, b)).surface);
  const GainSurface direct = fitted(points, values_of(points, [&](const Place& t) { return a(t) - b(t); })).surface;
  CHECK(difference.mean() == Approx(direct.mean()).margin(2e-3));
  CHECK(difference.variance() == Approx(direct.variance()).epsilon(2e-3));
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(difference.share(std::vector{i}).alone == Approx(direct.share(std::vector{i}).alone).margin(2e-3));
    CHECK(difference.share(std::vector{i}).total == Approx(direct.share(std::vector{i}).total).margin(2e-3));
  }
}

TEST_CASE("what a cubic along the surface's own value adds is bent in", "[advise]") {
  constexpr std::size_t kD = 3;
  const SurfacePoints points = even_points(16384, kD);
  const auto along = [](const Place& t) {
    return 0.6 * t[0] - 0.48 * t[1] + 0.64 * t[2];
  };  // a standard normal deviate
  const auto cubic = [&](const Place& t) {
    const double v = along(t);
    return 5.0 + 2.0 * v + 0.3 * v * v * v;
  };
  const Values values = values_of(points, cubic);
  const Fitted f = fitted(points, values);
  // v^3 is He3 + 3 v: the quadratic has 2.9 v and misses 0.3 He3, up to 5 at three standard deviations.
  CHECK(f.surface.linear(0) == Approx(0.6 * 2.9).margin(0.02));
  double worst = 0.0, plain = 0.0;
  for (std::size_t n = 0; n < values.size(); ++n) {
    const double v = along(place(points, n));
    if (std::abs(v) > 3.0) continue;
    worst = std::max(worst, std::abs(static_cast<double>(values[n]) - f.at_points[n]));
    plain = std::max(plain, std::abs(values[n] - (5.0 + 2.9 * v)));
  }
  CAPTURE(worst, plain);
  CHECK(plain > 4.0);
  CHECK(worst < 0.25);
  CHECK(f.surface.misfit() < 0.03);
}

TEST_CASE("the misfit is what is left on average in the tenth where most is left", "[advise]") {
  const SurfacePoints points = even_points(16384, 2);
  // A kink: neither a quadratic nor its bend follows.
  const Values values = values_of(points, [](const Place& t) { return 0.2 * t[1] + 10.0 * std::max(0.0, t[0] - 1.0); });
  const Fitted f = fitted(points, values);
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::sort(order, {}, [&](std::size_t n) { return f.at_points[n]; });
  double worst = 0.0;
  for (std::size_t part = 0; part < 10; ++part) {
    double left = 0.0;
    const std::size_t from = part * order.size() / 10, to = (part + 1) * order.size() / 10;
    for (std::size_t k = from; k < to; ++k) left += static_cast<double>(values[order[k]]) - f.at_points[order[k]];
    worst = std::max(worst, std::abs(left) / static_cast<double>(to - from));
  }
  CAPTURE(worst, f.surface.misfit());
  CHECK(worst > 0.2);
  CHECK(f.surface.misfit() == Approx(worst).epsilon(0.05));  // less what chance brings
}

TEST_CASE("noise does not become terms, and hides none that are told from it", "[advise]") {
  constexpr std::size_t kD = 14, kCount = 8192;
  const SurfacePoints points = even_points(kCount, kD);
  std::mt19937_64 random(9);
  std::normal_distribution<double> normal(0.0, 10.0);
  Quadratic q(kD);
  q.mean = 20.0;
  q.linear[2] = 3.0;
  q.squared[5] = 1.0;
  q.product[1][7] = -1.0;
  const Values values = values_of(points, [&](const Place& t) { return q(t) + normal(random); });
  const Fitted f = fitted(points, values);
  const double error = 10.0 / std::sqrt(static_cast<double>(kCount));  // [standard errors] 0.11
  CHECK(f.surface.mean() == Approx(20.0).margin(4.0 * error));
  CHECK(f.surface.linear(2) == Approx(3.0).margin(4.0 * error));
  CHECK(f.surface.squared(5) == Approx(1.0).margin(4.0 * error));
  CHECK(f.surface.product(1, 7) == Approx(-1.0).margin(4.0 * error));
  // Of 105 of second order one in twenty-two passes two standard errors by chance: five, rarely more than twelve.
  int kept = 0;
  for (std::size_t i = 0; i < kD; ++i) {
    kept += f.surface.squared(i) != 0.0;
    for (std::size_t j = i + 1; j < kD; ++j) kept += f.surface.product(i, j) != 0.0;
  }
  CHECK(kept >= 2);
  CHECK(kept <= 14);
  double square = 0.0;  // what the surface is off by, against what one drive is
  for (std::size_t n = 0; n < kCount; ++n) square += std::pow(f.at_points[n] - q(place(points, n)), 2) / kCount;
  CHECK(std::sqrt(square) < 1.0);  // with all 120 terms at their noise it would be 1.2
  CHECK(f.surface.misfit() < 6.0 * 10.0 / std::sqrt(kCount / 10.0));
}

TEST_CASE("any number of threads gives the same surfaces, one at a time or together", "[advise]") {
  std::mt19937_64 random(10);
  std::normal_distribution<double> normal;
  const SurfacePoints points = even_points(1024, 6);
  std::mt19937 of_terms(11);
  std::vector<Values> values;
  for (int k = 0; k < 3; ++k) {
    const Quadratic q = random_quadratic(6, of_terms);
    values.push_back(values_of(points, [&](const Place& t) { return q(t) + normal(random); }));
  }
  std::vector<Values> one_at, three_at;
  const std::vector<GainSurface> one = GainSurface::fit(points, values, 1, one_at),
                                 three = GainSurface::fit(points, values, 3, three_at);
  CHECK(one_at == three_at);
  for (std::size_t k = 0; k < 3; ++k) {
    const Fitted alone = fitted(points, values[k], 2);
    CHECK(alone.at_points == one_at[k]);
    for (const GainSurface* s : {&three[k], &alone.surface}) {
      CHECK(s->mean() == one[k].mean());
      CHECK(s->misfit() == one[k].misfit());
      CHECK(s->variance() == one[k].variance());
    }
  }
  std::vector<Values> none_at;
  CHECK(GainSurface::fit(points, {}, 1, none_at).empty());
  CHECK(none_at.empty());
}
