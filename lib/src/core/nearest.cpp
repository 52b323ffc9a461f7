#include "core/nearest.hpp"

#include <algorithm>
#include <array>
#include <limits>

namespace loftwright {

namespace {

// The distance, when it is less than `enough`; else no less than that, said as soon as it is sure.
std::size_t distance_below(std::size_t enough, std::string_view a, std::string_view b) {
  constexpr std::size_t kMost = 64;
  a = a.substr(0, kMost);
  b = b.substr(0, kMost);
  const std::size_t to_insert = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
  if (to_insert >= enough) return to_insert;
  std::array<std::array<std::size_t, kMost + 1>, 3> rows;  // a row stands on the two before it
  for (std::size_t i = 0; i <= a.size(); ++i) {
    auto& now = rows[i % 3];
    const auto &before = rows[(i + 2) % 3], &two_before = rows[(i + 1) % 3];
    std::size_t least = now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      if (i == 0) {
        now[j] = j;
        continue;
      }
      const std::size_t replace = a[i - 1] == b[j - 1] ? 0 : 1;
      now[j] = std::min({before[j] + 1, now[j - 1] + 1, before[j - 1] + replace});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) now[j] = std::min(now[j], two_before[j - 2] + 1);
      least = std::min(least, now[j]);
    }
    if (least >= enough)
      return enough;  // no row has a smaller least than this one: a swap adds 1 to at least `least - 1`
  }
  return rows[a.size() % 3][b.size()];
}

constexpr std::size_t kNoEnd = std::numeric_limits<std::size_t>::max();

bool separates(char c) { return c == '-' || c == '_'; }

std::string_view without_dashes(std::string_view word) {
  return word.substr(std::min(word.find_first_not_of('-'), word.size()));
}

bool is_part_of(std::string_view word, std::string_view compound) {
  word = without_dashes(word);
  compound = without_dashes(compound);
  if (word.empty()) return false;
  for (std::size_t at = compound.find(word); at != std::string_view::npos; at = compound.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || separates(compound[at - 1])) && (end == compound.size() || separates(compound[end]))) return true;
  }
  return false;
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) { return distance_below(kNoEnd, a, b); }

std::string nearest(std::string_view word, std::span<const std::string> known) {
  const std::string* best = nullptr;
  std::size_t least = kNoEnd;
  for (const std::string& candidate : known) {
    const std::size_t distance = distance_below(least, word, candidate);
    if (distance < least) {
      least = distance;
      best = &candidate;
    }
  }
  if (!best) return "";
  if (least < 2 && best->starts_with(word)) return *best;
  const auto compound =
      std::find_if(known.begin(), known.end(), [&](const std::string& k) { return is_part_of(word, k); });
  return compound == known.end() ? *best : *compound;
}

bool is_near(std::string_view word, std::string_view known) {
  return edit_distance(word, known) <= std::max<std::size_t>(2, known.size() / 3);
}

bool may_be_meant(std::string_view word, std::string_view known) {
  return is_part_of(word, known) || is_near(word, known);
}

}  // namespace loftwright
