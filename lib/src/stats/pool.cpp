#include "loftwright/stats/detail/pool.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/parallel.hpp"
#include "loftwright/core/detail/constants.hpp"
#include "loftwright/core/detail/elementary.hpp"

namespace loftwright {

namespace {

using Four [[gnu::vector_size(32)]] = double;

// Values evenly over a stretch, each in the middle of its cell: a scale is never quite zero.
struct Stretch {
  double low;
  double high;
  std::size_t count;

  double step() const { return (high - low) / static_cast<double>(count); }
  double at(std::size_t i) const { return low + (static_cast<double>(i) + 0.5) * step(); }
};

// The logarithm of a product, at hardly more than the product's cost; a factor counts as 1e-150 at least.
class Product {
 public:
  void take(double factor) {
    product_ *= std::max(factor, kLeast);
    if (product_ > kLeast && product_ < 1.0 / kLeast) return;
    log_ += logarithm(product_);
    product_ = 1.0;
  }
  double log() const { return log_ + logarithm(product_); }

 private:
  static constexpr double kLeast = 1e-150;
  double log_ = 0.0, product_ = 1.0;
};

constexpr std::size_t kMostNuisances = 2;
constexpr double kReach = 4.5;                        // [standard deviations] of a stretch: 7e-6 lies beyond
using Box = std::array<Stretch, 2 + kMostNuisances>;  // mean, between, nuisances

// The weight of each value of one unknown, the others summed over.
struct Marginal {
  Stretch over;
  std::vector<double> weight;  // adds up to 1

  double mean() const {
    double sum = 0.0;
    for (std::size_t i = 0; i < weight.size(); ++i) sum += weight[i] * over.at(i);
    return sum;
  }
  double mean_square() const {
    double sum = 0.0;
    for (std::size_t i = 0; i < weight.size(); ++i) sum += weight[i] * over.at(i) * over.at(i);
    return sum;
  }
  double variance() const { return std::max(0.0, mean_square() - mean() * mean()); }
  // Even within a cell.
  double quantile(double share) const {
    double below = 0.0;
    for (std::size_t i = 0; i < weight.size(); ++i) {
      if (below + weight[i] >= share && weight[i] > 0.0)
        return over.low + (static_cast<double>(i) + (share - below) / weight[i]) * over.step();
      below += weight[i];
    }
    return over.high;
  }
};

// Where effects of groups may lie, and how likely each is of a group with these mean and spread.
class Effects {
 public:
  explicit Effects(const PoolPrior& prior)
      : over_{prior.mean - 8.0 * prior.new_group_sd(), prior.mean + 8.0 * prior.new_group_sd(), 161} {
    for (std::size_t i = 0; i < over_.count; ++i) all_.push_back(over_.at(i));
  }

  std::size_t count() const { return over_.count; }
  const std::vector<double>& all() const { return all_; }

  // Between two values a likelihood is taken as straight, so that this holds for any spread, one of nearly nothing too:
  // a normal density against the hat of each value. The second integral of the density is that of all of it at the
  // mean, which gives the hat there, and beside it between phi - |x - mean| Phi. Value i goes to out[i * stride].
  void shares(double mean, double between, double* out, std::size_t stride) const {
    const double step = over_.step();
    const auto beside = [&](double x) {
      constexpr double kFar = 8.0;  // standard deviations: 1e-15 lies beyond
      const double z = std::abs(x - mean) / between;
      if (z > kFar) return 0.0;
      return between * (exponential(-0.5 * z * z) / std::sqrt(2.0 * kPi) - z * 0.5 * std::erfc(z / std::sqrt(2.0)));
    };
    double before = beside(over_.at(0) - step), here = beside(over_.at(0));
    for (std::size_t i = 0; i < count(); ++i) {
      const double next = beside(over_.at(i) + step), hat = std::max(0.0, 1.0 - std::abs(over_.at(i) - mean) / step);
      out[i * stride] = std::max(0.0, hat + (before - 2.0 * here + next) / step);
      before = here;
      here = next;
    }
  }

