// Which lofts: a problem of k medians. What a set of lofts saves is submodular (the more there are, the less one more
// saves), so from any set no k further lofts save more than the k largest of what each saves alone: the bound that
// branch and bound cuts by (Nemhauser, Wolsey & Fisher, Math. Programming 14 (1978) 265, from memory).
#include <algorithm>
#include <numeric>
#include <stdexcept>

#include "loftwright/clinic/rack.hpp"

namespace loftwright {

namespace {

// Losses a column a loft, which is how they are gone through.
struct Losses {
  std::size_t pupils;
  std::vector<std::vector<double>> of_loft;
  std::vector<double> worst;  // of each pupil, whatever loft there is
};

Losses in_columns(const std::vector<std::vector<double>>& rows) {
  Losses out{rows.size(), {}, {}};
  const std::size_t lofts = rows.empty() ? 0 : rows.front().size();
  out.of_loft.assign(lofts, std::vector<double>(rows.size()));
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].size() != lofts) throw std::invalid_argument("losses: rows of different lengths");
    for (std::size_t j = 0; j < lofts; ++j) out.of_loft[j][i] = rows[i][j];
    out.worst.push_back(lofts > 0 ? *std::max_element(rows[i].begin(), rows[i].end()) : 0.0);
  }
  return out;
}

double sum_of(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

double saved_by(const std::vector<double>& loft, const std::vector<double>& now) {
  double sum = 0.0;
  for (std::size_t i = 0; i < now.size(); ++i) sum += std::max(0.0, now[i] - loft[i]);
  return sum;
}

std::vector<double> with(const std::vector<double>& loft, const std::vector<double>& now) {
  std::vector<double> out(now.size());
  for (std::size_t i = 0; i < now.size(); ++i) out[i] = std::min(now[i], loft[i]);
  return out;
}

struct Candidate {
  std::size_t loft;
  double saves;  // [m] added to the rack so far
};

// Most first; of equals the least loft.
std::vector<Candidate> ranked(const Losses& losses, const std::vector<double>& now,
                              const std::vector<std::size_t>& among) {
  std::vector<Candidate> out;
  for (const std::size_t j : among) out.push_back({j, saved_by(losses.of_loft[j], now)});
  std::sort(out.begin(), out.end(), [](const Candidate& a, const Candidate& b) {
    return a.saves > b.saves || (a.saves == b.saves && a.loft < b.loft);
  });
  return out;
}

std::vector<std::size_t> lofts_of(const std::vector<Candidate>& candidates, std::size_t from) {
  std::vector<std::size_t> out;
  for (std::size_t t = from; t < candidates.size(); ++t) out.push_back(candidates[t].loft);
  return out;
}

class Search {
 public:
  Search(const Losses& losses, std::size_t places) : losses_(losses) {
    std::vector<std::size_t> all(losses.of_loft.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    branch(losses.worst, sum_of(losses.worst), all, places);
    std::sort(best_.chosen.begin(), best_.chosen.end());
  }

  const RackOfSize& best() const { return best_; }
  long looked_at() const { return looked_at_; }

 private:
  // `left` more of `among` go into the rack, with which pupils lose `now`. Those that save most are tried first: the
  // first rack looked at is the greedy one. What was tried is out of what comes after, so that no rack comes twice.
  void branch(const std::vector<double>& now, double lost, const std::vector<std::size_t>& among, std::size_t left) {
    ++looked_at_;
    const std::vector<Candidate> order = ranked(losses_, now, among);
    if (left == 1) {
      take(lost - order.front().saves, order.front().loft);
      return;
    }
    for (std::size_t t = 0; t + left <= order.size(); ++t) {
      double most = 0.0;
      for (std::size_t s = t; s < t + left; ++s) most += order[s].saves;
      if (!betters(lost - most)) return;  // nor can anything that comes after
      chosen_.push_back(order[t].loft);
      branch(with(losses_.of_loft[order[t].loft], now), lost - order[t].saves, lofts_of(order, t + 1), left - 1);
      chosen_.pop_back();
    }
  }

  void take(double lost, std::size_t last) {
    if (!betters(lost)) return;
    best_.chosen = chosen_;
    best_.chosen.push_back(last);
    best_.lost = lost;
  }

  bool betters(double lost) const {
    constexpr double kRounding = 1e-13;  // [-] racks that differ by less are the same
    return best_.chosen.empty() || lost < best_.lost - kRounding * (1.0 + best_.lost);
  }

  const Losses& losses_;
  std::vector<std::size_t> chosen_;
  RackOfSize best_;
  long looked_at_ = 0;
};

std::vector<double> lost_with(const Losses& losses, const std::vector<std::size_t>& chosen) {
  std::vector<double> now = losses.worst;
  for (const std::size_t j : chosen) now = with(losses.of_loft[j], now);
  return now;
}

RackOfSize solved(const Losses& losses, std::size_t places, long* looked_at) {
  check_range("places", static_cast<double>(places), 1.0, static_cast<double>(losses.of_loft.size()), "");
  const Search search(losses, places);
  if (looked_at) *looked_at += search.looked_at();
  RackOfSize out = search.best();
  out.lost = sum_of(lost_with(losses, out.chosen));  // without what was rounded on the way
  return out;
}

// One loft after the other, always the one that saves most.
std::vector<RackNext> bought_next(const Losses& losses, const std::vector<std::size_t>& chosen) {
  std::vector<double> now = lost_with(losses, chosen);
  std::vector<std::size_t> rest;
  for (std::size_t j = 0; j < losses.of_loft.size(); ++j) {
    if (std::find(chosen.begin(), chosen.end(), j) == chosen.end()) rest.push_back(j);
  }
  std::vector<RackNext> out;
  while (!rest.empty()) {
    const std::vector<Candidate> order = ranked(losses, now, rest);
    out.push_back({order.front().loft, order.front().saves});
    now = with(losses.of_loft[order.front().loft], now);
    rest = lofts_of(order, 1);
  }
  return out;
}

RackUse use_of(const LoftCurve& curve, const std::vector<double>& losses, const std::vector<std::size_t>& chosen) {
  RackUse out{std::nullopt, 0.0, losses[chosen.front()]};
  for (const std::size_t j : chosen) {
    out.lost = std::min(out.lost, losses[j]);
    if (curve.usable[j] && (!out.loft || curve.gain[j] > out.gain)) out.loft = j, out.gain = curve.gain[j];
  }
  return out;
}

}  // namespace

RackOfSize best_rack(const std::vector<std::vector<double>>& losses, std::size_t places, long* looked_at) {
  return solved(in_columns(losses), places, looked_at);
}

Rack choose_rack(const std::vector<double>& lofts, const std::vector<LoftCurve>& curves, int places) {
  check_rack(lofts, places);
  if (curves.empty()) throw InputError("rack: there is no pupil to choose for");
  std::vector<std::vector<double>> rows;
  for (const LoftCurve& curve : curves) rows.push_back(losses_of(curve));
  const Losses losses = in_columns(rows);
  Rack out;
  out.lofts = lofts;
  for (std::size_t size = 1; size <= lofts.size(); ++size) out.by_size.push_back(solved(losses, size, &out.looked_at));
  out.best = out.by_size[static_cast<std::size_t>(places) - 1];
  out.next = bought_next(losses, out.best.chosen);
  for (std::size_t i = 0; i < curves.size(); ++i) out.uses.push_back(use_of(curves[i], rows[i], out.best.chosen));
  return out;
}

}  // namespace loftwright
