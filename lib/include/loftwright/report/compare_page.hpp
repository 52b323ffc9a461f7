// Before and after a lesson as a page to take home.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "loftwright/core/units.hpp"
#include "loftwright/shots/change.hpp"

namespace loftwright {

// Every shot of both lists along the goal, what made the change, and the coach's tables. `inputs`: the files read, by name and
// as text, shown so that the page can be made again; those too long to stand in a page are named only. The same input gives the
// same bytes; everything a user wrote is escaped.
std::string compare_page(const CompareAnswer& answer, UnitSystem units, const std::vector<std::pair<std::string, std::string>>& inputs);

}  // namespace loftwright
