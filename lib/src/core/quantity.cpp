#include "loftwright/core/quantity.hpp"

#include <algorithm>
#include <cmath>

namespace loftwright {

namespace {

// One row a quantity and one a style, each in its place, so that about() is a look-up.
template <class Rows, class Of>
constexpr bool in_order(const Rows& rows, Of of) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (index_of(of(rows[i])) != i) return false;
  }
  return true;
}
static_assert(in_order(kQuantities, [](const QuantityInfo& q) { return q.quantity; }));
static_assert(in_order(kStyles, [](const Style& s) { return s.what; }));

double si_of(double value, std::string_view symbol) { return symbol.empty() ? value : unit(symbol).to_si(value); }

}  // namespace

double low_of(const Range& range) { return si_of(range.low, range.unit); }
double high_of(const Range& range) { return si_of(range.high, range.unit); }

bool holds(const Range& range, double si) {
  const double value = range.unit.empty() ? si : unit(range.unit).from_si(si);
  return (si >= low_of(range) || value >= range.low) && (si <= high_of(range) || value <= range.high);
}

void check(Quantity quantity, double si, std::string_view name) {
  const QuantityInfo& info = about(quantity);
  check(name.empty() ? info.title : name, si, info.allowed);
}

void check(std::string_view name, double si, const Range& allowed) {
  if (std::isfinite(si) && holds(allowed, si)) return;
  const Range& r = allowed;
  check_range(name, r.unit.empty() ? si : unit(r.unit).from_si(si), r.low, r.high, r.unit);
}

}  // namespace loftwright