 private:
  Stretch over_;
  std::vector<double> all_;
};

// How likely effects are for a group, the likeliest as 1; those before and after are nothing.
struct LikelyEffects {
  std::size_t first;
  std::vector<double> how;
};

// How likely each effect is of a group with each of so many means and spreads: `kTile` of these side by side, effect
// after effect, so that what is added up of them stays in registers.
class SharesOfEffects {
 public:
  static constexpr std::size_t kTile = 16;

  // `mean_of` and `between_of` of 0 .. count - 1.
  template <class MeanOf, class BetweenOf>
  SharesOfEffects(const Effects& effects, std::size_t count, const MeanOf& mean_of, const BetweenOf& between_of)
      : effects_(effects.count()), tiles_((count + kTile - 1) / kTile) {
    values_.resize(tiles_.size() * effects_ * kTile);
    for (std::size_t i = 0; i < count; ++i)
      effects.shares(mean_of(i), between_of(i), values_.data() + i / kTile * effects_ * kTile + i % kTile, kTile);
    for (std::size_t t = 0; t < tiles_.size(); ++t) {
      const auto begin = values_.begin() + static_cast<std::ptrdiff_t>(t * effects_ * kTile),
                 end = begin + static_cast<std::ptrdiff_t>(effects_ * kTile);
      const auto something = [](double share) { return share > 0.0; };
      const auto first = std::find_if(begin, end, something);
      const auto last = std::find_if(std::reverse_iterator(end), std::reverse_iterator(first), something).base();
      tiles_[t] = {static_cast<std::size_t>(first - begin) / kTile,
                   (static_cast<std::size_t>(last - begin) + kTile - 1) / kTile};
    }
  }

  std::size_t tiles() const { return tiles_.size(); }

  // For each mean and spread of a tile, the sum of the shares by how likely the effects are for a group.
  using Sums = std::array<double, kTile>;
  Sums sum(std::size_t tile, const LikelyEffects& likely) const {
    Sums out;
#ifdef LOFTWRIGHT_WIDE_LANES
    if (__builtin_cpu_supports("avx2")) {
      sum_wide(tile, likely, out);
      return out;
    }
#endif
    sum_here(tile, likely, out);
    return out;
  }

 private:
  struct Tile {
    std::size_t first, end;  // the effects that have shares
  };

  [[gnu::always_inline]] inline void sum_here(std::size_t tile, const LikelyEffects& likely, Sums& out) const {
    Four a{}, b{}, c{}, d{};
    const std::size_t end = std::min(tiles_[tile].end, likely.first + likely.how.size());
    for (std::size_t k = std::max(tiles_[tile].first, likely.first); k < end; ++k) {
      const double* of_effect = values_.data() + (tile * effects_ + k) * kTile;
      const double l = likely.how[k - likely.first];
      Four w, x, y, z;
      __builtin_memcpy(&w, of_effect, sizeof w);
      __builtin_memcpy(&x, of_effect + 4, sizeof x);
      __builtin_memcpy(&y, of_effect + 8, sizeof y);
      __builtin_memcpy(&z, of_effect + 12, sizeof z);
      a += w * l;
      b += x * l;
      c += y * l;
      d += z * l;
    }
    __builtin_memcpy(out.data(), &a, sizeof a);
    __builtin_memcpy(out.data() + 4, &b, sizeof b);
    __builtin_memcpy(out.data() + 8, &c, sizeof c);
    __builtin_memcpy(out.data() + 12, &d, sizeof d);
  }
#ifdef LOFTWRIGHT_WIDE_LANES
  // The same sums in the same order, for a processor with wider vectors.
  [[gnu::target("avx2")]] void sum_wide(std::size_t tile, const LikelyEffects& likely, Sums& out) const {
    sum_here(tile, likely, out);
  }
#endif

