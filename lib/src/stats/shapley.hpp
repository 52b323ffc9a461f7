// Fair shares of a change among the factors that made it: the Shapley value (Shapley 1953), exact over all subsets. The
// shares add up to the whole, equal factors get equal shares, and a factor that changes nothing gets nothing.
#pragma once

#include <functional>
#include <initializer_list>
#include <vector>

namespace loftwright {

// A factor that means nothing before another has changed.
struct Precedence {
  int first, then;
};

// `worth` of a coalition: bit i set when factor i has changed. Called once for each subset that can come about: all of
// the 2^factors where nothing precedes; factors <= 16. With precedence the average is over the orders that keep it
// (Faigle & Kern, Int. J. Game Theory 21 (1992) 249; from memory). A factor that changes nothing still gets nothing,
// but one that others wait for keeps them waiting.
std::vector<double> shapley_shares(int factors, const std::function<double(unsigned)>& worth,
                                   std::initializer_list<Precedence> precedence = {});

}  // namespace loftwright
