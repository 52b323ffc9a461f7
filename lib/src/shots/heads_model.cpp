#include "shots/heads_model.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "shots/parts.hpp"
#include "stats/quasi.hpp"

namespace loftwright {

namespace {

using Shots = std::vector<const Shot*>;

double goal_in(const Drive& drive, Goal goal) { return goal == Goal::carry ? drive.flight.carry : drive.total; }

// Sum and count of one quantity, from which one shot can be taken away again.
struct Sum {
  double sum = 0.0;
  std::size_t count = 0;

  double mean_without(const std::optional<double>& value) const {
    if (!value) return count > 0 ? sum / static_cast<double>(count) : 0.0;
    return count > 1 ? (sum - *value) / static_cast<double>(count - 1) : sum;
  }
};

// Measured goal minus the model's for the mean delivery, of all shots or all but one.
class Beyond {
 public:
  Beyond(const Shots& shots, const std::vector<DeliveryPart>& parts, Goal goal, const Setting& setting, Handed handed)
      : shots_(shots), parts_(parts), goal_(goal), setting_(setting), handed_(handed), sums_(parts.size()) {
    for (const Shot* shot : shots) {
      add(measured_, goal_of(*shot));
      for (std::size_t i = 0; i < parts.size(); ++i) add(sums_[i], shot->at(parts[i].reading));
    }
  }

  Delivery delivery(const Shot* without = nullptr) const {
    Delivery out;
    for (std::size_t i = 0; i < parts_.size(); ++i)
      out.*parts_[i].value = sums_[i].mean_without(without ? without->at(parts_[i].reading) : std::nullopt);
    return out;
  }
  double at(const Shot* without = nullptr) const {
    const double measured = measured_.mean_without(without ? goal_of(*without) : std::nullopt);
    return measured - goal_in(drive_from(delivery(without), handed_, setting_), goal_);
  }

  // How far chance moves it: the jackknife (Efron & Stein, Ann. Stat. 9 (1981) 586, memory). [m2]
  double variance() const {
    std::vector<double> without;
    for (const Shot* shot : shots_) without.push_back(at(shot));
    const Summary left = summarise(without);
    const double n = static_cast<double>(left.count);
    return left.has_spread() ? left.sd * left.sd * (n - 1.0) * (n - 1.0) / n : 0.0;
  }

  // How far the model may be off for this head alone; what it says of ball and air is the same for all. [m2]
  double model_variance(const ModelWidth& width) const {
    const Delivery mean = delivery();
    const double here = goal_in(drive_from(mean, handed_, setting_), goal_);
    const auto moved = [&](const Delivery& d, const ModelErrorOf<double>& error) {
      const double change = goal_in(drive_from(d, handed_, setting_, kFlightTolerance, error), goal_) - here;
      return change * change;
    };
    double out = moved(mean, {.restitution = width.restitution}) +
                 moved(mean, {.tangential_restitution = width.tangential_restitution});
    const auto unseen = [&](Reading reading, double Delivery::*member, double by) {
      if (std::any_of(parts_.begin(), parts_.end(), [&](const DeliveryPart& p) { return p.reading == reading; }))
        return;
      Delivery off = mean;
      off.*member += by;
      out += moved(off, {});
    };
    unseen(Reading::toe, &Delivery::toe, width.toe);
    unseen(Reading::high, &Delivery::high, width.high);
    return out;
  }

 private:
  std::optional<double> goal_of(const Shot& shot) const {
    return shot.at(goal_ == Goal::carry ? Reading::carry : Reading::total);
  }
  static void add(Sum& sum, const std::optional<double>& value) {
    if (!value) return;
    sum.sum += *value;
    ++sum.count;
  }

