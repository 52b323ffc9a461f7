#include "loftwright/stats/shapley.hpp"

#include <bit>
#include <stdexcept>

namespace loftwright {

std::vector<double> shapley_shares(int factors, const std::function<double(unsigned)>& worth) {
  if (factors < 0 || factors > 16) throw std::invalid_argument("shapley_shares: 0 to 16 factors");
  const unsigned subsets = 1u << factors;
  std::vector<double> value(subsets);
  for (unsigned s = 0; s < subsets; ++s) value[s] = worth(s);

  // weight(k) = k! (n - k - 1)! / n!: the chance that exactly k given others come before a factor in a random order.
  std::vector<double> weight(static_cast<std::size_t>(factors));
  for (int k = 0; k < factors; ++k) {
    double choose = 1.0;
    for (int j = 0; j < k; ++j) choose = choose * (factors - 1 - j) / (j + 1);
    weight[static_cast<std::size_t>(k)] = 1.0 / (factors * choose);
  }
  std::vector<double> shares(static_cast<std::size_t>(factors), 0.0);
  for (int i = 0; i < factors; ++i) {
    const unsigned bit = 1u << i;
    for (unsigned s = 0; s < subsets; ++s) {
      if (s & bit) continue;
      shares[static_cast<std::size_t>(i)] += weight[static_cast<std::size_t>(std::popcount(s))] * (value[s | bit] - value[s]);
    }
  }
  return shares;
}

}  // namespace loftwright
