#include "loftwright/stats/detail/pool.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/parallel.hpp"
#include "loftwright/core/detail/constants.hpp"

namespace loftwright {

namespace {

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
    log_ += std::log(product_);
    product_ = 1.0;
  }
  double log() const { return log_ + std::log(product_); }

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
      : over_{prior.mean - 8.0 * prior.new_group_sd(), prior.mean + 8.0 * prior.new_group_sd(), 161} {}

  std::size_t count() const { return over_.count; }
  double at(std::size_t i) const { return over_.at(i); }

  // Between two values a likelihood is taken as straight, so that this holds for any spread, one of nearly nothing too:
  // a normal density against the hat of each value. Its second integral: (x - mean) Phi + between phi.
  std::vector<double> shares(double mean, double between) const {
    const auto twice = [&](double x) {
      const double z = (x - mean) / between;
      return (x - mean) * 0.5 * std::erfc(-z / std::sqrt(2.0)) +
             between * std::exp(-0.5 * z * z) / std::sqrt(2.0 * kPi);
    };
    std::vector<double> out(count());
    double before = twice(over_.at(0) - over_.step()), here = twice(over_.at(0));
    for (std::size_t i = 0; i < count(); ++i) {
      const double next = twice(over_.at(i) + over_.step());
      out[i] = std::max(0.0, (before - 2.0 * here + next) / over_.step());
      before = here;
      here = next;
    }
    return out;
  }

 private:
  Stretch over_;
};

// The posterior over a box, one unknown at a time.
class Summing {
 public:
  Summing(const PoolPrior& prior, std::size_t groups, const GroupLikelihood& likelihood, int threads)
      : prior_(prior), groups_(groups), likelihood_(likelihood), threads_(threads), effects_(prior) {}

  std::vector<Marginal> over(const Box& box) const {
    const std::size_t outer = box[0].count * box[1].count, inner = box[2].count * box[3].count;
    std::vector<double> shares(effects_.count() * outer);  // of each effect those of every mean and spread
    for (std::size_t i = 0; i < outer; ++i) {
      const std::vector<double> of_one = effects_.shares(box[0].at(i / box[1].count), box[1].at(i % box[1].count));
      for (std::size_t k = 0; k < of_one.size(); ++k) shares[k * outer + i] = of_one[k];
    }
    std::vector<double> log_weight(outer * inner);
    parallel_for(inner, threads_, [&](std::size_t j) {
      const std::array<double, kMostNuisances> nuisances{box[2].at(j / box[3].count), box[3].at(j % box[3].count)};
      const std::vector<double> of_groups = log_of_groups(nuisances, shares, outer);
      for (std::size_t i = 0; i < outer; ++i) {
        log_weight[j * outer + i] =
            of_groups[i] + log_prior(box[0].at(i / box[1].count), box[1].at(i % box[1].count), nuisances);
      }
    });
    return marginals(box, log_weight);
  }

 private:
  double log_prior(double mean, double between, const std::array<double, kMostNuisances>& nuisances) const {
    const auto term = [](double z) { return -0.5 * z * z; };
    double out = term((mean - prior_.mean) / prior_.mean_sd) + term(between / prior_.between);
    for (std::size_t i = 0; i < prior_.nuisances.size(); ++i) out += term(nuisances[i] / prior_.nuisances[i]);
    return out;
  }

  // Of every mean and spread, the effects of the groups integrated out.
  std::vector<double> log_of_groups(std::span<const double> nuisances, const std::vector<double>& shares,
                                    std::size_t outer) const {
    constexpr double kNothing = 1e-20;  // of the likeliest effect
    std::vector<double> out(outer, 0.0), like(effects_.count()), sums(outer);
    std::vector<Product> products(outer);
    struct Row {
      const double* shares;
      double like;
    };
    std::vector<Row> rows;
    for (std::size_t g = 0; g < groups_; ++g) {
      for (std::size_t k = 0; k < like.size(); ++k)
        like[k] = likelihood_(g, effects_.at(k), nuisances.first(prior_.nuisances.size()));
      const double most = *std::max_element(like.begin(), like.end());
      rows.clear();
      for (std::size_t k = 0; k < like.size(); ++k) {
        const double l = std::exp(like[k] - most);
        if (l >= kNothing) rows.push_back({shares.data() + k * outer, l});
      }
      while (rows.size() % 4 != 0) rows.push_back({shares.data(), 0.0});
      std::fill(sums.begin(), sums.end(), 0.0);
      for (std::size_t k = 0; k < rows.size(); k += 4) {  // four at a time: the sums stay in registers longer
        const Row &a = rows[k], &b = rows[k + 1], &c = rows[k + 2], &d = rows[k + 3];
        for (std::size_t i = 0; i < outer; ++i) {
          sums[i] = sums[i] + a.shares[i] * a.like + b.shares[i] * b.like + c.shares[i] * c.like + d.shares[i] * d.like;
        }
      }
      for (std::size_t i = 0; i < outer; ++i) {
        out[i] += most;
        products[i].take(sums[i]);
      }
    }
    for (std::size_t i = 0; i < outer; ++i) out[i] += products[i].log();
    return out;
  }

  std::vector<Marginal> marginals(const Box& box, std::vector<double>& log_weight) const {
    std::vector<Marginal> out;
    for (const Stretch& stretch : box) out.push_back({stretch, std::vector<double>(stretch.count, 0.0)});
    const double most = *std::max_element(log_weight.begin(), log_weight.end());
    double sum = 0.0;
    for (double& w : log_weight) sum += w = std::exp(w - most);
    const std::size_t outer = box[0].count * box[1].count;
    for (std::size_t n = 0; n < log_weight.size(); ++n) {
      const std::size_t i = n % outer, j = n / outer;
      const std::array<std::size_t, 4> at{i / box[1].count, i % box[1].count, j / box[3].count, j % box[3].count};
      for (std::size_t u = 0; u < at.size(); ++u) out[u].weight[at[u]] += log_weight[n] / sum;
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

double slope_log_likelihood(std::span<const SeriesPoint> series, double slope, double spread_x, double spread_y) {
  if (series.size() < 2) return 0.0;
  // Each point is normal about (mean, intercept + slope mean), which may be any; sums of inverse covariances W, of W z
  // and of z' W z, z from the first point.
  Product dets;
  double xx = 0.0, xy = 0.0, yy = 0.0, x = 0.0, y = 0.0, square = 0.0;
  for (const SeriesPoint& p : series) {
    const double a = spread_x * spread_x + p.var_x, b = slope * spread_x * spread_x + p.cov_xy,
                 c = slope * slope * spread_x * spread_x + spread_y * spread_y + p.var_y, det = a * c - b * b;
    const double wxx = c / det, wxy = -b / det, wyy = a / det;
    const double dx = p.x - series[0].x, dy = p.y - series[0].y;
    dets.take(det);
    xx += wxx;
    xy += wxy;
    yy += wyy;
    x += wxx * dx + wxy * dy;
    y += wxy * dx + wyy * dy;
    square += wxx * dx * dx + 2.0 * wxy * dx * dy + wyy * dy * dy;
  }
  const double det = xx * yy - xy * xy;
  const double fitted = (yy * x * x - 2.0 * xy * x * y + xx * y * y) / det;
  return -0.5 * (dets.log() + std::log(det) + square - fitted);
}

}  // namespace loftwright