  const Shots& shots_;
  const std::vector<DeliveryPart>& parts_;
  Goal goal_;
  const Setting& setting_;
  Handed handed_;
  Sum measured_;
  std::vector<Sum> sums_;
};

bool all_have(const Shots& shots, Reading reading) {
  return std::any_of(shots.begin(), shots.end(), [&](const Shot* shot) { return shot->at(reading).has_value(); });
}

// The deliveries' readings that every head has; none when a needed one is not among them.
std::vector<DeliveryPart> parts_of(const std::vector<Shots>& heads) {
  std::vector<DeliveryPart> out;
  for (const DeliveryPart& part : kDeliveryParts) {
    if (std::all_of(heads.begin(), heads.end(), [&](const Shots& shots) { return all_have(shots, part.reading); })) {
      out.push_back(part);
    } else if (part.needed) {
      return {};
    }
  }
  return out;
}

std::vector<Shots> shots_of(const std::vector<HeadShots>& heads, Outliers odd) {
  std::vector<Shots> out;
  for (const HeadShots& head : heads) out.push_back(counted(head.list, odd));
  return out;
}

// What is one head's alone: measured minus modelled, set against the mean of the others. The head that stands out most
// is no measure for the rest, or one bad day would make good ones of all others; of two heads nobody can say which.
void set_against_others(const std::vector<double>& beyond, const std::vector<double>& variance, HeadsAnswer& out) {
  const std::size_t heads = beyond.size();
  const double each = std::pow(out.options.confidence, 1.0 / static_cast<double>(heads)),
               critical = normal_quantile(0.5 + 0.5 * each);
  std::vector<bool> stands_out(heads, false);
  for (std::size_t left = heads;; --left) {
    std::size_t most = 0;
    double most_share = 0.0;
    for (std::size_t i = 0; i < heads; ++i) {
      double sum = 0.0, of_sum = 0.0, n = 0.0;
      for (std::size_t j = 0; j < heads; ++j) {
        if (j != i && !stands_out[j]) sum += beyond[j], of_sum += variance[j], n += 1.0;
      }
      ModelledHead& m = *out.heads[i].modelled;
      m.beyond_others = beyond[i] - sum / n;
      m.standard_error = std::sqrt(variance[i] + of_sum / (n * n));
      m.explained_up_to = critical * m.standard_error;
      const double share = std::abs(m.beyond_others) / m.explained_up_to;
      if (!stands_out[i] && share > most_share) most = i, most_share = share;
    }
    if (left <= 2 || most_share <= 1.0) return;
    stands_out[most] = true;
  }
}

}  // namespace

void add_model(const std::vector<HeadShots>& heads, const Setting& setting, Handed handed, HeadsAnswer& out) {
  const HeadsOptions& o = out.options;
  std::vector<HeadShots> completed;
  std::vector<Shots> shots = shots_of(heads, o.odd);
  std::vector<DeliveryPart> parts = parts_of(shots);
  const bool inferred = parts.empty();
  if (inferred) {
    completed = heads;
    for (HeadShots& head : completed) head.list = complete(head.list, setting, handed).list;
    shots = shots_of(completed, o.odd);
    parts = parts_of(shots);
    if (parts.empty()) {
      out.notes.push_back({0, "There is no answer of the model: not every head has a delivery or ball numbers"});
      return;
    }
  }
  std::vector<double> beyond, variance;
  for (std::size_t i = 0; i < heads.size(); ++i) {
    const Beyond one(shots[i], parts, o.goal, setting, handed);
    const Delivery mean = one.delivery();
    const Drive drive = drive_from(mean, handed, setting);
    beyond.push_back(one.at());
    variance.push_back(one.variance() + one.model_variance({}));
    out.heads[i].modelled = ModelledHead{mean, inferred, drive.flight.carry, drive.total, 0.0, 0.0, 0.0};
  }
  set_against_others(beyond, variance, out);
  const auto modelled_goal = [&](std::size_t i) {
    return o.goal == Goal::carry ? out.heads[i].modelled->carry : out.heads[i].modelled->total;
  };
  std::size_t first = 0;
  for (std::size_t i = 1; i < heads.size(); ++i) first = modelled_goal(i) > modelled_goal(first) ? i : first;
  out.model_disagrees = first != 0;
}

}  // namespace loftwright
