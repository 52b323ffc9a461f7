#include "loftwright/book/day.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "loftwright/core/error.hpp"

namespace loftwright {

std::optional<Day> parse_day(std::string_view text) {
  constexpr std::string_view kForm = "YYYY-MM-DD";
  const auto fits = [](char form, char c) { return form == '-' ? c == '-' : c >= '0' && c <= '9'; };
  if (!std::equal(kForm.begin(), kForm.end(), text.begin(), text.end(), fits)) return std::nullopt;
  const auto number = [&](std::size_t from, std::size_t to) {
    int value = 0;
    for (std::size_t i = from; i < to; ++i) value = 10 * value + (text[i] - '0');
    return value;
  };
  const Day day{std::chrono::year(number(0, 4)), std::chrono::month(static_cast<unsigned>(number(5, 7))),
                std::chrono::day(static_cast<unsigned>(number(8, 10)))};
  if (!day.ok()) throw InputError(fmt::format("there is no day {}", text));
  if (day.year() < std::chrono::year(1900) || day.year() > std::chrono::year(2100)) {
    throw InputError(fmt::format("the day {} is out of range; allowed: 1900-01-01 to 2100-12-31", text));
  }
  return day;
}

std::string text_of(const Day& day) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

}  // namespace loftwright
