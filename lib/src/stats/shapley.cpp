#include "stats/shapley.hpp"

#include <array>
#include <stdexcept>

namespace loftwright {

Shapley::Shapley(int factors, std::initializer_list<Precedence> precedence)
    : factors_(static_cast<std::size_t>(factors)) {
  constexpr int kMost = 16;
  if (factors < 0 || factors > kMost) throw std::invalid_argument("Shapley: 0 to 16 factors");
  std::array<unsigned, kMost> before{};  // factor -> those that it waits for
  for (const auto& [first, then] : precedence) {
    if (first < 0 || then < 0 || first >= factors || then >= factors)
      throw std::invalid_argument("Shapley: no such factor");
    before[static_cast<std::size_t>(then)] |= 1u << first;
  }
  const unsigned subsets = 1u << factors, count = static_cast<unsigned>(factors);
  const auto may_follow = [&](unsigned i, unsigned s) { return !(s >> i & 1) && (before[i] & ~s) == 0; };

  // Orders that keep the precedence: in which the factors of a subset can have come, and the others can still come. At
  // most 16!, which a double holds exactly.
  std::vector<double> come(subsets, 0.0), to_come(subsets, 0.0);
  come.front() = to_come.back() = 1.0;
  for (unsigned s = 0; s < subsets; ++s) {
    for (unsigned i = 0; i < count; ++i) {
      if (may_follow(i, s)) come[s | 1u << i] += come[s];
    }
  }
  for (unsigned s = subsets - 1; s-- > 0;) {
    for (unsigned i = 0; i < count; ++i) {
      if (may_follow(i, s)) to_come[s] += to_come[s | 1u << i];
    }
  }
  const double orders = come.back();
  if (orders == 0.0) throw std::invalid_argument("Shapley: factors that wait for each other");

  for (unsigned s = 0; s < subsets; ++s) {
    if (come[s] == 0.0) continue;
    coalitions_.push_back(s);
    for (unsigned i = 0; i < count; ++i) {
      if (may_follow(i, s)) steps_.push_back({s, s | 1u << i, i, come[s] * to_come[s | 1u << i] / orders});
    }
  }
}

std::vector<double> Shapley::shares(std::span<const double> worth) const {
  std::vector<double> out(factors_, 0.0);
  for (const Step& step : steps_) out[step.factor] += step.weight * (worth[step.to] - worth[step.from]);
  return out;
}

}  // namespace loftwright
