// NLopt behind our function, on problems with answers known from school.
#include "advise/solver.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>
#include <vector>

using namespace loftwright;

namespace {

// The nearest place to (2, 1) in the unit disc and right of or on x = y / 3 (idle): on the rim, (2, 1) / sqrt(5).
struct Disc {
  double x = 0.0, y = 0.0, nearest = 1e9;
  int asked = 0;
  std::vector<std::vector<double>> places;

  Problem problem() {
    Problem p;
    p.low = {-3.0, -3.0};
    p.high = {3.0, 3.0};
    p.minimise = [this](std::span<const double> at, std::span<double> g) {
      ++asked;
      places.emplace_back(at.begin(), at.end());
      const double value = std::pow(at[0] - 2.0, 2) + std::pow(at[1] - 1.0, 2);
      if (!g.empty()) g[0] = 2.0 * (at[0] - 2.0), g[1] = 2.0 * (at[1] - 1.0);
      if (std::hypot(at[0], at[1]) <= 1.0 + 1e-5 && value < nearest) nearest = value, x = at[0], y = at[1];
      return value;
    };
    p.constraint_count = 2;
    p.at_most_zero = [](std::span<const double> at, std::span<double> values, std::span<double> gradients) {
      REQUIRE(values.size() == 2);
      values[0] = at[0] * at[0] + at[1] * at[1] - 1.0;
      values[1] = at[1] / 3.0 - at[0];
      if (gradients.empty()) return;
      REQUIRE(gradients.size() == 4);
      gradients[0] = 2.0 * at[0], gradients[1] = 2.0 * at[1];
      gradients[2] = -1.0, gradients[3] = 1.0 / 3.0;
    };
    return p;
  }
};

}  // namespace

TEST_CASE("both methods find the nearest place of a disc, also from a start outside the bounds", "[advise]") {
  for (const Method method : {Method::gradient, Method::derivative_free}) {
    for (const std::vector<double>& start : {std::vector{0.2, 0.1}, {9.0, -7.0}}) {
      Disc disc;
      solve(disc.problem(), start, {.method = method, .stop = 1e-7, .first_step = 0.5, .most_evaluations = 400});
      CAPTURE(static_cast<int>(method), start[0], disc.asked);
      // A hair of 1e-5 beyond the rim is worth as much as 3e-3 along it.
      CHECK(disc.x == Approx(2.0 / std::sqrt(5.0)).margin(3e-3));
      CHECK(disc.y == Approx(1.0 / std::sqrt(5.0)).margin(3e-3));
    }
  }
}

TEST_CASE("slopes find it in far fewer places", "[advise]") {
  Disc with, without;
  solve(with.problem(), {0.2, 0.1}, {.method = Method::gradient, .stop = 1e-6, .most_evaluations = 400});
  solve(without.problem(), {0.2, 0.1}, {.method = Method::derivative_free, .stop = 1e-6, .most_evaluations = 400});
  CHECK(2 * with.asked < without.asked);
}

TEST_CASE("without slopes the first step is as long as asked", "[advise]") {
  for (const double step : {0.125, 0.5}) {
    Disc disc;
    Problem p = disc.problem();
    p.constraint_count = 0;
    solve(p, {0.25, 0.25}, {.method = Method::derivative_free, .first_step = step});
    REQUIRE(disc.places.size() > 2);
    CHECK(std::hypot(disc.places[1][0] - 0.25, disc.places[1][1] - 0.25) == Approx(step));
  }
}

TEST_CASE("no more places are asked for than allowed", "[advise]") {
  Disc disc;
  solve(disc.problem(), {-1.0, 2.0}, {.method = Method::derivative_free, .stop = 1e-12, .most_evaluations = 7});
  CHECK(disc.asked <= 7);
}

TEST_CASE("what the model throws comes through", "[advise]") {
  for (const Method method : {Method::gradient, Method::derivative_free}) {
    Disc disc;
    Problem p = disc.problem();
    p.minimise = [](std::span<const double>, std::span<double>) -> double { throw std::runtime_error("no drive"); };
    CHECK_THROWS_WITH(solve(p, {0.0, 0.0}, {.method = method}), "no drive");
  }
}
