// The page a pupil takes home: one HTML file that needs nothing else, neither a network nor, to be read, scripts.
#pragma once

#include <string>
#include <string_view>

#include "loftwright/advise/advise.hpp"
#include "loftwright/core/units.hpp"
#include "loftwright/files/catalogue.hpp"

namespace loftwright {

// For the pupil first, for the coach after. `input` is the pupil's file as text, shown so that the page can be made again.
// The same input gives the same bytes. Everything a user wrote is escaped.
std::string advice_page(const Advice& advice, const Pupil& pupil, const Setting& setting, const Catalogue& catalogue, UnitSystem units,
                        std::string_view input);

}  // namespace loftwright
