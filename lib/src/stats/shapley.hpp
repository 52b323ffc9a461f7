// Fair shares of a change among the factors that made it: the Shapley value (Shapley 1953), exact over all subsets. The
// shares add up to the whole, equal factors get equal shares, and a factor that changes nothing gets nothing.
#pragma once

#include <initializer_list>
#include <span>
#include <vector>

namespace loftwright {

// A factor that means nothing before another has changed.
struct Precedence {
  int first, then;
};

// How much each coalition of factors counts, which is the same whatever they are worth. With precedence the average is
// over the orders that keep it (Faigle & Kern, Int. J. Game Theory 21 (1992) 249; from memory). A factor that changes
// nothing still gets nothing, but one that others wait for keeps them waiting.
class Shapley {
 public:
  // factors <= 16. Throws std::invalid_argument.
  explicit Shapley(int factors, std::initializer_list<Precedence> precedence = {});

  // Those that can come about, bit i set when factor i has changed: all of the 2^factors where nothing precedes.
  const std::vector<unsigned>& coalitions() const { return coalitions_; }

  // Of each factor; worth[c] of every coalition c.
  std::vector<double> shares(std::span<const double> worth) const;

 private:
  struct Step {  // from one coalition to the one with a factor more
    unsigned from, to, factor;
    double weight;  // the share of all orders that take it
  };
  std::size_t factors_;
  std::vector<unsigned> coalitions_;
  std::vector<Step> steps_;
};

}  // namespace loftwright
