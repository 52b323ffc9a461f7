#include "loftwright/shots/reading.hpp"

#include <algorithm>

namespace loftwright {

namespace {

static_assert(quantity_of(Reading::club_speed) == Quantity::club_speed &&
              quantity_of(Reading::tilt) == Quantity::tilt && quantity_of(Reading::landing) == Quantity::landing);

ByReading<ReadingInfo> made() {
  ByReading<ReadingInfo> out{};
  for (const Reading reading : kAllOf<Reading>) {
    const QuantityInfo& q = about(quantity_of(reading));
    out[reading] = {
        reading,         q.key,           q.title, q.dimension, q.allowed.unit, low_of(q.allowed), high_of(q.allowed),
        low_of(q.usual), high_of(q.usual)};
  }
  return out;
}

}  // namespace

const ByReading<ReadingInfo>& readings() {
  static const ByReading<ReadingInfo> rows = made();
  return rows;
}

const ReadingInfo& info(Reading reading) { return readings()[reading]; }

std::optional<Reading> find_reading(std::string_view key) {
  const auto at =
      std::find_if(readings().begin(), readings().end(), [&](const ReadingInfo& q) { return q.key == key; });
  return at == readings().end() ? std::nullopt : std::optional(at->reading);
}

}  // namespace loftwright
