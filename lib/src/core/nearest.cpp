#include "loftwright/core/nearest.hpp"

#include <algorithm>
#include <array>
#include <limits>

namespace loftwright {

std::size_t edit_distance(std::string_view a, std::string_view b) {
  constexpr std::size_t kMost = 64;
  a = a.substr(0, kMost);
  b = b.substr(0, kMost);
  std::array<std::array<std::size_t, kMost + 1>, kMost + 1> d{};
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        d[i][j] = i + j;
        continue;
      }
      const std::size_t replace = a[i - 1] == b[j - 1] ? 0 : 1;
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + replace});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  }
  return d[a.size()][b.size()];
}

std::string nearest(std::string_view word, std::span<const std::string> known) {
  std::string best;
  std::size_t least = std::numeric_limits<std::size_t>::max();
  for (const std::string& candidate : known) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

}  // namespace loftwright
