#include "advise/scatter.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "advise/finish.hpp"
#include "loftwright/core/error.hpp"
#include "loftwright/shot/drives.hpp"
#include "stats/quasi.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kPath = 2, kFace = 3;  // in the order of Spread

constexpr double Spread::*kDeviations[kSpreadQuantities] = {&Spread::club_speed, &Spread::attack,       &Spread::path,
                                                            &Spread::face,       &Spread::dynamic_loft, &Spread::toe,
                                                            &Spread::high};

}  // namespace

template <std::size_t N>
std::array<std::array<double, N>, N> root_of(const std::array<double, N>& sd,
                                             const std::vector<Spread::Correlation>& correlations,
                                             const std::string& what) {
  using Matrix = Eigen::Matrix<double, N, N>;
  Matrix together = Matrix::Identity();
  for (const auto& c : correlations) together(c.first, c.second) = together(c.second, c.first) = c.value;
  const Eigen::LLT<Matrix> cholesky(together);
  if (cholesky.info() != Eigen::Success) {
    throw InputError(what + ": these correlations cannot all hold together (their matrix is not positive definite)");
  }
  std::array<std::array<double, N>, N> root{};
  for (std::size_t i = 0; i < N; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      root[i][j] = sd[i] * cholesky.matrixL()(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
    }
  }
  return root;
}

template std::array<std::array<double, kCountOf<Tunable>>, kCountOf<Tunable>> root_of(
    const std::array<double, kCountOf<Tunable>>&, const std::vector<Spread::Correlation>&, const std::string&);

Scatter::Scatter(const Pupil& pupil) : left_(pupil.handed == Handed::left) {
  const Spread spread = pupil.spread ? *pupil.spread : usual_spread(pupil.skill, pupil.delivery.club_speed);
  std::array<double, kSpreadQuantities> sd;
  for (std::size_t i = 0; i < sd.size(); ++i) sd[i] = spread.*kDeviations[i];
  root_ = root_of(sd, spread.correlations, "spread");
}

Delivery Scatter::at(const Deviates& z) const {
  Delivery deviation{};
  for (std::size_t i = 0; i < kSpreadOf.size(); ++i) {
    for (std::size_t j = 0; j <= i; ++j)
      deviation.*kSpreadOf[i] += root_[i][j] * (left_ && (j == kPath || j == kFace) ? -z[j] : z[j]);
  }
  return deviation;
}

bool Scatter::any() const {
  return std::any_of(root_.begin(), root_.end(), [](const auto& row) {
    return std::any_of(row.begin(), row.end(), [](double x) { return x != 0.0; });
  });
}

std::vector<Finish> finishes(const Pupil& pupil, const Setting& setting, const Delivery& mean,
                             const FinishOptions& options) {
  const Scatter scatter(pupil);
  const auto count = static_cast<std::size_t>(options.count);
  const std::vector<double> points = sobol_points(count, kSpreadQuantities, options.seed);
  std::vector<DriveInput> inputs(count);
  for (std::size_t n = 0; n < count; ++n) {
    Scatter::Deviates z;
    for (std::size_t i = 0; i < z.size(); ++i) z[i] = normal_quantile(points[n * z.size() + i]);
    inputs[n].delivery = mean + scatter.at(z);
  }
  std::vector<Finish> out;
  out.reserve(count);
  for (const Drive& drive : drive_many(inputs, pupil.handed, setting, options.tolerance))
    out.push_back({drive.total, drive.side_at_rest});
  return out;
}

FinishEllipse ellipse_of(const std::vector<Finish>& finishes, double share) {
  FinishEllipse e;
  const double n = static_cast<double>(finishes.size());
  for (const Finish& f : finishes) {
    e.centre.along += f.along / n;
    e.centre.side += f.side / n;
  }
  double along = 0.0, side = 0.0, together = 0.0;
  for (const Finish& f : finishes) {
    const double a = f.along - e.centre.along, s = f.side - e.centre.side;
    along += a * a / (n - 1.0);
    side += s * s / (n - 1.0);
    together += a * s / (n - 1.0);
  }
  // The squared distance from the centre of two normal deviates exceeds r^2 with probability exp(-r^2 / 2).
  const double reach = std::sqrt(-2.0 * std::log(1.0 - share));
  const double middle = 0.5 * (along + side), apart = std::hypot(0.5 * (along - side), together);
  e.longer = reach * std::sqrt(middle + apart);
  e.shorter = reach * std::sqrt(std::max(0.0, middle - apart));
  e.turn = 0.5 * std::atan2(2.0 * together, along - side);
  return e;
}

}  // namespace loftwright
