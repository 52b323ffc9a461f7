#include "advise/surface.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/parallel.hpp"

namespace loftwright {

namespace {

const double kRootHalf = std::sqrt(0.5);
using Terms = std::vector<double>;
using Line = std::array<float, SurfacePoints::kBlock>;  // a value at each point of a block

// Four sums side by side, added up at the end: the same on every processor.
float dot(const float* a, const float* b) {
  using Four [[gnu::vector_size(16)]] = float;
  Four sums[4] = {};
  for (std::size_t n = 0; n < SurfacePoints::kBlock; n += 16) {
    for (std::size_t k = 0; k < 4; ++k) {
      Four x, y;
      __builtin_memcpy(&x, a + n + 4 * k, sizeof x);
      __builtin_memcpy(&y, b + n + 4 * k, sizeof y);
      sums[k] += x * y;
    }
  }
  const Four s = (sums[0] + sums[1]) + (sums[2] + sums[3]);
  return (s[0] + s[1]) + (s[2] + s[3]);
}

double sum(const float* a) {
  static const Line kOnes = [] {
    Line ones;
    ones.fill(1.0f);
    return ones;
  }();
  return dot(a, kOnes.data());
}

// What terms give over a block: c + sum t_i (b_i + q_ii t_i / sqrt 2 + sum_{j > i} q_ij t_j).
void evaluate(const SurfacePoints& points, std::size_t block, const Terms& terms, Line& out) {
  const std::size_t d = points.dimensions();
  double constant = terms[0];
  for (std::size_t i = 0; i < d; ++i) constant -= kRootHalf * terms[1 + d + i];
  out.fill(static_cast<float>(constant));
  std::size_t pair = 1 + 2 * d;
  Line inner;
  for (std::size_t i = 0; i < d; ++i) {
    const float* t = points.of(block, i);
    const auto b = static_cast<float>(terms[1 + i]), q = static_cast<float>(kRootHalf * terms[1 + d + i]);
    for (std::size_t n = 0; n < SurfacePoints::kBlock; ++n) inner[n] = b + q * t[n];
    for (std::size_t j = i + 1; j < d; ++j, ++pair) {
      if (terms[pair] == 0.0) continue;
      const float* u = points.of(block, j);
      const auto p = static_cast<float>(terms[pair]);
      for (std::size_t n = 0; n < SurfacePoints::kBlock; ++n) inner[n] += p * u[n];
    }
    for (std::size_t n = 0; n < SurfacePoints::kBlock; ++n) out[n] += t[n] * inner[n];
  }
}

// Sums over a block of each term times `values`.
void project(const SurfacePoints& points, std::size_t block, const Line& values, Terms& sums) {
  const std::size_t d = points.dimensions();
  const double whole = sum(values.data());
  sums[0] = whole;
  std::size_t pair = 1 + 2 * d;
  Line times;
  for (std::size_t i = 0; i < d; ++i) {
    const float* t = points.of(block, i);
    for (std::size_t n = 0; n < SurfacePoints::kBlock; ++n) times[n] = t[n] * values[n];
    sums[1 + i] = sum(times.data());
    sums[1 + d + i] = kRootHalf * (dot(times.data(), t) - whole);
    for (std::size_t j = i + 1; j < d; ++j, ++pair) sums[pair] = dot(times.data(), points.of(block, j));
  }
}

double scalar_product(const Terms& a, const Terms& b) {
  double s = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) s += a[i] * b[i];
  return s;
}

// The means over all points of each term times what `values_in` fills a block with, one set a surface.
template <class ValuesIn>
std::vector<Terms> means(const SurfacePoints& points, std::size_t surfaces, std::size_t size, int threads,
                         const ValuesIn& values_in) {
  std::vector<Terms> parts(points.blocks() * surfaces);
  parallel_for(points.blocks(), threads, [&](std::size_t block) {
    Line line;
    for (std::size_t k = 0; k < surfaces; ++k) {
      Terms& part = parts[block * surfaces + k];
      part.resize(size);
      values_in(block, k, line);
      project(points, block, line, part);
    }
  });
  std::vector<Terms> out(surfaces, Terms(size));
  for (std::size_t block = 0; block < points.blocks(); ++block) {
    for (std::size_t k = 0; k < surfaces; ++k) {
      for (std::size_t i = 0; i < size; ++i) out[k][i] += parts[block * surfaces + k][i];
    }
  }
  for (Terms& terms : out) {
    for (double& x : terms) x /= static_cast<double>(points.count());
  }
  return out;
}

// What is left of values over a surface's own value, by Hermite polynomials of second to fourth order of that value: a
// cubic bend.
struct Bend {
  double mean, sd, second = 0.0, third = 0.0;