  std::size_t effects_;
  std::vector<Tile> tiles_;
  std::vector<double> values_;
};

// The posterior over a box, one unknown at a time.
class Summing {
 public:
  Summing(const PoolPrior& prior, std::size_t groups, const GroupLikelihood& likelihood, int threads)
      : prior_(prior), groups_(groups), likelihood_(likelihood), threads_(threads), effects_(prior) {}

  std::vector<Marginal> over(const Box& box) const {
    const std::size_t means = box[0].count, outer = means * box[1].count, inner = box[2].count * box[3].count;
    const auto mean_of = [&](std::size_t i) { return box[0].at(i % means); };
    const auto between_of = [&](std::size_t i) { return box[1].at(i / means); };
    const SharesOfEffects shares(effects_, outer, mean_of, between_of);
    std::vector<double> log_weight(outer * inner);
    parallel_for(inner, threads_, [&](std::size_t j) {
      const std::array<double, kMostNuisances> nuisances{box[2].at(j / box[3].count), box[3].at(j % box[3].count)};
      log_of_groups(nuisances, shares, std::span(log_weight).subspan(j * outer, outer));
    });
    for (std::size_t i = 0; i < outer; ++i) {
      const double prior = log_prior(mean_of(i), between_of(i));
      for (std::size_t j = 0; j < inner; ++j) log_weight[j * outer + i] += prior;
    }
    return marginals(box, log_weight);
  }

 private:
  static double log_normal(double z) { return -0.5 * z * z; }
  double log_prior(double mean, double between) const {
    return log_normal((mean - prior_.mean) / prior_.mean_sd) + log_normal(between / prior_.between);
  }

  // Of every spread and mean, the effects of the groups integrated out; and how likely the nuisances are.
  void log_of_groups(std::span<const double> nuisances, const SharesOfEffects& shares, std::span<double> out) const {
    constexpr double kNothing = -46.0;  // 1e-20 of the likeliest effect
    double known = 0.0;
    for (std::size_t i = 0; i < prior_.nuisances.size(); ++i) known += log_normal(nuisances[i] / prior_.nuisances[i]);
    std::vector<double> like(effects_.count());
    std::vector<LikelyEffects> likely(groups_);
    for (std::size_t g = 0; g < groups_; ++g) {
      likelihood_(g, nuisances.first(prior_.nuisances.size()), effects_.all(), like);
      const double most = *std::max_element(like.begin(), like.end());
      known += most;
      const auto something = [&](double l) { return l - most >= kNothing; };
      const auto first = std::find_if(like.begin(), like.end(), something);
      const auto end = std::find_if(like.rbegin(), like.rend(), something).base();
      likely[g] = {static_cast<std::size_t>(first - like.begin()), {first, end}};
      for (double& l : likely[g].how) l = exponential(l - most);
    }
    constexpr std::size_t kTile = SharesOfEffects::kTile;
    for (std::size_t t = 0; t < shares.tiles(); ++t) {  // a tile at a time: its shares stay near
      std::array<Product, kTile> products;
      for (const LikelyEffects& of_group : likely) {
        const SharesOfEffects::Sums sums = shares.sum(t, of_group);
        for (std::size_t i = 0; i < kTile; ++i) products[i].take(sums[i]);
      }
      for (std::size_t i = 0; i < kTile && t * kTile + i < out.size(); ++i)
        out[t * kTile + i] = known + products[i].log();
    }
  }

