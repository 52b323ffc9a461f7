#include "advise/trade.hpp"

#include <algorithm>
#include <cmath>

#include "advise/draws.hpp"
#include "core/parallel.hpp"

namespace loftwright {

namespace {

// Lofts to lay the trade out for: the clubs on offer, or whole degrees of a range and its ends. Of settings those of
// the club in hand and what `both` names; other heads as they are marked.
std::vector<std::pair<LoftChoice, double>> trade_lofts(const Pupil& pupil, const LoftChoice& own, const Found& both) {
  std::vector<std::pair<LoftChoice, double>> lofts;
  const bool named =
      std::any_of(pupil.lofts.begin(), pupil.lofts.end(), [](const LoftChoice& c) { return !c.setting.empty(); });
  if (named) lofts = {{both.club, both.point.loft}, {own, pupil.club_loft}};  // of one loft the first is shown
  for (const LoftChoice& c : pupil.lofts) {
    if (named && c.has_sleeve && !c.in_hand && (c.low != c.nominal || c.face != 0.0)) continue;
    lofts.emplace_back(c, c.low);
    if (c.high <= c.low) continue;
    for (double degree = std::floor(c.low / kDegree) + 1.0; degree * kDegree < c.high - 1e-6; degree += 1.0) {
      lofts.emplace_back(c, degree * kDegree);
    }
    lofts.emplace_back(c, c.high);
  }
  lofts.emplace_back(own, pupil.club_loft);
  const auto same = [](const auto& a, const auto& b) { return std::abs(a.second - b.second) < 0.01 * kDegree; };
  std::stable_sort(lofts.begin(), lofts.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  lofts.erase(std::unique(lofts.begin(), lofts.end(), same), lofts.end());
  return lofts;
}

// Walks outward from the present attack both ways and stops where the goal first reaches `wanted` within the limits.
class TradeWalk {
 public:
  TradeWalk(const DriveModel& model, const LoftChoice& club, double loft) : model_(model), club_(club), loft_(loft) {
    const double now = model.pupil().delivery.attack;
    const Interval& reach = model.pupil().reach.attack;
    constexpr int kSteps = 8;
    for (const double end : {reach.low, reach.high}) {
      auto& side = sides_.emplace_back();
      for (int i = 0; i <= (end == now ? 0 : kSteps); ++i)
        side.push_back(model.value(club, loft, now + (end - now) * i / kSteps));
    }
  }

  const Point& present() const { return sides_[0][0]; }

  std::optional<double> change_for(double wanted) const {
    std::optional<double> least;
    for (const auto& side : sides_) {
      for (std::size_t i = 0; i < side.size(); ++i) {
        if (!reaches(side[i], wanted)) continue;
        const double at = i == 0 ? side[0].attack : between(side[i - 1], side[i], wanted);
        const double change = at - side[0].attack;
        if (!least || std::abs(change) < std::abs(*least)) least = change;
        break;
      }
    }
    return least;
  }

 private:
  static bool reaches(const Point& p, double wanted) { return p.goal >= wanted && p.worst() <= kLimitSlack; }

  double between(const Point& short_of, const Point& enough, double wanted) const {
    double low = short_of.attack, high = enough.attack;
    while (std::abs(high - low) > 0.02 * kDegree) {
      const double middle = 0.5 * (low + high);
      (reaches(model_.value(club_, loft_, middle), wanted) ? high : low) = middle;
    }
    return high;
  }

  const DriveModel& model_;
  LoftChoice club_;
  double loft_;
  std::vector<std::vector<Point>> sides_;
};

}  // namespace

std::vector<TradeRow> trade_table(const DriveModel& model, const Found& as_is, const Found& both,
                                  const AdviseOptions& options) {
  const double base = as_is.point.goal, whole = both.point.goal - base;
  const auto lofts = trade_lofts(model.pupil(), as_is.club, both);
  std::vector<Found> at_present(lofts.size());
  std::vector<TradeRow> rows(lofts.size());
  parallel_for(lofts.size(), options.threads, [&](std::size_t n) {
    const auto& [club, loft] = lofts[n];
    const TradeWalk walk(model, club, loft);
    rows[n] = {loft, walk.present().goal - base, walk.present().worst() > kLimitSlack, {}};
    for (std::size_t i = 0; i < kTradeShares.size(); ++i)
      rows[n].attack_change[i] = walk.change_for(base + kTradeShares[i] * whole);
    at_present[n] = {walk.present(), club, 0.0, 0.0, {}};
  });
  if (options.draws > 0) {  // as the gains above are averaged
    const std::vector<double> gains = average_gains(model, as_is, at_present, options);
    for (std::size_t i = 0; i < rows.size(); ++i) rows[i].gain_at_present_attack = gains[i];
  }
  return rows;
}

}  // namespace loftwright
