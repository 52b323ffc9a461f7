#include "core/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace loftwright {

std::string without_direction_marks(std::string_view text) {
  static constexpr std::array<std::string_view, 12> kMarks{"\u061c", "\u200e", "\u200f", "\u202a", "\u202b", "\u202c",
                                                           "\u202d", "\u202e", "\u2066", "\u2067", "\u2068", "\u2069"};
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const auto mark =
        std::find_if(kMarks.begin(), kMarks.end(), [&](std::string_view m) { return text.starts_with(m); });
    if (mark == kMarks.end()) out += text.front();
    text.remove_prefix(mark == kMarks.end() ? 1 : mark->size());
  }
  return out;
}

std::string_view curly_quote(std::string_view text) {
  static constexpr std::array<std::string_view, 10> kMarks{"“", "”", "„", "‟", "‘", "’", "‚", "‛", "«", "»"};
  for (; !text.empty(); text.remove_prefix(1)) {
    const auto mark =
        std::find_if(kMarks.begin(), kMarks.end(), [&](std::string_view m) { return text.starts_with(m); });
    if (mark != kMarks.end()) return *mark;
  }
  return {};
}

std::string range_end(double end, bool is_low) {
  if (end == 0.0 || !std::isfinite(end)) return fmt::format("{:g}", end);
  const int digits = static_cast<int>(std::floor(std::log10(std::abs(end)))) + 1;
  const auto scale = [&](int kept) { return std::pow(10.0, kept - digits); };
  const double six = std::round(end * scale(6)) / scale(6);
  constexpr double kRounding = 1e-9;  // [-] 20 deg is 20 deg, whatever pi did to it
  if (std::abs(six - end) <= kRounding * std::abs(end)) return fmt::format("{:.10g}", six);
  const double three = end * scale(3);
  return fmt::format("{:.10g}", (is_low ? std::ceil(three) : std::floor(three)) / scale(3));
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

std::string plural(std::size_t count, std::string_view one) { return fmt::format("{}{}", one, count == 1 ? "" : "s"); }

std::string how_many(std::size_t count, std::string_view one) {
  return fmt::format("{} {}", count, plural(count, one));
}

std::string in_words(std::size_t count) {
  constexpr std::array<std::string_view, 13> words{"none",  "one",   "two",  "three", "four",   "five",  "six",
                                                   "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  return count < words.size() ? std::string(words[count]) : std::to_string(count);
}

std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

}  // namespace loftwright
