#include "loftwright/shots/reading.hpp"

#include <algorithm>

namespace loftwright {

namespace {

static_assert(quantity_of(Reading::club_speed) == Quantity::club_speed && quantity_of(Reading::tilt) == Quantity::tilt &&
              quantity_of(Reading::landing) == Quantity::landing);

ByReading<ReadingInfo> made() {
  ByReading<ReadingInfo> out{};
  for (std::size_t i = 0; i < kReadingCount; ++i) {
    const QuantityInfo& q = kQuantities[i];
    out[i] = {static_cast<Reading>(i), q.key, q.title, q.dimension, q.allowed.unit, low_of(q.allowed), high_of(q.allowed), low_of(q.usual), high_of(q.usual)};
  }
  return out;
}

const ByReading<ReadingInfo>& table() {
  static const ByReading<ReadingInfo> rows = made();
  return rows;
}

}  // namespace

std::span<const ReadingInfo, kReadingCount> readings() { return table(); }

const ReadingInfo& info(Reading reading) { return table()[index_of(reading)]; }

std::optional<Reading> find_reading(std::string_view key) {
  const auto at = std::find_if(table().begin(), table().end(), [&](const ReadingInfo& q) { return q.key == key; });
  return at == table().end() ? std::nullopt : std::optional(at->reading);
}

}  // namespace loftwright