  double at(double value) const {
    const double s = std::clamp((value - mean) / sd, -4.0, 4.0), s2 = s * s;
    return second * (s2 - 1.0) + third * s * (s2 - 3.0);
  }
};

Bend bend_of(const std::vector<float>& values, const std::vector<float>& fitted, double residual_sd) {
  const auto n = static_cast<double>(values.size());
  double mean = 0.0, square = 0.0;
  for (const float f : fitted) mean += f / n;
  for (const float f : fitted) square += (f - mean) * (f - mean) / n;
  Bend bend{mean, std::sqrt(square)};
  if (bend.sd < 1e-9) return {mean, 1.0};
  double by_second = 0.0, by_third = 0.0, s22 = 0.0, s33 = 0.0, s23 = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double s = std::clamp((fitted[i] - mean) / bend.sd, -4.0, 4.0), a = s * s - 1.0, b = s * (s * s - 3.0);
    const double left = values[i] - fitted[i];
    by_second += a * left, by_third += b * left;
    s22 += a * a, s33 += b * b, s23 += a * b;
  }
  const double determinant = s22 * s33 - s23 * s23;
  if (determinant <= 1e-6 * s22 * s33) return bend;
  bend.second = (by_second * s33 - by_third * s23) / determinant;
  bend.third = (by_third * s22 - by_second * s23) / determinant;
  constexpr double kTold = 3.0;  // standard errors
  if (std::abs(bend.second) < kTold * residual_sd / std::sqrt(s22)) bend.second = 0.0;
  if (std::abs(bend.third) < kTold * residual_sd / std::sqrt(s33)) bend.third = 0.0;
  return bend;
}

// The largest mean of what is left over a tenth of the points, in the order of the fitted values, less what chance
// brings.
double misfit_of(const std::vector<float>& values, const std::vector<float>& fitted, double residual_sd) {
  constexpr std::size_t kParts = 10;
  std::vector<float> ends = fitted;
  std::array<float, kParts> upto;
  for (std::size_t p = 0; p + 1 < kParts; ++p) {
    const auto at = ends.begin() + static_cast<std::ptrdiff_t>((p + 1) * ends.size() / kParts);
    std::nth_element(ends.begin() + static_cast<std::ptrdiff_t>(p * ends.size() / kParts), at, ends.end());
    upto[p] = *at;
  }
  std::array<double, kParts> left{}, count{};
  for (std::size_t i = 0; i < values.size(); ++i) {
    const auto part =
        static_cast<std::size_t>(std::upper_bound(upto.begin(), upto.end() - 1, fitted[i]) - upto.begin());
    left[part] += values[i] - fitted[i];
    count[part] += 1.0;
  }
  double worst = 0.0;
  for (std::size_t p = 0; p < kParts; ++p) {
    if (count[p] < 2.0) continue;
    const double mean = left[p] / count[p];
    worst = std::max(worst, mean * mean - residual_sd * residual_sd / count[p]);
  }
  return std::sqrt(worst);
}

}  // namespace

