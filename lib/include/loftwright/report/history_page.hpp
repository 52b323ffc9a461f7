// A pupil's progress as a page to take home.
#pragma once

#include <string>

#include "loftwright/book/book.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/files/catalogue.hpp"

namespace loftwright {

// Carry over the sessions with its trend, the delivery of each, and the coach's table. The latest sessions alone are listed when
// there are many; all are drawn. The same input gives the same bytes; everything a user wrote is escaped.
std::string history_page(const Book& book, const Catalogue& catalogue, UnitSystem units);

}  // namespace loftwright
