#include "loftwright/core/detail/scalar.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "loftwright/core/detail/constants.hpp"

using namespace loftwright;

namespace {

using Two = Dual<2>;

// d f / d x at x by a fourth-order central difference: error of order h^4 and of order 1e-16 / h, both below 1e-9 here.
double slope(const std::function<double(double)>& f, double x) {
  const double h = 1e-3 * std::max(1.0, std::abs(x));
  return (8.0 * (f(x + h) - f(x - h)) - (f(x + 2.0 * h) - f(x - 2.0 * h))) / (12.0 * h);
}

// A function once of Dual, once of double, and its derivative in closed form.
struct Case {
  const char* name;
  std::function<Two(const Two&)> dual;
  std::function<double(double)> plain, derivative;
  std::vector<double> at;
};

}  // namespace

TEST_CASE("every function of Dual has the derivative of its closed form and of central differences", "[dual]") {
  const std::vector<Case> cases{
      {"sqrt",
       [](const Two& x) { return sqrt(x); },
       [](double x) { return std::sqrt(x); },
       [](double x) { return 0.5 / std::sqrt(x); },
       {0.3, 2.0, 50.0}},
      {"exponential",
       [](const Two& x) { return exponential(x); },
       [](double x) { return std::exp(x); },
       [](double x) { return std::exp(x); },
       {-2.0, 0.0, 1.5}},
      {"logarithm",
       [](const Two& x) { return logarithm(x); },
       [](double x) { return std::log(x); },
       [](double x) { return 1.0 / x; },
       {0.2, 1.0, 30.0}},
      {"sin",
       [](const Two& x) { return sin_cos(x).sin; },
       [](double x) { return sin_cos(x).sin; },
       [](double x) { return std::cos(x); },
       {-1.0, 0.0, 2.5}},
      {"cos",
       [](const Two& x) { return sin_cos(x).cos; },
       [](double x) { return sin_cos(x).cos; },
       [](double x) { return -std::sin(x); },
       {-1.0, 0.0, 2.5}},
      {"tan",
       [](const Two& x) { return tan(x); },
       [](double x) { return std::tan(x); },
       [](double x) { return 1.0 / std::pow(std::cos(x), 2); },
       {-1.0, 0.0, 0.7}},
      {"asin",
       [](const Two& x) { return asin(x); },
       [](double x) { return std::asin(x); },
       [](double x) { return 1.0 / std::sqrt(1.0 - x * x); },
       {-0.7, 0.0, 0.4}},
      {"acos",
       [](const Two& x) { return acos(x); },
       [](double x) { return std::acos(x); },
       [](double x) { return -1.0 / std::sqrt(1.0 - x * x); },
       {-0.7, 0.0, 0.4}},
      {"atan",
       [](const Two& x) { return atan(x); },
       [](double x) { return std::atan(x); },
       [](double x) { return 1.0 / (1.0 + x * x); },
       {-3.0, 0.0, 0.8}},
      {"pow 0.628",
       [](const Two& x) { return pow(x, 0.628); },
       [](double x) { return std::pow(x, 0.628); },
       [](double x) { return 0.628 * std::pow(x, -0.372); },
       {0.2, 0.4, 3.0}},
      {"pow -2",
       [](const Two& x) { return pow(x, -2.0); },
       [](double x) { return 1.0 / (x * x); },
       [](double x) { return -2.0 / (x * x * x); },
       {-1.5, 0.4, 3.0}},
      {"x * x",
       [](const Two& x) { return x * x; },
       [](double x) { return x * x; },
       [](double x) { return 2.0 * x; },
       {-2.0, 0.0, 3.0}},
      {"x / (1 + x^2)",
       [](const Two& x) { return x / (1.0 + x * x); },
       [](double x) { return x / (1.0 + x * x); },
       [](double x) { return (1.0 - x * x) / std::pow(1.0 + x * x, 2); },
       {-2.0, 0.0, 3.0}},
      {"3 / x - x / 4",
       [](const Two& x) { return 3.0 / x - x / 4.0; },
       [](double x) { return 3.0 / x - x / 4.0; },
       [](double x) { return -3.0 / (x * x) - 0.25; },
       {-2.0, 0.5}},
      {"-(2 - x) * 5 + 1",
       [](const Two& x) { return -(2.0 - x) * 5.0 + 1.0; },
       [](double x) { return -(2.0 - x) * 5.0 + 1.0; },
       [](double) { return 5.0; },
       {-2.0, 0.5}},
      {"sine of a small angle",
       [](const Two& x) { return sin_cos_of_small(x).sin; },
       [](double x) { return sin_cos_of_small(x).sin; },
       [](double x) { return std::cos(x); },
       {-0.7, 0.0, 0.3}},
      {"cosine of a small angle",
       [](const Two& x) { return sin_cos_of_small(x).cos; },
       [](double x) { return sin_cos_of_small(x).cos; },
       [](double x) { return -std::sin(x); },
       {-0.7, 0.0, 0.3}},
      {"arctangent(sin x, 2 cos x)",
       [](const Two& x) { return arctangent(sin_cos(x).sin, 2.0 * sin_cos(x).cos); },
       [](double x) { return arctangent(sin_cos(x).sin, 2.0 * sin_cos(x).cos); },
       [](double x) { return 2.0 / (4.0 * std::pow(std::cos(x), 2) + std::pow(std::sin(x), 2)); },
       {-2.0, 0.5, 1.9}},
      {"abs",
       [](const Two& x) { return abs_of(x); },
       [](double x) { return std::abs(x); },
       [](double x) { return x < 0.0 ? -1.0 : 1.0; },
       {-2.0, 3.0}},
      {"min(x, 1)",
       [](const Two& x) { return min_of(x, Two(1.0)); },
       [](double x) { return std::min(x, 1.0); },
       [](double x) { return x < 1.0 ? 1.0 : 0.0; },
       {-2.0, 3.0}},
      {"max(x, 1)",
       [](const Two& x) { return max_of(x, Two(1.0)); },
       [](double x) { return std::max(x, 1.0); },
       [](double x) { return x > 1.0 ? 1.0 : 0.0; },
       {-2.0, 3.0}},
      {"length of (x, 2)",
       [](const Two& x) { return length_of(x * x + 4.0); },
       [](double x) { return std::sqrt(x * x + 4.0); },
       [](double x) { return x / std::sqrt(x * x + 4.0); },
       {-2.0, 0.0, 3.0}},
  };
  for (const Case& c : cases) {
    for (const double at : c.at) {
      const Two y = c.dual(Two::variable(at, 1));
      INFO(c.name << " at " << at);
      CHECK(y.v == c.plain(at));  // the same operations in the same order
      CHECK(y.d[0] == 0.0);       // nothing leaks into the other direction
      const double size = 1.0 + std::abs(c.derivative(at));
      CHECK(std::abs(y.d[1] - c.derivative(at)) < 1e-14 * size);   // a few roundings
      CHECK(std::abs(y.d[1] - slope(c.plain, at)) < 1e-8 * size);  // the difference's own error, h^4 f(5) / 30
    }
  }
}

