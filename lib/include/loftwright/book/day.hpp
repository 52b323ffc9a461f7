/// @file
/// A day of the calendar as people and files write it, ISO 8601: "2026-03-14".
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace loftwright {

using Day = std::chrono::year_month_day;  ///< 1900-01-01 .. 2100-12-31: what lies outside is a slip

/// Empty when it is not written YYYY-MM-DD. Throws InputError when it is, but there is no such day or it lies outside.
std::optional<Day> parse_day(std::string_view text);

std::string text_of(const Day& day);  ///< "2026-03-14"

}  // namespace loftwright
