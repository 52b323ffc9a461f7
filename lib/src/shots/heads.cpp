#include "loftwright/shots/heads.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loftwright/stats/detail/difference.hpp"
#include "shots/heads_model.hpp"
#include "stats/quasi.hpp"

namespace loftwright {

namespace {

constexpr std::size_t kLeastShots = 2;  // [-] of a head: fewer have no scatter

Reading reading_of(Goal goal) { return goal == Goal::carry ? Reading::carry : Reading::total; }

std::vector<double> values_in(const HeadShots& head, Reading reading, Outliers odd) {
  return values_of(counted(head.list, odd), reading);
}

bool enough(const HeadShots& head, Reading reading, Outliers odd) {
  return values_in(head, reading, odd).size() >= kLeastShots;
}

void check_options(const HeadsOptions& options) {
  check(Quantity::worthwhile, options.worthwhile);
  check_range("confidence", options.confidence, 0.5, 0.9999, "");
  check_range("power", options.power, 0.05, 0.999, "");
  check(Quantity::fairway, options.fairway);
}

// A reading measured with every head stays as it is; else it is computed for every shot of every head, so that
// measured and computed never stand in one column. Whether it was computed, and something came of it.
bool measured_or_computed(std::vector<HeadShots>& heads, Reading reading, const Setting& setting, Handed handed,
                          Outliers odd) {
  const auto has = [&](const HeadShots& head) { return enough(head, reading, odd); };
  if (std::all_of(heads.begin(), heads.end(), has)) return false;
  for (HeadShots& head : heads) {
    for (Shot& shot : head.list.shots) shot.at(reading).reset();
    const ShotList completed = complete(head.list, setting, handed).list;
    for (std::size_t i = 0; i < completed.shots.size(); ++i)
      head.list.shots[i].at(reading) = completed.shots[i].at(reading);
  }
  return std::any_of(heads.begin(), heads.end(),
                     [&](const HeadShots& head) { return !values_in(head, reading, odd).empty(); });
}

// The goal measured, or where a head has none of it, computed for all; what cannot be computed stays measured. A head
// with a single measured one is left out later: it does not make all the others' computed.
std::vector<HeadShots> with_goal(const std::vector<HeadShots>& given, const Setting& setting, Handed handed,
                                 HeadsAnswer& out) {
  const HeadsOptions& o = out.options;
  const Reading goal = reading_of(o.goal);
  const auto has_any = [&](const HeadShots& head) { return !values_in(head, goal, o.odd).empty(); };
  if (std::all_of(given.begin(), given.end(), has_any)) return given;
  std::vector<HeadShots> computed = given;
  measured_or_computed(computed, goal, setting, handed, o.odd);
  const auto count = [&](const std::vector<HeadShots>& heads) {
    return std::count_if(heads.begin(), heads.end(), [&](const HeadShots& h) { return enough(h, goal, o.odd); });
  };
  if (count(computed) <= count(given)) return given;
  (o.goal == Goal::carry ? out.carry_computed : out.total_computed) = true;
  return computed;
}

// Heads whose goal says nothing are not compared, and why is said.
void leave_out(std::vector<HeadShots>& heads, Reading goal, HeadsAnswer& out) {
  std::vector<HeadShots> kept;
  for (HeadShots& head : heads) {
    const Summary summary = summarise(values_in(head, goal, out.options.odd));
    if (summary.count >= kLeastShots && summary.sd > 0.0) {
      kept.push_back(std::move(head));
      continue;
    }
    const std::string_view title = info(goal).title;
    out.left_out.push_back({head.name, summary.count >= kLeastShots
                                           ? fmt::format("{} does not vary over its {} shots", title, summary.count)
                                           : fmt::format("{} with {}; at least two are needed",
                                                         summary.count == 1 ? "one shot" : "no shot", title)});
  }
  heads = std::move(kept);
  if (heads.size() >= 2) return;
  std::string why;
  const auto same = [&](const LeftOutHead& one) { return one.reason == out.left_out.front().reason; };
  const bool all_alike = heads.empty() && std::all_of(out.left_out.begin(), out.left_out.end(), same);
  for (const LeftOutHead& one : out.left_out) {
    why += fmt::format("; {}: {}", all_alike ? "every head" : one.name, one.reason);
    if (all_alike) break;
  }
  throw InputError(
      fmt::format("fewer than two heads have a {} to compare, at least twice each, and it cannot be computed: that "
                  "takes ball speed, "
                  "launch and spin, or club speed, attack and delivered loft{}",
                  info(goal).title, why));
}

// Wilson's interval for a share.
FairwaysHeld fairways_of(const std::vector<double>& sides, double width, double confidence) {
  const Summary side = summarise(sides);
  const auto held = static_cast<std::size_t>(
      std::count_if(sides.begin(), sides.end(), [&](double s) { return std::abs(s - side.mean) <= 0.5 * width; }));
  const double n = static_cast<double>(side.count), share = static_cast<double>(held) / n;
  const double z = normal_quantile(0.5 + 0.5 * confidence), zz = z * z / n;
  const double middle = (share + zz / 2.0) / (1.0 + zz),
               half = z / (1.0 + zz) * std::sqrt(share * (1.0 - share) / n + zz / (4.0 * n));
  return {held, side.count, std::max(0.0, middle - half), std::min(1.0, middle + half), side.mean};
}

// Shots with the goal in the order in which they were hit.
std::vector<Ordered> in_order(const std::vector<HeadShots>& heads, Reading goal, Outliers odd) {
  struct Hit {
    std::size_t line;
    Ordered value;
  };
  std::vector<Hit> hits;
  for (std::size_t i = 0; i < heads.size(); ++i) {
    for (const Shot* shot : counted(heads[i].list, odd)) {
      if (shot->at(goal)) hits.push_back({shot->line, {i, heads[i].run, *shot->at(goal)}});
    }
  }
  std::stable_sort(hits.begin(), hits.end(), [](const Hit& a, const Hit& b) {
    return std::pair(a.value.run, a.line) < std::pair(b.value.run, b.line);
  });
  std::vector<Ordered> out;
  for (const Hit& hit : hits) out.push_back(hit.value);
  return out;
}

bool in_blocks(const std::vector<Ordered>& order, std::size_t heads) {
  std::size_t blocks = 1;
  for (std::size_t i = 1; i < order.size(); ++i) blocks += order[i].sample != order[i - 1].sample ? 1 : 0;
  return blocks == heads;
}

std::vector<Summary> summaries(const std::vector<HeadShots>& heads, Reading reading, Outliers odd) {
  std::vector<Summary> out;
  for (const HeadShots& head : heads) out.push_back(summarise(values_in(head, reading, odd)));
  return out;
}

std::optional<AverageReading> average(const Summary& summary, double error, std::size_t heads, double confidence) {
  if (!summary.has_spread()) return std::nullopt;
  const MeanInterval interval = mean_interval(summary, error, heads, confidence);
  return AverageReading{summary, interval.low, interval.high};
}

// The ends of the intervals of carry and total are as wide as the goal's wandering makes them.
void fill_heads(const std::vector<HeadShots>& heads, const MeanErrors& errors, HeadsAnswer& out) {
  const HeadsOptions& o = out.options;
  const auto carries = summaries(heads, Reading::carry, o.odd), totals = summaries(heads, Reading::total, o.odd);
  for (std::size_t i = 0; i < heads.size(); ++i) {
    const HeadShots& head = heads[i];
    const auto mean_of = [&](const Summary& summary) {
      const double n = static_cast<double>(values_in(head, reading_of(o.goal), o.odd).size());
      return average(summary, std::max(1.0, n * errors[i][i]) / static_cast<double>(summary.count), heads.size(),
                     o.confidence);
    };
    HeadResult one{head.name,
                   values_in(head, reading_of(o.goal), o.odd).size(),
                   head.list.shots.size() - counted(head.list, o.odd).size(),
                   mean_of(carries[i]),
                   mean_of(totals[i]),
                   {},
                   0.0,
                   values_in(head, reading_of(o.goal), o.odd),
                   {}};
    out.heads.push_back(std::move(one));
  }
  const bool sides = std::all_of(heads.begin(), heads.end(),
                                 [&](const HeadShots& head) { return enough(head, Reading::side, o.odd); });
  for (std::size_t i = 0; sides && i < heads.size(); ++i)
    out.heads[i].fairways = fairways_of(values_in(heads[i], Reading::side, o.odd), o.fairway, o.confidence);
}

HeadPair pair_of(const PairTest& test, const std::vector<Summary>& goals, const HeadsOptions& options) {
  HeadPair out{test.first, test.second, test, Apart::not_yet, 0};
  if (test.low > 0.0) {
    out.apart = Apart::further;
  } else if (std::max(-test.low, test.high) < options.worthwhile) {
    out.apart = Apart::alike;
  } else {
    out.shots_needed = values_needed(std::max(test.difference, options.worthwhile), test, goals[test.first],
                                     goals[test.second], options.power);
  }
  return out;
}

// Numbers in a name: "Demo 10.5" -> 10.5.
std::vector<double> numbers_in(const std::string& name) {
  std::vector<double> out;
  std::string number;
  for (std::size_t i = 0; i <= name.size(); ++i) {
    const char c = i < name.size() ? name[i] : ' ';
    const bool digit = c >= '0' && c <= '9';
    const bool point = (c == '.' || c == ',') && !number.empty() && number.find('.') == std::string::npos &&
                       i + 1 < name.size() && name[i + 1] >= '0' && name[i + 1] <= '9';
    if (digit || point) {
      number += point ? '.' : c;
      continue;
    }
    if (!number.empty() && number.size() < 8) out.push_back(std::stod(number));
    number.clear();
  }
  return out;
}

std::optional<std::size_t> find_in_hand(const std::vector<HeadShots>& heads, const HeadsOptions& options) {
  std::optional<std::size_t> found;
  if (options.in_hand) {
    std::string known;
    for (std::size_t i = 0; i < heads.size(); ++i) {
      if (fold(heads[i].name) == fold(*options.in_hand)) found = i;
      known += fmt::format("{}'{}'", known.empty() ? "" : ", ", heads[i].name);
    }
    if (!found)
      throw InputError(fmt::format("the head in hand, '{}', is not among them; heads: {}", *options.in_hand, known));
    return found;
  }
  if (!options.club_loft) return std::nullopt;
  constexpr double kSame = 0.051;  // [deg] as lofts are written
  for (std::size_t i = 0; i < heads.size(); ++i) {
    const std::vector<double> numbers = numbers_in(heads[i].name);
    const auto is_loft = [&](double number) { return std::abs(number - *options.club_loft / kDegree) < kSame; };
    if (std::none_of(numbers.begin(), numbers.end(), is_loft)) continue;
    if (found) return std::nullopt;
    found = i;
  }
  return found;
}

// The longest first; of equal ones as they came.
void rank(std::vector<HeadShots>& heads, Reading goal, Outliers odd) {
  std::stable_sort(heads.begin(), heads.end(), [&](const HeadShots& a, const HeadShots& b) {
    return summarise(values_in(a, goal, odd)).mean > summarise(values_in(b, goal, odd)).mean;
  });
}

}  // namespace

std::string_view key_of(Apart apart) {
  switch (apart) {
    case Apart::further: return "further";
    case Apart::alike: return "alike";
    case Apart::not_yet: return "not_yet";
  }
  return "";
}

const HeadPair& HeadsAnswer::pair(std::size_t a, std::size_t b) const {
  return *std::find_if(pairs.begin(), pairs.end(), [&](const HeadPair& p) {
    return (p.first == a && p.second == b) || (p.first == b && p.second == a);
  });
}

std::optional<std::size_t> HeadsAnswer::better() const {
  for (std::size_t i = 0; i < against(); ++i) {
    if (pair(i, against()).apart == Apart::further) return i;
  }
  return std::nullopt;
}

HeadsAnswer compare_heads(const std::vector<HeadShots>& given, const Setting& setting, Handed handed,
                          const HeadsOptions& options) {
  check_options(options);
  HeadsAnswer out;
  out.options = options;
  const Reading goal = reading_of(options.goal);
  find_in_hand(given, options);  // a name that is not there is said before anything else
  std::vector<HeadShots> heads = with_goal(given, setting, handed, out);
  leave_out(heads, goal, out);
  const auto fill = [&](Reading reading) { return measured_or_computed(heads, reading, setting, handed, options.odd); };
  if (options.goal == Goal::total) out.carry_computed = fill(Reading::carry);
  if (options.goal == Goal::carry) out.total_computed = fill(Reading::total);
  out.side_computed = fill(Reading::side);
  rank(heads, goal, options.odd);

  const std::vector<Summary> goals = summaries(heads, goal, options.odd);
  const std::vector<Ordered> order = in_order(heads, goal, options.odd);
  const Wandering wanders = wandering(order, goals);
  out.wandering = wanders.share;
  out.in_blocks = in_blocks(order, heads.size());
  double naive = 0.0, wider = 0.0;
  fill_heads(heads, wanders.errors, out);
  for (const PairTest& test : all_pairs(goals, wanders.errors, options.confidence)) {
    out.pairs.push_back(pair_of(test, goals, options));
    const Summary &a = goals[test.first], &b = goals[test.second];
    naive += std::hypot(a.standard_error, b.standard_error);
    wider += test.standard_error;
  }
  out.wider = wider / naive;
  const std::vector<double> best = best_probabilities(goals, wanders.errors, {kHeadsApart, options.seed});
  for (std::size_t i = 0; i < heads.size(); ++i) out.heads[i].best_probability = best[i];
  out.in_hand = find_in_hand(heads, options);
  add_model(heads, setting, handed, out);
  return out;
}

}  // namespace loftwright
