// A smooth surface through many scattered values: what is left of a drive's gain when the player's scatter is averaged
// away and only what is not known remains. Quadratic in standard normal coordinates, in Hermite's polynomials, which
// are orthonormal under them: so a term's square is its share of the variance (Sobol's decomposition, never out of
// range), and what is known of some coordinates leaves the terms of those alone.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace loftwright {

// Standard normal coordinates of many points, laid out for the fit: blocks of kBlock points, coordinate after
// coordinate.
class SurfacePoints {
 public:
  static constexpr std::size_t kBlock = 256;

  // `count` is a multiple of kBlock.
  SurfacePoints(std::size_t count, std::size_t dimensions)
      : count_(count), dimensions_(dimensions), values_(count * dimensions) {}

  std::size_t count() const { return count_; }
  std::size_t blocks() const { return count_ / kBlock; }
  std::size_t dimensions() const { return dimensions_; }
  float* of(std::size_t block, std::size_t coordinate) { return &values_[(block * dimensions_ + coordinate) * kBlock]; }
  const float* of(std::size_t block, std::size_t coordinate) const {
    return &values_[(block * dimensions_ + coordinate) * kBlock];
  }

 private:
  std::size_t count_, dimensions_;
  std::vector<float> values_;
};

class GainSurface {
 public:
  // One surface for each row of `values` (each with points.count() of them), by least squares; terms that are not told
  // from scatter are left out. `at_points` then holds what the surfaces give at the points, bent along their own value
  // by a cubic where the quadratic misfits. The same for any number of threads.
  static std::vector<GainSurface> fit(const SurfacePoints& points, std::span<const std::vector<float>> values,
                                      int threads, std::vector<std::vector<float>>& at_points);

  std::size_t dimensions() const { return dimensions_; }
  double mean() const { return terms_[0]; }
  double misfit() const {
    return misfit_;
  }  // what is left, on average, where it is left most: mean over a tenth of the points

  double linear(std::size_t i) const { return terms_[1 + i]; }
  double squared(std::size_t i) const { return terms_[1 + dimensions_ + i]; }        // of (t^2 - 1) / sqrt 2
  double product(std::size_t i, std::size_t j) const { return terms_[pair(i, j)]; }  // i < j

  // This surface less another, of the same points.
  GainSurface minus(const GainSurface& other) const;

  // Shares of the variance: of terms in `group` alone, and of all that hold any of it. Zero for a surface without
  // variance.
  struct Share {
    double alone, total;  // [-]
  };
  double variance() const;
  Share share(std::span<const std::size_t> group) const;

  // What is expected when the coordinates of `group` are known to stand at `at` (as many) to `shrink` of their width,
  // and the rest is not.
  double given(std::span<const std::size_t> group, std::span<const double> at, double shrink = 1.0) const;

 private:
  explicit GainSurface(std::size_t dimensions) : dimensions_(dimensions), terms_(pair(dimensions - 1, dimensions)) {}
  std::size_t pair(std::size_t i, std::size_t j) const {
    return 1 + 2 * dimensions_ + i * dimensions_ - i * (i + 1) / 2 + j - i - 1;
  }

  std::size_t dimensions_;
  std::vector<double> terms_;  // mean, linear, squared, products
  double misfit_ = 0.0;
};

}  // namespace loftwright
