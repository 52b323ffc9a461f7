#include "loftwright/clinic/rack.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <numeric>

#include "advise/search.hpp"
#include "clinic/each.hpp"
#include "loftwright/pupil/validate.hpp"

namespace loftwright {

namespace {

constexpr int kDrives = 256;  // [-] of the pupil's scatter: lofts then differ to a few centimetres

// The attack that the verdict ends with.
double advised_attack(const Entrant& entrant, const AdviseOptions& options) {
  AdviseOptions plain = options_for(entrant, options);
  plain.verdict_only = true;
  plain.second_air = nullptr;
  const Advice advice = advise(entrant.pupil, entrant.setting, plain);
  return advice.feasible ? advice.at(strategy_of(advice.verdict.leader)).attack : entrant.pupil.delivery.attack;
}

// The longest average drive of any loft in the list's span, by the search that advise uses.
double best_loft_of(const Pupil& pupil, const Setting& setting, const LoftChoice& club, double attack,
                    const AdviseOptions& options, std::atomic<int>& flights) {
  return search(DriveModel(pupil, setting, options, flights), std::array{Way{club, {attack, attack}}}, options)
      .point.loft;
}

LoftCurve curve_of(const Pupil& pupil, const Setting& setting, const std::vector<double>& lofts, double attack,
                   const AdviseOptions& options) {
  LoftCurve out;
  out.name = pupil.name;
  out.goal = pupil.goal;
  out.attack = attack;
  out.loft_in_hand = pupil.club_loft;
  std::atomic<int> flights = 0;
  AdviseOptions closer = options;
  closer.shots = std::max(kDrives, options.shots);
  const DriveModel model(pupil, setting, closer, flights);
  const LoftChoice own = club_in_hand(pupil);
  LoftChoice of_rack = own;
  of_rack.low = lofts.front();
  of_rack.high = lofts.back();
  of_rack.face_per_loft = 0.0;

  std::vector<DriveModel::Place> places;
  for (const double loft : lofts) places.push_back({loft, attack});
  places.push_back({best_loft_of(pupil, setting, of_rack, attack, options, flights), attack});
  const std::vector<Point> points = model.values(of_rack, places);
  const double base = model.value(own, pupil.club_loft, attack).goal;
  const auto met = [](const Point& p) { return p.worst() <= kLimitSlack; };
  for (std::size_t j = 0; j < lofts.size(); ++j) {
    out.gain.push_back(points[j].goal - base);
    out.usable.push_back(met(points[j]));
  }
  bool any = false;
  for (std::size_t j = 0; j < points.size(); ++j) {
    if (!met(points[j]) || (any && points[j].goal - base <= out.best_gain)) continue;
    any = true;
    out.best_gain = points[j].goal - base;
    out.best_loft = points[j].loft;
  }
  return out;
}

bool any_of(const std::vector<bool>& flags) { return std::find(flags.begin(), flags.end(), true) != flags.end(); }

}  // namespace

void check_rack(const std::vector<double>& lofts, int places) {
  check_range("lofts", static_cast<double>(lofts.size()), 1.0, static_cast<double>(kMostRackLofts), "");
  for (std::size_t j = 0; j < lofts.size(); ++j) {
    check(Quantity::loft, lofts[j], "lofts");
    if (j > 0 && lofts[j] - lofts[j - 1] < kLeastRackStep) {
      throw InputError(
          fmt::format("lofts: {:.2f} and {:.2f} deg; each must be at least {:.1f} deg above the one before",
                      lofts[j - 1] / kDegree, lofts[j] / kDegree, kLeastRackStep / kDegree));
    }
  }
  check_range("places", places, 1.0, static_cast<double>(lofts.size()), "");
}

LoftCurve loft_curve(const Entrant& entrant, const std::vector<double>& lofts, RackSwing swing,
                     const AdviseOptions& options) {
  check_rack(lofts, 1);
  validate(entrant.pupil);
  const double attack = swing == RackSwing::now ? entrant.pupil.delivery.attack : advised_attack(entrant, options);
  LoftCurve out = curve_of(entrant.pupil, entrant.setting, lofts, attack, options);
  if (!any_of(out.usable)) {
    Pupil free = entrant.pupil;
    free.limits.clear();
    out = curve_of(free, entrant.setting, lofts, attack, options);
    out.limits_given_up = true;
  }
  out.taken = entrant.taken;
  return out;
}

std::vector<CurveResult> loft_curves(std::size_t count, const EntrantSource& entrant, const std::vector<double>& lofts,
                                     RackSwing swing, const AdviseOptions& options,
                                     const std::function<void(std::size_t)>& done) {
  check_rack(lofts, 1);
  AdviseOptions each = options;
  each.threads = threads_each(count, options.threads);
  std::vector<CurveResult> out(count);
  each_entrant(
      count, entrant, options.threads, done,
      [&](std::size_t i, const Entrant& e) { out[i].curve = loft_curve(e, lofts, swing, each); },
      [&](std::size_t i, const Findings& findings) {
        out[i] = {std::nullopt, findings};
      });
  return out;
}

std::vector<double> losses_of(const LoftCurve& curve) {
  double worst = 0.0;  // with the club in hand
  for (std::size_t j = 0; j < curve.gain.size(); ++j) {
    if (curve.usable[j]) worst = std::min(worst, curve.gain[j]);
  }
  worst = std::min(worst, curve.best_gain);
  std::vector<double> out;
  for (std::size_t j = 0; j < curve.gain.size(); ++j)
    out.push_back(curve.best_gain - (curve.usable[j] ? curve.gain[j] : worst));
  return out;
}

}  // namespace loftwright
