#include "stats/shapley.hpp"

#include <array>
#include <stdexcept>

namespace loftwright {

std::vector<double> shapley_shares(int factors, const std::function<double(unsigned)>& worth,
                                   std::initializer_list<Precedence> precedence) {
  constexpr int kMost = 16;
  if (factors < 0 || factors > kMost) throw std::invalid_argument("shapley_shares: 0 to 16 factors");
  std::array<unsigned, kMost> before{};  // factor -> those that it waits for
  for (const auto& [first, then] : precedence) {
    if (first < 0 || then < 0 || first >= factors || then >= factors)
      throw std::invalid_argument("shapley_shares: no such factor");
    before[static_cast<std::size_t>(then)] |= 1u << first;
  }
  const unsigned subsets = 1u << factors;
  const auto may_follow = [&](int i, unsigned s) {
    return !(s >> i & 1) && (before[static_cast<std::size_t>(i)] & ~s) == 0;
  };

  // Orders that keep the precedence: in which the factors of a subset can have come, and the others can still come. At
  // most 16!, which a double holds exactly.
  std::vector<double> come(subsets, 0.0), to_come(subsets, 0.0);
  come.front() = to_come.back() = 1.0;
  for (unsigned s = 0; s < subsets; ++s) {
    for (int i = 0; i < factors; ++i) {
      if (may_follow(i, s)) come[s | 1u << i] += come[s];
    }
  }
  for (unsigned s = subsets - 1; s-- > 0;) {
    for (int i = 0; i < factors; ++i) {
      if (may_follow(i, s)) to_come[s] += to_come[s | 1u << i];
    }
  }
  const double orders = come.back();
  if (orders == 0.0) throw std::invalid_argument("shapley_shares: factors that wait for each other");

  std::vector<double> value(subsets, 0.0), shares(static_cast<std::size_t>(factors), 0.0);
  for (unsigned s = 0; s < subsets; ++s) {
    if (come[s] > 0.0) value[s] = worth(s);
  }
  for (unsigned s = 0; s < subsets; ++s) {
    if (come[s] == 0.0) continue;
    for (int i = 0; i < factors; ++i) {
      if (!may_follow(i, s)) continue;
      const unsigned with = s | 1u << i;
      shares[static_cast<std::size_t>(i)] += come[s] * to_come[with] / orders * (value[with] - value[s]);
    }
  }
  return shares;
}

}  // namespace loftwright
