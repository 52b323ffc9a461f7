// A cell of a table that we write for spreadsheets (RFC 4180): a text that one would work out rather than show is made
// harmless.
#pragma once

#include <string>

#include "files/json_values.hpp"

namespace loftwright {

// Text, number or truth; nothing for null.
std::string csv_cell(const OrderedJson& value);

}  // namespace loftwright
