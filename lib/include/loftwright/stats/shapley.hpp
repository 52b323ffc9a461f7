// Fair shares of a change among the factors that made it: the Shapley value (Shapley 1953), exact over all subsets. The
// shares add up to the whole, equal factors get equal shares, and a factor that changes nothing gets nothing.
#pragma once

#include <functional>
#include <vector>

namespace loftwright {

// `worth` of a coalition: bit i set when factor i has changed. Called once for each of the 2^factors subsets; factors <= 16.
std::vector<double> shapley_shares(int factors, const std::function<double(unsigned)>& worth);

}  // namespace loftwright