  // Each is the sum over all others: first over the nuisances, spread and mean held, and the other way round.
  std::vector<Marginal> marginals(const Box& box, const std::vector<double>& log_weight) const {
    constexpr double kFar = 45.0;  // in logarithms below the likeliest: 3e-20 of it
    std::vector<Marginal> out;
    for (const Stretch& stretch : box) out.push_back({stretch, std::vector<double>(stretch.count, 0.0)});
    const double most = *std::max_element(log_weight.begin(), log_weight.end());
    const std::size_t means = box[0].count, outer = means * box[1].count;
    std::vector<double> of_outer(outer, 0.0);
    double all = 0.0;
    for (std::size_t j = 0; j * outer < log_weight.size(); ++j) {
      double sum = 0.0;
      for (std::size_t i = 0; i < outer; ++i) {
        const double below = log_weight[j * outer + i] - most;
        if (below < -kFar) continue;
        const double weight = exponential(below);
        of_outer[i] += weight;
        sum += weight;
      }
      out[2].weight[j / box[3].count] += sum;
      out[3].weight[j % box[3].count] += sum;
      all += sum;
    }
    for (std::size_t i = 0; i < outer; ++i) {
      out[0].weight[i % means] += of_outer[i];
      out[1].weight[i / means] += of_outer[i];
    }
    for (Marginal& m : out) {
      for (double& w : m.weight) w /= all;
    }
    return out;
  }