TEST_CASE("in-place arithmetic of Dual agrees with the plain signs", "[dual]") {
  const Two a = Two::variable(3.0, 0), b = Two::variable(-2.0, 1);
  Two sum = a, difference = a, product = a, quotient = a;
  sum += b;
  difference -= b;
  product *= b;
  quotient /= b;
  CHECK(sum.v == 1.0);
  CHECK(sum.d == std::array{1.0, 1.0});
  CHECK(difference.v == 5.0);
  CHECK(difference.d == std::array{1.0, -1.0});
  CHECK(product.v == -6.0);
  CHECK(product.d == std::array{-2.0, 3.0});
  CHECK(quotient.v == -1.5);
  CHECK(quotient.d == std::array{-0.5, -0.75});
  CHECK((a / b).d == quotient.d);
  CHECK((a * b).d == product.d);
  CHECK((2.0 + a).v == 5.0);
  CHECK((a + 2.0).d == a.d);
  CHECK((a - 2.0).v == 1.0);
  CHECK((a / 2.0).d == std::array{0.5, 0.0});
  Two self = a;
  self *= self;  // aliasing
  CHECK(self.d == std::array{6.0, 0.0});
}

TEST_CASE("among more directions a Dual keeps value and derivatives, and varies along no further one", "[dual]") {
  Two narrow(3.0);
  narrow.d = {-1.5, 0.25};
  const Dual<4> wide(narrow);
  CHECK(wide.v == 3.0);
  CHECK(wide.d == std::array{-1.5, 0.25, 0.0, 0.0});
}

TEST_CASE("Dual compares by value alone", "[dual]") {
  const Two a = Two::variable(1.0, 0), b(2.0);
  CHECK((a < b && a <= b && b > a && b >= a));
  CHECK_FALSE((b < a || b <= a || a > b || a >= b));
  CHECK(value_of(a) == 1.0);
  CHECK(value_of(2.5) == 2.5);
}

TEST_CASE("where a derivative does not exist, Dual gives zero and never a NaN", "[dual]") {
  const Two zero = Two::variable(0.0, 0);
  CHECK(length_of(zero * zero).d[0] == 0.0);
  CHECK(pow(zero, 0.628).v == 0.0);
  CHECK(pow(zero, 0.628).d[0] == 0.0);
  CHECK(arctangent(zero, zero).d[0] == 0.0);
  CHECK(length_of(0.0) == 0.0);
}

TEST_CASE("a long composition keeps its gradient to rounding", "[dual]") {
  // f(x, y) = exp(sin(x y) / y) sqrt(x + y^2), gradient worked out by hand.
  const double x = 1.3, y = 0.7;
  const Two dx = Two::variable(x, 0), dy = Two::variable(y, 1);
  const Two f = exponential(sin_cos(dx * dy).sin / dy) * sqrt(dx + dy * dy);
  const double e = std::exp(std::sin(x * y) / y), r = std::sqrt(x + y * y);
  CHECK(std::abs(f.d[0] - (e * std::cos(x * y) * r + e * 0.5 / r)) < 1e-14 * 10.0);
  const double inner = (x * std::cos(x * y) * y - std::sin(x * y)) / (y * y);
  CHECK(std::abs(f.d[1] - (e * inner * r + e * y / r)) < 1e-14 * 10.0);
}
