// The mean residual of many shots and its covariance: what a fit makes small.
#pragma once

#include <set>
#include <span>
#include <vector>

#include "tune/fit.hpp"

namespace loftwright {

// Where one evaluation stands.
struct Standing {
  Tunables at;
  double chi_square;          // of the mean residual and of the way from the prior
  Tunables slope;             // of half of it
  TunablesSquared curvature;  // likewise, by Gauss and Newton
};

class MeanResidual {
 public:
  // Model and shots must outlive it.
  MeanResidual(const Gatherer& model, std::span<const Evidence* const> shots, const ByTuneReading<double>& widened);

  Standing at(const Tunables& place) const;
  double scatter(const Tunables& place) const;  // of the shots' residuals about their mean
  double readings() const { return static_cast<double>(rows_.size()); }

 private:
  // The inverse of a shot's own covariance, and where its rows stand among all.
  struct Weigher {
    Eigen::LLT<RowsByRows> own;
    RowsByRows place;

    template <class Matrix>
    Matrix weighed(const Matrix& rows) const;
  };

  Eigen::Index place_of(std::size_t reading) const;

  const Gatherer& model_;
  std::span<const Evidence* const> shots_;
  std::set<std::size_t> rows_;  // of kTuneReadings: those that any shot has
  std::vector<Weigher> weighers_;
  Eigen::LLT<RowsByRows> own_;  // of the inverse of the mean's covariance, by the shots' own errors
  Eigen::LLT<RowsByRows> all_;  // of the mean's covariance, by own and shared errors
};

}  // namespace loftwright