  const PoolPrior& prior_;
  std::size_t groups_;
  const GroupLikelihood& likelihood_;
  int threads_;
  Effects effects_;
};

Box whole_box(const PoolPrior& prior) {
  constexpr std::size_t kOfMean = 25, kOfBetween = 15, kOfNuisance = 7;
  Box box{Stretch{prior.mean - kReach * prior.mean_sd, prior.mean + kReach * prior.mean_sd, kOfMean},
          Stretch{0.0, kReach * prior.between, kOfBetween}, Stretch{0.0, 1.0, 1}, Stretch{0.0, 1.0, 1}};
  for (std::size_t i = 0; i < prior.nuisances.size(); ++i) box[2 + i] = {0.0, kReach * prior.nuisances[i], kOfNuisance};
  return box;
}

// Where the posterior lies, within the whole box. A grid that is too coarse hides how narrow it is: half a cell more.
Box drawn_in(const Box& whole, const std::vector<Marginal>& marginals) {
  Box box = whole;
  for (std::size_t u = 0; u < box.size(); ++u) {
    if (box[u].count == 1) continue;
    const Marginal& m = marginals[u];
    const double half = kReach * std::sqrt(m.variance() + m.over.step() * m.over.step() / 6.0);
    box[u].low = std::max(whole[u].low, m.mean() - half);
    box[u].high = std::min(whole[u].high, m.mean() + half);
  }
  return box;
}

bool much_smaller(const Box& box, const Box& than) {
  constexpr double kShare = 0.75;  // of a stretch: below, another look pays
  for (std::size_t u = 0; u < box.size(); ++u) {
    if (box[u].step() < kShare * than[u].step()) return true;
  }
  return false;
}

}  // namespace

double PoolPrior::new_group_sd() const { return std::hypot(mean_sd, between); }
double Pooled::new_group_sd() const { return std::hypot(sd, between_sd); }

Pooled pool(const PoolPrior& prior, std::size_t groups, const GroupLikelihood& likelihood, int threads) {
  if (prior.nuisances.size() > kMostNuisances) throw InputError("at most two nuisances can be pooled over");
  bool above = prior.mean_sd > 0.0 && prior.between > 0.0;
  for (const double scale : prior.nuisances) above = above && scale > 0.0;
  if (!above || !std::isfinite(prior.mean)) throw InputError("the scales of a prior must be above 0");
  const Summing summing(prior, groups, likelihood, threads);
  const Box whole = whole_box(prior);
  Box box = whole;
  std::vector<Marginal> marginals = summing.over(box);
  constexpr int kMostLooks = 8;
  for (int look = 1; look < kMostLooks; ++look) {
    const Box next = drawn_in(whole, marginals);
    if (!much_smaller(next, box)) break;
    box = next;
    marginals = summing.over(box);
  }
  const Marginal &mean = marginals[0], &between = marginals[1];
  return {.mean = mean.mean(),
          .sd = std::sqrt(mean.variance()),
          .low = mean.quantile(0.1),
          .high = mean.quantile(0.9),
          .between_sd = std::sqrt(between.mean_square()),
          .between_low = between.quantile(0.1),
          .between_high = between.quantile(0.9),
          .groups = groups};
}

namespace {

// What points say of four slopes. Each point is normal about (mean, intercept + slope mean), which may be any; sums of
// inverse covariances W, of W z and of z' W z, z from the first point.
[[gnu::always_inline]] inline void add_four(std::span<const SeriesPoint> series, double spread_x, double spread_y,
                                            const double* slopes, double* logs) {
  constexpr double kLeast = 1e-150;  // and most: beyond, a product goes into its logarithm
  Four slope, xx{}, xy{}, yy{}, x{}, y{}, square{};
  __builtin_memcpy(&slope, slopes, sizeof slope);
  Four dets{1.0, 1.0, 1.0, 1.0}, log_dets{};
  const auto take = [&](const Four& det) {
    dets *= det > kLeast ? det : Four{kLeast, kLeast, kLeast, kLeast};
    for (int i = 0; i < 4; ++i) {
      if (dets[i] > kLeast && dets[i] < 1.0 / kLeast) continue;
      log_dets[i] += logarithm(dets[i]);
      dets[i] = 1.0;
    }
  };
  for (const SeriesPoint& p : series) {
    const double a = spread_x * spread_x + p.var_x;
    const Four b = slope * spread_x * spread_x + p.cov_xy,
               c = slope * slope * spread_x * spread_x + (spread_y * spread_y + p.var_y), det = a * c - b * b;
    const Four by = 1.0 / det, wxx = c * by, wxy = -b * by, wyy = a * by;
    const double dx = p.x - series[0].x, dy = p.y - series[0].y;
    take(det);
    xx += wxx;
    xy += wxy;
    yy += wyy;
    x += wxx * dx + wxy * dy;
    y += wxy * dx + wyy * dy;
    square += wxx * (dx * dx) + wxy * (2.0 * dx * dy) + wyy * (dy * dy);
  }
  const Four det = xx * yy - xy * xy;
  const Four fitted = (yy * x * x - 2.0 * xy * x * y + xx * y * y) / det;
  take(det);
  for (int i = 0; i < 4; ++i) logs[i] -= 0.5 * (log_dets[i] + logarithm(dets[i]) + square[i] - fitted[i]);
}

[[gnu::always_inline]] inline void add_here(std::span<const SeriesPoint> series, double spread_x, double spread_y,
                                            std::span<const double> slopes, std::span<double> logs) {
  std::size_t i = 0;
  for (; i + 4 <= slopes.size(); i += 4) add_four(series, spread_x, spread_y, slopes.data() + i, logs.data() + i);
  if (i == slopes.size()) return;
  std::array<double, 4> last{}, of_last{};
  std::copy(slopes.begin() + static_cast<std::ptrdiff_t>(i), slopes.end(), last.begin());
  add_four(series, spread_x, spread_y, last.data(), of_last.data());
  for (std::size_t k = 0; i < slopes.size(); ++i, ++k) logs[i] += of_last[k];
}

#ifdef LOFTWRIGHT_WIDE_LANES
[[gnu::target("avx2")]] void add_wide(std::span<const SeriesPoint> series, double spread_x, double spread_y,
                                      std::span<const double> slopes, std::span<double> logs) {
  add_here(series, spread_x, spread_y, slopes, logs);
}
#endif

}  // namespace

void add_slope_log_likelihoods(std::span<const SeriesPoint> series, double spread_x, double spread_y,
                               std::span<const double> slopes, std::span<double> logs) {
  if (series.size() < 2) return;
#ifdef LOFTWRIGHT_WIDE_LANES
  if (__builtin_cpu_supports("avx2")) return add_wide(series, spread_x, spread_y, slopes, logs);
#endif
  add_here(series, spread_x, spread_y, slopes, logs);
}

}  // namespace loftwright
