// Books for tests.
#pragma once

#include <fmt/format.h>

#include "draws.hpp"
#include "loftwright/files/book_file.hpp"

namespace loftwright::test {

inline Day day(const std::string& text) { return parse_day(text).value(); }

// A session of which every part is there, with values from `draws`.
inline BookedSession any_session(Draws& draws) {
  BookedSession s;
  s.date = day(fmt::format("20{:02.0f}-{:02.0f}-{:02.0f}", std::floor(draws.between(10, 40)),
                           std::floor(draws.between(1, 13)), std::floor(draws.between(1, 29))));
  // Lengths and letters that need escaping, among them some of several bytes.
  const std::size_t length = static_cast<std::size_t>(draws.between(0, 300));
  for (std::size_t i = 0; i < length; ++i) {
    constexpr std::array<std::string_view, 12> kLetters{"a", " ", "\"", "\\", "\n", "\t", ",", "ä", "€", "{", "]", "0"};
    s.notes += kLetters[static_cast<std::size_t>(draws.between(0, 12))];
  }
  if (draws.between(0, 1) < 0.7) s.loft = draws.between(8, 16) * kDeg;
  s.delivery = draws.delivery();
  s.reference = {draws.between(100, 250), draws.between(110, 280), "0.0.0"};
  if (draws.between(0, 1) < 0.5) {
    s.course = Course{"reference", {}};
    s.course->conditions.altitude = draws.between(0, 3000);
    s.course->conditions.wind = draws.wind(WindProfile::power);
    if (draws.between(0, 1) < 0.5) s.course->conditions.pressure = draws.between(9e4, 1.02e5);
  }
  if (draws.between(0, 1) < 0.5) {
    s.delivery_inferred = true;
    s.shots = BookedShots{"a list.csv", 12, 1, 2, {}};
    s.shots->readings.push_back({Reading::spin, {12, draws.between(200, 300), draws.between(10, 30), 1.0}});
    s.shots->readings.push_back({Reading::smash, {1, draws.between(1.3, 1.5), 0.0, 0.0}});
  }
  return s;
}

inline Book any_book(Draws& draws, int sessions) {
  Book book;
  book.pupil = "Marlow Fenn (invented)";
  for (int i = 0; i < sessions; ++i) {
    ++book.version;
    add_session(book, any_session(draws));
  }
  return book;
}

}  // namespace loftwright::test
