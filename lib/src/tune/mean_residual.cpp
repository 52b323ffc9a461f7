#include "tune/mean_residual.hpp"

namespace loftwright {

template <class Matrix>
Matrix MeanResidual::Weigher::weighed(const Matrix& rows) const {
  return place * own.solve(rows);
}

Eigen::Index MeanResidual::place_of(std::size_t reading) const {
  return static_cast<Eigen::Index>(std::distance(rows_.begin(), rows_.find(reading)));
}

MeanResidual::MeanResidual(const Gatherer& model, std::span<const Evidence* const> shots,
                           const ByTuneReading<double>& widened)
    : model_(model), shots_(shots) {
  for (const Evidence* e : shots) rows_.insert(e->readings.begin(), e->readings.end());
  const auto count = static_cast<Eigen::Index>(rows_.size());
  RowsByRows information = RowsByRows::Zero(count, count);
  RowsBySources shared = RowsBySources::Zero(count, kSources);
  for (const Evidence* e : shots) {
    RowsByRows own = e->own;
    for (Eigen::Index i = 0; i < own.rows(); ++i) {
      const double more = widened[e->readings[static_cast<std::size_t>(i)]];
      own(i, i) += more * more;
    }
    Weigher w{Eigen::LLT<RowsByRows>(own), RowsByRows::Zero(count, own.rows())};
    for (Eigen::Index i = 0; i < own.rows(); ++i) w.place(place_of(e->readings[static_cast<std::size_t>(i)]), i) = 1.0;
    information += w.place * w.own.solve(RowsByRows(w.place.transpose()));
    shared += w.place * w.own.solve(e->shared);
    weighers_.push_back(std::move(w));
  }
  own_.compute(information);
  shared = own_.solve(shared);
  all_.compute(RowsByRows(own_.solve(RowsByRows::Identity(count, count)) + shared.lazyProduct(shared.transpose())));
}

Standing MeanResidual::at(const Tunables& place) const {
  Rows mean = Rows::Zero(static_cast<Eigen::Index>(rows_.size()));
  RowsByTunables slope = RowsByTunables::Zero(mean.size(), kTunables);
  for (std::size_t i = 0; i < shots_.size(); ++i) {
    const Residual r = model_.residual_and_slope(*shots_[i], place);
    mean += weighers_[i].weighed(r.value);
    slope += weighers_[i].weighed(r.slope);
  }
  mean = own_.solve(mean);
  slope = own_.solve(slope);
  const Rows weighed = all_.solve(mean);
  const RowsByTunables slope_weighed = all_.solve(slope);
  return {place, mean.dot(weighed) + place.squaredNorm(), slope.transpose().lazyProduct(weighed) + place,
          slope.transpose().lazyProduct(slope_weighed) + TunablesSquared::Identity()};
}

double MeanResidual::scatter(const Tunables& place) const {
  Rows sum = Rows::Zero(static_cast<Eigen::Index>(rows_.size()));
  double squares = 0.0;
  for (std::size_t i = 0; i < shots_.size(); ++i) {
    const Rows r = model_.residual(*shots_[i], place);
    sum += weighers_[i].weighed(r);
    squares += r.dot(weighers_[i].own.solve(r));
  }
  return squares - sum.dot(own_.solve(sum));
}

}  // namespace loftwright
