#include "loftwright/core/detail/enum_array.hpp"

#include <catch2/catch.hpp>
#include <numeric>

namespace {
enum class Season { spring, summer, autumn, winter };
}

template <>
inline constexpr std::size_t loftwright::kCountOf<Season> = 4;

using namespace loftwright;

TEST_CASE("an entry stands where its word does, and every word is gone through once, in order") {
  constexpr EnumArray<Season, int> kDays{92, 93, 91, 89};
  static_assert(kDays[Season::winter] == 89 && kDays.size() == 4);
  int days = 0;
  std::size_t place = 0;
  for (const Season season : kAllOf<Season>) {
    CHECK(index_of(season) == place);
    CHECK(&kDays[season] == &kDays.values[place++]);
    days += kDays[season];
  }
  CHECK(days == std::accumulate(kDays.begin(), kDays.end(), 0));
}

TEST_CASE("arrays by an enum are filled, compared and ordered as plain ones") {
  EnumArray<Season, double> a{}, b{};
  CHECK(a == b);
  b[Season::autumn] = 1.0;
  CHECK(a != b);
  CHECK(a < b);
  a.fill(1.0);
  CHECK(a[Season::spring] == 1.0);
  CHECK(b < a);
}
