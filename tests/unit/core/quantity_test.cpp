#include "loftwright/core/quantity.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <set>

#include "core/traps.hpp"
#include "loftwright/core/detail/constants.hpp"

using namespace loftwright;

TEST_CASE("every quantity says what it is") {
  std::set<std::string_view> keys;
  for (const QuantityInfo& q : kQuantities) {
    INFO(q.key);
    CHECK(keys.insert(q.key).second);
    CHECK(&about(q.quantity) == &q);
    CHECK_FALSE(q.title.empty());
    CHECK_FALSE(q.meaning.empty());
    CHECK(q.meaning.back() != '.');
    CHECK(q.allowed.known());
    if (q.allowed.unit.empty()) {
      CHECK(q.dimension == Dimension::ratio);
      CHECK(q.typed.empty());
    } else {
      CHECK(unit(q.allowed.unit).dimension == q.dimension);
      CHECK(unit(q.typed).dimension == q.dimension);
    }
    if (!q.usual.known()) continue;
    CHECK(holds(q.allowed, low_of(q.usual)));
    CHECK(holds(q.allowed, high_of(q.usual)));
  }
}

TEST_CASE("the ends of a range are allowed, in its own unit and in SI, and nothing beyond") {
  for (const QuantityInfo& q : kQuantities) {
    INFO(q.key);
    const double low = low_of(q.allowed), high = high_of(q.allowed), beyond = 1e-6 * (high - low);
    CHECK_NOTHROW(check(q.quantity, low));
    CHECK_NOTHROW(check(q.quantity, high));
    CHECK_THROWS_AS(check(q.quantity, low - beyond), InputError);
    CHECK_THROWS_AS(check(q.quantity, high + beyond), InputError);
  }
  CHECK_THROWS_WITH(check(Quantity::attack, 21.0 * kDegree), "attack is 21 deg; allowed: -20 to 20 deg");
  CHECK_THROWS_WITH(check(Quantity::toe, 0.06, "the strike"), "the strike is 60 mm; allowed: -50 to 50 mm");
}

TEST_CASE("what is no finite number is in no range") {
  const WithoutTraps here;
  CHECK_THROWS_AS(check(Quantity::carry, std::numeric_limits<double>::infinity()), InputError);
  CHECK_THROWS_AS(check(Quantity::carry, std::nan("")), InputError);
}