std::vector<GainSurface> GainSurface::fit(const SurfacePoints& points, std::span<const std::vector<float>> values,
                                          int threads, std::vector<std::vector<float>>& at_points) {
  const std::size_t surfaces = values.size(), d = points.dimensions();
  std::vector<GainSurface> out(surfaces, GainSurface(d));
  const std::size_t size = out.empty() ? 0 : out[0].terms_.size();
  // Conjugate gradients on the normal equations, whose matrix is nearly one: the points are even, the terms
  // orthonormal.
  constexpr int kSteps = 3;
  std::vector<Terms> left = means(points, surfaces, size, threads, [&](std::size_t block, std::size_t k, Line& line) {
    std::copy_n(values[k].begin() + static_cast<std::ptrdiff_t>(block * SurfacePoints::kBlock), SurfacePoints::kBlock,
                line.begin());
  });
  const std::vector<Terms> with_values = left;
  std::vector<Terms> way = left;
  std::vector<double> size_left(surfaces);
  for (std::size_t k = 0; k < surfaces; ++k) size_left[k] = scalar_product(left[k], left[k]);
  for (int step = 0; step < kSteps; ++step) {
    const std::vector<Terms> image =
        means(points, surfaces, size, threads,
              [&](std::size_t block, std::size_t k, Line& line) { evaluate(points, block, way[k], line); });
    for (std::size_t k = 0; k < surfaces; ++k) {
      const double along = scalar_product(way[k], image[k]);
      if (!(along > 1e-18)) continue;
      const double by = size_left[k] / along;
      for (std::size_t i = 0; i < size; ++i) {
        out[k].terms_[i] += by * way[k][i];
        left[k][i] -= by * image[k][i];
      }
      const double now = scalar_product(left[k], left[k]), keep = now / size_left[k];
      size_left[k] = now;
      for (std::size_t i = 0; i < size; ++i) way[k][i] = left[k][i] + keep * way[k][i];
    }
  }

  at_points.assign(surfaces, std::vector<float>(points.count()));
  const auto lay_out = [&] {
    parallel_for(points.blocks(), threads, [&](std::size_t block) {
      Line line;
      for (std::size_t k = 0; k < surfaces; ++k) {
        evaluate(points, block, out[k].terms_, line);
        std::copy(line.begin(), line.end(),
                  at_points[k].begin() + static_cast<std::ptrdiff_t>(block * SurfacePoints::kBlock));
      }
    });
  };
  const auto residual_sd = [&](std::size_t k) {
    double squares = 0.0;
    for (std::size_t i = 0; i < points.count(); ++i) {
      const double e = static_cast<double>(values[k][i]) - at_points[k][i];
      squares += e * e;
    }
    return std::sqrt(squares / static_cast<double>(points.count()));
  };
  constexpr double kTold = 2.0;  // standard errors: a term within them adds more noise than it tells
  for (std::size_t k = 0; k < surfaces; ++k) {
    // Of the residuals, from what the normal equations know already.
    double squares = 0.0;
    for (const float v : values[k]) squares += static_cast<double>(v) * v;
    const auto count = static_cast<double>(points.count());
    const double variance =
        squares / count - scalar_product(out[k].terms_, with_values[k]) - scalar_product(out[k].terms_, left[k]);
    const double error = std::sqrt(std::max(0.0, variance) / count);
    for (std::size_t i = 1; i < size; ++i) {
      if (std::abs(out[k].terms_[i]) < kTold * error) out[k].terms_[i] = 0.0;
    }
  }
  lay_out();
  parallel_for(surfaces, threads, [&](std::size_t k) {
    const Bend bend = bend_of(values[k], at_points[k], residual_sd(k));
    for (float& f : at_points[k]) f += static_cast<float>(bend.at(f));
    out[k].misfit_ = misfit_of(values[k], at_points[k], residual_sd(k));
  });
  return out;
}

GainSurface GainSurface::minus(const GainSurface& other) const {
  GainSurface difference = *this;
  for (std::size_t i = 0; i < terms_.size(); ++i) difference.terms_[i] -= other.terms_[i];
  return difference;
}

double GainSurface::variance() const {
  double all = 0.0;
  for (std::size_t i = 1; i < terms_.size(); ++i) all += terms_[i] * terms_[i];
  return all;
}

GainSurface::Share GainSurface::share(std::span<const std::size_t> group) const {
  const double all = variance();
  if (!(all > 0.0)) return {0.0, 0.0};
  std::vector<bool> in(dimensions_, false);
  for (const std::size_t i : group) in[i] = true;
  double alone = 0.0, any = 0.0;
  for (std::size_t i = 0; i < dimensions_; ++i) {
    const double own = linear(i) * linear(i) + squared(i) * squared(i);
    if (in[i]) alone += own, any += own;
    for (std::size_t j = i + 1; j < dimensions_; ++j) {
      const double both = product(i, j) * product(i, j);
      if (in[i] && in[j]) alone += both;
      if (in[i] || in[j]) any += both;
    }
  }
  return {alone / all, any / all};
}

double GainSurface::given(std::span<const std::size_t> group, std::span<const double> at, double shrink) const {
  double value = mean();
  const double second = shrink * shrink;
  for (std::size_t a = 0; a < group.size(); ++a) {
    const std::size_t i = group[a];
    value += shrink * linear(i) * at[a] + second * squared(i) * kRootHalf * (at[a] * at[a] - 1.0);
    for (std::size_t b = a + 1; b < group.size(); ++b) {
      const std::size_t j = group[b];
      value += second * product(std::min(i, j), std::max(i, j)) * at[a] * at[b];
    }
  }
  return value;
}

}  // namespace loftwright
