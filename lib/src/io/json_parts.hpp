// Parts that several answers share.
#pragma once

#include "io/json_values.hpp"
#include "loftwright/advise/pupil.hpp"
#include "loftwright/shot/shares.hpp"
#include "loftwright/shots/reading.hpp"
#include "loftwright/stats/summary.hpp"

namespace loftwright {

// "models" and "conditions": what the numbers hold for.
void add_circumstances(OrderedJson& out, const Pupil& pupil, const Setting& setting);

// The loft on the club; null where no file says.
OrderedJson club_loft_of(const Pupil& pupil);

// An object with what `of` makes of each factor's number; null for the club's where its loft is not known.
template <class Of>
OrderedJson by_factor(bool club_known, const Of& of) {
  OrderedJson out;
  for (std::size_t i = 0; i < kFactors; ++i) {
    const auto factor = static_cast<Factor>(i);
    out[std::string(key_of(factor))] = factor == Factor::club && !club_known ? OrderedJson(nullptr) : of(i);
  }
  return out;
}

// A reading with its unit, count, mean, sd and standard error (null for fewer than two).
OrderedJson summary_of(Reading reading, const Summary& summary);

}  // namespace loftwright
