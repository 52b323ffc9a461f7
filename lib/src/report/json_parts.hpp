// Parts that several answers share.
#pragma once

#include <vector>

#include "files/json_values.hpp"
#include "loftwright/pupil/pupil.hpp"
#include "loftwright/shot/shares.hpp"
#include "loftwright/shots/shot_list.hpp"
#include "loftwright/stats/summary.hpp"

namespace loftwright {

OrderedJson launch_of(const Launch& launch);
OrderedJson flight_of(const Drive& drive);
OrderedJson delivery_of(const Delivery& delivery);

// "models" and "conditions": what the numbers hold for.
void add_circumstances(OrderedJson& out, const Setting& setting);

// The loft on the club; null where no file says.
OrderedJson club_loft_of(const std::optional<double>& loft);

// An object with what `of` makes of each factor's number; null for the club's where its loft is not known.
template <class Of>
OrderedJson by_factor(bool club_known, const Of& of) {
  OrderedJson out;
  for (const Factor factor : kAllOf<Factor>) {
    out[std::string(key_of(factor))] = factor == Factor::club && !club_known ? OrderedJson(nullptr) : of(factor);
  }
  return out;
}

OrderedJson keys_of(const std::vector<Reading>& readings);
OrderedJson set_aside_of(const ShotList& list);
OrderedJson notes_of(const std::vector<Note>& notes);  // with the line, where there is one

// A reading with its unit, count, mean, sd and standard error (null for fewer than two).
OrderedJson summary_of(Reading reading, const Summary& summary);

}  // namespace loftwright
